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

/// One plant in one state.
struct PlantState {
  Cited<Fraction> moisture;  ///< kg water per kg material as loaded
  std::vector<BulkDensity> bulk_density;
  std::optional<OilContent> oil_content;  ///< else converted from the other state
};

/// How fast the oil comes, for one way of running the still.
struct OilRelease {
  Cited<Duration> half_time;                    ///< to release half of what is not washed off
  std::optional<Cited<Fraction>> washed_share;  ///< released at once; none means zero
};

struct Constituent {
  std::string liquid;     ///< key in the liquid table
  Cited<Fraction> share;  ///< of the oil, by mass (gas chromatogram area per cent as printed)
};

struct Hazard {
  std::string text;
  Evidence evidence;
};

struct Plant {
  std::string key;
  std::string name;
  std::string latin;
  std::string part;
  std::string note;
  std::map<State, PlantState> states;
  std::map<Method, OilRelease> release;
  Cited<Density> oil_density;
  std::vector<Constituent> constituents;
  Cited<Density> hydrosol_oil;  ///< oil that stays dissolved in the hydrosol
  std::optional<Cited<Temperature>> oil_freezes;
  std::optional<Cited<Temperature>> flash_point;
  bool wants_cohobation = false;
  std::vector<Hazard> hazards;
};

}  // namespace firstdrop
