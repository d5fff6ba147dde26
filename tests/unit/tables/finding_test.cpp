// The table of findings: it is complete, and each finding in it can be triggered.
#include "firstdrop/tables/finding.hpp"

#include <algorithm>
#include <functional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "catch.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/tables/tables.hpp"
#include "test_stills.hpp"

using namespace firstdrop;
using namespace test_stills;

namespace {

bool is_sentence(const std::string& text) {
  return text.size() > 8 && text.back() == '.' && !(text.front() >= 'a' && text.front() <= 'z');
}

/// A recipe that triggers a finding: 300 mL of hydrosol from the test herb in the test column, with
/// one change.
struct Provocation {
  std::string code;
  Level level;
  std::function<void(Recipe&)> change;
  const Tables* tables = &rules();
};

void as_it_is(Recipe&) {}

PlantState& fresh(Recipe& r) {
  return r.plant.change().states.at(State::fresh);
}
Condenser& condenser(Recipe& r) {
  return r.still.change().condenser;
}
void no_oil(Recipe& r) {
  Plant& plant = r.plant.change();
  for (auto& [state, figures] : plant.states) figures.oil_content.reset();
  plant.release.clear();
  plant.release_class.clear();
  plant.recovery.clear();
  plant.constituents.clear();
  plant.oil_density.reset();
  plant.hydrosol_oil.reset();
}
OilRelease& by_steam(Recipe& r) {
  return r.plant.change().release.at(Method::steam);
}
void in(Recipe& r, Still still) {
  r.method = still.methods.front();
  r.still = std::move(still);
}
/// Sets a reservoir of 22 L that gets warm within three quarters of an hour.
void in_a_bucket(Recipe& r, Area surface, Mass ice_per_change) {
  condenser(r).coolant = exactly(litres(22));
  condenser(r).surface = exactly(surface);
  condenser(r).ice_per_change = exactly(ice_per_change);
  r.goal = TimeGoal{minutes(45)};
}
void with_hazard(Recipe& r, Harm harm, std::vector<HarmfulSubstance> substances = {}) {
  Hazard hazard;
  hazard.harms = {harm};
  hazard.substances = std::move(substances);
  hazard.text = "Mind it.";
  hazard.evidence = {"a body's guidance", {}, Known::read};
  r.plant.change().hazards = {hazard};
}

const std::vector<Provocation>& provocations() {
  using enum Level;
  static const std::vector<Provocation> all = {
      {"plant-unknown", caution, [](Recipe& r) { r.plant.change().like = "leafy-herb"; }},
      {"never-boils", refuse, [](Recipe& r) { r.setting = percent(4); }},
      {"never-at-the-top", refuse, [](Recipe& r) { r.setting = percent(7); }},
      {"own-figure-impossible", refuse,
       [](Recipe& r) { r.own.distillate_rate = millilitres_per_minute(40); }},
      {"own-figure-unlikely", caution,
       [](Recipe& r) { r.own.distillate_rate = millilitres_per_minute(5); }},
      {"own-figures-disagree", caution,
       [](Recipe& r) {
         r.own.distillate_rate = millilitres_per_minute(8);
         r.own.boil_water = litres(1.5);
         r.own.boil_time = minutes(14);
       }},
      {"charge-too-large", refuse, [](Recipe& r) { r.charge = kilograms(100); }},
      {"no-water-to-spare", refuse,
       [](Recipe& r) {
         in(r, hydro_still());
         r.goal = HarvestGoal{};
         r.limits.absence = hours(4);
       }},
      {"oil-out-of-reach", refuse, [](Recipe& r) { r.goal = OilGoal{grams(100)}; }},
      {"confidence-out-of-reach", refuse,
       [](Recipe& r) {
         r.goal = OilGoal{grams(0.5)};
         r.charge = grams(150);
         r.confidence = percent(95);
       }},
      {"pot-overfull", refuse, [](Recipe& r) { r.water = litres(1.9); }},
      {"reserve-reached", refuse, [](Recipe& r) { r.water = litres(0.7); }},
      {"target-exceeds-pot", refuse, [](Recipe& r) { r.goal = HydrosolGoal{litres(3)}; }},
      {"stops-before-first-drop", refuse, [](Recipe& r) { r.goal = TimeGoal{minutes(3)}; }},
      {"too-slow", refuse, [](Recipe& r) { r.setting = percent(11); }},
      {"bed-solid", refuse,
       [](Recipe& r) {
         r.charge = grams(400);
         r.own.bulk_density = grams_per_litre(960);
       }},
      {"steam-escapes", refuse,
       [](Recipe& r) { condenser(r).surface = exactly(square_metres(0.02)); }},
      {"coolant-when-late", refuse,
       [](Recipe& r) { in_a_bucket(r, square_metres(0.042), kilograms(1)); }},
      {"coolant-short", refuse, [](Recipe& r) { in(r, tap_still(millilitres_per_minute(300))); }},
      {"coolant-starts-warm", refuse, [](Recipe& r) { r.site.coolant = celsius(36); }},
      {"coolant-too-warm", refuse, [](Recipe& r) { condenser(r).coolant = exactly(litres(5)); }},
      {"coolant-limit-high", refuse,
       [](Recipe& r) {
         r.site.altitude = metres(3500);
         condenser(r).coolant_limit = exactly(celsius(88));
       }},
      {"circuit-overloaded", refuse,
       [](Recipe& r) {
         r.site.mains = volts(230);
         r.site.breaker = amperes(4);
       }},
      {"circuit-near-limit", caution,
       [](Recipe& r) {
         r.site.mains = volts(230);
         r.site.breaker = amperes(5);
       }},
      {"circuit-check", note,
       [](Recipe& r) { r.still.change().heater.power = exactly(watts(1441)); }},
      {"ice-often", refuse, [](Recipe& r) { in(r, iced_still(litres(1), litres(4), grams(100))); }},
      {"ice-often", caution,
       [](Recipe& r) { in(r, iced_still(litres(1), litres(4), grams(300))); }},
      {"ice-before-stop", caution,
       [](Recipe& r) { in_a_bucket(r, square_metres(0.043), kilograms(1)); }},
      {"coolant-warm-if-hot", caution,
       [](Recipe& r) { in_a_bucket(r, square_metres(0.1), grams(0)); }},
      {"heater-weak", caution, [](Recipe& r) { r.setting = percent(14); }},
      {"may-give-nothing", caution, [](Recipe& r) { r.goal = TimeGoal{minutes(10)}; }},
      {"may-end-early", caution,
       [](Recipe& r) {
         r.goal = HydrosolGoal{millilitres(600)};
         r.charge = grams(150);
         r.setting = percent(25);
         r.water = litres(1.16);
       }},
      {"time-limit-first", caution, [](Recipe& r) { r.limits.time = minutes(25); }},
      {"goal-uncertain", caution, [](Recipe& r) { r.limits.time = minutes(25); }},
      {"water-ends-run", caution,
       [](Recipe& r) {
         r.goal = HarvestGoal{};
         r.plant.change().hydrosol_oil = exactly(milligrams_per_litre(0));
         by_steam(r).half_life = exactly(hours(10));
       }},
      {"water-ends-run", note,
       [](Recipe& r) {
         r.goal = HarvestGoal{};
         r.still.change().column->volume = exactly(litres(6));
         r.still.change().column->diameter = exactly(millimetres(200));
         by_steam(r).half_life = exactly(minutes(20));
       }},
      {"coolant-ends-run", caution,
       [](Recipe& r) {
         r.goal = HarvestGoal{};
         condenser(r).coolant = exactly(litres(5));
       }},
      {"long-run", caution, [](Recipe& r) { r.setting = percent(17); }},
      {"column-nearly-empty", caution, [](Recipe& r) { r.charge = grams(25); }},
      {"method-without-figures", caution,
       [](Recipe& r) {
         r.plant.change().release.erase(Method::steam);
         r.plant.change().release.erase(Method::water_and_steam);
       }},
      {"default-figures", note, [](Recipe& r) { r.plant.change().release.erase(Method::steam); }},
      {"oil-unknown", note, no_oil},
      {"fraction-empty", caution,
       [](Recipe& r) {
         r.fractions = {{litres(90)}, {}};
       }},
      {"steam-spoils", caution,
       [](Recipe& r) {
         r.plant.change().unsuited = {false, "Its scent dies.", "", {}};
       }},
      {"not-to-be-distilled", refuse,
       [](Recipe& r) {
         r.plant.change().unsuited = {true, "It kills.", "", {}};
       }},
      {"still-defaults", note,
       [](Recipe& r) { r.still.change().pot.mass.evidence.known = Known::default_value; }},
      {"still-doubtful", caution,
       [](Recipe& r) { r.still.change().pot.mass = exactly(kilograms(110)); }},
      {"hydro-scorch", note, [](Recipe& r) { in(r, hydro_still()); }},
      {"charge-not-covered", caution,
       [](Recipe& r) {
         in(r, hydro_still());
         r.still.change().heater.power = exactly(kilowatts(1));
         r.still.change().pot.minimum_water = exactly(litres(0.2));
         r.goal = HydrosolGoal{millilitres(60)};
         r.limits.absence = minutes(0);
         r.state = State::dried;
         r.charge = grams(200);
         r.water = litres(1.58);
       },
       &shipped()},
      {"ground-channels", caution, [](Recipe& r) { r.cut = Cut::ground; }},
      {"bed-blocks", caution,
       [](Recipe& r) {
         r.charge = grams(400);
         r.own.bulk_density = grams_per_litre(940);
       }},
      {"distillate-warm", caution,
       [](Recipe& r) {
         in(r, tap_still(millilitres_per_minute(3000)));
         condenser(r).outlet = exactly(celsius(24.9));
       }},
      {"gas-indoors", caution,
       [](Recipe& r) { r.still.change().heater.kind = HeaterKind::gas_burner; }},
      {"open-flame", note,
       [](Recipe& r) { r.still.change().heater.kind = HeaterKind::gas_burner; }},
      {"glass-over-heat", note, [](Recipe& r) { r.still.change().pot.material = "glass"; }},
      {"element-covered", note,
       [](Recipe& r) { r.still.change().heater.kind = HeaterKind::immersed_element; }},
      {"oil-at-flash-point", caution,
       [](Recipe& r) { r.plant.change().flash_point = exactly(celsius(25)); }},
      {"flash-point", note, [](Recipe& r) { r.plant.change().flash_point = exactly(celsius(60)); }},
      {"oil-freezes", caution,
       [](Recipe& r) { r.plant.change().oil_freezes = exactly(celsius(18)); }},
      {"toxic-oil", note, [](Recipe& r) { with_hazard(r, Harm::seizures); }},
      {"regulated-substance", note,
       [](Recipe& r) { with_hazard(r, Harm::cancer, {HarmfulSubstance::safrole}); }},
      {"plant-hazard", note, [](Recipe& r) { with_hazard(r, Harm::allergy); }},
      {"receiver-small", caution, [](Recipe& r) { r.receiver_volume = millilitres(11); }},
      {"several-runs", note, [](Recipe& r) { r.charge = grams(400); }},
      {"several-runs", caution, [](Recipe& r) { r.charge = kilograms(1); }},
      {"charge-left-over", note, [](Recipe& r) { r.charge = grams(180); }},
      {"own-figures", note, [](Recipe& r) { r.own.bulk_density = grams_per_litre(150); }},
      {"bulk-density-guess", note, as_it_is},
      {"plant-note", note, [](Recipe& r) { r.plant.change().note = "It foams at first."; }},
      {"method-not-usual", note,
       [](Recipe& r) {
         r.plant.change().best_method = BestMethod{Method::hydro, "It clumps.", {}};
       }},
      {"usual-cut", note,
       [](Recipe& r) {
         r.plant.change().usual_cut = UsualCut{std::nullopt, "Stop when the smell turns.", {}};
       }},
      {"hydrosol-thin", note,
       [](Recipe& r) {
         r.charge = grams(60);
         r.goal = HydrosolGoal{millilitres(500)};
       }},
      {"vapour-in-the-room", note, as_it_is},
      {"hydrosol-storage", note, as_it_is},
      {"much-heat-lost", note, [](Recipe& r) { r.setting = percent(19); }},
      {"curve-only-rises", note, [](Recipe& r) { r.setting = percent(19); }},
      {"still-size-rules", note,
       [](Recipe& r) { r.still.change().pot.volume = exactly(litres(3)); }},
      {"oil-stays-in-hydrosol", note,
       [](Recipe& r) { fresh(r).oil_content->by_mass = exactly(percent(0.2)); }},
      {"oil-all-in-hydrosol", note,
       [](Recipe& r) { fresh(r).oil_content->by_mass = exactly(percent(0.01)); }},
      {"oil-hard-to-part", note,
       [](Recipe& r) { fresh(r).oil_content->by_mass = exactly(percent(0.15)); }},
      {"steam-bound-unknown", note, as_it_is},
      {"steam-bound-partial", note,
       [](Recipe& r) {
         r.plant.change().constituents = {{"limonene", exactly(percent(70))},
                                          {"chamazulene", exactly(percent(20))}};
       }},
      {"steam-sets-the-pace", note,
       [](Recipe& r) {
         r.plant.change().constituents = {{"eugenol", exactly(percent(95))}};
         fresh(r).oil_content->by_mass = exactly(percent(15));
       }},
      {"oil-sinks", note,
       [](Recipe& r) { r.plant.change().oil_density = exactly(kilograms_per_cubic_metre(1045)); }},
      {"oil-near-water", note,
       [](Recipe& r) {
         r.plant.change().oil_density =
             between(kilograms_per_cubic_metre(980), kilograms_per_cubic_metre(995),
                     kilograms_per_cubic_metre(1010));
       }},
      {"wants-cohobation", note, [](Recipe& r) { r.plant.change().wants_cohobation = true; }},
  };
  return all;
}

std::string named(const std::string& code, Level level) {
  return code + " as " + to_string(level);
}

}  // namespace

