// Questions to a person at the terminal: asked on standard error, answered on standard input.
#pragma once

#include <cstddef>
#include <functional>
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
  std::string about = {};                     ///< shown beside it in a list; may be empty
  std::vector<std::string> other_names = {};  ///< also found by these
};

/// A list of choices, with or without numbers.
std::string list_of(const std::vector<Choice>& choices, bool numbered);

/// The choices that an answer may mean: the one with exactly that name, or else all whose names
/// contain it. Case and hyphens, underscores or blanks make no difference.
std::vector<std::size_t> meant_by(const std::string& answer, const std::vector<Choice>& choices);

/// Takes an answer that isn't one of the choices, such as the name of a file. Returns whether it
/// is good, after it has said what is wrong with it; nothing if it isn't of that kind at all.
using OtherAnswer = std::function<std::optional<bool>(const std::string& answer)>;

/// Asks until one choice is meant, and returns its name, or an answer that `other` takes. A few
/// choices are listed with numbers before the question, and again after an unclear answer. Of many
/// choices an unclear answer lists only the near ones, and ? lists all.
std::string one_of(const std::string& question, const std::vector<Choice>& choices,
                   const std::string& fallback = {}, const OtherAnswer& other = {});

/// The pointer to the key with this path: "/site/altitude" for "site.altitude".
std::string pointer_to(std::string path);

/// What the strict reader says of an answer: the faults of `read` at this pointer, and those of
/// files that the answer names. Empty if there are none.
std::string faults_of_answer(const std::string& pointer, const std::function<void()>& read);

}  // namespace firstdrop::cli
