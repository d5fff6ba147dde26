// One list for each object of a document: every key with its kind of value, bounds, default and
// meaning, and the member that it fills. The strict reader and the check of objects made in code
// run through that list. Key (readers/key.hpp) is the same list as plain data.
#pragma once

#include <algorithm>
#include <chrono>
#include <functional>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "base/words.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/quantity/source.hpp"
#include "firstdrop/tables/tables.hpp"
#include "json/json_reader.hpp"
#include "quantity/quantity_kind.hpp"
#include "quantity/water_amount.hpp"
#include "readers/key.hpp"

namespace firstdrop {

/// Where a plant or still is written.
enum class Form {
  table_entry,   ///< in the shipped tables, under its key
  own_file,      ///< in a user's own file, with the marker key
  inline_object  ///< in a recipe; the marker key may be missing
};

/// What reading a document needs besides its text.
struct Reading {
  const Tables& tables;
  Form form = Form::own_file;  ///< of the object that is read
  /// Reads a file by its path; see FileReader. Null if no files can be read.
  const std::function<std::string(const std::string& path)>* read_file = nullptr;
  /// A needed key that may be missing this time; empty if there is none.
  std::string_view may_lack = {};

  Reading as(Form other) const { return {tables, other, read_file}; }
};

/// Where a rule between several keys reports a fault. `path` is the key, with "/" before a key
/// inside it, or "" for the object itself.
class Report {
 public:
  using Fault = std::function<void(std::string_view path, std::string found, std::string wanted,
                                   std::string hint)>;
  explicit Report(Fault fault) : fault_(std::move(fault)) {}

  void fault(std::string_view path, std::string found, std::string wanted,
             std::string hint = {}) const {
    fault_(path, std::move(found), std::move(wanted), std::move(hint));
  }
  void missing(std::string_view path, std::string wanted) const {
    fault_(path, "nothing", std::move(wanted), {});
  }

 private:
  Fault fault_;
};

/// The keys that lead to a value of an object made in code, as they would in a file.
class KeyPath {
 public:
  KeyPath(std::string_view key, std::vector<Fault>& faults, const Tables& tables)
      : key_(key), faults_(&faults), tables_(&tables) {}
  KeyPath at(std::string_view key) const { return {key, *faults_, *tables_, this}; }

  const Tables& tables() const { return *tables_; }
  std::size_t fault_count() const { return faults_->size(); }
  void fault(std::string found, std::string wanted, std::string hint = {}) const;

 private:
  KeyPath(std::string_view key, std::vector<Fault>& faults, const Tables& tables,
          const KeyPath* outer)
      : key_(key), outer_(outer), faults_(&faults), tables_(&tables) {}
  std::string pointer() const;

