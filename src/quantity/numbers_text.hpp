// Writes quantities for a person at the bench: rounded to what a kitchen scale, a jug and a clock
// can show, in metric or US units.
//
// Even in US units, anything below an ounce is in g and mL, because fine scales, pipettes and oil
// receivers are marked in them everywhere. Watts, kilowatt-hours and small pressures (Pa) are the
// same in both.
#pragma once

#include <string>

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/units.hpp"

namespace firstdrop {

std::string text(Mass mass, Units units);      ///< "265 g", "1.35 kg"; "9.3 oz", "2.98 lb"
std::string text(Volume volume, Units units);  ///< "850 mL", "1.65 L"; "29 fl oz", "6 qt"
std::string text(Temperature temperature, Units units);  ///< "98.3 °C"; "209 °F"
std::string text(VolumeFlow flow, Units units);          ///< "14 mL/min"; "0.47 fl oz/min"
std::string text(Area area, Units units);                ///< "310 cm²", "0.160 m²"; "48.1 in²"
/// In the unit that `other` has in text(), for two areas in one sentence: "1520 cm²".
std::string text_beside(Area area, Area other, Units units);
std::string text(Pressure pressure, Units units);      ///< "95.5 kPa", "4 Pa"; "28.2 inHg", "4 Pa"
std::string text(Density density, Units units);        ///< "160 g/L"; "5.34 oz/qt"
std::string text(SpecificVolume volume, Units units);  ///< "3.9 L/kg"; "1.9 qt/lb"
std::string text(Length length, Units units);          ///< "1 m"; "3.3 ft"
std::string text(Velocity velocity, Units units);      ///< "6.9 cm/s"; "13.6 ft/min"
// The same in both systems.
std::string text(Duration duration, Units units = {});  ///< "38 min", "1 h 45 min"
std::string text(Power power, Units units = {});        ///< "850 W", "2.4 kW"
std::string text(Fraction share, Units units = {});     ///< "82 %"
std::string text(Energy energy, Units units = {});      ///< "1.4 kWh"

/// Joins two texts of quantities to a range. A unit that both share appears once: "58 to 91 min".
std::string span_text(const std::string& low, const std::string& high);

/// "Did you mean 8 oz? That is one run. ", if the number in the next smaller or larger unit (g and
/// kg, oz and lb) would be 20 to 100 % of `room`, the mass that fits in the still. Empty otherwise.
std::string other_unit(Mass written, Mass room, Units units);

// The nearest mark of a kitchen scale or jug, below or above. text() writes a mark without rounding
// it.
Mass neat_down(Mass mass, Units units);
Mass neat_up(Mass mass, Units units);
Volume neat_down(Volume volume, Units units);
Volume neat_up(Volume volume, Units units);
/// The ice to get ready, rounded up. The steps are no finer than those of a freezer's ice: 0.1 kg,
/// or in US units 2 oz, from 2 lb on 0.1 lb.
Mass ice_up(Mass ice, Units units);
/// The flow to set at a tap, rounded up to 0.1 L/min or 0.05 gal/min. Too much is better than too
/// little.
VolumeFlow tap_up(VolumeFlow flow, Units units);

}  // namespace firstdrop
