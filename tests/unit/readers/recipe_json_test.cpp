#include "firstdrop/readers/recipe_json.hpp"

#include <algorithm>

#include "catch.hpp"
#include "physics/water.hpp"
#include "unit/small_tables.hpp"

using namespace firstdrop;
using namespace small_tables;

namespace {

std::string no_files(const std::string& path) {
  throw InputError(Fault{path, "", "no such file", "a file that can be read", "", 0, 0});
}

Recipe read(const std::string& text, const FileReader& reader = no_files) {
  return read_recipe(text, "herb.json", tables(), reader);
}

/// A recipe with these keys besides the ones that every recipe needs.
std::string recipe(const std::string& more) {
  return R"({"recipe": 1, "plant": "hedge-herb", "still": "bench")" +
         (more.empty() ? "" : ", " + more) + "}";
}

struct Expected {
  const char* more;
  const char* pointer;
  const char* found;
  const char* wanted;
  const char* hint;
};

}  // namespace

TEST_CASE("a recipe with everything in it", "[recipe]") {
  const Recipe r = read(R"({
    "$schema": "https://example.org/recipe.json", "note": "ignored",
    "recipe": 1, "title": "Hedge herb, first cut", "plant": "hedge-herb", "state": "dried", "cut": "ground",
    "charge": "260 g", "still": "bench", "method": "hydro", "water": "1.7 L", "setting": "80 %",
    "site": {"altitude": "540 m", "room": "21 °C", "coolant": "14 °C"},
    "goal": {"hydrosol": "800 mL"},
    "own": {"bulk_density": "160 g/L", "oil_content": "0.7 %", "distillate_rate": "14 mL/min",
            "boil_time": "16 min", "boil_water": "1.5 L", "setting": "40 %",
            "boil_setting": "90 %"},
    "limits": {"time": "3 h", "absence": "10 min"}, "start": "2026-06-20T09:30",
    "receiver_volume": "500 mL", "lot": "H 7/2",
    "prices": {"energy_per_kwh": 0.32, "plant_per_kg": 6, "currency": "EUR"}, "seed": 7})");
  CHECK(r.title == "Hedge herb, first cut");
  CHECK_THAT(in_millilitres(r.receiver_volume.value()), WithinRel(500, 1e-12));
  CHECK(r.lot == "H 7/2");
  CHECK(r.plant->key == "hedge-herb");
  CHECK(r.state == State::dried);
  CHECK(r.cut == Cut::ground);
  CHECK_THAT(in_grams(r.charge.value()), WithinRel(260, 1e-12));
  CHECK(r.still->key == "bench");
  CHECK(r.method_used() == Method::hydro);
  CHECK_THAT(in_litres(r.water.value()), WithinRel(1.7, 1e-12));
  CHECK_THAT(r.setting.si(), WithinRel(0.8, 1e-12));
  CHECK_THAT(in_metres(r.site.altitude.value()), WithinRel(540, 1e-12));
  CHECK_FALSE(r.site.pressure);
  CHECK_THAT(in_celsius(r.site.room), WithinAbs(21, 1e-9));
  CHECK_THAT(in_celsius(r.site.coolant.value()), WithinAbs(14, 1e-9));
  CHECK_THAT(in_millilitres(std::get<HydrosolGoal>(r.goal).volume), WithinRel(800, 1e-12));
  CHECK_THAT(in_grams_per_litre(r.own.bulk_density.value()), WithinRel(160, 1e-12));
  CHECK_THAT(std::get<Fraction>(r.own.oil_content.value()).si(), WithinRel(0.007, 1e-12));
  CHECK_THAT(in_millilitres_per_minute(r.own.distillate_rate.value()), WithinRel(14, 1e-12));
  CHECK_THAT(in_minutes(r.own.boil_time.value()), WithinRel(16, 1e-12));
  CHECK_THAT(in_litres(r.own.boil_water.value()), WithinRel(1.5, 1e-12));
  CHECK_THAT(in_percent(r.own.setting.value()), WithinRel(40.0, 1e-12));
  CHECK_THAT(in_percent(r.own.boil_setting.value()), WithinRel(90.0, 1e-12));
  CHECK_THAT(in_hours(r.limits.time.value()), WithinRel(3, 1e-12));
  CHECK_THAT(in_minutes(r.limits.absence), WithinRel(10, 1e-12));
  CHECK(r.start == "2026-06-20T09:30");
  CHECK(r.prices.energy_per_kwh == 0.32);
  CHECK(r.prices.plant_per_kg == 6.0);
  CHECK(r.prices.currency == "EUR");
  CHECK(r.seed == 7);
}

