#include <array>
#include <charconv>
#include <optional>
#include <string>

#include "firstdrop/output/write.hpp"
#include "quantity/clock_time.hpp"

namespace firstdrop {
namespace {

// The shortest decimal form that gives the same number back, without an exponent.
std::string in_full(double number) {
  std::array<char, 400> digits{};  // the smallest number takes 326 characters
  const auto end =
      std::to_chars(digits.data(), digits.data() + digits.size(), number, std::chars_format::fixed);
  return {digits.data(), end.ptr};
}

}  // namespace

std::string timeline_csv(const Plan& plan) {
  const RunPlan& run = plan.runnable();
  // Phases and events are the program's own words. They have no comma, quote or character that a
  // spreadsheet would take for a formula. No text from outside may be written here.
  std::string csv =
      "at_min,clock,phase,event,pot_water_ml,pot_c,hydrosol_ml,oil_ml,oil_p10_ml,oil_p90_ml,"
      "reservoir_c\r\n";
  const std::optional<LocalMinute> start = parse_local_minute(plan.recipe.start);
  for (const TimelinePoint& p : run.timeline) {
    csv += in_full(in_minutes(p.at)) + ',';
    if (start) csv += date_and_time(clock_time(*start, p.at));
    csv += ',' + to_string(p.phase) + ',' + p.event;
    for (const double number :
         {in_millilitres(p.pot_water), in_celsius(p.pot), in_millilitres(p.hydrosol),
          in_millilitres(p.oil.typical), in_millilitres(p.oil.low), in_millilitres(p.oil.high)}) {
      csv += ',' + in_full(number);
    }
    csv += ',';
    if (p.coolant) csv += in_full(in_celsius(*p.coolant));
    csv += "\r\n";
  }
  return csv;
}

}  // namespace firstdrop
