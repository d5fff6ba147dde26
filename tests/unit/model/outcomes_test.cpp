// Uncertainty carried through a run: known distributions come out as they went in.
#include "model/outcomes.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <string>
#include <thread>
#include <vector>

#include "catch.hpp"
#include "firstdrop/model/uncertainty.hpp"
#include "firstdrop/output/write.hpp"
#include "firstdrop/plan/planner.hpp"
#include "model/model_parameters.hpp"
#include "model/parameters_at.hpp"
#include "model/ranged_outputs.hpp"
#include "model/sampling.hpp"
#include "physics/charge.hpp"
#include "physics/stop.hpp"
#include "test_stills.hpp"

using namespace firstdrop;
using namespace test_stills;

namespace {

const Decision decided{grams(150), kilograms(1.6), grams(320), {millilitres(700), std::nullopt}};

Uncertainty uncertainty(const ModelParameters& parameters, const Decision& decision = decided,
                        const GoalOfRun& goal = {}, const Sampling& sampling = default_samples,
                        const std::vector<Mark>& marks = {}) {
  return uncertainty_of(parameters, rules().design_defaults, decision, goal, sampling, marks);
}

/// Every range reduced to its median.
ModelParameters without_ranges(ModelParameters i) {
  SelectedParameters& f = i.selected.change();
  const auto close = [](auto& figure) {
    figure.range = std::decay_t<decltype(figure.range)>::exactly(figure.range.typical);
  };
  close(f.bulk_density);
  close(f.moisture);
  close(f.oil_content);
  close(f.recovery);
  close(f.half_life);
  close(f.fast_share);
  close(f.hydrosol_oil);
  close(f.oil_density);
  close(f.heater_efficiency);
  close(f.pot_film);
  close(f.column_film);
  close(f.head_film);
  close(f.dry_specific_heat);
  close(f.hold_up);
  close(f.film_hold_up);
  close(f.wall_hold_up);
  close(f.uncondensed_loss);
  f.fill_error.range = Range<Fraction>::exactly(fraction(0));
  close(f.condensing);
  return i;
}

template <class T>
bool ordered(const Range<T>& range) {
  return range.low <= range.typical && range.typical <= range.high;
}

}  // namespace

TEST_CASE("an input that is an outcome keeps its percentiles", "[uncertainty]") {
  const ModelParameters i = model_parameters(recipe(herb(), column_still()), rules());
  const Uncertainty s = uncertainty(i);
  CHECK(s.samples == default_samples);
  // Oil density 0.88, 0.89 and 0.90 g/mL. The samples miss a percentile by less than one hundredth
  // in probability, which is 0.25 g/L here.
  CHECK_THAT(s.oil_density.low.si(), WithinAbs(880, 0.3));
  CHECK_THAT(s.oil_density.typical.si(), WithinAbs(890, 0.3));
  CHECK_THAT(s.oil_density.high.si(), WithinAbs(900, 0.3));
  // 0.6, 0.8 and 1.0 % of 150 g: 0.9, 1.2 and 1.5 g.
  CHECK_THAT(in_grams(s.oil_in_charge.low), WithinAbs(0.9, 0.01));
  CHECK_THAT(in_grams(s.oil_in_charge.typical), WithinAbs(1.2, 0.01));
  CHECK_THAT(in_grams(s.oil_in_charge.high), WithinAbs(1.5, 0.01));
}

TEST_CASE("exact inputs have no spread", "[uncertainty]") {
  const ModelParameters i =
      without_ranges(model_parameters(recipe(herb(), column_still()), rules()));
  const Uncertainty s = uncertainty(i, decided, {}, 64);
  const Run run(run_values_at(i, SamplePoint::medians(), decided.charge, decided.first_fill));
  const Duration stop = stop_time(run, decided.stop);
  const double grams_over = in_grams(run.oil_vaporised_at(stop));
  CHECK_THAT(in_grams(s.oil_vaporised.low), WithinRel(grams_over, 1e-12));
  CHECK_THAT(in_grams(s.oil_vaporised.typical), WithinRel(grams_over, 1e-12));
  CHECK_THAT(in_grams(s.oil_vaporised.high), WithinRel(grams_over, 1e-12));
  CHECK_THAT(in_minutes(s.first_drop.high), WithinRel(in_minutes(run.first_drop()), 1e-12));
  CHECK_THAT(in_minutes(s.stop.low), WithinRel(in_minutes(stop), 1e-12));
  CHECK_THAT(in_millilitres(s.hydrosol.typical), WithinRel(700.0, 1e-9));
  // Dissolved, by volume of hydrosol.
  CHECK_THAT(
      in_milligrams_per_litre(s.dissolved_oil.typical),
      WithinRel(1e3 * in_grams(run.oil_vaporised_at(stop) - run.oil_in_receiver_at(stop)) / 0.7,
                1e-9));
}