TEST_CASE("what a recipe leaves out", "[recipe]") {
  const Recipe r = read(recipe(""));
  CHECK(r.title.empty());
  CHECK(r.state == State::fresh);
  CHECK(r.cut == Cut::chopped);
  CHECK(r.method_used() == Method::steam);  // the still's first
  CHECK_FALSE(r.charge);
  CHECK_FALSE(r.water);
  CHECK(r.setting == fraction(1));
  CHECK(std::holds_alternative<HarvestGoal>(r.goal));
  CHECK(r.limits.absence == minutes(15));
  CHECK(r.seed == 1);
  CHECK(read(recipe(R"("state": "dried", "cut": "whole")")).cut == Cut::whole);
}

TEST_CASE("the cut that is meant when none is named", "[recipe]") {
  Plant plant = tables().plants.at("hedge-herb");
  CHECK(default_cut(plant, State::dried) == Cut::chopped);
  plant.form = PlantForm::seed;
  CHECK(default_cut(plant, State::dried) == Cut::crushed);
  plant.form = PlantForm::flowers;
  CHECK(default_cut(plant, State::dried) == Cut::whole);
  CHECK(default_cut(plant, State::fresh) == Cut::whole);
  plant.loaded = Cut::ground;  // its entry says otherwise
  CHECK(default_cut(plant, State::fresh) == Cut::ground);
  plant.loaded.reset();
  // A user's own plant without a form: chopped if that has a bulk density, or else the first cut
  // that has one.
  plant.form.reset();
  CHECK(default_cut(plant, State::dried) == Cut::whole);
  CHECK(default_cut(plant, State::fresh) == Cut::chopped);
}

TEST_CASE("goals", "[recipe]") {
  const auto goal = [](const std::string& text) {
    return read(recipe(R"("goal": {)" + text + "}")).goal;
  };
  CHECK_THAT(in_grams(std::get<Mass>(std::get<OilGoal>(goal(R"("oil": "2 g")")).amount)),
             WithinRel(2, 1e-12));
  CHECK_THAT(in_millilitres(std::get<Volume>(std::get<OilGoal>(goal(R"("oil": "2 mL")")).amount)),
             WithinRel(2, 1e-12));
  CHECK_THAT(in_litres_per_kilogram(
                 std::get<RatioGoal>(goal(R"("ratio": "1.5 L/kg")")).hydrosol_per_fresh),
             WithinRel(1.5, 1e-12));
  CHECK_THAT(std::get<OilShareGoal>(goal(R"("oil_share": "90 %")")).share.si(),
             WithinRel(0.9, 1e-12));
  CHECK_THAT(in_minutes(std::get<TimeGoal>(goal(R"("time": "1 h 20 min")")).time),
             WithinRel(80, 1e-12));
}

