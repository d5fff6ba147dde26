// A recipe to start from, as text for a person to go on editing.
#pragma once

#include <optional>
#include <string>

namespace firstdrop {

/// What the recipe says, each as it shall stand there: "lavender", "800 mL". What is left out here
/// is left out there. Members bear the recipe's keys.
struct Starter {
  std::optional<std::string> title;
  std::optional<std::string> plant;
  std::optional<std::string> state;
  std::optional<std::string> cut;
  std::optional<std::string> charge;
  std::optional<std::string> still;
  std::optional<std::string> method;
  struct {
    std::optional<std::string> altitude;
    std::optional<std::string> room;
    std::optional<std::string> coolant;
  } site;
  struct {
    std::optional<std::string> hydrosol;
    std::optional<std::string> oil;
    std::optional<std::string> oil_share;
    std::optional<std::string> time;
  } goal;
  std::optional<std::string> units;
};

/// The recipe as JSON text, its keys in the order in which a person reads them. Nothing is checked:
/// read_recipe() says whether a recipe is good, of this as of any other.
std::string starter_recipe(const Starter& starter);

}  // namespace firstdrop
