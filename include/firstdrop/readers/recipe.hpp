/// @file
/// What the distiller asks for, with the plant and still already resolved.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "firstdrop/base/shared.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/units.hpp"
#include "firstdrop/tables/plant.hpp"
#include "firstdrop/tables/still.hpp"

namespace firstdrop {

/// A volume of hydrosol wanted from the whole recipe.
struct HydrosolGoal {
  Volume volume;  ///< above zero
};
/// An amount of separated oil wanted from the whole recipe.
struct OilGoal {
  std::variant<Mass, Volume> amount;  ///< above zero
};
/// A share of the oil that this still can get from the charge.
struct OilShareGoal {
  Fraction share;  ///< at least 1 % and below 100 %
};
/// A volume of hydrosol for each kilogram of herb, counted as fresh. See
/// SelectedParameters::as_fresh.
struct RatioGoal {
  SpecificVolume hydrosol_per_fresh;  ///< above zero
};
/// Stop by the clock, counted from the start of heating.
struct TimeGoal {
  Duration time;  ///< above zero
};
/// No set goal: use up the harvest, and stop when the oil left in it isn't worth more water and
/// time.
struct HarvestGoal {};

/// What the distiller wants: one of these goals.
using Goal = std::variant<HarvestGoal, HydrosolGoal, RatioGoal, OilGoal, OilShareGoal, TimeGoal>;

/// Figures measured on this bench.
struct OwnFigures {
  std::optional<Density> bulk_density;  ///< of the charge as it lies in the still
  /// Oil from a full run here, both separated and dissolved, as a share of the charge's mass or as
  /// its volume per mass of charge.
  std::optional<std::variant<Fraction, SpecificVolume>> oil_content;
  std::optional<VolumeFlow> distillate_rate;  ///< into the receiver
  std::optional<Duration> boil_time;          ///< from the start of heating
  std::optional<Volume> boil_water;  ///< in the pot for boil_time; none: the recipe's `water`
  /// Heater setting for distillate_rate and boil_time, 1 to 100 %; none: the recipe's setting.
  std::optional<Fraction> setting;
  /// Heater setting for boil_time, if it was different, 1 to 100 %; none: same as `setting`.
  std::optional<Fraction> boil_setting;
  /// Voltage at the socket with the heater on. Needs the nominal voltage of the circuit.
  std::optional<Voltage> mains;
};

/// Where the still stands.
enum class Place {
  indoors,   ///< in a room, which must be ventilated
  outdoors,  ///< in the open air
};
/// The names above, as in files.
std::string to_string(Place place);

/// The circuit that supplies the heater.
struct Circuit {
  Voltage mains;    ///< nominal, at the socket
  Current breaker;  ///< rating of its breaker or fuse
  /// The most power it can carry: volts times amperes.
  Power most() const { return mains * breaker; }
};

/// The surroundings of the run.
struct Site {
  std::optional<Length> altitude;      ///< none: sea level. Range: see standard_pressure()
  std::optional<Pressure> pressure;    ///< of the air; only without an altitude
  Temperature room = celsius(20);      ///< 1 to 50 °C; still and charge start at it too
  std::optional<Temperature> coolant;  ///< as it comes or is filled in; none: room temperature
  Place place = Place::indoors;        ///< where escaping vapour goes
  /// Nominal voltage of the heater's circuit; only together with `breaker`. None: unknown.
  std::optional<Voltage> mains;
  std::optional<Current> breaker;  ///< rating of its breaker or fuse; only together with `mains`

  /// The circuit that supplies the heater, if it is known.
  std::optional<Circuit> circuit() const {
    if (!mains || !breaker) return std::nullopt;
    return Circuit{*mains, *breaker};
  }
};

/// A part of the distillate that has a receiver of its own.
struct HydrosolFraction {
  /// All that has been caught, in all receivers, when it ends. None: it lasts until the stop.
  std::optional<Volume> until;
};

/// Limits that the run must not exceed.
struct Limits {
  std::optional<Duration> time;    ///< longest run, from the start of heating; above zero
  Duration absence = minutes(15);  ///< how late the person may be at the stop; 0 to 8 h
};

/// Prices, for the cost of a run.
struct Prices {
  std::optional<double> energy_per_kwh;  ///< in `currency`
  std::optional<double> plant_per_kg;    ///< in `currency`
  std::string currency;                  ///< as it is printed
};

/// A recipe. read_recipe() makes one from a file. A recipe made in code is checked when it is
/// planned; see model_parameters(). Its texts must be UTF-8. readers/recipe_fields.cpp has the
/// bounds of all amounts.
struct Recipe {
  std::string title;           ///< for people; may be empty
  Shared<Plant> plant;         ///< from the tables, a file, or made in code
  State state = State::fresh;  ///< must be a state that the plant has
  Cut cut = Cut::chopped;      ///< see default_cut()
  /// Above zero. None: as much as fits into the still, or less where an oil goal needs less.
  std::optional<Mass> charge;
  Shared<Still> still;  ///< from the tables, a file, or made in code
  /// Must be a method that the still has the parts for. None: the still's own; see method_used().
  std::optional<Method> method;
  std::optional<Volume> water;  ///< above zero; none: the planner works it out
  /// Temperature of the water poured into the pot; none: room temperature. Range: 1 to 99 °C, and
  /// at least 1 K below boiling. Volumes of that water (`water`, own.boil_water) are measured at
  /// it.
  std::optional<Temperature> water_temperature;
  Fraction setting = fraction(1);  ///< share of the heater's power, 1 to 100 %
  Site site;                       ///< the surroundings of the run
  Goal goal;                       ///< what is wanted from all runs together
  /// How often the goal must be met, 1 to 99 %; none: about as often as not. Not allowed with a
  /// time goal or without a goal.
  std::optional<Fraction> confidence;
  OwnFigures own;  ///< what was measured here; replaces the tables' figures
  Limits limits;   ///< longest run, and how late the person may be
  /// Volume of one receiver; none: one takes everything.
  std::optional<Volume> receiver_volume;
  /// In order, each but the last with an end, and each end above the one before; 2 to 8, or empty
  /// if one receiver takes everything. Not together with a receiver_volume.
  std::vector<HydrosolFraction> fractions;
  std::string lot;  ///< code on the label; empty: made from plant and day
  /// Start of heating, as parse_local_minute() reads it. Anything else gives no clock times.
  std::string start;
  Prices prices;  ///< for the cost of a run; may be empty
  /// The bench's system of units. Charge, fill and levels lie on marks of its scale and jug, and
  /// texts use its units.
  Units units = Units::metric;
  std::uint64_t seed = 1;  ///< of the sampling

  /// All that has been caught at the end of each fraction but the last.
  std::vector<Volume> fraction_ends() const {
    std::vector<Volume> ends;
    for (const HydrosolFraction& fraction : fractions)
      if (fraction.until) ends.push_back(*fraction.until);
    return ends;
  }

  /// The method of the run: the recipe's, or else the still's first.
  Method method_used() const {
    if (method) return *method;
    return still->methods.empty() ? Method::steam : still->methods.front();
  }
};

}  // namespace firstdrop
