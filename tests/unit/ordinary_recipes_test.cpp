// What people ordinarily ask of the shipped stills: a caution shall be the exception, or nobody
// reads it.
#include <iostream>
#include <map>
#include <string>

#include "catch.hpp"
#include "firstdrop/planner.hpp"
#include "test_library.hpp"

using namespace firstdrop;

namespace {

struct Way {
  const char* still;
  Method method;
  double room;  // of charge, L
};

}  // namespace

TEST_CASE("of ordinary recipes at most three in ten carry a caution", "[plan]") {
  constexpr Way ways[] = {{"bench-basket", Method::steam, 0.8},
                          {"bench-column", Method::steam, 1.5},
                          {"bench-column-large", Method::steam, 4},
                          {"glass-bench", Method::steam, 1},
                          {"herb-pot", Method::hydro, 5},
                          {"farm-grid", Method::hydro, 15},
                          {"farm-grid", Method::water_and_steam, 15}};
  int made = 0;
  int accepted = 0;
  int caution = 0;
  std::map<std::string, int> codes;
  PlanMaker maker(shipped());
  for (const auto& [key, plant] : shipped().plants) {
    for (const Way& way : ways) {
      const Goal goals[] = {HarvestGoal{}, HarvestGoal{}, HydrosolGoal{litres(way.room * 0.4)},
                            OilShareGoal{percent(60 + made % 3 * 10)},
                            TimeGoal{minutes(60 + made % 3 * 15)}};
      for (const Goal& goal : goals) {
        Recipe r;
        r.plant = plant;
        r.state = made % 2 == 0 ? plant->states.begin()->first : plant->states.rbegin()->first;
        r.still = shipped().stills.at(way.still);
        r.method = way.method;
        r.goal = goal;
        // Water from the tap or, as often, what stands in the room.
        if (made % 2 == 0) r.site.coolant = celsius(8 + made % 4 * 3);
        if (r.still->heater.kind == HeaterKind::gas_burner) r.site.place = Place::outdoors;
        ++made;
        const Plan p = maker.make(r, Sampling(256));
        if (!p.may_be_run()) continue;
        ++accepted;
        if (p.verdict == Verdict::caution) ++caution;
        for (const Finding& finding : p.findings) {
          if (finding.level == Level::caution) ++codes[finding.code];
        }
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
