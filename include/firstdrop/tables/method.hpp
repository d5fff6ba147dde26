/// @file
/// The three ways to run a still.
#pragma once

#include <string>

namespace firstdrop {

/// Where the charge is while it is distilled.
enum class Method {
  steam,            ///< the charge in a column or basket above the pot; only steam passes it
  water_and_steam,  ///< the charge on a grid in the pot, above the water line
  hydro,            ///< the charge in the boiling water itself
};

/// As files have it: "steam", "water-and-steam", "hydro".
std::string to_string(Method method);
/// For a sentence: "by steam", "over water on a grid", "in the water".
const char* in_words(Method method);

}  // namespace firstdrop
