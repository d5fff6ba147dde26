#include "cli/questions.hpp"

#include <fmt/core.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <numeric>

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

// A longer list would scroll the question away.
constexpr std::size_t most_listed = 20;

std::vector<std::string> names_of(const Choice& choice) {
  std::vector<std::string> names = {choice.name};
  names.insert(names.end(), choice.other_names.begin(), choice.other_names.end());
  return names;
}

// Some of the choices; each keeps its number in the list of all.
std::string list_of_some(const std::vector<Choice>& choices, const std::vector<std::size_t>& some,
                         bool numbered) {
  int width = 0;
  for (const std::size_t i : some) width = std::max(width, text_width(choices[i].name));
  std::string list;
  for (const std::size_t i : some) {
    const Choice& choice = choices[i];
    const std::string lead = numbered ? fmt::format("  {:>2}  ", i + 1) : "  ";
    list += choice.about.empty()
                ? wrapped(lead, choice.name, Look{})
                : wrapped(lead + padded(choice.name, width) + "  ", choice.about, Look{});
  }
  return list;
}

// The choices with names near the answer.
std::vector<std::size_t> near_choices(const std::string& answer,
                                      const std::vector<Choice>& choices) {
  std::vector<KnownName> known;
  for (const Choice& choice : choices) known.push_back({choice.name, choice.other_names});
  std::vector<std::size_t> near;
  for (const std::string& name : near_names(answer, known))
    for (std::size_t i = 0; i < choices.size(); ++i)
      if (choices[i].name == name) near.push_back(i);
  return near;
}

// The reply to an answer that isn't a single choice.
std::string not_clear(const std::string& answer, const std::vector<Choice>& choices,
                      const std::vector<std::size_t>& meant, bool numbered) {
  const std::string said = firstdrop::quoted(answer);
  if (answer.empty()) return "This has no default. Choose one.\n";
  if (!meant.empty())
    return list_of_some(choices, meant, numbered) +
           fmt::format("{} may be any of these; say more of it.\n", said);
  if (numbered)
    return list_of(choices, true) +
           fmt::format("There is no {}. Answer with a number or a name from the list.\n", said);
  const std::vector<std::size_t> near = near_choices(answer, choices);
  if (near.empty()) return fmt::format("There is no {}. Answer ? to list all.\n", said);
  return fmt::format("There is no {}. The nearest:\n", said) + list_of_some(choices, near, false) +
         "Answer ? to list all.\n";
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
  std::vector<std::size_t> all(choices.size());
  std::iota(all.begin(), all.end(), std::size_t{0});
  return list_of_some(choices, all, numbered);
}

std::vector<std::size_t> meant_by(const std::string& answer, const std::vector<Choice>& choices) {
  const std::string wanted = plain_name(answer);
  std::vector<std::size_t> meant;
  for (std::size_t i = 0; i < choices.size(); ++i) {
    bool stands_in_it = false;
    for (const std::string& name : names_of(choices[i])) {
      if (plain_name(name) == wanted) return {i};
      stands_in_it = stands_in_it || plain_name(name).find(wanted) != std::string::npos;
    }
    if (stands_in_it) meant.push_back(i);
  }
  return meant;
}

std::string one_of(const std::string& question, const std::vector<Choice>& choices,
                   const std::string& fallback, const OtherAnswer& other) {
  const bool numbered = choices.size() <= most_listed;
  if (numbered) say(list_of(choices, true));
  for (;;) {
    std::string answer = answer_to(question, fallback);
    if (answer == "?") {
      say(list_of(choices, numbered));
      continue;
    }
    const std::optional<bool> taken = other ? other(answer) : std::nullopt;
    if (taken && *taken) return answer;
    if (taken) continue;
    std::vector<std::size_t> meant = meant_by(answer, choices);
    for (std::size_t i = 0; numbered && i < choices.size(); ++i)
      if (answer == fmt::format("{}", i + 1)) meant = {i};
    if (meant.size() != 1 || answer.empty()) {
      say(not_clear(answer, choices, meant, numbered));
      continue;
    }
    const Choice& choice = choices[meant.front()];
    if (!numbered)
      say(fmt::format("  {}: {}\n", choice.name, choice.about));
    else if (choice.name != answer)
      say("  " + choice.name + "\n");
    return choice.name;
  }
}

std::string pointer_to(std::string path) {
  std::replace(path.begin(), path.end(), '.', '/');
  return '/' + path;
}

std::string faults_of_answer(const std::string& pointer, const std::function<void()>& read) {
  std::string words;
  try {
    read();
  } catch (const InputError& error) {
    for (Fault fault : error.faults()) {
      if (fault.file.empty() && fault.pointer != pointer) continue;
      if (fault.file.empty()) {
        fault.pointer.clear();
        fault.line = fault.column = 0;  // in a text that nobody has seen
      }
      words += fault.text() + "\n";
    }
  }
  return words;
}

}  // namespace firstdrop::cli
