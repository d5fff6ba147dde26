#include "condensing_by_steps.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include "firstdrop/physics/course.hpp"
#include "firstdrop/plan/plan.hpp"
#include "firstdrop/quantity/source.hpp"
#include "firstdrop/tables/design_defaults.hpp"
#include "firstdrop/tables/finding.hpp"
#include "firstdrop/tables/still.hpp"
#include "model/model_parameters.hpp"
#include "physics/water.hpp"

namespace property {
namespace {

using namespace firstdrop;

constexpr int steps = 160;
constexpr double a_month = 30.0 * 24 * 3600;
// Relative error of the steps, not of the plan.
constexpr double coarseness = 2e-4;

double coolant_heat() {
  static const double cp = mean_liquid_specific_heat(celsius(0.01), celsius(40)).si();
  return cp;
}

/// As far beyond P10 or P90 as that is from the median, but never below half of the P10.
template <class T>
T bound_of(const Range<T>& range, bool most) {
  const T end =
      most ? range.high + (range.high - range.typical) : range.low - (range.typical - range.low);
  return std::max(end, range.low * 0.5);
}

double least_transfer(const ModelParameters& parameters) {
  return bound_of(parameters.selected->condensing.range, false).si();
}

/// Heat that a kilogram of steam gives up when it leaves as cold as the coolant. `share` is the
/// share that it gives up of its heat beyond the latent heat. The enthalpy of water is taken as
/// linear between the ice point and boiling, which is right to some thousandths of this heat.
class HeatDownTo {
 public:
  HeatDownTo(const ModelParameters& parameters, double share = 1.0)
      : boiling_(in_celsius(parameters.boiling)),
        latent_(parameters.latent_heat.si()),
        specific_(share * mean_liquid_specific_heat(celsius(0.01), parameters.boiling).si()) {}
  double operator()(double coolant) const {
    return latent_ + specific_ * std::max(boiling_ - coolant, 0.0);
  }

 private:
  double boiling_;
  double latent_;
  double specific_;
};

std::optional<std::string> in_run_through(const ModelParameters& parameters,
                                          const Condenser& condenser, double vapour) {
  const double boiling = in_celsius(parameters.boiling);
  const double in = in_celsius(parameters.coolant);
  const double out = in_celsius(condenser.coolant_limit.typical());
  const double heat = HeatDownTo(parameters)(in);
  const double flow = vapour * heat / (coolant_heat() * (out - in));
  const double flow_limit = (condenser.flow_limit->typical() * parameters.fill_density).si();
  if (!(flow <= flow_limit * (1.0 + coarseness))) {
    return fmt::format("takes {:.6g} kg/s of coolant, the tap gives {:.6g}", flow, flow_limit);
  }
  // The condensate is cooled at the cold end. From there on the coolant meets steam.
  const double between = out - vapour * parameters.latent_heat.si() / (flow * coolant_heat());
  double area = 0.0;
  const double step = (out - between) / steps;
  for (int i = 0; i < steps; ++i) {
    const double coolant = between + (i + 0.5) * step;
    area += flow * coolant_heat() * step / (least_transfer(parameters) * (boiling - coolant));
  }
  const double has = condenser.surface.typical().si();
  if (area <= has * (1.0 + coarseness)) return std::nullopt;
  return fmt::format("condensing takes {:.6g} m2, there are {:.6g}", area, has);
}

/// A well-mixed ice bath or reservoir, with its enthalpy counted from water at 0 degC.
class Vessel {
 public:
  Vessel(const ModelParameters& parameters, const Condenser& condenser, double film)
      : filling_((condenser.coolant->typical() * parameters.fill_density).si()),
        room_(in_celsius(parameters.recipe.site.room)) {
    // A cylinder as high as it is wide, without its base.
    const double across = std::cbrt(4.0 * condenser.coolant->typical().si() / std::numbers::pi);
    const double surface = std::numbers::pi / 4.0 * across * across * 5.0;
    loss_ = film * surface;
  }

