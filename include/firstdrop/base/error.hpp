/// @file
/// Errors: what went wrong, where, and what to write instead.
#pragma once

#include <exception>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace firstdrop {

/// One thing that is wrong with the input.
struct Fault {
  std::string file;     ///< the file as the person named it; empty if there is none
  std::string pointer;  ///< RFC 6901 JSON pointer to the key; empty for the whole document
  /// What the input has there: a phrase that can follow "Found", or a sentence if it begins with a
  /// capital letter. "nothing" means that the key is missing.
  std::string found;
  /// What would be accepted: a phrase that can follow "Write", or a sentence if it begins with a
  /// capital letter.
  std::string wanted;
  std::string hint;  ///< a way to fix it, or the nearest valid name; may be empty
  int line = 0;      ///< 1-based; 0 if unknown or if the value isn't from a file
  int column = 0;    ///< 1-based, in characters; 0 if unknown

  /// Whether the fault is about the key itself (missing, unknown, given twice), not its value.
  bool is_about_key() const;
  /// "file:line:column: goal: hydrosol: Found …. Write …. Hint." in one line, without the parts
  /// that are empty. Control characters are made visible, so it is safe to print.
  std::string text() const;
};

/// The base of every error that this library defines. If memory runs out or a thread can't be
/// started, the exception is the standard library's.
class Error : public std::exception {
 public:
  /// An error with this text, a sentence for people.
  explicit Error(std::string text) : text_(std::move(text)) {}
  /// The text.
  const char* what() const noexcept override { return text_.c_str(); }

 private:
  std::string text_;
};

/// Input that can't be used. It holds every fault that was found, not only the first. what() gives
/// Fault::text() of each on a line of its own, without a line feed after the last.
class InputError : public Error {
 public:
  /// An error with all of these faults.
  explicit InputError(std::vector<Fault> faults);
  /// An error with a single fault.
  explicit InputError(Fault fault);
  /// The faults, in the order in which they were found.
  const std::vector<Fault>& faults() const { return faults_; }

 private:
  std::vector<Fault> faults_;
};

/// A value outside the range of a function. Its equation doesn't hold there (nothing is
/// extrapolated) or isn't known, a clock time is past the year 9999, or a campaign has no run of
/// that number. what() says which; for an equation it gives the value and the range.
class RangeError : public Error {
 public:
  using Error::Error;
};

/// A refused plan was asked for amounts to work from; see Plan::runnable().
class RefusedError : public Error {
 public:
  using Error::Error;
};

/// A value, or the reason why there is none.
template <class T>
struct Parsed {
  std::optional<T> value;  ///< none if there is a fault
  Fault fault;             ///< meaningful only if there is no value

  /// Whether there is a value.
  explicit operator bool() const { return value.has_value(); }
  /// The value; there must be one.
  const T& operator*() const { return *value; }
};

/// The name in `names` closest to `word` by edit distance (Levenshtein), or "" if none is near. A
/// near name is at most two edits away, or a third of the word's length if that is more. A name
/// that differs in every letter is never near. Case doesn't count, and a hyphen counts as an
/// underscore. If several names are equally near, the first one is returned. If none is near,
/// the only name that contains the word is, if the word has four letters or more.
std::string nearest_name(const std::string& word, const std::vector<std::string>& names);

}  // namespace firstdrop