TEST_CASE("the table of findings is whole", "[findings]") {
  CHECK(shipped().findings.size() > 60);
  int guided = 0;
  for (const auto& [code, row] : shipped().findings) {
    const FindingKind& kind = row;
    CAPTURE(code);
    CHECK_FALSE(kind.levels.empty());
    CHECK(is_sentence(kind.meaning));
    CHECK(is_sentence(kind.what_to_do));
    if (!kind.guidance) continue;
    ++guided;
    CHECK(is_sentence(kind.guidance->reason));
    CHECK_FALSE(kind.guidance->follows.empty());
    CHECK_FALSE(kind.guidance->evidence.basis.empty());
    CHECK_FALSE(kind.guidance->evidence.sources.empty());
  }
  CHECK(guided >= 30);
  // Each hazard of a run has guidance: a reason and the body that says so.
  for (const char* code :
       {"gas-indoors", "open-flame", "circuit-overloaded", "circuit-near-limit", "circuit-check",
        "steam-escapes", "coolant-when-late", "vapour-in-the-room", "glass-over-heat",
        "oil-at-flash-point", "flash-point", "regulated-substance", "toxic-oil", "hydrosol-storage",
        "reserve-reached", "target-exceeds-pot", "bed-blocks", "oil-freezes", "still-size-rules"}) {
    CAPTURE(code);
    REQUIRE(shipped().findings.contains(code));
    CHECK(shipped().findings.at(code)->guidance.has_value());
  }
}