  std::string_view key_;
  const KeyPath* outer_ = nullptr;
  std::vector<Fault>* faults_;
  const Tables* tables_;
};

/// What people are told about a key. Use string literals: only pointers are kept.
struct Says {
  const char* help = "";     ///< in sentences
  const char* example = "";  ///< as a file has it, without the quotes of a text
  const char* left_out = "";
  const char* standard = "";
  std::optional<Need> need = std::nullopt;  ///< if the member's type doesn't say it
  const char* needed_if = "";
  const char* measure = "";  ///< how a person measures it, in sentences
  /// A figure or name that may be left out of a person's own file, or be given as "default": then
  /// Fields::complete sets it. A shipped table must have it.
  bool has_default = false;
  bool outside_tables = false;
};

/// What an own file may write for a figure or name that has a default.
inline constexpr std::string_view default_word = "default";

/// Whether evidence is of some kind.
using EvidenceTest = bool (*)(const Evidence&);

/// A key of an object of type T.
template <class T>
struct Field {
  std::string_view name;
  Need need = Need::no;
  bool outside_tables = false;
  std::function<Key()> key;  ///< its description
  std::function<void(const json::Value&, T&, const Reading&)> read;
  /// Checks an object made in code; empty if there is nothing to check.
  std::function<void(const T&, const KeyPath&)> check;
  /// Adds the keys inside a plant or still that the key refers to. They are many, so they are added
  /// only where they are wanted.
  std::function<void(Key&)> inside = nullptr;
  /// Whether a figure under this key has evidence of some kind; empty if there are no figures.
  std::function<bool(const T&, EvidenceTest)> evidence = nullptr;
  std::string_view or_key = {};  ///< a key that may stand in its place; empty if there is none
};

/// The kind of document that this object is by its marker key: "recipe", "campaign", "still" or
/// "plant"; empty if it has none.
std::string_view marker_of(const json::Node& object);

namespace field_detail {

Key described(const char* name, KeyForm form, const Says& says, Need need);
bool is_needed(Need need, Form form);
/// Faults of rules, at the places of their keys in a text.
Report report_in(const json::Value& value);
/// Whether the text of an own file leaves it to the default.
bool is_default_word(const json::Value& value, const Says& says, const Reading& reading);
/// Like report_in(), for an object made in code.
Report report_at(const KeyPath& path);
/// Whether the value is a whole file of another kind than `type`, by its marker. That is one fault
/// then, and not one for each of its keys.
bool is_other_document(const json::Value& value, std::string_view type, const Reading& reading);
std::size_t faults_so_far(const json::Value& value);
/// Whether a list has from `least` to `most` items; if not, that is a fault.
bool has_items(const json::Value& value, std::size_t least, std::size_t most);
/// The day that a text stands for; anything else is a fault.
std::optional<std::chrono::local_days> day_from(const json::Value& value);

template <class Q>
KeyQuantity key_quantity(const Bounds<Q>& bounds) {
  const std::string middle = plain((bounds.low + bounds.high) / 2) + ' ' + bounds.unit;
  return {kind_within(bounds), bounds.text(), middle};
}

template <class Map>
std::vector<std::string> names_in(const Map& map) {
  std::vector<std::string> names;
  for (const auto& entry : map) names.push_back(entry.first);
  return names;
}

// NaN and infinity are outside every range.
template <class Q>
void check_amount(Q amount, const Bounds<Q>& bounds, const KeyPath& path) {
  if (!bounds.holds(amount))
    path.fault("an amount out of range", "a value " + bounds.text(), bounds.why);
}
template <class Q>
void check_figure(const Cited<Q>& figure, const Bounds<Q>& bounds, const KeyPath& path) {
  const Range<Q>& range = figure.range;
  if (!(range.ordered() && bounds.holds(range.low) && bounds.holds(range.high)))
    path.fault("an amount out of range", "a range " + bounds.text() + ", low to high", bounds.why);
  else if (*bounds.no_range && range.low < range.high)
    path.fault("a range", "one value", bounds.no_range);
}

/// What a member holds: M itself, or the value of an optional that may be missing.
template <class M>
struct Held {
  using Value = M;
  static constexpr bool optional = false;
  static const M* in(const M& member) { return &member; }
  static M& made(M& member) { return member; }
};
template <class M>
struct Held<std::optional<M>> {
  using Value = M;
  static constexpr bool optional = true;
  static const M* in(const std::optional<M>& member) { return member ? &*member : nullptr; }
  static M& made(std::optional<M>& member) { return member.emplace(); }
};

}  // namespace field_detail

/// The keys of an object of type T, in the order in which people read them.
template <class T>
struct Fields {
  const char* type = "";  ///< the name of this kind of object: "pot"
  std::vector<Field<T>> fields;
  Evidence T::*evidence = nullptr;  ///< of an object that also says where it comes from
  /// Rules between several keys. They are applied once the object is read without a fault.
  void (*rules)(const T&, const Tables&, const Report&) = nullptr;
  const char* schema_rules = "";  ///< those rules that JSON Schema can say, as members without { }
  /// Sets what was left to its default, once the object is read without a fault. The rules follow.
  void (*complete)(T&, const Tables&) = nullptr;

