#include "physics/water.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "firstdrop/base/error.hpp"

namespace firstdrop {
namespace {

constexpr double triple_point = 273.16;       // K, SR1-86, equation 10
constexpr double critical_point = 647.096;    // K, SR1-86, section 2
constexpr double critical_pressure = 22.064;  // MPa, SR1-86, section 2
constexpr double critical_density = 322.0;    // kg/m3, SR1-86, section 2

constexpr double ice_point_kelvins = 273.15;       // K, lower end of IF97
constexpr double warmest_liquid = 403.15;          // K, the highest checked by our tests
constexpr double ice_point_pressure = 611.212677;  // Pa, IF97 at 273.15 K; printed 611.213

// Relative tolerance of a range. In binary arithmetic, celsius(0.01) is not exactly the triple
// point.
constexpr double rounding = 1e-10;

bool within(double value, double low, double high) {
  return value >= low * (1.0 - rounding) && value <= high * (1.0 + rounding);
}

void require_temperature(Temperature t, double low, double high, const char* equation) {
  if (within(t.kelvin(), low, high)) return;
  constexpr double zero_celsius = 273.15;
  throw RangeError(
      fmt::format("temperature {:.7g} °C is outside {:.7g} to {:.7g} °C, the range of {}",
                  in_celsius(t), low - zero_celsius, high - zero_celsius, equation));
}

/// An integer power by repeated squaring.
constexpr double power(double base, unsigned exponent) {
  double result = 1.0;
  for (; exponent != 0; exponent >>= 1U, base *= base) {
    if ((exponent & 1U) != 0) result *= base;
  }
  return result;
}

// R7-97, coefficients of equations 30 and 31, for pressures in MPa.
constexpr double n1 = 0.11670521452767e4;
constexpr double n2 = -0.72421316703206e6;
constexpr double n3 = -0.17073846940092e2;
constexpr double n4 = 0.12020824702470e5;
constexpr double n5 = -0.32325550322333e7;
constexpr double n6 = 0.14915108613530e2;
constexpr double n7 = -0.48232657361591e4;
constexpr double n8 = 0.40511340542057e6;
constexpr double n9 = -0.23855557567849;
constexpr double n10 = 0.65017534844798e3;

/// The dimensionless temperatures of the SR1-86 equations: theta = T / T_critical, tau = 1 - theta.
struct Reduced {
  double theta;
  double tau;
};

Reduced reduced(Temperature t) {
  const double theta = t.kelvin() / critical_point;
  return {theta, std::max(0.0, 1.0 - theta)};
}

void require_saturation(Temperature t) {
  require_temperature(t, triple_point, critical_point,
                      "the saturation equations of water, IAPWS SR1-86(1992)");
}

void require_liquid(Temperature t) {
  require_temperature(t, ice_point_kelvins, warmest_liquid,
                      "liquid water below boiling, from IAPWS SR1-86(1992)");
}

/// SR1-86, temperature times the derivative of equation 1, J/m3. Divided by a density, it is the
/// difference between h' or h'' and alpha.
double clapeyron(Reduced r) {
  constexpr double a1 = -7.85951783;
  constexpr double a2 = 1.84408259;
  constexpr double a3 = -11.7866497;
  constexpr double a4 = 22.6807411;
  constexpr double a5 = -15.9618719;
  constexpr double a6 = 1.80122502;
  const double tau = r.tau;
  const double root = std::sqrt(tau);
  const double tau3 = power(tau, 3);
  const double sum = a1 * tau + a2 * tau * root + a3 * tau3 + a4 * tau3 * root + a5 * tau3 * tau +
                     a6 * power(tau, 7) * root;
  const double slope = a1 + 1.5 * a2 * root + 3.0 * a3 * tau * tau + 3.5 * a4 * tau * tau * root +
                       4.0 * a5 * tau3 + 7.5 * a6 * power(tau, 6) * root;
  const double pressure = critical_pressure * 1e6 * std::exp(sum / r.theta);
  return -pressure * (sum / r.theta + slope);
}

/// SR1-86, equation 2, kg/m3.
double liquid_density_at(Reduced r) {
  const double t = std::cbrt(r.tau);
  return critical_density *
         (1.0 + 1.99274064 * t + 1.09965342 * t * t - 0.510839303 * power(t, 5) -
          1.75493479 * power(t, 16) - 45.5170352 * power(t, 43) - 6.74694450e5 * power(t, 110));
}

/// SR1-86, equation 3, kg/m3.
double vapour_density_at(Reduced r) {
  const double s = std::sqrt(std::cbrt(r.tau));
  return critical_density * std::exp(-2.03150240 * power(s, 2) - 2.68302940 * power(s, 4) -
                                     5.38626492 * power(s, 8) - 17.2991605 * power(s, 18) -
                                     44.7586581 * power(s, 37) - 63.9201063 * power(s, 71));
}

/// SR1-86, equation 4, J/kg.
double alpha(Reduced r) {
  const double root = std::sqrt(r.theta);
  return 1e3 * (-1135.905627715 - 5.65134998e-8 / power(r.theta, 19) + 2690.66631 * r.theta +
                127.287297 * power(r.theta, 4) * root - 135.003439 * power(r.theta, 5) +
                0.981825814 * power(r.theta, 54) * root);
}

/// SR1-86, equation 6, J/kg.
double liquid_enthalpy_at(Temperature t) {
  const Reduced r = reduced(t);
  return alpha(r) + clapeyron(r) / liquid_density_at(r);
}

}  // namespace

Temperature saturation_temperature(Pressure pressure) {
  if (!within(pressure.si(), ice_point_pressure, critical_pressure * 1e6)) {
    throw RangeError(fmt::format(
        "pressure {:.7g} kPa is outside {:.6g} to {:.7g} kPa, the range of the boiling point of "
        "water, IAPWS R7-97 (IF97) region 4",
        in_kilopascals(pressure), ice_point_pressure / 1e3, critical_pressure * 1e3));
  }
  const double beta = std::sqrt(std::sqrt(pressure.si() / 1e6));
  const double e = beta * beta + n3 * beta + n6;
  const double f = n1 * beta * beta + n4 * beta + n7;
  const double g = n2 * beta * beta + n5 * beta + n8;
  const double d = 2.0 * g / (-f - std::sqrt(f * f - 4.0 * e * g));
  const double sum = n10 + d;
  return Temperature::from_kelvin((sum - std::sqrt(sum * sum - 4.0 * (n9 + n10 * d))) / 2.0);
}

Pressure saturation_pressure(Temperature temperature) {
  require_temperature(temperature, ice_point_kelvins, critical_point,
                      "the vapour pressure of water, IAPWS R7-97 (IF97) region 4");
  const double t = temperature.kelvin();
  const double vartheta = t + n9 / (t - n10);
  const double a = vartheta * vartheta + n1 * vartheta + n2;
  const double b = n3 * vartheta * vartheta + n4 * vartheta + n5;
  const double c = n6 * vartheta * vartheta + n7 * vartheta + n8;
  return pascals(1e6 * power(2.0 * c / (-b + std::sqrt(b * b - 4.0 * a * c)), 4));
}

SpecificEnergy saturated_liquid_enthalpy(Temperature temperature) {
  require_saturation(temperature);
  return SpecificEnergy::from_si(liquid_enthalpy_at(temperature));
}

SpecificEnergy saturated_vapour_enthalpy(Temperature temperature) {
  require_saturation(temperature);
  const Reduced r = reduced(temperature);
  return SpecificEnergy::from_si(alpha(r) + clapeyron(r) / vapour_density_at(r));
}

SpecificEnergy latent_heat(Temperature temperature) {
  require_saturation(temperature);
  const Reduced r = reduced(temperature);
  return SpecificEnergy::from_si(clapeyron(r) *
                                 (1.0 / vapour_density_at(r) - 1.0 / liquid_density_at(r)));
}

Density saturated_liquid_density(Temperature temperature) {
  require_saturation(temperature);
  return Density::from_si(liquid_density_at(reduced(temperature)));
}

Density saturated_vapour_density(Temperature temperature) {
  require_saturation(temperature);
  return Density::from_si(vapour_density_at(reduced(temperature)));
}

SpecificHeat mean_liquid_specific_heat(Temperature from, Temperature to) {
  require_liquid(from);
  require_liquid(to);
  const Temperature coolest = std::min(from, to);
  const Temperature warmest = std::max(from, to);
  // Differences of enthalpy lose digits over a short interval, so it is widened to this one. The
  // mean changes by less than 1e-8 of itself, because the heat capacity is nearly linear over it.
  constexpr TemperatureDifference shortest = kelvins(0.02);
  const TemperatureDifference lacking = shortest - (warmest - coolest);
  const TemperatureDifference widening = std::max(kelvins(0.0), lacking / 2.0);
  const Temperature low = std::max(coolest - widening, Temperature::from_kelvin(ice_point_kelvins));
  const Temperature high = std::min(warmest + widening, Temperature::from_kelvin(warmest_liquid));
  return SpecificEnergy::from_si(liquid_enthalpy_at(high) - liquid_enthalpy_at(low)) / (high - low);
}

Density liquid_density(Temperature temperature) {
  require_liquid(temperature);
  return Density::from_si(liquid_density_at(reduced(temperature)));
}

Viscosity saturated_vapour_viscosity(Temperature temperature) {
  constexpr double coolest = 323.15;
  constexpr double warmest = 393.15;
  require_temperature(temperature, coolest, warmest,
                      "the viscosity of thin steam, IAPWS R12-08, first factor");
  // R12-08, coefficients of equation 11.
  constexpr double h0 = 1.67752;
  constexpr double h1 = 2.20462;
  constexpr double h2 = 0.6366564;
  constexpr double h3 = -0.241605;
  const double t = temperature.kelvin() / critical_point;
  const double micropascal_seconds =
      100.0 * std::sqrt(t) / (h0 + h1 / t + h2 / (t * t) + h3 / (t * t * t));
  return pascal_seconds(micropascal_seconds * 1e-6);
}

Pressure standard_pressure(Length altitude) {
  constexpr double lowest = -2000.0;
  constexpr double highest = 11000.0;
  const double h = in_metres(altitude);
  if (!(h >= lowest && h <= highest)) {
    throw RangeError(fmt::format(
        "altitude {:.7g} m is outside {:g} to {:g} m, the range of the standard atmosphere "
        "(ISO 2533, troposphere)",
        h, lowest, highest));
  }
  constexpr double sea_level_pressure = 101325.0;   // Pa
  constexpr double sea_level_temperature = 288.15;  // K
  constexpr double lapse = 0.0065;                  // K per m of geopotential altitude
  constexpr double gravity = 9.80665;               // m/s2
  constexpr double gas_constant = 287.05287;        // J/(kg K)
  return pascals(sea_level_pressure * std::pow(1.0 - lapse * h / sea_level_temperature,
                                               gravity / (gas_constant * lapse)));
}

}  // namespace firstdrop
