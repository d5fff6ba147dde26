#include "readers/starter.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <regex>
#include <string_view>
#include <vector>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "readers/documents.hpp"

namespace firstdrop {
namespace {

/// The members of a JSON object that the starter has, in the order of the keys.
std::vector<std::string> members(const std::vector<Key>& keys, const std::string& before,
                                 const Starter& starter) {
  std::vector<std::string> written;
  for (const Key& key : keys) {
    const std::string path = before + key.name;
    if (const auto value = starter.find(path); value != starter.end() && value->second) {
      // A list is there as JSON already.
      written.push_back(
          fmt::format("\"{}\": {}", key.name,
                      key.form == KeyForm::list ? *value->second : json_text(*value->second)));
    } else if (key.form == KeyForm::object || key.form == KeyForm::reference) {
      const auto inner = members(key.keys, path + '.', starter);
      if (!inner.empty())
        written.push_back(fmt::format("\"{}\": {{{}}}", key.name, joined(inner, ", ")));
    }
  }
  return written;
}

}  // namespace

namespace {

std::string document_of(const char* name, const std::vector<Key>& keys, const Starter& starter) {
  std::vector<std::string> lines = {fmt::format("\"{}\": 1", name)};
  for (std::string& line : members(keys, "", starter)) lines.push_back(std::move(line));
  return fmt::format("{{\n  {}\n}}\n", joined(lines, ",\n  "));
}

}  // namespace

std::optional<std::string> value_in(const Starter& starter, const std::string& path) {
  const auto entry = starter.find(path);
  return entry == starter.end() ? std::nullopt : entry->second;
}

std::optional<PlantLike> plant_like(const std::string& text) {
  constexpr std::string_view between = " like ";
  const std::size_t at = text.find(between);
  if (at == std::string::npos) return std::nullopt;
  return PlantLike{text.substr(0, at), text.substr(at + between.size())};
}

std::vector<PlantShare> plant_shares(const std::string& text) {
  // With the share first or last.
  static const std::regex first(R"(\s*([0-9.,]+ ?%)\s*(?:of )?([a-z][a-z -]*[a-z])\s*)");
  static const std::regex last(R"(\s*([a-z][a-z -]*[a-z])\s+([0-9.,]+ ?%)\s*)");
  std::vector<PlantShare> shares;
  std::size_t begin = 0;
  while (begin <= text.size()) {
    // A comma in a number has no blank after it.
    const std::size_t end = std::min(text.find(", ", begin), text.size());
    const std::string part = text.substr(begin, end - begin);
    std::smatch match;
    if (std::regex_match(part, match, first))
      shares.push_back({match[2], match[1]});
    else if (std::regex_match(part, match, last))
      shares.push_back({match[1], match[2]});
    else
      return {};
    begin = end + 2;
  }
  return shares;
}

namespace {

std::string blend_json(const std::vector<PlantShare>& shares) {
  std::vector<std::string> parts;
  for (const PlantShare& one : shares) {
    std::string key = one.plant;
    std::replace(key.begin(), key.end(), ' ', '-');
    parts.push_back(
        fmt::format(R"({{"plant": {}, "share": {}}})", json_text(key), json_text(one.share)));
  }
  return "[" + joined(parts, ", ") + "]";
}

}  // namespace

std::string starter_recipe(const Starter& starter) {
  Starter written = starter;
  if (const auto plant = plant_like(value_in(starter, "plant").value_or(""))) {
    written["plant"].reset();
    written["plant.name"] = plant->name;
    written["plant.like"] = plant->like;
  }
  const std::vector<PlantShare> blend = plant_shares(value_in(starter, "plant").value_or(""));
  if (!blend.empty()) {
    written["plant"].reset();
    written["plants"] = blend_json(blend);
  }
  return document_of("recipe", recipe_fields().keys(), written);
}

std::string starter_still(const Starter& starter) {
  return document_of("still", still_fields().keys(), starter);
}

}  // namespace firstdrop
