// The closed-form run and coolant vessel against a numerical integration of the same balances.
//
// The balances are written again here as differential equations, from the physics alone. None of
// the library's closed forms is called. GSL's Prince-Dormand method of order 8(9) integrates them
// with error control (GNU Scientific Library 2.7, "Ordinary Differential Equations",
// gsl_odeiv2_step_rk8pd). Some events switch a balance: boiling, first drop, a charge that holds
// all it can, released oil used up, ice molten. Brent's method finds each event as a root of the
// numerical solution. Integration restarts from there, so every piece is smooth.
//
// The environment variable FIRSTDROP_ODE_RECIPES sets how many random recipes' plans are compared.
//
// Both sides share their constants: the values of a run, the coolant's mean heat capacity and the
// melting heat of ice. Those have tests of their own.
#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <gsl/gsl_roots.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <functional>
#include <iomanip>
#include <iostream>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "catch.hpp"
#include "firstdrop/plan/planner.hpp"
#include "model/model_parameters.hpp"
#include "model/parameters_at.hpp"
#include "model/worst_case.hpp"
#include "physics/condenser.hpp"
#include "physics/run.hpp"
#include "physics/stop.hpp"
#include "physics/water.hpp"
#include "property/random_recipe.hpp"
#include "test_environment.hpp"
#include "test_random.hpp"
#include "test_tables.hpp"

using namespace firstdrop;

namespace {

// The largest difference allowed, relative to the scale of its quantity (see Differences).
constexpr double allowed = 1e-10;

// --- numerical integration -----------------------------------------------------------------------

using State = std::vector<double>;
using Slope = std::function<State(const State&)>;  // no balance depends on time directly
/// A quantity watched for an event: positive before the event, zero at it.
using Watch = std::function<double(const State&)>;

int gsl_slope(double, const double y[], double dydt[], void* context) {
  const auto& [slope, size] = *static_cast<const std::pair<const Slope&, std::size_t>*>(context);
  const State result = slope(State(y, y + size));
  std::copy(result.begin(), result.end(), dydt);
  return GSL_SUCCESS;
}

// The absolute error (1e-17 in SI) is far below a milligram of oil, because some recipes have no
// more oil than that.
State advance(const Slope& slope, State state, double time) {
  if (time <= 0.0) return state;
  std::pair<const Slope&, std::size_t> context{slope, state.size()};
  gsl_odeiv2_system system{gsl_slope, nullptr, state.size(), &context};
  gsl_odeiv2_driver* driver =
      gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd, time, 1e-17, 1e-12);
  double now = 0.0;
  const int result = gsl_odeiv2_driver_apply(driver, &now, time, state.data());
  gsl_odeiv2_driver_free(driver);
  if (result != GSL_SUCCESS) throw std::runtime_error("integration failed");
  return state;
}

double brent(const std::function<double(double)>& f, double low, double high) {
  using Function = std::function<double(double)>;
  Function copy = f;
  gsl_function function{[](double x, void* g) { return (*static_cast<Function*>(g))(x); }, &copy};
  gsl_root_fsolver* solver = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
  gsl_root_fsolver_set(solver, &function, low, high);
  double root = high;
  for (int i = 0; i < 200; ++i) {
    gsl_root_fsolver_iterate(solver);
    root = gsl_root_fsolver_root(solver);
    if (gsl_root_test_interval(gsl_root_fsolver_x_lower(solver), gsl_root_fsolver_x_upper(solver),
                               0.0, 1e-13) == GSL_SUCCESS) {
      break;
    }
  }
  gsl_root_fsolver_free(solver);
  return root;
}

struct Event {
  double time;
  std::size_t which;
  State state;
};

/// The first event within `longest`, if there is one. Steps start small, to find events that come
/// at once, and grow to ten minutes.
std::optional<Event> next_event(const Slope& slope, State state, const std::vector<Watch>& watches,
                                double longest) {
  double now = 0.0;
  double step = 0.01;
  while (now < longest) {
    step = std::min({step * 1.5, 600.0, longest - now});
    const State after = advance(slope, state, step);
    std::optional<Event> first;
    for (std::size_t i = 0; i < watches.size(); ++i) {
      if (watches[i](state) <= 0.0 || watches[i](after) > 0.0) continue;
      const double root =
          brent([&](double t) { return watches[i](advance(slope, state, t)); }, 0.0, step);
      if (!first || now + root < first->time) {
        first = Event{now + root, i, advance(slope, state, root)};
      }
    }
    if (first) return first;
    state = after;
    now += step;
  }
  return std::nullopt;
}

struct Piece {
  double begin;
  State start;
  Slope slope;
};