TEST_CASE("percentiles are in order and balances hold between them", "[uncertainty]") {
  const ModelParameters i = model_parameters(recipe(herb(), column_still()), rules());
  const Uncertainty s = uncertainty(i);
  CHECK(ordered(s.hydrosol));
  CHECK(ordered(s.dissolved_oil));
  CHECK(ordered(s.oil_in_charge));
  CHECK(ordered(s.oil_vaporised));
  CHECK(ordered(s.oil_in_receiver));
  CHECK(ordered(s.oil_volume));
  CHECK(ordered(s.oil_share));
  CHECK(ordered(s.first_drop));
  CHECK(ordered(s.stop));
  CHECK(s.oil_vaporised.high <= s.oil_in_charge.high);
  CHECK(s.oil_in_receiver.low <= s.oil_vaporised.low);
  CHECK(s.oil_share.high <= fraction(1));
}

TEST_CASE("the same seed gives the same bytes, another nearly the same", "[uncertainty]") {
  ModelParameters i = model_parameters(recipe(herb(), column_still()), rules());
  const Uncertainty first = uncertainty(i);
  const Uncertainty again = uncertainty(i);
  CHECK(first.oil_in_receiver.low == again.oil_in_receiver.low);
  CHECK(first.oil_in_receiver.high == again.oil_in_receiver.high);
  CHECK(first.stop.typical == again.stop.typical);
  i.recipe.seed = 2;
  const Uncertainty other = uncertainty(i);
  CHECK(other.oil_in_receiver.low != first.oil_in_receiver.low);
  CHECK_THAT(in_grams(other.oil_in_receiver.typical),
             WithinRel(in_grams(first.oil_in_receiver.typical), 0.05));
  // 512 independent draws, fewer than the default, would miss the 90th percentile by sqrt(0.09 /
  // 512) = 1.3 % in probability. Above it, the stop comes some 1.3 min later per per cent. The
  // tolerance is twice that, at a stop of 76 min.
  CHECK_THAT(in_minutes(other.stop.high), WithinAbs(in_minutes(first.stop.high), 3.4));
}

TEST_CASE("threads share the samples and change nothing", "[uncertainty]") {
  const ModelParameters i = model_parameters(recipe(herb(), column_still()), rules());
  GoalOfRun goal;
  goal.oil = grams(0.3);
  const std::vector<Mark> marks = {{millilitres(350), minutes(30), true}};
  const CoolingRule cooling{minutes(10), {minutes(5), grams(100)}};
  const auto with = [&](int threads) {
    return uncertainty_of(i, rules().design_defaults, decided, goal, {1000, threads}, marks,
                          cooling);
  };
  const Uncertainty one = with(1);
  for (const int threads : {2, 3, 7, 64}) {
    CAPTURE(threads);
    const Uncertainty many = with(threads);
    std::vector<double> of_one;
    std::vector<double> of_many;
    const auto collect = [](const Uncertainty& from, std::vector<double>& into) {
      for_each_range(from, [&](const auto& outcome, const auto& range) {
        const auto in_unit = outcome.unit.number;
        into.insert(into.end(), {in_unit(range.low), in_unit(range.typical), in_unit(range.high)});
      });
      for (const auto* sensitivities : {&from.oil_from, &from.time_from, &from.reserve_from}) {
        for (const Sensitivity& share : *sensitivities) into.push_back(share.share);
      }
      into.insert(into.end(), {in_grams(from.oil_in_receiver.low), *from.chance_of_goal,
                               in_millilitres(from.oil_course.at(0).high)});
    };
    collect(one, of_one);
    collect(many, of_many);
    CHECK(of_one.size() > 70);
    CHECK(of_one == of_many);
  }
}

