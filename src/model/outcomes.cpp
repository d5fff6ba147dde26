#include "model/outcomes.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <exception>
#include <limits>
#include <thread>
#include <utility>
#include <vector>

#include "firstdrop/model/uncertainty.hpp"
#include "model/cold_side.hpp"
#include "model/parameters_at.hpp"
#include "model/percentiles.hpp"
#include "model/sampling.hpp"
#include "model/sensitivity.hpp"
#include "physics/charge.hpp"
#include "physics/run.hpp"
#include "physics/stop.hpp"
#include "physics/water.hpp"

namespace firstdrop {
namespace {

// Keeps rounding from missing a goal that the plan aims at exactly.
constexpr double slack = 1.0 - 1e-9;

/// Calls work(i) for i from 0 to `count` - 1, split evenly over the threads. Each call must write
/// only to its own element, so that the result is the same for any number of threads. Rethrows what
/// `work` throws in any of the threads.
template <class Work>
void for_all(int count, int threads, const Work& work) {
  const int shares = std::clamp(threads, 1, std::max(count, 1));
  const auto stretch = [&](int share) {
    const auto begin_of = [&](int s) { return static_cast<int>(std::int64_t{count} * s / shares); };
    for (int i = begin_of(share); i < begin_of(share + 1); ++i) work(i);
  };
  std::vector<std::exception_ptr> failures(static_cast<std::size_t>(shares));
  const auto safely = [&](int share) {
    try {
      stretch(share);
    } catch (...) {
      failures[static_cast<std::size_t>(share)] = std::current_exception();
    }
  };
  {
    std::vector<std::jthread> others;
    others.reserve(static_cast<std::size_t>(shares - 1));
    for (int share = 1; share < shares; ++share) others.emplace_back(safely, share);
    safely(0);
  }
  for (const std::exception_ptr& failure : failures) {
    if (failure) std::rethrow_exception(failure);
  }
}

/// The largest value that at least a share `often` of the values reaches or exceeds.
template <class T>
T reached_so_often(std::vector<T> values, Fraction often) {
  std::sort(values.begin(), values.end(), std::greater<>());
  const double place = std::ceil(often * static_cast<double>(values.size()) - 1e-9);
  const auto last = static_cast<double>(values.size() - 1);
  return values[static_cast<std::size_t>(std::clamp(place - 1.0, 0.0, last))];
}

/// The outcomes of one sample.
struct Outcome {
  bool runs = false;  ///< whether distillate comes
  Volume charge_volume;
  Volume held, uncondensed, left_at_stop;
  Duration boil, first_drop, stop, reserve, dry;
  VolumeFlow distillate;
  Rate steam_per_charge;
  Velocity steam_velocity;
  Pressure bed_pressure_drop;
  Power heat_into_pot, heat_lost;
  Volume hydrosol;
  Mass oil_in_charge, oil_vaporised, oil_in_receiver;
  Volume oil_volume;
  Density oil_density;
  Fraction oil_share;          ///< vaporised, over the oil in the charge
  Fraction oil_share_of_goal;  ///< vaporised, over what this still can get
  Power duty;
  Mass ice;
  Temperature reservoir_end;
  VolumeFlow flow;
  Area surface_needed;
};

class Sampler {
 public:
  Sampler(const ModelParameters& parameters, const Decision& decision, const Sampling& sampling)
      : parameters_(parameters),
        decision_(decision),
        fraction_ends_(parameters.recipe.fraction_ends()),
        sequence_(parameters.recipe.seed),
        sampling_(sampling),
        points_(static_cast<std::size_t>(std::max(sampling.samples, 1))),
        outcomes_(points_.size()) {}

  /// Runs all samples. `more` adds to each outcome what goes beyond the run itself.
  template <class More>
  void run_all(const More& more) {
    for_all(static_cast<int>(points_.size()), sampling_.threads, [&](int i) {
      const auto index = static_cast<std::size_t>(i);
      const SamplePoint& point = points_[index] =
          sampling_.samples > 0 ? sequence_[index] : SamplePoint::medians();
      const ParametersAt values(parameters_, point);
      const Run run(values.of(decision_.charge, decision_.first_fill));
      Outcome& outcome = outcomes_[index];
      outcome.runs = !run.failure();
      outcome.oil_in_charge = values.oil_in(decision_.charge);
      outcome.oil_density =
          parameters_.selected->oil_density.range.at(point[Parameter::oil_density]);
      std::optional<OilCourse> oil;
      if (outcome.runs) follow(run, oil.emplace(run, fraction_ends_), outcome);
      more(index, point, run, oil, outcome);
      count(index + 1);
    });
  }