class Trajectory {
 public:
  void add(Piece piece) { pieces_.push_back(std::move(piece)); }
  void end_at(double end) { end_ = end; }
  double end() const { return end_; }
  const std::vector<Piece>& pieces() const { return pieces_; }

  State at(double time) const {
    auto piece = pieces_.rbegin();
    while (piece + 1 != pieces_.rend() && piece->begin > time) ++piece;
    return advance(piece->slope, piece->start, time - piece->begin);
  }

  std::optional<double> first(const Watch& watch) const {
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      const double end = i + 1 < pieces_.size() ? pieces_[i + 1].begin : end_;
      const double begin = pieces_[i].begin;
      if (watch(pieces_[i].start) <= 0.0) return begin;
      if (const auto event = next_event(pieces_[i].slope, pieces_[i].start, {watch}, end - begin)) {
        return begin + event->time;
      }
    }
    return std::nullopt;
  }

 private:
  std::vector<Piece> pieces_;
  double end_ = 0.0;
};

// --- the still -----------------------------------------------------------------------------------

enum : std::size_t {
  pot_k,
  column_k,
  left_kg,
  held_kg,
  distilled_kg,
  uncondensed_kg,
  put_in_j,
  pot_lost_j,
  column_lost_j,
  with_vapour_j,
  waiting_kg,  // released, but steam could not carry it yet
  vaporised_kg,
  dissolved_kg,  // part of it that dissolved in its own water as it came over
  pools_kg,      // from here on: oil still in the plants, one place for each pool
};

// Oil that leaves a plant at one rate.
struct Pool {
  double mass = 0.0;              // at the start
  double rate = 0.0;              // at the reference flow
  double steam_over_plant = 0.0;  // resistances
};

std::vector<Pool> pools_of(const RunValues& v) {
  std::vector<BlendPace> plants = {{fraction(1), 1.0}};
  if (v.release.blend != nullptr) plants = *v.release.blend;
  std::vector<Pool> pools;
  for (const BlendPace& plant : plants) {
    const double oil = (v.oil_recoverable * plant.of_oil).si();
    pools.push_back(
        {oil * v.release.fast, v.release.fast_rate.si() * plant.pace, v.flow_effect.fast});
    pools.push_back(
        {oil * (1.0 - v.release.fast), v.release.slow_rate.si() * plant.pace, v.flow_effect.slow});
  }
  return pools;
}

struct NumericalRun {
  Trajectory path;
  std::optional<double> boil;
  std::optional<double> first_drop;
  std::optional<double> bound_until;  // when steam stopped holding the oil back
  std::optional<double> dry;
};

