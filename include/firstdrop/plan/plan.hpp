/// @file
/// What a plan is: charge, water, heat, oil, coolant, reserve, stop, findings, verdict.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "firstdrop/model/uncertainty.hpp"
#include "firstdrop/physics/course.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"
#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/tables/finding.hpp"

namespace firstdrop {

/// What comes of a recipe; the weightiest of its findings decides.
enum class Verdict {
  go,       ///< it can be run
  caution,  ///< it can be run, with something to mind
  refused,  ///< it must not or cannot be run as asked
};
/// As JSON has it: the names above.
std::string to_string(Verdict verdict);

/// What is loaded.
struct ChargePlan {
  Mass mass;        ///< of one run
  Mass as_fresh;    ///< the same herb as it was cut; the charge itself, where that is not known
  Mass dry_matter;  ///< in it
  Volume volume;    ///< it fills
  Fraction fill;    ///< of the column, of the space over the grid, or of the pot with its water
  int runs = 1;     ///< that the recipe takes, all alike
  Mass harvest;     ///< of all runs
  Mass rest;        ///< left over from the charge that the recipe asks for
  Mass least;       ///< down to this charge water, stop and limits hold as they are
  Mass most;        ///< and up to this one
};

/// Where the water of one run is, at room temperature and in the typical case if not said
/// otherwise. At the stop: first_fill = distilled + held + vented + left_at_stop.
struct WaterPlan {
  Volume pour;          ///< what to pour in, measured at its own temperature
  Volume first_fill;    ///< the same at room temperature
  Volume distilled;     ///< caught as hydrosol
  Volume held;          ///< by charge and walls
  Volume uncondensed;   ///< past the condenser
  Volume left_at_stop;  ///< free in the pot
  Volume reserve;       ///< that must stay in the pot
  Volume absence;       ///< part of the fill that covers a late stop, and what the heater has
                        ///< stored, in the worst credible case
  /// The heat must be off before this much hydrosol is caught: then the pot keeps its reserve in
  /// the worst credible case.
  Volume never_beyond;
  Volume most_caught;     ///< where the heat is off just then: with what still comes, at the most
  Volume after_heat_off;  ///< comes after heat off, from what the heater has stored; typical
  Fraction pot_fill;      ///< share of the pot, with the charge when hydro
};

/// When, from heat on; of the typical run if not said otherwise.
struct TimesPlan {
  Duration boil;           ///< the pot boils
  Duration first_drop;     ///< distillate comes
  Duration stop;           ///< planned heat off
  Duration reserve;        ///< reached if the heat stays on
  Duration dry;            ///< if the heat stays on
  Duration earliest_stop;  ///< with the strongest heater and nothing vented
  Duration stop_worst;     ///< planned stop in the worst credible case, without the absence
  Duration reserve_worst;  ///< at no point of the ranges is it reached sooner
  Duration dry_worst;      ///< at no point of the ranges is the pot dry sooner
  /// By then the heat must be off, where nobody has seen the level: the worst credible case is at
  /// its stop, plus the absence that the recipe allows, and keeps its reserve.
  Duration latest;
  /// Whoever sees a level that is not there by then turns the heat off and finds out why. Nine
  /// runs in ten have come to it; and even the strongest heater, with all its steam lost, has not
  /// boiled the pot dry.
  Duration give_up;
};

/// A drop, 20 to the millilitre (from memory): less oil than this cannot be read off a receiver.
inline constexpr Volume a_drop_of_oil = millilitres(0.05);

/// How fast, in the typical run from first drop on.
struct RatesPlan {
  VolumeFlow distillate;                      ///< into the receiver
  VolumeFlow distillate_most;                 ///< the same in the worst credible case
  Rate steam_per_charge;                      ///< that passes the charge, kg per kg and unit time
  std::optional<Velocity> steam_velocity;     ///< superficial, in the bed; none in water
  std::optional<Pressure> bed_pressure_drop;  ///< none in water, or where the bed has no voids
  Power heat_into_pot;                        ///< while boiling
  Power heat_lost;                            ///< to the room, while boiling
};

/// What takes the heat away.
struct CoolingPlan {
  Power duty;               ///< typical
  std::optional<Mass> ice;  ///< in all; none where no ice is needed
  /// To have ready: what the coolant takes with the strongest or the weakest heater, whichever is
  /// more, in pieces as they are weighed out; none where even those take none. Not in brief.
  std::optional<Mass> ice_ready;
  std::vector<IceChange> ice_changes;        ///< times from heat on, in their order
  std::optional<Mass> first_ice;             ///< of it, in the bath at first drop
  std::optional<Temperature> reservoir_end;  ///< of bath or reservoir, at the stop
  std::optional<Duration> reservoir_limit;   ///< when the coolant first is too warm, from heat on
  std::optional<VolumeFlow> flow;            ///< run-through
  std::optional<VolumeFlow> flow_most;       ///< the same at the hottest plate
  std::optional<Volume> coolant_used;        ///< run-through, in all
  Area surface_needed;                       ///< typical, with the warmest coolant of the run
  std::optional<Temperature> distillate;     ///< leaves no warmer, if all is condensed and cooled
};

/// A full receiver gives way to an empty one.
struct ReceiverChange {
  Duration at;    ///< from heat on
  Volume caught;  ///< in all by then
};
/// More of them in a run are not planned, but warned of (common practice, no source).
inline constexpr int most_receiver_changes = 24;

/// What one run takes and costs.
struct EnergyPlan {
  Energy plug;                        ///< or fuel: rated power x setting x time
  std::optional<double> energy_cost;  ///< in `currency`; none without a price
  std::optional<double> plant_cost;   ///< in `currency`; none without a price
  std::string currency;               ///< as the recipe has it
};

/// The typical run at one moment.
struct TimelinePoint {
  Duration at;                         ///< from heat on
  Phase phase = Phase::warming;        ///< of the run
  std::string event;                   ///< empty for a plain point
  Volume pot_water;                    ///< free in the pot, as if at room temperature
  Temperature pot;                     ///< of that water
  Volume hydrosol;                     ///< in the receiver
  Range<Volume> oil;                   ///< in the receiver, at this level or time
  std::optional<Temperature> coolant;  ///< of bath or reservoir; none for a tap
};

/// What another quarter hour after the stop would bring.
struct QuarterHourMore {
  Volume hydrosol;  ///< more of it
  Mass oil;         ///< in the receiver; can be negative when the hydrosol takes more than comes
};

/// What the typical run brings.
struct NominalYield {
  Volume hydrosol;    ///< in the receiver
  Mass oil;           ///< parted in the receiver
  Volume oil_volume;  ///< the same
  Fraction oil_over;  ///< that has come over, of what this still can get
};

/// All that needs a run which gives distillate. Of one run, where the recipe takes several.
struct RunPlan {
  WaterPlan water;                               ///< where the water is
  TimesPlan times;                               ///< when
  RatesPlan rates;                               ///< how fast
  CoolingPlan cooling;                           ///< what takes the heat away
  EnergyPlan energy;                             ///< what it takes and costs
  NominalYield nominal;                          ///< what it brings
  std::vector<ReceiverChange> receiver_changes;  ///< none when one is enough, or far too small
  Uncertainty uncertainty;                       ///< how sure all of this is
  std::optional<Duration> allow;  ///< by then the stop has come as often as goal.confidence asks
  Stop stop;                      ///< what to watch
  StopRule stop_criterion = StopRule::hydrosol;  ///< what ends the typical run
  QuarterHourMore more;                          ///< what waiting would bring
  bool codistillation_limit_known = false;       ///< what steam can carry of this oil
  std::optional<Duration>
      codistillation_limit_until;       ///< while steam, not the plant, sets the pace
  Mass mass_residual;                   ///< what the water lacks to close; rounding
  Energy energy_residual;               ///< the same of heat; zero in brief
  std::vector<TimelinePoint> timeline;  ///< heat on to stop, in order of time; empty in brief

