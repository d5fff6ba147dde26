// Readers of the parts of a recipe's JSON that recipes and campaigns share.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <variant>

#include "base/visible_text.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/quantity/units.hpp"
#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/tables/tables.hpp"
#include "json/json_reader.hpp"
#include "readers/field_bounds.hpp"
#include "readers/fields.hpp"

namespace firstdrop {

/// Reads a recipe. Faults go to the value's context; after any, the result must not be used.
Recipe recipe_from(const json::Value& value, const Reading& reading);

/// An amount of oil: a mass or a volume.
template <class T>
Field<T> oil_field(std::optional<std::variant<Mass, Volume>> T::*member, const Says& says) {
  return field<T>(
      "oil", KeyForm::quantity, says,
      [=](const json::Value& value, T& into, const Reading&) {
        const std::string text = value.is(json::Kind::text) ? value.node().text : "";
        if (parse_quantity<Mass>(text)) {
          if (const auto mass = value.quantity(bounds::oil_mass)) into.*member = *mass;
        } else if (parse_quantity<Volume>(text)) {
          if (const auto volume = value.quantity(bounds::oil_volume)) into.*member = *volume;
        } else {
          value.refuse(json::wanted_of<Mass>() + "; or " + json::wanted_of<Volume>(),
                       "for example, \"2 g\" or \"2 mL\"");
        }
      },
      [=](const T& from, const KeyPath& path) {
        if (!(from.*member)) return;
        if (const auto* mass = std::get_if<Mass>(&*(from.*member)))
          field_detail::check_amount(*mass, bounds::oil_mass, path);
        else
          field_detail::check_amount(std::get<Volume>(*(from.*member)), bounds::oil_volume, path);
      },
      [](Key& key) {
        key.quantities = {field_detail::key_quantity(bounds::oil_mass),
                          field_detail::key_quantity(bounds::oil_volume)};
      });
}

/// Reads the file whose name is the value's text, and returns what `from` reads from it. Faults in
/// it have the file's own name. `instead` says what to write where no files can be read.
template <class T, class From>
std::optional<T> from_own_file(const json::Value& value, const std::string& instead,
                               const std::function<std::string(const std::string&)>* read_file,
                               From from) {
  if (!value.text()) return std::nullopt;
  if (read_file == nullptr || !*read_file) {
    value.refuse(instead, "files cannot be read from here");
    return std::nullopt;
  }
  json::Context& context = value.context();
  const std::string& name = value.node().text;
  try {
    json::Context inner{visible(name), context.sources};
    std::optional<T> result;
    const std::string text = (*read_file)(name);
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