TEST_CASE("every finding of the table is provoked, at each of its levels", "[findings]") {
  std::set<std::string> provoked;
  for (const Provocation& one : provocations()) {
    CAPTURE(one.code);
    Recipe r = recipe(herb(), column_still(), HydrosolGoal{millilitres(300)});
    one.change(r);
    const Plan p = make_plan(r, *one.tables, 16);
    INFO(codes(p));
    const auto found = finding(p, one.code);
    CHECK((found && found->level == one.level));
    for (const Finding& f : p.findings) {
      const std::string code(f.code());
      CAPTURE(code);
      provoked.insert(named(code, f.level));
      CHECK_FALSE(finding_text(f, Units::metric).empty());
      const FindingKind& kind = shipped().findings.at(code);
      CHECK(&*f.kind == &kind);
      if (!kind.guidance) continue;
      CHECK(finding_reason(f) == kind.guidance->reason);
      for (const std::string& source : kind.guidance->evidence.sources) {
        CHECK(p.sources.contains(source));
      }
    }
  }
  for (const auto& [code, kind] : shipped().findings) {
    for (const Level level : kind->levels) {
      INFO(named(code, level));
      CHECK(provoked.erase(named(code, level)) == 1);
    }
  }
  // Nothing is triggered at a level that the table lacks.
  CHECK(provoked == std::set<std::string>{});
}
