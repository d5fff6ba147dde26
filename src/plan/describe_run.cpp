#include "plan/describe_run.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "model/sampling.hpp"
#include "model/worst_case.hpp"
#include "physics/basis.hpp"
#include "physics/charge.hpp"
#include "physics/stop.hpp"
#include "physics/water.hpp"

namespace firstdrop {
namespace {

// What a run is loaded with and what ends it.
struct Loaded {
  Mass charge;
  Mass most_charge;
  Mass fill;
  Mass reserve;  ///< the mass of the plan's volume
  Stop stop;
};

Loaded loaded(const Planning& p, const Settled& settled, const Decision& decision) {
  return {decision.charge, settled.most_charge, decision.first_fill,
          p.water.as_mass(p.water.as_volume(decision.reserve)), decision.stop};
}

// --- water and times ----------------------------------------------------------------------------

WaterPlan describe_water(const Planning& p, const Loaded& loaded, Mass reserve,
                         const WaterBalance& at_stop, const Run& worst) {
  const auto as_volume = [&](Mass water) { return p.water.as_volume(water); };
  WaterPlan water;
  water.pour = p.water.poured_volume(loaded.fill);
  water.first_fill = as_volume(loaded.fill);
  water.distilled = as_volume(at_stop.distilled);
  water.held = as_volume(at_stop.held);
  water.uncondensed = as_volume(at_stop.uncondensed);
  water.left_at_stop = as_volume(at_stop.left);
  water.reserve = as_volume(reserve);
  water.absence = as_volume(worst.vapour() * p.lateness());
  water.pot_fill = (water.pour + p.water.pieces(loaded.charge)) / p.still.pot.volume.typical();
  return water;
}

// How long the pot's water lasts in the worst credible case, and how much hydrosol is caught when
// the heat must be off.
struct LastsUntil {
  Duration reserve;
  Duration dry;
  Volume level;
};
LastsUntil lasts_until(const Planning& p, const Loaded& loaded, Mass charge, const Run& worst) {
  const Duration late = stop_time(worst, loaded.stop) + p.lateness();
  // The plan was settled so that the reserve lasts until then. In a refused plan it may not.
  const bool lasts = worst.water_at(late).left >= loaded.reserve * (1.0 - 1e-9);
  const Duration to_reserve = p.water.worst_time_until(loaded.reserve, charge, loaded.fill, worst,
                                                       lasts ? late : seconds(0));
  const Duration after_heat = longest_after_heat(p.parameters);
  return {to_reserve, p.water.worst_time_until(grams(0), charge, loaded.fill, worst, to_reserve),
          worst.hydrosol_at(std::max(to_reserve - after_heat, seconds(0)))};
}

// The same for any charge up to the largest allowed.
LastsUntil lasts_until(const Planning& p, const Loaded& loaded, const Run& worst) {
  LastsUntil lasts = lasts_until(p, loaded, loaded.charge, worst);
  const Mass most = loaded.most_charge;
  if (most <= loaded.charge) return lasts;
  const Run heavy = p.water.worst_case(most).run(loaded.fill, loaded.stop, p.lateness());
  const LastsUntil with_most = lasts_until(p, loaded, most, heavy);
  return {std::min(lasts.reserve, with_most.reserve), std::min(lasts.dry, with_most.dry),
          std::min(lasts.level, with_most.level)};
}

// The earliest stop: with the strongest heater and the least uncondensed loss.
Duration earliest_stop(const Planning& p, const Stop& stop, Duration in_worst_case,
                       const Run& strongest) {
  if (!stop.hydrosol) return in_worst_case;
  const VolumeFlow soonest = strongest.vapour() *
                             (1.0 - p.parameters.selected->uncondensed_loss.range.least()) /
                             p.parameters.fill_density;
  return std::min(in_worst_case, strongest.first_drop() + *stop.hydrosol / soonest);
}

// The highest level at which the pot keeps its reserve, whatever the heater.
Volume never_beyond(const Planning& p, const Loaded& loaded, std::optional<Duration> clock,
                    Volume lasts_to) {
  const Duration after_heat = longest_after_heat(p.parameters);
  const Volume by_any = p.water.most_hydrosol(loaded.most_charge, loaded.fill, clock, after_heat);
  const Volume level = std::min(by_any, p.neat_down(lasts_to));
  // Where the jug has no mark between the stop and the highest safe level, the stop itself is
  // used.
  const std::optional<Volume>& stop = loaded.stop.hydrosol;
  if (stop && level < *stop &&
      p.water.worst_margin(loaded.most_charge, loaded.fill, Stop{stop, clock}, after_heat) >=
          grams(0)) {
    return *stop;
  }
  return level;
}

// Adds how long the heat may stay on in the worst credible case, by level and by clock.
void describe_latest(const Planning& p, const Loaded& loaded, const Run& strongest,
                     const Run& worst, RunPlan& r) {
  const Duration after_heat = longest_after_heat(p.parameters);
  TimesPlan& t = r.times;
  t.stop_worst = stop_time(worst, loaded.stop);
  t.earliest_stop = earliest_stop(p, loaded.stop, t.stop_worst, strongest);
  const LastsUntil lasts = lasts_until(p, loaded, worst);
  t.reserve_worst = lasts.reserve;
  t.dry_worst = lasts.dry;
  t.latest = std::max(
      std::min(t.reserve_worst - after_heat, t.stop_worst + p.recipe.limits.absence), seconds(0));
  // A person who watches the level also watches the clock, if the stop has one. In a run by the
  // clock, the clock is the latest safe time.
  const std::optional<Duration> clock = r.stops_by_clock() ? t.latest : loaded.stop.clock;
  r.water.never_beyond = never_beyond(p, loaded, clock, lasts.level);
  r.water.most_caught = r.water.never_beyond + worst.distillate_rate() * after_heat;
}

Duration latest_first_drop(const Planning& p, const Loaded& loaded, const Run& nominal) {
  const Run weak(p.nominal.weakest(loaded.charge, loaded.fill));
  return weak.failure() ? nominal.first_drop() : weak.first_drop();
}

// --- rates, receivers, costs --------------------------------------------------------------------

RatesPlan describe_rates(const Planning& p, Mass charge, const Run& run, const Run& worst) {
  const RunValues& v = run.values();
  RatesPlan rates;
  rates.distillate = run.distillate_rate();
  rates.distillate_most = worst.distillate_rate();
  rates.steam_per_charge = run.steam_per_charge();
  rates.heat_into_pot = v.heat_boiling;
  rates.heat_lost = (v.pot_loss + v.column_loss) * (v.boiling - v.room);
  if (p.hydro()) return rates;
  const Bed bed{charge, p.parameters.selected->bulk_density.typical(),
                p.defaults.particle_density.typical(),
                p.defaults.particle_size.at(p.recipe.cut).typical(),
                bed_area(p.still, p.recipe.method_used())};
  const Temperature boiling = p.parameters.boiling;
  const BedFlow flow = steam_through(bed, run.steam_made(), saturated_vapour_density(boiling),
                                     saturated_vapour_viscosity(boiling));
  rates.steam_velocity = flow.superficial;
  rates.bed_pressure_drop = flow.pressure_drop;
  return rates;
}

std::vector<ReceiverChange> receiver_changes(const Planning& p, const Run& run, Duration stop) {
  std::vector<ReceiverChange> changes;
  for (const Volume end : p.recipe.fraction_ends())
    if (end < run.hydrosol_at(stop)) changes.push_back({run.time_of_hydrosol(end), end});
  if (!p.recipe.receiver_volume) return changes;
  const double full = std::ceil(run.hydrosol_at(stop) / *p.recipe.receiver_volume - 1e-9) - 1.0;
  if (full > p.defaults.counts.most_receivers) return changes;
  for (double n = 1; n <= full; ++n) {
    const Volume caught = *p.recipe.receiver_volume * n;
    changes.push_back({run.time_of_hydrosol(caught), caught});
  }
  return changes;
}

std::vector<FractionPlan> describe_fractions(const Planning& p, const Run& run, Duration stop) {
  std::vector<FractionPlan> fractions;
  if (p.recipe.fractions.empty()) return fractions;
  const std::vector<Duration> bounds = fraction_bounds(run, p.recipe.fraction_ends(), stop);
  for (std::size_t i = 0; i + 1 < bounds.size(); ++i)
    fractions.push_back({bounds[i], bounds[i + 1]});
  return fractions;
}

EnergyPlan describe_energy(const Planning& p, Mass charge, Duration stop) {
  const Prices& prices = p.recipe.prices;
  EnergyPlan energy;
  energy.plug = p.still.heater.power.typical() * p.recipe.setting * p.parameters.mains * stop;
  energy.currency = prices.currency;
  if (prices.energy_per_kwh) {
    energy.energy_cost = *prices.energy_per_kwh * in_kilowatt_hours(energy.plug);
  }
  if (prices.plant_per_kg) energy.plant_cost = *prices.plant_per_kg * in_kilograms(charge);
  return energy;
}

NominalYield describe_yield(const Planning& p, Volume distilled, const OilBalance& oil,
                            const Run& run) {
  const Mass recoverable = run.values().oil_recoverable;
  return {distilled, oil.separated, oil.separated / p.parameters.selected->oil_density.typical(),
          recoverable > grams(0) ? Fraction(oil.vaporised / recoverable) : fraction(1)};
}

// --- uncertainty --------------------------------------------------------------------------------

Uncertainty describe_uncertainty(const Planning& p, const Decision& decision, const GoalOfRun& goal,
                                 const Run& run, const std::optional<CoolingRule>& cooling,
                                 const RunPlan& r) {
  if (p.brief() && p.sampling.samples == 0) {
    Uncertainty nominal = nominal_uncertainty(p.parameters, decision, run);
    nominal.plug = Range<Energy>::exactly(r.energy.plug);
    if (r.cooling.ice) nominal.ice = Range<Mass>::exactly(*r.cooling.ice);
    return nominal;
  }
  std::vector<Mark> marks;
  for (const TimelinePoint& point : r.timeline) {
    marks.push_back({point.hydrosol, point.at, point.phase == Phase::running});
  }
  return uncertainty_of(p.parameters, p.defaults, decision, goal, p.sampling, marks, cooling,
                        p.detail);
}

// --- the run ------------------------------------------------------------------------------------

// The run's cooling, and the stop that it allows.
struct CooledStop {
  Cooling cooling;
  Stop stop;
  bool ends_run = false;  ///< the coolant ends it earlier than was settled
};
CooledStop cool(const Planning& p, const Settled& settled, const Run& run) {
  const Mass charge = settled.charge.charge;
  const Run hot = upper_heater_run(p, charge, settled.fill);
  const auto with = [&](const Stop& stop) {
    return plan_cooling(p.parameters, p.defaults, run, hot, {charge, settled.fill}, stop, p.detail);
  };
  CooledStop cooled{with(settled.stop.stop), settled.stop.stop};
  // Where the recipe has no goal, the coolant may end the run.
  const std::optional<Duration>& ends = cooled.cooling.ends;
  cooled.ends_run = ends && std::holds_alternative<HarvestGoal>(p.recipe.goal) &&
                    run.hydrosol_at(*ends) >= p.defaults.least_run.typical();
  if (cooled.ends_run) {
    cooled.stop.hydrosol = p.neat_down(run.hydrosol_at(*ends));
    cooled.cooling = with(cooled.stop);
  }
  return cooled;
}

// What the nominal run and the worst case say of the run, before any sampling.
// `rule` is what was settled to end it, or the coolant. The plan's stop is that of `loaded`, or
// lower where that would take too much water. Its cooling isn't described yet.
RunPlan describe_nominal(const Planning& p, StopRule rule, const Run& run, const Run& worst,
                         Mass reserve, Loaded loaded) {
  const Duration stop = stop_time(run, loaded.stop);
  const bool clock_first = loaded.stop.clock && loaded.stop.hydrosol &&
                           *loaded.stop.clock < run.time_of_hydrosol(*loaded.stop.hydrosol);
  RunPlan r;
  r.has_oil = p.parameters.selected->has_oil;
  r.stop = loaded.stop;
  r.stop_criterion = clock_first && rule != StopRule::cooling ? StopRule::time : rule;
  const WaterBalance water = run.water_at(stop);
  const OilCourse oil_of(run, p.recipe.fraction_ends());
  const OilBalance oil = oil_of.at(stop);
  r.water = describe_water(p, loaded, reserve, water, worst);
  r.nominal = describe_yield(p, r.water.distilled, oil, run);
  r.times.boil = run.boil();
  r.times.first_drop = run.first_drop();
  r.times.stop = stop;
  r.times.reserve = run.time_until_left(reserve);
  r.times.dry = run.time_until_left(grams(0));
  const Run strongest = p.water.worst_case(loaded.charge).strongest_heater(loaded.fill);
  describe_latest(p, loaded, strongest, worst, r);
  if (clock_first && r.water.never_beyond > litres(0) &&
      r.water.never_beyond < *loaded.stop.hydrosol) {
    // The clock ends the nominal run long before that level. In the worst case the level would
    // take too much water, so it is replaced by the highest safe one.
    loaded.stop.hydrosol = r.water.never_beyond;
    r.stop = loaded.stop;
    describe_latest(p, loaded, strongest, worst, r);
  }
  const Duration stored = std::max(p.parameters.selected->stored_heat.typical(), seconds(0));
  r.water.after_heat_off = run.distillate_rate() * stored;
  r.rates = describe_rates(p, loaded.charge, run, worst);
  r.receiver_changes = receiver_changes(p, run, stop);
  r.fractions = describe_fractions(p, run, stop);
  r.energy = describe_energy(p, loaded.charge, stop);
  r.more = {run.hydrosol_at(stop + quarter_hour) - run.hydrosol_at(stop),
            oil_of.at(stop + quarter_hour).separated - oil.separated};
  r.codistillation_limit_known = p.parameters.codistillation.has_value();
  r.mass_residual =
      run.values().first_fill - water.distilled - water.uncondensed - water.held - water.left;
  if (!p.brief()) {
    r.codistillation_limit_until = run.codistillation_limit_until();
    r.energy_residual = run.energy_at(stop).residual();
  }
  return r;
}

}  // namespace

DescribedRun describe_run(const Planning& p, const Settled& settled) {
  DescribedRun described;
  described.decision = settled.decision(p);
  const Run run = p.nominal.of(settled.charge.charge, settled.fill);
  const Duration longest = p.defaults.longest_run.typical();
  const Duration takes = stop_time(run, settled.stop.stop);
  if (takes > longest) {
    described.findings.emplace_back(Level::refuse, found::TooSlow{takes, longest});
    return described;
  }
  CooledStop cooled = cool(p, settled, run);
  described.coldest_coolant = cooled.cooling.coldest;
  described.findings = std::move(cooled.cooling.findings);
  described.decision.stop = cooled.stop;
  const Loaded loaded = firstdrop::loaded(p, settled, described.decision);
  // The fill was settled for the original stop. If the coolant ends the run earlier, more water
  // is left.
  const Run worst = p.water.worst_case(loaded.charge).run(loaded.fill, loaded.stop, p.lateness());
  if (!p.brief()) described.workings = RunWorkings{run, worst};
  RunPlan r = describe_nominal(p, cooled.ends_run ? StopRule::cooling : settled.stop.rule, run,
                               worst, described.decision.reserve, loaded);
  r.cooling = std::move(cooled.cooling.plan);
  described.decision.stop = r.stop;
  const Duration stop = r.times.stop;
  if (stop <= run.first_drop()) {
    described.findings.emplace_back(
        Level::refuse,
        found::StopsBeforeFirstDrop{stop, run.first_drop(), latest_first_drop(p, loaded, run)});
  }
  if (!p.hydro() && !r.rates.bed_pressure_drop) {
    described.findings.emplace_back(Level::refuse,
                                    found::BedSolid{p.parameters.selected->bulk_density.typical(),
                                                    p.defaults.particle_density.typical()});
  }
  if (!p.brief()) r.timeline = timeline(p, run, stop, cooled.cooling, r);
  r.uncertainty =
      describe_uncertainty(p, described.decision, settled.stop.goal, run, cooled.cooling.rule, r);
  for (std::size_t i = 0; i < r.timeline.size(); ++i)
    if (r.has_oil) r.timeline[i].oil = r.uncertainty.oil_course[i];
  const Duration used_up = element_in_water(p.still) ? r.times.reserve_worst : r.times.dry_worst;
  const Duration not_dry = used_up - longest_after_heat(p.parameters);
  r.times.give_up = std::max(r.times.latest, std::min(r.uncertainty.stop.high, not_dry));
  described.run.emplace(std::move(r));
  return described;
}

// --- the charge ---------------------------------------------------------------------------------

namespace {

// Whether this fill, stop and limits also hold for less herb, down to none. By the clock, less
// herb gives more distillate, which takes more coolant.
bool holds_for_less(const Planning& p, const Decision& decision, const RunPlan& run) {
  const Stop& stop = decision.stop;
  if (!stop.hydrosol || stop.clock || p.hydro()) return false;
  const Duration after_heat = longest_after_heat(p.parameters);
  const Mass fill = decision.first_fill;
  const auto lasts = [&](Volume level, Duration lateness) {
    return p.water.worst_margin(grams(0), fill, Stop{level, std::nullopt}, lateness) >= grams(0);
  };
  const Run worst = p.water.worst_case(grams(0)).run(fill, stop, p.lateness());
  const Duration to_reserve =
      p.water.worst_time_until(decision.reserve, grams(0), fill, worst, seconds(0));
  return lasts(*stop.hydrosol, p.lateness()) && lasts(run.water.never_beyond, after_heat) &&
         run.times.latest + after_heat <= to_reserve;
}

}  // namespace

ChargePlan describe_charge(const Planning& p, const Settled& settled, const DescribedRun& run) {
  const Mass charge = settled.charge.charge;
  ChargePlan c;
  c.mass = charge;
  c.runs = settled.charge.runs;
  c.harvest = charge * double(c.runs);
  c.rest = settled.charge.rest;
  c.most = settled.most_charge;
  const bool any_less = !p.brief() && run.run && holds_for_less(p, run.decision, *run.run);
  c.least = any_less ? grams(0) : charge;
  c.as_fresh = as_fresh(p, charge);
  c.dry_matter = dry_matter(charge, p.parameters.selected->moisture.typical());
  c.volume =
      p.hydro() ? p.water.pieces(charge) : charge / p.parameters.selected->bulk_density.typical();
  const Volume filled = p.hydro() ? c.volume + p.water.poured_volume(settled.fill) : c.volume;
  c.fill = filled / charge_space(p.still, p.recipe.method_used());
  return c;
}

}  // namespace firstdrop
