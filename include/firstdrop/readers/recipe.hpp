/// @file
/// What the distiller asks for, with plant and still already resolved.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>

#include "firstdrop/base/shared.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/quantity_text.hpp"
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
  Fraction share;  ///< above 0 and below 1
};
/// So much hydrosol for each kilogram of herb, counted as fresh: see SelectedParameters::as_fresh.
struct RatioGoal {
  SpecificVolume hydrosol_per_fresh;  ///< above zero
};
/// Stop by the clock, counted from heat on.
struct TimeGoal {
  Duration time;  ///< above zero
};
/// No goal: use the harvest up, and stop when the oil still in it isn't worth more water and time.
struct HarvestGoal {};

/// What is wanted: one of these.
using Goal = std::variant<HarvestGoal, HydrosolGoal, RatioGoal, OilGoal, OilShareGoal, TimeGoal>;

/// What was measured on this bench.
struct OwnFigures {
  std::optional<Density> bulk_density;  ///< of the charge as it lies
  /// All oil of a full run here, parted and dissolved, as a share of the charge by mass.
  std::optional<Fraction> oil_content;
  std::optional<VolumeFlow> distillate_rate;  ///< into the receiver
  std::optional<Duration> boil_time;          ///< from heat on
  std::optional<Volume> boil_water;           ///< in the pot then; else the recipe's `water`
  /// The heater's setting when rate and time were taken, above 0 to 1; none: the recipe's.
  std::optional<Fraction> setting;
  /// The same for the time alone, where it was another; none: as `setting`.
  std::optional<Fraction> boil_setting;
  /// Between the poles of the socket, with the heater on; needs the nominal one of the circuit.
  std::optional<Voltage> mains;
};

/// Where the still stands.
enum class Place {
  indoors,   ///< in a room, which is to be aired
  outdoors,  ///< in the open
};
/// As files have it: the names above.
std::string to_string(Place place);

/// What the heater's socket hangs on.
struct Circuit {
  Voltage mains;    ///< between its poles
  Current breaker;  ///< rating of its breaker or fuse
  /// What it carries at most: volts times amperes.
  Power most() const { return mains * breaker; }
};

/// What the run stands in.
struct Site {
  std::optional<Length> altitude;      ///< none: sea level. Range: see standard_pressure()
  std::optional<Pressure> pressure;    ///< of the air; beats the altitude
  Temperature room = celsius(20);      ///< 0 to 50 °C; also of still and charge at heat on
  std::optional<Temperature> coolant;  ///< as it comes or is filled in; none: as the room
  Place place = Place::indoors;        ///< where the vapour goes
  std::optional<Circuit> circuit;      ///< none: not known
};

/// What must not be gone beyond.
struct Limits {
  std::optional<Duration> time;    ///< longest run, from heat on; above zero
  Duration absence = minutes(15);  ///< the person may be this late at the stop; 0 or more
};

/// What things cost.
struct Prices {
  std::optional<double> energy_per_kwh;  ///< in `currency`
  std::optional<double> plant_per_kg;    ///< in `currency`
  std::string currency;                  ///< as it shall be printed
};

/// A recipe. read_recipe() makes one from a file; one made in code is checked when it is planned,
/// see model_parameters(); its texts are to be UTF-8. No amount is less than in least_amounts.hpp.
struct Recipe {
  std::string title;           ///< for people; may be empty
  Shared<Plant> plant;         ///< from the tables, a file, or made in code
  State state = State::fresh;  ///< one that the plant has
  Cut cut = Cut::chopped;      ///< see default_cut()
  std::optional<Mass> charge;  ///< above zero; none: the planner fills the column
  Shared<Still> still;         ///< from the tables, a file, or made in code
  /// One that the still has the parts for; none: the still's own, see method_used().
  std::optional<Method> method;
  std::optional<Volume> water;  ///< above zero; none: the planner works it out
  /// Of what is poured into the pot: from 0 °C to below boiling; none: as the room. Volumes of that
  /// water (`water`, own.boil_water) are measured at it.
  std::optional<Temperature> water_temperature;
  Fraction setting = fraction(1);  ///< share of the heater's power, above 0 to 1
  Site site;                       ///< what the run stands in
  Goal goal;                       ///< what is wanted; for all runs together
  /// How often the goal shall be met, 1 to 99 %; none: as often as not. Not with a time goal or
  /// without a goal.
  std::optional<Fraction> confidence;
  OwnFigures own;                  ///< what was measured here; beats the tables
  Limits limits;                   ///< longest run, and how late one may be
  std::optional<Volume> receiver;  ///< what one receiver holds; none: all goes into one
  std::string lot;                 ///< code on the label; empty: made from plant and day
  std::string start;               ///< see parse_local_minute(); anything else: no clock times
  Prices prices;                   ///< for what a run costs; may be empty
  /// What this bench weighs and pours in: charge, fill and levels are on marks of its scale and
  /// jug, and what is said to people is said so.
  Units units = Units::metric;
  std::uint64_t seed = 1;  ///< of the sampling

  /// The method of the run: the recipe's, else the first of the still's.
  Method method_used() const {
    if (method) return *method;
    return still->methods.empty() ? Method::steam : still->methods.front();
  }
};

}  // namespace firstdrop
