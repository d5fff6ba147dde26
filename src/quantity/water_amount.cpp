#include "quantity/water_amount.hpp"

#include <cmath>

#include "quantity/unit_faults.hpp"
#include "quantity/unit_table.hpp"

namespace firstdrop {

Parsed<Volume> parse_water(std::string_view text) {
  Parsed<Volume> parsed;
  double si = 0.0;
  if (read_quantity(text, water_family(), si))
    parsed.value = Volume::from_si(si);
  else
    parsed.fault = unit_fault(text, water_family());
  return parsed;
}

Parsed<Volume> water_from_unit(double number, std::string_view symbol) {
  Parsed<Volume> parsed;
  const Unit* const unit = find_unit(water_family(), symbol, Letters::as_listed);
  const double si = unit == nullptr ? 0.0 : unit->to_si(number);
  if (unit != nullptr && std::isfinite(si))
    parsed.value = Volume::from_si(si);
  else
    parsed.fault = unit_fault(number, symbol, water_family());
  return parsed;
}

bool is_weighed(std::string_view text) {
  text = without_leading_blanks(without_trailing_blanks(text));
  double si = 0.0;
  return read_quantity(without_water(text, water_family()), family_of<Mass>(), si);
}

QuantityKind water_kind() {
  return kind_of(water_family());
}

}  // namespace firstdrop
