/// @file
/// What a plan in full was worked out from. The plan keeps it, so that its explanation shows the
/// same values and works nothing out again.
#pragma once

#include <memory>
#include <optional>

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"
#include "model/model_parameters.hpp"
#include "physics/run.hpp"

namespace firstdrop {

/// The runs of a plan, both with its charge, first fill and stop.
struct RunWorkings {
  Run nominal;  ///< with every parameter at its median
  Run worst;    ///< of the worst credible case for the pot's water; may have a failure
};

/// See Plan::workings.
struct Workings {
  ModelParameters parameters;       ///< they refer to the tables
  Range<Mass> capacity;             ///< charge that fits; a range only where bulk density limits it
  std::optional<RunWorkings> runs;  ///< none where Plan::run is none
};

/// Records the workings of a plan.
std::shared_ptr<const Workings> workings_of(const ModelParameters& parameters,
                                            const DesignDefaults& defaults,
                                            const std::optional<RunWorkings>& runs);

}  // namespace firstdrop
