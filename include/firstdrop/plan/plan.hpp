/// @file
/// What a plan holds: charge, water, heat, oil, coolant, reserve, stop, findings, verdict.
#pragma once

#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "firstdrop/model/uncertainty.hpp"
#include "firstdrop/physics/course.hpp"
#include "firstdrop/plan/finding.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"
#include "firstdrop/readers/recipe.hpp"

namespace firstdrop {

/// What becomes of a recipe. The most serious of its findings decides.
enum class Verdict {
  go,       ///< it can be run
  caution,  ///< it can be run, with something to watch for
  refused,  ///< it must not or cannot be run as written
};
/// The names above, as in JSON.
std::string to_string(Verdict verdict);
/// The verdict of findings that stand worst first.
Verdict verdict_of(const std::vector<Finding>& worst_first);

/// What is loaded.
struct ChargePlan {
  Mass mass;        ///< of one run
  Mass as_fresh;    ///< the same herb as freshly cut; equals `mass` where that isn't known
  Mass dry_matter;  ///< in the charge
  Volume volume;    ///< that the charge fills
  Fraction fill;    ///< share filled of the column, of the space over the grid, or of the pot with
                    ///< its water
  int runs = 1;     ///< how many the recipe takes, all alike
  Mass harvest;     ///< charge of all runs together
  Mass rest;        ///< left over from the charge that the recipe asks for
  Mass least;  ///< smallest charge with the same water, stop and limits; in brief always `mass`
  Mass most;   ///< largest charge with the same water, stop and limits
};

/// Where the water of one run is. Volumes are at room temperature and of the nominal run unless
/// stated otherwise. At the stop, first_fill = distilled + held + uncondensed + left_at_stop.
struct WaterPlan {
  Volume pour;          ///< what to pour in, measured at its own temperature
  Volume first_fill;    ///< the same water at room temperature
  Volume distilled;     ///< caught as hydrosol
  Volume held;          ///< taken up by charge and walls
  Volume uncondensed;   ///< lost as vapour past the condenser
  Volume left_at_stop;  ///< free water in the pot
  Volume reserve;       ///< that must stay in the pot
  Volume absence;  ///< part of the fill that covers a late stop and the heat stored in the heater,
                   ///< in the worst credible case
  /// Turn the heat off before this much hydrosol is caught. Then the pot keeps its reserve in the
  /// worst credible case.
  Volume never_beyond;
  Volume most_caught;     ///< the most hydrosol there can be if the heat goes off at `never_beyond`
  Volume after_heat_off;  ///< nominal; still comes after the heat is off, from the heat stored in
                          ///< the heater
  Fraction pot_fill;      ///< share of the pot; includes the charge in hydro-distillation
};

/// Times from the start of heating, of the nominal run unless stated otherwise.
struct TimesPlan {
  Duration boil;           ///< the pot boils
  Duration first_drop;     ///< the first distillate comes
  Duration stop;           ///< planned heat off
  Duration reserve;        ///< the pot is down to its reserve if the heat stays on
  Duration dry;            ///< the pot is dry if the heat stays on
  Duration earliest_stop;  ///< with the strongest heater and the least uncondensed vapour loss
  Duration stop_worst;     ///< planned stop in the worst credible case, with no lateness
  Duration reserve_worst;  ///< a lower bound: no sample point reaches the reserve sooner
  Duration dry_worst;      ///< a lower bound: at no sample point is the pot dry sooner
  /// Heat off by this time if nobody has seen the level. It is the stop of the worst credible case
  /// plus the lateness that the recipe allows, or earlier where the pot would otherwise lose its
  /// reserve.
  Duration latest;
  /// If the level hasn't been reached by this time, turn the heat off and find out why. It is the
  /// P90 of the stop, but not before `latest`. It is earlier than the P90 where the strongest
  /// heater could boil the pot dry by then, even if all its steam leaks out.
  Duration give_up;
};

/// A drop, 20 to the millilitre (from memory). A receiver can't show less oil than this.
inline constexpr Volume a_drop_of_oil = millilitres(0.05);

/// How fast things go. Values are of the nominal run, from the first drop on.
struct RatesPlan {
  VolumeFlow distillate;       ///< into the receiver
  VolumeFlow distillate_most;  ///< the same in the worst credible case
  Rate steam_per_charge;       ///< steam through the charge, kg per kg of charge and unit time
  std::optional<Velocity> steam_velocity;     ///< superficial, in the bed; none in water (hydro)
  std::optional<Pressure> bed_pressure_drop;  ///< none in water, or where the bed has no voids
  Power heat_into_pot;                        ///< while boiling
  Power heat_lost;                            ///< to the room, while boiling
};

/// How the heat is taken away.
struct CoolingPlan {
  Power duty;               ///< of the nominal run
  std::optional<Mass> ice;  ///< in all, nominal run; none where no ice is needed
  /// Ice to have ready, in pieces as they are weighed out. It covers the strongest and the weakest
  /// heater, whichever takes more. None where neither takes any, and in brief.
  std::optional<Mass> ice_ready;
  std::vector<IceChange> ice_changes;  ///< in order; times from the start of heating
  /// When the ice for a late stop goes in, at any coolant temperature; from the start of heating.
  /// None where no such ice is needed.
  std::optional<Duration> ice_before_stop;
  std::optional<Mass> first_ice;             ///< the part of `ice` in the bath at first drop
  std::optional<Temperature> reservoir_end;  ///< temperature of bath or reservoir at the stop
  std::optional<Duration> reservoir_limit;   ///< first at its limit, from the start of heating
  std::optional<VolumeFlow> flow;            ///< run-through condenser only
  std::optional<VolumeFlow> flow_most;       ///< the same in the upper-bound heater case
  std::optional<Volume> coolant_used;        ///< run-through condenser only, in all
  Area surface_needed;  ///< of the nominal run, with the warmest coolant of the run
  std::optional<Temperature> distillate;  ///< warmest; none if the surface can't cool it
};

/// A full receiver is replaced by an empty one.
struct ReceiverChange {
  Duration at;    ///< from the start of heating
  Volume caught;  ///< in all receivers by then
};

/// When one fraction of the distillate comes, in the nominal run.
struct FractionPlan {
  Duration from;  ///< from the start of heating
  Duration to;    ///< likewise; no later than the stop
};

/// What one run takes and costs.
struct EnergyPlan {
  Energy plug;  ///< from the socket, or from fuel: rated power x setting x mains factor x time
  std::optional<double> energy_cost;  ///< in `currency`; none without a price
  std::optional<double> plant_cost;   ///< in `currency`; none without a price
  std::string currency;               ///< as written in the recipe
};

/// The nominal run at one moment.
struct TimelinePoint {
  Duration at;                   ///< from the start of heating
  Phase phase = Phase::warming;  ///< of the run
  std::string event;             ///< empty for a plain point
  Volume pot_water;              ///< free water in the pot, as if at room temperature
  Temperature pot;               ///< of that water
  Volume hydrosol;               ///< in the receiver
  /// In the receiver, at this level or time: P10, P50, P90. None if nothing is known of the oil.
  std::optional<Range<Volume>> oil;
  std::optional<Temperature> coolant;  ///< of bath or reservoir; none for a tap
};

/// What another quarter of an hour after the stop would bring.
struct QuarterHourMore {
  Volume hydrosol;  ///< additional
  Mass oil;         ///< change of separated oil; below zero if more dissolves than comes over
};

/// What the nominal run brings.
struct NominalYield {
  Volume hydrosol;    ///< in the receiver
  Mass oil;           ///< separated in the receiver
  Volume oil_volume;  ///< volume of `oil`
  Fraction oil_over;  ///< vaporised, as a share of what this still can get
};

/// Everything that exists only for a run that gives distillate. Values are of one run, where the
/// recipe takes several.
struct RunPlan {
  /// Whether anything is known of the oil. If not, none of the figures of oil means anything.
  bool has_oil = true;
  WaterPlan water;                               ///< where the water is
  TimesPlan times;                               ///< when things happen
  RatesPlan rates;                               ///< how fast things go
  CoolingPlan cooling;                           ///< how the heat is taken away
  EnergyPlan energy;                             ///< what it takes and costs
  NominalYield nominal;                          ///< what it brings
  std::vector<ReceiverChange> receiver_changes;  ///< none if one is enough or far too small
  std::vector<FractionPlan> fractions;  ///< of the recipe, in order; their yields: `uncertainty`
  Uncertainty uncertainty;              ///< P10, P50 and P90 of the outcomes
  std::optional<Duration> allow;  ///< the stop has come by then as often as goal.confidence asks
  Stop stop;                      ///< what to watch
  StopRule stop_criterion = StopRule::hydrosol;  ///< what ends the nominal run
  QuarterHourMore more;                          ///< what waiting longer would bring
  bool codistillation_limit_known = false;  ///< whether what steam can carry of this oil is known
  std::optional<Duration> codistillation_limit_until;  ///< until then steam sets the pace
  Mass mass_residual;                   ///< error of the water balance; rounding only
  Energy energy_residual;               ///< error of the heat balance; zero in brief
  std::vector<TimelinePoint> timeline;  ///< start of heating to stop, in order; empty in brief

