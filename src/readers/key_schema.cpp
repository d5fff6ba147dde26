#include "readers/key_schema.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <stdexcept>
#include <string_view>
#include <utility>
#include <vector>

#include "base/text_layout.hpp"
#include "json/json_reader.hpp"
#include "quantity/clock_time.hpp"
#include "readers/documents.hpp"

namespace firstdrop {
namespace {

using SchemaJson = nlohmann::ordered_json;

// --- regular expressions ------------------------------------------------------------------------

// No control characters.
constexpr std::string_view one_line = R"(^[^\x00-\x1f\x7f]*$)";
constexpr std::string_view names_json_file = R"(\.json$)";

std::vector<std::string> all_units(const QuantityKind& kind) {
  std::vector<std::string> all = kind.units;
  all.insert(all.end(), kind.aliases.begin(), kind.aliases.end());
  return all;
}

// --- words ------------------------------------------------------------------------------------

std::string description_of(const Key& key) {
  std::vector<std::string> sentences;
  const auto add = [&](std::string sentence) {
    if (!sentence.empty()) sentences.push_back(std::move(sentence));
  };
  if (key.form == KeyForm::version) add("Format version: always 1.");
  add(key.help);
  add(as_sentence(bounds_in_words(key)));
  if (key.one_value) add("One value, no range.");
  if (!key.needed_if.empty()) add("Needed " + key.needed_if + '.');
  if (!key.left_out.empty() && key.need != Need::always) add("Left out: " + key.left_out + '.');
  return joined(sentences, " ");
}

std::string definition_name(std::string name) {
  std::replace(name.begin(), name.end(), ' ', '_');
  name.erase(std::remove(name.begin(), name.end(), '$'), name.end());
  return name;
}

// Text keeps to what JSON has in quotes; everything else is JSON already.
bool is_written_as_text(KeyForm form) {
  switch (form) {
    case KeyForm::version:
    case KeyForm::truth:
    case KeyForm::number:
    case KeyForm::whole_number:
    case KeyForm::object:
    case KeyForm::map:
    case KeyForm::list:
      return false;
    default:
      return true;
  }
}

// The value that a key's example or standard stands for.
SchemaJson value_in_file(const Key& key, const std::string& text) {
  return is_written_as_text(key.form) ? SchemaJson(text) : SchemaJson::parse(text);
}

// --- the schema -------------------------------------------------------------------------------

class KeySchema {
 public:
  explicit KeySchema(const Tables& tables) : tables_(tables) {}

  /// A document in a file of its own.
  SchemaJson of(const Document& document) {
    SchemaJson schema = head(spaced(capitalised(document.name)), document.help);
    schema["allOf"] = {object(document.root)};
    // Inside another document the format version may be missing.
    for (const Key& key : document.root.keys)
      if (key.need == Need::in_file) schema["required"].push_back(key.name);
    if (!definitions_.empty()) schema["definitions"] = std::move(definitions_);
    return schema;
  }

  /// One of several documents.
  SchemaJson of_one(const std::string& title, const std::string& help,
                    const std::vector<Document>& documents) {
    SchemaJson schema = head(title, help);
    schema["type"] = "object";
    for (const Document& document : documents)
      schema["oneOf"].push_back(defined(document.name, [&] {
        SchemaJson object = {{"description", document.help}};
        object.update(object_with(document.root));
        return object;
      }));
    schema["definitions"] = std::move(definitions_);
    return schema;
  }

  /// Any of the tables. Its kind is that of the version that it has.
  SchemaJson of_tables(const std::string& help, const std::vector<Document>& tables) {
    in_tables_ = true;
    SchemaJson schema = head("Table", help);
    schema["type"] = "object";
    for (const Document& table : tables) {
      const SchemaJson has_version = {{"required", {table.name}}};
      form_ = Form::own_file;
      schema["oneOf"].push_back(has_version);
      schema["allOf"].push_back({{"if", has_version}, {"then", object(table.root)}});
    }
    schema["definitions"] = std::move(definitions_);
    return schema;
  }

 private:
  static SchemaJson head(const std::string& title, const std::string& help) {
    return {{"$schema", "http://json-schema.org/draft-07/schema#"},
            {"title", title},
            {"description", help}};
  }