/// Integrates a run until no free water is left, but for no longer than `longest`. `dry` is set if
/// the pot ran dry.
NumericalRun integrate(const RunValues& v, double longest) {
  const double boiling = v.boiling.kelvin();
  const double room = v.room.kelvin();
  const double pot_heat_capacity =
      (v.first_fill * v.water_heat).si() + v.pot_capacity.si();  // includes the soaked water
  const double latent = v.latent_heat.si();
  const double carried = v.oil_per_steam ? double(*v.oil_per_steam) : 0.0;

  Phase phase = Phase::warming;
  bool wet_through = v.hold_up.si() <= 0.0;
  bool waiting = false;

  const std::vector<Pool> pools = pools_of(v);
  State state(pools_kg + pools.size(), 0.0);
  state[column_k] = room;
  const double of_water = (v.first_fill * v.water_heat).si();
  state[pot_k] = room + (of_water * v.fill_excess.si() + v.pot_capacity.si() * v.pot_excess.si()) /
                            pot_heat_capacity;
  state[left_kg] = (v.first_fill - v.soaked).si();
  for (std::size_t i = 0; i < pools.size(); ++i) state[pools_kg + i] = pools[i].mass;

  // Vapour to the condenser: the steam of the pot minus the steam that the column's loss condenses.
  const auto steam_of = [=](const State& y) {
    return (v.heat_boiling.si() - v.pot_loss.si() * (y[pot_k] - room)) / latent;
  };
  const auto vapour_of = [=](const State& y) {
    return steam_of(y) - v.column_loss.si() * (y[column_k] - room) / latent;
  };

  // Two resistances in series: the plant's, and the steam's, which falls with more steam.
  const auto rate_of = [=](double reference_rate, double steam_over_plant, const State& y) {
    const double plant = 1.0 / (reference_rate * (1.0 + steam_over_plant));
    const double steam = plant * steam_over_plant * v.flow_effect.reference.si() * v.charge.si();
    return 1.0 / (plant + steam / vapour_of(y));
  };
  const auto leaves_pool = [=](std::size_t i, const State& y) {
    return rate_of(pools[i].rate, pools[i].steam_over_plant, y) * y[pools_kg + i];
  };
  const auto leaves_plant = [=](const State& y) {
    double all = 0.0;
    for (std::size_t i = 0; i < pools.size(); ++i) all += leaves_pool(i, y);
    return all;
  };
  // Oil per time that the water coming over can dissolve.
  const auto water_holds = [=](const State& y) {
    return v.hydrosol_oil.si() * vapour_of(y) * (1.0 - v.uncondensed_loss) /
           v.distillate_density.si();
  };
  bool saturated = true;
  const auto oil_comes = [&](const State& y) {
    return waiting ? carried * vapour_of(y) : leaves_plant(y);
  };

  NumericalRun run;
  double now = 0.0;
  while (true) {
    const Slope slope = [=](const State& y) {
      State d(y.size(), 0.0);
      const double heat = (phase == Phase::warming ? v.heat_warming : v.heat_boiling).si();
      const double pot_lost = v.pot_loss.si() * (y[pot_k] - room);
      d[put_in_j] = heat;
      d[pot_lost_j] = pot_lost;
      if (phase == Phase::warming) {
        d[pot_k] = (heat - pot_lost) / pot_heat_capacity;
        return d;
      }
      const double steam = steam_of(y);
      const double column_lost = v.column_loss.si() * (y[column_k] - room);
      d[column_lost_j] = column_lost;
      double condensed = steam;
      if (phase == Phase::steaming) {
        d[column_k] = (steam * latent - column_lost) / v.column_capacity.si();
      } else {
        const double vapour = vapour_of(y);
        condensed = column_lost / latent;
        d[with_vapour_j] = vapour * latent;
        d[uncondensed_kg] = vapour * v.uncondensed_loss;
        d[distilled_kg] = vapour - d[uncondensed_kg];
        double releasing = 0.0;
        for (std::size_t i = 0; i < pools.size(); ++i) {
          d[pools_kg + i] = -leaves_pool(i, y);
          releasing -= d[pools_kg + i];
        }
        d[vaporised_kg] = waiting ? carried * vapour : releasing;
        d[waiting_kg] = releasing - d[vaporised_kg];
        d[dissolved_kg] = saturated ? water_holds(y) : d[vaporised_kg];
      }
      d[held_kg] = wet_through ? 0.0 : condensed;
      d[left_kg] = condensed - d[held_kg] - steam;
      return d;
    };
    run.path.add({now, state, slope});

    std::vector<Watch> watches = {[](const State& y) { return y[left_kg]; }};
    std::vector<std::function<void(State&)>> then = {[&](State&) { run.dry = now; }};
    if (phase == Phase::warming) {
      watches.push_back([=](const State& y) { return boiling - y[pot_k]; });
      then.push_back([&](State& y) {
        run.boil = now;
        y[pot_k] = boiling;
        phase = Phase::steaming;
      });
    }
    if (phase == Phase::steaming) {
      watches.push_back([=](const State& y) { return boiling - y[column_k]; });
      then.push_back([&](State& y) {
        run.first_drop = now;
        y[column_k] = boiling;
        phase = Phase::running;
        waiting = v.oil_per_steam && leaves_plant(y) > carried * vapour_of(y);
        saturated = oil_comes(y) > water_holds(y);
      });
    }
    if (phase != Phase::warming && !wet_through) {
      watches.push_back([=](const State& y) { return v.hold_up.si() - y[held_kg]; });
      then.push_back([&](State&) { wet_through = true; });
    }
    if (phase == Phase::running && waiting) {
      watches.push_back([](const State& y) { return y[waiting_kg]; });
      then.push_back([&](State& y) {
        run.bound_until = now;
        y[waiting_kg] = 0.0;
        waiting = false;
        saturated = saturated && oil_comes(y) > water_holds(y);
      });
    }
    if (phase == Phase::running && saturated && !waiting) {
      watches.push_back([=](const State& y) { return leaves_plant(y) - water_holds(y); });
      then.push_back([&](State&) { saturated = false; });
    }

    const auto event = next_event(slope, state, watches, longest - now);
    if (!event) {
      run.path.end_at(longest);
      return run;
    }
    now += event->time;
    state = event->state;
    then[event->which](state);
    if (run.dry) {
      run.path.end_at(now);
      return run;
    }
  }
}

// --- comparison ----------------------------------------------------------------------------------

