/// @file
/// Strong types for physical quantities.
///
/// Every quantity is one double in coherent SI units, with its dimension in the type. So a volume
/// can't be passed as a mass, and a product of quantities has the product's dimension. Temperature
/// is a point on the kelvin scale; the difference of two is a TemperatureDifference.
///
/// Values go in through named makers, grams(260), and come out through their inverses, in_grams(m).
/// from_si() and si() are for physics formulas and tests only.
#pragma once

#include <compare>
#include <iosfwd>
#include <numbers>

/// Planning of small-scale steam distillation.
namespace firstdrop {

/// Exponents of kilogram, metre, second, kelvin, mole and ampere.
struct Dimensions {
  int kg = 0;   ///< of mass
  int m = 0;    ///< of length
  int s = 0;    ///< of time
  int k = 0;    ///< of temperature
  int mol = 0;  ///< of amount of substance
  int a = 0;    ///< of electric current
  /// Whether all exponents are the same.
  bool operator==(const Dimensions& other) const = default;
};
/// Writes a value, given in coherent SI units, with six digits in the unit usual for its
/// dimensions: "260 g", "5 %", "98.2 mL/min". Dimensions without a usual unit here get base units:
/// "1 kg m-2".
std::ostream& write_quantity(std::ostream& out, double si, const Dimensions& dimensions);

/// A quantity with integer exponents of kilogram, metre, second, kelvin, mole and ampere.
///
/// It takes any number, including negative numbers, infinity and NaN. Arithmetic and comparisons
/// are those of double. Each function states which values it takes.
template <int Kg, int M, int S, int K = 0, int Mol = 0, int A = 0>
class Quantity {
 public:
  /// Whether it is a pure number.
  static constexpr bool dimensionless = Kg == 0 && M == 0 && S == 0 && K == 0 && Mol == 0 && A == 0;

  /// Zero.
  constexpr Quantity() = default;
  /// A quantity from its value in coherent SI units.
  static constexpr Quantity from_si(double value) { return Quantity(value); }
  /// The value in coherent SI units.
  constexpr double si() const { return value_; }

  /// Implicit conversion to double, for pure numbers only.
  constexpr operator double() const  // NOLINT(google-explicit-constructor)
      requires(dimensionless) {
    return value_;
  }

  /// @{
  /// Sums, differences, multiples and order of quantities with the same dimension.
  constexpr Quantity operator-() const { return Quantity(-value_); }
  constexpr Quantity& operator+=(Quantity other) {
    value_ += other.value_;
    return *this;
  }
  constexpr Quantity& operator-=(Quantity other) {
    value_ -= other.value_;
    return *this;
  }
  friend constexpr Quantity operator+(Quantity a, Quantity b) {
    return Quantity(a.value_ + b.value_);
  }
  friend constexpr Quantity operator-(Quantity a, Quantity b) {
    return Quantity(a.value_ - b.value_);
  }
  friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(a.value_ * k); }
  friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(k * a.value_); }
  friend constexpr Quantity operator/(Quantity a, double k) { return Quantity(a.value_ / k); }
  friend constexpr bool operator==(Quantity a, Quantity b) = default;
  friend constexpr auto operator<=>(Quantity a, Quantity b) { return a.value_ <=> b.value_; }
  /// @}

  /// Writes the quantity with its unit, for logs and tests; see write_quantity().
  friend std::ostream& operator<<(std::ostream& out, Quantity q) {
    return write_quantity(out, q.value_, {Kg, M, S, K, Mol, A});
  }

 private:
  explicit constexpr Quantity(double value) : value_(value) {}
  double value_ = 0.0;
};

/// @{
/// A product or quotient of quantities has the product or quotient of their dimensions. Division by
/// zero gives infinity or NaN, as with double.
template <int Kg1, int M1, int S1, int K1, int N1, int A1, int Kg2, int M2, int S2, int K2, int N2,
          int A2>
