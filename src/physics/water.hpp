/// @file
/// Water, steam and the air pressure that sets the boiling point.
///
/// Every function is pure, takes and returns SI strong types, and throws RangeError outside its
/// stated range. None extrapolates, except over the 0.01 K from the ice point to the triple point
/// where noted. The releases are those of the International Association for the Properties of
/// Water and Steam, https://iapws.org :
///
/// - R7-97: Industrial Formulation 1997 (IF97), region 4: the saturation line
/// - SR1-86: SR1-86(1992), Saturation Properties of Ordinary Water Substance; Wagner and Pruss,
///   J. Phys. Chem. Ref. Data 22 (1993) 783-787
/// - R12-08: Formulation 2008 for the Viscosity of Ordinary Water Substance
/// - R10-06: Equation of State 2006 for H2O Ice Ih
/// - IAPWS-95: R6-95, the scientific formulation
///
/// Their constants were read in the source of Debian's python3-iapws and, for SR1-86, also in a
/// copy of the article. The release documents themselves were not read.
///
/// "Error" below is the largest difference from the named formulation.
/// tests/reference/water_reference_test.cpp finds and asserts it. It does not include the
/// uncertainty of the measurements behind that formulation.
#pragma once

#include "firstdrop/quantity/quantity.hpp"
#include "quantity/equation.hpp"