/// The largest difference of each kind. Every difference is relative to the scale of its quantity.
/// The scale of a time is the time itself; of a temperature, the rise from room to boiling; of
/// water, the first fill; of energy, the energy put in; of oil, the recoverable oil.
class Differences {
 public:
  void add(const std::string& kind, double closed, double numerical, double scale) {
    const double difference = std::abs(closed - numerical) / scale;
    ++compared_[kind];
    double& largest = largest_[kind];
    // Written this way, so that a NaN is kept.
    if (!(difference <= largest)) largest = difference;
  }

  int compared(const std::string& kind) const {
    const auto found = compared_.find(kind);
    return found == compared_.end() ? 0 : found->second;
  }

  void check() const {
    double largest = 0.0;
    std::string where;
    for (const auto& [kind, difference] : largest_) {
      INFO(kind);
      CHECK(difference < allowed);
      if (!(difference <= largest)) {
        largest = difference;
        where = kind;
      }
    }
    std::cout << "largest relative difference: " << largest << " (" << where << ")\n";
  }

  void print() const {
    for (const auto& [kind, difference] : largest_) {
      std::cout << "  " << std::left << std::setw(26) << kind << std::right << std::setw(8)
                << compared_.at(kind) << " compared, largest difference " << difference << '\n';
    }
  }

 private:
  std::map<std::string, double> largest_;
  std::map<std::string, int> compared_;
};

void compare_times(const Run& run, const NumericalRun& numerical, Differences& differences) {
  const RunValues& v = run.values();
  const auto time = [&](const std::string& kind, Duration closed, double other) {
    differences.add(kind, closed.si(), other, other);
  };
  time("boil", run.boil(), *numerical.boil);
  time("dry", run.time_until_left(grams(0)), *numerical.dry);
  for (const double share : {0.1, 0.2, 0.4, 0.7, 0.95}) {
    const Mass level = v.first_fill * share;
    if (level >= v.first_fill - v.soaked) continue;
    const auto reached =
        numerical.path.first([&](const State& y) { return y[left_kg] - level.si(); });
    REQUIRE(reached);
    time("reserve", run.time_until_left(level), *reached);
  }
  if (!numerical.first_drop) return;
  time("first drop", run.first_drop(), *numerical.first_drop);

  const State last = numerical.path.at(*numerical.dry);
  const double most = last[distilled_kg] / v.distillate_density.si();
  for (const double share : {0.03, 0.5, 0.97}) {
    const auto reached = numerical.path.first(
        [&](const State& y) { return share * most - y[distilled_kg] / v.distillate_density.si(); });
    REQUIRE(reached);
    time("hydrosol reached", run.time_of_hydrosol(cubic_metres(share * most)), *reached);
  }
  if (v.oil_recoverable <= grams(0)) return;
  const double oil = v.oil_recoverable.si();
  for (const double share : {0.05, 0.3, 0.6, 0.9, 0.99}) {
    if (share * oil > last[vaporised_kg]) continue;  // the pot runs dry first
    const auto reached =
        numerical.path.first([&](const State& y) { return share * oil - y[vaporised_kg]; });
    if (!reached) continue;
    // The last of the oil may come so slowly that the smallest error of a share is a large one of
    // its time. So the shares at that time are compared.
    const Duration closed = run.time_of_oil_share(fraction(share));
    REQUIRE(std::abs(closed.si() - *reached) < *reached * 1e-6);
    differences.add(
        "oil share reached", share,
        numerical.path.at(std::min(closed.si(), numerical.path.end()))[vaporised_kg] / oil, 1.0);
  }
}

void compare_bound(const Run& run, const NumericalRun& numerical, Differences& differences) {
  const auto closed = run.codistillation_limit_until();
  if (!numerical.first_drop) return;
  // The closed form ignores a limit that holds for no more than the first second.
  if (numerical.bound_until && *numerical.bound_until > *numerical.first_drop + 2.0) {
    REQUIRE(closed);
    differences.add("co-distillation limit until", closed->si(), *numerical.bound_until,
                    *numerical.bound_until);
  } else if (closed) {
    const bool goes_on = closed->si() > *numerical.dry;
    const bool at_once = closed->si() < *numerical.first_drop + 2.0;
    CHECK((goes_on || at_once));
  }
}

/// Separated oil in the receiver. The weight `mixing` is for oil in contact with all the water, the
/// rest for oil in contact only with the water it came with.
double in_receiver(const RunValues& v, const State& y) {
  const double all = v.hydrosol_oil.si() * y[distilled_kg] / v.distillate_density.si();
  const double if_mixed = std::max(y[vaporised_kg] - all, 0.0);
  return v.mixing * if_mixed + (1.0 - v.mixing) * (y[vaporised_kg] - y[dissolved_kg]);
}

