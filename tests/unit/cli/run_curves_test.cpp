// The list of curves and marks that the picture and the chart are drawn from: both show all of it,
// except what the list leaves out for one of them.
#include "output/run_curves.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include "base/visible_text.hpp"
#include "catch.hpp"
#include "cli/pages/plan_chart.hpp"
#include "firstdrop/output/write.hpp"
#include "firstdrop/plan/planner.hpp"
#include "test_stills.hpp"

using namespace firstdrop;
using namespace test_stills;

namespace {

Plan plan_for(Goal goal) {
  return plan(recipe(herb(), iced_still(litres(1), litres(6), kilograms(1)), goal));
}

std::string chart(const Plan& plan) {
  cli::Look look;
  look.width = 100;
  return cli::plan_chart(plan, look);
}

bool has(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

std::vector<std::string> names(const Plan& plan, bool Shown::*where) {
  std::vector<std::string> all;
  for (const Curve& curve : run_curves(plan, where).curves) all.push_back(curve.name);
  return all;
}

RunMark moment(const char* words, Duration at, bool shares_flag) {
  RunMark mark;
  mark.at = at;
  mark.moment = words;
  mark.shares_flag = shares_flag;
  return mark;
}

}  // namespace

TEST_CASE("paper shows every curve, the terminal those of its two axes up to the stop",
          "[curves]") {
  const Plan p = plan_for(HydrosolGoal{millilitres(500)});
  CHECK(names(p, &Shown::on_paper) == std::vector<std::string>{"pot water", "reserve", "hydrosol",
                                                               "pot water if the heat stays on",
                                                               "oil", "coolant limit", "coolant"});
  CHECK(names(p, &Shown::on_terminal) ==
        std::vector<std::string>{"pot water", "reserve", "hydrosol", "oil"});
}

TEST_CASE("picture and chart show what is in the list", "[curves]") {
  const Plan p = plan_for(HydrosolGoal{millilitres(500)});
  const std::string svg = run_picture(p);
  const RunCurves on_paper = run_curves(p, &Shown::on_paper);
  for (const Curve& curve : on_paper.curves) {
    for (const CurveLabel& label : curve.labels) {
      CAPTURE(label.text);
      CHECK(has(svg, as_markup(label.text)));
    }
  }
  for (const RunMark& mark : on_paper.marks) {
    CAPTURE(mark.moment);
    CHECK(std::any_of(mark.words.begin(), mark.words.end(),
                      [&](const std::string& words) { return has(svg, as_markup(words)); }));
  }
  CHECK(has(svg, as_markup(on_paper.in_words)));
  const std::string drawn = chart(p);
  const RunCurves on_terminal = run_curves(p, &Shown::on_terminal);
  for (const Curve& curve : on_terminal.curves) {
    CAPTURE(drawn, curve.name);
    CHECK(has(drawn, curve.name));
    CHECK(has(drawn, curve.end.text));
  }
  for (const RunMark& mark : on_terminal.marks) {
    CAPTURE(drawn, mark.moment);
    CHECK(has(drawn, mark.moment));
  }
}

TEST_CASE("every curve on an axis ends within the run, in order of time", "[curves]") {
  const Plan p = plan_for(HydrosolGoal{millilitres(500)});
  for (const Curve& curve : run_curves(p, &Shown::on_paper).curves) {
    CAPTURE(curve.name);
    REQUIRE_FALSE(curve.points.empty());
    CHECK(std::is_sorted(curve.points.begin(), curve.points.end(),
                         [](const CurvePoint& a, const CurvePoint& b) { return a.at < b.at; }));
    if (curve.line != Line::dotted) CHECK(curve.points.back().at <= p.run->times.stop);
  }
}

TEST_CASE("few ice changes are named, many are counted", "[curves]") {
  Plan p = plan_for(HydrosolGoal{millilitres(500)});
  auto& changes = p.run->cooling.ice_changes;
  const auto of_ice = [&] {
    std::vector<RunMark> marks = run_curves(p, &Shown::on_paper).marks;
    std::erase_if(marks, [](const RunMark& mark) { return mark.kind != MarkKind::ice; });
    return marks;
  };
  changes.assign(8, {p.run->times.stop * 0.5, grams(500)});
  CHECK(of_ice().back().words == std::vector<std::string>{"ice 500 g", "ice", ""});
  changes.assign(9, changes.front());
  CHECK(of_ice().front().words == std::vector<std::string>{"ice, 9 times"});
  CHECK(of_ice().back().words == std::vector<std::string>{""});
}

TEST_CASE("marks at the same place share a flag, if the list says they may", "[curves]") {
  const auto words = [](const RunMark& mark) { return mark.moment; };
  const auto near = [](const RunMark& a, const RunMark& b) { return b.at - a.at < minutes(2); };
  const RunMark drop = moment("drop", minutes(10), false);
  CHECK(flag_words({drop, moment("boils", minutes(9), true)}, words, near) ==
        std::vector<std::string>{"boils, drop", ""});
  CHECK(flag_words({drop, moment("boils", minutes(9), false)}, words, near) ==
        std::vector<std::string>{"drop", "boils"});
  CHECK(flag_words({drop, moment("boils", minutes(5), true)}, words, near) ==
        std::vector<std::string>{"drop", "boils"});
}
