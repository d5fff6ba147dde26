// What a document may hold, described key by key. The strict readers, the check of objects made in
// code, the JSON Schemas, the man pages, the completions and the fuzzers' words all come from here.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/bounds.hpp"
#include "quantity/quantity_kind.hpp"

namespace firstdrop {

/// The kind of value under a key.
enum class KeyForm {
  version,       ///< the number 1, which also marks the kind of document
  remark,        ///< text that firstdrop doesn't use
  text,          ///< one line of text, which may be empty
  words,         ///< one line of text that isn't empty
  truth,         ///< true or false
  number,        ///< a plain number
  whole_number,  ///< zero or more
  quantity,      ///< a number and its unit in one text
  figure,        ///< a quantity, or an object with its range and where it comes from
  choice,        ///< one of a few words
  name,          ///< a key of a table
  reference,     ///< a key of a table, the path of a file, or an object
  day,           ///< "2026-06-20"
  time_of_day,   ///< "09:30"
  minute,        ///< "2026-06-20T09:30"
  special,       ///< text of a form of its own; see Key::pattern
  object,        ///< an object with the keys of Key::keys
  map,           ///< an object whose keys are words or names; Key::keys has the one kind of value
  list,          ///< a list; Key::keys has the one kind of item
  any_text,      ///< text that firstdrop writes; Key::least is 1 if it is never empty
  range,         ///< the numbers p10, p50 and p90, which firstdrop writes
  any,           ///< any value
};

/// Where a key must be present.
enum class Need {
  no,        ///< nowhere
  always,    ///< everywhere
  in_file,   ///< in a file of its own, not inside another document
  in_table,  ///< in a shipped table, not in a person's own file
  by_rule,   ///< if other keys say so; Key::needed_if has the words
};

/// A kind of quantity with its bounds.
struct KeyQuantity {
  QuantityKind kind;
  std::string bounds;  ///< "from 1 to 50 °C"
  std::string middle;  ///< an amount in the middle of them: "25.5 °C"
};

/// One key of a document, or of an object in it.
struct Key {
  std::string name;  ///< as it is written; for a value of a map or list, what its key stands for
  KeyForm form = KeyForm::text;
  Need need = Need::no;
  bool outside_tables = false;  ///< a shipped table has no such key
  std::string help;             ///< what it is, in sentences; may be empty
  std::string needed_if;        ///< when it is needed, for Need::by_rule: "if methods names steam"
  std::string left_out;         ///< what holds without it, in a few words; may be empty
  std::string standard;         ///< the value that it then has, as a file would write it
  std::string example;          ///< likewise: text without its quotes, anything else as JSON
  std::string measure;          ///< how a person measures it, in sentences; may be empty
  bool has_default = false;     ///< a figure or name that the text "default" may stand for
  std::vector<KeyQuantity> quantities;  ///< of a quantity or figure; two if either kind will do
  bool one_value = false;               ///< a figure that must not be a range
  double low = 0.0;                     ///< of a number
  double high = 0.0;  ///< of a number; equal to low if there is no limit, infinite for none above
  std::vector<std::string> words;     ///< of a choice, or the keys of a map
  std::vector<std::string> meanings;  ///< of the words, in their order; each may be empty
  bool all_words = false;             ///< a map must have every one of its words
  std::string table;                  ///< of a name, a reference, or the keys of a map
  std::string pattern;                ///< of a special text: an ECMAScript regular expression
  std::string type;        ///< of an object or choice: its name among the schema's definitions
  std::vector<Key> keys;   ///< see KeyForm
  std::string rules;       ///< of an object: rules between its keys, as members of a JSON Schema
  bool evidence = false;   ///< an object that also says where it comes from
  std::size_t least = 0;   ///< the fewest items or members
  std::size_t most = 0;    ///< the most items; 0 for no limit
  bool each_once = false;  ///< a list whose items differ
  /// Keys of an object with the same word here are there together, or not at all. Of these, those
  /// with Need::no may still be missing.
  std::string together;
};

/// What a person can write for this key, for messages: "a mass with its unit: g, kg, mg, oz, lb".
std::string wanted_for(const Key& key);

/// The bounds of a quantity or figure in words: "from 1 g to 1000 kg". Of two kinds, each has its
/// own: "a mass from 0.001 g to 100 kg, or a volume from 0.001 mL to 100 L".
std::string bounds_in_words(const Key& key);

/// The keys of every object that says where it comes from: basis, source and known.
const std::vector<Key>& evidence_keys();
/// The keys of a range that firstdrop writes.
const std::vector<Key>& percentile_keys();
/// The keys of a figure with its range.
const std::vector<Key>& figure_keys();

/// The key with this path: "site.altitude". Throws std::out_of_range if there is none.
const Key& key_at(const std::vector<Key>& keys, const std::string& path);

/// Calls `visit` for each key of an object and of the objects in it, outer ones first. The path has
/// dots between keys and [] after a list, as "work[].wanted.oil".
void for_each_key(const std::vector<Key>& keys,
                  const std::function<void(const std::string& path, const Key& key)>& visit);

/// A document that firstdrop reads or writes.
struct Document {
  std::string name;  ///< "recipe", also the name of its schema
  std::string help;  ///< what it is, in one or two sentences
  Key root;          ///< an object
};

}  // namespace firstdrop
