#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>
#include <utility>
#include <vector>

#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/terminal.hpp"
#include "firstdrop/error.hpp"
#include "firstdrop/explain.hpp"
#include "firstdrop/library_json.hpp"
#include "firstdrop/plant_figures.hpp"

namespace firstdrop::cli {
namespace {

// The shipped tables are shown as they stand, so that an entry is whole and nothing is left out.
using Json = nlohmann::ordered_json;

std::string_view table_text(const std::string& name) {
  const LibraryTexts texts = embedded_library_texts();
  if (name == "plants") return texts.plants;
  if (name == "liquids") return texts.liquids;
  return name == "stills" ? texts.stills : texts.sources;
}

std::string words(std::string key) {
  std::replace(key.begin(), key.end(), '_', ' ');
  return key;
}

bool is_figure(const Json& node) {
  return node.is_object() && node.contains("typical");
}

std::string number(const Json& value) {
  return fmt::format("{:g}", value.get<double>());
}

std::string joined(const Json& source) {
  if (source.is_string()) return source.get<std::string>();
  std::string all;
  for (const Json& key : source) all += (all.empty() ? "" : ", ") + key.get<std::string>();
  return all;
}

std::string bracket(const std::string& known, const std::string& sources) {
  // A rule of thumb and the like have no source beyond their own name.
  return known == sources || sources.empty() ? fmt::format("[{}]", known)
                                             : fmt::format("[{}: {}]", known, sources);
}

std::string figure_words(const Json& figure) {
  const std::string low = number(figure.at("low"));
  const std::string typical = number(figure.at("typical"));
  const std::string high = number(figure.at("high"));
  const std::string range =
      low == high ? typical : fmt::format("{} ({} to {})", typical, low, high);
  return fmt::format("{} {}; {} {}", range, figure.at("unit").get<std::string>(),
                     figure.at("basis").get<std::string>(),
                     bracket(figure.at("known").get<std::string>(), joined(figure.at("source"))));
}

// A statement with its evidence: {"text": …, "basis": …, "source": …, "known": …}.
bool is_statement(const Json& node) {
  return node.is_object() && node.contains("known") && node.contains("source") &&
         !node.contains("typical");
}

class EntryPage {
 public:
  std::string write(const std::string& key, const Json& entry) {
    out_ = key + "\n";
    show(entry, 1);
    return out_;
  }

 private:
  void show(const Json& node, int depth) {
    for (const auto& [key, value] : node.items())
      member(node.is_array() ? "-" : key == "figure" ? "share" : words(key), value, depth);
  }

  void member(const std::string& name, const Json& value, int depth) {
    const std::string blanks(static_cast<std::size_t>(depth) * 2, ' ');
    const std::string first = blanks + name;
    if (is_figure(value) && text_width(name) > 14) {
      out_ += first + "\n" + wrapped(blanks + "    ", figure_words(value), look_);
    } else if (is_figure(value)) {
      out_ += wrapped(first + "  ", figure_words(value), look_);
    } else if (is_statement(value)) {
      out_ += first + "\n";
      show_statement(value, depth + 1);
    } else if (value.is_array() && std::all_of(value.begin(), value.end(),
                                               [](const Json& v) { return v.is_string(); })) {
      out_ += wrapped(first + "  ", joined(value), look_);
    } else if (value.is_structured()) {
      out_ += first + "\n";
      show(value, depth + 1);
    } else {
      out_ +=
          wrapped(first + "  ", value.is_string() ? value.get<std::string>() : value.dump(), look_);
    }
  }

  // What is said first, then what it rests on in one line.
  void show_statement(const Json& node, int depth) {
    for (const auto& [key, value] : node.items()) {
      if (key == "basis" || key == "source" || key == "known") continue;
      member(words(key), value, depth);
    }
    out_ += wrapped(std::string(static_cast<std::size_t>(depth) * 2, ' ') + "basis  ",
                    node.at("basis").get<std::string>() + " " +
                        bracket(node.at("known").get<std::string>(), joined(node.at("source"))),
                    look_);
  }

  Look look_ = look_of_stdout("never");
  std::string out_;
};

// What serves where a plant's entry is silent.
class DefaultsPage {
 public:
  DefaultsPage(const Plant& plant, const Library& library) : plant_(plant), library_(library) {}

