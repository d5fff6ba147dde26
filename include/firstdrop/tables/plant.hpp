/// @file
/// The contents of the plant table.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "firstdrop/base/shared.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"
#include "firstdrop/tables/still.hpp"

namespace firstdrop {

/// The state of the plant material.
enum class State {
  fresh,   ///< as cut
  wilted,  ///< limp, with part of its water gone
  dried,   ///< dry, as herbs are stored
};
/// How the material was cut up before loading.
enum class Cut {
  whole,    ///< not cut up
  chopped,  ///< cut into pieces
  crushed,  ///< bruised or broken, so that glands and seed coats open
  ground,   ///< milled to a powder
};

/// The name in files, as above.
std::string to_string(State state);
/// The name in files, as above.
std::string to_string(Cut cut);

/// What a published oil content is a share of.
enum class OilPer {
  as_received,  ///< of the material with its water
  dry_matter,   ///< of what is left when all the water is gone
};
/// How far the published distillation went.
enum class Distilled {
  to_exhaustion,  ///< in laboratory apparatus until no more came: all of the material's oil
  to_stated_end,  ///< in a still until someone stopped it: the part of the oil that this still got
};

/// Oil in the material. Exactly one of the two figures is set, because published yields are by mass
/// or by volume. Converting one into the other needs the oil's density.
struct OilContent {
  std::optional<Cited<Fraction>> by_mass;          ///< kg oil per kg material
  std::optional<Cited<SpecificVolume>> by_volume;  ///< m3 oil per kg material
  OilPer per = OilPer::as_received;                ///< what it is a share of
  Distilled distilled = Distilled::to_exhaustion;  ///< how far the distillation went
  /// Effective number of studies behind the figure; none: not stated.
  std::optional<double> studies;
  /// How many of them distilled the plant themselves; none: not stated.
  std::optional<double> trials;
};

/// Bulk density of a charge of one cut.
struct BulkDensity {
  Cut cut = Cut::chopped;  ///< the cut that it is for
  Cited<Density> density;  ///< of the charge as it lies in the column
};

/// One plant in one state. A figure that nobody has published is left out here;
/// plant_parameters.hpp then selects another.
struct PlantState {
  std::optional<Cited<Fraction>> moisture;  ///< kg water per kg material, as-received
  std::vector<BulkDensity> bulk_density;    ///< at most one for each cut
  std::optional<OilContent> oil_content;    ///< none: converted from another state
};

/// How fast the oil comes, for one method.
struct OilRelease {
  Cited<Duration> half_life;  ///< time to release half of the oil, with the median fast fraction
  std::optional<Cited<Fraction>> fast_share = {};  ///< fast fraction; none: that of all plants
  /// Steam flow at which this holds, kg steam per kg charge and unit time; none: the default for
  /// all plants, DesignDefaults::steam_per_charge.
  std::optional<Cited<Rate>> steam_flow = {};
};

/// The form of the material, which decides how it weighs and packs, whatever the plant.
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
/// The name in files, as above but with a hyphen.
std::string to_string(PlantForm form);

/// Defaults for all plants of one form.
struct FormDefaults {
  std::string note;                        ///< for people
  std::optional<Cited<Fraction>> hold_up;  ///< kg water per kg dry matter; else that of herb
  /// States that have defaults. The oil content in one of them is that of a plant of which nothing
  /// is known but its form.
  std::map<State, PlantState> states;
  // Of such a plant, too.
  std::optional<Cited<Density>> oil_density;
  std::string release_class;  ///< as Plant::release_class; empty: not known
};

/// Defaults for all plants whose oil sits in the same place. That decides how fast steam gets it
/// out.
struct ReleaseClass {
  std::string key;                         ///< key that plants refer to it by
  std::string note;                        ///< for people
  std::map<Method, OilRelease> by_method;  ///< methods with published figures
};

/// When people who distil this plant stop.
struct UsualCut {
  std::optional<Cited<Duration>> time;  ///< from first drop
  std::string sign;                     ///< what to watch for
  Evidence evidence;                    ///< sources of the sign
};

/// How this plant is best distilled, if one method is better than the others.
struct BestMethod {
  Method method = Method::steam;  ///< the better method
  std::string why;                ///< the reason, in a sentence
  Evidence evidence;              ///< sources of the advice
};

/// Why steam is wrong for this plant.
struct Unsuited {
  bool refused = false;   ///< nobody should distil it; otherwise steam only spoils it
  std::string why;        ///< in sentences
  std::string usual_way;  ///< what people do instead, in a sentence; may be empty
  Evidence evidence;      ///< sources of the advice
};

/// Why, and what people do instead.
std::string in_words(const Unsuited& unsuited);

/// A part of a plant's oil.
struct Constituent {
  std::string liquid;     ///< key in the liquid table
  Cited<Fraction> share;  ///< of the oil, by mass (gas chromatogram area percent as printed)
};

/// The harm that a hazard does, gravest first.
enum class Harm {
  seizures,      ///< of any kind
  coma,          ///< loss of consciousness
  poisoning,     ///< serious: it may kill, harms an organ within hours, or is called a poison
  lungs,         ///< swallowed, it can run into the lungs and harm them
  liver,         ///< harms the liver
  harmful,       ///< makes people ill if swallowed; the source does not say how badly
  cancer,        ///< causes cancer or damages genes, or is suspected of it
  reproduction,  ///< harms fertility or the unborn child, or is suspected of it
  allergy,       ///< makes skin or airways allergic, or sets off an allergy
  irritation,    ///< irritates or burns skin, eyes or airways
  sunburn,       ///< makes skin burn in the sun
  fire,          ///< its vapour catches fire
  look_alike,    ///< a poisonous plant can be taken for this one
};
/// All harms, gravest first.
inline constexpr std::array all_harms = {
    Harm::seizures, Harm::coma,   Harm::poisoning,    Harm::lungs,   Harm::liver,
    Harm::harmful,  Harm::cancer, Harm::reproduction, Harm::allergy, Harm::irritation,
    Harm::sunburn,  Harm::fire,   Harm::look_alike,
};
/// Whether a plan must warn of it first: seizures, coma and serious poisoning.
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
/// All routes.
inline constexpr std::array all_routes = {Route::swallowed, Route::breathed, Route::on_skin,
                                          Route::in_eyes};

/// The people and animals that a hazard harms more than others.
enum class AtRisk {
  infants,    ///< up to about 30 months
  children,   ///< above that age
  pregnancy,  ///< pregnant women
  epilepsy,   ///< people with epilepsy, or who have had a seizure
  allergic,   ///< people allergic to this oil or to related plants
  pets,       ///< animals in the home
};
/// All groups at risk.
inline constexpr std::array all_at_risk = {AtRisk::infants,  AtRisk::children, AtRisk::pregnancy,
                                           AtRisk::epilepsy, AtRisk::allergic, AtRisk::pets};

/// The substance in the oil that does the harm, if the source names one.
enum class HarmfulSubstance {
  camphor,        ///< a ketone
  cineole,        ///< 1,8-cineole, eucalyptol
  estragole,      ///< methyl chavicol
  menthofuran,    ///< in mints
  menthol,        ///< in mints
  methyleugenol,  ///< in rose, bay and basil
  phenols,        ///< thymol, carvacrol, eugenol
  pinocamphone,   ///< and isopinocamphone
  pulegone,       ///< in mints
  safrole,        ///< in cinnamon bark
  thujone,        ///< alpha and beta
};
/// All harmful substances.
inline constexpr std::array all_harmful_substances = {
    HarmfulSubstance::camphor,     HarmfulSubstance::cineole,      HarmfulSubstance::estragole,
    HarmfulSubstance::menthofuran, HarmfulSubstance::menthol,      HarmfulSubstance::methyleugenol,
    HarmfulSubstance::phenols,     HarmfulSubstance::pinocamphone, HarmfulSubstance::pulegone,
    HarmfulSubstance::safrole,     HarmfulSubstance::thujone,
};
/// Whether Annex III of Regulation (EC) No 1334/2008 lists the substance. Part A forbids adding it
/// as such to food; part B limits it in some foods.
/// Source: for part A, the Annex as adopted; for part B, a review of 2015 (demyttenaere-2015).
bool regulated_in_food(HarmfulSubstance substance);

/// The name in files, as above but with a hyphen.
std::string to_string(Harm harm);
/// The name in files, as above but with a hyphen.
std::string to_string(Route route);
/// The name in files, as above.
std::string to_string(AtRisk group);
/// The name in files, as above.
std::string to_string(HarmfulSubstance substance);

/// A danger of the plant, its oil or its hydrosol. No list has the same value twice.
struct Hazard {
  std::vector<Harm> harms;      ///< what it does
  std::vector<Harm> ruled_out;  ///< harms that the text mentions only to say it does not do them
  std::vector<Route> routes;    ///< empty: not stated, or none
  std::vector<AtRisk> at_risk;  ///< empty: everyone alike
  std::vector<HarmfulSubstance> substances;  ///< empty: not stated, or the oil as a whole
  std::string text;                          ///< the danger, in a sentence
  Evidence evidence;                         ///< its basis names the guideline
};

struct Plant;
/// A plant of a blend.
struct BlendPart {
  Shared<Plant> plant;
  Fraction share;  ///< of the charge, by mass as loaded
};

/// A plant: what is known about it and its oil. Figures that it leaves out come from the defaults
/// for its form, its release class or all plants; see plant_parameters.hpp.
struct Plant {
  std::string key;                ///< key that recipes refer to it by
  std::string name;               ///< for people
  std::vector<std::string> also;  ///< other common names
  /// For a plant of which little is known: the key of the plant, or the word of the form, whose
  /// figures are used where it has none. Empty: none are.
  std::string like;
  std::string latin;              ///< botanical name
  std::string part;               ///< the part that is distilled
  std::string note;               ///< for people; may be empty
  std::optional<PlantForm> form;  ///< none: the plant has every figure that a form gives
  std::optional<Cut> loaded;  ///< as people load it; none: depends on the form, see default_cut()
  std::string release_class;  ///< key; or "seed", which means crushed-seed or whole-seed by the
                              ///< cut; or empty
  std::map<State, PlantState> states;          ///< states in which it can be distilled
  std::map<Method, OilRelease> release;        ///< published for this plant
  std::map<Method, Cited<Fraction>> recovery;  ///< of the oil found to exhaustion in the same batch
  std::optional<Cited<Density>> oil_density;   ///< above zero; see has_oil_figures()
  std::vector<Constituent> constituents;       ///< in any order; the shares sum to at most 1
  std::optional<Cited<Density>> hydrosol_oil;  ///< oil that stays in the hydrosol, measured
  std::optional<Cited<Temperature>> oil_freezes;  ///< temperature at which the oil begins to freeze
  std::optional<Cited<Temperature>> flash_point;  ///< of the oil
  bool wants_cohobation = false;                  ///< most of its oil stays in the first water
  /// Hydrosol that people collect per mass of fresh material; none: that of all plants.
  std::optional<Cited<SpecificVolume>> hydrosol_per_fresh;
  std::optional<UsualCut> usual_cut;      ///< if the trade has one
  std::optional<BestMethod> best_method;  ///< if one is better
  std::optional<Unsuited> unsuited;       ///< none: steam suits it
  std::vector<Hazard> hazards;            ///< known ones; an empty list does not mean harmless
  /// The plants that are loaded together; see blended(). Empty for a single plant.
  std::vector<BlendPart> blend;
};

/// Whether anything is known of the plant's oil. If not, plans are for its hydrosol and say nothing
/// of oil.
bool has_oil_figures(const Plant& plant);

/// Whether nobody should distil the plant.
bool is_refused(const Plant& plant);

/// Where an oil gathers in the receiver.
enum class OilPlace {
  floats,      ///< on the hydrosol
  near_water,  ///< may do either, or hang in drops
  sinks,       ///< under the hydrosol
};
/// Where the oil gathers, judged by its density. It is near_water if P10 and P90 of the density lie
/// on either side of that of hydrosol, which is taken to be water (998 kg/m3).
OilPlace oil_place(const Plant& plant);

/// The cut to use if a recipe doesn't give one. It is the plant's `loaded` if set. Otherwise
/// flowers are loaded whole, seed is crushed and any other form is chopped. A plant without a form
/// is chopped too, unless it has bulk densities but none for chopped; then it is the first cut that
/// has one.
/// Throws std::out_of_range for a plant without `loaded`, without a form and without this state.
Cut default_cut(const Plant& plant, State state);

}  // namespace firstdrop
