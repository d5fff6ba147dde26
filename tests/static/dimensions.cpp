// Code that the types must reject. Each case is a function with a right line and a wrong line. They
// differ only in a quantity or an operation on it. Defining the name of the case selects the wrong
// line. Compiled without a name, this file is the control and must compile. So a case can fail only
// because of its wrong line.
#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/units.hpp"

namespace firstdrop {

Mass volume_for_mass() {
#ifdef VOLUME_FOR_MASS
  return litres(1.7);
#else
  return kilograms(1.7);
#endif
}

Mass number_for_mass() {
#ifdef NUMBER_FOR_MASS
  return 0.26;
#else
  return kilograms(0.26);
#endif
}

double mass_for_number() {
#ifdef MASS_FOR_NUMBER
  return kilograms(0.26);
#else
  return in_kilograms(kilograms(0.26));
#endif
}

double share_for_number() {
  return percent(20);  // Fraction is the only quantity that converts to a number
}

Mass mass_plus_volume() {
#ifdef MASS_PLUS_VOLUME
  return grams(260) + millilitres(800);
#else
  return grams(260) + grams(800);
#endif
}

bool mass_against_volume() {
#ifdef MASS_AGAINST_VOLUME
  return grams(260) < millilitres(800);
#else
  return grams(260) < grams(800);
#endif
}

Temperature temperature_plus_temperature() {
#ifdef TEMPERATURE_PLUS_TEMPERATURE
  return celsius(20) + celsius(5);
#else
  return celsius(20) + kelvins(5);
#endif
}

Temperature temperature_times_number() {
#ifdef TEMPERATURE_TIMES_NUMBER
  return celsius(20) * 2.0;
#else
  return celsius(20) + kelvins(10) * 2.0;
#endif
}

Temperature difference_for_temperature() {
#ifdef DIFFERENCE_FOR_TEMPERATURE
  return kelvins(20);
#else
  return celsius(20);
#endif
}

TemperatureDifference temperature_for_difference() {
#ifdef TEMPERATURE_FOR_DIFFERENCE
  return celsius(20);
#else
  return celsius(20) - celsius(0);
#endif
}

Rate duration_for_rate() {
#ifdef DURATION_FOR_RATE
  return minutes(20);
#else
  return 1.0 / minutes(20);
#endif
}

Volume mass_over_density() {
#ifdef MASS_TIMES_DENSITY
  return grams(260) * grams_per_litre(160);
#else
  return grams(260) / grams_per_litre(160);
#endif
}

Mass parsed_kind() {
#ifdef PARSED_VOLUME_FOR_MASS
  return *parse_quantity<Volume>("2 L");
#else
  return *parse_quantity<Mass>("2 kg");
#endif
}

}  // namespace firstdrop