constexpr auto operator*(Quantity<Kg1, M1, S1, K1, N1, A1> a, Quantity<Kg2, M2, S2, K2, N2, A2> b) {
  return Quantity<Kg1 + Kg2, M1 + M2, S1 + S2, K1 + K2, N1 + N2, A1 + A2>::from_si(a.si() * b.si());
}
template <int Kg1, int M1, int S1, int K1, int N1, int A1, int Kg2, int M2, int S2, int K2, int N2,
          int A2>
constexpr auto operator/(Quantity<Kg1, M1, S1, K1, N1, A1> a, Quantity<Kg2, M2, S2, K2, N2, A2> b) {
  return Quantity<Kg1 - Kg2, M1 - M2, S1 - S2, K1 - K2, N1 - N2, A1 - A2>::from_si(a.si() / b.si());
}
template <int Kg, int M, int S, int K, int N, int A>
constexpr auto operator/(double a, Quantity<Kg, M, S, K, N, A> b) {
  return Quantity<-Kg, -M, -S, -K, -N, -A>::from_si(a / b.si());
}
/// @}

using Fraction = Quantity<0, 0, 0>;                  ///< a share, or kg per kg
using Mass = Quantity<1, 0, 0>;                      ///< kg
using Length = Quantity<0, 1, 0>;                    ///< m
using Area = Quantity<0, 2, 0>;                      ///< m2
using Volume = Quantity<0, 3, 0>;                    ///< m3
using Duration = Quantity<0, 0, 1>;                  ///< s
using Rate = Quantity<0, 0, -1>;                     ///< 1/s
using Acceleration = Quantity<0, 1, -2>;             ///< m/s2
using Velocity = Quantity<0, 1, -1>;                 ///< m/s
using MassFlow = Quantity<1, 0, -1>;                 ///< kg/s
using VolumeFlow = Quantity<0, 3, -1>;               ///< m3/s
using Energy = Quantity<1, 2, -2>;                   ///< J
using Power = Quantity<1, 2, -3>;                    ///< W
using Pressure = Quantity<1, -1, -2>;                ///< Pa
using Density = Quantity<1, -3, 0>;                  ///< kg/m3, also mass concentration
using SpecificVolume = Quantity<-1, 3, 0>;           ///< m3/kg
using Viscosity = Quantity<1, -1, -1>;               ///< Pa s
using TemperatureDifference = Quantity<0, 0, 0, 1>;  ///< K
using SpecificEnergy = Quantity<0, 2, -2>;           ///< J/kg
using SpecificHeat = Quantity<0, 2, -2, -1>;         ///< J/(kg K)
using HeatCapacity = Quantity<1, 2, -2, -1>;         ///< J/K
using Conductance = Quantity<1, 2, -3, -1>;          ///< W/K (a "UA")
using HeatTransfer = Quantity<1, 0, -3, -1>;         ///< W/(m2 K) (a "U" or film coefficient)
using MolarMass = Quantity<1, 0, 0, 0, -1>;          ///< kg/mol
using Current = Quantity<0, 0, 0, 0, 0, 1>;          ///< A
using Voltage = Quantity<1, 2, -3, 0, 0, -1>;        ///< V

/// A point on the thermodynamic temperature scale, not a difference. Two points can be subtracted
/// but not added. It takes any number, even below absolute zero.
class Temperature {
 public:
  /// 0 °C.
  constexpr Temperature() = default;
  /// A point from its value in kelvin.
  static constexpr Temperature from_kelvin(double k) { return Temperature(k); }
  /// The value in kelvin.
  constexpr double kelvin() const { return kelvin_; }

