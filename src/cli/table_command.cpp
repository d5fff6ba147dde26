#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <vector>

#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/terminal.hpp"
#include "firstdrop/error.hpp"
#include "firstdrop/library_json.hpp"

namespace firstdrop::cli {
namespace {

// The shipped tables are shown as they stand, so that an entry is whole and nothing is left out.
using Json = nlohmann::ordered_json;

std::string_view table_text(const std::string& name) {
  const LibraryTexts texts = embedded_library_texts();
  if (name == "plants") return texts.plants;
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

std::string figure_words(const Json& figure) {
  const std::string low = number(figure.at("low"));
  const std::string typical = number(figure.at("typical"));
  const std::string high = number(figure.at("high"));
  const std::string range =
      low == high ? typical : fmt::format("{} ({} to {})", typical, low, high);
  return fmt::format("{} {}; {} [{}: {}]", range, figure.at("unit").get<std::string>(),
                     figure.at("basis").get<std::string>(), figure.at("known").get<std::string>(),
                     joined(figure.at("source")));
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
      member(node.is_array() ? "-" : words(key), value, depth);
  }

  void member(const std::string& name, const Json& value, int depth) {
    const std::string first = std::string(static_cast<std::size_t>(depth) * 2, ' ') + name;
    if (is_figure(value)) {
      out_ += wrapped(first + "  ", figure_words(value), look_);
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

  Look look_ = look_of_stdout("never");
  std::string out_;
};

// How many figures of the other tables rest on a source, found by walking them.
int uses_of(const std::string& key, const Json& node) {
  if (!node.is_structured()) return 0;
  int uses = 0;
  for (const auto& [name, value] : node.items()) {
    if (name == "source" && !node.is_array()) {
      uses += value == key ||
              (value.is_array() && std::find(value.begin(), value.end(), key) != value.end());
    } else {
      uses += uses_of(key, value);
    }
  }
  return uses;
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
  if (table == "sources") return entry;
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
  std::string page = EntryPage().write(options.key, entry);
  if (options.table != "sources") {
    page += "\nIn brackets: how a figure is known, and the keys of its sources.\n";
  }
  if (options.table == "sources") {
    const LibraryTexts t = embedded_library_texts();
    int uses = 0;
    for (const std::string_view other : {t.plants, t.stills, t.liquids, t.materials, t.practice}) {
      uses += uses_of(options.key, Json::parse(other));
    }
    page += fmt::format("  figures that rest on it  {}\n", uses);
  }
  write_result(page);
  return done;
}

}  // namespace firstdrop::cli
