// What a document that firstdrop writes has, key by key. Each output is declared once, with its
// key, its unit, what it is, and how to get it. JSON, CSV, the JSON Schemas and the manual page all
// come from these lists. Key (readers/key.hpp) is the same list as plain data.
#pragma once

#include <algorithm>
#include <cstddef>
#include <functional>
#include <limits>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "base/text_layout.hpp"
#include "base/words.hpp"
#include "firstdrop/quantity/source.hpp"
#include "model/ranged_outputs.hpp"
#include "output/output_writer.hpp"
#include "readers/fields.hpp"
#include "readers/key.hpp"

namespace firstdrop {

template <class T>
struct Output;
/// The outputs of an object of type T, in the order in which they are written.
template <class T>
using Outputs = std::vector<Output<T>>;

template <class T>
void write_members(OutputWriter& to, const Outputs<T>& outputs, const T& from);
template <class T>
void write_object(OutputWriter& to, const Outputs<T>& outputs, const T& from);
template <class T>
std::vector<Key> keys_of(const Outputs<T>& outputs, Extent extent);
template <class Outer, class T, class Get>
Output<Outer> lifted(Get get, const Output<T>& output);
template <class T>
std::optional<Output<T>> found_at(const Outputs<T>& outputs, std::string_view path);

namespace output_detail {

template <class V>
inline constexpr bool is_range = false;
template <class Q>
inline constexpr bool is_range<Range<Q>> = true;

/// Writes an amount in its unit: a number, or the three of a range.
template <class Unit, class V>
void write_amount(OutputWriter& to, Unit in_unit, const V& amount) {
  if constexpr (is_range<V>) {
    to.open('{');
    to.key(",\"p10\":");
    to.number(in_unit(amount.low));
    to.key(",\"p50\":");
    to.number(in_unit(amount.typical));
    to.key(",\"p90\":");
    to.number(in_unit(amount.high));
    to.close('}');
  } else {
    to.number(in_unit(amount));
  }
}

/// What `get` gives for an object of type T, without an optional around it.
template <class T, class Get>
using Got = std::remove_cvref_t<std::invoke_result_t<const Get&, const T&>>;
template <class T, class Get>
using Value = typename field_detail::Held<Got<T, Get>>::Value;

/// Calls visit(value) with what `get` gives, unless that is an optional without a value.
template <class T, class Get, class Visit>
void with_value(const Get& get, const T& from, const Visit& visit) {
  auto&& got = std::invoke(get, from);
  if (const auto* value = field_detail::Held<Got<T, Get>>::in(got)) visit(*value);
}

}  // namespace output_detail

/// A pure number, in no unit.
constexpr double as_number(double number) {
  return number;
}

/// An output of an object of type T. `get`, below, is a member of T or a function of T. One that
/// gives an optional is left out where that is empty.
template <class T>
struct Output {
  using When = std::function<bool(const T&)>;

  Key key;             ///< its description; without the keys inside of it
  std::string quoted;  ///< the key as OutputWriter::key() takes it; empty for a part
  unsigned extents = unsigned(Extent::full) | unsigned(Extent::table);
  std::function<void(OutputWriter&, const T&)> put;  ///< writes the value
  /// The keys inside of it: of an object or part, or of the items of a list or map.
  std::function<std::vector<Key>(Extent)> inside = nullptr;
  /// The output at a path inside an object or part, if there is one.
  std::function<std::optional<Output>(std::string_view path)> find = nullptr;
  bool rules_in_brief = true;  ///< whether Key::rules holds in brief, too
  When when = nullptr;         ///< it is left out otherwise; empty: it never is
  When brief_when = nullptr;   ///< the same, in brief only

  bool is_in(Extent extent) const { return (extents & unsigned(extent)) != 0; }
  /// Several outputs that stand together, not an object of their own.
  bool is_part() const { return quoted.empty(); }