  /// Whether one stops by the clock; else by the level in the receiver.
  bool stops_by_clock() const { return !stop.hydrosol || stop_criterion == StopRule::time; }
  /// The clock that may be told beside a level. One that lets the worst case run its pot low would
  /// be no help.
  std::optional<Duration> clock_beside_level() const {
    return stop.clock && *stop.clock < times.reserve_worst ? stop.clock : std::nullopt;
  }
};

/// A planned recipe: a value that needs neither library nor tables any longer, and may be copied
/// and handed to other threads.
struct Plan {
  Recipe recipe;                      ///< as it was asked for
  Verdict verdict = Verdict::go;      ///< may it be run?
  std::vector<Finding> findings;      ///< worst first, the standing ones last
  std::vector<std::string> ways_out;  ///< texts of ways_out(), from whoever asked for them
  ChargePlan charge;                  ///< what is loaded
  Pressure ambient;                   ///< at the site
  Temperature boiling;                ///< of water there
  SpecificEnergy latent_heat;         ///< of water there
  std::optional<RunPlan> run;         ///< none when the still gives no distillate as asked
  std::set<std::string> sources;      ///< keys of all that its figures rest on; empty in brief
  SourceCount source_count;           ///< of them; none in brief
  std::vector<std::string>
      defaults_used;  ///< where no figure of the plant's own serves, and what does

  /// Whether it may be run. Nobody may work from a plan that is refused, so it has no amounts,
  /// sheet, calendar, timeline or picture.
  bool may_be_run() const { return run && verdict != Verdict::refused; }
  /// The run of a plan that may be run. Throws RefusedError for any other.
  const RunPlan& runnable() const;
};

}  // namespace firstdrop