void compare_states(const Run& run, const NumericalRun& numerical, Differences& differences) {
  const RunValues& v = run.values();
  const double rise = (v.boiling - v.room).si();
  const double fill = v.first_fill.si();
  const double oil = std::max(v.oil_recoverable.si(), 1e-12);
  std::vector<double> times;
  for (int i = 0; i <= 24; ++i) times.push_back(*numerical.dry * i / 24.0);
  for (const auto& event : {numerical.boil, numerical.first_drop, numerical.bound_until}) {
    if (!event) continue;
    for (const double beside : {-0.5, 0.5}) times.push_back(*event + beside);
  }
  for (const double t : times) {
    if (t < 0.0 || t > *numerical.dry) continue;
    const State y = numerical.path.at(t);
    const Duration time = seconds(t);
    differences.add("pot temperature", run.pot_temperature(time).kelvin(), y[pot_k], rise);

    const WaterBalance water = run.water_at(time);
    differences.add("water left", water.left.si(), y[left_kg], fill);
    differences.add("water held", (water.held - v.soaked).si(), y[held_kg], fill);
    differences.add("water distilled", water.distilled.si(), y[distilled_kg], fill);
    differences.add("water uncondensed", water.uncondensed.si(), y[uncondensed_kg], fill);
    differences.add("hydrosol", run.hydrosol_at(time).si(),
                    y[distilled_kg] / v.distillate_density.si(), fill / 1000.0);

    const EnergyBalance energy = run.energy_at(time);
    const double put_in = std::max(y[put_in_j], 1.0);
    const double pot_and_water =
        fill * v.water_heat.si() * (y[pot_k] - v.room.kelvin() - v.fill_excess.si()) +
        v.pot_capacity.si() * (y[pot_k] - v.room.kelvin() - v.pot_excess.si());
    const double column = v.column_capacity.si() * (y[column_k] - v.room.kelvin());
    differences.add("heat put in", energy.put_in.si(), y[put_in_j], put_in);
    // A pot that starts hot needs little heat, so the scale is at least the heat to the boil.
    const double to_boil = (fill * v.water_heat.si() + v.pot_capacity.si()) * rise;
    differences.add("heat in water and pot", energy.water_and_pot.si(), pot_and_water,
                    std::max(put_in, to_boil));
    differences.add("heat in column", energy.column_and_charge.si(), column, put_in);
    differences.add("heat lost by the pot", energy.pot_lost.si(), y[pot_lost_j], put_in);
    differences.add("heat lost by the column", energy.column_lost.si(), y[column_lost_j], put_in);
    differences.add("heat gone with vapour", energy.left_with_vapour.si(), y[with_vapour_j],
                    put_in);

    differences.add("oil vaporised", run.oil_vaporised_at(time).si(), y[vaporised_kg], oil);
    differences.add("oil in receiver", run.oil_in_receiver_at(time).si(), in_receiver(v, y), oil);
  }
}

/// The times from stop.hpp must agree with those of the numerical solution.
void compare_stops(const Run& run, const NumericalRun& numerical, Differences& differences) {
  const RunValues& v = run.values();
  if (!numerical.first_drop || v.oil_recoverable <= grams(0)) return;
  const double oil = v.oil_recoverable.si();
  const double dry = *numerical.dry;
  const auto receiver = [&](const State& y) { return in_receiver(v, y); };
  for (const double share : {0.1, 0.4, 0.7}) {
    const auto reached = time_of_oil(run, v.oil_recoverable * share);
    if (!reached || reached->si() > dry) continue;
    const auto same =
        numerical.path.first([&](const State& y) { return share * oil - receiver(y); });
    if (!same) {
      // Only a share right at the maximum may be missed, by rounding.
      CHECK_THAT(receiver(numerical.path.at(reached->si())), WithinAbs(share * oil, allowed * oil));
      continue;
    }
    differences.add("oil goal reached", reached->si(), *same, *same);
  }
  const double gain = 0.02;
  const Duration low = time_of_low_gain(run, fraction(gain));
  const double quarter_hour = 900.0;
  if (low > run.first_drop() && low.si() + quarter_hour < dry) {
    const double more = numerical.path.at(low.si() + quarter_hour)[vaporised_kg] -
                        numerical.path.at(low.si())[vaporised_kg];
    differences.add("gain at the stop by rate", gain * oil, more, oil);
  }
  const Rate allowance = 0.3 / (seconds(dry) - run.first_drop());
  const Duration balance = time_of_balance(run, allowance);
  if (balance.si() < dry) {
    const auto same = numerical.path.first([&](const State& y) {
      // The mass of distillate gives the time since first drop.
      const double running = y[distilled_kg] / run.distillate().si();
      return 1.0 - y[vaporised_kg] / oil - allowance.si() * running;
    });
    REQUIRE(same);
    differences.add("oil left falls to its allowance", balance.si(), *same, *same);
  }
  const Duration most = time_of_most_oil(run);
  if (most > run.first_drop() && most.si() < dry) {
    const double there = receiver(numerical.path.at(most.si()));
    for (int i = 0; i <= 50; ++i) {
      const double t = *numerical.first_drop + (dry - *numerical.first_drop) * i / 50.0;
      // time_of_most_oil() stops when all but a ten-thousandth of the oil has come over.
      CHECK(receiver(numerical.path.at(t)) <= there + 1.1e-4 * oil);
    }
  }
}

