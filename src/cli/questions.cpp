#include "cli/questions.hpp"

#include <fmt/core.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <iterator>

#include "base/suggestion.hpp"
#include "base/visible_text.hpp"
#include "cli/files.hpp"
#include "cli/terminal.hpp"
#include "firstdrop/base/error.hpp"

namespace firstdrop::cli {
namespace {

// Reads a line of standard input; false at its end. Reads byte by byte, so that the rest is left
// for the next reader.
bool read_line(std::string& line) {
  line.clear();
  for (;;) {
    char c = 0;
    const ssize_t n = ::read(STDIN_FILENO, &c, 1);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return !line.empty();
    if (c == '\n') return true;
    line += c;
  }
}

std::string trimmed(const std::string& text) {
  constexpr const char* blank = " \t\r";
  const std::size_t from = text.find_first_not_of(blank);
  return from == std::string::npos ? ""
                                   : text.substr(from, text.find_last_not_of(blank) - from + 1);
}

// For comparing names: lower case, with a blank for each hyphen or underscore.
std::string folded(std::string text) {
  for (char& c : text) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    if (c == '-' || c == '_') c = ' ';
  }
  return text;
}

std::vector<std::string> names_of(const Choice& choice) {
  std::vector<std::string> names = {choice.name};
  names.insert(names.end(), choice.other_names.begin(), choice.other_names.end());
  return names;
}

}  // namespace

bool somebody_answers() {
  return isatty(STDIN_FILENO) == 1;
}

std::string answer_to(const std::string& question, const std::string& fallback) {
  say(question + (fallback.empty() ? "" : " [" + fallback + "]") + ": ");
  std::string line;
  if (!read_line(line)) {
    say("\n");
    throw InputError(Fault{"", "", "The answers ended too early", "Answer each question",
                           "nothing was written", 0, 0});
  }
  const std::string answer = trimmed(line);
  return answer.empty() ? fallback : answer;
}

std::string list_of(const std::vector<Choice>& choices, bool numbered) {
  int width = 0;
  for (const Choice& choice : choices) width = std::max(width, text_width(choice.name));
  std::string list;
  int number = 0;
  for (const Choice& choice : choices) {
    ++number;
    const std::string name = choice.about.empty() ? choice.name : padded(choice.name, width) + "  ";
    list +=
        wrapped((numbered ? fmt::format("  {:>2}  ", number) : "  ") + name, choice.about, Look{});
  }
  return list;
}

std::vector<std::size_t> meant_by(const std::string& answer, const std::vector<Choice>& choices) {
  const std::string wanted = folded(answer);
  std::vector<std::size_t> meant;
  for (std::size_t i = 0; i < choices.size(); ++i) {
    bool stands_in_it = false;
    for (const std::string& name : names_of(choices[i])) {
      if (folded(name) == wanted) return {i};
      stands_in_it = stands_in_it || folded(name).find(wanted) != std::string::npos;
    }
    if (stands_in_it) meant.push_back(i);
  }
  return meant;
}

std::string not_clear(const std::string& answer, const std::vector<Choice>& choices,
                      const std::vector<std::size_t>& meant) {
  if (!meant.empty()) {
    std::vector<Choice> those;
    for (const std::size_t i : meant) those.push_back(choices[i]);
    return list_of(those, false) +
           fmt::format("{} may be any of these; say more of it.\n", firstdrop::quoted(answer));
  }
  std::vector<std::string> names;
  std::transform(choices.begin(), choices.end(), std::back_inserter(names),
                 [](const Choice& choice) { return choice.name; });
  const std::string hint = did_you_mean(answer, names);
  return fmt::format("There is no {}{}\n", firstdrop::quoted(answer),
                     hint.empty() ? "." : "; " + hint);
}

std::optional<std::string> chosen(const std::string& answer, const std::vector<Choice>& choices) {
  std::vector<std::size_t> meant = meant_by(answer, choices);
  for (std::size_t i = 0; i < choices.size(); ++i)
    if (answer == fmt::format("{}", i + 1)) meant = {i};
  if (meant.size() != 1) {
    say(not_clear(answer, choices, meant));
    return std::nullopt;
  }
  const std::string& name = choices[meant.front()].name;
  if (name != answer) say("  " + name + "\n");
  return name;
}

std::string one_of(const std::string& question, const std::vector<Choice>& choices,
                   const std::string& fallback) {
  say(list_of(choices, true));
  for (;;) {
    if (const auto choice = chosen(answer_to(question, fallback), choices)) return *choice;
  }
}

}  // namespace firstdrop::cli