  /// @{
  /// Arithmetic of points and differences, and the order of points.
  friend constexpr TemperatureDifference operator-(Temperature a, Temperature b) {
    return TemperatureDifference::from_si(a.kelvin_ - b.kelvin_);
  }
  friend constexpr Temperature operator+(Temperature t, TemperatureDifference d) {
    return Temperature(t.kelvin_ + d.si());
  }
  friend constexpr Temperature operator-(Temperature t, TemperatureDifference d) {
    return Temperature(t.kelvin_ - d.si());
  }
  friend constexpr bool operator==(Temperature a, Temperature b) = default;
  friend constexpr auto operator<=>(Temperature a, Temperature b) {
    return a.kelvin_ <=> b.kelvin_;
  }
  /// @}

  /// Writes it in degrees Celsius with six digits, for logs and tests: "98.2 °C".
  friend std::ostream& operator<<(std::ostream& out, Temperature t);

 private:
  explicit constexpr Temperature(double k) : kelvin_(k) {}
  double kelvin_ = 273.15;
};

// clang-format off
/// @{
/// grams(260) makes a quantity from its value in the unit of the name, and in_grams(m) gives the
/// value back. Any number is accepted. Other units, such as US ones, can only be given as text; see
/// parse_quantity().
constexpr Fraction fraction(double x) { return Fraction::from_si(x); }
constexpr Fraction percent(double x) { return Fraction::from_si(x / 100.0); }
constexpr double in_percent(Fraction f) { return f.si() * 100.0; }

constexpr Mass kilograms(double x) { return Mass::from_si(x); }
constexpr Mass grams(double x) { return Mass::from_si(x / 1e3); }
constexpr double in_kilograms(Mass m) { return m.si(); }
constexpr double in_grams(Mass m) { return m.si() * 1e3; }

constexpr Length metres(double x) { return Length::from_si(x); }
constexpr Length millimetres(double x) { return Length::from_si(x / 1e3); }
constexpr double in_metres(Length l) { return l.si(); }
constexpr double in_millimetres(Length l) { return l.si() * 1e3; }
constexpr Area square_metres(double x) { return Area::from_si(x); }
constexpr double in_square_metres(Area a) { return a.si(); }

constexpr Volume cubic_metres(double x) { return Volume::from_si(x); }
constexpr Volume litres(double x) { return Volume::from_si(x / 1e3); }
constexpr Volume millilitres(double x) { return Volume::from_si(x / 1e6); }
constexpr double in_litres(Volume v) { return v.si() * 1e3; }
constexpr double in_millilitres(Volume v) { return v.si() * 1e6; }

constexpr Duration seconds(double x) { return Duration::from_si(x); }
constexpr Duration minutes(double x) { return Duration::from_si(x * 60.0); }
constexpr Duration hours(double x) { return Duration::from_si(x * 3600.0); }
constexpr double in_seconds(Duration t) { return t.si(); }
constexpr double in_minutes(Duration t) { return t.si() / 60.0; }
constexpr double in_hours(Duration t) { return t.si() / 3600.0; }
constexpr Rate per_minute(double x) { return Rate::from_si(x / 60.0); }
constexpr double in_per_minute(Rate r) { return r.si() * 60.0; }
constexpr double in_per_hour(Rate r) { return r.si() * 3600.0; }

constexpr Acceleration metres_per_second_squared(double x) { return Acceleration::from_si(x); }
constexpr Velocity metres_per_second(double x) { return Velocity::from_si(x); }
constexpr double in_centimetres_per_second(Velocity v) { return v.si() * 100.0; }
constexpr MassFlow kilograms_per_hour(double x) { return MassFlow::from_si(x / 3600.0); }
constexpr double in_kilograms_per_hour(MassFlow f) { return f.si() * 3600.0; }
constexpr double in_grams_per_minute(MassFlow f) { return f.si() * 60e3; }
constexpr VolumeFlow millilitres_per_minute(double x) { return VolumeFlow::from_si(x / 60e6); }
constexpr double in_millilitres_per_minute(VolumeFlow f) { return f.si() * 60e6; }
constexpr double in_litres_per_minute(VolumeFlow f) { return f.si() * 60e3; }

