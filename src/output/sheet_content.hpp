// What a run sheet says, in any format.
#pragma once

#include <string>
#include <vector>

#include "firstdrop/plan/plan.hpp"

namespace firstdrop {

/// What to weigh, pour or set.
struct SheetAmount {
  std::string what;
  std::string amount;
  std::string how;
};

/// A moment of the run.
struct SheetStep {
  std::string at;     ///< from the start of heating: "18 min"; empty: all the time
  std::string range;  ///< "17 to 25 min"; may be empty
  std::string clock;  ///< "09:48"; empty without a start
  std::string see;    ///< what to look at
  std::string act;    ///< what to do
  bool key = false;   ///< heat on or heat off: must stand out at a glance
  bool timed = true;  ///< has a box for the time
};

/// What to write down: a box with its unit.
struct SheetBox {
  std::string what;
  std::string unit;
};

struct SheetLabel {
  std::string name;
  std::vector<std::string> lines;
};

struct SheetContent {
  std::string title;
  std::string subject;  ///< plant, state, cut, method, still
  std::string example;  ///< says that figures of the still are invented; otherwise empty
  std::string verdict;
  std::string lot;   ///< empty for a run with water alone
  std::string day;   ///< "2026-06-20"; empty without a start
  std::string runs;  ///< "one of 3 such runs"; empty for one
  std::vector<SheetAmount> amounts;
  std::vector<std::string> bench;        ///< things to set up
  std::vector<std::string> before_heat;  ///< things to check
  std::vector<SheetStep> steps;
  std::string levels;  ///< "In the receiver: 200 mL at 30 min."; may be empty
  std::string stop;    ///< when to turn the heat off: "800 mL"
  std::string latest;  ///< the latest safe moment, see bounds_in_words()
  std::string forgotten;
  std::string yield;
  std::vector<SheetBox> boxes;
  std::vector<std::string> afterwards;
  std::vector<SheetLabel> labels;     ///< may be empty
  std::vector<std::string> cautions;  ///< of this run, to be read before anything else
  std::string hazards_title = "Plant and oil";
  std::vector<std::string> hazards;  ///< of the plant and its oil
  std::string footing;
};

/// Needs a plan that isn't refused.
SheetContent sheet_content(const Plan& plan);

}  // namespace firstdrop