TEST_CASE("weighed water is what its volume weighs where it is poured", "[recipe][typed]") {
  const auto mass_at = [](Volume volume, double t) {
    return in_grams(volume * liquid_density(celsius(t)));
  };
  const Recipe usual = read(recipe(R"("water": "1700 g")"));
  CHECK_THAT(mass_at(usual.water.value(), 20), WithinRel(1700, 1e-12));
  const Recipe warm = read(recipe(R"("water": "1.7 kg of water", "site": {"room": "35 °C"})"));
  CHECK_THAT(mass_at(warm.water.value(), 35), WithinRel(1700, 1e-12));
  const Recipe hot = read(recipe(R"("water_temperature": "90 °C", "water": "2 kg 500 g",
                                    "own": {"boil_time": "9 min", "boil_water": "1500 g"})"));
  CHECK_THAT(mass_at(hot.water.value(), 90), WithinRel(2500, 1e-12));
  CHECK_THAT(mass_at(hot.own.boil_water.value(), 90), WithinRel(1500, 1e-12));
  // A volume is one at the temperature at which it is poured.
  CHECK(read(recipe(R"("water": "1.7 L of water", "water_temperature": "90 °C")")).water ==
        litres(1.7));
  CHECK(read(recipe(R"("water": "1.7 L")")).water == litres(1.7));
  // A vessel is measured with water at about 20 °C.
  CHECK_THAT(in_millilitres(read(recipe(R"("receiver_volume": "500 g")")).receiver_volume.value()),
             WithinRel(500 / 0.9982, 1e-12));
}

TEST_CASE("an own oil content by volume", "[recipe][typed]") {
  const Recipe r = read(recipe(R"("own": {"oil_content": "7 mL/kg"})"));
  CHECK_THAT(in_litres_per_kilogram(std::get<SpecificVolume>(r.own.oil_content.value())),
             WithinRel(0.007, 1e-12));
}

TEST_CASE("a start is kept in one form", "[recipe][typed]") {
  CHECK(read(recipe(R"("start": "2026-06-20 9:30 pm")")).start == "2026-06-20T21:30");
}

TEST_CASE("where the still stands and what it hangs on", "[recipe]") {
  const Recipe bare = read(recipe(""));
  CHECK(bare.site.place == Place::indoors);
  CHECK_FALSE(bare.site.circuit());
  const Recipe out =
      read(recipe(R"("site": {"place": "outdoors", "mains": "230 V", "circuit": "16 A"})"));
  CHECK(out.site.place == Place::outdoors);
  CHECK_THAT(in_watts(out.site.circuit().value().most()), WithinRel(3680.0, 1e-12));
}

TEST_CASE("a goal with its confidence", "[recipe]") {
  const Recipe r = read(recipe(R"("goal": {"oil": "2 g", "confidence": "90 %"})"));
  CHECK_THAT(in_grams(std::get<Mass>(std::get<OilGoal>(r.goal).amount)), WithinRel(2, 1e-12));
  CHECK_THAT(r.confidence.value().si(), WithinRel(0.9, 1e-12));
  CHECK_FALSE(read(recipe(R"("goal": {"oil": "2 g"})")).confidence);
}

TEST_CASE("recipe faults name place, finding and way out", "[recipe]") {
  const Expected rows[] = {
      {R"("charge": 260)", "/charge", "the number 260 without a unit",
       "a mass with its unit: g, kg, mg, oz or lb", "put it in quotes, such as \"260 g\""},
      {R"("charge": "260 mL")", "/charge", "Can't read \"260 mL\" as a mass",
       "a mass with its unit: g, kg, mg, oz or lb", "\"mL\" is a unit of volume"},
      {R"("charge": "0 g")", "/charge", "\"0 g\"", "a value from 1 g to 1000 kg", ""},
      {R"("charge": "-260 g")", "/charge", "\"-260 g\"", "a value from 1 g to 1000 kg", ""},
      {R"("charge": "0.001 g")", "/charge", "\"0.001 g\"", "a value from 1 g to 1000 kg",
       "this is too little to be meant. Did you mean \"0.001 kg\"?"},
      {R"("charge": "1e-320 g")", "/charge", "\"1e-320 g\"", "a value from 1 g to 1000 kg",
       "this is too little to be meant: check the number and its unit"},
      {R"("own": {"bulk_density": "0.17 g/L"})", "/own/bulk_density", "\"0.17 g/L\"",
       "a value from 1 g/L to 1500 g/L",
       "this is too little to be meant. Did you mean \"0.17 kg/L\"?"},
      {R"("goal": {"time": "1.5 s"})", "/goal/time", "\"1.5 s\"", "a value from 1 min to 168 h",
       "this is too little to be meant. Did you mean \"1.5 min\"?"},
      {R"("charge": "1001 kg")", "/charge", "\"1001 kg\"", "a value from 1 g to 1000 kg", ""},
      {R"("charge": null)", "/charge", "null", "a mass with its unit: g, kg, mg, oz or lb", ""},
      {R"("charg": "260 g")", "/charg", "the unknown key \"charg\"",
       "one of recipe, $schema, title, note, plant, plants, state, cut, charge, still, method, "
       "water, "
       "water_temperature, setting, "
       "site, goal, own, limits, fractions, receiver_volume, lot, start, prices, units or seed",
       "did you mean \"charge\"?"},
      {R"("charge": "1 g", "charge": "2 g")", "/charge", "the key \"charge\" a second time",
       "each key once", ""},
      {R"("title": 5)", "/title", "the number 5", "text in double quotes", ""},
      {R"("title": "a\nb")", "/title", R"("a\nb")", "text without control characters", ""},
      {R"("state": "frsh")", "/state", "\"frsh\"", "fresh, wilted or dried",
       "did you mean \"fresh\"?"},
      {R"("state": "wilted")", "/state", "\"wilted\"",
       "a state that hedge-herb has: fresh or dried", ""},
      {R"("cut": "minced")", "/cut", "\"minced\"", "whole, chopped, crushed or ground", ""},
      {R"("method": "vapour")", "/method", "\"vapour\"", "steam, water-and-steam or hydro", ""},
      {R"("method": "water-and-steam")", "/method", "\"water-and-steam\"",
       "a method of the still bench: steam or hydro", ""},
      {R"("water": "0 L")", "/water", "\"0 L\"", "a value from 10 mL to 1000 L", ""},
      {R"("setting": "101 %")", "/setting", "\"101 %\"", "a value from 1 % to 100 %", ""},
      {R"("setting": "0 %")", "/setting", "\"0 %\"", "a value from 1 % to 100 %", ""},
      {R"("site": [])", "/site", "a list", "an object, { … }", ""},
      {R"("site": {"altitude": "540 m", "pressure": "95 kPa"})", "/site", "altitude and pressure",
       "one of the two, because each gives the other", ""},
      {R"("site": {"altitude": "5001 m"})", "/site/altitude", "\"5001 m\"",
       "a value from -430 to 5000 m", ""},
      {R"("site": {"altitude": "-431 m"})", "/site/altitude", "\"-431 m\"",
       "a value from -430 to 5000 m", ""},
      {R"("site": {"pressure": "49 kPa"})", "/site/pressure", "\"49 kPa\"",
       "a value from 50 to 110 kPa", ""},
      {R"("site": {"room": "-3 °C"})", "/site/room", "\"-3 °C\"", "a value from 1 to 50 °C",
       "in a colder room water freezes in hoses and on the floor: run the still where it is "
       "warmer"},
      {R"("site": {"room": "51 °C"})", "/site/room", "\"51 °C\"", "a value from 1 to 50 °C", ""},
      {R"("site": {"coolant": "-1 °C"})", "/site/coolant", "\"-1 °C\"", "a value from 0 to 60 °C",
       ""},
      {R"("site": {"place": "outside"})", "/site/place", "\"outside\"", "indoors or outdoors", ""},
      {R"("site": {"mains": "230 V"})", "/site/circuit", "nothing",
       "the rating of the breaker beside mains, such as \"16 A\"", ""},
      {R"("site": {"circuit": "16 A"})", "/site/mains", "nothing",
       "the voltage beside circuit, such as \"230 V\"", ""},
      {R"("site": {"mains": "230 V", "circuit": "16 W"})", "/site/circuit",
       "Can't read \"16 W\" as a current", "a current with its unit: A",
       "\"W\" is a unit of power"},
      {R"("site": {"mains": "23 V", "circuit": "16 A"})", "/site/mains", "\"23 V\"",
       "a value from 50 to 1000 V", ""},
      {R"("goal": {"hydrosol": "1 L", "confidence": "100 %"})", "/goal/confidence", "\"100 %\"",
       "a value from 1 to 99 %", ""},
      {R"("goal": {"time": "1 h", "confidence": "90 %"})", "/goal/confidence",
       "a confidence together with a time",
       "a confidence only with hydrosol, ratio, oil or oil_share",
       "remove one of them: a run by the clock always stops at that time"},
      {R"("goal": {"confidence": "90 %"})", "/goal", "no goal",
       "exactly one of hydrosol, ratio, oil, oil_share or time",
       "leave \"goal\" out to use up the harvest"},
      {R"("site": {"rom": "20 °C"})", "/site/rom", "the unknown key \"rom\"",
       "one of altitude, pressure, room, coolant, place, mains or circuit",
       "did you mean \"room\"?"},
      {R"("goal": {})", "/goal", "no goal",
       "exactly one of hydrosol, ratio, oil, oil_share or time",
       "leave \"goal\" out to use up the harvest"},
      {R"("goal": {"oil": "2 g", "hydrosol": "1 L"})", "/goal", "2 goals: hydrosol and oil",
       "exactly one of hydrosol, ratio, oil, oil_share or time", ""},
      {R"("goal": {"hydrosol": "800 g"})", "/goal/hydrosol", "Can't read \"800 g\" as a volume",
       "a volume with its unit: mL, L, cup, fl oz, qt, gal, cm3 or m3", "\"g\" is a unit of mass"},
      {R"("goal": {"oil": 2})", "/goal/oil", "the number 2",
       "a mass with its unit: g, kg, mg, oz or lb; or a volume with its unit: mL, L, cup, fl oz, "
       "qt, "
       "gal, cm3 or m3",
       "for example, \"2 g\" or \"2 mL\""},
      {R"("goal": {"oil": "101 kg"})", "/goal/oil", "\"101 kg\"", "a value from 0.001 g to 100 kg",
       ""},
      {R"("goal": {"oil_share": "100 %"})", "/goal/oil_share", "\"100 %\"",
       "a value from 1 % to less than 100 %", ""},
      {R"("goal": {"time": "0 min"})", "/goal/time", "\"0 min\"", "a value from 1 min to 168 h",
       ""},
      {R"("own": {"oil_content": "50 %"})", "/own/oil_content", "\"50 %\"",
       "a value from 0.0001 % to less than 50 %", ""},
      {R"("own": {"distillate_rate": "0 mL/min"})", "/own/distillate_rate", "\"0 mL/min\"",
       "a value from 0.1 mL/min to 10000 mL/min", ""},
      {R"("own": {"boil_time": "16 min"})", "/own/boil_water", "nothing",
       "the water that was in the pot for boil_time, or the recipe's \"water\"", ""},
      {R"("limits": {"time": "0 h"})", "/limits/time", "\"0 h\"", "a value from 1 min to 168 h",
       ""},
      {R"("limits": {"absence": "9 h"})", "/limits/absence", "\"9 h\"", "a value from 0 to 8 h",
       ""},
      {R"("receiver_volume": 250)", "/receiver_volume", "the number 250 without a unit",
       "an amount of water with its unit: mL, L, cup, fl oz, qt, gal, cm3, m3, g, kg, mg or lb",
       "put it in quotes, such as \"250 mL\""},
      {R"("receiver_volume": "250 oz")", "/receiver_volume",
       "Can't read \"250 oz\" as an amount of water", "250 fl oz, or the weight in lb or g",
       "\"oz\" could be a weight or a volume here"},
      {R"("receiver_volume": "250 W")", "/receiver_volume",
       "Can't read \"250 W\" as an amount of water",
       "an amount of water with its unit: mL, L, cup, fl oz, qt, gal, cm3, m3, g, kg, mg or lb",
       "\"W\" is a unit of power"},
      {R"("receiver_volume": "9 mL")", "/receiver_volume", "\"9 mL\"",
       "a value from 10 mL to 1000 L", "this is too little to be meant. Did you mean \"9 L\"?"},
      {R"("receiver_volume": "1001 L")", "/receiver_volume", "\"1001 L\"",
       "a value from 10 mL to 1000 L", ""},
      {R"("receiver_volume": null)", "/receiver_volume", "null",
       "an amount of water with its unit: mL, L, cup, fl oz, qt, gal, cm3, m3, g, kg, mg or lb",
       ""},
      {R"("lot": 7)", "/lot", "the number 7", "text in double quotes", ""},
      {R"("lot": "a\nb")", "/lot", R"("a\nb")", "text without control characters", ""},
      {R"("start": "2026-02-29T09:30")", "/start",
       "Can't read \"2026-02-29T09:30\" as a day and time",
       "a day and time that exist, from 1900 on, as \"2026-06-20T09:30\"", ""},
      {R"("start": "6.7.2026 9:30")", "/start", "Can't read \"6.7.2026 9:30\" as a day and time",
       "2026-07-06T09:30 or 2026-06-07T09:30", "the order of day and month isn't clear"},
      {R"("start": "tomorrow 9:30")", "/start", "Can't read \"tomorrow 9:30\" as a day and time",
       "a day and time that exist, from 1900 on, as \"2026-06-20T09:30\"",
       "\"today\" and \"tomorrow\" work only with --start, because a file must mean the same every "
       "day"},
      {R"("start": 930)", "/start", "the number 930",
       "a day and time that exist, from 1900 on, as \"2026-06-20T09:30\"", ""},
      {R"("setting": 0.8)", "/setting", "the number 0.8 without a unit", "80 % or 0.8 %",
       "put it in quotes"},
      {R"("setting": "0.8")", "/setting", "Can't read \"0.8\" as a share", "80 % or 0.8 %",
       "the unit is missing"},
      {R"("own": {"oil_content": "0.7"})", "/own/oil_content", "Can't read \"0.7\" as a share",
       "70 % or 0.7 %", "the unit is missing"},
      {R"("own": {"oil_content": "0.7 g"})", "/own/oil_content", "\"0.7 g\"",
       "a share with its unit: %, kg/kg, g/g or g/100 g; or a volume per mass with its unit: L/kg, "
       "mL/kg, mL/g or mL/100 g",
       "for example, \"0.7 %\" or \"7 mL/kg\""},
      {R"("start": "2026-06-20T24:00")", "/start",
       "Can't read \"2026-06-20T24:00\" as a day and time",
       "a day and time that exist, from 1900 on, as \"2026-06-20T09:30\"", ""},
      {R"("prices": {"energy_per_kwh": 0.3})", "/prices/currency", "nothing",
       "the currency of the prices, such as \"EUR\"", ""},
      {R"("prices": {"plant_per_kg": "6 EUR", "currency": "EUR"})", "/prices/plant_per_kg",
       "\"6 EUR\"", "a plain number from 0 to 1000000", ""},
      {R"("prices": {"plant_per_kg": -1, "currency": "EUR"})", "/prices/plant_per_kg",
       "the number -1", "a plain number from 0 to 1000000", ""},
      {R"("seed": -1)", "/seed", "the number -1", "a whole number, zero or more", ""},
      {R"("seed": 1.5)", "/seed", "the number 1.5", "a whole number, zero or more", ""},
      {R"("note": 1)", "/note", "the number 1", "text in double quotes", ""},
  };
  for (const Expected& row : rows) {
    CAPTURE(row.more);
    const auto faults = faults_of([&] { read(recipe(row.more)); });
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].file == "herb.json");
    CHECK(faults[0].pointer == row.pointer);
    CHECK(faults[0].found == row.found);
    CHECK(faults[0].wanted == row.wanted);
    CHECK(faults[0].hint == row.hint);
  }
  CHECK(read(recipe(R"("start": "2028-02-29T00:00")")).start == "2028-02-29T00:00");
  CHECK(read(recipe(R"("receiver_volume": "0.1 L")")).receiver_volume);
  CHECK(read(recipe(R"("receiver_volume": "1000 L")")).receiver_volume);
  CHECK_FALSE(read(recipe(R"("lot": "")")).receiver_volume);
  CHECK(read(recipe(R"("own": {"boil_time": "16 min"}, "water": "2 L")")).own.boil_time);
}