constexpr double a_year = 365.0 * 24 * 3600;

NumericalRun compare(const RunValues& values, Differences& differences) {
  const Run run(values);
  REQUIRE_FALSE(run.failure());
  NumericalRun numerical = integrate(values, a_year);
  REQUIRE(numerical.boil);
  REQUIRE(numerical.dry);
  compare_times(run, numerical, differences);
  compare_bound(run, numerical, differences);
  compare_states(run, numerical, differences);
  compare_stops(run, numerical, differences);
  return numerical;
}

/// Compares the times of stop, reserve and dry pot that a plan states, and the water and oil at its
/// stop.
void compare_planned(const RunPlan& plan, const TimesPlan& times, const RunValues& values,
                     Mass reserve, Differences& differences) {
  const NumericalRun numerical = compare(values, differences);
  std::optional<double> stop;
  if (plan.stop.hydrosol) {
    const double level = (*plan.stop.hydrosol * values.distillate_density).si();
    stop = numerical.path.first([&](const State& y) { return level - y[distilled_kg]; });
    REQUIRE((stop || plan.stop.clock));
  }
  if (plan.stop.clock) stop = std::min(stop.value_or(a_year), plan.stop.clock->si());
  differences.add("planned: stop", times.stop.si(), *stop, *stop);
  const auto touched =
      numerical.path.first([&](const State& y) { return y[left_kg] - reserve.si(); });
  REQUIRE(touched);
  CHECK(*touched > *stop);
  differences.add("planned: reserve reached", times.reserve.si(), *touched, *touched);
  differences.add("planned: dry", times.dry.si(), *numerical.dry, *numerical.dry);
  const State y = numerical.path.at(*stop);
  const double fill = values.first_fill.si();
  const Run run(values);
  differences.add("planned: water left at stop", run.water_at(times.stop).left.si(), y[left_kg],
                  fill);
  differences.add("planned: oil share at stop", run.oil_vaporised_at(times.stop).si(),
                  y[vaporised_kg], values.oil_recoverable.si());
}

#if defined(__SANITIZE_ADDRESS__) || !defined(NDEBUG)
constexpr int usual_recipes = 20;
#else
constexpr int usual_recipes = 250;
#endif

}  // namespace

TEST_CASE("closed-form runs agree with a numerical integration: random values", "[ode]") {
  test_random::Random random(20240611);
  Differences differences;
  for (int i = 0; i < 120; ++i) {
    CAPTURE(i);
    const auto method = static_cast<Method>(i % 3);
    compare(test_random::run_values(random, method), differences);
  }
  // Every comparison that depends on the random values was made often enough.
  for (const char* kind : {"co-distillation limit until", "hydrosol reached", "oil share reached",
                           "oil goal reached", "gain at the stop by rate"}) {
    INFO(kind);
    CHECK(differences.compared(kind) > 10);
  }
  differences.check();
}

TEST_CASE("closed-form runs agree with a numerical integration: accepted plans", "[ode]") {
  const Tables& tables = shipped_tables();
  Differences differences;
  const long wanted = from_environment("FIRSTDROP_ODE_RECIPES", usual_recipes);
  long compared = 0;
  for (long i = 0; compared < wanted; ++i) {
    test_random::Random random(static_cast<std::uint64_t>(77000000 + i));
    const auto document = random_recipe::document(random, tables);
    const auto recipe = random_recipe::read(document, tables);
    if (!recipe) continue;
    const auto accepted = random_recipe::planned(*recipe, tables, 1);
    if (!accepted || accepted->verdict == Verdict::refused) continue;
    const Plan& plan = *accepted;
    CAPTURE(i, document.dump());
    const ModelParameters parameters = model_parameters(*recipe, tables);
    const RunPlan& run = *plan.run;
    const Mass charge = plan.charge.mass;
    const Mass fill = run.water.first_fill * parameters.fill_density;
    const Mass reserve = run.water.reserve * parameters.fill_density;
    compare_planned(run, run.times, run_values_at(parameters, SamplePoint::medians(), charge, fill),
                    reserve, differences);
    const RunValues at_worst =
        WorstCase(parameters, charge).run(fill, run.stop, longest_lateness(parameters)).values();
    const Run worst_run(at_worst);
    TimesPlan worst = run.times;
    worst.stop = run.times.stop_worst;
    worst.reserve = worst_run.time_until_left(reserve);
    worst.dry = worst_run.time_until_left(grams(0));
    // The printed times hold for any stop, so they allow for charge and walls taking up more water.
    CHECK(run.times.reserve_worst <= worst.reserve * (1.0 + 1e-9));
    CHECK(run.times.dry_worst <= worst.dry * (1.0 + 1e-9));
    compare_planned(run, worst, at_worst, reserve, differences);
    ++compared;
  }
  std::cout << "plans of " << compared << " random recipes, typical and worst credible case:\n";
  differences.print();
  CHECK(differences.compared("planned: stop") == 2 * wanted);
  differences.check();
}

