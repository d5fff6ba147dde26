#include <fmt/core.h>

#include <algorithm>
#include <iterator>
#include <nlohmann/json.hpp>
#include <optional>
#include <sstream>
#include <utility>
#include <vector>

#include "base/suggestion.hpp"
#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/key_list.hpp"
#include "cli/output_format.hpp"
#include "cli/pages/entry_page.hpp"
#include "cli/pages/plant_page.hpp"
#include "cli/terminal.hpp"
#include "cli/units_option.hpp"
#include "output/explain.hpp"
#include "readers/known_names.hpp"

namespace firstdrop::cli {
namespace {

std::string_view table_text(const std::string& name, const TableTexts& texts) {
  if (name == "plants") return texts.plants;
  if (name == "liquids") return texts.liquids;
  if (name == "findings") return texts.findings;
  return name == "stills" ? texts.stills : texts.sources;
}

// Finds the figures and statements of a table that rest on a source, as paths in the table.
void collect_uses(const std::string& key, const Json& node, const std::string& way,
                  std::vector<std::string>& uses) {
  if (!node.is_structured()) return;
  std::size_t index = 0;
  for (const auto& [name, value] : node.items()) {
    ++index;
    if (name == "source" && !node.is_array()) {
      const bool names_it =
          value == key ||
          (value.is_array() && std::find(value.begin(), value.end(), key) != value.end());
      if (names_it) uses.push_back(way);
      continue;
    }
    // Steps that tell a reader nothing: the object around an oil content, the list of entries.
    const bool silent = name == "figure" || name == "entries";
    const std::string step = node.is_array() ? fmt::format("{}", index) : words(name);
    collect_uses(key, value, silent ? way : way + (way.empty() ? "" : ", ") + step, uses);
  }
}

std::string uses_page(const std::string& key, const TableTexts& t) {
  const std::vector<std::pair<std::string, std::string_view>> folder = {
      {"plants", t.plants},   {"forms of plants", t.forms}, {"release classes", t.release_classes},
      {"liquids", t.liquids}, {"materials", t.materials},   {"design_defaults", t.design_defaults},
      {"stills", t.stills},   {"findings", t.findings}};
  const Look look = look_of_stdout("never");
  std::string out;
  std::size_t count = 0;
  for (const auto& [name, text] : folder) {
    std::vector<std::string> uses;
    collect_uses(key, Json::parse(text), "", uses);
    if (!uses.empty()) out += "    " + name + "\n";
    for (const std::string& use : uses) out += wrapped("      ", use, look);
    count += uses.size();
  }
  std::string equations;
  for (const EquationSource& source : equation_sources()) {
    if (source.key == key) equations += wrapped("      ", std::string(source.supports), look);
  }
  if (!equations.empty()) out += "    equations\n" + equations;
  return fmt::format("  figures that rest on it  {}\n", count) + out;
}

// The description of an entry in a list, after its key. A plant's other names would make the list
// of all plants too long.
std::string about_entry(const std::string& table, const Json& entry, bool with_names) {
  std::string about;
  if (table == "plants") {
    std::string states;
    for (const auto& [state, figures] : entry.at("states").items()) {
      states += (states.empty() ? "" : ", ") + state;
    }
    if (entry.contains("unsuited"))
      states =
          entry.at("unsuited").value("refused", false) ? "not to be distilled" : "steam spoils it";
    else if (!entry.contains("oil_density"))
      states += "; for its water";
    about = fmt::format("{}, {}, {} ({})", entry.at("name").get<std::string>(),
                        entry.at("latin").get<std::string>(), entry.at("part").get<std::string>(),
                        states);
    if (with_names && entry.contains("also"))
      about += "; also " + joined(entry.at("also").get<std::vector<std::string>>(), ", ");
  } else if (table == "liquids") {
    about = entry.at("name").get<std::string>();
    if (!entry.contains("vapour_pressure")) about += ", no vapour pressure equation";
    if (!entry.contains("water_solubility")) about += ", no solubility";
  } else if (table == "findings") {
    about = fmt::format("{}: {} {}", text_or_list(entry.at("level")),
                        entry.at("meaning").get<std::string>(), entry.at("do").get<std::string>());
  } else if (table == "stills") {
    about = fmt::format("{}: {}", entry.at("title").get<std::string>(),
                        text_or_list(entry.at("methods")));
  } else {
    about = entry.at("citation").get<std::string>();
  }
  return about;
}

std::string list_page(const std::string& table, const Json& entries, bool with_names) {
  std::vector<KeyAndAbout> list;
  for (const auto& [key, entry] : entries.items())
    list.emplace_back(key, about_entry(table, entry, with_names));
  return key_list(list);
}

// A plant or still with its marker key, so that the output can be saved as a user's own file.
Json as_own_file(const std::string& table, const Json& entry) {
  if (table != "plants" && table != "stills") return entry;
  Json own = {{table.substr(0, table.size() - 1), 1}};
  own.update(entry);
  return own;
}

// --- looking entries up

std::vector<KnownName> names_in(const std::string& table, const Json& entries,
                                const Tables& tables) {
  if (table == "plants") return known_names(tables.plants);
  if (table == "stills") return known_names(tables.stills);
  if (table == "liquids") return known_names(tables.liquids);
  std::vector<KnownName> keys;
  for (const auto& [key, entry] : entries.items()) keys.push_back({key});
  return keys;
}

// The key of the only entry that has exactly this name. A key beats the other names.
std::optional<std::string> exactly_named(const std::string& name,
                                         const std::vector<KnownName>& known) {
  const std::string wanted = plain_name(name);
  std::vector<std::string> keys;
  for (const KnownName& one : known) {
    if (plain_name(one.name) == wanted) return one.name;
    const bool has_it = std::any_of(one.also.begin(), one.also.end(), [&](const std::string& also) {
      return plain_name(also) == wanted;
    });
    if (has_it) keys.push_back(one.name);
  }
  if (keys.size() != 1) return std::nullopt;
  return keys.front();
}

// What a search looks through: what the list shows, and a little more.
std::string searched_text(const std::string& table, const std::string& key, const Json& entry) {
  std::string text = key + ' ' + about_entry(table, entry, true);
  for (const char* more : {"form", "about"})
    if (entry.contains(more)) text += ' ' + entry.at(more).get<std::string>();
  return plain_name(text);
}

// The entries that have all of the words, in any place.
Json entries_with(const std::vector<std::string>& wanted, const std::string& table,
                  const Json& entries) {
  Json found = Json::object();
  for (const auto& [key, entry] : entries.items()) {
    const std::string text = searched_text(table, key, entry);
    const bool has_all = std::all_of(wanted.begin(), wanted.end(), [&](const std::string& word) {
      return text.find(plain_name(word)) != std::string::npos;
    });
    if (has_all) found[key] = entry;
  }
  return found;
}

// An argument in quotes can have several words.
std::vector<std::string> split_words(const std::string& text) {
  std::istringstream stream(text);
  return {std::istream_iterator<std::string>(stream), {}};
}

std::string entry_text(const TableOptions& options, const std::string& key, const Json& entry,
                       bool as_json, const TableFolder& folder) {
  const Units units = units_named(options.units);
  if (as_json) return without_markup(as_own_file(options.table, entry).dump(2)) + "\n";
  if (options.table == "plants") return plant_page(key, entry, folder.tables(), units);
  if (options.table == "sources")
    return entry_page(key, entry, units) + uses_page(key, folder.texts());
  return entry_page(key, entry, units) +
         "\nIn brackets: how a figure is known, and the keys of its sources.\n";
}

std::string list_text(const std::string& table, const Json& entries, bool as_json,
                      bool with_names) {
  return as_json ? without_markup(entries.dump(2)) + "\n" : list_page(table, entries, with_names);
}

std::string result_of(const TableOptions& options, const TableFolder& folder) {
  FormatChoice choice{table_formats};
  if (options.json) choice.leave({OutputFormat::json}, "with --json");
  const bool as_json = output_format(options.output, choice) == OutputFormat::json;
  const Json entries = Json::parse(table_text(options.table, folder.texts())).at("entries");
  if (options.words.empty()) return list_text(options.table, entries, as_json, false);
  const std::string asked = joined(options.words, " ");
  if (entries.contains(asked))
    return entry_text(options, asked, entries.at(asked), as_json, folder);
  const std::vector<KnownName> known = names_in(options.table, entries, folder.tables());
  if (const auto key = exactly_named(asked, known))
    return entry_text(options, *key, entries.at(*key), as_json, folder);
  const std::vector<std::string> wanted = split_words(asked);
  const Json found = wanted.empty() ? Json::object() : entries_with(wanted, options.table, entries);
  if (found.empty()) throw no_such_name(asked, options.table, known);
  return list_text(options.table, found, as_json, true);
}

}  // namespace

int table(const TableOptions& options, const TableFolder& folder) {
  write_result(result_of(options, folder), options.output);
  return done;
}

}  // namespace firstdrop::cli
