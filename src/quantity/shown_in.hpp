/// @file
/// The units in which explanations and outputs show figures, each with its symbol and conversion.
#pragma once

#include <string_view>

#include "firstdrop/quantity/quantity.hpp"

namespace firstdrop {

/// A unit for figures of one kind.
template <class T>
struct ShownUnit {
  std::string_view symbol;        ///< as people write it; empty for a pure number
  double (*number)(T) = nullptr;  ///< a figure's value in this unit
};

namespace shown_in {

/// A number without a unit, or with one that no strong type stands for.
constexpr ShownUnit<double> plain(std::string_view symbol) {
  return {symbol, [](double number) { return number; }};
}
/// A share as a ratio, with the units that it is a ratio of.
constexpr ShownUnit<Fraction> ratio(std::string_view symbol) {
  return {symbol, [](Fraction share) { return share.si(); }};
}

inline constexpr ShownUnit<Fraction> percent{"%", in_percent};
inline constexpr ShownUnit<Mass> grams{"g", in_grams};
inline constexpr ShownUnit<Mass> kilograms{"kg", in_kilograms};
inline constexpr ShownUnit<Length> metres{"m", in_metres};
inline constexpr ShownUnit<Length> millimetres{"mm", in_millimetres};
inline constexpr ShownUnit<Area> square_metres{"m2", in_square_metres};
inline constexpr ShownUnit<Volume> millilitres{"mL", in_millilitres};
inline constexpr ShownUnit<Volume> litres{"L", in_litres};
inline constexpr ShownUnit<Duration> minutes{"min", in_minutes};
inline constexpr ShownUnit<Duration> hours{"h", in_hours};
inline constexpr ShownUnit<Rate> per_minute{"1/min", in_per_minute};
inline constexpr ShownUnit<Rate> per_hour{"kg/(h kg)", in_per_hour};
inline constexpr ShownUnit<Velocity> centimetres_per_second{"cm/s", in_centimetres_per_second};
inline constexpr ShownUnit<MassFlow> grams_per_minute{"g/min", in_grams_per_minute};
inline constexpr ShownUnit<VolumeFlow> millilitres_per_minute{"mL/min", in_millilitres_per_minute};
inline constexpr ShownUnit<VolumeFlow> litres_per_minute{"L/min", in_litres_per_minute};
inline constexpr ShownUnit<Power> watts{"W", in_watts};
inline constexpr ShownUnit<Energy> kilojoules{"kJ", in_kilojoules};
inline constexpr ShownUnit<Energy> kilowatt_hours{"kWh", in_kilowatt_hours};
inline constexpr ShownUnit<Pressure> pascals{"Pa", in_pascals};
inline constexpr ShownUnit<Pressure> kilopascals{"kPa", in_kilopascals};
inline constexpr ShownUnit<Density> grams_per_litre{"g/L", in_grams_per_litre};
inline constexpr ShownUnit<Density> grams_per_millilitre{"g/mL", in_grams_per_millilitre};
inline constexpr ShownUnit<Density> milligrams_per_litre{"mg/L", in_milligrams_per_litre};
inline constexpr ShownUnit<Density> kilograms_per_cubic_metre{"kg/m3", in_grams_per_litre};
inline constexpr ShownUnit<SpecificVolume> litres_per_kilogram{"L/kg", in_litres_per_kilogram};
inline constexpr ShownUnit<SpecificVolume> millilitres_per_100_grams{
    "mL/100 g", [](SpecificVolume v) { return in_litres_per_kilogram(v) * 100.0; }};
inline constexpr ShownUnit<TemperatureDifference> kelvins{"K", in_kelvins};
inline constexpr ShownUnit<Temperature> celsius{"°C", in_celsius};
inline constexpr ShownUnit<SpecificEnergy> kilojoules_per_kilogram{"kJ/kg",
                                                                   in_kilojoules_per_kilogram};
inline constexpr ShownUnit<SpecificHeat> kilojoules_per_kilogram_kelvin{
    "kJ/(kg K)", in_kilojoules_per_kilogram_kelvin};
inline constexpr ShownUnit<HeatTransfer> watts_per_square_metre_kelvin{
    "W/(m2 K)", in_watts_per_square_metre_kelvin};
inline constexpr ShownUnit<Conductance> watts_per_kelvin{"W/K", in_watts_per_kelvin};
inline constexpr ShownUnit<HeatCapacity> kilojoules_per_kelvin{"kJ/K", in_kilojoules_per_kelvin};
inline constexpr ShownUnit<MolarMass> grams_per_mole{"g/mol", in_grams_per_mole};
inline constexpr ShownUnit<Viscosity> pascal_seconds{"Pa s", [](Viscosity v) { return v.si(); }};

}  // namespace shown_in
}  // namespace firstdrop
