// Strict reading of JSON. The text becomes a small tree. Cursors (Value) walk the tree and check
// the kind of each value before they use it. Faults are collected with their JSON pointers
// and places, so one pass over a file reports all of them.
//
// Private to the readers of tables, recipes and campaigns. They don't see the JSON library: only
// json_reader.cpp calls its parser. Code that writes JSON, and the schemas, use the library's
// types.
#pragma once

#include <concepts>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/words.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"
#include "quantity/bounds.hpp"

namespace firstdrop::json {

enum class Kind { null, boolean, number, text, list, object };

/// Marks a value that isn't from a text: it comes from an option or was made in code.
inline constexpr std::uint32_t no_place = 0xFFFFFFFF;

struct Node {
  Kind kind = Kind::null;
  std::uint32_t begin = no_place;  ///< where the value begins in the text, in bytes
  std::string key;                 ///< its name in the object that holds it; empty in a list
  std::string text;
  double number = 0.0;
  std::optional<std::uint64_t> whole;  ///< set for a number written as a non-negative integer
  bool truth = false;
  std::uint32_t key_begin = no_place;  ///< where the key begins in the text, in bytes
  std::vector<Node> children;          ///< in the order of the file
};

/// The settings for reading one text, and the faults found in it.
struct Context {
  std::string file;
  /// Sources that figures may name. Null if they aren't known; then names aren't checked.
  const std::map<std::string, Source>* sources = nullptr;
  /// The text is a shipped table. Every figure must be an object with its evidence, and none may be
  /// known as measured.
  bool shipped = false;
  /// The text is only a part of the tables, so a table may be empty.
  bool partial = false;
  std::vector<Fault> faults = {};
  std::size_t left_out = 0;  ///< faults that were only counted, because full()
  /// Values that come from options instead of the text: the pointer, and the option that gave it.
  std::vector<std::pair<std::string, std::string>> given = {};
  /// The text that was parsed last. It must live as long as faults are added.
  std::string_view text = {};

  void add(Fault fault);
  /// Adds a fault with the line and column of this byte of the text.
  void add_at(std::uint32_t begin, Fault fault);
  /// Adds a fault with the place of the node that its pointer leads to, or of the last node on the
  /// way that there is.
  void add_in(const Node& root, Fault fault);
  /// Whether further faults are only counted, not kept.
  bool full() const;
  /// Throws InputError with the faults, if there are any.
  void finish() const;
};

/// The longest text of one line, in bytes, such as a name, title or note: fifteen times the longest
/// in the shipped tables.
inline constexpr std::size_t longest_words = 10'000;

/// Parses a text into a tree. Faults are syntax errors, duplicate keys,
/// nesting over 32 levels, numbers beyond the range of double precision, NUL bytes, text that isn't
/// UTF-8, empty text and text over 8 000 000 bytes. A byte order mark at the start is skipped.
/// Returns nothing after any fault other than duplicate keys.
std::optional<Node> parse(std::string_view text, Context& context);
/// The text must live as long as faults are added, so it can't be a temporary.
template <class T>
requires std::same_as<T, std::string> std::optional<Node> parse(T&& text, Context& context)
= delete;

/// Whether a text is valid JSON.
bool is_json(std::string_view text);

/// A key as a step of a JSON pointer (RFC 6901), for a message: control characters are made
/// visible, and a long key is cut.
std::string pointer_token(std::string_view key);
/// Describes a value for a message: "a list", "the number 3".
std::string described(const Node& node);

/// Joins names for a message: "a, b or c".
std::string either(const std::vector<std::string>& names);

/// What a quantity must look like, for messages: "a mass with its unit: g, kg, …".
template <class Q>
std::string wanted_of();

/// Gives the node and all below it this place, for a value that stands in another text.
void set_place(Node& node, std::uint32_t begin);

/// A cursor to one node of the tree. Its parent value must outlive it.
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
  /// Adds this fault, which lacks only its place.
  void refuse_with(const Fault& fault) const;
  /// Adds a fault whose `found` describes this value.
  void refuse(std::string wanted, std::string hint = {}) const;
  /// Adds a fault for a name that isn't in the list of valid ones, and suggests the nearest.
  void refuse_name(const std::vector<std::string>& names, const std::string& of_what,
                   std::string hint = {}) const;

  /// The text. Control characters are a fault, and so is a text over 10 000 bytes.
  std::optional<std::string> text() const;
  /// The same as text(), but an empty or blank text is a fault, too.
  std::optional<std::string> words() const;
  std::optional<double> number(double low, double high) const;
  std::optional<std::uint64_t> whole_number() const;
  std::optional<bool> truth() const;
  /// The members of an object, or the items of a list. Any other kind is a fault.
  std::vector<Value> members() const;
  std::vector<Value> items() const;

  template <class Q>
  std::optional<Q> quantity(const Bounds<Q>& bounds) const;
  /// A figure with its evidence. The basis is empty if the figure couldn't be read.
  template <class Q>
  Cited<Q> figure(const Bounds<Q>& bounds) const;

  /// The value of the enumeration with this word.
  template <class E>
  std::optional<E> choice() const {
    if (is(Kind::text))
      if (const auto value = value_of<E>(node_->text)) return value;
    refuse_name(all_words<E>(), "");
    return std::nullopt;
  }

  /// The value under a key of an object, if it is there.
  std::optional<Value> member(std::string_view key) const;
  /// The same; a missing key is a fault.
  std::optional<Value> needed(std::string_view key, std::string_view wanted) const;
  /// Adds a fault for a missing key. A value that isn't an object has a fault already, so this adds
  /// none.
  void missing(std::string_view key, std::string wanted) const;
  /// Adds a fault at a key of the object, whether it is there or not.
  void fault_at(std::string_view key, std::string found, std::string wanted,
                std::string hint = {}) const;
  /// Adds a fault for this value's key, which should be one of these names.
  void refuse_key(const std::vector<std::string>& names) const;
  /// Adds such a fault for each key of the object that is none of these names.
  void refuse_other_keys(const std::vector<std::string_view>& names) const;
  /// Reads basis, source and known.
  Evidence evidence() const;

 private:
  const Node* node_;
  Context* context_;
  const Value* parent_;
};

}  // namespace firstdrop::json
