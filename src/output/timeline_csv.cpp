#include "firstdrop/output/write.hpp"
#include "output/plan_outputs.hpp"

namespace firstdrop {

std::string timeline_csv(const Plan& plan) {
  const RunPlan& run = plan.runnable();
  const Outputs<TimelineMoment>& columns = timeline_outputs();
  std::string csv;
  for (const Key& column : keys_of(columns, Extent::table))
    csv += (csv.empty() ? "" : ",") + column.name;
  csv += "\r\n";
  const std::optional<LocalMinute> start = parse_local_minute(plan.recipe.start);
  for (const TimelinePoint& point : run.timeline) {
    OutputWriter row(csv, Extent::table);
    write_members(row, columns, {point, start});
    csv += "\r\n";
  }
  return csv;
}

}  // namespace firstdrop