TEST_CASE("closed-form runs agree with a numerical integration: shipped stills", "[ode]") {
  const Tables& tables = shipped_tables();
  test_random::Random random(7);
  Differences differences;
  int compared = 0;
  for (Recipe& recipe : plain_recipes()) {
    CAPTURE(recipe.still->key, to_string(recipe.method_used()), recipe.plant->key);
    recipe.site.altitude = metres(random.between(0, 3000));
    recipe.site.room = celsius(random.between(5, 35));
    const ModelParameters parameters = model_parameters(recipe, tables);
    const Mass charge =
        charge_capacity(parameters, tables.design_defaults, SamplePoint::medians()) *
        random.between(0.2, 1.0);
    SamplePoint point = random.chance(0.5) ? SamplePoint::medians() : worst_for_water();
    if (random.chance(0.3)) {
      for (std::size_t input = 0; input < parameter_count; ++input) {
        point.set(static_cast<Parameter>(input), random.between(0, 1));
      }
    }
    const bool grid = recipe.method_used() == Method::water_and_steam;
    const Mass fill = recipe.still->pot.volume.typical() * parameters.fill_density *
                      (grid ? 0.15 : random.between(0.4, 0.7));
    const RunValues values = run_values_at(parameters, point, charge, fill);
    if (Run(values).failure()) continue;
    if (values.soaked >= values.first_fill) continue;  // no free water; a plan would fill more
    compare(values, differences);
    ++compared;
  }
  CHECK(compared > 60);
  differences.check();
}

TEST_CASE("a pot or column that the integration never sees boil has no run", "[ode]") {
  test_random::Random random(3);
  for (int i = 0; i < 12; ++i) {
    CAPTURE(i);
    RunValues v = test_random::run_values(random, static_cast<Method>(i % 3));
    v.pot_loss = watts_per_kelvin(random.between(0.5, 4));
    v.column_loss = watts_per_kelvin(random.between(0.5, 2));
    const TemperatureDifference rise = v.boiling - v.room;
    const bool boils = random.chance(0.5);
    const double share = random.between(0.2, 0.97);
    v.heat_boiling = (boils ? v.pot_loss + v.column_loss * share : v.pot_loss * share) * rise;
    v.heat_warming = v.heat_boiling;
    const Run run(v);
    REQUIRE(run.failure());
    CHECK(*run.failure() == (boils ? RunFailure::never_at_the_top : RunFailure::never_boils));
    // Five weeks are enough for the slowest of these pots to level off. It need not run dry,
    // because all its steam drips back once the charge holds all it can.
    v.first_fill = std::min(v.first_fill, kilograms(10));
    const NumericalRun numerical = integrate(v, 3e6);
    CHECK(numerical.boil.has_value() == boils);
    CHECK_FALSE(numerical.first_drop);
  }
}

// --- the coolant ---------------------------------------------------------------------------------

