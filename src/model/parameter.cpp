#include "firstdrop/model/parameter.hpp"

#include <array>

namespace firstdrop {
namespace {

struct ParameterName {
  const char* key;
  const char* words;
};
// In the order of the enumeration.
constexpr std::array<ParameterName, parameter_count> parameter_names = {{
    {"bulk_density", "how densely the herb lies"},
    {"moisture", "moisture of the herb"},
    {"oil_content", "oil content of the herb"},
    {"recovery", "share of the oil that this still gets"},
    {"half_life", "how fast the oil comes"},
    {"fast_share", "share of the oil that comes fast"},
    {"flow_effect", "how far steam hurries the oil"},
    {"hydrosol_oil", "oil that the hydrosol keeps"},
    {"mixing", "oil and water mixing in the receiver"},
    {"oil_density", "density of the oil"},
    {"heater", "heat that gets into the pot"},
    {"heat_loss", "heat lost to the room"},
    {"dry_specific_heat", "heat capacity of herb and still"},
    {"hold_up", "water that the herb soaks up"},
    {"film_hold_up", "water that clings to the herb"},
    {"wall_hold_up", "water that clings to the walls"},
    {"uncondensed_loss", "vapour that the condenser misses"},
    {"fill_error", "how exactly the water is poured"},
    {"condensing", "heat through the condenser's wall"},
    {"bath_loss", "heat that the coolant loses to the room"},
    {"particle_size", "size of the pieces"},
    {"particle_density", "density of the pieces"},
}};

}  // namespace

std::string to_string(Parameter input) {
  return parameter_names.at(static_cast<std::size_t>(input)).key;
}

bool is_of_oil(Parameter input) {
  switch (input) {
    case Parameter::oil_content:
    case Parameter::recovery:
    case Parameter::half_life:
    case Parameter::fast_share:
    case Parameter::flow_effect:
    case Parameter::hydrosol_oil:
    case Parameter::mixing:
    case Parameter::oil_density:
      return true;
    default:
      return false;
  }
}

std::string in_words(Parameter input) {
  return parameter_names.at(static_cast<std::size_t>(input)).words;
}

}  // namespace firstdrop
