// One entry of a table as text: every figure with its range, basis and sources.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "firstdrop/quantity/quantity_text.hpp"
#include "firstdrop/tables/finding.hpp"

namespace firstdrop::cli {

// The shipped tables are shown as they stand, so that an entry is whole and nothing is left out.
using Json = nlohmann::ordered_json;

/// Figures are in the tables' own units; in US units those that one measures at a bench are
/// converted, to four figures, and the properties of matter stay.
std::string entry_page(const std::string& key, const Json& entry, Units units);

/// The same of one number and its unit.
Amount at_the_bench(const Amount& amount, Units units);

/// "[read: a-paper, another]"; one word where a rule of thumb has no source beyond its own name.
std::string bracket(const std::string& known, const std::string& sources);

/// "bulk_density" in words.
std::string words(std::string key);
/// A text, or a list of texts with commas.
std::string text_or_list(const Json& texts);

}  // namespace firstdrop::cli
