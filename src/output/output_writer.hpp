// Writes values as JSON text, or as the cells of a row of CSV.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace firstdrop {

/// Which outputs of an object are written, and how its numbers look.
enum class Extent : unsigned char {
  full = 1,   ///< all of them; 800.0
  brief = 2,  ///< the most important ones; 800
  table = 4,  ///< as cells of a row of CSV; 800
};

/// Any text as a JSON string. Bytes that aren't UTF-8 become U+FFFD; <, > and & are escaped.
std::string quoted_text(std::string_view text);

/// Appends JSON straight to a text, without a document in between. A line in brief has about thirty
/// numbers, and building the JSON library's document would take longer than planning the run.
/// Numbers aren't rounded: the text gives back the same number.
class OutputWriter {
 public:
  /// Keeps a reference. A new line and two blanks for each level stand before each value if
  /// `indented`.
  explicit OutputWriter(std::string& out, Extent extent, bool indented = false)
      : out_(out), extent_(extent), indented_(indented) {}

  Extent extent() const { return extent_; }

  /// The key of the next value, in quotes, with a comma before it and a colon after it. It is
  /// written together with the value, so a key without a value leaves no trace; in a row of CSV it
  /// leaves an empty cell. The text must stay valid until then.
  void key(std::string_view quoted) {
    if (extent_ == Extent::table) comma();
    key_ = quoted;
  }

  void number(double value);
  void whole(std::int64_t value);
  void truth(bool value) { plain(value ? "true" : "false"); }
  /// One of the program's own words, which need no escapes.
  void word(std::string_view word);
  /// Any text; see quoted_text().
  void text(std::string_view text);
  /// A value that is JSON already.
  void json(std::string_view value) { plain(value); }

  /// @{
  /// An object or a list, with its opening and its closing bracket.
  void open(char bracket);
  void close(char bracket);
  /// @}

 private:
  void comma() {
    if (!first_) out_ += ',';
    first_ = false;
  }
  void begin() {
    if (extent_ == Extent::table) return;  // the comma stands before the key
    if (indented_) return begin_line();
    if (key_.empty()) return comma();
    out_ += first_ ? key_.substr(1) : key_;
    key_ = {};
    first_ = false;
  }
  void begin_line();
  void new_line();
  void plain(std::string_view value) {
    begin();
    out_ += value;
  }

  std::string& out_;
  Extent extent_;
  bool indented_;
  bool first_ = true;
  int depth_ = 0;
  std::string_view key_;
};

}  // namespace firstdrop
