#include "firstdrop/base/error.hpp"

#include <cstddef>
#include <string_view>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"

namespace firstdrop {

namespace {

std::string joined(const std::vector<Fault>& faults) {
  if (faults.empty()) return "the input cannot be used";
  std::string text;
  for (const Fault& fault : faults) {
    if (!text.empty()) text += '\n';
    text += fault.text();
  }
  return text;
}

/// Begins with a capital letter, so it is a sentence by itself.
bool is_sentence(std::string_view words) {
  return !words.empty() && words.front() >= 'A' && words.front() <= 'Z';
}

/// The steps of a JSON pointer, without its escapes.
std::vector<std::string> steps_of(std::string_view pointer) {
  std::vector<std::string> steps;
  for (std::size_t i = 0; i < pointer.size(); ++i) {
    if (pointer[i] == '/') {
      steps.emplace_back();
    } else if (pointer[i] == '~' && i + 1 < pointer.size()) {
      steps.back() += pointer[++i] == '1' ? '/' : '~';
    } else {
      steps.back() += pointer[i];
    }
  }
  return steps;
}

/// A key as it stands in the file; in quotes if it could be taken for something else.
std::string as_written(const std::string& key) {
  constexpr std::string_view plain =
      "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_.$";
  const bool is_plain = !key.empty() && key.find_first_not_of(plain) == std::string::npos;
  return is_plain ? key : '"' + key + '"';
}

/// "work, item 2: wanted: oil". A document is never a list, so the first step is always a key.
std::string in_words(const std::vector<std::string>& steps) {
  std::string words;
  for (const std::string& step : steps) {
    const bool is_index = !words.empty() && !step.empty() && step.size() < 10 &&
                          step.find_first_not_of("0123456789") == std::string::npos;
    if (is_index)
      words += ", item " + std::to_string(std::stol(step) + 1);
    else
      words += (words.empty() ? "" : ": ") + as_written(step);
  }
  return words;
}

bool is_missing(std::string_view found) {
  return found == "nothing" || found.starts_with("nothing,");
}

}  // namespace

bool Fault::is_about_key() const {
  return !pointer.empty() && (is_missing(found) || found.starts_with("the key ") ||
                              found.starts_with("the unknown key "));
}

std::string Fault::text() const {
  std::string text;
  if (!file.empty()) text += visible(file);
  if (line > 0) {
    text += (text.empty() ? "line " : ":") + std::to_string(line);
    if (column > 0) text += (file.empty() ? ", column " : ":") + std::to_string(column);
  }
  const auto add = [&text](const char* before, const std::string& more) {
    if (!more.empty()) text += (text.empty() ? "" : before) + more;
  };

  // `new` puts an option here instead of a pointer.
  const bool is_option = !pointer.empty() && pointer.front() != '/';
  std::vector<std::string> steps;
  std::string says;
  if (!found.empty()) says = (is_sentence(found) ? "" : "Found ") + visible(found);
  if (is_option) {
    if (is_missing(found))
      says = "The option " + visible(pointer) + " is missing";
    else
      add(": ", visible(pointer));
  } else {
    steps = steps_of(visible(pointer));
    if (is_about_key()) {
      if (is_missing(found))
        says = "The key \"" + steps.back() + "\" is missing" + visible(found.substr(7));
      steps.pop_back();
    }
    add(": ", in_words(steps));
  }
  add(": ", as_sentence(says));
  const char* before = says.empty() ? ": " : " ";
  if (!wanted.empty()) {
    add(before, as_sentence((is_sentence(wanted) ? "" : "Write ") + visible(wanted)));
    before = " ";
  }
  add(before, as_sentence(visible(hint)));
  return text;
}

InputError::InputError(std::vector<Fault> faults)
    : Error(joined(faults)), faults_(std::move(faults)) {}

InputError::InputError(Fault fault) : InputError(std::vector<Fault>{std::move(fault)}) {}

}  // namespace firstdrop
