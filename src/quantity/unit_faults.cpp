#include "quantity/unit_faults.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <span>
#include <vector>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "quantity/bounds.hpp"
#include "quantity/typed_number.hpp"
#include "quantity/unit_table.hpp"

namespace firstdrop {

namespace {

/// What to write instead, as in Fault::wanted, and why, as in Fault::hint. Either may be empty.
struct Advice {
  std::string write;
  std::string why;
};

/// A spelling that could mean several units or names a unit that isn't read.
struct Slip {
  const UnitFamily* family;  ///< where it is met; one of volumes also for amounts of water
  std::string_view words;    ///< with | between them
  /// Units to offer, with | between them. After = it is a text, with {} for the number.
  std::string_view instead;
  std::string_view why;  ///< may be empty
};

std::vector<std::string_view> split(std::string_view text) {
  std::vector<std::string_view> all;
  while (!text.empty()) {
    const std::size_t bar = text.find('|');
    all.push_back(text.substr(0, bar));
    text = bar == std::string_view::npos ? std::string_view() : text.substr(bar + 1);
  }
  return all;
}

std::span<const Slip> slips() {
  static const UnitFamily* const mass = &family_of<Mass>();
  static const UnitFamily* const volume = &family_of<Volume>();
  static const UnitFamily* const time = &family_of<Duration>();
  static const UnitFamily* const length = &family_of<Length>();
  static const UnitFamily* const flow = &family_of<VolumeFlow>();
  static const std::array all{
      Slip{&water_family(), "oz|oz.|ounce|ounces|Oz|OZ", "={} fl oz, or the weight in lb or g",
           "\"oz\" could be a weight or a volume here"},
      Slip{volume, "oz|oz.|ounce|ounces|Oz|OZ", "fl oz", "\"oz\" is a weight"},
      Slip{volume, "ML|Ml", "mL", "\"ML\" would be a million litres"},
      Slip{volume, "T|t|Tb|TB|tb|ts", "tbsp|tsp", "\"T\" and \"t\" are easily mixed up"},
      Slip{volume, "c|C|c.|C.", "cups", "\"c\" could be cups or centilitres"},
      Slip{volume, "M|m", "mL", "\"m\" could be several units"},
      Slip{volume, "ccm", "cm3", ""},
      Slip{volume, "hl|hL", "=it in L", "1 hL is 100 L"},
      Slip{mass, "M|m", "", "\"m\" could be several units"},
      Slip{mass, "gr|gr.|grs", "g", "\"gr\" could be grams or grains"},
      Slip{mass, "gm|gms|G|Gr|GR", "g", ""},
      Slip{mass, "#", "lb", ""},
      Slip{mass, "Mg|MG", "mg", "\"Mg\" would be a thousand kilograms"},
      Slip{time, "m", "min", "\"m\" is metres"},
      Slip{time, "M|'", "min", ""},
      Slip{time, "\"|''", "s", ""},
      Slip{time, "H|std|Std", "h", ""},
      Slip{time, "d|day|days", "=it in h", "a day is 24 h"},
      Slip{length, "'", "ft", "the mark could be feet or minutes"},
      Slip{length, "\"|''|″", "in", "the mark could be inches or seconds"},
      Slip{length, "M", "m", ""},
      Slip{length, "km", "=it in m", "1 km is 1000 m"},
      Slip{length, "turn|turns|coil|coils|winding|windings", "=it in cm",
           "a turn is 3.14 times as long as the coil is wide"},
      Slip{flow, "l/m|L/m|lpm|LPM|Lpm|l/min.|ltr/min", "L/min", ""},
      Slip{flow, "gpm|GPM|gal/m", "gal/min", ""},
      Slip{&family_of<Temperature>(), "°|º|deg|degree|degrees", "°C|°F",
           "a temperature needs its scale"},
      Slip{&family_of<Power>(), "w", "W", ""},
      Slip{&family_of<Pressure>(), "bar", "=it in kPa or mbar", "1 bar is 100 kPa or 1000 mbar"},
      Slip{&family_of<Pressure>(), "psi", "=it in kPa", "1 psi is 6.895 kPa"},
      Slip{&family_of<Pressure>(), "mb|millibar|millibars", "mbar", ""},
      Slip{&family_of<Rate>(), "/min", "1/min", ""},
      Slip{&family_of<Rate>(), "/h", "1/h", ""},
  };
  return all;
}

const Slip* slip_for(std::string_view unit, const UnitFamily& family) {
  for (const Slip& slip : slips()) {
    const bool of_volume = &family == &water_family() && slip.family == &family_of<Volume>();
    if (slip.family != &family && !of_volume) continue;
    const std::vector<std::string_view> words = split(slip.words);
    if (std::find(words.begin(), words.end(), unit) != words.end()) return &slip;
  }
  return nullptr;
}

const UnitFamily* family_with(std::string_view unit) {
  for (const UnitFamily* family : unit_families()) {
    if (find_unit(*family, unit) != nullptr) return family;
  }
  return nullptr;
}

/// The number with each of these units: "8 tbsp or 8 tsp".
template <class Units>
std::string with_each(std::string_view number, const Units& units) {
  std::vector<std::string> all;
  for (const std::string_view unit : units)
    all.push_back(number.empty() ? std::string(unit) : fmt::format("{} {}", number, unit));
  if (all.size() == 1) return all.front();
  return in_a_row(all, "or");
}

/// With each listed unit, where they are few.
std::string with_all_units(std::string_view number, const UnitFamily& family) {
  std::vector<std::string_view> units;
  for (const Unit& unit : family.units)
    if (unit.offered) units.push_back(unit.symbol);
  return number.empty() || units.size() > 3 ? std::string() : with_each(number, units);
}

std::string slip_instead(const Slip& slip, std::string_view number) {
  if (!slip.instead.starts_with('=')) return with_each(number, split(slip.instead));
  std::string text(slip.instead.substr(1));
  if (const std::size_t mark = text.find("{}"); mark != std::string::npos)
    text.replace(mark, 2, number);
  return text;
}

Advice for_missing_unit(std::string_view number, const UnitFamily& family) {
  if (&family != &family_of<Fraction>())
    return {with_all_units(number, family), "the unit is missing"};
  double share = 0.0;
  const std::string plain_one = plain_number(number);
  std::from_chars(plain_one.data(), plain_one.data() + plain_one.size(), share);
  // "0.5" may be half, or half a percent.
  const std::string as_percent = fmt::format("{} %", plain_one);
  if (!(share > 0.0 && share <= 1.0)) return {as_percent, "the unit is missing"};
  return {fmt::format("{} % or {}", plain(share * 100.0), as_percent), "the unit is missing"};
}

/// The unit whose spelling is nearest to the word.
const Unit* nearest_unit(std::string_view word, const UnitFamily& family) {
  if (word.size() > 24) return nullptr;
  std::vector<std::string> names;
  for (const Unit& unit : family.units) names.emplace_back(unit.symbol);
  if (word.size() > 3)
    for (const Unit& unit : family.units)
      for (std::string& other : other_spellings(unit)) names.push_back(std::move(other));
  const std::string nearest = nearest_name(std::string(word), names);
  return nearest.empty() ? nullptr : find_unit(family, nearest);
}

/// An unknown unit; the number before it may be empty.
Advice for_unit(std::string_view word, const UnitFamily& family, std::string_view number) {
  if (word.empty()) return for_missing_unit(number, family);
  if (const Slip* const slip = slip_for(word, family))
    return {slip_instead(*slip, number), std::string(slip->why)};
  if (const UnitFamily* const other = family_with(word)) {
    if (other == &family_of<Temperature>() && &family == &family_of<TemperatureDifference>())
      return {with_all_units(number, family),
              quoted(word) + " is for a point on the scale, and a difference is in K"};
    return {"", fmt::format("{} is a unit of {}", quoted(word), other->name)};
  }
  if (const Unit* const unit = nearest_unit(word, family)) {
    const std::array units{unit->symbol};
    return {"", fmt::format("did you mean {}?", quoted(with_each(number, units)))};
  }
  return {with_all_units(number, family), ""};
}

/// Whether the text would be read as this kind if it were written like that.
bool reads(const std::string& text, const UnitFamily& family) {
  double si = 0.0;
  return read_quantity(text, family, si);
}

/// A number with commas, apostrophes or several points in it.
std::optional<Advice> for_marks(std::string_view text, const UnitFamily& family) {
  const std::size_t begin = text.starts_with('-') || text.starts_with('+') ? 1U : 0U;
  const std::size_t end = std::min(text.find_first_not_of("0123456789.,'", begin), text.size());
  const std::string_view number = text.substr(begin, end - begin);
  const auto marks = static_cast<std::size_t>(
      std::count_if(number.begin(), number.end(), [](char c) { return !is_digit(c); }));
  std::string_view rest = text;
  if (take_typed_number(rest).found && rest == text.substr(end)) return std::nullopt;
  const std::size_t last = number.find_last_of(".,'");
  if (marks == 0 || last + 1 == number.size()) return std::nullopt;
  const auto joined_with = [&](bool keeps_last) {
    std::string all(text.substr(0, begin));
    for (std::size_t i = 0; i < number.size(); ++i) {
      if (is_digit(number[i]))
        all += number[i];
      else if (keeps_last && i == last)
        all += '.';
    }
    return all + std::string(text.substr(end));
  };
  const std::string whole = joined_with(false);
  std::string with_point = joined_with(true);
  if (!reads(with_point, family)) return Advice{"", "write the number with one decimal point"};
  const bool three_figures = number.size() - last == 4;
  if (marks == 1 && number[last] == ',' && three_figures) {
    // "1.500 mL" is shorter as "1.5 mL".
    const std::size_t tail = begin + last + 4;
    std::size_t shorter = tail;
    while (with_point[shorter - 1] == '0') --shorter;
    if (with_point[shorter - 1] == '.') --shorter;
    with_point.erase(shorter, tail - shorter);
    return Advice{visible(whole) + " or " + visible(with_point),
                  "a comma before three digits could mean either"};
  }
  const bool all_same =
      number.find_first_not_of(std::string("0123456789") + number[last]) == std::string_view::npos;
  if (all_same && three_figures && (number[last] != '.' || marks > 1))
    return Advice{visible(whole), "a number has no marks between its thousands"};
  if (!all_same) return Advice{visible(with_point), "a number has one decimal mark and no others"};
  return Advice{"", "write the number with one decimal point"};
}

/// "1 500 g", which may be a thousand and more.
std::optional<Advice> for_blanks_in_number(std::string_view as_written, std::string_view rest,
                                           const UnitFamily& family) {
  const std::string_view more = without_leading_blanks(rest);
  if (more.size() == rest.size() || more.empty() || !is_digit(more.front())) return std::nullopt;
  const std::string together = std::string(as_written) + std::string(more);
  return Advice{reads(together, family) ? visible(together) : std::string(),
                "write one number without blanks, then its unit"};
}

/// "1/7 cup" or "3/2 cups".
std::optional<Advice> for_slash(std::string_view as_written, std::string_view rest) {
  if (!rest.starts_with('/') || rest.size() < 2 || !is_digit(rest[1])) return std::nullopt;
  std::string_view after = rest.substr(1);
  const TypedNumber under = take_decimal(after);
  std::string_view first = as_written;
  const TypedNumber over = take_decimal(first);
  const double value = over.value / under.value;
  if (!under.in_range || !std::isfinite(value)) return Advice{"", "write a decimal number"};
  return Advice{fmt::format("{:.3g}{}", value, visible(after)),
                over.is_signed
                    ? "fractions have no sign"
                    : "fractions are read up to sixteenths, such as 1/2, 1 1/2 and 3/16"};
}

/// "1-2 cups" or "1–2 cups".
std::optional<Advice> for_span(std::string_view rest) {
  std::string_view after = without_leading_blanks(rest);
  const bool dash = after.starts_with('-') || after.starts_with("\u2013");
  if (!dash) return std::nullopt;
  after.remove_prefix(after.starts_with('-') ? 1 : 3);
  after = without_leading_blanks(after);
  if (!starts_with_figure(after)) return std::nullopt;
  return Advice{"", "write a single amount"};
}

/// "1:20" for a time.
std::optional<Advice> for_colon(std::string_view as_written, std::string_view rest,
                                const UnitFamily& family) {
  if (!rest.starts_with(':') || &family != &family_of<Duration>()) return std::nullopt;
  std::string_view after = rest.substr(1);
  const TypedNumber minutes = take_decimal(after);
  if (!minutes.whole || !after.empty()) return Advice{"", "write a time as in 1 h 20 min"};
  return Advice{fmt::format("{0} h {1} min or {0} min {1} s", as_written, rest.substr(1)),
                "it could mean either"};
}

/// "10 L in 1 min 40 s" or "10 L/100 s" for a flow: how people measure a tap.
std::optional<Advice> for_bucket(std::string_view text, const UnitFamily& family) {
  if (&family != &family_of<VolumeFlow>()) return std::nullopt;
  std::string_view between = " in ";
  if (text.find(between) == std::string_view::npos) between = "/";
  const std::size_t at = text.rfind(between);
  if (at == std::string_view::npos) return std::nullopt;
  double volume = 0.0;
  double time = 0.0;
  if (!read_quantity(without_trailing_blanks(text.substr(0, at)), family_of<Volume>(), volume) ||
      !read_quantity(without_leading_blanks(text.substr(at + between.size())),
                     family_of<Duration>(), time))
    return std::nullopt;
  const double flow = in_litres_per_minute(Volume::from_si(volume) / Duration::from_si(time));
  if (!std::isfinite(flow)) return std::nullopt;
  return Advice{fmt::format("{:.3g} L/min", flow), "that is the same flow"};
}

/// Several numbers with units, such as "20 min 1 h".
std::optional<Advice> for_parts(std::string_view text, const UnitFamily& family) {
  std::size_t parts = 0;
  bool any_sign = false;
  bool fraction_inside = false;
  bool last_whole = true;
  Ladder ladder = Ladder::none;
  bool alone = false;  // a unit that doesn't go with others
  bool mixed = false;
  const std::string_view all = text;
  while (!text.empty()) {
    const TypedNumber number = take_typed_number(text);
    if (!number.found) break;
    const std::string_view so_far = all.substr(0, all.size() - text.size());
    any_sign = any_sign || number.is_signed;
    fraction_inside = fraction_inside || !last_whole;
    last_whole = number.whole;
    text = without_leading_blanks(text);
    std::string_view word = unit_word(text);
    text.remove_prefix(word.size());
    word = without_trailing_blanks(word);
    // The sign of the next number.
    if (!text.empty() && word.size() > 1 && (word.ends_with('-') || word.ends_with('+'))) {
      any_sign = true;
      word = without_trailing_blanks(word.substr(0, word.size() - 1));
    }
    const Unit* const unit = find_unit(family, word);
    if (unit == nullptr) {
      if (parts == 0 && text.empty()) return std::nullopt;
      Advice advice = for_unit(word, family, so_far);
      if (!text.empty()) advice.write.clear();
      return advice;
    }
    alone = alone || unit->ladder == Ladder::none;
    mixed = mixed || (parts > 0 && unit->ladder != ladder);
    ladder = unit->ladder;
    ++parts;
  }
  if (parts < 2) return std::nullopt;
  if (any_sign) return Advice{"", "an amount of several parts has no sign"};
  if (alone) return Advice{"", "write one number and one unit"};
  if (mixed) return Advice{"", "metric and US units don't go together in one amount"};
  if (fraction_inside) return Advice{"", "only the last part may have a fraction"};
  return Advice{"", "go from the largest unit down to the smallest, each once"};
}

Advice for_no_number(std::string_view text, const UnitFamily& family) {
  if (text.starts_with("\u2212") || text.starts_with("\u2013"))
    return {"", "write the minus sign as a plain hyphen"};
  std::string_view word = text;
  if (word.starts_with('-') || word.starts_with('+')) word.remove_prefix(1);
  std::string start(word.substr(0, 3));
  for (char& c : start) c = static_cast<char>(c | 0x20);
  if (start == "nan" || start == "inf") return {"", "the number must be finite"};
  if (find_unit(family, word) != nullptr) return {"", "the number is missing"};
  return {"", "the number comes first"};
}

Advice advice_for(std::string_view text, const UnitFamily& family) {
  if (text.empty()) return {};
  if (const auto advice = for_marks(text, family)) return *advice;
  text = without_water(text, family);
  std::string_view rest = text;
  const TypedNumber number = take_typed_number(rest);
  if (!number.found) return for_no_number(text, family);
  const std::string_view as_written = text.substr(0, text.size() - rest.size());
  if (!number.in_range) return {"", "the number is too large or too small"};
  if (find_unit(family, without_leading_blanks(rest)) != nullptr)
    return {"", "the number is too large"};
  if (const auto advice = for_bucket(text, family)) return *advice;
  if (const auto advice = for_slash(as_written, rest)) return *advice;
  if (const auto advice = for_colon(as_written, rest, family)) return *advice;
  if (const auto advice = for_span(rest)) return *advice;
  if (const auto advice = for_blanks_in_number(as_written, rest, family)) return *advice;
  if (const auto advice = for_parts(text, family)) return *advice;
  return for_unit(without_leading_blanks(rest), family, as_written);
}

}  // namespace

std::string wanted_text(const UnitFamily& family) {
  std::vector<std::string> symbols;
  for (const Unit& unit : family.units)
    if (unit.offered) symbols.emplace_back(unit.symbol);
  std::string text(family.wanted);
  text += " with its unit: " + (symbols.size() == 1 ? symbols.front() : in_a_row(symbols, "or"));
  if (&family == &family_of<Duration>()) text += ", or several, as in 1 h 20 min";
  return text;
}

Fault unit_fault(std::string_view text, const UnitFamily& family) {
  // A longer text isn't a quantity with a slip in it, so there is no point in guessing.
  constexpr std::size_t longest_explained = 60;
  Fault fault;
  fault.found = fmt::format("Can't read {} as {}", quoted(text), family.wanted);
  const std::string_view trimmed = without_leading_blanks(without_trailing_blanks(text));
  Advice advice;
  if (trimmed.size() <= longest_explained) advice = advice_for(trimmed, family);
  fault.wanted = advice.write.empty() ? wanted_text(family) : std::move(advice.write);
  fault.hint = std::move(advice.why);
  return fault;
}

Fault unit_fault(double number, std::string_view unit, const UnitFamily& family) {
  std::array<char, 32> buffer{};
  const auto result = std::to_chars(buffer.data(), buffer.data() + buffer.size(), number);
  const std::string digits(buffer.data(), result.ptr);
  Fault fault;
  fault.found = quoted(unit.empty() ? digits : digits + ' ' + std::string(unit));
  fault.wanted = wanted_text(family);
  if (!std::isfinite(number)) {
    fault.hint = "the number must be finite";
  } else if (find_unit(family, unit, Letters::as_listed) != nullptr) {
    fault.hint = "the number is too large";
  } else if (const Unit* const known = find_unit(family, unit)) {
    fault.hint = fmt::format("did you mean {}?", quoted(known->symbol));
  } else {
    fault.hint = for_unit(unit, family, {}).why;
  }
  return fault;
}

}  // namespace firstdrop