TEST_CASE("plans made side by side are those made one after another", "[uncertainty]") {
  const auto recipes = [] {
    std::vector<Recipe> all;
    for (const char* plant : {"lavender", "rosemary", "clove-bud", "eucalyptus"}) {
      for (const auto& [key, still] : shipped().stills) {
        all.push_back(recipe(plant, still, OilShareGoal{percent(60)}));
        all.back().state = all.back().plant->states.begin()->first;
        all.back().confidence = percent(60);
      }
    }
    return all;
  }();
  std::vector<std::string> one_by_one;
  for (const Recipe& r : recipes) one_by_one.push_back(plan_json(make_plan(r, shipped(), 64)));
  std::vector<std::string> side_by_side(recipes.size());
  std::vector<std::jthread> threads;
  for (std::size_t i = 0; i < recipes.size(); ++i) {
    threads.emplace_back([&, i] {
      side_by_side[i] = plan_json(make_plan(recipes[i], shipped(), {64, 1 + int(i) % 3}));
    });
  }
  threads.clear();
  CHECK(side_by_side == one_by_one);
}

TEST_CASE("the percentiles are those of a sorted list", "[uncertainty]") {
  // The oil in the charge is 150 g times the oil content, which is a single parameter. Its
  // percentiles are found here by sorting.
  const ModelParameters i = model_parameters(recipe(herb(), column_still()), rules());
  for (const int samples : {1, 2, 3, 10, 11, 500}) {
    CAPTURE(samples);
    const SamplePoints points(i.recipe.seed);
    std::vector<double> oils;
    for (int n = 0; n < samples; ++n) {
      oils.push_back(in_grams(oil_in_charge(i, points[std::uint64_t(n)], decided.charge)));
    }
    std::sort(oils.begin(), oils.end());
    const auto at = [&](double p) {
      const double place = p * double(samples - 1);
      const auto below = std::size_t(place);
      const auto above = std::min(below + 1, oils.size() - 1);
      return oils[below] + (oils[above] - oils[below]) * (place - double(below));
    };
    const Uncertainty s = uncertainty(i, decided, {}, samples);
    CHECK_THAT(in_grams(s.oil_in_charge.low), WithinRel(at(0.1), 1e-12));
    CHECK_THAT(in_grams(s.oil_in_charge.typical), WithinRel(at(0.5), 1e-12));
    CHECK_THAT(in_grams(s.oil_in_charge.high), WithinRel(at(0.9), 1e-12));
  }
}

TEST_CASE("every ranged outcome is in order and has the typical run near its middle",
          "[uncertainty]") {
  const ModelParameters i = model_parameters(recipe(herb(), column_still()), rules());
  const CoolingRule cooling{seconds(0), {}};
  const Uncertainty s =
      uncertainty_of(i, rules().design_defaults, decided, {}, default_samples, {}, cooling);
  int ranges = 0;
  for_each_range(s, [&](const auto& outcome, const auto& range) {
    const auto in_unit = outcome.unit.number;
    CAPTURE(outcome.key);
    ++ranges;
    CHECK(in_unit(range.low) <= in_unit(range.typical));
    CHECK(in_unit(range.typical) <= in_unit(range.high));
    CHECK(std::isfinite(in_unit(range.low)));
    CHECK(std::isfinite(in_unit(range.high)));
  });
  CHECK(ranges >= 22);
  const Run run(run_values_at(i, SamplePoint::medians(), decided.charge, decided.first_fill));
  const Duration stop = stop_time(run, decided.stop);
  const auto between = [](const auto& range, auto value) {
    return range.low < value && value < range.high;
  };
  CHECK(between(s.boil, run.boil()));
  CHECK(between(s.reserve, run.time_until_left(decided.reserve)));
  CHECK(between(s.dry, run.time_until_left(grams(0))));
  CHECK(between(s.left_alone_to_reserve, run.time_until_left(decided.reserve) - stop));
  CHECK(between(s.left_at_stop, run.water_at(stop).left / i.fill_density));
  CHECK(between(s.distillate, run.distillate_rate()));
  CHECK(between(s.heat_into_pot, run.values().heat_boiling));
}

TEST_CASE("what comes so often as asked for, and by when", "[uncertainty]") {
  const ModelParameters i = model_parameters(recipe(herb(), column_still()), rules());
  GoalOfRun goal;
  goal.oil = grams(0.3);
  const Uncertainty s = uncertainty(i, decided, goal);
  const GoalOdds odds = goal_odds(i, decided, goal, percent(90));
  CHECK(odds.chance == *s.chance_of_goal);
  // Nine in ten runs are at the stop by the 90th percentile, which lies between two of the runs.
  // The odds take the run by which nine in ten are there.
  CHECK_THAT(in_minutes(*odds.time), WithinRel(in_minutes(s.stop.high), 1e-3));
  // The clock cuts runs short, but the odds still give the time that it would have to be.
  Decision cut = decided;
  cut.stop.clock = s.stop.typical;
  goal = {};
  goal.hydrosol = decided.stop.hydrosol;
  const GoalOdds late = goal_odds(i, cut, goal, percent(90));
  CHECK_THAT(in_percent(late.chance), WithinAbs(50.0, 0.5));
  CHECK(late.time == odds.time);
  // If steam comes in less than half of the samples, no time is long enough.
  Recipe weak = recipe(herb(), column_still());
  weak.setting = percent(9);
  const GoalOdds none = goal_odds(model_parameters(weak, rules()), decided, goal, percent(90));
  CHECK_FALSE(none.time);
  CHECK(none.chance < percent(50));
}