  std::string write() {
    for (const auto& [state, figures] : plant_.states) {
      const std::string of = to_string(state) + " ";
      if (!figures.moisture) {
        show(of + "moisture", moisture_of(plant_, state, library_), in_percent, "%");
      }
      if (plant_.form) show_bulk_densities(state, library_.forms.at(*plant_.form));
      if (!figures.oil_content) {
        ChosenOilContent content = oil_content_of(plant_, state, library_);
        content.figure.evidence.basis.clear();  // stands above, with the state it is from
        content.figure.evidence.sources.clear();
        show(of + (content.per == OilPer::dry_matter ? "oil content of the dry matter"
                                                     : "oil content"),
             content, in_percent, "%");
      }
    }
    for (const Method method : {Method::steam, Method::water_and_steam, Method::hydro}) {
      for (const Cut cut : {Cut::crushed, Cut::whole}) {
        // Only seed comes differently by its cut.
        if (cut == Cut::whole && plant_.release_class != "seed") continue;
        ChosenRelease chosen = release_of(plant_, method, cut, library_);
        if (chosen.method != method) {  // stands there already
          chosen.release.half_time.evidence.basis.clear();
          chosen.release.half_time.evidence.sources.clear();
        }
        const std::string name =
            fmt::format("half-time of release, {}{}", to_string(method),
                        plant_.release_class == "seed" ? ", " + to_string(cut) : "");
        show(name, Chosen<Duration>{chosen.release.half_time, chosen.stand_in}, in_minutes, "min");
        if (!chosen.release.washed_share && !chosen.stand_in.empty()) {
          line("washed share, " + to_string(method), "none published: 0 %");
        }
        if (chosen.release.steam_flow) {
          show(
              "published steam flow, " + to_string(method),
              Chosen<Rate>{*chosen.release.steam_flow, chosen.stand_in},
              [](Rate rate) { return rate.si() * 3600.0; }, "kg/(h kg)");
        }
      }
    }
    for (const Method method : {Method::steam, Method::water_and_steam, Method::hydro}) {
      show("recovery of a laboratory yield, " + to_string(method),
           recovery_of(plant_, method, OilAssay::laboratory, library_), in_percent, "%");
    }
    show("recovery of a still's yield",
         Chosen<Fraction>{library_.practice.still_recovery, "default for all plants"}, in_percent,
         "%");
    show("oil in the hydrosol", hydrosol_oil_of(plant_, library_), in_milligrams_per_litre, "mg/L");
    return out_;
  }

  const std::set<std::string>& sources() const { return sources_; }

 private:
  void line(const std::string& name, const std::string& text) {
    out_ += "  " + name + "\n" + wrapped("      ", text, look_);
  }

  // Those of its form; a cut that neither has is scaled from another, which is no figure to show.
  void show_bulk_densities(State state, const FormDefaults& form) {
    const auto found = form.states.find(state);
    if (found == form.states.end()) return;
    for (const BulkDensity& density : found->second.bulk_density) {
      show(fmt::format("{} bulk density, {}", to_string(state), to_string(density.cut)),
           bulk_density_of(plant_, state, density.cut, library_), in_grams_per_litre, "g/L");
    }
  }

  // The plant's own figures stand in its entry already.
  template <class T, class Unit>
  void show(const std::string& name, const Chosen<T>& chosen, Unit in_unit, const char* unit) {
    if (chosen.stand_in.empty()) return;
    const Range<T>& range = chosen.figure.range;
    const Evidence& evidence = chosen.figure.evidence;
    sources_.insert(evidence.sources.begin(), evidence.sources.end());
    std::string sources;
    for (const std::string& key : evidence.sources) sources += (sources.empty() ? "" : ", ") + key;
    std::string words = fmt::format("{:.3g} ({:.3g} to {:.3g}) {}; {}", in_unit(range.typical),
                                    in_unit(range.low), in_unit(range.high), unit, chosen.stand_in);
    if (!evidence.basis.empty()) words += "; " + evidence.basis;
    line(name, words + " " + bracket(to_string(evidence.known), sources));
  }