TEST_CASE("all faults of a recipe come at once", "[recipe]") {
  const auto faults = faults_of([] {
    read(R"({"recipe": 2, "plant": "hedge-hreb", "still": "bnch", "charge": 3, "water": "1 kW",
             "goal": {"hydrsol": "1 L"}, "seeds": 4})");
  });
  std::vector<std::string> pointers;
  for (const auto& fault : faults) pointers.push_back(fault.pointer);
  CHECK(pointers == std::vector<std::string>{"/recipe", "/plant", "/charge", "/still", "/water",
                                             "/goal/hydrsol", "/seeds"});
  CHECK(
      at(faults, "/plant").text() ==
      "herb.json:1:24: plant: Found \"hedge-hreb\". Write a key of the plant table, or the path of "
      "a file of your own that ends in .json. Did you mean \"hedge-herb\"? Run `firstdrop plants` "
      "to list all.");
}

TEST_CASE("every recipe names its format, its plant and its still", "[recipe]") {
  const auto faults = faults_of([] { read("{}"); });
  REQUIRE(faults.size() == 3);
  CHECK(faults[0].pointer == "/recipe");
  CHECK(faults[1].pointer == "/plant");
  CHECK(faults[2].pointer == "/still");
  CHECK(faults_of([] { read("[1]"); }).size() == 1);
}

