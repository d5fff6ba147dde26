#include "output/output_writer.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <nlohmann/json.hpp>

#include "base/visible_text.hpp"

namespace firstdrop {
namespace {

// JSON shows these as they are, and a page that the JSON is pasted into takes none for markup.
bool needs_no_escape(char c) {
  return c >= ' ' && c <= '~' && c != '"' && c != '\\' && c != '<' && c != '>' && c != '&';
}

std::string dumped(const nlohmann::json& value) {
  return value.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

}  // namespace

std::string quoted_text(std::string_view text) {
  return without_markup(dumped(text));
}

void OutputWriter::number(double value) {
  if (extent_ == Extent::full) return plain(dumped(value));
  begin();
  // The shortest form that gives the same number back. A spreadsheet may not know exponents; the
  // smallest number then takes 326 characters.
  std::array<char, 400> digits{};
  char* const from = digits.data();
  const auto end = extent_ == Extent::table
                       ? std::to_chars(from, from + digits.size(), value, std::chars_format::fixed)
                       : std::to_chars(from, from + digits.size(), value);
  out_.append(from, end.ptr);
}

void OutputWriter::whole(std::int64_t value) {
  begin();
  std::array<char, 24> digits{};
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), value);
  out_.append(digits.data(), end.ptr);
}

void OutputWriter::word(std::string_view word) {
  begin();
  if (extent_ == Extent::table) {
    out_ += word;
    return;
  }
  out_ += '"';
  out_ += word;
  out_ += '"';
}

void OutputWriter::text(std::string_view text) {
  if (std::all_of(text.begin(), text.end(), needs_no_escape)) return word(text);
  plain(quoted_text(text));
}

void OutputWriter::open(char bracket) {
  begin();
  out_ += bracket;
  first_ = true;
  ++depth_;
}

void OutputWriter::close(char bracket) {
  --depth_;
  key_ = {};  // of a value that wasn't written
  if (!first_) new_line();
  out_ += bracket;
  first_ = false;
}

void OutputWriter::begin_line() {
  comma();
  if (depth_ > 0) new_line();
  if (key_.empty()) return;
  out_ += key_.substr(1);
  out_ += ' ';
  key_ = {};
}

void OutputWriter::new_line() {
  if (!indented_) return;
  out_ += '\n';
  out_.append(2 * static_cast<std::size_t>(depth_), ' ');
}

}  // namespace firstdrop