  /// Counts samples in steps of 512, so that threads don't wait for each other.
  void count(std::size_t sample) const {
    constexpr std::size_t at_once = 512;
    if (sampling_.sampled != nullptr && sample % at_once == 0) {
      sampling_.sampled->fetch_add(at_once, std::memory_order_relaxed);
    }
  }

  const std::vector<Outcome>& outcomes() const { return outcomes_; }
  const std::vector<SamplePoint>& points() const { return points_; }

  /// Percentiles over all samples, or only over those in which distillate comes.
  template <class T>
  Range<T> range(T Outcome::*member, bool all = false) const {
    return range_of([member](const Outcome& o) { return o.*member; }, all);
  }
  template <class Get>
  auto range_of(const Get& get, bool all = false) const {
    using Value = std::decay_t<decltype(get(std::declval<const Outcome&>()))>;
    if (sampling_.samples == 0) return Range<Value>::exactly(get(outcomes_.front()));
    std::vector<double> numbers;
    numbers.reserve(outcomes_.size());
    for (const Outcome& outcome : outcomes_) {
      if (all || outcome.runs) numbers.push_back(number_of(get(outcome)));
    }
    return percentiles<Value>(numbers);
  }
  template <class Get>
  auto values_of(const Get& get) const {
    std::vector<std::decay_t<decltype(get(std::declval<const Outcome&>()))>> values;
    values.reserve(outcomes_.size());
    for (const Outcome& outcome : outcomes_) values.push_back(get(outcome));
    return values;
  }

  Fraction chance_of(const GoalOfRun& goal) const {
    const auto met = [&](const Outcome& o) {
      return o.runs && !(goal.hydrosol && o.hydrosol < *goal.hydrosol * slack) &&
             !(goal.oil && o.oil_in_receiver < *goal.oil * slack) &&
             !(goal.oil_volume && o.oil_volume < *goal.oil_volume * slack) &&
             !(goal.oil_share && o.oil_share_of_goal < *goal.oil_share * slack);
    };
    return fraction(static_cast<double>(std::count_if(outcomes_.begin(), outcomes_.end(), met)) /
                    static_cast<double>(outcomes_.size()));
  }

 private:
  void follow(const Run& run, const OilCourse& oil_of, Outcome& o) const {
    const Duration end = stop_time(run, decision_.stop);
    o.stop = end;
    o.first_drop = run.first_drop();
    o.distillate = run.distillate_rate();
    o.hydrosol = run.hydrosol_at(end);
    const OilBalance oil = oil_of.at(end);
    o.oil_vaporised = oil.vaporised;
    o.oil_in_receiver = oil.separated;
    o.oil_volume = o.oil_in_receiver / o.oil_density;
    if (o.oil_in_charge > grams(0)) o.oil_share = o.oil_vaporised / o.oil_in_charge;
    const Mass recoverable = run.values().oil_recoverable;
    o.oil_share_of_goal = recoverable > grams(0) ? o.oil_vaporised / recoverable : fraction(1);
  }

