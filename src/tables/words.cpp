#include "tables/words.hpp"

namespace firstdrop {

std::string to_string(Method method) {
  return word_of(method);
}

std::string to_string(HeaterKind kind) {
  return word_of(kind);
}

std::string to_string(CondenserKind kind) {
  return word_of(kind);
}

std::string to_string(State state) {
  return word_of(state);
}

std::string to_string(Cut cut) {
  return word_of(cut);
}

std::string to_string(PlantForm form) {
  return word_of(form);
}

std::string to_string(Harm harm) {
  return word_of(harm);
}

std::string to_string(Route route) {
  return word_of(route);
}

std::string to_string(AtRisk group) {
  return word_of(group);
}

std::string to_string(HarmfulSubstance substance) {
  return word_of(substance);
}

std::string to_string(Level level) {
  return word_of(level);
}

}  // namespace firstdrop
