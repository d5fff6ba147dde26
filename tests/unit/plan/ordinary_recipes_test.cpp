// What people ordinarily ask of the shipped stills. A caution must be the exception, or nobody will
// read it.
#include <iostream>
#include <map>
#include <string>

#include "catch.hpp"
#include "firstdrop/plan/planner.hpp"
#include "model/parameters_at.hpp"
#include "test_tables.hpp"

using namespace firstdrop;

TEST_CASE("of ordinary recipes at most three in ten carry a caution", "[plan]") {
  int made = 0;
  int accepted = 0;
  int caution = 0;
  std::map<std::string, int> codes;
  PlanMaker maker(shipped_tables());
  for (Recipe r : plain_recipes()) {
    if (r.plant->unsuited) continue;  // not ordinary
    const bool has_oil = has_oil_figures(r.plant);
    const bool in_water = r.method_used() == Method::hydro;
    const Volume room = charge_space(r.still, r.method_used()) * (in_water ? 0.3 : 1.0);
    if (r.still->heater.kind == HeaterKind::gas_burner) r.site.place = Place::outdoors;
    const Goal goals[] = {HarvestGoal{}, HarvestGoal{}, HydrosolGoal{room * 0.4},
                          OilShareGoal{percent(60 + made % 3 * 10)},
                          TimeGoal{minutes(60 + made % 3 * 15)}};
    for (const Goal& goal : goals) {
      if (!has_oil && std::holds_alternative<OilShareGoal>(goal)) continue;
      r.goal = goal;
      r.state = made % 2 == 0 ? r.plant->states.begin()->first : r.plant->states.rbegin()->first;
      // Water from the tap or, just as often, water at room temperature.
      r.site.coolant.reset();
      if (made % 2 == 0) r.site.coolant = celsius(8 + made % 4 * 3);
      ++made;
      const Plan p = maker.make(r, 256);
      if (!p.may_be_run()) continue;
      ++accepted;
      if (p.verdict == Verdict::caution) ++caution;
      for (const Finding& finding : p.findings) {
        if (finding.level == Level::caution) ++codes[std::string(finding.code())];
      }
    }
  }
  std::cout << made << " ordinary recipes, " << accepted << " accepted, " << caution
            << " with a caution:";
  for (const auto& [code, count] : codes) std::cout << ' ' << code << ' ' << count;
  std::cout << '\n';
  CHECK(made >= 1500);
  CHECK(accepted > 1200);
  CHECK(caution * 10 <= accepted * 3);
}