  const ModelParameters& parameters_;
  const Decision& decision_;
  std::vector<Volume> fraction_ends_;
  SamplePoints sequence_;
  Sampling sampling_;
  std::vector<SamplePoint> points_;
  std::vector<Outcome> outcomes_;
};

/// Fills in water, times and rates of a sample.
void describe(const ModelParameters& parameters, const Decision& decision, const Run& run,
              Outcome& o) {
  const RunValues& v = run.values();
  const WaterBalance water = run.water_at(o.stop);
  o.held = water.held / parameters.fill_density;
  o.uncondensed = water.uncondensed / parameters.fill_density;
  o.left_at_stop = water.left / parameters.fill_density;
  o.boil = run.boil();
  o.reserve = run.time_until_left(decision.reserve);
  o.dry = run.time_until_left(grams(0));
  o.steam_per_charge = run.steam_per_charge();
  o.heat_into_pot = v.heat_boiling;
  o.heat_lost = (v.pot_loss + v.column_loss) * (v.boiling - v.room);
}

/// What is the same in every sample for a bed that steam passes through.
struct BedSteam {
  Area cross_section;
  Density density;
  Viscosity viscosity;
};

void pass_bed(const ModelParameters& parameters, const DesignDefaults& defaults,
              const Decision& decision, const BedSteam& steam, const SamplePoint& point,
              const Run& run, Outcome& o) {
  const Bed bed{decision.charge, bulk_density_at(parameters, point),
                positive_at(defaults.particle_density, point[Parameter::particle_density]),
                positive_at(defaults.particle_size.at(parameters.recipe.cut),
                            point[Parameter::particle_size]),
                steam.cross_section};
  const BedFlow flow = steam_through(bed, run.steam_made(), steam.density, steam.viscosity);
  o.charge_volume = bed.charge / bed.bulk;
  o.steam_velocity = flow.superficial;
  // The plan refuses a bed without voids. Here such a bed counts as blocked.
  o.bed_pressure_drop = flow.pressure_drop.value_or(parameters.ambient);
}

void cool(const ModelParameters& parameters, const DesignDefaults& defaults,
          const ColdSide& cold_side, const CoolingRule& rule,
          const std::optional<CoolantVessel>& vessel, const SamplePoint& point, const Run& run,
          Outcome& o) {
  const HeatTransfer u = condensing_at(parameters, point);
  o.duty = run.vapour() * cold_side.heat();
  if (!vessel) {
    o.flow = cold_side.flow(run.vapour());
    o.surface_needed = cold_side.surface_in_flow(run.vapour(), u).total();
    return;
  }
  const Duration length = std::max(o.stop - run.first_drop(), seconds(0));
  CoolantVessel here = *vessel;
  here.loss = vessel->loss * double(positive_at(defaults.bath_loss, point[Parameter::bath_loss]) /
                                    defaults.bath_loss.typical());
  const IceChange planned{std::max(length - rule.ice_before_stop.at, seconds(0)),
                          rule.ice_before_stop.ice};
  const CoolantRun coolant(here, o.duty, length, rule.beyond, planned);
  o.ice = coolant.ice();
  o.reservoir_end = coolant.end();
  const Temperature warmest = std::min(coolant.warmest(), cold_side.limit());
  o.surface_needed = cold_side.surface_in_vessel(run.vapour(), u, warmest).total();
}

// Counts all samples, including those without distillate.
constexpr bool all = true;

/// The outcomes of one fraction in all samples.
class FractionSamples {
 public:
  explicit FractionSamples(std::size_t samples)
      : hydrosol_(samples), dissolved_(samples), oil_(samples), oil_volume_(samples) {}

  void set(std::size_t sample, const Run& run, const OilCourse& course, Duration from, Duration to,
           Density oil_density) {
    const OilBalance oil = course.between(from, to);
    const Volume hydrosol = run.hydrosol_at(to) - run.hydrosol_at(from);
    hydrosol_[sample] = hydrosol.si();
    oil_[sample] = oil.separated.si();
    oil_volume_[sample] = (oil.separated / oil_density).si();
    if (hydrosol > litres(0)) dissolved_[sample] = (oil.dissolved / hydrosol).si();
  }

  FractionRanges ranges() const {
    std::vector<double> concentrations;
    for (std::size_t i = 0; i < hydrosol_.size(); ++i)
      if (hydrosol_[i] > 0.0) concentrations.push_back(dissolved_[i]);
    return {percentiles<Volume>(hydrosol_), percentiles<Density>(concentrations),
            percentiles<Mass>(oil_), percentiles<Volume>(oil_volume_)};
  }

