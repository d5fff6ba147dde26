#include "generate/key_pages.hpp"

#include <fmt/core.h>

#include <cctype>
#include <cmath>
#include <set>

#include "base/text_layout.hpp"
#include "batch/batch_outputs.hpp"
#include "campaign/campaign_outputs.hpp"
#include "campaign/documents.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "generate/roff.hpp"
#include "generate/template.hpp"
#include "output/plan_outputs.hpp"
#include "readers/documents.hpp"

namespace firstdrop::generate {
namespace {

const Tables& tables_of_program() {
  static const Tables tables = read_tables(embedded_table_texts());
  return tables;
}

/// A sentence as a part of another: without its full stop and capital.
std::string as_phrase(const std::string& text) {
  std::string phrase = first_sentence(text);
  phrase.front() = static_cast<char>(std::tolower(phrase.front()));
  return phrase;
}

std::string kinds_of(const Key& key) {
  std::vector<std::string> kinds;
  for (const KeyQuantity& one : key.quantities) kinds.push_back(one.kind.name);
  return joined(kinds, " | ");
}

/// Words up to this width stand behind their key; more of them follow in a sentence.
constexpr std::size_t widest_words = 70;

/// What stands behind a key: "mass figure", "fresh | wilted | dried".
struct Form {
  std::string text;
  bool literal = false;  ///< to be written as it stands
};

Form form_of(const Key& key) {
  switch (key.form) {
    case KeyForm::version:
      return {"1", true};
    case KeyForm::remark:
    case KeyForm::text:
    case KeyForm::words:
    case KeyForm::special:
      return {"text"};
    case KeyForm::truth:
      return {"true | false", true};
    case KeyForm::number:
      return {"number"};
    case KeyForm::whole_number:
      return {"whole number"};
    case KeyForm::quantity:
      return {kinds_of(key)};
    case KeyForm::figure:
      return {kinds_of(key) + " figure"};
    case KeyForm::choice: {
      const std::string words = joined(key.words, " | ");
      if (words.size() > widest_words) return {"text"};
      return {words, true};
    }
    case KeyForm::name: {
      if (key.table == "source") return {"source | list of source"};
      // No command lists the keys of the other tables.
      return {joined(names_of_table(key.table, tables_of_program()), " | "), true};
    }
    case KeyForm::reference:
      return {key.table.empty() ? "path | object" : "name | path | object"};
    case KeyForm::day:
      return {"day"};
    case KeyForm::time_of_day:
      return {"time of day"};
    case KeyForm::minute:
      return {"date and time"};
    case KeyForm::object:
    case KeyForm::map:
      return {"object"};
    case KeyForm::list: {
      Form item = form_of(key.keys.front());
      return {(item.literal ? "list of: " : "list of ") + item.text};
    }
    case KeyForm::any_text:
      return {"text"};
    case KeyForm::range:
      return {"range"};
    case KeyForm::any:
      return {"value"};
  }
  return {};
}

/// The sentences about a key, without whether it is needed.
std::string said_of(const Key& key) {
  std::string said =
      key.form == KeyForm::version && key.help.empty() ? "The format version." : key.help;
  const auto add = [&](const std::string& sentence) {
    if (!said.empty()) said += ' ';
    said += sentence;
  };
  const Key& worded = key.form == KeyForm::list ? key.keys.front() : key;
  std::vector<std::string> meanings;
  for (std::size_t i = 0; i < worded.meanings.size(); ++i)
    if (!worded.meanings[i].empty())
      meanings.push_back(fmt::format("`{}` ({})", worded.words[i], worded.meanings[i]));
  if (key.table == "release class")
    for (const std::string& name : names_of_table(key.table, tables_of_program())) {
      const auto entry = tables_of_program().release_classes.find(name);
      if (entry != tables_of_program().release_classes.end())
        meanings.push_back(fmt::format("`{}` ({})", name, as_phrase(entry->second.note)));
    }
  if (meanings.empty() && joined(worded.words, " | ").size() > widest_words)
    for (const std::string& word : worded.words) meanings.push_back('`' + word + '`');
  if (!meanings.empty()) add("The words are " + joined(meanings, ", ") + ".");
  if (!key.quantities.empty()) add(as_sentence(bounds_in_words(key)));
  if (key.form == KeyForm::number && key.low < key.high && std::isfinite(key.high))
    add(fmt::format("From {} to {}.", plain(key.low), plain(key.high)));
  if (key.one_value) add("A single value: a range would change nothing in the plan.");
  if (key.evidence) add("Add basis and known, and source if there is one, as for a figure.");
  const std::string left_out = key.left_out.empty() ? key.standard : key.left_out;
  if (!left_out.empty())
    add((key.has_default ? "If left out or `default`: " : "If left out: ") + left_out + ".");
  if (!key.measure.empty()) add("How to measure: " + key.measure);
  return said;
}

std::string needed(const Key& key) {
  if (key.need == Need::always || key.need == Need::in_file) return "Required.";
  if (key.need == Need::by_rule) return "Required " + key.needed_if + ".";
  return {};
}

std::string tag(const std::string& path, const Key& key) {
  const Form form = form_of(key);
  return fmt::format(".It Cm {} : {} {}\n", roff(path), form.literal ? "Cm" : "Ar",
                     roff(form.text));
}

std::string item(const std::string& path, const Key& key) {
  std::string out = tag(path, key);
  const std::string need = needed(key);
  if (!need.empty()) out += man_sentences(need);
  const std::string said = said_of(key);
  if (!said.empty()) out += man_sentences(said);
  return out;
}

std::string list_of(const std::vector<Key>& keys, const std::string& before) {
  std::string out = ".Bl -tag -width Ds\n";
  for_each_key(keys, [&](const std::string& path, const Key& key) {
    // The pages describe the keys of evidence once, with those of figures.
    const bool is_evidence =
        path.ends_with(".basis") || path.ends_with(".source") || path.ends_with(".known");
    if (is_evidence && before.empty()) return;
    out += item(before + path, key);
  });
  return out + ".El\n";
}

/// What is said of each key of a document that firstdrop writes, by the key's path.
using Said = std::map<std::string, std::string>;

/// The keys of a document that firstdrop writes. The text of a key is left out if `described` has
/// it under the same path.
std::string written_keys(const Document& document, const Said& described = {}) {
  std::string out = ".Bl -tag -width Ds\n";
  for_each_key(document.root.keys, [&](const std::string& path, const Key& key) {
    // A variant has the keys of the summary that it is in.
    if (path.starts_with("variants[].") && !path.starts_with("variants[].set")) return;
    out += tag(path, key);
    const std::string said = said_of(key);
    const auto elsewhere = described.find(path);
    if (!said.empty() && (elsewhere == described.end() || elsewhere->second != said))
      out += man_sentences(said);
  });
  return out + ".El\n";
}

std::string columns() {
  std::string out = ".Bl -tag -width Ds\n";
  for (const Key& column : keys_of(timeline_outputs(), Extent::table))
    out += fmt::format(".It Cm {}\n{}", roff(column.name), man_sentences(said_of(column)));
  return out + ".El\n";
}

/// The kinds of quantities that people's own files hold.
std::set<std::string> kinds_of_documents() {
  std::set<std::string> names;
  for (const Document& document : documents())
    for_each_key(document.root.keys, [&](const std::string&, const Key& key) {
      for (const KeyQuantity& one : key.quantities) names.insert(one.kind.name);
    });
  return names;
}

bool has_figures(const std::vector<Key>& keys) {
  bool any = false;
  for_each_key(
      keys, [&](const std::string&, const Key& key) { any = any || key.form == KeyForm::figure; });
  return any;
}

}  // namespace

std::map<std::string, std::string> key_page_parts(const Document& document) {
  std::map<std::string, std::string> parts = {{"keys", list_of(document.root.keys, "")}};
  if (has_figures(document.root.keys)) parts["figures"] = list_of(figure_keys(), "FIGURE.");
  if (document.name != "recipe") return parts;
  std::string quantities = ".Bl -tag -width Ds\n";
  const std::set<std::string> used = kinds_of_documents();
  for (const QuantityKind& kind : quantity_kinds()) {
    if (!used.contains(kind.name)) continue;
    quantities += fmt::format(".It Ar {}\n{}", kind.name,
                              man_sentences(joined(spellings_by_unit(kind), "; ")));
  }
  parts["quantities"] = quantities + ".El\n";
  parts["cases"] = man_sentences(
      "Names of three letters or more may have capitals anywhere. So may " +
      in_a_row(symbols_in_any_case(), "and") + ". All other symbols are as they stand here.");
  return parts;
}

std::map<std::string, std::string> output_page_parts() {
  Said of_plan;
  for_each_key(plan_document().root.keys,
               [&](const std::string& path, const Key& key) { of_plan[path] = said_of(key); });
  return {{"plan", written_keys(plan_document())},
          {"brief", written_keys(brief_document(), of_plan)},
          {"error", written_keys(broken_document())},
          {"summary", written_keys(summary_document())},
          {"campaign", written_keys(campaign_plan_document())},
          {"table", columns()}};
}

std::string key_table(const Document& document) {
  std::string out = "| key | what | if left out |\n| --- | --- | --- |\n";
  for (const Key& key : document.root.keys) {
    if (key.form == KeyForm::version || key.form == KeyForm::remark) continue;
    std::string what = key.help;
    const auto list = [&](const char* label, const std::vector<std::string>& names) {
      std::vector<std::string> quoted;
      for (const std::string& name : names) quoted.push_back("`" + name + "`");
      what += " " + std::string(label) + ": " + joined(quoted, ", ") + ".";
    };
    if (key.form == KeyForm::choice) list("One of", key.words);
    if (key.form == KeyForm::object) {
      std::vector<std::string> inner;
      for (const Key& one : key.keys) inner.push_back(one.name);
      list("Keys", inner);
    }
    std::string left_out = key.left_out.empty() ? key.standard : key.left_out;
    if (key.need == Need::always) left_out = "required";
    out += fmt::format("| `{}` | {} | {} |\n", key.name, what, left_out);
  }
  return out;
}

}  // namespace firstdrop::generate
