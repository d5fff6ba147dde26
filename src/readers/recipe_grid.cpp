#include "readers/recipe_grid.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/quantity/units.hpp"
#include "json/json_reader.hpp"

namespace firstdrop {
namespace {

constexpr auto override_form =
    "a key and its value, such as \"charge=200 g\" or \"site.room=18 °C\"";
constexpr auto range_form = "\"charge=100 g..500 g by 50 g\", each with the same unit";

InputError wrong(std::string_view found, const std::string& said_by, std::string wanted,
                 std::string hint = {}) {
  return InputError(Fault{"", "", firstdrop::quoted(found) + " for " + said_by, std::move(wanted),
                          std::move(hint), 0, 0});
}

std::string_view trimmed(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \t");
  if (begin == std::string_view::npos) return {};
  return text.substr(begin, text.find_last_not_of(" \t") + 1 - begin);
}

// The text as a JSON string. Throws if it isn't UTF-8, because messages print it.
std::string text_as_json(std::string_view text, const std::string& said_by) {
  std::string json = json_text(text);
  json::Context context;
  if (!json::parse(json, context)) throw wrong(text, said_by, "text in UTF-8");
  return json;
}

// Turns line ends and tabs into blanks. Valid JSON has them only between its parts.
std::string in_one_line(std::string_view text) {
  std::string line(text);
  for (char& byte : line)
    if (byte == '\n' || byte == '\r' || byte == '\t') byte = ' ';
  return line;
}

struct KeyAndValue {
  std::vector<std::string> path;
  std::string_view value;
};

KeyAndValue split(std::string_view text, const std::string& said_by) {
  const std::size_t equals = text.find('=');
  if (equals == std::string_view::npos) throw wrong(text, said_by, override_form);
  KeyAndValue result{{}, trimmed(text.substr(equals + 1))};
  std::string_view key = trimmed(text.substr(0, equals));
  text_as_json(key, said_by);
  if (has_acting_character(in_one_line(text)))
    throw wrong(text, said_by, "text without control characters");
  for (;;) {
    const std::size_t dot = key.find('.');
    result.path.emplace_back(key.substr(0, dot));
    if (result.path.back().empty()) throw wrong(text, said_by, override_form);
    if (dot == std::string_view::npos) return result;
    key.remove_prefix(dot + 1);
  }
}

// Whether the strict reader accepts it as JSON. Throws if it begins like JSON but is broken.
bool is_json(std::string_view value, const std::string& said_by) {
  const bool opens = value.front() == '{' || value.front() == '[' || value.front() == '"';
  json::Context context;
  const auto node = json::parse(value, context);
  if (node && context.faults.empty()) return opens || node->kind != json::Kind::text;
  if (!opens) return false;
  Fault fault = context.faults.front();
  fault.found = fmt::format("{} in {} for {}", fault.found, firstdrop::quoted(value), said_by);
  fault.line = fault.column = 0;
  throw InputError(fault);
}

std::string as_json(std::string_view value, const std::string& said_by) {
  if (value.empty()) return {};
  if (is_json(value, said_by)) return in_one_line(value);
  return text_as_json(value, said_by);
}

// Splits a text at the commas outside quotes and brackets.
std::vector<std::string_view> parts(std::string_view text) {
  std::vector<std::string_view> result;
  std::size_t begin = 0;
  int depth = 0;
  bool in_quotes = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char byte = text[i];
    if (in_quotes) {
      if (byte == '\\')
        ++i;
      else
        in_quotes = byte != '"';
    } else if (byte == '"') {
      in_quotes = true;
    } else if (byte == '{' || byte == '[') {
      ++depth;
    } else if (byte == '}' || byte == ']') {
      --depth;
    } else if (byte == ',' && depth <= 0) {
      result.push_back(trimmed(text.substr(begin, i - begin)));
      begin = i + 1;
    }
  }
  result.push_back(trimmed(text.substr(begin)));
  return result;
}

bool is_whole_number(std::string_view text) {
  return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

// "1,5 L" is two values in a list: a number without a unit, and 5 L.
void refuse_decimal_commas(std::string_view values, const std::vector<std::string_view>& all,
                           const std::string& said_by) {
  for (std::size_t i = 0; i + 1 < all.size(); ++i) {
    const std::string_view next = all[i + 1];
    const bool starts_with_digit = !next.empty() && next.front() >= '0' && next.front() <= '9';
    if (is_whole_number(all[i]) && starts_with_digit && !is_json(next, said_by))
      throw wrong(values, said_by, fmt::format("{}.{} for a number with decimals", all[i], next),
                  "a comma stands between two values here");
  }
}

// A decimal number, and what follows it.
struct Decimal {
  std::int64_t scaled = 0;
  int decimals = 0;
  std::string_view unit;  // with the blank before it
};

constexpr int most_decimals = 9;

std::optional<Decimal> decimal_from(std::string_view text) {
  Decimal result;
  std::size_t at = 0;
  const bool negative = text.starts_with('-');
  if (negative) ++at;
  bool point = false;
  std::size_t digit_count = 0;
  for (; at < text.size(); ++at) {
    if (text[at] == '.' && !point && digit_count > 0) {
      point = true;
    } else if (text[at] >= '0' && text[at] <= '9') {
      if (++digit_count > 15) return std::nullopt;
      result.scaled = result.scaled * 10 + (text[at] - '0');
      if (point) ++result.decimals;
    } else {
      break;
    }
  }
  if (digit_count == 0 || result.decimals > most_decimals) return std::nullopt;
  if (negative) result.scaled = -result.scaled;
  result.unit = text.substr(at);
  return result;
}

// Gives the number more decimals; false if it is too large for that.
bool widen(Decimal& number, int decimals) {
  for (; number.decimals < decimals; ++number.decimals) {
    if (std::abs(number.scaled) > 900'000'000'000'000'000 / 10) return false;
    number.scaled *= 10;
  }
  return true;
}

// "cup" and "cups" are the same unit.
bool same_unit(std::string_view a, std::string_view b) {
  a = trimmed(a);
  b = trimmed(b);
  return a == b ||
         (!a.empty() && !b.empty() && converted(1.0, a, b) == 1.0 && converted(0.0, a, b) == 0.0);
}

std::string decimal_text(std::int64_t scaled, int decimals) {
  std::string digits = fmt::format("{:0{}}", std::abs(scaled), decimals + 1);
  if (decimals > 0) {
    digits.insert(digits.size() - static_cast<std::size_t>(decimals), ".");
    digits.erase(digits.find_last_not_of('0') + 1);
    if (digits.back() == '.') digits.pop_back();
  }
  return (scaled < 0 ? "-" : "") + digits;
}

}  // namespace

std::string Override::key() const {
  return joined(path, ".");
}

std::string Override::words() const {
  if (json.empty()) return "left out";
  json::Context context;
  const auto node = json::parse(json, context);
  return node && node->kind == json::Kind::text ? node->text : json;
}

std::string values_json(const std::vector<Override>& values) {
  std::string text = "{";
  for (const Override& value : values) {
    text += (text.size() > 1 ? "," : "") + json_text(value.key()) + ":" +
            (value.json.empty() ? "null" : without_markup(value.json));
  }
  return text + "}";
}

Override parse_override(std::string_view text, const std::string& said_by) {
  auto [path, value] = split(text, said_by);
  return {std::move(path), as_json(value, said_by), said_by};
}

Axis::Axis(std::string_view text, const std::string& said_by) : said_by_(said_by) {
  auto [path, values] = split(text, said_by);
  path_ = std::move(path);
  if (read_range(values)) return;
  const std::vector<std::string_view> all = parts(values);
  refuse_decimal_commas(values, all, said_by);
  for (const std::string_view value : all) values_.push_back(as_json(value, said_by));
  size_ = values_.size();
}

bool Axis::read_range(std::string_view words) {
  const std::size_t dots = words.find("..");
  if (dots == std::string_view::npos) return false;
  auto first = decimal_from(trimmed(words.substr(0, dots)));
  if (!first) return false;  // not a range, but dots in a name or a path
  const std::string_view rest = trimmed(words.substr(dots + 2));
  const std::size_t by = rest.find(" by ");
  if (by == std::string_view::npos)
    throw wrong(words, said_by_, range_form, "give the step after \"by\"");
  auto last = decimal_from(trimmed(rest.substr(0, by)));
  auto step = decimal_from(trimmed(rest.substr(by + 4)));
  if (!last || !step) throw wrong(words, said_by_, range_form);
  for (const Decimal* number : {&*first, &*last, &*step})
    if (number->unit.starts_with(','))
      throw wrong(words, said_by_, "numbers with a decimal point, such as 1.5 L..3 L by 0.5 L");
  if (!same_unit(first->unit, last->unit) || !same_unit(first->unit, step->unit)) {
    throw wrong(words, said_by_, range_form, "write the unit after each of the three numbers");
  }
  if (step->scaled <= 0) throw wrong(words, said_by_, "a step above zero");
  decimals_ = std::max({first->decimals, last->decimals, step->decimals});
  if (!widen(*first, decimals_) || !widen(*last, decimals_) || !widen(*step, decimals_))
    throw wrong(words, said_by_, "numbers with fewer digits");
  first_ = first->scaled;
  step_ = last->scaled < first_ ? -step->scaled : step->scaled;
  size_ = static_cast<std::uint64_t>((last->scaled - first_) / step_) + 1;
  unit_ = first->unit;
  return true;
}

Override Axis::operator[](std::uint64_t index) const {
  if (!values_.empty()) return {path_, values_[index], said_by_};
  const std::string number =
      decimal_text(first_ + static_cast<std::int64_t>(index) * step_, decimals_);
  return {path_, unit_.empty() ? number : json_text(number + unit_), said_by_};
}

RecipeGrid::RecipeGrid(const std::vector<std::string>& set, const std::vector<std::string>& vary) {
  std::set<std::vector<std::string>> seen;
  const auto once = [&](const std::vector<std::string>& path, const std::string& text,
                        const std::string& said_by) {
    if (!seen.insert(path).second) throw wrong(text, said_by, "each key once");
  };
  for (const std::string& text : set) {
    set_.push_back(parse_override(text, "--set"));
    once(set_.back().path, text, "--set");
  }
  for (const std::string& text : vary) {
    axes_.emplace_back(text, "--vary");
    once(axes_.back().path(), text, "--vary");
    if (axes_.back().size() > most_grid_points / size_) {
      throw wrong(text, "--vary", fmt::format("at most {} combinations in all", most_grid_points),
                  "take larger steps, or fewer keys at a time");
    }
    size_ *= axes_.back().size();
  }
}

std::vector<Override> RecipeGrid::varied(std::uint64_t index) const {
  std::vector<Override> values(axes_.size());
  for (std::size_t i = axes_.size(); i-- > 0; index /= axes_[i].size()) {
    values[i] = axes_[i][index % axes_[i].size()];
  }
  return values;
}

std::vector<Override> RecipeGrid::point(std::uint64_t index) const {
  std::vector<Override> values = set_;
  for (Override& value : varied(index)) values.push_back(std::move(value));
  return values;
}

}  // namespace firstdrop