  /// Reads an object; faults go to the value's context. After a fault the result must not be used.
  void read(const json::Value& value, T& into, const Reading& reading) const {
    if (!value.is(json::Kind::object)) {
      value.refuse("an object, { … }");
      return;
    }
    if (field_detail::is_other_document(value, type, reading)) return;
    const std::size_t before = field_detail::faults_so_far(value);
    std::vector<std::string_view> names;
    names.reserve(fields.size() + 3);
    for (const Field<T>& field : fields) {
      if (field.outside_tables && reading.form == Form::table_entry) continue;
      names.push_back(field.name);
      if (const auto member = value.member(field.name))
        field.read(*member, into, reading);
      else if (field_detail::is_needed(field.need, reading.form) &&
               field.name != reading.may_lack &&
               (field.or_key.empty() || !value.member(field.or_key)))
        value.missing(field.name, wanted_for(field.key()));
    }
    if (evidence) {
      into.*evidence = value.evidence();
      names.insert(names.end(), {"basis", "source", "known"});
    }
    value.refuse_other_keys(names);
    if (complete && field_detail::faults_so_far(value) == before) complete(into, reading.tables);
    if (rules && field_detail::faults_so_far(value) == before)
      rules(into, reading.tables, field_detail::report_in(value));
  }

  /// Checks an object made in code against the bounds and rules that a file is read by.
  void check(const T& object, const KeyPath& path) const {
    const std::size_t before = path.fault_count();
    for (const Field<T>& field : fields)
      if (field.check) field.check(object, path.at(field.name));
    if (rules && path.fault_count() == before)
      rules(object, path.tables(), field_detail::report_at(path));
  }

  /// Whether any figure in the object has such evidence.
  bool any_evidence(const T& object, EvidenceTest is) const {
    for (const Field<T>& field : fields)
      if (field.evidence && field.evidence(object, is)) return true;
    return false;
  }

