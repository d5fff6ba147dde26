/// @file
/// The contents of the still table.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"

namespace firstdrop {

/// Where the charge is while it is distilled.
enum class Method {
  steam,            ///< in a column or basket above the pot; only steam passes through it
  water_and_steam,  ///< on a grid in the pot, above the water line
  hydro,            ///< in the boiling water itself
};

/// The name in files: "steam", "water-and-steam", "hydro".
std::string to_string(Method method);
/// The words for a sentence: "by steam", "over water on a grid", "in the water".
const char* in_words(Method method);

/// What heats the pot.
enum class HeaterKind {
  electric_plate,    ///< hot plate or coil under the pot
  induction_plate,   ///< heats the pot's own base
  immersed_element,  ///< an element in the water, which must cover it
  gas_burner,        ///< a flame; its power is the heat of its fuel
  heating_mantle,    ///< heated cloth around a round flask
};
/// How the condenser is cooled.
enum class CondenserKind {
  ice_bath,     ///< coil or dome in a bath that is iced by hand
  reservoir,    ///< coolant circulated from a bucket by a pump
  run_through,  ///< coolant from a tap, then to the drain
};

/// The name in files, as above but with a hyphen.
std::string to_string(HeaterKind kind);
/// The name in files, as above but with a hyphen.
std::string to_string(CondenserKind kind);

/// The cylindrical vessel in which the water boils.
struct Pot {
  std::string material;         ///< key in the material table
  Cited<Volume> volume;         ///< to the brim
  Cited<Length> diameter;       ///< inside; one value
  Cited<Mass> mass;             ///< of the empty pot, which is heated with the water
  Cited<Fraction> fill_limit;   ///< share of the volume that may be filled, with room for boiling
  Cited<Volume> minimum_water;  ///< the least that must cover the base or the immersed element
};

/// The vessel above the pot that holds the charge (method steam).
struct Column {
  std::string material;    ///< key in the material table
  Cited<Volume> volume;    ///< room for the charge, including the head space
  Cited<Length> diameter;  ///< inside; one value
  Cited<Mass> mass;        ///< of the empty column, which must be heated
};

/// The grid in the pot that carries the charge above the water (method water-and-steam).
struct Grid {
  Cited<Volume> water_below;  ///< water that fits under the grid, up to the grid
  Cited<Volume> space;        ///< room for the charge above the grid
  Cited<Mass> mass;           ///< of grid and basket; may be zero
};

/// Lid, dome and vapour path up to the condenser.
struct Head {
  std::string material;  ///< key in the material table
  Cited<Mass> mass;      ///< mass that must be heated
  Cited<Area> surface;   ///< outside surface that loses heat to the room
};

/// What heats the pot, and how strongly.
struct Heater {
  HeaterKind kind = HeaterKind::electric_plate;  ///< each kind has a default efficiency
  Cited<Power> power;                            ///< rated, at full setting
  std::optional<Cited<Fraction>> efficiency;     ///< none: the default for its kind
};

/// What turns steam into distillate.
struct Condenser {
  CondenserKind kind = CondenserKind::reservoir;  ///< run_through needs `flow_limit`, the others
                                                  ///< `coolant` and `ice_per_change`
  std::string wall;                               ///< what it is made of: key in the material table
  Cited<Area> surface;                            ///< condensing surface
  std::optional<Cited<Length>> tube_length;       ///< of a coil or straight tube; one value
  std::optional<Cited<Length>> tube_diameter;     ///< of that tube, inside; one value
  std::optional<Cited<Length>> dome_diameter;     ///< of a condensing dome; one value
  Cited<Temperature> outlet;             ///< warmest that the distillate should leave it; one value
  Cited<Temperature> coolant_limit;      ///< warmest that the coolant may get; one value
  std::optional<Cited<Volume>> coolant;  ///< filling of bath or reservoir, including ice
  std::optional<Cited<Mass>> ice_per_change;    ///< ice for one change; zero: none; one value
  std::optional<Cited<VolumeFlow>> flow_limit;  ///< most that the tap or hose gives (run-through)
};

/// What measured runs of a still have shown, as far as the worst case depends on it. A plan of a
/// still whose figures come from few runs keeps the worst case of the default figures.
struct MeasuredRuns {
  /// With fewer, one reading or several of one day may all be on the cool side.
  static constexpr int least_runs = 3;
  static constexpr int least_days = 2;
  int runs = 0;                    ///< how many runs the figures come from, 1 or more
  int days = 0;                    ///< on how many days, 1 to `runs`
  std::chrono::local_days last{};  ///< the day of the last of them
  Fraction hottest;                ///< heat into the pot over power drawn, in the hottest run
  Fraction setting = fraction(1);  ///< of the heater in these runs

  /// Whether they are enough for the worst case to follow them.
  bool are_enough() const { return runs >= least_runs && days >= least_days; }
};

/// For messages: why diameters, lengths, the limits of the condenser and the ice per change must be
/// single values. A range for them would have no effect on the plan.
inline constexpr const char* one_value_reason =
    "nothing in the plan follows a range of this figure";

/// A still. All of its figures are above zero unless stated otherwise. For a figure marked "one
/// value", low, typical and high are the same.
struct Still {
  std::string key;               ///< key that recipes refer to it by
  std::string title;             ///< for people
  std::string about;             ///< a sentence about it; may be empty
  std::vector<Method> methods;   ///< methods that it can be run with; the first is the default
  Pot pot;                       ///< in which the water boils
  std::optional<Column> column;  ///< needed for the method steam
  std::optional<Grid> grid;      ///< needed for the method water-and-steam
  Head head;                     ///< from pot or column to the condenser
  Heater heater;                 ///< under or in the pot
  Condenser condenser;           ///< at the end of the vapour path
  Cited<Mass> wall_hold_up;      ///< water that clings to column, head and condenser; may be zero
  /// From pot, column and head to the room, per surface; none: those of their materials.
  std::optional<Cited<HeatTransfer>> heat_loss;
  std::optional<MeasuredRuns> measured_runs;  ///< none: no figure comes from a measured run
};

/// A figure of a still that has its default, because nobody has measured it.
struct DefaultFigure {
  std::string name;  ///< for people: "fill limit of the pot"
  std::variant<Range<Mass>, Range<Volume>, Range<Length>, Range<Area>, Range<Fraction>,
               Range<Temperature>, Range<VolumeFlow>>
      range;
};
/// The figures that have their defaults (Known::default_value).
std::vector<DefaultFigure> default_figures(const Still& still);

/// Whether any of its figures is invented (Known::own_invention), as in the example stills. People
/// with a real still of that kind must measure theirs before they rely on a plan.
bool has_invented_figures(const Still& still);
/// What pages and sheets say about such a still.
inline constexpr const char* example_still_words =
    "Example still: its figures are invented. Measure yours before you rely on this.";

}  // namespace firstdrop
