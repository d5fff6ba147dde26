// Quantities as a person at the bench reads them: rounded to what a kitchen scale, a jug and a
// clock can do.
#pragma once

#include <string>

#include "firstdrop/quantity.hpp"

namespace firstdrop {

std::string text(Mass mass);                ///< "265 g", "1.35 kg", "0.8 g"
std::string text(Volume volume);            ///< "850 mL", "1.65 L", "0.8 mL"
std::string text(Duration duration);        ///< "38 min", "1 h 20 min"
std::string text(Power power);              ///< "850 W", "2.4 kW"
std::string text(Temperature temperature);  ///< "98.3 °C"
std::string text(VolumeFlow flow);          ///< "14 mL/min"
std::string text(Area area);                ///< "0.031 m²"
std::string text(Pressure pressure);        ///< "95.5 kPa", "4 Pa"
std::string text(Density density);          ///< "160 g/L"
std::string text(Fraction share);           ///< "82 %"
std::string text(Energy energy);            ///< "1.4 kWh"

// The nearest mark of a kitchen scale or jug below or above. text() shows such a mark in full.
Mass neat_down(Mass mass);
Mass neat_up(Mass mass);
Volume neat_down(Volume volume);
Volume neat_up(Volume volume);

}  // namespace firstdrop
