/// @file
/// Errors: what went wrong, where, and what to write instead.
#pragma once

#include <exception>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace firstdrop {

/// One thing that is wrong with what was given to us.
struct Fault {
  std::string file;     ///< the file as the person named it; empty when there is none
  std::string pointer;  ///< RFC 6901 JSON pointer to the key; empty for the whole document
  std::string found;    ///< what stands there
  std::string wanted;   ///< what would be accepted
  std::string hint;     ///< a way out or nearest valid name; may be empty
  int line = 0;         ///< 1-based, 0 when unknown (syntax errors only)
  int column = 0;       ///< 1-based, 0 when unknown

  /// "file:line:column: /pointer: found …; wanted …; hint" in one line, without what is empty.
  /// Control characters are made visible, so that it is safe to print.
  std::string text() const;
};

/// The base of every error of this library. Memory that runs out and threads that can't be started
/// throw what the standard library throws.
class Error : public std::exception {
 public:
  /// A sentence for people.
  explicit Error(std::string text) : text_(std::move(text)) {}
  /// That sentence.
  const char* what() const noexcept override { return text_.c_str(); }

 private:
  std::string text_;
};

/// Input that can't be used. It has every fault that was found, not only the first; what() has
/// Fault::text() of each on a line of its own, without a line end after the last.
class InputError : public Error {
 public:
  /// All of these faults.
  explicit InputError(std::vector<Fault> faults);
  /// A single fault.
  explicit InputError(Fault fault);
  /// The faults, in the order in which they were found.
  const std::vector<Fault>& faults() const { return faults_; }

 private:
  std::vector<Fault> faults_;
};

/// A value outside the range of a function: where its equation doesn't hold (nothing is
/// extrapolated), past the year 9999, or no number of a run. what() has the value and the range.
class RangeError : public Error {
 public:
  using Error::Error;
};

/// Amounts to work from were asked of a plan that may not be run; see Plan::runnable().
class RefusedError : public Error {
 public:
  using Error::Error;
};

/// A value, or the reason why there is none.
template <class T>
struct Parsed {
  std::optional<T> value;  ///< none when there is a fault
  Fault fault;             ///< meaningful only without a value

  /// Whether there is a value.
  explicit operator bool() const { return value.has_value(); }
  /// The value; there must be one.
  const T& operator*() const { return *value; }
};

/// The name in `names` closest to `word` by edit distance (Levenshtein), or "" when none is near:
/// more than a third of the word's letters off, or more than two in a short one. Case does not
/// count, nor does a hyphen for an underscore. Of equally near ones the first.
std::string nearest_name(const std::string& word, const std::vector<std::string>& names);

}  // namespace firstdrop