  /// The keys as plain data, without reader and check.
  std::vector<Key> keys() const {
    std::vector<Key> all;
    for (const Field<T>& field : fields) {
      all.push_back(field.key());
      if (field.inside) field.inside(all.back());
    }
    if (evidence) all.insert(all.end(), evidence_keys().begin(), evidence_keys().end());
    return all;
  }
  /// Fills in what a key says of the object that it holds.
  void describe(Key& key) const {
    key.type = type;
    key.keys = keys();
    key.rules = schema_rules;
    key.evidence = evidence != nullptr;
  }
};

// --- the kinds of fields ------------------------------------------------------------------------

/// A field with its own reader and check.
template <class T, class Read, class Check = std::nullptr_t>
Field<T> field(const char* name, KeyForm form, const Says& says, Read read, Check check = nullptr,
               const std::function<void(Key&)>& more = nullptr, Need usual = Need::no) {
  const Need need = says.need.value_or(usual);
  return {name,
          need,
          says.outside_tables,
          [=] {
            Key key = field_detail::described(name, form, says, need);
            if (more) more(key);
            return key;
          },
          read,
          check};
}

/// The format version: the number 1 under the name of the kind of document.
template <class T>
Field<T> version(const char* name, const char* help) {
  return field<T>(name, KeyForm::version,
                  {.help = help, .need = Need::in_file, .outside_tables = true},
                  [=](const json::Value& value, T&, const Reading&) {
                    if (value.node().whole != 1)
                      value.refuse(std::string("the format version, \"") + name + "\": 1");
                  });
}

/// Text that means nothing to the planner.
template <class T>
Field<T> remark(const char* name, const Says& says) {
  return field<T>(name, KeyForm::remark, says,
                  [](const json::Value& value, T&, const Reading&) { value.text(); });
}

/// The two remarks that every document takes.
template <class T>
Field<T> schema_remark() {
  return remark<T>("$schema",
                   {.help = "For editors: the path or address of this document's schema, "
                            "see `firstdrop schemas`. firstdrop doesn't use it."});
}
template <class T>
Field<T> note_remark() {
  return remark<T>("note", {.help = "A remark for people; the planner doesn't use it."});
}

/// Text that may be empty.
template <class T>
Field<T> text_field(const char* name, std::string T::*member, const Says& says) {
  return field<T>(name, KeyForm::text, says,
                  [=](const json::Value& value, T& into, const Reading&) {
                    into.*member = value.text().value_or("");
                  });
}

/// Text that isn't empty; needed, unless `says` has another need.
template <class T>
Field<T> words_field(const char* name, std::string T::*member, const Says& says) {
  return field<T>(
      name, KeyForm::words, says,
      [=](const json::Value& value, T& into, const Reading&) {
        into.*member = value.words().value_or("");
      },
      nullptr, nullptr, Need::always);
}

/// A list of texts that aren't empty.
template <class T>
Field<T> texts_field(const char* name, std::vector<std::string> T::*member, const Says& says) {
  return field<T>(
      name, KeyForm::list, says,
      [=](const json::Value& value, T& into, const Reading&) {
        for (const json::Value& item : value.items())
          if (const auto text = item.words()) (into.*member).push_back(*text);
      },
      nullptr,
      [](Key& key) { key.keys = {field_detail::described("", KeyForm::words, {}, Need::no)}; });
}

template <class T>
Field<T> truth_field(const char* name, bool T::*member, const Says& says) {
  return field<T>(name, KeyForm::truth, says,
                  [=](const json::Value& value, T& into, const Reading&) {
                    into.*member = value.truth().value_or(false);
                  });
}

/// A plain number. M is double, or an optional of it.
template <class T, class M>
Field<T> number_field(const char* name, M T::*member, double low, double high, const Says& says) {
  return field<T>(
      name, KeyForm::number, says,
      [=](const json::Value& value, T& into, const Reading&) {
        if (const auto number = value.number(low, high)) into.*member = *number;
      },
      [=](const T& from, const KeyPath& path) {
        const std::optional<double> number = from.*member;
        if (number && !(*number >= low && *number <= high))
          path.fault("a number out of range",
                     "a value " + bounds_text(low, high, "", false, false, nullptr));
      },
      [=](Key& key) {
        key.low = low;
        key.high = high;
      });
}

/// How many there are of something, `least` to `most`.
template <class T>
Field<T> count_field(const char* name, int T::*member, int most, const Says& says, int least = 0) {
  const std::string wanted =
      "a whole number from " + std::to_string(least) + " to " + std::to_string(most);
  return field<T>(
      name, KeyForm::whole_number, says,
      [=](const json::Value& value, T& into, const Reading&) {
        const auto number = value.whole_number();
        if (!number) return;
        if (*number > static_cast<std::uint64_t>(most) ||
            *number < static_cast<std::uint64_t>(least))
          value.refuse(wanted);
        else
          into.*member = static_cast<int>(*number);
      },
      [=](const T& from, const KeyPath& path) {
        if (from.*member < least || from.*member > most)
          path.fault("a number out of range", wanted);
      },
      [=](Key& key) {
        key.low = least;
        key.high = most;
      },
      Need::always);
}

/// A quantity. One that may be missing is an optional member, or a member with a default.
template <class T, class M, class Q>
Field<T> quantity_field(const char* name, M T::*member, const Bounds<Q>& bounds, const Says& says) {
  return field<T>(
      name, KeyForm::quantity, says,
      [=](const json::Value& value, T& into, const Reading&) {
        if (const auto amount = value.quantity(bounds)) into.*member = *amount;
      },
      [=](const T& from, const KeyPath& path) {
        if (const Q* amount = field_detail::Held<M>::in(from.*member))
          field_detail::check_amount(*amount, bounds, path);
      },
      [=](Key& key) { key.quantities = {field_detail::key_quantity(bounds)}; });
}

template <class Q>
std::function<void(Key&)> describes_figure(const Bounds<Q>& bounds) {
  return [=](Key& key) {
    key.quantities = {field_detail::key_quantity(bounds)};
    key.one_value = *bounds.no_range != 0;
    key.keys = figure_keys();
  };
}

/// A figure. One that may be missing is an optional member.
template <class T, class M, class Q>
Field<T> figure(const char* name, M T::*member, const Bounds<Q>& bounds, const Says& says) {
  using Held = field_detail::Held<M>;
  Field<T> made = field<T>(
      name, KeyForm::figure, says,
      [=](const json::Value& value, T& into, const Reading& reading) {
        if (!field_detail::is_default_word(value, says, reading))
          into.*member = value.figure(bounds);
      },
      [=](const T& from, const KeyPath& path) {
        if (const auto* figure = Held::in(from.*member))
          field_detail::check_figure(*figure, bounds, path);
      },
      describes_figure(bounds),
      Held::optional     ? Need::no
      : says.has_default ? Need::in_table
                         : Need::always);
  made.evidence = [=](const T& from, EvidenceTest is) {
    const auto* figure = Held::in(from.*member);
    return figure && is(figure->evidence);
  };
  return made;
}

template <class E>
void describe_words(Key& key) {
  key.type = name_of_words<E>;
  for (const Word<E>& word : words_of<E>) {
    key.words.emplace_back(word.word);
    key.meanings.emplace_back(word.meaning);
  }
}

/// One of the words of an enumeration. M is the enumeration, or an optional of it.
template <class T, class M>
Field<T> choice(const char* name, M T::*member, const Says& says) {
  using E = typename field_detail::Held<M>::Value;
  return field<T>(
      name, KeyForm::choice, says,
      [=](const json::Value& value, T& into, const Reading&) {
        if (const auto read = value.template choice<E>()) into.*member = *read;
      },
      nullptr, describe_words<E>);
}

/// Describes a list of words of E.
template <class E>
void describe_choices(Key& key, std::size_t least) {
  Key item = field_detail::described("", KeyForm::choice, {}, Need::no);
  describe_words<E>(item);
  key.keys = {std::move(item)};
  key.least = least;
}

/// A list of words of an enumeration, each at most once.
template <class T, class E>
Field<T> choices(const char* name, std::vector<E> T::*member, const Says& says,
                 std::size_t least = 0) {
  return field<T>(
      name, KeyForm::list, says,
      [=](const json::Value& value, T& into, const Reading&) {
        std::vector<E>& all = into.*member;
        for (const json::Value& item : value.items()) {
          const auto read = item.template choice<E>();
          if (!read) continue;
          if (std::find(all.begin(), all.end(), *read) != all.end())
            item.refuse("each word once");
          else
            all.push_back(*read);
        }
        if (value.is(json::Kind::list) && value.node().children.size() < least)
          value.fault("an empty list", "at least one of " + json::either(all_words<E>()));
      },
      nullptr,
      [=](Key& key) {
        describe_choices<E>(key, least);
        key.each_once = true;
      });
}

/// The name of an entry of another table.
template <class T, class Entry>
Field<T> name_of(const char* name, std::string T::*member, const char* table,
                 std::map<std::string, Entry> Tables::*entries, const Says& says) {
  return field<T>(
      name, KeyForm::name, says,
      [=](const json::Value& value, T& into, const Reading& reading) {
        if (field_detail::is_default_word(value, says, reading)) return;
        const auto key = value.words();
        if (!key) return;
        const auto& all = reading.tables.*entries;
        // An empty table could not be read, which was reported there.
        if (all.empty() || all.contains(*key))
          into.*member = *key;
        else
          value.refuse_name(field_detail::names_in(all),
                            std::string("a key of the ") + table + " table");
      },
      [=](const T& from, const KeyPath& path) {
        if (!(path.tables().*entries).contains(from.*member))
          path.fault("an unknown name", std::string("a key of the ") + table + " table");
      },
      [=](Key& key) { key.table = table; }, says.has_default ? Need::in_table : Need::always);
}

/// A day. M is std::chrono::local_days, or an optional of it.
template <class T, class M>
Field<T> day_field(const char* name, M T::*member, const Says& says) {
  return field<T>(name, KeyForm::day, says, [=](const json::Value& value, T& into, const Reading&) {
    if (const auto day = field_detail::day_from(value)) into.*member = *day;
  });
}

/// An object. One that may be missing is an optional member.
template <class T, class M, class S>
Field<T> object(const char* name, M T::*member, const Fields<S>& (*fields)(), const Says& says) {
  using Held = field_detail::Held<M>;
  Field<T> made = field<T>(
      name, KeyForm::object, says,
      [=](const json::Value& value, T& into, const Reading& reading) {
        fields().read(value, Held::made(into.*member), reading);
      },
      [=](const T& from, const KeyPath& path) {
        if (const S* object = Held::in(from.*member)) fields().check(*object, path);
      },
      [=](Key& key) { fields().describe(key); }, Held::optional ? Need::no : Need::always);
  made.evidence = [=](const T& from, EvidenceTest is) {
    const S* object = Held::in(from.*member);
    return object && fields().any_evidence(*object, is);
  };
  return made;
}

/// Calls `read` for each member whose key is a word of E; any other key is a fault.
template <class E, class Read>
void for_each_word(const json::Value& value, std::size_t least, Read read) {
  for (const json::Value& member : value.members()) {
    if (const auto key = value_of<E>(member.key()))
      read(*key, member);
    else
      member.refuse_key(all_words<E>());
  }
  if (value.is(json::Kind::object) && value.node().children.size() < least)
    value.fault("an empty object", "at least one of " + json::either(all_words<E>()));
}

/// Describes an object whose keys are the words of E. `one` describes a value, under the name that
/// stands for the words: "METHOD".
template <class E>
void describe_map(Key& key, const char* stands, std::size_t least, bool all, Key one) {
  describe_words<E>(key);
  one.name = stands;
  key.keys = {std::move(one)};
  key.least = least;
  key.all_words = all;
}

/// A figure for each of some words of E, or for all of them.
template <class T, class E, class Q>
Field<T> figures_by(const char* name, const char* stands, std::map<E, Cited<Q>> T::*member,
                    const Bounds<Q>& bounds, const Says& says, bool all = false) {
  return field<T>(
      name, KeyForm::map, says,
      [=](const json::Value& value, T& into, const Reading&) {
        for_each_word<E>(value, 0, [&](E key, const json::Value& member_value) {
          (into.*member)[key] = member_value.figure(bounds);
        });
        if (!all || !value.is(json::Kind::object)) return;
        for (const Word<E>& word : words_of<E>) {
          if (value.member(word.word)) continue;
          Key one = field_detail::described(word.word, KeyForm::figure, {}, Need::always);
          one.quantities = {field_detail::key_quantity(bounds)};
          value.missing(one.name, wanted_for(one));
        }
      },
      [=](const T& from, const KeyPath& path) {
        for (const auto& [key, value] : from.*member)
          field_detail::check_figure(value, bounds, path.at(word_of(key)));
      },
      [=](Key& key) {
        Key one = field_detail::described("", KeyForm::figure, {}, Need::no);
        describes_figure(bounds)(one);
        describe_map<E>(key, stands, 0, all, std::move(one));
      },
      all ? Need::always : Need::no);
}

/// An object for each of some words of E.
template <class T, class E, class S>
Field<T> objects_by(const char* name, const char* stands, std::map<E, S> T::*member,
                    const Fields<S>& (*fields)(), const Says& says, std::size_t least = 0) {
  return field<T>(
      name, KeyForm::map, says,
      [=](const json::Value& value, T& into, const Reading& reading) {
        for_each_word<E>(value, least, [&](E key, const json::Value& member_value) {
          fields().read(member_value, (into.*member)[key], reading);
        });
      },
      [=](const T& from, const KeyPath& path) {
        for (const auto& [key, value] : from.*member) fields().check(value, path.at(word_of(key)));
      },
      [=](Key& key) {
        Key one = field_detail::described("", KeyForm::object, {}, Need::no);
        fields().describe(one);
        describe_map<E>(key, stands, least, false, std::move(one));
      });
}

/// A list of objects, from `least` to `most` of them; no limit if `most` is 0.
template <class T, class S>
Field<T> objects(const char* name, std::vector<S> T::*member, const Fields<S>& (*fields)(),
                 const Says& says, std::size_t least = 0, std::size_t most = 0) {
  return field<T>(
      name, KeyForm::list, says,
      [=](const json::Value& value, T& into, const Reading& reading) {
        if (!field_detail::has_items(value, least, most)) return;
        for (const json::Value& item : value.items()) {
          S read;
          fields().read(item, read, reading);
          (into.*member).push_back(std::move(read));
        }
      },
      nullptr,
      [=](Key& key) {
        Key item = field_detail::described("", KeyForm::object, {}, Need::no);
        fields().describe(item);
        key.keys = {std::move(item)};
        key.least = least;
        key.most = most;
      });
}

/// An object of this kind as a document.
template <class T>
Document document(const char* name, const char* help, const Fields<T>& fields) {
  Document made{name, help, field_detail::described("", KeyForm::object, {}, Need::always)};
  fields.describe(made.root);
  return made;
}

}  // namespace firstdrop
