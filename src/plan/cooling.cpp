#include "plan/cooling.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "model/cold_side.hpp"
#include "model/outcomes.hpp"
#include "model/worst_case.hpp"
#include "quantity/numbers_text.hpp"

namespace firstdrop {
namespace {

std::optional<Duration> earlier(std::optional<Duration> a, std::optional<Duration> b) {
  if (!a || !b) return a ? a : b;
  return std::min(*a, *b);
}

// What the cooling of a run starts from. It stays the same throughout.
struct Task {
  const ModelParameters& parameters;
  const DesignDefaults& defaults;
  const ColdSide& cold_side;
  const Run& nominal;
  const Run& hot;  // upper-bound heater case
  Loading loading;
  Stop stop;
  Detail detail = Detail::full;

  const Condenser& condenser() const { return parameters.recipe.still->condenser; }
  HeatTransfer least_transfer() const { return least_of(parameters.selected->condensing); }
  Temperature limit() const { return cold_side.limit(); }
  Area surface() const { return least_of(condenser().surface); }
  Duration lateness() const { return longest_lateness(parameters); }
  // From first drop to stop.
  Duration length_of(const Run& run) const {
    return std::max(stop_time(run, stop) - run.first_drop(), seconds(0));
  }
  // Latent heat only. warmed_by_distillate() adds the rest.
  Power hot_duty() const { return hot.vapour() * parameters.latent_heat; }
  bool condenses(Temperature coolant) const {
    return coolant + defaults.least_difference.typical() < parameters.boiling &&
           cold_side.condensing_in_vessel(hot.vapour(), least_transfer(), coolant) <= surface();
  }
};

// --- the coolant vessel in the upper-bound heater case -------------------------------------------

// The coolant vessel with the least and with the most heat exchange with the room. A bath warmer
// than the room gets warmest with the least loss to it. A colder one gets warmest with the most
// gain from it. For a bath that passes room temperature it can be either.
std::array<CoolantVessel, 2> hot_vessels(const Task& task) {
  const auto with = [&](HeatTransfer film) {
    return task.cold_side.warmed_by_distillate(task.cold_side.small_vessel(film),
                                               task.hot.vapour());
  };
  return {with(least_of(task.defaults.bath_loss)), with(most_of(task.defaults.bath_loss))};
}

// The vessel run with no ice other than that at the start.
CoolantRun left_alone(const Task& task, CoolantVessel hot) {
  hot.ice_per_change = grams(0);
  return CoolantRun(hot, task.hot_duty(), task.length_of(task.hot));
}

// The warmest coolant when a late person comes, whatever ice has gone in before. If the coolant
// can reach its limit, some weaker heater may bring it there exactly at the stop, so the lateness
// starts at the limit.
Temperature warmest_when_late(const Task& task, CoolantVessel hot, const CoolantRun& alone) {
  if (hot.ice_per_change < least_ice || !alone.limit_reached()) {
    return alone.temperature_at(task.length_of(task.hot) + task.lateness());
  }
  hot.ice_per_change = grams(0);
  hot.first_ice = grams(0);
  hot.start = task.limit();
  return CoolantRun(hot, task.hot_duty(), task.lateness()).end();
}

// Whether the ice of the planned changes lasts until a late person comes, with any heater. The
// most and the least heat that a run brings to the coolant come with the strongest and the
// weakest heater, or the other way round: with the weakest, the room warms the coolant for
// longest. If both need the same number of changes by the stop, so does every heater between
// them. Then one of the two also has the warmest coolant on a late stop: the heat from the room
// grows with the length of the run, and the heat during the lateness grows with the vapour.
bool last_ice_lasts(const Task& task, const std::vector<IceChange>& changes) {
  if (changes.empty()) return false;
  const Run cool(
      lower_heater_values(task.parameters, task.loading.charge, task.loading.first_fill));
  if (cool.failure()) return false;
  const ColdSide& cold_side = task.cold_side;
  std::vector<Mass> as_planned;
  std::vector<Mass> thin;
  for (const IceChange& change : changes) {
    as_planned.push_back(change.ice);
    thin.push_back(change.ice * cold_side.thinned());
  }
  // One extra piece. If it goes in, the coolant has reached its limit once more than planned.
  as_planned.push_back(changes.back().ice);
  thin.push_back(thin.back());
  const auto as_many = [&](const CoolantRun& run) {
    return run.changes().size() == changes.size();
  };
  const Duration hot_length = task.length_of(task.hot);
  const Duration cool_length = task.length_of(cool);
  const Power cool_duty = cool.vapour() * task.parameters.latent_heat;
  // With no uncondensed loss the level is reached sooner, and with the largest loss it is reached
  // later.
  const double caught = 1.0 - task.hot.values().uncondensed_loss;
  const Duration all_condensed = hot_length * caught;
  const Duration slow_length = cool_length / caught;
  const auto holds = [&](HeatTransfer film) {
    const CoolantVessel small = cold_side.small_vessel(film);
    const CoolantVessel large = cold_side.large_vessel(film);
    const CoolantVessel hot = cold_side.warmed_by_distillate(small, task.hot.vapour());
    const CoolantVessel slow = cold_side.warmed_by_distillate(small, cool.vapour());
    const CoolantRun at_hottest(hot, task.hot_duty(), hot_length, thin);
    const CoolantRun at_slowest(slow, cool_duty, slow_length, thin);
    const Temperature late = std::max(at_hottest.temperature_at(hot_length + task.lateness()),
                                      at_slowest.temperature_at(slow_length + task.lateness()));
    return as_many(at_hottest) && as_many(at_slowest) && task.condenses(late) &&
           as_many(CoolantRun(large, cool_duty, cool_length, as_planned)) &&
           as_many(CoolantRun(large, task.hot_duty(), all_condensed, as_planned));
  };
  return holds(least_of(task.defaults.bath_loss)) && holds(most_of(task.defaults.bath_loss));
}

// --- findings ------------------------------------------------------------------------------------

// `planned` are the changes of the nominal run; `hot` is the vessel with the strongest heater.
std::optional<Finding> too_busy(const Task& task, const std::vector<IceChange>& planned,
                                const CoolantVessel& hot) {
  const auto apart = [](const std::vector<IceChange>& changes) {
    return changes.size() > 1 ? changes[1].at - changes[0].at : hours(24);
  };
  const CoolantRun strongest(hot, task.hot_duty(), task.length_of(task.hot));
  const Duration at_worst = std::min(apart(strongest.changes()), apart(planned));
  const Duration manageable = task.defaults.ice_interval.typical();
  if (at_worst >= manageable) return std::nullopt;
  const bool hopeless = apart(planned) < task.defaults.least_ice_interval.typical();
  return Finding(
      hopeless ? Level::refuse : Level::caution,
      found::IceOften{at_worst, std::max(strongest.changes().size(), planned.size()), manageable});
}

// Whether the surface condenses all steam and cools the distillate. `at_outlet` is the temperature
// of the coolant where the distillate leaves.
std::optional<Finding> surface_too_small(const Task& task, Temperature warmest, Area worst,
                                         const Surface& nominal, Temperature at_outlet) {
  const Area has = task.surface();
  if (worst > has) return Finding(Level::refuse, found::SteamEscapes{warmest, worst, has});
  const Temperature outlet = task.cold_side.outlet();
  if (nominal.total() <= has && task.cold_side.outlet_above(at_outlet) <= outlet)
    return std::nullopt;
  return Finding(Level::caution, found::DistillateWarm{warmest, outlet, nominal.total(), has});
}

// Adds what the surface needs, and the distillate's temperature if it is large enough.
void describe_surface(const Task& task, const Surface& nominal, Temperature at_outlet,
                      CoolingPlan& plan) {
  plan.surface_needed = nominal.total();
  if (nominal.total() <= task.surface()) plan.distillate = task.cold_side.outlet_above(at_outlet);
}

// Whether steam still condenses when the person comes late in the upper-bound heater case. If ice
// shortly before the stop is enough for that, it is part of the answer; its `at` counts back from
// the stop.
struct LateStop {
  std::optional<Finding> finding;
  IceChange ice_before_stop;
};
LateStop judge_late_stop(const Task& task, Temperature coolant) {
  if (task.condenses(coolant)) return {};
  const ModelParameters& parameters = task.parameters;
  const Duration absence = parameters.recipe.limits.absence;
  const Duration before =
      std::min(task.defaults.ice_before_stop.typical(), task.length_of(task.nominal));
  Temperature late = celsius(0);
  bool ice_to_be_had = true;
  for (CoolantVessel iced : hot_vessels(task)) {
    iced.start = task.limit();
    iced.first_ice = std::min(iced.ice_per_change, iced.filling);
    ice_to_be_had = iced.first_ice >= least_ice;
    iced.ice_per_change = grams(0);
    late = std::max(late, CoolantRun(iced, task.hot_duty(), before + task.lateness()).end());
  }
  if (ice_to_be_had && task.condenses(late)) {
    const CoolantVessel& vessel = task.cold_side.vessel();
    return {
        Finding(Level::caution,
                found::IceBeforeStop{absence, std::min(coolant, parameters.boiling), task.limit()}),
        {before, std::min(vessel.ice_per_change, vessel.filling)}};
  }
  const Temperature then = std::min(ice_to_be_had ? late : coolant, parameters.boiling);
  return {Finding(Level::refuse, found::CoolantWhenLate{absence, then, task.limit()}), {}};
}

// --- ice -----------------------------------------------------------------------------------------

// Enough ice for any heater. Either the strongest takes most, or the weakest, because the room
// warms its coolant for longest. A person who has ice puts in a whole piece, because they don't
// know that it is the last one. `pieces` are those of the changes, in order, as many as there can
// be.
Mass most_ice(const Task& task, const std::vector<Mass>& pieces) {
  const ColdSide& cold_side = task.cold_side;
  const Units units = task.parameters.recipe.units;
  Mass most;
  const auto takes = [&](const CoolantVessel& hot_or_cool, const Run& run, Duration length) {
    const Power duty = run.vapour() * task.parameters.latent_heat;
    const CoolantRun coolant(hot_or_cool, duty, length, pieces);
    Mass sum;
    for (const IceChange& change : coolant.changes()) sum += ice_up(change.ice, units);
    most = std::max(most, sum);
  };
  const Run cool(
      lower_heater_values(task.parameters, task.loading.charge, task.loading.first_fill));
  const double caught = 1.0 - task.hot.values().uncondensed_loss;
  for (const HeatTransfer film :
       {least_of(task.defaults.bath_loss), most_of(task.defaults.bath_loss)}) {
    // A small bath gets pieces in proportion to its size, or pieces as large as it has room
    // for. With the large pieces, the last one may turn out not to be needed.
    CoolantVessel brimful = cold_side.small_vessel(film);
    brimful.ice_per_change = std::min(cold_side.vessel().ice_per_change, brimful.filling);
    for (const CoolantVessel& one :
         {cold_side.small_vessel(film), brimful, cold_side.large_vessel(film)}) {
      takes(cold_side.warmed_by_distillate(one, task.hot.vapour()), task.hot,
            task.length_of(task.hot));
      if (cool.failure()) continue;
      // A run with the weakest heater isn't followed for longer than any run may last.
      const Duration slow =
          std::min(task.length_of(cool) / caught, task.defaults.longest_run.typical());
      takes(cold_side.warmed_by_distillate(one, cool.vapour()), cool, slow);
    }
  }
  return most;
}

std::optional<Mass> ice_ready(const Task& task, const CoolingPlan& plan, const CoolantRun& planned,
                              const IceChange& ice_before_stop) {
  const CoolantVessel& vessel = task.cold_side.vessel();
  const Units units = task.parameters.recipe.units;
  const Mass at_first = ice_up(vessel.first_ice, units);
  const Mass before_stop = ice_up(ice_before_stop.ice, units);
  Mass most;
  if (vessel.ice_per_change >= least_ice) {
    std::vector<Mass> pieces;
    Mass largest;
    const bool before = ice_before_stop.ice >= least_ice;
    const Duration then = task.length_of(task.nominal) - ice_before_stop.at;
    for (const IceChange& change : planned.changes()) {
      if (before && change.at == then) continue;  // counted separately
      pieces.push_back(change.ice);
      largest = std::max(largest, change.ice);
    }
    // Where the nominal run never reaches the limit, a hotter one gets the still's usual piece.
    if (largest < least_ice) largest = std::min(vessel.ice_per_change, vessel.filling);
    pieces.resize(most_ice_changes, largest);
    most = most_ice(task, pieces);
  }
  const Mass all = at_first + most + before_stop;
  if (all <= Mass()) return std::nullopt;
  return planned.ice() > Mass() ? std::max(all, ice_to_have(plan, units)) : all;
}

// --- ice bath and reservoir ----------------------------------------------------------------------

// Adds the nominal run with all its ice. `without` is the same run without the ice before the stop;
// `beyond` is how long past the stop its last ice lasts.
void describe_vessel(const Task& task, Duration beyond, const IceChange& ice_before_stop,
                     CoolantRun without, Cooling& cooling) {
  const CoolantVessel& vessel = task.cold_side.vessel();
  const Duration length = task.length_of(task.nominal);
  const Duration first_drop = task.nominal.first_drop();
  const IceChange planned{length - ice_before_stop.at, ice_before_stop.ice};
  CoolingPlan& plan = cooling.plan;
  CoolantRun run = planned.ice < least_ice ? std::move(without)
                                           : CoolantRun(vessel, plan.duty, length, beyond, planned);
  plan.reservoir_end = run.end();
  if (const auto reached = run.limit_reached()) plan.reservoir_limit = first_drop + *reached;
  if (vessel.first_ice > grams(0)) plan.first_ice = vessel.first_ice;
  if (run.ice() > grams(0)) plan.ice = run.ice();
  if (ice_before_stop.ice >= least_ice) plan.ice_before_stop = first_drop + planned.at;
  cooling.coldest = std::min(cooling.coldest, run.temperature_at(seconds(0)));
  for (const IceChange& change : run.changes()) {
    plan.ice_changes.push_back({first_drop + change.at, change.ice});
    cooling.coldest = std::min(cooling.coldest,
                               task.cold_side.chilled(run.temperature_at(change.at - seconds(1)),
                                                      run.temperature_at(change.at + seconds(1))));
  }
  if (task.detail == Detail::full) plan.ice_ready = ice_ready(task, plan, run, ice_before_stop);
  cooling.vessel = std::move(run);
  cooling.rule = CoolingRule{beyond, ice_before_stop};
}

// The nominal run's coolant. If a late person would find steam in the room, its last piece of ice
// is larger, by what that person needs in the upper-bound heater case.
struct NominalCoolant {
  CoolantRun run;
  Duration beyond;   // how long past the stop the last ice lasts
  Temperature late;  // warmest when the person comes late
};
NominalCoolant nominal_coolant(const Task& task, Power duty, Temperature late) {
  const CoolantVessel& vessel = task.cold_side.vessel();
  const Duration length = task.length_of(task.nominal);
  CoolantRun run(vessel, duty, length);
  if (task.condenses(late)) return {std::move(run), Duration(), late};
  const Power most =
      task.hot.vapour() * condensing_heat(task.parameters.boiling, celsius(0.01)).total();
  const Duration longer = task.lateness() * double(most / duty);
  CoolantRun more(vessel, duty, length, longer);
  if (!last_ice_lasts(task, more.changes())) return {std::move(run), Duration(), late};
  return {std::move(more), longer, task.limit()};
}

Finding too_warm(const Task& task, Duration at) {
  const Duration stop = task.nominal.first_drop() + task.length_of(task.nominal);
  const Volume hydrosol = neat_down(task.nominal.hydrosol_at(at), task.parameters.recipe.units);
  return {Level::refuse, found::CoolantTooWarm{task.condenser().coolant->typical(), task.limit(),
                                               at, hydrosol, stop}};
}

Cooling cooled_by_vessel(const Task& task, Cooling cooling) {
  const auto [losing, gaining] = hot_vessels(task);
  const CoolantRun loses = left_alone(task, losing);
  const CoolantRun gains = left_alone(task, gaining);
  const Temperature late =
      std::max(warmest_when_late(task, losing, loses), warmest_when_late(task, gaining, gains));
  NominalCoolant coolant = nominal_coolant(task, cooling.plan.duty, late);
  const CoolantRun& run = coolant.run;
  const auto add = [&](std::optional<Finding> finding) {
    if (finding) cooling.findings.push_back(*std::move(finding));
  };
  if (loses.limit_reached()) add(too_busy(task, run.changes(), losing));

  // A hot heater warms the coolant sooner, and ice still goes in at the limit. After the stop
  // nobody is there to put it in.
  const Temperature warmest = std::min(std::max(loses.warmest(), gains.warmest()), task.limit());
  const auto limit_reached = earlier(loses.limit_reached(), gains.limit_reached());
  if (limit_reached && !run.limit_reached()) {
    add(Finding(Level::caution,
                found::CoolantWarmIfHot{task.limit(), task.hot.first_drop() + *limit_reached}));
  }
  const Area worst =
      task.cold_side.condensing_in_vessel(task.hot.vapour(), task.least_transfer(), warmest);
  const Surface nominal = task.cold_side.surface_in_vessel(
      task.nominal.vapour(), task.parameters.selected->condensing.range.typical, warmest);
  describe_surface(task, nominal, warmest, cooling.plan);
  std::optional<Finding> small = surface_too_small(task, warmest, worst, nominal, warmest);
  const bool escapes = small && small->level == Level::refuse;
  add(std::move(small));
  LateStop late_stop = escapes ? LateStop() : judge_late_stop(task, coolant.late);
  add(std::move(late_stop.finding));
  if (run.limit_reached() && run.changes().empty()) {
    cooling.ends = task.nominal.first_drop() + *run.limit_reached();
    add(too_warm(task, *cooling.ends));
  }
  describe_vessel(task, coolant.beyond, late_stop.ice_before_stop, std::move(coolant.run), cooling);
  return cooling;
}

// --- run-through ---------------------------------------------------------------------------------

Cooling cooled_by_flow(const Task& task, Cooling cooling) {
  const ColdSide& cold_side = task.cold_side;
  CoolingPlan& plan = cooling.plan;
  plan.flow = cold_side.flow(task.nominal.vapour());
  plan.flow_most = cold_side.most_flow(task.hot.vapour());
  plan.coolant_used = *plan.flow * task.length_of(task.nominal);
  cooling.rule = CoolingRule{};
  const Surface nominal = cold_side.surface_in_flow(
      task.nominal.vapour(), task.parameters.selected->condensing.range.typical);
  const Temperature at_outlet = task.parameters.coolant;
  describe_surface(task, nominal, at_outlet, plan);
  const Area worst = cold_side.most_surface_in_flow(task.hot.vapour(), task.least_transfer());
  if (auto small = surface_too_small(task, task.limit(), worst, nominal, at_outlet))
    cooling.findings.push_back(*std::move(small));
  const VolumeFlow most = least_of(*task.condenser().flow_limit);
  if (*plan.flow_most > most) {
    cooling.findings.emplace_back(Level::refuse, found::CoolantShort{*plan.flow_most, most});
  }
  return cooling;
}

}  // namespace

Mass ice_to_have(const CoolingPlan& plan, Units units) {
  Mass pieces = ice_up(plan.first_ice.value_or(Mass()), units);
  for (const IceChange& change : plan.ice_changes) pieces += ice_up(change.ice, units);
  return std::max(pieces, ice_up(*plan.ice, units));
}

Cooling plan_cooling(const ModelParameters& parameters, const DesignDefaults& defaults,
                     const Run& nominal, const Run& hot, const Loading& loading, const Stop& stop,
                     Detail detail) {
  const ColdSide cold_side(parameters, defaults);
  const Task task{parameters, defaults, cold_side, nominal, hot, loading, stop, detail};
  Cooling cooling;
  cooling.plan.duty = nominal.vapour() * cold_side.heat();
  cooling.coldest = parameters.coolant;
  const Temperature limit = task.limit();
  if (parameters.coolant >= limit) {
    cooling.findings.emplace_back(Level::refuse,
                                  found::CoolantStartsWarm{parameters.coolant, limit});
  } else if (limit + defaults.least_difference.typical() >= parameters.boiling) {
    cooling.findings.emplace_back(Level::refuse,
                                  found::CoolantLimitHigh{limit, parameters.boiling});
  } else if (task.condenser().kind == CondenserKind::run_through) {
    return cooled_by_flow(task, std::move(cooling));
  } else {
    return cooled_by_vessel(task, std::move(cooling));
  }
  return cooling;
}

}  // namespace firstdrop
