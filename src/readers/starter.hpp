/// @file
/// A starter recipe, as text for a person to edit.
#pragma once

#include <optional>
#include <string>

namespace firstdrop {

/// The values of the recipe, each as written there: "lavender", "800 mL". What is absent here is
/// absent there. Members have the names of the recipe's keys.
struct Starter {
  std::optional<std::string> title;   ///< any words
  std::optional<std::string> plant;   ///< "lavender"
  std::optional<std::string> state;   ///< "fresh"
  std::optional<std::string> cut;     ///< "chopped"
  std::optional<std::string> charge;  ///< "260 g"
  std::optional<std::string> still;   ///< "bench-column"
  std::optional<std::string> method;  ///< "steam"
  /// The surroundings of the run.
  struct {
    std::optional<std::string> altitude;  ///< "540 m"
    std::optional<std::string> room;      ///< "21 °C"
    std::optional<std::string> coolant;   ///< "14 °C"
  } site;                                 ///< left out if nothing in it is set
  /// What is wanted; a valid recipe has at most one of these.
  struct {
    std::optional<std::string> hydrosol;   ///< "800 mL"
    std::optional<std::string> ratio;      ///< "1.5 L/kg"
    std::optional<std::string> oil;        ///< "2 mL"
    std::optional<std::string> oil_share;  ///< "80 %"
    std::optional<std::string> time;       ///< "90 min"
  } goal;                                  ///< left out if nothing in it is set
  std::optional<std::string> units;        ///< "us"
};

/// The recipe as JSON text, with its keys in the order in which a person reads them. Nothing is
/// checked here; read_recipe() checks it like any other recipe.
std::string starter_recipe(const Starter& starter);

}  // namespace firstdrop
