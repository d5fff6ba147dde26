/// @file
/// The run sheet: what lies on the bench during the run. One page, in the order of doing.
#pragma once

#include <string>

#include "firstdrop/plan/plan.hpp"

namespace firstdrop {

/// In what form a run sheet comes.
enum class SheetFormat {
  text,      ///< 80 columns
  markdown,  ///< with task lists and tables
  html,  ///< one self-contained page to print, A4 or US Letter, with the course of the run drawn
};

/// The sheet of a plan that can be run, in the units of its recipe. The same plan gives the same
/// bytes. Throws RangeError for a plan that is refused: nobody shall work from one.
std::string run_sheet(const Plan& plan, SheetFormat format);

}  // namespace firstdrop
