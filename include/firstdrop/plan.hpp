// From a recipe to a plan: charge, water, heat, oil, coolant, reserve, stop, findings, verdict.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "firstdrop/condenser.hpp"
#include "firstdrop/finding.hpp"
#include "firstdrop/inputs.hpp"
#include "firstdrop/library.hpp"
#include "firstdrop/quantity.hpp"
#include "firstdrop/recipe.hpp"
#include "firstdrop/run.hpp"
#include "firstdrop/spread.hpp"
#include "firstdrop/stop.hpp"

namespace firstdrop {

enum class Verdict { go, caution, refused };
std::string to_string(Verdict verdict);

struct ChargePlan {
  Mass mass;        ///< of one run
  Mass dry_matter;  ///< in it
  Volume volume;    ///< it fills
  Fraction fill;    ///< of the column, of the space over the grid, or of the pot with its water
  int runs = 1;
  Mass harvest;  ///< of all runs
};

struct WaterPlan {
  Volume first_fill;  ///< what to pour in, at room temperature
  Volume distilled;
  Volume held;
  Volume vented;
  Volume left_at_stop;
  Volume reserve;
  Volume absence;       ///< part of the fill that covers a late stop in the worst credible case
  Volume never_beyond;  ///< hydrosol at which the worst credible case reaches its reserve
  Fraction pot_fill;    ///< share of the pot, with the charge when hydro
};

struct TimesPlan {
  Duration boil;
  Duration first_drop;
  Duration stop;
  Duration reserve;  ///< reached if the heat stays on
  Duration dry;
  Duration stop_worst;  ///< planned stop in the worst credible case, without the absence
  Duration reserve_worst;
  Duration dry_worst;
};

/// A drop, 20 to the millilitre (from memory): less oil than this cannot be read off a receiver.
inline constexpr Volume a_drop_of_oil = millilitres(0.05);

struct RatesPlan {
  VolumeFlow distillate;
  Rate steam_per_charge;                   ///< kg steam per kg charge and unit time
  std::optional<Velocity> steam_velocity;  ///< superficial, in the bed
  std::optional<Pressure> bed_pressure_drop;
  Power heat_into_pot;
  Power heat_lost;
};

struct CoolingPlan {
  Power duty;                          ///< typical
  std::optional<Mass> ice;             ///< in all
  std::vector<IceChange> ice_changes;  ///< times from heat on
  std::optional<Mass> first_ice;       ///< of it, in the bath at first drop
  std::optional<Temperature> reservoir_end;
  std::optional<Duration> reservoir_limit;  ///< when the coolant first is too warm, from heat on
  std::optional<VolumeFlow> flow;           ///< run-through
  std::optional<VolumeFlow> flow_hot;       ///< the same at the hottest plate
  std::optional<Volume> coolant_used;       ///< run-through, in all
  Area surface_needed;                      ///< typical, with the warmest coolant of the run
  std::optional<Temperature> distillate;    ///< leaves no warmer, if all is condensed and cooled
};

/// A full receiver gives way to an empty one.
struct ReceiverChange {
  Duration at;
  Volume caught;  ///< in all by then
};
/// More of them in a run are not planned, but warned of (common practice, no source).
inline constexpr int most_receiver_changes = 24;

struct EnergyPlan {
  Energy plug;  ///< or fuel: rated power x setting x time
  std::optional<double> energy_cost;
  std::optional<double> plant_cost;
  std::string currency;
};

struct TimelinePoint {
  Duration at;
  Phase phase = Phase::warming;
  std::string event;  ///< empty for a plain point
  Volume pot_water;
  Temperature pot;
  Volume hydrosol;
  Range<Volume> oil;  ///< in the receiver, at this level or time
  std::optional<Temperature> coolant;
};

/// What another quarter hour after the stop would bring.
struct QuarterHourMore {
  Volume hydrosol;
  Mass oil;  ///< in the receiver; can be negative when the hydrosol takes more than comes
};

/// What the typical run brings.
struct TypicalYield {
  Volume hydrosol;
  Mass oil;  ///< in the receiver
  Volume oil_volume;
};

/// All that needs a run which gives distillate.
struct RunPlan {
  WaterPlan water;
  TimesPlan times;
  RatesPlan rates;
  CoolingPlan cooling;
  EnergyPlan energy;
  TypicalYield typical;
  std::vector<ReceiverChange> receiver_changes;  ///< none when one is enough, or far too small
  Spread spread;
  std::optional<Duration> allow;  ///< by then the stop has come as often as goal.confidence asks
  Stop stop;                      ///< what to watch
  StopRule binding_stop = StopRule::hydrosol;
  QuarterHourMore more;
  bool steam_bound_known = false;             ///< what steam can carry of this oil
  std::optional<Duration> steam_bound_until;  ///< while steam, not the plant, sets the pace
  Mass mass_residual;
  Energy energy_residual;
  std::vector<TimelinePoint> timeline;

  /// Whether one stops by the clock; else by the level in the receiver.
  bool stops_by_clock() const { return !stop.hydrosol || binding_stop == StopRule::time; }
  /// The clock that may be told beside a level. One that lets the worst case run its pot low would
  /// be no help.
  std::optional<Duration> clock_beside_level() const {
    return stop.clock && *stop.clock < times.reserve_worst ? stop.clock : std::nullopt;
  }
};

struct Plan {
  Recipe recipe;
  Verdict verdict = Verdict::go;
  std::vector<Finding> findings;  ///< worst first, the standing ones last
  ChargePlan charge;
  Pressure ambient;
  Temperature boiling;
  SpecificEnergy latent_heat;
  std::optional<RunPlan> run;  ///< none when the still gives no distillate as asked
  std::set<std::string> sources;
  std::vector<std::string> stand_ins;  ///< where no figure of the plant's own serves, and what does

  /// Nobody shall work from a plan that may not be run: no amounts, sheet, calendar or drawing.
  bool may_be_run() const { return run && verdict != Verdict::refused; }
};

/// How much of a plan is wanted.
enum class Detail {
  whole,
  /// Charge, water, times, yields, coolant, stop and verdict: the same numbers, but no timeline, no
  /// notes, no sources, no stand-ins, and no words in findings but in those that refuse.
  brief,
};

/// Plans a recipe. A recipe that can't or must not be run gives a plan whose verdict is `refused`,
/// with findings that say why and what would do.
/// Throws InputError when the recipe does not hold together (see gather_inputs).
Plan make_plan(const Recipe& recipe, const Library& library,
               const Sampling& sampling = default_samples, Detail detail = Detail::whole);

/// Plans many recipes one after another, and keeps what they have in common. The same plans as by
/// make_plan(). One for each thread.
class PlanMaker {
 public:
  /// Keeps a reference.
  explicit PlanMaker(const Library& library) : library_(library) {}
  Plan make(const Recipe& recipe, const Sampling& sampling = default_samples,
            Detail detail = Detail::whole);

 private:
  const Library& library_;
  InputShelf shelf_;
};

}  // namespace firstdrop
