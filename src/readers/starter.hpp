/// @file
/// A recipe to start from, as text for a person to go on editing.
#pragma once

#include <optional>
#include <string>

namespace firstdrop {

/// What the recipe says, each as it shall stand there: "lavender", "800 mL". What is left out here
/// is left out there. Members bear the recipe's keys.
struct Starter {
  std::optional<std::string> title;   ///< any words
  std::optional<std::string> plant;   ///< "lavender"
  std::optional<std::string> state;   ///< "fresh"
  std::optional<std::string> cut;     ///< "chopped"
  std::optional<std::string> charge;  ///< "260 g"
  std::optional<std::string> still;   ///< "bench-column"
  std::optional<std::string> method;  ///< "steam"
  /// What the run stands in.
  struct {
    std::optional<std::string> altitude;  ///< "540 m"
    std::optional<std::string> room;      ///< "21 °C"
    std::optional<std::string> coolant;   ///< "14 °C"
  } site;                                 ///< left out if all of it is
  /// What is wanted; a good recipe has one of them at most.
  struct {
    std::optional<std::string> hydrosol;   ///< "800 mL"
    std::optional<std::string> ratio;      ///< "1.5 L/kg"
    std::optional<std::string> oil;        ///< "2 mL"
    std::optional<std::string> oil_share;  ///< "80 %"
    std::optional<std::string> time;       ///< "90 min"
  } goal;                                  ///< left out if all of it is
  std::optional<std::string> units;        ///< "us"
};

/// The recipe as JSON text, its keys in the order in which a person reads them. Nothing is checked:
/// read_recipe() says whether a recipe is good, of this as of any other.
std::string starter_recipe(const Starter& starter);

}  // namespace firstdrop