  // A reference to the definition with this name, which `make` makes if it is new.
  SchemaJson defined(const std::string& wanted, const std::function<SchemaJson()>& make) {
    const std::string name = definition_name(wanted);
    if (!definitions_.contains(name)) {
      definitions_[name] = nullptr;  // takes its place before the definitions that it refers to
      SchemaJson made = make();
      definitions_[name] = std::move(made);
    }
    return {{"$ref", "#/definitions/" + name}};
  }

  // A reference to this part under its name, unless another part has that name.
  SchemaJson shared(const std::string& wanted, SchemaJson part) {
    const std::string name = definition_name(wanted);
    if (!definitions_.contains(name)) definitions_[name] = part;
    if (definitions_.at(name) != part) return part;
    return {{"$ref", "#/definitions/" + name}};
  }

  // A key with all that is said of it.
  SchemaJson described(const Key& key) {
    SchemaJson schema = value(key);
    const std::string description = description_of(key);
    // In draft 7 whatever stands beside a reference is ignored.
    if (schema.contains("$ref")) schema = {{"allOf", {std::move(schema)}}};
    if (!description.empty()) {
      SchemaJson first = {{"description", description}};
      first.update(schema);
      schema = std::move(first);
    }
    if (key.form == KeyForm::version) schema["default"] = 1;
    if (!key.standard.empty()) schema["default"] = value_in_file(key, key.standard);
    // Examples of figures are plain quantities.
    const KeyForm form = key.form == KeyForm::map ? key.keys.front().form : key.form;
    if (!key.example.empty() && !(in_tables_ && form == KeyForm::figure))
      schema["examples"] = SchemaJson::array({value_in_file(key, key.example)});
    return schema;
  }

  static SchemaJson whole_number_from(const Key& key) {
    SchemaJson schema = {{"type", "integer"}, {"minimum", static_cast<int>(key.low)}};
    if (key.high > key.low) schema["maximum"] = static_cast<int>(key.high);
    return schema;
  }

  /// Also takes the word for the default, where a person's own file may have it.
  SchemaJson or_default(const Key& key, SchemaJson schema) const {
    if (!key.has_default || in_tables_) return schema;
    return {{"anyOf", {{{"const", default_word}}, std::move(schema)}}};
  }

  SchemaJson value(const Key& key) {
    switch (key.form) {
      case KeyForm::version:
        return {{"const", 1}};
      case KeyForm::remark:
      case KeyForm::text:
        return text();
      case KeyForm::words:
        return words();
      case KeyForm::truth:
        return {{"type", "boolean"}};
      case KeyForm::number:
        return number(key);
      case KeyForm::whole_number:
        return whole_number_from(key);
      case KeyForm::quantity:
        return any_of(key.quantities, [&](const KeyQuantity& one) { return quantity(one.kind); });
      case KeyForm::figure:
        return or_default(key, any_of(key.quantities, [&](const KeyQuantity& one) {
                            return in_tables_ ? range(one.kind) : figure(one.kind);
                          }));
      case KeyForm::choice:
        return choice(key);
      case KeyForm::name:
        return or_default(key, name(key));
      case KeyForm::reference:
        return reference(key);
      case KeyForm::day:
        return of_form("day", local_day_pattern(), local_day_form);
      case KeyForm::time_of_day:
        return of_form("time_of_day", time_of_day_pattern(), time_of_day_form);
      case KeyForm::minute:
        return of_form("minute", local_minute_pattern(), local_minute_form);
      case KeyForm::special:
        return {{"allOf", {text()}},
                {"pattern", key.pattern},
                {"patternErrorMessage", as_sentence("write " + wanted_for(key))}};
      case KeyForm::object:
        return object(key);
      case KeyForm::map:
        return map(key);
      case KeyForm::list:
        return list(key);
      case KeyForm::any_text:
        return any_text(key);
      case KeyForm::range:
        return percentiles();
      case KeyForm::any:
        return SchemaJson::object();
    }
    throw std::logic_error("a key of no form: " + key.name);
  }

  template <class Make>
  static SchemaJson any_of(const std::vector<KeyQuantity>& quantities, Make make) {
    if (quantities.size() == 1) return make(quantities.front());
    SchemaJson all = SchemaJson::array();
    for (const KeyQuantity& one : quantities) all.push_back(make(one));
    return {{"anyOf", std::move(all)}};
  }

