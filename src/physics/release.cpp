#include "physics/release.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "base/root.hpp"
#include "physics/water.hpp"

namespace firstdrop {
namespace {

// Molar mass of water, IAPWS R6-95 (18.015268 g/mol).
constexpr MolarMass water_molar_mass = grams_per_mole(18.015268);

struct Part {
  const Liquid* liquid;
  double mole_fraction;
};

// Mole fractions of the given parts, scaled to add up to one.
std::vector<Part> mole_fractions(const std::vector<OilPart>& parts) {
  std::vector<Part> result;
  double total = 0.0;
  for (const OilPart& part : parts) {
    // Per kilogram of oil; the common factor cancels.
    const double moles = (kilograms(1) * part.mass_share / part.liquid->molar_mass.typical()).si();
    result.push_back({part.liquid, moles});
    total += moles;
  }
  for (Part& part : result) part.mole_fraction /= total;
  return result;
}

Pressure oil_pressure(const std::vector<Part>& parts, Temperature t) {
  Pressure sum;
  for (const Part& part : parts) sum += vapour_pressure(*part.liquid, t) * part.mole_fraction;
  return sum;
}

// The temperature at which the vapour pressures of water and oil add up to `ambient`. The sum rises
// strictly with temperature. Needs fits that hold over [low, high].
Temperature common_boiling(Pressure ambient, const std::vector<Part>& parts, Temperature low,
                           Temperature high) {
  const auto lacking = [&](Temperature t) {
    return (ambient - saturation_pressure(t) - oil_pressure(parts, t)).si();
  };
  return bracket_root(low, high, lacking).last_yes;
}

// Part of the oil that leaves the plant at one rate.
struct Stage {
  double part;
  double rate;  // per second, or per whatever time is counted in
};

// The stages of a release: two for each plant.
class Stages {
 public:
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-member-init): only what is counted is read
  explicit Stages(const Release& release) {
    const double fast = release.fast;
    const double k1 = release.fast_rate.si();
    const double k2 = release.slow_rate.si();
    if (release.blend == nullptr) {
      add({fast, k1});
      add({1.0 - fast, k2});
      return;
    }
    for (const BlendPace& plant : *release.blend) {
      add({plant.of_oil * fast, plant.pace * k1});
      add({plant.of_oil * (1.0 - fast), plant.pace * k2});
    }
  }
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-member-init)
  Stages(const Stage& one, const Stage& other) {
    add(one);
    add(other);
  }
  Stage* begin() { return stages_.data(); }
  Stage* end() { return begin() + count_; }
  const Stage* begin() const { return stages_.data(); }
  const Stage* end() const { return begin() + count_; }

 private:
  static constexpr std::size_t most = 16;  // eight plants
  void add(const Stage& stage) {
    if (count_ < most) stages_[count_++] = stage;
  }
  std::array<Stage, most> stages_;
  std::size_t count_ = 0;
};

// The time t at which the sum of part exp(-rate t) has fallen to `level`. 0 if it starts at or
// below `level`; infinite if `level` is not above 0. Parts must be 0 or more, rates above 0.
//
// Uses Newton's method for the logarithm of the sum. The logarithm is convex in t, so a step from
// the left of the root never passes it. Each part alone reaches the level before the sum does, so
// the latest of those times is a start on the left.
double time_to_fall(const Stages& stages, double level) {
  double start = 0.0;
  for (const Stage& stage : stages) start += stage.part;
  if (start <= level) return 0.0;
  if (level <= 0.0) return std::numeric_limits<double>::infinity();
  double t = 0.0;
  for (const Stage& stage : stages)
    if (stage.part > level) t = std::max(t, (std::log(stage.part) - std::log(level)) / stage.rate);
  constexpr int most_steps = 60;  // about five are enough
  for (int i = 0; i < most_steps; ++i) {
    double left = 0.0;
    double falling = 0.0;
    for (const Stage& stage : stages) {
      const double of_stage = stage.part * std::exp(-stage.rate * t);
      left += of_stage;
      falling += of_stage * stage.rate;
    }
    const double step = std::log(left / level) * left / falling;
    if (!(step > t * 1e-14)) break;  // also if it is NaN: level far below any oil
    t += step;
  }
  return t;
}

}  // namespace

Release release_of_half_life(Duration half_life, Fraction fast, Fraction slow_rate) {
  const Rate fast_rate =
      time_to_fall(Stages({fast, 1.0}, {1.0 - fast, slow_rate}), 0.5) / half_life;
  return {fast, fast_rate, fast_rate * slow_rate};
}

