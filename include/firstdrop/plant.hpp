// What the plant table holds.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "firstdrop/method.hpp"
#include "firstdrop/quantity.hpp"
#include "firstdrop/source.hpp"

namespace firstdrop {

enum class State { fresh, wilted, dried };
enum class Cut { whole, chopped, crushed, ground };

std::string to_string(State state);
std::string to_string(Cut cut);

/// What the published oil content is a share of.
enum class OilPer { as_loaded, dry_matter };
/// By what the published oil content was found: a laboratory apparatus, or a still like ours.
enum class OilAssay { laboratory, still };

/// Oil in the material. Exactly one of the two figures is set: published yields are by mass or by
/// volume, and turning one into the other needs the oil's density.
struct OilContent {
  std::optional<Cited<Fraction>> by_mass;          ///< kg oil per kg material
  std::optional<Cited<SpecificVolume>> by_volume;  ///< m3 oil per kg material
  OilPer per = OilPer::as_loaded;
  OilAssay assay = OilAssay::laboratory;
};

struct BulkDensity {
  Cut cut = Cut::chopped;
  Cited<Density> density;  ///< of the charge as it lies in the column
};

/// One plant in one state. What nobody has published is left out here; see plant_figures.hpp for
/// the figure that then serves.
struct PlantState {
  std::optional<Cited<Fraction>> moisture;  ///< kg water per kg material as loaded
  std::vector<BulkDensity> bulk_density;
  std::optional<OilContent> oil_content;
};

/// How fast the oil comes, for one way of running the still.
struct OilRelease {
  Cited<Duration> half_time;                         ///< to release half of what is not washed off
  std::optional<Cited<Fraction>> washed_share = {};  ///< released at once; none means zero
  std::optional<Cited<Rate>> steam_flow = {};  ///< of the published runs, kg steam per kg charge
};

/// What the charge is like to weigh and pack, whatever the plant.
enum class PlantForm { leafy_herb, leaf, flowers, needles, seed, wood, root, peel };
std::string to_string(PlantForm form);

/// Defaults for all plants of one form.
struct FormDefaults {
  std::string note;                        ///< for people
  std::optional<Cited<Fraction>> hold_up;  ///< kg water per kg dry matter; else that of herb
  std::map<State, PlantState> states;
};

/// Where the oil sits decides how fast steam gets it out: defaults for all plants alike in that.
struct ReleaseClass {
  std::string key;
  std::string note;  ///< for people
  std::map<Method, OilRelease> by_method;
};

/// When those who distil this plant stop.
struct UsualCut {
  std::optional<Cited<Duration>> time;  ///< from first drop
  std::string sign;                     ///< what to watch for
  Evidence evidence;                    ///< of the sign
};

struct BestMethod {
  Method method = Method::steam;
  std::string why;
  Evidence evidence;
};

struct Constituent {
  std::string liquid;     ///< key in the liquid table
  Cited<Fraction> share;  ///< of the oil, by mass (gas chromatogram area per cent as printed)
};

struct Hazard {
  std::string about;  ///< one of hazard_subjects()
  std::string text;
  Evidence evidence;  ///< its basis names the guideline
};

/// What a hazard may be about: "thujone", "phenols", "photosensitivity", …
const std::vector<std::string>& hazard_subjects();

struct Plant {
  std::string key;
  std::string name;
  std::string latin;
  std::string part;
  std::string note;
  std::optional<PlantForm> form;
  std::string release_class;  ///< key, or "seed": crushed-seed or whole-seed by the cut; or empty
  std::map<State, PlantState> states;
  std::map<Method, OilRelease> release;        ///< published for this plant
  std::map<Method, Cited<Fraction>> recovery;  ///< of a laboratory assay, same batch
  Cited<Density> oil_density;
  std::vector<Constituent> constituents;
  std::optional<Cited<Density>> hydrosol_oil;  ///< measured: oil that stays in the hydrosol
  std::optional<Cited<Temperature>> oil_freezes;
  std::optional<Cited<Temperature>> flash_point;
  bool wants_cohobation = false;
  std::optional<UsualCut> usual_cut;
  std::optional<BestMethod> best_method;
  std::vector<Hazard> hazards;
};

/// Where an oil gathers in the receiver.
enum class OilPlace { floats, near_water, sinks };
/// By what is known of its density: near_water when its low and high straddle that of hydrosol,
/// which is water, near enough.
OilPlace oil_place(const Plant& plant);

/// The cut that a recipe means when it names none (the plant has this state): seed is crushed
/// before it is loaded, all else chopped; a plant without a form, whose own bulk densities leave
/// chopped out, the first of them.
Cut default_cut(const Plant& plant, State state);

}  // namespace firstdrop
