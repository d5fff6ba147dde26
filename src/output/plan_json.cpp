#include "firstdrop/output/write.hpp"
#include "output/explain.hpp"
#include "output/plan_lines.hpp"
#include "output/plan_outputs.hpp"

namespace firstdrop {

std::string plan_json(const Plan& plan) {
  return document_text(written_plan_outputs(), {plan}, true);
}

std::string plan_json(const Plan& plan, const std::vector<Chapter>& explained) {
  return document_text(written_plan_outputs(), {plan, {}, &explained}, true);
}

std::string plan_json_line(const Plan& plan) {
  std::string line;
  append_plan_line(line, plan);
  return line;
}

void append_plan_line(std::string& line, const Plan& plan, std::string_view set) {
  OutputWriter to(line, Extent::full);
  write_object(to, written_plan_outputs(), {plan, set});
}

void append_brief(std::string& line, const Plan& plan, std::string_view set) {
  OutputWriter to(line, Extent::brief);
  write_object(to, written_brief_outputs(), {plan, set});
}

}  // namespace firstdrop