  static SchemaJson number(const Key& key) {
    SchemaJson schema = {{"type", "number"}};
    if (key.low == key.high) return schema;
    schema["minimum"] = SchemaJson::parse(plain(key.low));
    if (std::isfinite(key.high)) schema["maximum"] = SchemaJson::parse(plain(key.high));
    return schema;
  }

  static SchemaJson any_text(const Key& key) {
    SchemaJson schema = {{"type", "string"}};
    if (key.least > 0) schema["minLength"] = key.least;
    if (!key.pattern.empty()) schema["pattern"] = key.pattern;
    return schema;
  }

  SchemaJson percentiles() {
    return defined("percentiles", [&] {
      Key key;
      key.keys = percentile_keys();
      SchemaJson schema = object_with(key);
      schema["description"] =
          "10th, 50th and 90th percentile: one run in ten is below p10, one in ten above p90.";
      return schema;
    });
  }

  SchemaJson text() {
    return defined("text", [] {
      return SchemaJson{
          {"type", "string"}, {"pattern", one_line}, {"maxLength", json::longest_words}};
    });
  }

  SchemaJson words() {
    return defined("words", [&] { return SchemaJson{{"allOf", {text(), {{"pattern", "[^ ]"}}}}}; });
  }

  SchemaJson of_form(const std::string& type, std::string_view pattern, const char* wanted) {
    return defined(type, [&] {
      return SchemaJson{{"type", "string"},
                        {"pattern", fmt::format("^{}$", pattern)},
                        {"patternErrorMessage", as_sentence(std::string("write ") + wanted)}};
    });
  }

  SchemaJson quantity(const QuantityKind& kind) {
    return defined(kind.name, [&] {
      return SchemaJson{{"type", "string"},
                        {"pattern", text_pattern(kind)},
                        {"patternErrorMessage", as_sentence("write " + kind.with_unit)}};
    });
  }

  // Three numbers, their unit, and where they come from.
  SchemaJson range(const QuantityKind& kind) {
    return defined(kind.name + " range", [&] {
      SchemaJson properties = {{"unit", {{"enum", all_units(kind)}}}};
      if (!kind.has_ratio) properties["scale"] = false;
      const SchemaJson any_range = defined("range", [&] {
        Key key;
        key.keys = figure_keys();
        key.evidence = true;
        key.rules =
            R"("dependencies": {"scale": {"properties": {"low": {"exclusiveMinimum": 0}}}})";
        return object_with(key);
      });
      return SchemaJson{{"allOf", {any_range, {{"properties", std::move(properties)}}}}};
    });
  }

  SchemaJson figure(const QuantityKind& kind) {
    return defined(kind.name + " figure", [&] {
      return SchemaJson{{"oneOf", {quantity(kind), range(kind)}}};
    });
  }

  SchemaJson choice(const Key& key) {
    const auto make = [&] {
      SchemaJson schema = {{"enum", key.words}};
      const auto says = [](const std::string& meaning) { return !meaning.empty(); };
      if (std::any_of(key.meanings.begin(), key.meanings.end(), says))
        schema["enumDescriptions"] = key.meanings;  // for the list that editors offer
      return schema;
    };
    return key.type.empty() ? make() : defined(key.type, make);
  }

  // The keys of a table.
  SchemaJson name(const Key& key) {
    if (key.table == "source") {
      return defined("source keys", [&] {
        return SchemaJson{{"oneOf", {words(), {{"type", "array"}, {"items", words()}}}}};
      });
    }
    return table_keys(key.table);
  }

  SchemaJson table_keys(const std::string& table) {
    return defined(table + " key", [&] {
      return SchemaJson{{"description", fmt::format("A key of the {} table.", table)},
                        {"enum", names_of_table(table, tables_)}};
    });
  }

  // A key of a table, the path of a file, or an object.
  SchemaJson reference(const Key& key) {
    SchemaJson any = SchemaJson::array();
    if (!key.table.empty()) any.push_back(table_keys(key.table));
    any.push_back({{"description", "The path of a file of your own."},
                   {"type", "string"},
                   {"pattern", names_json_file}});
    any.push_back(object(key));
    return {{"anyOf", std::move(any)}};
  }

