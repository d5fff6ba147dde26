// One entry of a table as text: every figure with its range, basis and sources.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "firstdrop/quantity/units.hpp"
#include "firstdrop/tables/finding.hpp"

namespace firstdrop::cli {

// Entries are shown straight from the tables' JSON, so that nothing is left out.
using Json = nlohmann::ordered_json;

/// Figures are in the tables' own units. With US units, quantities measured at a bench are
/// converted, to four figures. Properties of matter are not converted.
std::string entry_page(const std::string& key, const Json& entry, Units units);

/// Converts one number and its unit in the same way, without rounding.
Amount at_the_bench(const Amount& amount, Units units);

/// "[read: a-paper, another]"; one word for a rule of thumb, which has no source except its own
/// name.
std::string bracket(const std::string& known, const std::string& sources);

/// "bulk_density" in words.
std::string words(std::string key);
/// A text, or a list of texts with commas.
std::string text_or_list(const Json& texts);

}  // namespace firstdrop::cli
