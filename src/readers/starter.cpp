#include "readers/starter.hpp"

#include <fmt/core.h>

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
      written.push_back(fmt::format("\"{}\": {}", key.name, json_text(*value->second)));
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

std::string starter_recipe(const Starter& starter) {
  Starter written = starter;
  if (const auto plant = plant_like(value_in(starter, "plant").value_or(""))) {
    written["plant"].reset();
    written["plant.name"] = plant->name;
    written["plant.like"] = plant->like;
  }
  return document_of("recipe", recipe_fields().keys(), written);
}

std::string starter_still(const Starter& starter) {
  return document_of("still", still_fields().keys(), starter);
}

}  // namespace firstdrop