namespace firstdrop {

namespace cited {
inline constexpr EquationSource if97{"iapws-r7-97", "boiling point and vapour pressure of water"};
inline constexpr EquationSource sr1{"iapws-sr1-86",
                                    "latent heat, heat capacity and density of water and steam"};
inline constexpr EquationSource steam_viscosity{"iapws-r12-08", "viscosity of steam"};
inline constexpr EquationSource ice{"iapws-r10-06", "heat that melts ice"};
inline constexpr EquationSource atmosphere{"iso-2533", "air pressure by altitude"};
}  // namespace cited

/// Boiling temperature of water at a pressure.
/// Range 611.213 Pa to 22.064 MPa. Error 0.003 K from IAPWS-95 between 1 and 130 °C.
/// Source: R7-97, equation 31 (backward equation).
Temperature saturation_temperature(Pressure pressure);
namespace equations {
inline constexpr PropertyFunction saturation_temperature{
    "saturation_temperature", "boiling point of water in °C at a pressure in kPa", cited::if97};
inline constexpr Equation<Temperature> boiling{"T_boil", "boiling point of water",
                                               shown_in::celsius, "saturation_temperature(p)",
                                               cited::if97};
}  // namespace equations

/// Vapour pressure of water at a temperature; the exact inverse of saturation_temperature.
/// Range 273.15 to 647.096 K. Error 0.008 % from IAPWS-95 between 1 and 130 °C.
/// Source: R7-97, equation 30 (basic equation).
Pressure saturation_pressure(Temperature temperature);
namespace equations {
inline constexpr PropertyFunction saturation_pressure{
    "saturation_pressure", "vapour pressure of water in Pa at °C", cited::if97};
}  // namespace equations

/// Enthalpy of boiling water; zero point as in the steam tables (liquid at the triple point).
/// Range 273.16 to 647.096 K. Error 0.07 kJ/kg from IF97 between 1 and 130 °C.
/// Source: SR1-86, equations 1, 2, 4 and 6.
SpecificEnergy saturated_liquid_enthalpy(Temperature temperature);

/// Enthalpy of dry saturated steam; zero point as above.
/// Range 273.16 to 647.096 K. Error 0.3 kJ/kg from IF97 between 1 and 130 °C.
/// Source: SR1-86, equations 1, 3, 4 and 7.
SpecificEnergy saturated_vapour_enthalpy(Temperature temperature);

/// Heat that turns boiling water into steam at the same temperature; zero at the critical point.
/// Range 273.16 to 647.096 K. Error 0.012 % from IF97 between 1 and 130 °C.
/// Source: SR1-86, difference of equations 7 and 6.
SpecificEnergy latent_heat(Temperature temperature);
namespace equations {
inline constexpr PropertyFunction latent_heat{"latent_heat", "latent heat of water in kJ/kg at °C",
                                              cited::sr1};
inline constexpr Equation<SpecificEnergy> heat_of_boiling{
    "h_fg", "latent heat", shown_in::kilojoules_per_kilogram, "latent_heat(T_boil)", cited::sr1};
}  // namespace equations

/// Density of boiling water.
/// Range 273.16 to 647.096 K. Error 0.003 % from IF97 between 1 and 130 °C.
/// Source: SR1-86, equation 2.
Density saturated_liquid_density(Temperature temperature);

/// Density of dry saturated steam.
/// Range 273.16 to 647.096 K. Error 0.014 % from IF97 between 1 and 130 °C.
/// Source: SR1-86, equation 3.
Density saturated_vapour_density(Temperature temperature);
namespace equations {
inline constexpr PropertyFunction steam_density{
    "steam_density", "density of saturated steam in kg/m3 at °C", cited::sr1};
inline constexpr Equation<Density> density_of_steam{"rho_s", "density of steam",
                                                    shown_in::kilograms_per_cubic_metre,
                                                    "steam_density(T_boil)", cited::sr1};
}  // namespace equations

/// Mean heat capacity of liquid water between two temperatures, in either order. For equal
/// temperatures it is the limit, the heat capacity at that temperature. It is the enthalpy
/// difference of SR1-86 divided by the temperature difference, so m * c * (to - from) agrees with
/// saturated_liquid_enthalpy().
/// Range 273.15 to 403.15 K. SR1-86 starts 0.01 K above the lower end, but its equation is smooth
/// there.
/// Error 0.08 % from compressed water at 101.325 kPa (IF97, 0 to 99 °C), at a point and over any
/// interval. A constant 4.18 kJ/(kg K) would be off by up to 0.9 %.
/// Source: SR1-86, equations 1, 2, 4 and 6.
SpecificHeat mean_liquid_specific_heat(Temperature from, Temperature to);
namespace equations {
inline constexpr PropertyFunction mean_specific_heat{
    "mean_specific_heat", "mean heat capacity of water in kJ/(kg K) between two temperatures in °C",
    cited::sr1};
inline constexpr Equation<SpecificHeat> water_heat{
    "c_w", "mean heat capacity of water from room temperature to boiling",
    shown_in::kilojoules_per_kilogram_kelvin, "mean_specific_heat(T_room, T_boil)", cited::sr1};
}  // namespace equations

/// Density of liquid water below boiling, taken as that of boiling water at the same temperature.
/// Range 273.15 to 403.15 K (see above). Error 0.006 % from compressed water at 101.325 kPa (IF97,
/// 0 to 99 °C), always too low. A constant 1 kg/L would be off by 4 % at 100 °C.
/// Source: SR1-86, equation 2.
Density liquid_density(Temperature temperature);
namespace equations {
inline constexpr PropertyFunction water_density{"water_density", "density of water in g/mL at °C",
                                                cited::sr1};
inline constexpr Equation<Density> density_at_room{"rho_w", "density of water at room temperature",
                                                   shown_in::grams_per_millilitre,
                                                   "water_density(T_room)", cited::sr1};
inline constexpr Equation<Density> density_as_poured{"rho_pour", "density of that water",
                                                     shown_in::grams_per_millilitre,
                                                     "water_density(T_pour)", cited::sr1};
}  // namespace equations

/// Viscosity of saturated steam, taken as that of steam in the limit of zero density.
/// Range 323.15 to 393.15 K. Error 0.9 % up to 100 °C, 1.3 % at 120 °C, from the full formulation
/// at the density of saturation; always too high.
/// Source: R12-08, equation 11.
Viscosity saturated_vapour_viscosity(Temperature temperature);
namespace equations {
inline constexpr PropertyFunction steam_viscosity{
    "steam_viscosity", "viscosity of saturated steam in Pa s at °C", cited::steam_viscosity};
inline constexpr Equation<Viscosity> viscosity_of_steam{
    "mu_s", "viscosity of steam", shown_in::pascal_seconds, "steam_viscosity(T_boil)",
    cited::steam_viscosity};
}  // namespace equations

/// Air pressure of the standard atmosphere (troposphere).
/// Range -2000 to 11000 m of geopotential altitude. A height on a map is geometric. Taking it as
/// geopotential gives 13 Pa too little at 3000 m, or 0.005 K of boiling point. The weather changes
/// the real pressure by a few per cent (from memory), which is far more.
/// Source: ISO 2533:1975, with its constants and range as given by the library
/// ralph-schleicher/iso-2533 on GitHub; the standard itself was not read.
Pressure standard_pressure(Length altitude);
namespace equations {
inline constexpr Equation<Pressure> ambient{
    "p", "ambient pressure", shown_in::kilopascals,
    "101.325 * (1 - 0.0065 * h / 288.15) ^ (9.80665 / (287.05287 * 0.0065))", cited::atmosphere};
}  // namespace equations

/// Heat that melts ice at 101.325 kPa (273.1525 K).
/// Source: R10-06 for the ice (-333.35487 kJ/kg) and IAPWS-95 for the water (0.07164 kJ/kg),
/// both in tests/reference/ice_melting.csv. The customary 333.55 kJ/kg is 0.04 % more.
inline constexpr SpecificEnergy ice_melting_heat = kilojoules_per_kilogram(333.427);

}  // namespace firstdrop