ReleaseProgress progress_after(const Release& release, Duration time) {
  return {release.fast_rate * time, release.slow_rate * time};
}

Fraction released(const Release& release, const ReleaseProgress& progress) {
  const auto left_at = [&](double pace) {
    return release.fast * std::exp(-pace * progress.fast) +
           (1.0 - release.fast) * std::exp(-pace * progress.slow);
  };
  double left = 0.0;
  if (release.blend == nullptr)
    left = left_at(1.0);
  else
    for (const BlendPace& plant : *release.blend) left += plant.of_oil * left_at(plant.pace);
  return fraction(std::max(1.0 - left, 0.0));  // rounding can make it negative
}

Fraction released(const Release& release, Duration time) {
  return released(release, progress_after(release, time));
}

Duration time_to_release(const Release& release, Fraction share) {
  if (share <= fraction(0)) return seconds(0);
  return seconds(time_to_fall(Stages(release), 1.0 - share));
}

Release at_flow(const Release& at_reference, const FlowEffect& effect, Rate flow) {
  const double reference = effect.reference / flow;
  const auto factor = [&](double b) { return (1.0 + b) / (1.0 + b * reference); };
  return {at_reference.fast, at_reference.fast_rate * factor(effect.fast),
          at_reference.slow_rate * factor(effect.slow), at_reference.blend};
}

std::optional<CodistillationLimit> codistillation_limit(Pressure ambient,
                                                        const std::vector<OilPart>& parts) {
  const Temperature water_boils = saturation_temperature(ambient);
  std::vector<OilPart> known = parts;
  std::erase_if(known, [&](const OilPart& part) {
    const auto& fit = part.liquid->vapour_pressure;
    return !fit || fit->valid_to < water_boils;
  });
  while (!known.empty()) {
    // The common boiling point must lie where all fits hold. It is at or below that of water.
    Temperature low = celsius(1);
    for (const OilPart& part : known) {
      low = std::max(low, part.liquid->vapour_pressure->valid_from);
    }
    const std::vector<Part> mixture = mole_fractions(known);
    const bool starts_below =
        low < water_boils && saturation_pressure(low) + oil_pressure(mixture, low) <= ambient;
    if (!starts_below) {
      // The mixture boils below the range of the fit that starts highest, so leave that one out.
      const std::size_t left_out = std::erase_if(known, [&](const OilPart& part) {
        return part.liquid->vapour_pressure->valid_from == low;
      });
      if (left_out == 0) return std::nullopt;  // all fits hold at 1 °C, but it boils below that
      continue;
    }
    const Temperature boiling = common_boiling(ambient, mixture, low, water_boils);
    const Pressure water = saturation_pressure(boiling);
    double oil_over_water = 0.0;
    double covered = 0.0;
    for (const Part& part : mixture) {
      oil_over_water += part.mole_fraction * (vapour_pressure(*part.liquid, boiling) / water) *
                        (part.liquid->molar_mass.typical() / water_molar_mass);
    }
    for (const OilPart& part : known) covered += part.mass_share;
    return CodistillationLimit{boiling, fraction(oil_over_water), fraction(covered), known};
  }
  return std::nullopt;
}

std::optional<OilSolubility> oil_solubility(const std::vector<OilPart>& parts) {
  double given = 0.0;
  double dissolved = 0.0;  // kg/m3 times moles; divided by the moles of the oil below
  double covered = 0.0;
  double moles = 0.0;
  for (const OilPart& part : parts) {
    const double n = (kilograms(1) * part.mass_share / part.liquid->molar_mass.typical()).si();
    given += part.mass_share;
    moles += n;
    if (!part.liquid->water_solubility) continue;
    covered += part.mass_share;
    dissolved += n * part.liquid->water_solubility->typical().si();
  }
  if (covered <= 0.0) return std::nullopt;
  const double all_moles = moles / std::min(given, 1.0);
  return OilSolubility{Density::from_si(dissolved / all_moles), fraction(covered)};
}

Mass oil_vaporised(Mass recoverable, const Release& release, std::optional<MassFlow> bound,
                   Duration time) {
  const Mass by_plant = recoverable * released(release, time);
  return bound ? std::min(by_plant, *bound * time) : by_plant;
}

Duration time_to_vaporise(Mass recoverable, const Release& release, std::optional<MassFlow> bound,
                          Fraction share) {
  const Duration by_plant = time_to_release(release, share);
  return bound ? std::max(by_plant, recoverable * share / *bound) : by_plant;
}