  // --- the kinds of outputs

  /// The format version, the number 1, which also marks the kind of document.
  static Output version(const char* name) {
    return made(name, KeyForm::version, "", "", true,
                [](OutputWriter& to, const T&) { to.whole(1); });
  }

  /// An amount in a unit, by a function like in_grams(): a quantity, or a range of it.
  template <class Unit, class Get>
  static Output amount(const char* name, Unit in_unit, Get get, const char* help,
                       const char* left_out = "") {
    using V = output_detail::Value<T, Get>;
    constexpr bool range = output_detail::is_range<V>;
    Output output = of_value(
        name, range ? KeyForm::range : KeyForm::number, get, help, left_out,
        [=](OutputWriter& to, const V& v) { output_detail::write_amount(to, in_unit, v); });
    if (!range) output.key.high = std::numeric_limits<double>::infinity();
    return output;
  }
  /// The value in the nominal run of an outcome that has a range, under its key and in its words.
  template <class M, class Get>
  static Output nominal(M Uncertainty::*member, Get get) {
    const auto outcome = ranged_outcome(member);
    return amount(outcome.key, outcome.unit.number, get, outcome.name, outcome.left_out);
  }

  template <class Get>
  static Output whole(const char* name, Get get, const char* help, const char* left_out = "") {
    return of_value(
        name, KeyForm::whole_number, get, help, left_out,
        [](OutputWriter& to, auto number) { to.whole(static_cast<std::int64_t>(number)); });
  }

  template <class Get>
  static Output truth(const char* name, Get get, const char* help) {
    return of_value(name, KeyForm::truth, get, help, "",
                    [](OutputWriter& to, bool value) { to.truth(value); });
  }

  /// Text that may be empty.
  template <class Get>
  static Output text(const char* name, Get get, const char* help) {
    return of_value(name, KeyForm::any_text, get, help, "",
                    [](OutputWriter& to, const auto& text) { to.text(text); });
  }
  /// Text that is never empty: it is left out if there is none, and `left_out` says when.
  template <class Get>
  static Output words(const char* name, Get get, const char* help, const char* left_out = nullptr) {
    Output output = text(name, get, help);
    output.key.least = 1;
    if (left_out == nullptr) return output;
    return std::move(output).only_when(
        [=](const T& from) { return !std::invoke(get, from).empty(); }, left_out);
  }

  /// A word of an enumeration.
  template <class Get>
  static Output word(const char* name, Get get, const char* help, const char* left_out = "") {
    using E = output_detail::Value<T, Get>;
    Output output = of_value(name, KeyForm::choice, get, help, left_out,
                             [](OutputWriter& to, E value) { to.word(word_of(value)); });
    describe_words<E>(output.key);
    output.key.type.clear();
    return output;
  }

  /// A list of texts that are never empty.
  template <class Get>
  static Output texts(const char* name, Get get, const char* help) {
    Output output = made(name, KeyForm::list, help, "", true, [=](OutputWriter& to, const T& from) {
      to.open('[');
      for (const std::string& text : std::invoke(get, from)) to.text(text);
      to.close(']');
    });
    Key item;
    item.form = KeyForm::any_text;
    item.least = 1;
    output.key.keys = {item};
    return output;
  }

  /// A list of objects. Items for which `is_item` is false are left out.
  template <class Get, class Item>
  static Output list(const char* name, Get get, const Outputs<Item>& outputs, const char* help,
                     bool (*is_item)(const Item&) = nullptr) {
    const auto all = std::make_shared<const Outputs<Item>>(outputs);
    Output output = made(name, KeyForm::list, help, "", true, [=](OutputWriter& to, const T& from) {
      to.open('[');
      for (const Item& item : std::invoke(get, from))
        if (is_item == nullptr || is_item(item)) write_object(to, *all, item);
      to.close(']');
    });
    output.inside = keys_inside(all);
    output.key.keys = {Key()};
    output.key.keys.front().form = KeyForm::object;
    return output;
  }