TEST_CASE("where the spread comes from", "[uncertainty]") {
  Recipe r = recipe(herb(), column_still());
  const auto share = [](const Sensitivities& sensitivities, Parameter input) {
    for (const Sensitivity& one : sensitivities) {
      if (one.parameter == input) return in_percent(one.share);
    }
    return 0.0;
  };
  const Uncertainty s = uncertainty(model_parameters(r, rules()));
  REQUIRE_FALSE(s.time_from.empty());
  CHECK(s.time_from.front().parameter == Parameter::heater);
  CHECK(share(s.time_from, Parameter::oil_content) == 0.0);
  CHECK(share(s.oil_from, Parameter::oil_content) > 10.0);
  for (const auto* sensitivities : {&s.oil_from, &s.time_from, &s.reserve_from}) {
    double sum = 0.0;
    for (const Sensitivity& one : *sensitivities) sum += in_percent(one.share);
    CHECK(sum > 50.0);
    CHECK(sum < 108.0);  // each estimate has an rms error of 1.5
  }
  // A parameter that is known exactly no longer counts.
  r.own.oil_content = percent(0.7);
  r.own.distillate_rate = millilitres_per_minute(17);
  ModelParameters known = model_parameters(r, rules());
  known.selected.change().oil_content.range = Range<Fraction>::exactly(percent(0.7));
  const Uncertainty own = uncertainty(known);
  CHECK(share(own.oil_from, Parameter::oil_content) == 0.0);
  // Without uncertain parameters there are no sensitivities.
  const Uncertainty exact =
      uncertainty(without_ranges(model_parameters(recipe(herb(), column_still()), rules())));
  CHECK(exact.oil_from.empty());
  CHECK(exact.time_from.empty());
  CHECK(exact.reserve_from.empty());
}

TEST_CASE("what was measured narrows what comes out", "[uncertainty]") {
  Recipe r = recipe(herb(), column_still());
  const Uncertainty table = uncertainty(model_parameters(r, rules()));
  r.own.distillate_rate = millilitres_per_minute(17);
  r.own.oil_content = percent(0.7);
  const Uncertainty own = uncertainty(model_parameters(r, rules()));
  const auto width = [](const auto& range) { return (range.high - range.low).si(); };
  CHECK(width(own.stop) < width(table.stop));
  CHECK(width(own.oil_vaporised) < width(table.oil_vaporised));
}

TEST_CASE("chance of a goal", "[uncertainty]") {
  const ModelParameters i = model_parameters(recipe(herb(), column_still()), rules());
  const auto chance = [&](const GoalOfRun& goal) {
    return in_percent(*uncertainty(i, decided, goal).chance_of_goal);
  };
  CHECK_FALSE(uncertainty(i).chance_of_goal);
  GoalOfRun goal;
  // The run stops at exactly this volume, so no sample may miss it by rounding.
  goal.hydrosol = millilitres(700);
  CHECK(chance(goal) == 100.0);
  goal.hydrosol = millilitres(700.001);
  CHECK(chance(goal) == 0.0);
  goal = {};
  goal.oil = grams(0);
  CHECK(chance(goal) == 100.0);
  goal.oil = grams(50);
  CHECK(chance(goal) == 0.0);
  // Half of the samples reach the median, and nine tenths reach the 10th percentile.
  const Uncertainty s = uncertainty(i);
  goal.oil = s.oil_in_receiver.typical;
  CHECK_THAT(chance(goal), WithinAbs(50.0, 0.5));
  goal.oil = s.oil_in_receiver.low;
  CHECK_THAT(chance(goal), WithinAbs(90.0, 0.5));
  goal = {};
  goal.oil_volume = s.oil_volume.typical;
  CHECK_THAT(chance(goal), WithinAbs(50.0, 0.5));
  // A larger goal is never more likely.
  double last = 100;
  for (double share = 0.1; share < 1; share += 0.1) {
    goal = {};
    goal.oil_share = fraction(share);
    CHECK(chance(goal) <= last);
    last = chance(goal);
  }
}

