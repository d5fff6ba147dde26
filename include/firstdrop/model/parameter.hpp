/// @file
/// The uncertain parameters of the model.
#pragma once

#include <cstddef>
#include <string>

namespace firstdrop {

/// The parameters that are not known exactly.
enum class Parameter : std::size_t {
  bulk_density,       ///< how densely the herb lies
  moisture,           ///< of the herb, as received
  oil_content,        ///< of the herb
  recovery,           ///< share of that oil that this still can get
  half_life,          ///< how fast the oil comes
  fast_share,         ///< share of the oil that comes in the fast stage
  flow_effect,        ///< how strongly the flow of steam changes the rates of both stages
  hydrosol_oil,       ///< oil that stays in the hydrosol
  mixing,             ///< of oil and hydrosol in the receiver
  oil_density,        ///< of the oil
  heater,             ///< rated power and efficiency, or the measured rate and time to boil
  heat_loss,          ///< from pot, column and head to the room
  dry_specific_heat,  ///< of the herb's dry matter
  hold_up,            ///< water that dry herb soaks up
  film_hold_up,       ///< water that clings to wet herb
  wall_hold_up,       ///< water that clings to walls
  uncondensed_loss,   ///< vapour that the condenser doesn't catch
  fill_error,         ///< error of pouring the water; quantile 0 is the most water, 1 the least
  condensing,         ///< heat through the condenser's wall
  bath_loss,          ///< from the coolant vessel to the room
  particle_size,      ///< of the bed
  particle_density,   ///< of the bed
};
/// Number of parameters.
inline constexpr std::size_t parameter_count = 22;

/// The enumerator's name: "oil_content".
std::string to_string(Parameter input);
/// Whether only the oil depends on it.
bool is_of_oil(Parameter input);
/// For a sentence: "oil content of the herb".
std::string in_words(Parameter input);

}  // namespace firstdrop
