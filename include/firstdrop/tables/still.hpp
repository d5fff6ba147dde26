/// @file
/// What the still table holds.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"

namespace firstdrop {

/// Where the charge is while it is distilled.
enum class Method {
  steam,            ///< the charge in a column or basket above the pot; only steam passes it
  water_and_steam,  ///< the charge on a grid in the pot, above the water line
  hydro,            ///< the charge in the boiling water itself
};

/// As files have it: "steam", "water-and-steam", "hydro".
std::string to_string(Method method);
/// For a sentence: "by steam", "over water on a grid", "in the water".
const char* in_words(Method method);

/// What heats the pot.
enum class HeaterKind {
  electric_plate,    ///< hot plate or coil under the pot
  induction_plate,   ///< heats the pot's own base
  immersed_element,  ///< in the water, which must cover it
  gas_burner,        ///< a flame; counted in heat of its fuel
};
/// What takes the heat of the steam.
enum class CondenserKind {
  ice_bath,     ///< coil or dome in a bath that is iced by hand
  reservoir,    ///< coolant pumped round from a bucket
  run_through,  ///< coolant from a tap, to the drain
};

/// As files have it: the names above, with a hyphen.
std::string to_string(HeaterKind kind);
/// As files have it: the names above, with a hyphen.
std::string to_string(CondenserKind kind);

/// The vessel that boils: a cylinder.
struct Pot {
  std::string material;         ///< key in the material table
  Cited<Volume> volume;         ///< to the brim
  Cited<Length> diameter;       ///< inside; one value
  Cited<Mass> mass;             ///< of the empty pot, heated with the water; one value
  Cited<Fraction> fill_limit;   ///< share of the volume that may be filled, with room for boiling
  Cited<Volume> minimum_water;  ///< least that must cover the base or the immersed element
};

/// The vessel above the pot that holds the charge (steam).
struct Column {
  std::string material;    ///< key in the material table
  Cited<Volume> volume;    ///< that the charge may fill, head space included
  Cited<Length> diameter;  ///< inside; one value
  Cited<Mass> mass;        ///< of the empty column, what must be heated; one value
};

/// The grid in the pot that carries the charge above the water (water-and-steam).
struct Grid {
  Cited<Volume> water_below;  ///< water that fits under the grid, to the grid
  Cited<Volume> space;        ///< room for the charge above the grid
  Cited<Mass> mass;           ///< of grid and basket; one value
};

/// Lid, dome and vapour path up to the condenser.
struct Head {
  std::string material;  ///< key in the material table
  Cited<Mass> mass;      ///< what must be heated; one value
  Cited<Area> surface;   ///< outside surface that loses heat to the room
};

/// What heats the pot, and how strongly.
struct Heater {
  HeaterKind kind = HeaterKind::electric_plate;  ///< has a default efficiency
  Cited<Power> power;                            ///< rated, at full setting
  std::optional<Cited<Fraction>> efficiency;     ///< else that of its kind
};

/// What turns steam into distillate.
struct Condenser {
  CondenserKind kind = CondenserKind::reservoir;  ///< a tap needs `flow_limit`, else `coolant`
  std::string wall;                               ///< key of its material in the material table
  Cited<Area> surface;                            ///< condensing surface
  Cited<Temperature> outlet;                  ///< the distillate should leave no warmer; one value
  Cited<Temperature> coolant_limit;           ///< warmest coolant allowed; one value
  std::optional<Cited<Volume>> coolant;       ///< bath or reservoir filling, ice included
  std::optional<Cited<Mass>> ice_per_change;  ///< ice of one change; zero for none; one value
  std::optional<Cited<VolumeFlow>> flow_limit;  ///< most that the tap or hose gives (run-through)
};

/// Why diameters, masses, the limits of the condenser and the ice of one change take one value: a
/// range of them would be taken and then ignored. For messages.
inline constexpr const char* one_value_reason =
    "nothing in the plan follows a range of this figure";

/// A still. All of its figures are above zero by nature, if not said otherwise. Those that say "one
/// value" have a range without width.
struct Still {
  std::string key;               ///< by which recipes name it
  std::string title;             ///< for people
  std::string about;             ///< a sentence; may be empty
  std::vector<Method> methods;   ///< that it can be run by; the first is the default
  Pot pot;                       ///< what boils
  std::optional<Column> column;  ///< needed for steam
  std::optional<Grid> grid;      ///< needed for water-and-steam
  Head head;                     ///< from pot or column to the condenser
  Heater heater;                 ///< under or in the pot
  Condenser condenser;           ///< at the end of the vapour path
  Cited<Mass> wall_hold_up;      ///< water that clings to column, head and condenser
};

/// Whether any figure of it is made up (Known::own_invention), as those of the example stills are:
/// whoever has such a still has to measure theirs before they rely on a plan.
bool has_invented_figures(const Still& still);
/// What pages and sheets say of such a still.
inline constexpr const char* example_still_words =
    "Example still: its figures are invented. Measure yours before you rely on this.";

}  // namespace firstdrop
