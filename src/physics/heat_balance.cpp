#include "physics/heat_balance.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace firstdrop {

Power heat_into_pot(Power rated, Fraction setting, Fraction efficiency) {
  return rated * setting * efficiency;
}

Length cylinder_height(Volume volume, Length diameter) {
  return volume / circle_area(diameter);
}

Area cylinder_side(Volume volume, Length diameter) {
  return std::numbers::pi * diameter * cylinder_height(volume, diameter);
}

Conductance pot_loss(HeatTransfer film, Volume volume, Length diameter, Area covered) {
  const Area top = std::max(circle_area(diameter) - covered, square_metres(0));
  return film * (cylinder_side(volume, diameter) + top);
}

Conductance column_loss(HeatTransfer column_film, Volume volume, Length diameter,
                        HeatTransfer head_film, Area head_surface) {
  return column_film * cylinder_side(volume, diameter) + head_film * head_surface;
}

MassFlow steam_made(Power heat, Power loss, SpecificEnergy latent_heat) {
  return std::max(heat - loss, watts(0)) / latent_heat;
}

namespace {

// (1 - exp(-y)) / y, which is 1 at y = 0.
double decay_mean(double y) {
  return std::abs(y) < 1e-12 ? 1.0 - y / 2.0 : -std::expm1(-y) / y;
}

// -ln(1 - x) / x, which is 1 at x = 0.
double growth_mean(double x) {
  return std::abs(x) < 1e-12 ? 1.0 + x / 2.0 : -std::log1p(-x) / x;
}

Power net_heat(const HeatedBody& body, Temperature at) {
  return body.heat - body.loss * (at - body.surroundings);
}

}  // namespace

std::optional<Duration> time_to_reach(const HeatedBody& body, Temperature from, Temperature to) {
  const TemperatureDifference rise = to - from;
  if (rise == kelvins(0)) return seconds(0);
  const Power net = net_heat(body, from);
  if (net.si() * rise.si() <= 0.0) return std::nullopt;  // constant, or moves away
  const double x = body.loss * rise / net;
  if (x >= 1.0) return std::nullopt;  // levels off before or at `to`
  return body.capacity * rise / net * growth_mean(x);
}

Temperature temperature_after(const HeatedBody& body, Temperature from, Duration after) {
  const double y = body.loss * after / body.capacity;
  return from + net_heat(body, from) * after / body.capacity * decay_mean(y);
}

Energy heat_lost(const HeatedBody& body, Temperature from, Duration after) {
  const double y = body.loss * after / body.capacity;
  return body.heat * after - net_heat(body, from) * after * decay_mean(y);
}

Power heat_for_time(const HeatedBody& body, Temperature from, Temperature to, Duration time) {
  const double y = body.loss * time / body.capacity;
  const Power net = body.capacity * (to - from) / time / decay_mean(y);
  return net + body.loss * (from - body.surroundings);
}

}  // namespace firstdrop