Duration held_back_until(Mass recoverable, const Release& release, MassFlow bound) {
  const double per_second = (bound / recoverable).si();  // share that steam can carry
  const Stages stages(release);
  double at_first = 0.0;
  for (const Stage& stage : stages) at_first += stage.part * stage.rate;
  if (at_first <= per_second) return seconds(0);
  // `ahead` is the released share minus the share that steam could have carried. It is concave in
  // t, and negative from the time at which steam could have carried all the oil. Newton's method
  // starts there and never passes the root.
  double t = 1.0 / per_second;
  constexpr int most_steps = 60;
  for (int i = 0; i < most_steps; ++i) {
    double falling = 0.0;
    for (const Stage& stage : stages)
      falling += stage.part * std::exp(-stage.rate * t) * stage.rate;
    const double ahead = released(release, seconds(t)) - per_second * t;
    const double step = ahead / (falling - per_second);
    t -= step;
    if (!(step > t * 1e-13)) break;
  }
  return seconds(std::max(t, 0.0));
}

Duration time_of_gain(Mass recoverable, const Release& release, Duration step, Mass least) {
  Stages in_step(release);
  for (Stage& stage : in_step) stage.part *= -std::expm1(-stage.rate * step.si());
  return seconds(time_to_fall(in_step, least / recoverable));
}

Duration time_of_rate(Mass recoverable, const Release& release, MassFlow rate) {
  Stages falling(release);
  for (Stage& stage : falling) stage.part *= stage.rate;
  return seconds(time_to_fall(falling, (rate / recoverable).si()));
}

std::vector<Fraction> mole_shares(const std::vector<OilPart>& parts) {
  std::vector<Fraction> shares;
  for (const Part& part : mole_fractions(parts)) shares.push_back(fraction(part.mole_fraction));
  return shares;
}

namespace equations {
namespace {

// Joins one term for each part by plus signs.
template <class Term>
std::string sum(const std::vector<OilPart>& parts, Term term) {
  std::string all;
  for (const OilPart& part : parts) {
    const std::string next = term(*part.liquid);
    if (!next.empty()) all += (all.empty() ? "" : " + ") + next;
  }
  return all;
}

std::string moles(const Liquid& liquid) {
  return symbol_of('s', liquid) + " / " + symbol_of('M', liquid);
}

}  // namespace

std::string released_by_blend_text(std::size_t plants) {
  std::string left;
  for (std::size_t i = 1; i <= plants; ++i) {
    left += fmt::format(
        "{0}o_{1} * (f / 100 * exp(-a_{1} * k_1 * t_run) + (1 - f / 100) * exp(-a_{1} * k_2 * "
        "t_run))",
        i == 1 ? "" : " + ", i);
  }
  return "100 - (" + left + ")";
}

std::string symbol_of(char prefix, const Liquid& liquid) {
  std::string symbol = prefix + ("_" + liquid.key);
  std::replace_if(
      symbol.begin(), symbol.end(), [](char c) { return c == '-' || c == '.'; }, '_');
  return symbol;
}

std::string mole_share_text(const OilPart& part, const std::vector<OilPart>& parts) {
  return moles(*part.liquid) + " / (" + sum(parts, moles) + ")";
}

std::string vapour_pressure_text(const Antoine& fit) {
  return fmt::format("exp({} - {} / (T_mix + 273.15 + {}))", fit.a, fit.b.si(), fit.c.si());
}

std::string both_pressures_text(const std::vector<OilPart>& parts) {
  return "p_w + " + sum(parts, [](const Liquid& liquid) {
           return symbol_of('x', liquid) + " * " + symbol_of('p', liquid);
         });
}

std::string oil_per_steam_text(const std::vector<OilPart>& parts) {
  const std::string carried = sum(parts, [](const Liquid& liquid) {
    return symbol_of('x', liquid) + " * " + symbol_of('p', liquid) + " * " + symbol_of('M', liquid);
  });
  return "(" + carried + ") / (p_w * 18.015268)";
}

std::string solubility_covered_text(const std::vector<OilPart>& parts) {
  return sum(parts, [](const Liquid& liquid) {
    return liquid.water_solubility ? symbol_of('s', liquid) : std::string();
  });
}

std::string oil_solubility_text(const std::vector<OilPart>& parts) {
  const std::string dissolved = sum(parts, [](const Liquid& liquid) {
    return liquid.water_solubility ? moles(liquid) + " * " + symbol_of('c', liquid) : std::string();
  });
  const std::string shares =
      sum(parts, [](const Liquid& liquid) { return symbol_of('s', liquid); });
  return "(" + dissolved + ") / ((" + sum(parts, moles) + ") / min((" + shares + ") / 100, 1))";
}

}  // namespace equations
}  // namespace firstdrop