  /// An object whose keys are names. `stands_for` says what for.
  template <class Get, class Item>
  static Output map(const char* name, Get get, const char* stands_for, const Outputs<Item>& outputs,
                    const char* help) {
    const auto all = std::make_shared<const Outputs<Item>>(outputs);
    Output output = made(name, KeyForm::map, help, "", true, [=](OutputWriter& to, const T& from) {
      to.open('{');
      for (const auto& [item_key, item] : std::invoke(get, from)) {
        const std::string quoted_key = ',' + quoted_text(item_key) + ':';
        to.key(quoted_key);
        write_object(to, *all, item);
      }
      to.close('}');
    });
    output.inside = keys_inside(all);
    output.key.keys = {Key()};
    output.key.keys.front().name = stands_for;
    output.key.keys.front().form = KeyForm::object;
    output.key.pattern = ".";
    return output;
  }

  /// An object that is JSON already, left out if that is empty. Its keys may have any value.
  template <class Get>
  static Output json(const char* name, Get get, const char* help) {
    Output output = made(name, KeyForm::map, help, "", false,
                         [=](OutputWriter& to, const T& from) { to.json(std::invoke(get, from)); });
    output.when = [=](const T& from) { return !std::invoke(get, from).empty(); };
    output.key.keys = {Key()};
    output.key.keys.front().name = "KEY";
    output.key.keys.front().form = KeyForm::any;
    output.key.pattern = ".";
    return std::move(output).in_brief();
  }

  /// An object with outputs of what `get` gives, which isn't optional.
  template <class Get, class Inner>
  static Output object(const char* name, Get get, const Outputs<Inner>& outputs, const char* help) {
    const auto all = std::make_shared<const Outputs<Inner>>(outputs);
    Output output = made(
        name, KeyForm::object, help, "", true,
        [=](OutputWriter& to, const T& from) { write_object(to, *all, std::invoke(get, from)); });
    output.has_inside(get, all);
    return output;
  }
  static Output object(const char* name, const Outputs<T>& outputs, const char* help) {
    return object(name, std::identity(), outputs, help);
  }

  /// Outputs of what `get` gives, which stand beside those around them. They are there together, or
  /// not at all: `group` is a name for that, and `when` says whether they are.
  template <class Get, class Inner>
  static Output part(const char* group, When when, Get get, const Outputs<Inner>& outputs) {
    const auto all = std::make_shared<const Outputs<Inner>>(outputs);
    Output output;
    output.key.together = group;
    output.when = std::move(when);
    output.put = [=](OutputWriter& to, const T& from) {
      write_members(to, *all, std::invoke(get, from));
    };
    output.has_inside(get, all);
    return output;
  }
  /// The same, where they always are there.
  template <class Get, class Inner>
  static Output part(Get get, const Outputs<Inner>& outputs) {
    return part("", nullptr, get, outputs);
  }

  // --- what else there is to say of one

