// What the distiller asks for, with plant and still already resolved.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>

#include "firstdrop/method.hpp"
#include "firstdrop/plant.hpp"
#include "firstdrop/quantity.hpp"
#include "firstdrop/shared.hpp"
#include "firstdrop/still.hpp"
#include "firstdrop/units.hpp"

namespace firstdrop {

/// A volume of hydrosol wanted from the whole recipe.
struct HydrosolGoal {
  Volume volume;
};
/// An amount of separated oil wanted from the whole recipe.
struct OilGoal {
  std::variant<Mass, Volume> amount;
};
/// A share of the oil that this still can get from the charge.
struct OilShareGoal {
  Fraction share;
};
/// Stop by the clock, counted from heat on.
struct TimeGoal {
  Duration time;
};
/// No goal: use the harvest up, and stop when hardly any more oil comes.
struct HarvestGoal {};

using Goal = std::variant<HarvestGoal, HydrosolGoal, OilGoal, OilShareGoal, TimeGoal>;

/// What was measured on this bench, at the recipe's setting.
struct OwnFigures {
  std::optional<Density> bulk_density;
  std::optional<Fraction>
      oil_content;  ///< all oil of a full run here, parted and dissolved, of the charge
  std::optional<VolumeFlow> distillate_rate;
  std::optional<Duration> boil_time;  ///< from heat on
  std::optional<Volume> boil_water;   ///< in the pot then; else the recipe's `water`
};

enum class Place { indoors, outdoors };
std::string to_string(Place place);

/// What the heater's socket hangs on.
struct Circuit {
  Voltage mains;
  Current breaker;  ///< rating of its breaker or fuse
  Power most() const { return mains * breaker; }
};

struct Site {
  std::optional<Length> altitude;
  std::optional<Pressure> pressure;
  Temperature room = celsius(20);
  std::optional<Temperature> coolant;  ///< else room temperature
  Place place = Place::indoors;
  std::optional<Circuit> circuit;
};

struct Limits {
  std::optional<Duration> time;    ///< longest run, from heat on
  Duration absence = minutes(15);  ///< the person may be this late
};

struct Prices {
  std::optional<double> energy_per_kwh;  ///< in `currency`
  std::optional<double> plant_per_kg;
  std::string currency;
};

struct Recipe {
  std::string title;
  Shared<Plant> plant;
  State state = State::fresh;
  Cut cut = Cut::chopped;
  std::optional<Mass> charge;  ///< none: the planner fills the column
  Shared<Still> still;
  Method method = Method::steam;
  std::optional<Volume> water;  ///< none: the planner works it out
  Fraction setting = fraction(1);
  Site site;
  Goal goal;
  std::optional<Fraction> confidence;  ///< how often the goal shall be met; not with a time goal
  OwnFigures own;
  Limits limits;
  /// What one receiver holds; none: all goes into one.
  std::optional<Volume> receiver;
  std::string lot;    ///< code on the label; empty: made from plant and day
  std::string start;  ///< local clock time of heat on, ISO 8601 to the minute; may be empty
  Prices prices;
  /// What this bench weighs and pours in: charge, fill and levels are on marks of its scale and
  /// jug, and what is said to people is said so.
  Units units = Units::metric;
  std::uint64_t seed = 1;  ///< of the sampling
};

}  // namespace firstdrop
