/// @file
/// What the plant table holds.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"
#include "firstdrop/tables/still.hpp"

namespace firstdrop {

/// What has become of the plant since it was cut.
enum class State {
  fresh,   ///< as cut
  wilted,  ///< limp, with part of its water gone
  dried,   ///< as herbs are stored
};
/// What was done to it before it is loaded.
enum class Cut {
  whole,    ///< nothing
  chopped,  ///< cut into pieces
  crushed,  ///< bruised or broken, so that glands and seed coats open
  ground,   ///< milled to a powder
};

/// As files have it: the names above.
std::string to_string(State state);
/// As files have it: the names above.
std::string to_string(Cut cut);

/// What the published oil content is a share of.
enum class OilPer {
  as_received,  ///< of the material with its water
  dry_matter,   ///< of what is left when all water is gone
};
/// How far the published distillation went.
enum class Distilled {
  to_exhaustion,  ///< in a laboratory's apparatus, until no more came: all the oil of the material
  to_stated_end,  ///< in a still, until somebody stopped it: what that still got of the oil
};

/// Oil in the material. Exactly one of the two figures is set: published yields are by mass or by
/// volume, and turning one into the other needs the oil's density.
struct OilContent {
  std::optional<Cited<Fraction>> by_mass;          ///< kg oil per kg material
  std::optional<Cited<SpecificVolume>> by_volume;  ///< m3 oil per kg material
  OilPer per = OilPer::as_received;                ///< what it is a share of
  Distilled distilled = Distilled::to_exhaustion;  ///< how far
  std::optional<double> studies;  ///< effective number behind the figure; none: not said
  std::optional<double> trials;   ///< studies that distilled it themselves; none: not said
};

/// How a charge of one cut lies.
struct BulkDensity {
  Cut cut = Cut::chopped;  ///< for which it holds
  Cited<Density> density;  ///< of the charge as it lies in the column
};

/// One plant in one state. What nobody has published is left out here; see plant_figures.hpp for
/// the figure that then serves.
struct PlantState {
  std::optional<Cited<Fraction>> moisture;  ///< kg water per kg material as loaded
  std::vector<BulkDensity> bulk_density;    ///< one for each cut at most
  std::optional<OilContent> oil_content;    ///< none: that of another state, converted
};

/// How fast the oil comes, for one way of running the still.
struct OilRelease {
  Cited<Duration> half_life;  ///< to release half of the oil, with the typical fast share
  std::optional<Cited<Fraction>> fast_share = {};  ///< of the fast stage; none: that of all plants
  std::optional<Cited<Rate>> steam_flow = {};      ///< at which this holds, kg steam per kg charge
};

/// What the charge is like to weigh and pack, whatever the plant.
enum class PlantForm {
  leafy_herb,  ///< leaves with their stems
  leaf,        ///< leaves alone
  flowers,     ///< blossoms, with or without stalks
  needles,     ///< of conifers, with their twigs
  seed,        ///< seeds, fruits and buds that are crushed
  wood,        ///< chips and shavings
  root,        ///< roots and rhizomes
  peel,        ///< of citrus fruit
};
/// As files have it: the names above, with a hyphen.
std::string to_string(PlantForm form);

/// Defaults for all plants of one form.
struct FormDefaults {
  std::string note;                        ///< for people
  std::optional<Cited<Fraction>> hold_up;  ///< kg water per kg dry matter; else that of herb
  std::map<State, PlantState> states;      ///< those with defaults
};

/// Where the oil sits decides how fast steam gets it out: defaults for all plants alike in that.
struct ReleaseClass {
  std::string key;                         ///< by which plants name it
  std::string note;                        ///< for people
  std::map<Method, OilRelease> by_method;  ///< those for which something is published
};

/// When those who distil this plant stop.
struct UsualCut {
  std::optional<Cited<Duration>> time;  ///< from first drop
  std::string sign;                     ///< what to watch for
  Evidence evidence;                    ///< of the sign
};

/// How this plant is best distilled, where one way is better than the others.
struct BestMethod {
  Method method = Method::steam;  ///< the better way
  std::string why;                ///< a sentence
  Evidence evidence;              ///< who says so
};

/// A part of a plant's oil.
struct Constituent {
  std::string liquid;     ///< key in the liquid table
  Cited<Fraction> share;  ///< of the oil, by mass (gas chromatogram area per cent as printed)
};

/// What a hazard does, gravest first.
enum class Harm {
  seizures,      ///< of any kind
  coma,          ///< loss of consciousness
  poisoning,     ///< serious: it may kill, harms an organ within hours, or is called a poison
  lungs,         ///< swallowed, it can run into the lungs and harm them
  liver,         ///< harms the liver
  harmful,       ///< makes ill when swallowed; the source does not say how badly
  cancer,        ///< causes cancer or damages genes, or is suspected of it
  reproduction,  ///< harms fertility or the unborn child, or is suspected of it
  allergy,       ///< makes skin or airways allergic, or sets off an allergy
  irritation,    ///< irritates or burns skin, eyes or airways
  sunburn,       ///< makes skin burn in the sun
  fire,          ///< its vapour catches fire
  look_alike,    ///< a poisonous plant can be taken for this one
};
/// All of them, gravest first.
inline constexpr std::array all_harms = {
    Harm::seizures, Harm::coma,   Harm::poisoning,    Harm::lungs,   Harm::liver,
    Harm::harmful,  Harm::cancer, Harm::reproduction, Harm::allergy, Harm::irritation,
    Harm::sunburn,  Harm::fire,   Harm::look_alike,
};
/// Whether a plan must warn of it above all else: seizures, coma and serious poisoning.
constexpr bool is_grave(Harm harm) {
  return harm == Harm::seizures || harm == Harm::coma || harm == Harm::poisoning;
}

/// How the oil gets to where it does harm.
enum class Route {
  swallowed,  ///< by mouth
  breathed,   ///< as vapour or spray
  on_skin,    ///< neat or diluted
  in_eyes,    ///< as a splash
};
/// All of them.
inline constexpr std::array all_routes = {Route::swallowed, Route::breathed, Route::on_skin,
                                          Route::in_eyes};

/// Whom it harms more than others.
enum class AtRisk {
  infants,    ///< up to about 30 months
  children,   ///< above that age
  pregnancy,  ///< pregnant women
  epilepsy,   ///< people with epilepsy, or who have had a seizure
  allergic,   ///< people allergic to this oil or to kin of the plant
  pets,       ///< animals in the home
};
/// All of them.
inline constexpr std::array all_at_risk = {AtRisk::infants,  AtRisk::children, AtRisk::pregnancy,
                                           AtRisk::epilepsy, AtRisk::allergic, AtRisk::pets};

/// The part of the oil that does the harm, where its source names one.
enum class HarmfulSubstance {
  camphor,        ///< a ketone
  cineole,        ///< 1,8-cineole, eucalyptol
  estragole,      ///< methyl chavicol
  menthofuran,    ///< of mints
  menthol,        ///< of mints
  methyleugenol,  ///< of rose, bay and basil
  phenols,        ///< thymol, carvacrol, eugenol
  pinocamphone,   ///< and isopinocamphone
  pulegone,       ///< of mints
  safrole,        ///< of cinnamon bark
  thujone,        ///< alpha and beta
};
/// All of them.
inline constexpr std::array all_harmful_substances = {
    HarmfulSubstance::camphor,     HarmfulSubstance::cineole,      HarmfulSubstance::estragole,
    HarmfulSubstance::menthofuran, HarmfulSubstance::menthol,      HarmfulSubstance::methyleugenol,
    HarmfulSubstance::phenols,     HarmfulSubstance::pinocamphone, HarmfulSubstance::pulegone,
    HarmfulSubstance::safrole,     HarmfulSubstance::thujone,
};
/// Whether Annex III of Regulation (EC) No 1334/2008 names it: part A forbids adding it as such to
/// food, part B limits it in some foods.
/// Source: the Annex as adopted, part A; for part B a review of 2015 (demyttenaere-2015).
bool regulated_in_food(HarmfulSubstance substance);

/// As files have it: the names above, with a hyphen.
std::string to_string(Harm harm);
/// As files have it: the names above, with a hyphen.
std::string to_string(Route route);
/// As files have it: the names above.
std::string to_string(AtRisk group);
/// As files have it: the names above.
std::string to_string(HarmfulSubstance substance);

/// A danger of the plant or its oil. No value comes twice in a list.
struct Hazard {
  std::vector<Harm> harms;                   ///< what it does
  std::vector<Harm> ruled_out;               ///< harms that the text names to say it lacks them
  std::vector<Route> routes;                 ///< empty: not said, or none
  std::vector<AtRisk> at_risk;               ///< empty: everyone alike
  std::vector<HarmfulSubstance> substances;  ///< empty: not said, or the whole oil
  std::string text;                          ///< a sentence
  Evidence evidence;                         ///< its basis names the guideline
};

/// A plant: what is known of it and its oil. What it leaves out, the defaults of its form, its
/// release class and all plants fill in; see plant_figures.hpp.
struct Plant {
  std::string key;                ///< by which recipes name it
  std::string name;               ///< for people
  std::string latin;              ///< botanical name
  std::string part;               ///< that is distilled
  std::string note;               ///< for people; may be empty
  std::optional<PlantForm> form;  ///< none: it has all of the figures that a form would give
  std::optional<Cut> loaded;      ///< as people load it; none: by its form, see default_cut()
  std::string release_class;  ///< key, or "seed": crushed-seed or whole-seed by the cut; or empty
  std::map<State, PlantState> states;    ///< those in which it can be distilled
  std::map<Method, OilRelease> release;  ///< published for this plant
  std::map<Method, Cited<Fraction>>
      recovery;                           ///< of what was found to exhaustion in the same batch
  Cited<Density> oil_density;             ///< above zero
  std::vector<Constituent> constituents;  ///< in any order; shares sum to 1 at most
  std::optional<Cited<Density>> hydrosol_oil;     ///< measured: oil that stays in the hydrosol
  std::optional<Cited<Temperature>> oil_freezes;  ///< where it begins to
  std::optional<Cited<Temperature>> flash_point;  ///< of the oil
  bool wants_cohobation = false;                  ///< most of its oil stays in the first water
  std::optional<UsualCut> usual_cut;              ///< where the trade has one
  std::optional<BestMethod> best_method;          ///< where one is better
  std::vector<Hazard> hazards;  ///< those known; none listed does not mean harmless
};

/// Where an oil gathers in the receiver.
enum class OilPlace {
  floats,      ///< on the hydrosol
  near_water,  ///< may do either, or hang in drops
  sinks,       ///< under the hydrosol
};
/// By what is known of its density: near_water when its low and high straddle that of hydrosol,
/// which is water, near enough (998 kg/m3).
OilPlace oil_place(const Plant& plant);

/// The cut that a recipe means when it names none: as the plant's entry says, else flowers are
/// loaded whole, seed is crushed first, and anything else is chopped. A plant without a form is
/// chopped too, unless its own bulk densities leave chopped out: then it is the first cut they
/// have. Throws std::out_of_range for a plant without a form that does not have this state.
Cut default_cut(const Plant& plant, State state);

}  // namespace firstdrop
