#include "cli/pages/terminal_page.hpp"

#include "base/text_layout.hpp"

namespace firstdrop::cli {

void TerminalPage::line(const std::string& first, const std::string& words) {
  add(wrapped(first, words, look_));
}

void TerminalPage::title(const std::string& words) {
  add(styled(words, Style::strong, look_) + "\n");
}

void TerminalPage::heading(const std::string& words) {
  blank_line();
  title(words);
}

void TerminalPage::row(const std::string& label, const std::string& words) {
  line("  " + padded(label, label_width_) + " ", words);
}

void TerminalPage::list(const std::string& heading_words, const std::vector<std::string>& texts) {
  if (texts.empty()) return;
  heading(heading_words);
  for (const std::string& words : texts) line("- ", words);
}

void TerminalPage::verdict(Verdict verdict, const std::string& words) {
  switch (verdict) {
    case Verdict::go:
      add(styled("GO", Style::good, look_));
      break;
    case Verdict::caution:
      add(styled("GO WITH CAUTION", Style::warn, look_));
      break;
    case Verdict::refused:
      add(styled("REFUSED", Style::bad, look_));
      break;
  }
  add(", " + words + "\n");
}

}  // namespace firstdrop::cli