  /// Whether the clock ends the run. Otherwise the level in the receiver does.
  bool stops_by_clock() const { return !stop.hydrosol || stop_criterion == StopRule::time; }
  /// The clock time to give beside a level. None where the worst case would be down to its reserve
  /// by then.
  std::optional<Duration> clock_beside_level() const {
    return stop.clock && *stop.clock < times.reserve_worst ? stop.clock : std::nullopt;
  }
};

struct Workings;

/// A planned recipe. It is a self-contained value: apart from `workings`, it doesn't refer to the
/// tables, and it can be copied and handed to other threads.
struct Plan {
  Recipe recipe;                      ///< as it was asked for
  Verdict verdict = Verdict::go;      ///< may it be run?
  std::vector<Finding> findings;      ///< worst first; those that hold for every run come last
  std::vector<std::string> ways_out;  ///< texts of ways_out(); empty until add_ways_out() fills it
  /// Texts of measurements_that_help(); empty until add_ways_out() fills it.
  std::vector<std::string> measure_next;
  ChargePlan charge;              ///< what is loaded
  Pressure ambient;               ///< at the site
  Temperature boiling;            ///< of water there
  SpecificEnergy latent_heat;     ///< of water there
  std::optional<RunPlan> run;     ///< none when the still gives no distillate as asked
  std::set<std::string> sources;  ///< keys of the sources of all its figures; empty in brief
  SourceCount source_count;       ///< counts of `sources`; zero in brief
  std::vector<std::string>
      defaults_used;  ///< figures that aren't the plant's own, and the default value used for each
  /// What the plan was worked out from, for its explanation; all copies share it. Null in brief and
  /// in a plan that make_plan() didn't make. Only code that still has the tables may read it.
  std::shared_ptr<const Workings> workings;

  /// Whether it may be run. A refused plan has no amounts, sheet, calendar, timeline or picture,
  /// because nobody may work from it.
  bool may_be_run() const { return run && verdict != Verdict::refused; }
  /// The run of a plan that may be run. Throws RefusedError for any other.
  const RunPlan& runnable() const;
};

}  // namespace firstdrop
