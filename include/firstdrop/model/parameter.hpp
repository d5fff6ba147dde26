/// @file
/// The uncertain parameters of the model.
#pragma once

#include <cstddef>
#include <string>

namespace firstdrop {

/// The parameters that are not known exactly.
enum class Parameter : std::size_t {
  bulk_density,       ///< how densely the herb lies
  moisture,           ///< of the herb as loaded
  oil_content,        ///< of the herb
  recovery,           ///< share of it that this still can get
  half_life,          ///< how fast the oil comes
  fast_share,         ///< of the oil, in the fast stage
  flow_effect,        ///< how far the flow of steam sets the pace, of both stages
  hydrosol_oil,       ///< oil that the hydrosol keeps
  mixing,             ///< of oil and hydrosol in the receiver
  oil_density,        ///< of the oil
  heater,             ///< rated power and efficiency, or what was measured of them
  heat_loss,          ///< from pot, column and head to the room
  dry_specific_heat,  ///< of the herb's dry matter
  hold_up,            ///< water that dry herb soaks up
  film_hold_up,       ///< water that clings to wet herb
  wall_hold_up,       ///< water that clings to walls
  uncondensed_loss,   ///< vapour that the condenser misses
  fill_error,         ///< how exactly the water is poured; 0 the most water, 1 the least
  condensing,         ///< heat through the condenser's wall
  bath_loss,          ///< from the coolant vessel to the room
  particle_size,      ///< of the bed
  particle_density,   ///< of the bed
};
/// How many there are.
inline constexpr std::size_t parameter_count = 22;

/// Its name above: "oil_content".
std::string to_string(Parameter input);
/// For a sentence: "oil content of the herb".
std::string in_words(Parameter input);

}  // namespace firstdrop
