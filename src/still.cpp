#include "firstdrop/still.hpp"

namespace firstdrop {

std::string to_string(HeaterKind kind) {
  switch (kind) {
    case HeaterKind::electric_plate:
      return "electric-plate";
    case HeaterKind::induction_plate:
      return "induction-plate";
    case HeaterKind::immersed_element:
      return "immersed-element";
    case HeaterKind::gas_burner:
      return "gas-burner";
  }
  return {};
}

std::string to_string(CondenserKind kind) {
  switch (kind) {
    case CondenserKind::ice_bath:
      return "ice-bath";
    case CondenserKind::reservoir:
      return "reservoir";
    case CondenserKind::run_through:
      return "run-through";
  }
  return {};
}

}  // namespace firstdrop
