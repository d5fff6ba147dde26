// Every output of a plan, declared once: see output.hpp.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "firstdrop/plan/plan.hpp"
#include "output/explain.hpp"
#include "output/output.hpp"
#include "quantity/clock_time.hpp"

namespace firstdrop {

/// Why a figure of oil is left out.
inline constexpr const char* no_oil_known = "nothing is known of the plant's oil";

/// A plan as it is written.
struct WrittenPlan {
  const Plan& plan;
  std::string_view set = {};  ///< values of a batch that varies keys, as JSON; may be empty
  const std::vector<Chapter>* explained = nullptr;  ///< may be null
};

/// A step of the timeline, and the start of heating if it is known.
struct TimelineMoment {
  const TimelinePoint& point;
  std::optional<LocalMinute> start = std::nullopt;
};

const Outputs<WrittenPlan>& written_plan_outputs();
/// A plan in brief, for Extent::brief.
const Outputs<WrittenPlan>& written_brief_outputs();
/// The plan's own outputs, without what a batch or an explanation adds.
const Outputs<Plan>& plan_outputs();
const Outputs<TimelineMoment>& timeline_outputs();

/// What to watch: the levels and the time that end a run.
const Outputs<RunPlan>& stop_outputs();
/// Rules between those keys, as members of a JSON Schema.
extern const char* const stop_rules;
/// What a run costs. In a plan it stands beside the energy.
const Outputs<EnergyPlan>& cost_outputs();
extern const char* const cost_rules;

/// The plan as a document, and the same in brief.
Document plan_document();
Document brief_document();

}  // namespace firstdrop
