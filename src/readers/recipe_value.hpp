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

/// Adds a fault for a value that is a quantity of neither kind. If one kind knows what was meant,
/// its fault says so.
template <class A, class B>
void refuse_either(const json::Value& value, const std::string& text, const char* hint) {
  const Fault first = parse_quantity<A>(text).fault;
  const Fault second = parse_quantity<B>(text).fault;
  if (first.wanted != json::wanted_of<A>())
    value.refuse_with(first);
  else if (second.wanted != json::wanted_of<B>())
    value.refuse_with(second);
  else
    value.refuse(json::wanted_of<A>() + "; or " + json::wanted_of<B>(), hint);
}

/// A quantity of either of two kinds. `hint` says which, by examples.
template <class T, class A, class B>
Field<T> either_field(const char* name, std::optional<std::variant<A, B>> T::*member,
                      const Bounds<A>& first, const Bounds<B>& second, const char* hint,
                      const Says& says) {
  return field<T>(
      name, KeyForm::quantity, says,
      [=](const json::Value& value, T& into, const Reading&) {
        const std::string text = value.is(json::Kind::text) ? value.node().text : "";
        if (parse_quantity<A>(text)) {
          if (const auto amount = value.quantity(first)) into.*member = *amount;
        } else if (parse_quantity<B>(text)) {
          if (const auto amount = value.quantity(second)) into.*member = *amount;
        } else {
          refuse_either<A, B>(value, text, hint);
        }
      },
      [=](const T& from, const KeyPath& path) {
        if (!(from.*member)) return;
        if (const auto* amount = std::get_if<A>(&*(from.*member)))
          field_detail::check_amount(*amount, first, path);
        else
          field_detail::check_amount(std::get<B>(*(from.*member)), second, path);
      },
      [=](Key& key) {
        key.quantities = {field_detail::key_quantity(first), field_detail::key_quantity(second)};
      });
}

/// An amount of oil: a mass or a volume.
template <class T>
Field<T> oil_field(std::optional<std::variant<Mass, Volume>> T::*member, const Says& says) {
  return either_field("oil", member, bounds::oil_mass, bounds::oil_volume,
                      "for example, \"2 g\" or \"2 mL\"", says);
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