TEST_CASE("plants and stills in the recipe itself", "[recipe]") {
  const std::string text = R"({"recipe": 1, "plant": {)" + plant_fields + R"(}, "still": {)" +
                           with(still_fields, exactly("3", "L"), "\"3.2 L\"") + "}}";
  const Recipe r = read(text);
  CHECK(r.plant->key == "own");
  CHECK_THAT(in_litres(r.still->pot.volume.typical()), WithinRel(3.2, 1e-12));

  auto faults = faults_of([&] { read(with(text, "\"3.2 L\"", "3.2")); });
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].file == "herb.json");
  CHECK(faults[0].pointer == "/still/pot/volume");
  CHECK(faults[0].hint == "put it in quotes, such as \"3.2 mL\"");

  faults = faults_of([&] { read(R"({"recipe": 1, "plant": 3, "still": true})"); });
  REQUIRE(faults.size() == 2);
  CHECK(faults[0].wanted == "a key of the plant table, a path that ends in .json, or an object");
  CHECK(faults[1].wanted == "a key of the still table, a path that ends in .json, or an object");
}

TEST_CASE("plants and stills in files of their own", "[recipe]") {
  const std::string plant_file = R"({"plant": 1, "key": "mine", )" + plant_fields + "}";
  const std::string still_file = R"({"still": 1, )" + still_fields + "}";
  std::vector<std::string> asked;
  const auto files = [&](const std::string& path) {
    asked.push_back(path);
    if (path == "sub/plant.json") return plant_file;
    if (path == "still.json") return still_file;
    if (path == "bad.json") return with(still_file, "\"outlet\"", "\"outlt\"");
    if (path == "broken.json") return std::string("{\n  x");
    return no_files(path);
  };
  const auto text = [](const std::string& plant, const std::string& still) {
    return R"({"recipe": 1, "plant": ")" + plant + R"(", "still": ")" + still + "\"}";
  };
  const Recipe r = read(text("sub/plant.json", "still.json"), files);
  CHECK(r.plant->key == "mine");
  CHECK(r.still->title == "Test still");
  CHECK(asked == std::vector<std::string>{"sub/plant.json", "still.json"});

  auto faults = faults_of([&] { read(text("gone.json", "bad.json"), files); });
  REQUIRE(faults.size() == 2);  // the outlet has a default
  CHECK(faults[0].file == "gone.json");
  CHECK(faults[0].found == "no such file");
  CHECK(faults[1].file == "bad.json");
  CHECK(faults[1].pointer == "/condenser/outlt");
  // Counted in the still's text, not in the recipe's.
  const std::string bad = files("bad.json");
  const std::size_t at = bad.find("\"outlt\"");
  CHECK(faults[1].line == 1 + std::count(bad.begin(), bad.begin() + std::ptrdiff_t(at), '\n'));
  CHECK(faults[1].column == int(at - bad.rfind('\n', at)));

  faults = faults_of([&] { read(text("hedge-herb", "broken.json"), files); });
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].file == "broken.json");
  CHECK(faults[0].line == 2);
  CHECK(faults[0].column == 3);

  faults = faults_of([&] { read(text("hedge-herb", "plant"), files); });
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].wanted ==
        "a key of the still table, or the path of a file of your own that ends in .json");
  CHECK(faults[0].hint == "run `firstdrop stills` to list all");

  // A path must not carry escape sequences to the terminal through the file name in a fault.
  faults = faults_of([&] { read(text("hedge-herb", R"(\u001b[2J.json)"), files); });
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].pointer == "/still");
  CHECK(faults[0].wanted == "text without control characters");

  faults = faults_of([&] { read(text("hedge-herb", "still.json"), nullptr); });
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].hint == "files cannot be read from here");
}

