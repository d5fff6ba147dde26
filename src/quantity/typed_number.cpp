#include "quantity/typed_number.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <system_error>

#include "quantity/unit_table.hpp"

namespace firstdrop {

namespace {

constexpr std::array fraction_signs{
    FractionSign{"½", 1, 2}, FractionSign{"⅓", 1, 3}, FractionSign{"⅔", 2, 3},
    FractionSign{"¼", 1, 4}, FractionSign{"¾", 3, 4}, FractionSign{"⅕", 1, 5},
    FractionSign{"⅖", 2, 5}, FractionSign{"⅗", 3, 5}, FractionSign{"⅘", 4, 5},
    FractionSign{"⅙", 1, 6}, FractionSign{"⅚", 5, 6}, FractionSign{"⅛", 1, 8},
    FractionSign{"⅜", 3, 8}, FractionSign{"⅝", 5, 8}, FractionSign{"⅞", 7, 8},
};
/// Under the line of a fraction that is written with a slash: those of scales, jugs and rulers.
constexpr std::array fraction_denominators{2, 3, 4, 5, 6, 8, 16};

std::size_t digits_at(std::string_view text, std::size_t from = 0) {
  const std::size_t end = std::min(text.find_first_not_of("0123456789", from), text.size());
  return end - std::min(from, end);
}

/// A short whole number that doesn't start with zero; 0 if the text is anything else.
int small_number(std::string_view digits) {
  if (digits.empty() || digits.size() > 6 || digits.front() == '0') return 0;
  int value = 0;
  for (const char digit : digits) value = value * 10 + (digit - '0');
  return value;
}

/// Takes a proper fraction from the start of the text: "1/2" or "½". None if `under` stays 0.
FractionSign take_fraction(std::string_view& text) {
  if (const FractionSign* const sign = fraction_sign(text)) {
    const std::string_view rest = text.substr(sign->sign.size());
    if (starts_with_figure(rest)) return {{}, 0, 0};
    text = rest;
    return *sign;
  }
  const std::size_t over_length = digits_at(text);
  if (over_length == 0 || over_length == text.size() || text[over_length] != '/') return {{}, 0, 0};
  const std::size_t under_length = digits_at(text, over_length + 1);
  const int over = small_number(text.substr(0, over_length));
  const int under = small_number(text.substr(over_length + 1, under_length));
  const bool listed_one = std::find(fraction_denominators.begin(), fraction_denominators.end(),
                                    under) != fraction_denominators.end();
  if (!listed_one || over == 0 || over >= under) return {{}, 0, 0};
  text.remove_prefix(over_length + 1 + under_length);
  return {{}, over, under};
}

/// Takes "1/2", "½", "1 1/2", "1-1/2", "1½" or "1 ½".
TypedNumber take_number_with_fraction(std::string_view& text) {
  TypedNumber number;
  std::string_view rest = text;
  FractionSign fraction = take_fraction(rest);
  int whole = 0;
  if (fraction.under == 0) {
    const std::size_t length = digits_at(text);
    whole = small_number(text.substr(0, length));
    if (whole == 0) return number;
    rest = text.substr(length);
    const std::string_view after_blanks = without_leading_blanks(rest);
    const bool has_sign = fraction_sign(after_blanks) != nullptr;
    if (!has_sign && rest.starts_with('-'))
      rest.remove_prefix(1);
    else if (has_sign || after_blanks.size() < rest.size())  // "1½" needs no blank
      rest = after_blanks;
    else
      return number;
    fraction = take_fraction(rest);
    if (fraction.under == 0 || fraction.sign.empty() == has_sign) return number;
  }
  number.value = static_cast<double>(whole * fraction.under + fraction.over) / fraction.under;
  number.found = number.in_range = true;
  text = rest;
  return number;
}

/// Takes a number with a decimal comma.
TypedNumber take_number_with_comma(std::string_view& text) {
  const std::size_t sign = text.starts_with('-') || text.starts_with('+') ? 1U : 0U;
  const std::size_t before = digits_at(text, sign);
  const std::size_t comma = sign + before;
  if (before == 0 || comma >= text.size() || text[comma] != ',') return {};
  const std::size_t after = digits_at(text, comma + 1);
  const bool from_zero = text.substr(sign, before).find_first_not_of('0') == std::string_view::npos;
  if (after == 0 || (after == 3 && !from_zero)) return {};
  std::string with_point(text.substr(0, comma + 1 + after));
  with_point[comma] = '.';
  std::string_view rest = with_point;
  const TypedNumber number = take_decimal(rest);
  text.remove_prefix(comma + 1 + after);
  return number;
}

}  // namespace

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

const FractionSign* fraction_sign(std::string_view text) {
  // Each begins with one of these bytes.
  if (text.empty() || (text.front() != '\xc2' && text.front() != '\xe2')) return nullptr;
  for (const FractionSign& one : fraction_signs)
    if (text.starts_with(one.sign)) return &one;
  return nullptr;
}

bool starts_with_figure(std::string_view text) {
  return (!text.empty() && is_digit(text.front())) || fraction_sign(text) != nullptr;
}

TypedNumber take_decimal(std::string_view& text) {
  TypedNumber number;
  std::string_view rest = text;
  const bool negative = rest.starts_with('-');
  number.is_signed = negative || rest.starts_with('+');
  if (number.is_signed) rest.remove_prefix(1);
  if (rest.empty() || !(is_digit(rest.front()) || rest.front() == '.')) return number;
  const char* const begin = rest.data();
  const auto [end, error] = std::from_chars(begin, begin + rest.size(), number.value);
  if (error == std::errc::invalid_argument) return number;
  number.found = true;
  number.in_range = error == std::errc{} && std::isfinite(number.value);
  if (negative) number.value = -number.value;
  const auto length = static_cast<std::size_t>(end - begin);
  number.whole = rest.substr(0, length).find_first_not_of("0123456789") == std::string_view::npos;
  text = rest.substr(length);
  return number;
}

TypedNumber take_typed_number(std::string_view& text) {
  if (const TypedNumber number = take_number_with_fraction(text); number.found) return number;
  if (const TypedNumber number = take_number_with_comma(text); number.found) return number;
  return take_decimal(text);
}

std::string plain_number(std::string_view text) {
  std::string_view rest = without_leading_blanks(text);
  const std::string_view all = rest;
  if (const TypedNumber number = take_number_with_fraction(rest); number.found)
    return fmt::format("{:.6g}", number.value);
  if (!take_typed_number(rest).found) return {};
  std::string number(all.substr(0, all.size() - rest.size()));
  std::replace(number.begin(), number.end(), ',', '.');
  return number;
}

namespace {

std::string any_fraction_sign() {
  std::string pattern;
  for (const FractionSign& one : fraction_signs) {
    if (!pattern.empty()) pattern += '|';
    pattern += one.sign;
  }
  return "(?:" + pattern + ')';
}

std::string slash_fraction() {
  std::string pattern;
  for (const int under : fraction_denominators) {
    pattern += pattern.empty() ? "(?:" : "|";
    pattern += under < 10 ? fmt::format("[1-{}]", under - 1)
                          : fmt::format("(?:[1-9]|1[0-{}])", under - 11);
    pattern += '/' + std::to_string(under);
  }
  return pattern + ")(?![0-9])";
}

std::string decimal() {
  return R"((?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?|)"
         "(?:0+,[0-9]+|[0-9]+,(?:[0-9]{1,2}|[0-9]{4,}))(?![0-9])";
}

std::string with_fraction() {
  return fmt::format(
      "(?:[1-9][0-9]{{0,5}}{0}*)?{1}(?![0-9]|{1})|(?:[1-9][0-9]{{0,5}}(?:{0}+|-))?{2}",
      one_blank_pattern, any_fraction_sign(), slash_fraction());
}

}  // namespace

std::string signed_number_pattern() {
  return fmt::format("(?:[+-]?(?:{})|{})", decimal(), with_fraction());
}
std::string unsigned_number_pattern() {
  return fmt::format("(?:{}|{})", decimal(), with_fraction());
}

}  // namespace firstdrop
