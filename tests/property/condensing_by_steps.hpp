// Whether a condenser takes all steam of a run, worked out in small steps from the physics alone:
// vapour times latent heat against U A (boiling - coolant). Calls nothing of src/plan/cooling.cpp
// and src/physics/condenser.cpp.
#pragma once

#include <optional>
#include <string>

#include "firstdrop/plan/plan.hpp"
#include "model/model_parameters.hpp"

namespace property {

/// What comes over the top, from first drop until a late person is there.
struct Steam {
  firstdrop::MassFlow vapour;
  firstdrop::Duration first_drop;
  firstdrop::Duration stop;
  firstdrop::Duration after_heat;  ///< as long as it still comes when the heat is off
  firstdrop::Duration last_ice;    ///< then the ice before the stop goes in, where there is some
};

/// What went wrong at the condenser of an accepted plan's still, if anything did. The wall is at
/// its worst. Before the stop, ice goes in as the plan says and whenever coolant is at its limit,
/// until all that the plan says to have ready is used up; when the person is late, none does.
/// `still` is the plan's own, or one whose dimensions lie elsewhere in their ranges.
std::optional<std::string> steam_left_over(const firstdrop::Plan& plan,
                                           const firstdrop::ModelParameters& parameters,
                                           const firstdrop::Still& still,
                                           const firstdrop::DesignDefaults& defaults,
                                           const Steam& steam);

}  // namespace property
