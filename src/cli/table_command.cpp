#include <fmt/core.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <utility>
#include <vector>

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

// The description of an entry in a list, after its key.
std::string about_entry(const std::string& table, const Json& entry) {
  std::string about;
  if (table == "plants") {
    std::string states;
    for (const auto& [state, figures] : entry.at("states").items()) {
      states += (states.empty() ? "" : ", ") + state;
    }
    about = fmt::format("{}, {}, {} ({})", entry.at("name").get<std::string>(),
                        entry.at("latin").get<std::string>(), entry.at("part").get<std::string>(),
                        states);
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

std::string list_page(const std::string& table, const Json& entries) {
  std::vector<KeyAndAbout> list;
  for (const auto& [key, entry] : entries.items())
    list.emplace_back(key, about_entry(table, entry));
  return key_list(list);
}

// A plant or still with its marker key, so that the output can be saved as a user's own file.
Json as_own_file(const std::string& table, const Json& entry) {
  if (table != "plants" && table != "stills") return entry;
  Json own = {{table.substr(0, table.size() - 1), 1}};
  own.update(entry);
  return own;
}

std::vector<std::string> keys_of(const Json& entries) {
  std::vector<std::string> keys;
  for (const auto& [key, entry] : entries.items()) keys.push_back(key);
  return keys;
}

std::string result_of(const TableOptions& options, const TableFolder& folder) {
  FormatChoice choice{table_formats};
  if (options.json) choice.leave({OutputFormat::json}, "with --json");
  const bool as_json = output_format(options.output, choice) == OutputFormat::json;
  const Json entries = Json::parse(table_text(options.table, folder.texts())).at("entries");
  if (options.key.empty()) {
    return as_json ? without_markup(entries.dump(2)) + "\n" : list_page(options.table, entries);
  }
  if (!entries.contains(options.key))
    throw no_such_key(options.key, options.table, keys_of(entries));
  const Json& entry = entries.at(options.key);
  const Units units = units_named(options.units);
  if (as_json) return without_markup(as_own_file(options.table, entry).dump(2)) + "\n";
  if (options.table == "plants") return plant_page(options.key, entry, folder.tables(), units);
  if (options.table == "sources")
    return entry_page(options.key, entry, units) + uses_page(options.key, folder.texts());
  return entry_page(options.key, entry, units) +
         "\nIn brackets: how a figure is known, and the keys of its sources.\n";
}

}  // namespace

int table(const TableOptions& options, const TableFolder& folder) {
  write_result(result_of(options, folder), options.output);
  return done;
}

}  // namespace firstdrop::cli