constexpr Power watts(double x) { return Power::from_si(x); }
constexpr Power kilowatts(double x) { return Power::from_si(x * 1e3); }
constexpr double in_watts(Power p) { return p.si(); }
constexpr Energy joules(double x) { return Energy::from_si(x); }
constexpr Energy kilojoules(double x) { return Energy::from_si(x * 1e3); }
constexpr double in_kilojoules(Energy e) { return e.si() / 1e3; }
constexpr double in_kilowatt_hours(Energy e) { return e.si() / 3.6e6; }

constexpr Pressure pascals(double x) { return Pressure::from_si(x); }
constexpr Pressure kilopascals(double x) { return Pressure::from_si(x * 1e3); }
constexpr double in_pascals(Pressure p) { return p.si(); }
constexpr double in_kilopascals(Pressure p) { return p.si() / 1e3; }

constexpr Density kilograms_per_cubic_metre(double x) { return Density::from_si(x); }
constexpr Density grams_per_litre(double x) { return Density::from_si(x); }
constexpr Density milligrams_per_litre(double x) { return Density::from_si(x / 1e3); }
constexpr double in_grams_per_litre(Density d) { return d.si(); }
constexpr double in_grams_per_millilitre(Density d) { return d.si() / 1e3; }
constexpr double in_milligrams_per_litre(Density d) { return d.si() * 1e3; }
constexpr SpecificVolume litres_per_kilogram(double x) { return SpecificVolume::from_si(x / 1e3); }
constexpr double in_litres_per_kilogram(SpecificVolume v) { return v.si() * 1e3; }
constexpr Viscosity pascal_seconds(double x) { return Viscosity::from_si(x); }

constexpr TemperatureDifference kelvins(double x) { return TemperatureDifference::from_si(x); }
constexpr double in_kelvins(TemperatureDifference d) { return d.si(); }
constexpr Temperature celsius(double x) { return Temperature::from_kelvin(x + 273.15); }
constexpr double in_celsius(Temperature t) { return t.kelvin() - 273.15; }

constexpr SpecificEnergy kilojoules_per_kilogram(double x) { return SpecificEnergy::from_si(x * 1e3); }
constexpr double in_kilojoules_per_kilogram(SpecificEnergy e) { return e.si() / 1e3; }
constexpr SpecificHeat kilojoules_per_kilogram_kelvin(double x) { return SpecificHeat::from_si(x * 1e3); }
constexpr double in_kilojoules_per_kilogram_kelvin(SpecificHeat c) { return c.si() / 1e3; }
constexpr HeatTransfer watts_per_square_metre_kelvin(double x) { return HeatTransfer::from_si(x); }
constexpr double in_watts_per_square_metre_kelvin(HeatTransfer h) { return h.si(); }
constexpr Conductance watts_per_kelvin(double x) { return Conductance::from_si(x); }
constexpr double in_watts_per_kelvin(Conductance u) { return u.si(); }
constexpr HeatCapacity joules_per_kelvin(double x) { return HeatCapacity::from_si(x); }
constexpr double in_kilojoules_per_kelvin(HeatCapacity c) { return c.si() / 1e3; }
constexpr MolarMass grams_per_mole(double x) { return MolarMass::from_si(x / 1e3); }
constexpr double in_grams_per_mole(MolarMass m) { return m.si() * 1e3; }
constexpr Current amperes(double x) { return Current::from_si(x); }
constexpr double in_amperes(Current i) { return i.si(); }
constexpr Voltage volts(double x) { return Voltage::from_si(x); }
constexpr double in_volts(Voltage u) { return u.si(); }
// clang-format on
/// @}

/// Area of a circle of this diameter. Range: diameter from zero.
constexpr Area circle_area(Length diameter) {
  return diameter * diameter * (std::numbers::pi / 4.0);
}

}  // namespace firstdrop
