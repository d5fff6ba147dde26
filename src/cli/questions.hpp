// Questions to a person at the terminal: asked on standard error, answered on standard input.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace firstdrop::cli {

/// Whether somebody can be asked.
bool somebody_answers();

/// One answer, without the blanks around it; `fallback` stands in brackets after the question and
/// is taken for an empty one. Throws InputError when no more answers come (end of input, Ctrl-D).
std::string answer_to(const std::string& question, const std::string& fallback = {});

struct Choice {
  std::string name;
  std::string about;                          ///< shown beside it in a list; may be empty
  std::vector<std::string> other_names = {};  ///< found by these too
};

/// A list of choices, with their numbers or without.
std::string list_of(const std::vector<Choice>& choices, bool numbered);

/// Which choices an answer may mean: the one that is called just so, else all in whose names it
/// stands, case and the kind of hyphen aside.
std::vector<std::size_t> meant_by(const std::string& answer, const std::vector<Choice>& choices);

/// What to say where an answer is not clear: what it may mean, or the nearest name.
std::string not_clear(const std::string& answer, const std::vector<Choice>& choices,
                      const std::vector<std::size_t>& meant);

/// The name of the choice that a number, a name or enough of a name stands for. Says why none does.
std::optional<std::string> chosen(const std::string& answer, const std::vector<Choice>& choices);

/// The name of one of a few, which are listed with numbers. Asked again until one is clear.
std::string one_of(const std::string& question, const std::vector<Choice>& choices,
                   const std::string& fallback);

}  // namespace firstdrop::cli
