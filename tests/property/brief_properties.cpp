#include "brief_properties.hpp"

#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <variant>

#include "firstdrop/output/write.hpp"
#include "firstdrop/plan/planner.hpp"
#include "output/plan_lines.hpp"

using namespace firstdrop;
using nlohmann::json;

namespace property {
namespace {

json in_brief(const Plan& whole, PlanMaker& maker, int samples) {
  std::string line;
  append_brief(line, maker.make(whole.recipe, samples, Detail::brief));
  return json::parse(line);
}

/// Whether only a brief line has this key.
bool is_of_brief_alone(const std::string& key) {
  return key == "brief" || key.starts_with("nominal_");
}

/// Checks that each figure of `brief` is in `whole`, and the same to the last bit.
void compare(const json& brief, const json& whole, const std::string& pointer, Judge& judge) {
  for (const auto& [key, value] : brief.items()) {
    if (is_of_brief_alone(key) || key == "findings") continue;
    const std::string place = pointer + "/" + key;
    if (!whole.contains(key)) {
      judge.add("a plan in brief has no key that the full plan has not", place);
    } else if (value.is_object()) {
      compare(value, whole.at(key), place, judge);
    } else if (value != whole.at(key)) {
      judge.add("a plan in brief has the figures of the full plan",
                place + ": " + value.dump() + ", " + whole.at(key).dump());
    }
  }
}

/// Code and level of each finding except notes, with the text if it refuses.
std::multiset<std::string> warnings(const json& plan) {
  std::multiset<std::string> all;
  for (const json& finding : plan.at("findings")) {
    const auto level = finding.at("level").get<std::string>();
    if (level == "note") continue;
    all.insert(finding.at("code").get<std::string>() + " " + level +
               (level == "refuse" ? finding.at("text").get<std::string>() : ""));
  }
  return all;
}

}  // namespace

Violations brief_violations(const Plan& whole, PlanMaker& maker, int samples) {
  Judge judge;
  const json plan = json::parse(plan_json(whole));
  const json brief = in_brief(whole, maker, samples);
  compare(brief, plan, "", judge);
  judge.holds(warnings(brief) == warnings(plan),
              "a plan in brief warns of what the full plan warns of");
  // Without samples, the odds of a goal are worked out with more samples than here, so the plan may
  // aim at another amount.
  const Goal& goal = whole.recipe.goal;
  if (whole.recipe.confidence || std::holds_alternative<OilGoal>(goal)) return judge.take();
  const json numbers = in_brief(whole, maker, 0);
  json without_chances = plan;
  for (const auto& [key, value] : numbers.items()) {
    if (key != "verdict") continue;
    // Cautions that rest on ranges are missing without samples.
    judge.holds(value == plan.at("verdict") || (value == "go" && plan.at("verdict") == "caution"),
                "without samples a plan in brief is refused when the full plan is");
    without_chances["verdict"] = value;
  }
  compare(numbers, without_chances, "", judge);
  return judge.take();
}

}  // namespace property