  /// It is in the brief form, too.
  Output in_brief() && {
    extents |= unsigned(Extent::brief);
    return std::move(*this);
  }
  /// It is in the brief form, too, but only sometimes.
  Output in_brief_when(When is) && {
    brief_when = std::move(is);
    return std::move(*this).in_brief();
  }
  Output only_in(Extent extent) && {
    extents = unsigned(extent);
    return std::move(*this);
  }
  /// It is left out sometimes, and `left_out` says when.
  Output only_when(When is, const char* left_out) && {
    when = std::move(is);
    key.need = Need::no;
    key.help += says_when(left_out);
    return std::move(*this);
  }
  /// It is never left out.
  Output always() && {
    when = nullptr;
    key.need = Need::always;
    return std::move(*this);
  }
  /// A list or map that is left out if it is empty.
  template <class Get>
  Output unless_empty(Get get, const char* left_out) && {
    key.least = 1;
    return std::move(*this).only_when(
        [=](const T& from) { return !std::invoke(get, from).empty(); }, left_out);
  }
  /// The number may be below zero.
  Output any_sign() && {
    key.high = key.low;
    return std::move(*this);
  }
  /// The number's bounds.
  Output from_to(double low, double high) && {
    key.low = low;
    key.high = high;
    return std::move(*this);
  }
  Output at_least(double low) && {
    key.low = low;
    return std::move(*this);
  }
  Output at_least_one() && {
    key.least = 1;
    return std::move(*this);
  }
  Output at_most(std::size_t count) && {
    key.most = count;
    return std::move(*this);
  }
  Output each_once() && {
    key.each_once = true;
    return std::move(*this);
  }
  /// A text that is one of a few words.
  Output one_of(std::vector<std::string> words) && {
    key.form = KeyForm::choice;
    key.words = std::move(words);
    key.meanings.assign(key.words.size(), "");
    return std::move(*this);
  }
  /// A text of a form of its own: an ECMAScript regular expression.
  Output like(const char* pattern) && {
    key.pattern = pattern;
    return std::move(*this);
  }
  /// A text in another form than text: a day, or a day and time.
  Output as(KeyForm form) && {
    key.form = form;
    return std::move(*this);
  }
  /// Rules between the keys of an object, as members of a JSON Schema. They may need keys that it
  /// doesn't have in brief.
  Output rules(const char* of_object, bool also_in_brief = true) && {
    key.rules = of_object;
    rules_in_brief = also_in_brief;
    return std::move(*this);
  }
  /// The same for the objects in a list or map.
  Output item_rules(const char* of_object) && {
    key.keys.front().rules = of_object;
    return std::move(*this);
  }
  Output named(const std::string& name) && {
    key.name = name;
    quoted = ",\"" + name + "\":";
    return std::move(*this);
  }
  Output saying(const char* help) && {
    key.help = help;
    return std::move(*this);
  }

