// Questions to a person at the terminal: asked on standard error, answered on standard input.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace firstdrop::cli {

/// Whether standard input is a terminal, where somebody can answer.
bool somebody_answers();

/// Asks a question and returns the answer without the blanks around it. `fallback` is shown in
/// brackets and replaces an empty answer. Throws InputError at the end of input (Ctrl-D).
std::string answer_to(const std::string& question, const std::string& fallback = {});

struct Choice {
  std::string name;
  std::string about;                          ///< shown beside it in a list; may be empty
  std::vector<std::string> other_names = {};  ///< also found by these
};

/// A list of choices, with or without numbers.
std::string list_of(const std::vector<Choice>& choices, bool numbered);

/// The choices that an answer may mean: the one with exactly that name, or else all whose names
/// contain it. Case and hyphens, underscores or blanks make no difference.
std::vector<std::size_t> meant_by(const std::string& answer, const std::vector<Choice>& choices);

/// The reply to an unclear answer: what it may mean, or the nearest name.
std::string not_clear(const std::string& answer, const std::vector<Choice>& choices,
                      const std::vector<std::size_t>& meant);

/// The name of the choice that a number, a name or part of a name stands for. If there is no single
/// one, prints why.
std::optional<std::string> chosen(const std::string& answer, const std::vector<Choice>& choices);

/// Lists a few choices with numbers, and asks until one is chosen. Returns its name.
std::string one_of(const std::string& question, const std::vector<Choice>& choices,
                   const std::string& fallback);

}  // namespace firstdrop::cli
