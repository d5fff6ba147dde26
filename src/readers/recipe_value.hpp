// Readers of the parts of a recipe's JSON that recipes and campaigns share.
#pragma once

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <utility>

#include "base/visible_text.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/tables/tables.hpp"
#include "json/json_reader.hpp"
#include "readers/table_json.hpp"

namespace firstdrop {

inline constexpr std::array all_units = {Units::metric, Units::us};

// Faults go to the value's context. If there are any, the result must not be used.

Recipe recipe_from(const json::Value& value, Form form, const Tables& tables,
                   const std::function<std::string(const std::string&)>& read_file);
/// A mass or a volume of oil.
Goal oil_goal_from(const json::Value& value);
Goal hydrosol_goal_from(const json::Value& value);
std::optional<Fraction> confidence_from(const json::Value& value);

/// Reads the file whose name is the value's text, and returns what `from` reads from it. Faults in
/// it have the file's own name. `instead` says what to write where no files can be read.
template <class T, class From>
std::optional<T> from_own_file(const json::Value& value, const std::string& instead,
                               const std::function<std::string(const std::string&)>& read_file,
                               From from) {
  if (!value.text()) return std::nullopt;
  if (!read_file) {
    value.refuse(instead, "files cannot be read from here");
    return std::nullopt;
  }
  json::Context& context = value.context();
  const std::string& name = value.node().text;
  try {
    json::Context inner{visible(name), context.sources};
    std::optional<T> result;
    const std::string text = read_file(name);
    if (const auto root = json::parse(text, inner)) result = from(json::Value(*root, inner));
    for (auto& fault : inner.faults) context.add(std::move(fault));
    context.left_out += inner.left_out;
    return result;
  } catch (const InputError& error) {
    for (const auto& fault : error.faults()) context.add(fault);
    return std::nullopt;
  }
}

}  // namespace firstdrop