 private:
  static Output made(const char* name, KeyForm form, const char* help, const char* left_out,
                     bool always, std::function<void(OutputWriter&, const T&)> write) {
    Output output;
    output.key.form = form;
    output.key.help = as_sentence(help);
    if (!always) output.key.help += says_when(left_out);
    output.key.need = always ? Need::always : Need::no;
    output.put = std::move(write);
    return std::move(output).named(name);
  }
  static std::string says_when(const std::string& left_out) {
    return left_out.empty() ? "" : " Left out if " + left_out + '.';
  }
  template <class Get, class Write>
  static Output of_value(const char* name, KeyForm form, Get get, const char* help,
                         const char* left_out, Write write) {
    constexpr bool optional = field_detail::Held<output_detail::Got<T, Get>>::optional;
    return made(name, form, help, left_out, !optional, [=](OutputWriter& to, const T& from) {
      output_detail::with_value(get, from, [&](const auto& value) { write(to, value); });
    });
  }
  template <class Inner>
  static std::function<std::vector<Key>(Extent)> keys_inside(
      const std::shared_ptr<const Outputs<Inner>>& all) {
    return [all](Extent extent) { return keys_of(*all, extent); };
  }
  // An object or part is in the brief form if anything in it is.
  template <class Get, class Inner>
  void has_inside(Get get, const std::shared_ptr<const Outputs<Inner>>& all) {
    extents = 0;
    for (const Output<Inner>& output : *all) extents |= output.extents;
    inside = keys_inside(all);
    find = [get, all](std::string_view path) -> std::optional<Output> {
      const auto found = found_at(*all, path);
      return found ? std::optional(lifted<T>(get, *found)) : std::nullopt;
    };
  }
};

/// An output of a T, as one of something that has a T. `get` says where.
template <class Outer, class T, class Get>
Output<Outer> lifted(Get get, const Output<T>& output) {
  const auto of_outer = [&](const typename Output<T>::When& is) -> typename Output<Outer>::When {
    if (!is) return nullptr;
    return [=](const Outer& from) { return is(std::invoke(get, from)); };
  };
  Output<Outer> out;
  out.key = output.key;
  out.quoted = output.quoted;
  out.extents = output.extents;
  out.put = [get, put = output.put](OutputWriter& to, const Outer& from) {
    put(to, std::invoke(get, from));
  };
  out.inside = output.inside;
  if (output.find)
    out.find = [get, find = output.find](std::string_view path) -> std::optional<Output<Outer>> {
      const auto found = find(path);
      return found ? std::optional(lifted<Outer>(get, *found)) : std::nullopt;
    };
  out.when = of_outer(output.when);
  out.brief_when = of_outer(output.brief_when);
  return out;
}

/// The output at this path, "water.pour_ml", if there is one.
template <class T>
std::optional<Output<T>> found_at(const Outputs<T>& outputs, std::string_view path) {
  const std::string_view name = path.substr(0, path.find('.'));
  const std::string_view rest = path.substr(std::min(path.size(), name.size() + 1));
  for (const Output<T>& output : outputs) {
    if (output.is_part()) {
      if (auto found = output.find(path)) return found;
    } else if (output.key.name == name) {
      return rest.empty() ? std::optional(output) : output.find(rest);
    }
  }
  return std::nullopt;
}
/// The output at this path. Throws std::out_of_range if there is none.
template <class T>
Output<T> output_at(const Outputs<T>& outputs, std::string_view path) {
  auto found = found_at(outputs, path);
  if (!found) throw std::out_of_range("there is no output " + std::string(path));
  return *std::move(found);
}

// --- writing ------------------------------------------------------------------------------------

template <class T>
void write_members(OutputWriter& to, const Outputs<T>& outputs, const T& from) {
  for (const Output<T>& output : outputs) {
    if (!output.is_in(to.extent())) continue;
    if (!output.is_part()) to.key(output.quoted);
    if (output.when && !output.when(from)) continue;
    if (to.extent() == Extent::brief && output.brief_when && !output.brief_when(from)) continue;
    output.put(to, from);
  }
}

template <class T>
void write_object(OutputWriter& to, const Outputs<T>& outputs, const T& from) {
  to.open('{');
  write_members(to, outputs, from);
  to.close('}');
}

/// A document as text: on one line, or indented.
template <class T>
std::string document_text(const Outputs<T>& outputs, const T& from, bool indented) {
  std::string text;
  OutputWriter to(text, Extent::full, indented);
  write_object(to, outputs, from);
  return text;
}

// --- descriptions -------------------------------------------------------------------------------

/// The keys of outputs as plain data.
template <class T>
std::vector<Key> keys_of(const Outputs<T>& outputs, Extent extent) {
  std::vector<Key> all;
  for (const Output<T>& output : outputs) {
    if (!output.is_in(extent)) continue;
    if (output.is_part()) {
      for (Key& key : output.inside(extent)) {
        if (key.together.empty()) key.together = output.key.together;
        all.push_back(std::move(key));
      }
      continue;
    }
    Key key = output.key;
    if (extent == Extent::brief && output.brief_when) key.need = Need::no;
    if (extent == Extent::brief && !output.rules_in_brief) key.rules.clear();
    if (output.inside)
      (key.form == KeyForm::object ? key : key.keys.front()).keys = output.inside(extent);
    all.push_back(std::move(key));
  }
  return all;
}

/// The document of these outputs.
template <class T>
Document written_document(const char* name, const char* help, const Outputs<T>& outputs,
                          Extent extent = Extent::full, const char* rules = "") {
  Document document{name, help, {}};
  document.root.form = KeyForm::object;
  document.root.keys = keys_of(outputs, extent);
  document.root.rules = rules;
  return document;
}

}  // namespace firstdrop