namespace {

enum : std::size_t { vessel_j };  // relative to water at the ice point

void compare_vessel(const CoolantVessel& vessel, Power duty, Duration time,
                    Differences& differences) {
  const CoolantRun closed(vessel, duty, time);
  const double cp = mean_liquid_specific_heat(celsius(0.01), celsius(40)).si();
  const double melting_heat = ice_melting_heat.si();
  const double ice_point = celsius(0).kelvin();
  const double limit = vessel.limit.kelvin() - ice_point;
  const double filling = vessel.filling.si();
  // While there is ice, the well-mixed vessel stays at the ice point.
  const auto warmth = [=](const State& y) { return std::max(y[vessel_j], 0.0) / (filling * cp); };
  const Slope slope = [=](const State& y) {
    const double out = vessel.loss.si() * (ice_point + warmth(y) - vessel.room.kelvin());
    return State{duty.si() - out};
  };

  Trajectory path;
  const double first_ice = vessel.first_ice.si();
  double now = 0.0;
  State state = {(filling - first_ice) * cp * (vessel.start.kelvin() - ice_point) -
                 first_ice * melting_heat};
  double warmest = warmth(state);
  std::optional<double> limit_reached;
  std::vector<double> changes;
  while (true) {
    path.add({now, state, slope});
    const bool icy = state[vessel_j] < 0.0;
    const bool over = !icy && limit_reached && changes.size() == closed.changes().size();
    std::vector<Watch> watches;
    if (icy) {
      watches.push_back([](const State& y) { return -y[vessel_j]; });
    } else if (!over) {
      watches.push_back([=](const State& y) { return limit - warmth(y); });
    }
    const auto event = next_event(slope, state, watches, time.si() - now);
    if (!event) break;
    now += event->time;
    state = event->state;
    if (icy) {
      state[vessel_j] = 0.0;
      continue;
    }
    warmest = std::max(warmest, limit);
    if (!limit_reached) limit_reached = now;
    if (changes.size() == closed.changes().size()) continue;
    // The amount of ice is our rule and not physics, so it is taken from the closed form. It
    // replaces water at the limit.
    const double ice = closed.changes()[changes.size()].ice.si();
    changes.push_back(now);
    state[vessel_j] -= ice * (melting_heat + cp * limit);
  }
  path.end_at(time.si());
  const double end = warmth(path.at(time.si()));
  warmest = std::max(warmest, end);

  REQUIRE(limit_reached.has_value() == closed.limit_reached().has_value());
  if (limit_reached) {
    differences.add("coolant limit", closed.limit_reached()->si(), *limit_reached, *limit_reached);
  }
  REQUIRE(changes.size() == closed.changes().size());
  double ice = first_ice;
  for (std::size_t i = 0; i < changes.size(); ++i) {
    differences.add("ice change", closed.changes()[i].at.si(), changes[i], changes[i]);
    CHECK(closed.changes()[i].ice <= vessel.ice_per_change);
    ice += closed.changes()[i].ice.si();
  }
  differences.add("ice", closed.ice().si(), ice, filling);
  const double scale = limit;
  differences.add("coolant at the end", closed.end().kelvin() - ice_point, end, scale);
  differences.add("coolant at its warmest", closed.warmest().kelvin() - ice_point, warmest, scale);
  if (vessel.ice_per_change >= grams(10)) CHECK(end <= limit * (1.0 + allowed));
  for (int i = 0; i <= 40; ++i) {
    const double t = time.si() * i / 40.0;
    const auto near = [t](double change) { return std::abs(change - t) < 0.01; };
    if (std::any_of(changes.begin(), changes.end(), near)) continue;  // the temperature jumps there
    differences.add("coolant temperature", closed.temperature_at(seconds(t)).kelvin() - ice_point,
                    warmth(path.at(t)), scale);
  }
}

}  // namespace

TEST_CASE("coolant vessels agree with a numerical integration", "[ode]") {
  test_random::Random random(1234);
  Differences differences;
  int with_changes = 0;
  int with_ice_at_first = 0;
  int within_limit = 0;
  for (int i = 0; i < 80; ++i) {
    CAPTURE(i);
    CoolantVessel vessel;
    vessel.filling = kilograms(random.log_uniform(3, 80));
    vessel.first_ice = random.chance(0.5) ? vessel.filling * random.between(0.05, 0.6) : grams(0);
    vessel.limit = celsius(random.between(20, 45));
    vessel.start = celsius(random.between(1, in_celsius(vessel.limit) - 3));
    vessel.ice_per_change =
        random.chance(0.7) ? vessel.filling * random.between(0.05, 0.5) : grams(0);
    vessel.room = celsius(random.between(5, 40));
    vessel.loss = watts_per_kelvin(random.chance(0.1) ? 0.0 : random.log_uniform(0.5, 12));
    const Power duty = watts(random.log_uniform(10, 80) * vessel.filling.si());
    const Duration time = hours(random.log_uniform(0.2, 5));
    const CoolantRun closed(vessel, duty, time);
    with_changes += closed.changes().empty() ? 0 : 1;
    with_ice_at_first += vessel.first_ice > grams(0) ? 1 : 0;
    within_limit += closed.limit_reached() ? 0 : 1;
    compare_vessel(vessel, duty, time, differences);
  }
  CHECK(with_changes > 10);
  CHECK(with_ice_at_first > 10);
  CHECK(within_limit > 10);
  differences.check();
}
