// Strict reading of JSON: the text becomes a small tree, and cursors walk it, checking the kind of
// everything before they use it. Whatever is wrong is collected with its JSON pointer, so that one
// pass over a file reports all of its faults.
//
// Private to the readers of tables, recipes and campaigns. They see no JSON library:
// json_reader.cpp calls its parser. What is written, and the schemas, use the library's own values.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "firstdrop/base/error.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"
#include "quantity/bounds.hpp"

namespace firstdrop::json {

enum class Kind { null, boolean, number, text, list, object };

struct Node {
  Kind kind = Kind::null;
  std::string key;  ///< its name in the object that holds it; empty in a list
  std::string text;
  double number = 0.0;
  std::optional<std::uint64_t> whole;  ///< set for a number written as a non-negative integer
  bool truth = false;
  std::vector<Node> children;  ///< in the order of the file
};

/// What holds for one text while it is read, and what was found wrong with it.
struct Context {
  std::string file;
  /// Sources that figures may name; null while they are not known (no check then).
  const std::map<std::string, Source>* sources = nullptr;
  /// The shipped tables: every figure is an object with its evidence, and none was measured here.
  bool shipped = false;
  /// A part of them: a table may be empty.
  bool partial = false;
  std::vector<Fault> faults = {};
  std::size_t left_out = 0;  ///< faults beyond those that are kept
  /// Values that do not come from the text: their pointers, and the options that gave them.
  std::vector<std::pair<std::string, std::string>> given = {};

  void add(Fault fault);
  /// No more faults are kept, only counted.
  bool full() const;
  /// Throws InputError if anything was wrong.
  void finish() const;
};

/// Text to tree. Syntax errors (with line and column), duplicate keys, nesting over 32 levels,
/// numbers beyond double precision's range, NUL bytes and text that is not UTF-8 are faults.
/// A byte order mark at the start is skipped. Nothing comes back if the text is not JSON.
std::optional<Node> parse(std::string_view text, Context& context);

/// Whether a text is JSON at all.
bool is_json(std::string_view text);

/// A key as a step of a JSON pointer (RFC 6901), made fit for a message.
std::string pointer_token(std::string_view key);
/// What stands there, for a message.
std::string described(const Node& node);

/// "a, b or c".
std::string either(const std::vector<std::string>& names);

/// "a mass with its unit: g, kg, …", for messages.
template <class Q>
std::string wanted_of();

/// A place in the tree. The value that holds it must outlive it.
class Value {
 public:
  Value(const Node& node, Context& context, const Value* parent = nullptr)
      : node_(&node), context_(&context), parent_(parent) {}

  const Node& node() const { return *node_; }
  Context& context() const { return *context_; }
  std::string_view key() const { return node_->key; }
  bool is(Kind kind) const { return node_->kind == kind; }
  std::string pointer() const;

  void fault(std::string found, std::string wanted, std::string hint = {}) const;
  /// A fault whose `found` is the value itself.
  void refuse(std::string wanted, std::string hint = {}) const;
  /// A name that is not in a list of valid ones.
  void refuse_name(const std::vector<std::string>& names, const std::string& of_what,
                   std::string hint = {}) const;

  /// Text without control characters.
  std::optional<std::string> text() const;
  /// The same, and not empty.
  std::optional<std::string> words() const;
  std::optional<double> number(double low, double high) const;
  std::optional<std::uint64_t> whole_number() const;
  std::optional<bool> truth() const;
  /// Its members or items.
  std::vector<Value> members() const;
  std::vector<Value> items() const;

  template <class Q>
  std::optional<Q> quantity(const Bounds<Q>& bounds) const;
  /// A figure with its evidence. Without a basis if it could not be read, see was_read().
  template <class Q>
  Cited<Q> figure(const Bounds<Q>& bounds) const;

  /// One of the values of an enumeration, by name.
  template <class E, std::size_t n>
  std::optional<E> choice(const std::array<E, n>& all, const std::string& of_what) const {
    if (is(Kind::text))
      for (const E value : all)
        if (to_string(value) == node_->text) return value;
    std::vector<std::string> names;
    for (const E value : all) names.push_back(to_string(value));
    refuse_name(names, of_what);
    return std::nullopt;
  }

 private:
  const Node* node_;
  Context* context_;
  const Value* parent_;
};

/// An object whose keys are asked for one by one; finish() reports those that nobody asked for.
class Object {
 public:
  /// A fault if the value is no object; then no further faults come from it.
  explicit Object(const Value& value);
  Object(const Object&) = delete;
  Object& operator=(const Object&) = delete;

  const Value& value() const { return value_; }
  std::optional<Value> optional(std::string_view key);
  std::optional<Value> required(std::string_view key, std::string_view wanted);
  void fault_at(std::string_view key, std::string found, std::string wanted,
                std::string hint = {}) const;

  /// A fault, unless this is no object at all, which is a fault already.
  void missing(std::string_view key, std::string wanted) const;

  /// The format version, the document's marker: must be 1.
  void marker(std::string_view key, bool may_be_missing = false);
  void words(std::string_view key, std::string& into, std::string_view wanted);
  void optional_text(std::string_view key, std::string& into);
  /// Keys that are allowed and mean nothing to the planner.
  void remarks();
  Evidence evidence();

  template <class Q>
  void optional_quantity(std::string_view key, std::optional<Q>& into, const Bounds<Q>& bounds) {
    if (const auto value = optional(key)) into = value->quantity(bounds);
  }
  /// Whether it could be read.
  template <class Q>
  bool quantity(std::string_view key, Q& into, const Bounds<Q>& bounds) {
    const auto value = optional(key);
    if (!value) {
      missing(key, wanted_of<Q>());
      return false;
    }
    const auto read = value->quantity(bounds);
    if (read) into = *read;
    return read.has_value();
  }
  template <class Q>
  void figure(std::string_view key, Cited<Q>& into, const Bounds<Q>& bounds);
  template <class Q>
  void optional_figure(std::string_view key, std::optional<Cited<Q>>& into,
                       const Bounds<Q>& bounds) {
    if (const auto value = optional(key)) into = value->figure(bounds);
  }

  void finish() const;

 private:
  const Value value_;
  std::vector<std::string> asked_;
};

/// Whether a figure could be read; checks between figures need both.
template <class T>
bool was_read(const Cited<T>& figure) {
  return !figure.evidence.basis.empty();
}

}  // namespace firstdrop::json