  SchemaJson object(const Key& key) {
    if (key.type.empty()) return object_with(key);
    return defined(key.type, [&] { return object_with(key); });
  }

  SchemaJson object_with(const Key& key) {
    SchemaJson properties = SchemaJson::object();
    SchemaJson required = SchemaJson::array();
    for (const Key& one : key.keys) {
      if (one.outside_tables && form_ == Form::table_entry) continue;
      SchemaJson said = described(one);
      if (one.form == KeyForm::remark) said = shared("remark " + one.name, std::move(said));
      if (key.evidence && is_evidence(one)) said = shared("evidence " + one.name, std::move(said));
      properties[one.name] = std::move(said);
      if (one.together.empty() && field_detail::is_needed(one.need, form_))
        required.push_back(one.name);
    }
    SchemaJson schema = {{"type", "object"}, {"properties", std::move(properties)}};
    if (!required.empty()) schema["required"] = std::move(required);
    schema["additionalProperties"] = false;
    add_rules(key, schema);
    const SchemaJson dependencies = dependencies_of(key.keys);
    if (!dependencies.empty()) schema["dependencies"].update(dependencies);
    return schema;
  }

  // Says of keys that are there together that each needs the first of them, and that one all others
  // that are never missing.
  static SchemaJson dependencies_of(const std::vector<Key>& keys) {
    SchemaJson dependencies = SchemaJson::object();
    std::map<std::string, std::string> first_of;
    for (const Key& key : keys) {
      if (key.together.empty()) continue;
      const auto [first, is_first] = first_of.emplace(key.together, key.name);
      if (is_first) {
        dependencies[key.name] = SchemaJson::array();
        continue;
      }
      dependencies[key.name] = {first->second};
      if (key.need != Need::no) dependencies[first->second].push_back(key.name);
    }
    return dependencies;
  }

  static bool is_evidence(const Key& key) {
    const std::vector<Key>& all = evidence_keys();
    return std::any_of(all.begin(), all.end(),
                       [&](const Key& one) { return one.name == key.name; });
  }

  static void add_rules(const Key& key, SchemaJson& schema) {
    SchemaJson rules = SchemaJson::parse('{' + key.rules + '}');
    if (rules.contains("properties"))
      schema["allOf"] = {std::move(rules)};
    else
      schema.update(rules);
  }

  SchemaJson map(const Key& key) {
    const Key& one = key.keys.front();
    SchemaJson schema = {{"type", "object"}};
    if (key.words.empty()) {
      schema["propertyNames"] =
          key.pattern.empty() ? table_keys(key.table) : SchemaJson{{"pattern", key.pattern}};
      if (in_tables_ && !key.pattern.empty()) form_ = Form::table_entry;
      schema["additionalProperties"] = described(one);
    } else {
      SchemaJson properties = SchemaJson::object();
      for (std::size_t i = 0; i < key.words.size(); ++i) {
        Key member = one;
        member.help = as_sentence(key.meanings[i]);
        properties[key.words[i]] = described(member);
      }
      schema["properties"] = std::move(properties);
      if (key.all_words) schema["required"] = key.words;
      schema["additionalProperties"] = false;
    }
    if (key.least > 0) schema["minProperties"] = key.least;
    add_rules(key, schema);
    return schema;
  }

  SchemaJson list(const Key& key) {
    SchemaJson schema = {{"type", "array"}, {"items", value(key.keys.front())}};
    if (key.least > 0) schema["minItems"] = key.least;
    if (key.most > 0) schema["maxItems"] = key.most;
    if (key.each_once) schema["uniqueItems"] = true;
    return schema;
  }

  const Tables& tables_;
  bool in_tables_ = false;           // every figure has its range there
  Form form_ = Form::inline_object;  // of the object at hand
  SchemaJson definitions_ = SchemaJson::object();
};

}  // namespace

SchemaJson key_schema(const Document& document, const Tables& tables) {
  return KeySchema(tables).of(document);
}

SchemaJson schema_of_one(const std::string& title, const std::string& help,
                         const std::vector<Document>& documents, const Tables& tables) {
  return KeySchema(tables).of_one(title, help, documents);
}

SchemaJson table_schema(const std::string& help, const std::vector<Document>& documents,
                        const Tables& tables) {
  return KeySchema(tables).of_tables(help, documents);
}

}  // namespace firstdrop