TEST_CASE("samples without distillate count as nothing gained", "[uncertainty]") {
  Recipe r = recipe(herb(), column_still());
  r.setting = percent(9);  // median 67 W: less than the 75 W that pot and column lose
  GoalOfRun goal;
  goal.hydrosol = millilitres(10);
  const Decision long_run{grams(150), kilograms(1.6), grams(320), {std::nullopt, hours(20)}};
  const ModelParameters i = model_parameters(r, rules());
  REQUIRE(Run(run_values_at(i, SamplePoint::medians(), grams(150), kilograms(1.6))).failure());
  const Uncertainty s = uncertainty(i, long_run, goal);
  CHECK(s.hydrosol.low == litres(0));
  CHECK(s.oil_vaporised.low == grams(0));
  CHECK(*s.chance_of_goal < fraction(0.5));
  CHECK(*s.chance_of_goal > fraction(0));
  // No sample has distillate: nothing comes, but nothing fails.
  r.setting = percent(1);
  const Uncertainty none = uncertainty(model_parameters(r, rules()), long_run, goal);
  CHECK(none.hydrosol.high == litres(0));
  CHECK(none.oil_in_receiver.high == grams(0));
  CHECK(*none.chance_of_goal == fraction(0));
  CHECK(none.oil_in_charge.typical > grams(0));
}

TEST_CASE("oil at the marks of a run", "[uncertainty]") {
  const ModelParameters exact =
      without_ranges(model_parameters(recipe(herb(), column_still()), rules()));
  const Run run(run_values_at(exact, SamplePoint::medians(), decided.charge, decided.first_fill));
  const auto oil_ml = [&](Duration time) {
    return in_millilitres(run.oil_in_receiver_at(time) / exact.selected->oil_density.typical());
  };
  const Duration half_way = run.time_of_hydrosol(millilitres(350));
  const Duration stop = run.time_of_hydrosol(millilitres(700));
  const std::vector<Mark> marks = {{millilitres(350), minutes(1), true},
                                   {millilitres(350), minutes(1), false},
                                   {millilitres(700), stop + hours(1), false}};
  // If the level ends the run, a running mark is a level, and a mark before first drop is a time.
  // Nothing more comes after the stop.
  const Uncertainty by_level = uncertainty(exact, decided, {}, 16, marks);
  REQUIRE(by_level.oil_course.size() == 3);
  REQUIRE(oil_ml(half_way) > 0.1);
  CHECK_THAT(in_millilitres(by_level.oil_course[0].typical), WithinRel(oil_ml(half_way), 1e-9));
  CHECK(by_level.oil_course[1].high == litres(0));
  CHECK_THAT(in_millilitres(by_level.oil_course[2].typical), WithinRel(oil_ml(stop), 1e-9));
  // If the clock ends the run, every mark is a time.
  Decision by_clock = decided;
  by_clock.stop = {std::nullopt, minutes(60)};
  const std::vector<Mark> times = {{millilitres(350), minutes(1), true},
                                   {millilitres(10), half_way, true}};
  const Uncertainty timed = uncertainty(exact, by_clock, {}, 16, times);
  CHECK(timed.oil_course[0].high == litres(0));
  CHECK_THAT(in_millilitres(timed.oil_course[1].typical), WithinRel(oil_ml(half_way), 1e-9));
}

TEST_CASE("no sample has oil at its first drop", "[uncertainty]") {
  const ModelParameters i = model_parameters(recipe(herb(), column_still()), rules());
  const Run run(run_values_at(i, SamplePoint::medians(), decided.charge, decided.first_fill));
  const Duration soon = run.first_drop() + minutes(3);
  // As a level of zero, the mark is each sample's own first drop. As a time, the quick samples are
  // past theirs and have oil.
  const Uncertainty s =
      uncertainty(i, decided, {}, 128, {{litres(0), soon, true}, {litres(0), soon, false}});
  CHECK(s.oil_course[0].high == litres(0));
  CHECK(s.oil_course[1].high > litres(0));
}

TEST_CASE("samples are counted for whoever shows how far it is, and the plan stays the same",
          "[uncertainty]") {
  const Recipe r = recipe(herb(), column_still(), HydrosolGoal{millilitres(500)});
  for (const int threads : {1, 3}) {
    std::atomic<std::int64_t> sampled = 0;
    Sampling counted(4096, threads);
    counted.sampled = &sampled;
    CHECK(plan_json(make_plan(r, rules(), counted)) == plan_json(make_plan(r, rules(), 4096)));
    CHECK(sampled == 4096);
  }
}
