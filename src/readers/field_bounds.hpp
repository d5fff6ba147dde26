// Bounds of the amounts in files and in objects made in code. A bound that is no law of nature is
// common practice, no source. Such a bound is wide: it catches a wrong factor or unit, not what is
// merely unusual. The least amounts are below what any still takes, or any scale or jug shows.
// Altitudes and pressures are those of the lowest and highest places that people live at (from
// memory).
#pragma once

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/tables/still.hpp"
#include "quantity/bounds.hpp"

namespace firstdrop::bounds {

constexpr VolumeFlow litres_per_minute(double x) {
  return millilitres_per_minute(x * 1e3);
}
constexpr Rate per_hour(double x) {
  return Rate::from_si(x / 3600.0);
}

// --- recipes

inline constexpr auto charge = least_to(Least{grams(1), "1 g"}, 1000, "kg", kilograms);
inline constexpr auto hydrosol = least_to(Least{millilitres(10), "10 mL"}, 1000, "L", litres);
inline constexpr auto water = hydrosol.water();
inline constexpr auto receiver = hydrosol.water();
inline constexpr auto oil_mass = least_to(Least{grams(0.001), "0.001 g"}, 100, "kg", kilograms);
inline constexpr auto oil_volume =
    least_to(Least{millilitres(0.001), "0.001 mL"}, 100, "L", litres);
inline constexpr auto run = least_to(Least{minutes(1), "1 min"}, 168, "h", hours);
inline constexpr auto setting = least_to(Least{percent(1), "1 %"}, 100, "%", percent);
inline constexpr auto room = from_to(1, 50, "°C", celsius)
                                 .because(
                                     "in a colder room water freezes in hoses and on the floor: "
                                     "run the still where it is warmer");
// Hotter water would need no warming. model_parameters() also requires 1 K below boiling.
inline constexpr auto poured = from_to(1, 99, "°C", celsius);
inline constexpr auto coolant = from_to(0, 60, "°C", celsius);
inline constexpr auto altitude = from_to(-430, 5000, "m", metres);
inline constexpr auto pressure = from_to(50, 110, "kPa", kilopascals);
inline constexpr auto absence = from_to(0, 8, "h", hours);
inline constexpr auto bulk_density =
    least_to(Least{grams_per_litre(1), "1 g/L"}, 1500, "g/L", grams_per_litre);
inline constexpr auto oil_content =
    least_below(Least{percent(0.0001), "0.0001 %"}, 50, "%", percent);
inline constexpr auto ratio =
    least_to(Least{litres_per_kilogram(0.1), "0.1 L/kg"}, 100, "L/kg", litres_per_kilogram);
inline constexpr auto oil_share = least_below(Least{percent(1), "1 %"}, 100, "%", percent);
inline constexpr auto blend_share = least_below(Least{percent(0.1), "0.1 %"}, 100, "%", percent);
inline constexpr auto mains = from_to(50, 1000, "V", volts);
inline constexpr auto breaker = from_to(1, 125, "A", amperes);
inline constexpr auto confidence = from_to(1, 99, "%", percent);
inline constexpr auto rate = least_to(Least{millilitres_per_minute(0.1), "0.1 mL/min"}, 10000,
                                      "mL/min", millilitres_per_minute);
inline constexpr auto boil_time = least_to(Least{minutes(1), "1 min"}, 24, "h", hours);

// --- tables, stills and plants

inline constexpr auto any_share = from_to(0, 100, "%", percent);
inline constexpr Bounds<Fraction> all_but_whole{0, 100, "%", percent, false, true};
inline constexpr auto positive_share = up_to(100, "%", percent);
inline constexpr auto part_share = between(0, 100, "%", percent);
// More than 3 % must be plant matter.
inline constexpr Bounds<Fraction> wet{0, 97, "%", percent, false, true};
// For ratios of the order of 1, kg per kg.
inline constexpr auto small_ratio = from_to(0, 2000, "%", percent);
inline constexpr auto oil_by_volume =
    least_below(Least{litres_per_kilogram(1e-6), "0.001 mL/kg"}, 0.6, "L/kg", litres_per_kilogram);
inline constexpr auto of_liquid = from_to(500, 2000, "g/L", grams_per_litre);
inline constexpr auto in_water = from_to(0, 50, "g/L", grams_per_litre);
inline constexpr auto water_per_charge = from_to(0, 100, "L/kg", litres_per_kilogram);
inline constexpr auto chemist_range = from_to(-150, 500, "°C", celsius);
inline constexpr auto half_life = least_to(Least{seconds(1), "1 s"}, 48, "h", hours);
inline constexpr auto recovered = least_to(Least{percent(1), "1 %"}, 100, "%", percent);
inline constexpr auto solid_heat = from_to(0.05, 5, "kJ/(kg K)", kilojoules_per_kilogram_kelvin);
inline constexpr auto surface_loss = up_to(1000, "W/(m2 K)", watts_per_square_metre_kelvin);
inline constexpr auto wall_transfer = up_to(20000, "W/(m2 K)", watts_per_square_metre_kelvin);
inline constexpr auto still_volume = least_to(Least{millilitres(10), "10 mL"}, 2000, "L", litres);
// A scale can find it, by the water that goes in.
inline constexpr auto vessel_volume = still_volume.water();
inline constexpr auto vessel_diameter =
    least_to(Least{millimetres(5), "5 mm"}, 3, "m", metres).one_value(one_value_reason);
inline constexpr auto vessel_mass = least_to(Least{grams(1), "1 g"}, 1000, "kg", kilograms);
inline constexpr auto small_mass = from_to(0, 1000, "kg", kilograms);
inline constexpr auto one_small_mass = small_mass.one_value(one_value_reason);
inline constexpr auto tube_length =
    least_to(Least{millimetres(10), "10 mm"}, 200, "m", metres).one_value(one_value_reason);
inline constexpr auto tube_diameter =
    least_to(Least{millimetres(1), "1 mm"}, 500, "mm", millimetres).one_value(one_value_reason);
inline constexpr auto surface =
    least_to(Least{square_metres(1e-4), "1 cm2"}, 20, "m2", square_metres);
inline constexpr auto heater_power = least_to(Least{watts(10), "10 W"}, 200, "kW", kilowatts);
inline constexpr auto fill_limit = least_below(Least{percent(1), "1 %"}, 100, "%", percent);
inline constexpr auto minimum_water = up_to(2000, "L", litres).water();
inline constexpr auto efficiency = least_to(Least{percent(1), "1 %"}, 100, "%", percent);
inline constexpr auto outlet = between(0, 100, "°C", celsius).one_value(one_value_reason);
inline constexpr auto coolant_limit = between(0, 90, "°C", celsius).one_value(one_value_reason);
inline constexpr auto tap =
    least_to(Least{millilitres_per_minute(1), "1 mL/min"}, 1000, "L/min", litres_per_minute);
inline constexpr auto thickness =
    least_to(Least{millimetres(0.001), "0.001 mm"}, 100, "mm", millimetres);
inline constexpr auto steam_flow =
    least_to(Least{Rate::from_si(0.001 / 3600.0), "0.001 1/h"}, 100, "1/h", per_hour);

}  // namespace firstdrop::bounds
