#include "campaign/schema.hpp"

#include <map>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string_view>
#include <utility>

#include "campaign/documents.hpp"
#include "campaign/embedded_schemas.hpp"
#include "quantity/words.hpp"
#include "readers/key_schema.hpp"
#include "readers/table_fields.hpp"
#include "tables/words.hpp"

namespace firstdrop {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view to_definitions = "#/definitions/";
constexpr std::string_view of_schema = ".schema.json";

std::string key_of(std::string_view file) {
  return std::string(file.substr(0, file.size() - of_schema.size()));
}

// Builds one schema that holds everything it refers to, from whichever file.
class Bundle {
 public:
  explicit Bundle(const std::map<std::string, Json>& files) : files_(files) {}

  Json of(const std::string& file) {
    Json whole = copied(files_.at(file), file);
    whole.erase("definitions");
    if (!definitions_.empty()) whole["definitions"] = std::move(definitions_);
    return whole;
  }

 private:
  // A copy of a part of a file, in which references point to this bundle's own definitions.
  Json copied(const Json& part, const std::string& file) {
    if (!part.is_structured()) return part;
    Json copy = part.is_array() ? Json::array() : Json::object();
    for (const auto& [key, value] : part.items()) {
      if (part.is_array()) {
        copy.push_back(copied(value, file));
      } else if (key == "$ref") {
        copy[key] = std::string(to_definitions) + defined(value.get<std::string>(), file);
      } else if (key != "definitions") {
        copy[key] = copied(value, file);
      }
    }
    return copy;
  }

  // The name that a reference's target has among the definitions; adds it if it is new. A reference
  // is "#/definitions/pot", "plan.schema.json#/definitions/set", or a full document,
  // "plan.schema.json".
  std::string defined(const std::string& reference, const std::string& from) {
    const std::size_t mark = reference.find('#');
    const std::string file = mark == 0 ? from : reference.substr(0, mark);
    const bool whole = mark == std::string::npos;
    std::string name = whole ? key_of(file) : reference.substr(mark + to_definitions.size());
    const auto [place, is_new] = file_of_.emplace(name, file);
    if (place->second != file) {
      throw std::logic_error("two definitions of " + name + ": in " + place->second + " and " +
                             file);
    }
    if (!is_new) return name;
    const Json& document = files_.at(file);
    definitions_[name] = nullptr;  // takes its place before the definitions that it refers to
    Json part = copied(whole ? document : document.at("definitions").at(name), file);
    part.erase("$schema");
    definitions_[name] = std::move(part);
    return name;
  }

  const std::map<std::string, Json>& files_;
  std::map<std::string, std::string> file_of_;
  Json definitions_ = Json::object();
};

// Replaces no-break and thin spaces with escapes, because they can't be told from plain spaces.
std::string with_visible_blanks(std::string text) {
  static const std::vector<std::pair<std::string_view, std::string_view>> blanks = {
      {"\u00a0", "\\u00a0"}, {"\u2009", "\\u2009"}, {"\u202f", "\\u202f"}};
  for (const auto& [blank, escape] : blanks) {
    for (auto at = text.find(blank); at != std::string::npos; at = text.find(blank, at)) {
      text.replace(at, blank.size(), escape);
    }
  }
  return text;
}

// The enumerations that the hand-made schemas refer to as words.schema.json.
Json common_words() {
  const auto word = [](const std::vector<std::string>& words) { return Json{{"enum", words}}; };
  return {{"definitions",
           {{"method", word(all_words<Method>())},
            {"state", word(all_words<State>())},
            {"known", word(all_words<Known>())}}}};
}

}  // namespace

std::vector<Schema> schemas(const Tables& tables) {
  std::vector<Schema> all;
  const auto add = [&](const std::string& key, const std::string& about, const Json& schema) {
    all.push_back({key, about, with_visible_blanks(schema.dump(2))});
  };
  for (const Document& document : documents())
    add(document.name, document.help, key_schema(document, tables));
  std::map<std::string, Json> files = {{"words.schema.json", common_words()}};
  for (const EmbeddedSchema& schema : embedded_schemas())
    files.emplace(schema.file, Json::parse(schema.text));
  for (const EmbeddedSchema& schema : embedded_schemas()) {
    const std::string file(schema.file);
    add(key_of(file), files.at(file).at("description").get<std::string>(), Bundle(files).of(file));
  }
  const std::string about =
      "A table that firstdrop carries: plants, stills, liquids, materials, design defaults, forms, "
      "release classes, findings or sources. Every figure has its range and says where it comes "
      "from.";
  add("table", about, table_schema(about, table_documents(), tables));
  return all;
}

}  // namespace firstdrop