  const Plant& plant_;
  const Library& library_;
  Look look_ = look_of_stdout("never");
  std::set<std::string> sources_;
  std::string out_;
};

// The keys of all sources that an entry names.
void collect_sources(const Json& node, std::set<std::string>& keys) {
  if (!node.is_structured()) return;
  for (const auto& [name, value] : node.items()) {
    if (name == "source" && value.is_string()) {
      keys.insert(value.get<std::string>());
    } else if (name == "source" && value.is_array()) {
      for (const Json& key : value) keys.insert(key.get<std::string>());
    } else {
      collect_sources(value, keys);
    }
  }
}

std::string source_list(const std::set<std::string>& keys, const Library& library) {
  const Look look = look_of_stdout("never");
  std::string out = "\nSources\n";
  for (const std::string& key : keys) {
    const Source& source = library.sources.at(key);
    out += wrapped("  " + key + "  ",
                   source.citation + (source.link.empty() ? "" : ", " + source.link), look);
  }
  return out;
}

std::string plant_page(const std::string& key, const Json& entry) {
  const Library library = read_library(embedded_library_texts());
  std::string page = EntryPage().write(key, entry);
  DefaultsPage defaults(library.plants.at(key), library);
  page += "\nWhere this entry is silent, these serve, and a plan says so\n" + defaults.write();
  page += "\nIn brackets: how a figure is known, and the keys of its sources.\n";
  std::set<std::string> keys = defaults.sources();
  collect_sources(entry, keys);
  return page + source_list(keys, library);
}

// The figures and statements of a table that rest on a source, by their way in the table.
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
    // Of no use to a reader: the wrapping of an oil content, the list of entries.
    const bool silent = name == "figure" || name == "entries";
    const std::string step = node.is_array() ? fmt::format("{}", index) : words(name);
    collect_uses(key, value, silent ? way : way + (way.empty() ? "" : ", ") + step, uses);
  }
}

std::string uses_page(const std::string& key) {
  const LibraryTexts t = embedded_library_texts();
  const std::vector<std::pair<std::string, std::string_view>> tables = {
      {"plants", t.plants},   {"forms of plants", t.forms}, {"release classes", t.release_classes},
      {"liquids", t.liquids}, {"materials", t.materials},   {"practice", t.practice},
      {"stills", t.stills}};
  const Look look = look_of_stdout("never");
  std::string out;
  std::size_t count = 0;
  for (const auto& [name, text] : tables) {
    std::vector<std::string> uses;
    collect_uses(key, Json::parse(text), "", uses);
    if (!uses.empty()) out += "    " + name + "\n";
    for (const std::string& use : uses) out += wrapped("      ", use, look);
    count += uses.size();
  }
  std::string equations;
  for (const CitedEquation& equation : cited_equations()) {
    if (equation.source == key) equations += wrapped("      ", equation.what, look);
  }
  if (!equations.empty()) out += "    equations\n" + equations;
  return fmt::format("  figures that rest on it  {}\n", count) + out;
}

std::string list_line(const std::string& table, const std::string& key, const Json& entry,
                      int key_width, const Look& look) {
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
  } else if (table == "stills") {
    about =
        fmt::format("{}: {}", entry.at("title").get<std::string>(), joined(entry.at("methods")));
  } else {
    about = entry.at("citation").get<std::string>();
  }
  return wrapped(padded(key, key_width) + "  ", about, look);
}

std::string list_page(const std::string& table, const Json& entries) {
  int key_width = 0;
  for (const auto& [key, entry] : entries.items()) key_width = std::max(key_width, text_width(key));
  const Look look = look_of_stdout("never");
  std::string out;
  for (const auto& [key, entry] : entries.items())
    out += list_line(table, key, entry, key_width, look);
  return out;
}

// A plant or still with its marker key, so that what is printed can be kept as a file of one's own.
Json as_own_file(const std::string& table, const Json& entry) {
  if (table == "sources" || table == "liquids") return entry;
  Json own = {{table.substr(0, table.size() - 1), 1}};
  own.update(entry);
  return own;
}

InputError no_such_entry(const TableOptions& options, const Json& entries) {
  std::vector<std::string> names;
  for (const auto& [key, entry] : entries.items()) names.push_back(key);
  const std::string nearest = nearest_name(options.key, names);
  return InputError(Fault{"", "", fmt::format("\"{}\"", options.key),
                          fmt::format("a key that `firstdrop {}` lists", options.table),
                          nearest.empty() ? "" : fmt::format("did you mean \"{}\"?", nearest), 0,
                          0});
}

}  // namespace

int table(const TableOptions& options) {
  const Json entries = Json::parse(table_text(options.table)).at("entries");
  if (options.key.empty()) {
    write_result(options.json ? entries.dump(2) + "\n" : list_page(options.table, entries));
    return done;
  }
  if (!entries.contains(options.key)) throw no_such_entry(options, entries);
  const Json& entry = entries.at(options.key);
  if (options.json) {
    write_result(as_own_file(options.table, entry).dump(2) + "\n");
    return done;
  }
  std::string page;
  if (options.table == "plants") {
    page = plant_page(options.key, entry);
  } else if (options.table == "sources") {
    page = EntryPage().write(options.key, entry) + uses_page(options.key);
  } else {
    page = EntryPage().write(options.key, entry) +
           "\nIn brackets: how a figure is known, and the keys of its sources.\n";
  }
  write_result(page);
  return done;
}

}  // namespace firstdrop::cli