TEST_CASE("what a text is", "[recipe]") {
  CHECK(document_kind(recipe("")) == DocumentKind::recipe);
  CHECK(document_kind(R"({"still": 1})") == DocumentKind::still);
  CHECK(document_kind(R"({"plant": 1, "name": "x"})") == DocumentKind::plant);
  CHECK(document_kind("{}") == DocumentKind::unknown);
  CHECK(document_kind("[]") == DocumentKind::unknown);
  CHECK(document_kind("{") == DocumentKind::unknown);
  CHECK(document_kind("") == DocumentKind::unknown);
}

TEST_CASE("what a recipe names by key", "[recipe]") {
  const TablePart part =
      named_in_recipe(R"({"recipe": 1, "plant": "rose", "still": "herb-pot", "title": "x"})");
  CHECK(part.plants == std::set<std::string>{"rose"});
  CHECK(part.stills == std::set<std::string>{"herb-pot"});
  // What is spelled out is no key, and a text that is no recipe names nothing.
  const TablePart inline_plant = named_in_recipe(R"({"plant": {"name": "x"}, "still": 3})");
  CHECK(inline_plant.plants.empty());
  CHECK(inline_plant.stills.empty());
  CHECK(named_in_recipe("no JSON at all").plants.empty());
  CHECK(named_in_recipe("[]").plants.empty());
}