  void start(double coolant, double ice) {
    enthalpy_ = (filling_ - ice) * coolant_heat() * coolant - ice * ice_melting_heat.si();
  }
  double temperature(double enthalpy) const {
    return std::max(enthalpy, 0.0) / (filling_ * coolant_heat());
  }
  double temperature() const { return temperature(enthalpy_); }
  /// Adds ice. As much water goes out, at the temperature of the vessel.
  void put_in(double ice) {
    ice = std::min(ice, filling_);
    enthalpy_ -= ice / filling_ * std::max(enthalpy_, 0.0) + ice * ice_melting_heat.si();
  }
  /// The enthalpy after a time, by the midpoint method.
  double after(double seconds, const HeatDownTo& heat, double vapour) const {
    const auto slope = [&](double enthalpy) {
      const double t = temperature(enthalpy);
      return vapour * heat(t) - loss_ * (t - room_);
    };
    const double middle = enthalpy_ + slope(enthalpy_) * seconds / 2.0;
    return enthalpy_ + slope(middle) * seconds;
  }
  void set(double enthalpy) { enthalpy_ = enthalpy; }
  double filling() const { return filling_; }
  double time_constant() const { return capacity() / loss_; }
  double capacity() const { return filling_ * coolant_heat(); }

 private:
  double filling_;
  double room_;
  double loss_;
  double enthalpy_ = 0.0;
};

/// Ice as the plan has it: pieces for when the coolant is at its limit, and perhaps some just
/// before the stop.
struct Ice {
  std::vector<double> at_limit;
  double more = 0.0;  ///< size of each further piece
  std::optional<double> before_stop;
  double ready = 0.0;  ///< in all, without the first ice
};

Ice ice_of(const Plan& plan, const ModelParameters& parameters, const Condenser& condenser) {
  Ice ice;
  const RunPlan& run = *plan.run;
  const bool fresh_at_stop = finding_of<found::IceBeforeStop>(plan.findings) != nullptr;
  const double length = (run.times.stop - run.times.first_drop).si();
  const double shortly = std::min(300.0, length);
  // The tolerance of half a gram is for weighing.
  ice.ready =
      (run.cooling.ice_ready.value_or(grams(0)) - run.cooling.first_ice.value_or(grams(0))).si() +
      0.0005;
  for (const IceChange& change : run.cooling.ice_changes) {
    const bool last = std::abs((run.times.stop - change.at).si() - shortly) < 1e-3;
    if (fresh_at_stop && last && !ice.before_stop) {
      ice.before_stop = change.ice.si();
    } else {
      ice.at_limit.push_back(change.ice.si());
    }
  }
  if (!ice.at_limit.empty()) {
    ice.more = *std::max_element(ice.at_limit.begin(), ice.at_limit.end());
  } else if (condenser.ice_per_change) {
    ice.more = condenser.ice_per_change->typical().si();
  }
  if (const auto& freezes = plan.recipe.plant->oil_freezes) {
    // Never so much that it cools the bath from its limit to within 5 K of where the oil sets, even
    // with the least water in the bath.
    const Condenser& planned = plan.recipe.still->condenser;
    const double filling = (least_of(*planned.coolant) * parameters.fill_density).si();
    const double limit = in_celsius(condenser.coolant_limit.typical());
    const double spare = std::max(limit - in_celsius(freezes->range.high) - 5.0, 0.0);
    const double cp = coolant_heat();
    const double mild = filling * cp * spare / (ice_melting_heat.si() + cp * limit);
    ice.more = std::min(ice.more, mild);
  }
  if (ice.more < 0.01) ice.more = 0.0;
  return ice;
}

std::optional<std::string> in_vessel(const Plan& plan, const ModelParameters& parameters,
                                     const Condenser& condenser, double film, const Steam& steam,
                                     const HeatDownTo& heat) {
  const double boiling = in_celsius(parameters.boiling);
  const double limit = in_celsius(condenser.coolant_limit.typical());
  const double vapour = steam.vapour.si();
  const double takes = least_transfer(parameters) * condenser.surface.typical().si();
  const double duty = vapour * parameters.latent_heat.si();
  const double warmest = boiling - duty / takes;  // up to which all steam condenses
  // A heater that hardly brings steam over takes extremely long to reach a level. Nothing changes
  // any more by then, so stop at a month.
  const double length = std::clamp((steam.stop - steam.first_drop).si(), 0.0, a_month);
  const double absence = (parameters.recipe.limits.absence + steam.after_heat).si();

  Vessel vessel(parameters, condenser, film);
  vessel.start(in_celsius(parameters.coolant), plan.run->cooling.first_ice.value_or(grams(0)).si());
  Ice ice = ice_of(plan, parameters, condenser);
  std::size_t change = 0;
  constexpr double never = std::numeric_limits<double>::infinity();
  double fresh_at = ice.before_stop ? (steam.last_ice - steam.first_drop).si() : never;

  const auto too_warm = [&](double at, const char* when) {
    return fmt::format(
        "{:.4g} W of steam, coolant {:.4f} degC {} after {:.1f} of {:.1f} min, condenses up to "
        "{:.4f} degC",
        duty, vessel.temperature(), when, at / 60.0, length / 60.0, warmest);
  };
  const double step = std::min((length + absence) / steps, 0.2 * vessel.time_constant());
  double now = 0.0;
  if (!(step > 0.0)) return std::nullopt;
  int guard = 0;
  while (now < length + absence - step * 1e-6) {
    if (++guard > 1000000) return too_warm(now, "and iced for ever");
    double by = std::min(step, length + absence - now);
    if (now < length) by = std::min(by, std::max(length - now, step * 1e-6));
    if (now < fresh_at) by = std::min(by, std::max(fresh_at - now, step * 1e-6));
    // If the clock ends the run before that level, this ice never goes in.
    if (fresh_at > length) fresh_at = never;
    const double before = vessel.temperature();
    const double after = vessel.after(by, heat, vapour);
    const bool attended = now + by <= length * (1.0 + 1e-12);
    const double piece = change < ice.at_limit.size() ? ice.at_limit[change] : ice.more;
    const bool has_ice = std::min(piece, ice.ready) > 0.0;
    if (attended && has_ice && before < limit && vessel.temperature(after) >= limit) {
      // Interpolate linearly to the limit, and add new ice.
      const double share = (limit - before) / (vessel.temperature(after) - before);
      now += by * std::clamp(share, 0.0, 1.0);
      vessel.set(limit * vessel.capacity());
      const double goes_in = std::min({piece, ice.ready, vessel.filling()});
      vessel.put_in(goes_in);
      ice.ready -= goes_in;
      ++change;
      continue;
    }
    vessel.set(after);
    now += by;
    if (now >= fresh_at - step * 1e-6) {
      vessel.put_in(std::min(*ice.before_stop, ice.ready));
      fresh_at = never;
      continue;
    }
    const double slack = coarseness * (boiling - warmest);
    if (!(vessel.temperature() <= warmest + slack)) {
      return too_warm(now, now <= length ? "before the stop" : "when late");
    }
  }
  return std::nullopt;
}

}  // namespace

std::optional<std::string> steam_left_over(const Plan& plan, const ModelParameters& parameters,
                                           const Still& still, const DesignDefaults& defaults,
                                           const Steam& steam) {
  const Condenser& condenser = still.condenser;
  if (condenser.kind == CondenserKind::run_through) {
    return in_run_through(parameters, condenser, steam.vapour.si());
  }
  // Distillate that leaves hot warms the coolant less, so that ice goes in later.
  for (const double share : {1.0, 0.0}) {
    const HeatDownTo heat(parameters, share);
    for (const bool most : {false, true}) {
      const double film = bound_of(defaults.bath_loss.range, most).si();
      if (auto words = in_vessel(plan, parameters, condenser, film, steam, heat)) return words;
    }
  }
  return std::nullopt;
}

}  // namespace property
