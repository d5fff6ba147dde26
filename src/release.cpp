#include "firstdrop/release.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "firstdrop/water.hpp"
#include "turning_point.hpp"

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

// The temperature where water and oil together reach `ambient`: the sum rises strictly. Only called
// with fits that hold over [low, high].
Temperature common_boiling(Pressure ambient, const std::vector<Part>& parts, Temperature low,
                           Temperature high) {
  const auto lacking = [&](Temperature t) {
    return (ambient - saturation_pressure(t) - oil_pressure(parts, t)).si();
  };
  return turning_point(low, high, lacking).last_yes;
}

}  // namespace

Rate rate_of_half_time(Duration half_time) {
  return std::numbers::ln2 / half_time;
}

Fraction released(const Release& release, Duration time) {
  return fraction(1.0 - (1.0 - release.washed) * std::exp(-(release.rate * time)));
}

Duration time_to_release(const Release& release, Fraction share) {
  if (share <= release.washed) return seconds(0);
  return std::log((1.0 - release.washed) / (1.0 - share)) / release.rate;
}

std::optional<SteamBound> steam_bound(Pressure ambient, const std::vector<OilPart>& parts) {
  const Temperature water_boils = saturation_temperature(ambient);
  std::vector<OilPart> known = parts;
  std::erase_if(known, [&](const OilPart& part) {
    const auto& fit = part.liquid->vapour_pressure;
    return !fit || fit->valid_to < water_boils;
  });
  while (!known.empty()) {
    // The common boiling point lies where all fits hold, at or below that of water.
    Temperature low = celsius(1);
    for (const OilPart& part : known) {
      low = std::max(low, part.liquid->vapour_pressure->valid_from);
    }
    const std::vector<Part> mixture = mole_fractions(known);
    const bool starts_below =
        low < water_boils && saturation_pressure(low) + oil_pressure(mixture, low) <= ambient;
    if (!starts_below) {
      // The mixture boils below the fit that starts latest: leave that one out.
      const std::size_t left_out = std::erase_if(known, [&](const OilPart& part) {
        return part.liquid->vapour_pressure->valid_from == low;
      });
      if (left_out == 0) return std::nullopt;  // all fits hold at 1 °C, and it boils below
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
    return SteamBound{boiling, fraction(oil_over_water), fraction(covered), known};
  }
  return std::nullopt;
}

std::optional<OilSolubility> oil_solubility(const std::vector<OilPart>& parts) {
  double given = 0.0;
  double dissolved = 0.0;  // kg/m3, before the mole shares are scaled to the whole oil
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

Mass oil_dissolved(Mass vaporised, Density solubility, Volume hydrosol) {
  return std::min(vaporised, solubility * hydrosol);
}

}  // namespace firstdrop
