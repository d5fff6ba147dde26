#include "firstdrop/plant.hpp"

namespace firstdrop {

std::string to_string(State state) {
  switch (state) {
    case State::fresh:
      return "fresh";
    case State::wilted:
      return "wilted";
    case State::dried:
      return "dried";
  }
  return {};
}

std::string to_string(Cut cut) {
  switch (cut) {
    case Cut::whole:
      return "whole";
    case Cut::chopped:
      return "chopped";
    case Cut::crushed:
      return "crushed";
    case Cut::ground:
      return "ground";
  }
  return {};
}

}  // namespace firstdrop
