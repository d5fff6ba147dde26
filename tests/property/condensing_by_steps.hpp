// Whether a condenser takes all the steam of a run, worked out in small steps from the physics
// alone: vapour times latent heat against U A (boiling - coolant). It calls nothing in
// src/plan/cooling.cpp or src/physics/condenser.cpp.
#pragma once

#include <optional>
#include <string>

#include "firstdrop/plan/plan.hpp"
#include "model/model_parameters.hpp"

namespace property {

/// The vapour that comes over the top, from first drop until a late person arrives.
struct Steam {
  firstdrop::MassFlow vapour;
  firstdrop::Duration first_drop;
  firstdrop::Duration stop;
  firstdrop::Duration after_heat;  ///< how long it still comes after the heat is off
  firstdrop::Duration last_ice;    ///< when the ice before the stop goes in, if there is any
};

/// Says what goes wrong at the condenser of an accepted plan's still; none if nothing does. The
/// heat transfer of the wall is at its lower bound. Before the stop, ice goes in as the plan says
/// and whenever the coolant is at its limit, until all the ice that the plan says to have ready is
/// used up. While the person is late, no ice goes in. `still` is the plan's own, or one with its
/// dimensions elsewhere in their ranges.
std::optional<std::string> steam_left_over(const firstdrop::Plan& plan,
                                           const firstdrop::ModelParameters& parameters,
                                           const firstdrop::Still& still,
                                           const firstdrop::DesignDefaults& defaults,
                                           const Steam& steam);

}  // namespace property
