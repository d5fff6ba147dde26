// Conversion factors of non-SI units.
#pragma once

namespace firstdrop {

// Each factor was compared with GNU units 2.22 (its definitions.units). Where an SP 811 value is
// given, the factor was also compared with NIST Special Publication 811 (2008), appendix B.8, as
// transcribed by others; the publication itself was not seen.
inline constexpr double kilogram_per_pound = 0.45359237;  // avoirdupois; SP 811: 4.535 924 E-01
inline constexpr double kilogram_per_ounce = kilogram_per_pound / 16.0;  // SP 811: 2.834 952 E-02
inline constexpr double metre_per_inch = 0.0254;
inline constexpr double metre_per_foot = 0.3048;
// US liquid measure: a gallon is 231 cubic inches. Not the imperial units of the same names.
inline constexpr double millilitre_per_gallon = 3785.411784;
inline constexpr double millilitre_per_quart = millilitre_per_gallon / 4.0;
inline constexpr double millilitre_per_pint =
    millilitre_per_gallon / 8.0;  // SP 811: 4.731 765 E+02
inline constexpr double millilitre_per_cup =
    millilitre_per_gallon / 16.0;  // SP 811: 2.365 882 E+02
inline constexpr double millilitre_per_fluid_ounce =
    millilitre_per_gallon / 128.0;  // SP 811: 2.957 353 E+01
inline constexpr double millilitre_per_tablespoon =
    millilitre_per_fluid_ounce / 2.0;  // SP 811: 1.478 676 E+01
inline constexpr double millilitre_per_teaspoon =
    millilitre_per_fluid_ounce / 6.0;  // SP 811: 4.928 922 E+00
// Conventional mercury column: 13 595.1 kg/m3 and 9.806 65 m/s2, both exact by convention. SP 811
// lists three inches of mercury: the conventional one (3.386 389 E+03 Pa), one at 32 degF
// (3.386 38 E+03 Pa) and one at 60 degF (3.376 85 E+03 Pa, 0.28 % less). This is the conventional
// one.
inline constexpr double pascal_per_mmhg = 133.322387415;   // SP 811: 1.333 224 E+02
inline constexpr double pascal_per_inhg = 3386.388640341;  // 25.4 mmHg

// Density of water at 20 °C, for volumes measured with water and a scale. From memory; the steam
// tables in tests/reference agree to the digits given.
inline constexpr double kilogram_per_cubic_metre_of_water = 998.2;

}  // namespace firstdrop
