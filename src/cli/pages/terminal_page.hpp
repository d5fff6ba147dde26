// The building blocks of pages on the terminal.
#pragma once

#include <string>
#include <vector>

#include "cli/terminal.hpp"
#include "firstdrop/plan/plan.hpp"

namespace firstdrop::cli {

/// A page that is written from top to bottom.
class TerminalPage {
 public:
  /// `look` must outlive the page. The labels of rows have a column of `label_width` characters.
  explicit TerminalPage(const Look& look, int label_width = 0)
      : look_(look), label_width_(label_width) {}

  const Look& look() const { return look_; }
  const std::string& written() const { return out_; }

  void add(const std::string& text) { out_ += text; }
  void blank_line() { out_ += "\n"; }
  /// Wraps words to the terminal's width. `first` goes before them and sets their margin.
  void line(const std::string& first, const std::string& words);
  void title(const std::string& words);
  /// A title after a blank line.
  void heading(const std::string& words);
  /// "  Label  words", with the words in their own column.
  void row(const std::string& label, const std::string& words);
  /// A heading and an entry for each text; nothing if there are none.
  void list(const std::string& heading, const std::vector<std::string>& texts);
  /// "GO" and the words that follow it.
  void verdict(Verdict verdict, const std::string& words);

 private:
  const Look& look_;
  int label_width_;
  std::string out_;
};

}  // namespace firstdrop::cli