 private:
  std::vector<double> hydrosol_;
  std::vector<double> dissolved_;
  std::vector<double> oil_;
  std::vector<double> oil_volume_;
};

Mass dissolved(const Outcome& o) {
  return o.oil_vaporised - o.oil_in_receiver;
}
Duration left_to_reserve(const Outcome& o) {
  return o.reserve - o.stop;
}

void add_water_and_rates(Uncertainty& s, const Sampler& sampler) {
  s.held = sampler.range(&Outcome::held);
  s.uncondensed = sampler.range(&Outcome::uncondensed);
  s.left_at_stop = sampler.range(&Outcome::left_at_stop);
  s.boil = sampler.range(&Outcome::boil);
  s.reserve = sampler.range(&Outcome::reserve);
  s.dry = sampler.range(&Outcome::dry);
  s.left_alone_to_reserve = sampler.range_of(left_to_reserve);
  s.left_alone_to_dry = sampler.range_of([](const Outcome& o) { return o.dry - o.stop; });
  s.distillate = sampler.range(&Outcome::distillate);
  s.steam_per_charge = sampler.range(&Outcome::steam_per_charge);
  s.heat_into_pot = sampler.range(&Outcome::heat_into_pot);
  s.heat_lost = sampler.range(&Outcome::heat_lost);
}

void add_oil(Uncertainty& s, const Sampler& sampler) {
  // A run that stops before its first drop has no hydrosol, and so no concentration.
  std::vector<double> concentrations;
  for (const Outcome& o : sampler.outcomes()) {
    if (o.hydrosol > litres(0)) concentrations.push_back((dissolved(o) / o.hydrosol).si());
  }
  s.dissolved_oil = percentiles<Density>(concentrations);
  s.oil_in_charge = sampler.range(&Outcome::oil_in_charge, all);
  s.oil_density = sampler.range(&Outcome::oil_density, all);
}

void add_sensitivities(Uncertainty& s, const Sampler& sampler, const Decision& decision,
                       bool has_oil) {
  const auto shares = [&](const auto& outcome_of) {
    std::vector<double> values;
    values.reserve(sampler.outcomes().size());
    for (const Outcome& o : sampler.outcomes()) values.push_back(outcome_of(o));
    Sensitivities all = first_order_sensitivity(sampler.points(), std::move(values));
    // Figures of an oil that isn't known can only be there by chance.
    if (!has_oil)
      std::erase_if(all, [](const Sensitivity& one) { return is_of_oil(one.parameter); });
    return all;
  };
  // Without distillate there is no oil, and waiting never ends.
  constexpr double never = std::numeric_limits<double>::infinity();
  const bool parts = s.oil_in_receiver.high > grams(0);
  if (has_oil)
    s.oil_from = shares(
        [&](const Outcome& o) { return parts ? o.oil_in_receiver.si() : o.oil_vaporised.si(); });
  const bool by_level = decision.stop.hydrosol && s.stop.low < s.stop.high;
  s.time_from = shares([&](const Outcome& o) {
    return !o.runs ? never : by_level ? o.stop.si() : o.first_drop.si();
  });
  s.reserve_from =
      shares([&](const Outcome& o) { return o.runs ? left_to_reserve(o).si() : never; });
}

}  // namespace

Uncertainty uncertainty_of(const ModelParameters& parameters, const DesignDefaults& defaults,
                           const Decision& decision, const GoalOfRun& goal,
                           const Sampling& sampling, const std::vector<Mark>& marks,
                           const std::optional<CoolingRule>& cooling, Detail detail) {
  const Recipe& recipe = parameters.recipe;
  const ColdSide cold_side(parameters, defaults);
  const bool tap = recipe.still->condenser.kind == CondenserKind::run_through;
  std::optional<CoolantVessel> vessel;
  if (cooling && !tap) vessel = cold_side.vessel();
  const bool brief = detail == Detail::brief;
  std::optional<BedSteam> bed;
  if (recipe.method_used() != Method::hydro && !brief) {
    bed = {bed_area(recipe.still, recipe.method_used()),
           saturated_vapour_density(parameters.boiling),
           saturated_vapour_viscosity(parameters.boiling)};
  }

  Sampler sampler(parameters, decision, sampling);
  const std::size_t count = sampler.outcomes().size();
  std::vector<std::vector<double>> oil_course(marks.size(), std::vector<double>(count));
  const std::vector<Volume> ends = recipe.fraction_ends();
  std::vector<FractionSamples> fractions;
  if (!brief && !ends.empty()) fractions.assign(ends.size() + 1, FractionSamples(count));
  sampler.run_all([&](std::size_t i, const SamplePoint& point, const Run& run,
                      const std::optional<OilCourse>& oil, Outcome& outcome) {
    if (!outcome.runs) return;
    if (!fractions.empty()) {
      const std::vector<Duration> bounds = fraction_bounds(run, ends, outcome.stop);
      for (std::size_t f = 0; f < fractions.size(); ++f)
        fractions[f].set(i, run, *oil, bounds[f], bounds[f + 1], outcome.oil_density);
    }
    if (!brief) describe(parameters, decision, run, outcome);
    if (bed) pass_bed(parameters, defaults, decision, *bed, point, run, outcome);
    if (cooling) cool(parameters, defaults, cold_side, *cooling, vessel, point, run, outcome);
    for (std::size_t m = 0; m < marks.size(); ++m) {
      const Duration reached = decision.stop.hydrosol && marks[m].running
                                   ? run.time_of_hydrosol(marks[m].hydrosol)
                                   : marks[m].time;
      oil_course[m][i] =
          (oil->at(std::min(reached, outcome.stop)).separated / outcome.oil_density).si();
    }
  });

  Uncertainty s;
  s.samples = sampling.samples;
  s.first_drop = sampler.range(&Outcome::first_drop);
  s.stop = sampler.range(&Outcome::stop);
  const Power drawn = recipe.still->heater.power.typical() * recipe.setting * parameters.mains;
  s.plug = sampler.range_of([&](const Outcome& o) { return drawn * o.stop; });
  s.hydrosol = sampler.range(&Outcome::hydrosol, all);
  s.oil_vaporised = sampler.range(&Outcome::oil_vaporised, all);
  s.oil_in_receiver = sampler.range(&Outcome::oil_in_receiver, all);
  s.oil_dissolved = sampler.range_of(dissolved, all);
  s.oil_volume = sampler.range(&Outcome::oil_volume, all);
  s.oil_share = sampler.range(&Outcome::oil_share, all);
  if (cooling) {
    if (tap) {
      s.flow = sampler.range(&Outcome::flow);
      s.coolant_used = sampler.range_of(
          [](const Outcome& o) { return o.flow * std::max(o.stop - o.first_drop, seconds(0)); });
    } else {
      s.reservoir_end = sampler.range(&Outcome::reservoir_end);
      const Range<Mass> ice = sampler.range(&Outcome::ice);
      if (ice.high > grams(0)) s.ice = ice;
    }
  }
  // Without samples there is only one run, and so no chance.
  if (goal.any() && sampling.samples > 0) s.chance_of_goal = sampler.chance_of(goal);
  if (brief) return s;

  if (bed) {
    s.charge_volume = sampler.range(&Outcome::charge_volume);
    const Volume space = charge_space(recipe.still, recipe.method_used());
    s.charge_fill = sampler.range_of([&](const Outcome& o) { return o.charge_volume / space; });
    s.steam_velocity = sampler.range(&Outcome::steam_velocity);
    s.bed_pressure_drop = sampler.range(&Outcome::bed_pressure_drop);
  }
  add_water_and_rates(s, sampler);
  add_oil(s, sampler);
  for (const auto& oils : oil_course) s.oil_course.push_back(percentiles<Volume>(oils));
  for (const FractionSamples& fraction : fractions) s.fractions.push_back(fraction.ranges());
  if (cooling) {
    s.duty = sampler.range(&Outcome::duty);
    s.surface_needed = sampler.range(&Outcome::surface_needed);
  }
  if (sampling.samples > 0) add_sensitivities(s, sampler, decision, parameters.selected->has_oil);
  return s;
}

Uncertainty nominal_uncertainty(const ModelParameters& parameters, const Decision& decision,
                                const Run& nominal) {
  const auto exactly = [](auto value) { return Range<decltype(value)>::exactly(value); };
  const Duration end = stop_time(nominal, decision.stop);
  const Mass in_charge = oil_in_charge(parameters, SamplePoint::medians(), decision.charge);
  const OilBalance oil = OilCourse(nominal, parameters.recipe.fraction_ends()).at(end);
  Uncertainty s;
  s.first_drop = exactly(nominal.first_drop());
  s.stop = exactly(end);
  s.hydrosol = exactly(nominal.hydrosol_at(end));
  s.oil_in_charge = exactly(in_charge);
  s.oil_vaporised = exactly(oil.vaporised);
  s.oil_in_receiver = exactly(oil.separated);
  s.oil_dissolved = exactly(oil.vaporised - oil.separated);
  s.oil_volume = exactly(oil.separated / parameters.selected->oil_density.typical());
  if (in_charge > grams(0)) s.oil_share = exactly(Fraction(oil.vaporised / in_charge));
  return s;
}

GoalOdds goal_odds(const ModelParameters& parameters, const Decision& decision,
                   const GoalOfRun& goal, Fraction often, const Sampling& sampling) {
  Sampler sampler(parameters, decision, sampling);
  sampler.run_all([](std::size_t, const SamplePoint&, const Run&, const std::optional<OilCourse>&,
                     const Outcome&) {});
  GoalOdds odds;
  odds.chance = sampler.chance_of(goal);

  // Time to the level, ignoring the clock. Runs without distillate count as the latest.
  constexpr double never = std::numeric_limits<double>::infinity();
  if (decision.stop.hydrosol) {
    const auto latest = sampler.values_of([&](const Outcome& o) {
      return Duration::from_si(
          o.runs ? -(o.first_drop + *decision.stop.hydrosol / o.distillate).si() : -never);
    });
    const Duration time = -reached_so_often(latest, often);
    if (std::isfinite(time.si())) odds.time = time;
  }
  return odds;
}

}  // namespace firstdrop
