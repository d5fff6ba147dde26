// What a batch writes besides plans, declared once: see output/output.hpp.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "batch/batch_summary.hpp"
#include "firstdrop/base/error.hpp"
#include "output/output.hpp"

namespace firstdrop {

/// A line about a recipe that couldn't be planned.
struct BrokenLine {
  std::string_view set = {};  ///< values of a batch that varies keys, as JSON; may be empty
  const BrokenRecipe& recipe;
  const std::vector<Fault>& faults;  ///< at least one
};

/// The summary of one grid point.
struct SummaryVariant {
  std::string set;  ///< its values, as JSON
  const BatchSummary& summary;
};
/// The summary of a batch. The points of a grid are alternatives, so a batch that varies keys has
/// no sums over all of them.
struct WrittenSummary {
  const BatchSummary& summary;
  bool varies = false;
  std::vector<SummaryVariant> variants;  ///< one for each grid point; may be empty
};

const Outputs<BrokenLine>& broken_line_outputs();
const Outputs<WrittenSummary>& written_summary_outputs();

Document broken_document();
Document summary_document();

}  // namespace firstdrop
