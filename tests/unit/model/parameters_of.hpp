// The model parameters of a recipe by the tables of test_stills.hpp, and why there are none.
#pragma once

#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "model/model_parameters.hpp"
#include "test_stills.hpp"

namespace firstdrop {

inline ModelParameters parameters_of(const Recipe& r) {
  return model_parameters(r, test_stills::rules());
}

/// The only fault of a recipe that is refused.
inline Fault fault_of(const Recipe& r) {
  try {
    parameters_of(r);
  } catch (const InputError& error) {
    REQUIRE(error.faults().size() == 1);
    return error.faults().front();
  }
  FAIL("nothing was wrong");
  return {};
}

}  // namespace firstdrop
