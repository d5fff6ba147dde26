// The reader of campaigns: what it accepts, and what it says about faults.
#include "campaign/campaign_json.hpp"

#include <map>
#include <string>

#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "test_tables.hpp"

using namespace firstdrop;

namespace {

const std::string some_recipe = R"({"recipe": 1, "title": "A run", "plant": "lavender",)"
                                R"( "still": "bench-column", "units": "us"})";

std::string text_of(const std::map<std::string, std::string>& files, const std::string& path) {
  const auto found = files.find(path);
  if (found == files.end()) throw InputError(Fault{path, "", "no such file", "a file", "", 0, 0});
  return found->second;
}

Campaign read(const std::string& text, const std::map<std::string, std::string>& files = {}) {
  return read_campaign(text, "campaign.json", shipped_tables(),
                       [&](const std::string& path) { return text_of(files, path); });
}

std::string campaign(const std::string& bench = "", const std::string& work = "",
                     const std::string& more = "") {
  return R"({"campaign": 1, "bench": {"first_day": "2026-07-06", "from": "09:00", "to": "17:00")" +
         bench + R"(}, "work": [)" +
         (work.empty() ? R"({"recipe": )" + some_recipe + R"(, "harvest": "6 kg"})" : work) + "]" +
         more + "}";
}

std::string work(const std::string& rest) {
  return campaign("", R"({"recipe": )" + some_recipe + rest + "}");
}

// All faults, one per line.
std::string faults(const std::string& text, const std::map<std::string, std::string>& files = {}) {
  try {
    read(text, files);
  } catch (const InputError& error) {
    std::string all;
    for (const Fault& fault : error.faults()) all += fault.text() + "\n";
    return all;
  }
  return "";
}

}  // namespace

TEST_CASE("a campaign with everything", "[campaign]") {
  const Campaign c = read(
      R"({"campaign": 1, "title": "July", "note": "x", "units": "metric",
          "bench": {"first_day": "2026-07-06", "last_day": "2026-07-31",
                    "days": ["mon", "wed", "sat"], "off": ["2026-07-15"],
                    "from": "09:00", "to": "17:30", "between_runs": "1 h", "ice_per_day": "6 kg"},
          "work": [{"note": "y", "recipe": "herbs/a.json", "harvest": "6 kg"},
                   {"recipe": )" +
          some_recipe + R"(, "wanted": {"hydrosol": "5 L", "confidence": "80 %"}},
                   {"recipe": "herbs/a.json", "wanted": {"oil": "20 mL"}},
                   {"recipe": "herbs/a.json", "wanted": {"oil": "20 g"}}]})",
      {{"herbs/a.json", some_recipe}});
  CHECK(c.title == "July");
  CHECK(c.units == Units::metric);
  const Bench& b = c.bench;
  CHECK(day_text(b.first_day) == "2026-07-06");
  CHECK(day_text(b.last_day.value()) == "2026-07-31");
  CHECK(b.is_open(parse_local_day("2026-07-06").value()));        // a Monday
  CHECK_FALSE(b.is_open(parse_local_day("2026-07-07").value()));  // a Tuesday
  CHECK_FALSE(b.is_open(parse_local_day("2026-07-15").value()));  // a Wednesday, off
  CHECK(b.from == std::chrono::hours(9));
  CHECK(b.to == std::chrono::minutes(17 * 60 + 30));
  CHECK(b.between_runs == hours(1));
  CHECK(b.ice_per_day == kilograms(6));
  REQUIRE(c.work.size() == 4);
  CHECK(c.work[0].file == "herbs/a.json");
  CHECK(std::get<HarvestOrder>(c.work[0].order).mass == kilograms(6));
  CHECK(c.work[1].file.empty());
  CHECK(c.work[1].recipe.title == "A run");
  CHECK(std::get<HydrosolGoal>(c.work[1].order).volume == litres(5));
  CHECK_THAT(c.work[1].confidence.value().si(), WithinRel(0.8, 1e-12));
  CHECK(std::get<Volume>(std::get<OilGoal>(c.work[2].order).amount) == millilitres(20));
  CHECK(std::get<Mass>(std::get<OilGoal>(c.work[3].order).amount) == grams(20));
}

TEST_CASE("what a campaign leaves out", "[campaign]") {
  const Campaign c = read(campaign());
  CHECK(c.units == Units::us);  // the first recipe's
  CHECK_FALSE(c.bench.last_day);
  CHECK_FALSE(c.bench.ice_per_day);
  CHECK(c.bench.between_runs == minutes(45));
  for (const bool open : c.bench.weekdays) CHECK(open);
}

TEST_CASE("a recipe's files are looked for beside the recipe", "[campaign]") {
  const std::string with_plant = R"({"recipe": 1, "plant": "mint.json", "still": "bench-column"})";
  const std::string entry =
      R"({"campaign": 1, "bench": {"first_day": "2026-07-06", "from": "09:00", "to": "17:00"},
          "work": [{"recipe": "herbs/a.json", "harvest": "1 kg"}]})";
  CHECK_THAT(faults(entry, {{"herbs/a.json", with_plant}}),
             ContainsSubstring("herbs/mint.json: Found no such file"));
  CHECK_THAT(faults(entry, {{"herbs/a.json", with_plant}, {"herbs/mint.json", "{}"}}),
             ContainsSubstring("mint.json:1:1: The key \"plant\" is missing"));
}

TEST_CASE("faults of a campaign name the place and what would do", "[campaign]") {
  CHECK_THAT(faults(campaign(R"(, "frist_day": "2026-07-06")")),
             ContainsSubstring("bench: Found the unknown key \"frist_day\"") &&
                 ContainsSubstring("Did you mean \"first_day\"?"));
  CHECK_THAT(
      faults(campaign(R"(, "days": ["mon", "wen"])")),
      ContainsSubstring("bench: days, item 2:") && ContainsSubstring("Did you mean \"wed\"?"));
  CHECK_THAT(faults(campaign(R"(, "days": [])")), ContainsSubstring("bench: days: Found no day"));
  CHECK_THAT(faults(campaign(R"(, "off": ["2026-02-30"])")),
             ContainsSubstring("bench: off, item 1:") && ContainsSubstring("a day that exists"));
  CHECK_THAT(faults(campaign(R"(, "last_day": "2026-07-05")")),
             ContainsSubstring("bench: last_day:") &&
                 ContainsSubstring("a day no earlier than first_day"));
  CHECK_THAT(faults(campaign(R"(, "ice_per_day": 6)")),
             ContainsSubstring("bench: ice_per_day: Found the number 6 without a unit"));
  CHECK_THAT(faults(campaign(R"(, "between_runs": "45 kg")")),
             ContainsSubstring("bench: between_runs:"));
  CHECK_THAT(faults(work("")), ContainsSubstring("work, item 1: Found neither a harvest nor"));
  CHECK_THAT(faults(work(R"(, "harvest": "1 kg", "wanted": {"oil": "1 g"})")),
             ContainsSubstring("work, item 1: Found a harvest and what is wanted"));
  CHECK_THAT(faults(work(R"(, "wanted": {})")),
             ContainsSubstring("work, item 1: wanted: Found neither hydrosol nor oil"));
  CHECK_THAT(faults(work(R"(, "wanted": {"oil": "1 g", "hydrosol": "1 L"})")),
             ContainsSubstring("work, item 1: wanted: Found hydrosol and oil"));
  CHECK_THAT(faults(work(R"(, "wanted": {"oil": "1 W"})")),
             ContainsSubstring("work, item 1: wanted: oil"));
  CHECK_THAT(
      faults(campaign("", R"({"harvest": "1 kg"})")),
      ContainsSubstring("work, item 1: The key \"recipe\" is missing. Write a path that ends "
                        "in .json, or an object."));
  CHECK_THAT(faults(work(R"(, "harvest": "0 g")")), ContainsSubstring("work, item 1: harvest:"));
  CHECK_THAT(faults(R"({"campaign": 1})"), ContainsSubstring("The key \"bench\" is missing") &&
                                               ContainsSubstring("The key \"work\" is missing"));
  CHECK_THAT(faults(R"({"campaign": 2, "bench": {}, "work": []})"),
             ContainsSubstring("campaign: Found the number 2") &&
                 ContainsSubstring("The key \"first_day\"") &&
                 ContainsSubstring("The key \"from\"") && ContainsSubstring("The key \"to\"") &&
                 ContainsSubstring("work: Found 0 items"));
  CHECK_THAT(faults(campaign("", R"({"recipe": "a.txt", "harvest": "1 kg"})")),
             ContainsSubstring("work, item 1: recipe:") &&
                 ContainsSubstring("the path of a recipe that ends in .json"));
  CHECK_THAT(faults(campaign("", "", R"(, "units": "imperial")")), ContainsSubstring("units:"));
  CHECK_THAT(faults(R"({"campaign": 1, "bench": {"first_day": "2026-07-06", "from": "09:00",)"
                    R"( "to": "09:00"}, "work": []})"),
             ContainsSubstring("bench: to:") && ContainsSubstring("a time other than from"));
  CHECK_THAT(faults(R"({"campaign": 1, "bench": {"first_day": "1899-12-31", "from": "24:00",)"
                    R"( "to": "9.00"}, "work": []})"),
             ContainsSubstring(R"(bench: first_day: Can't read "1899-12-31" as a day)") &&
                 ContainsSubstring("bench: from:") && ContainsSubstring("bench: to:"));
}

TEST_CASE("a recipe's faults are in its own file's name, all at once with the others",
          "[campaign]") {
  const std::string all = faults(
      R"({"campaign": 1, "bench": {"first_day": "x", "from": "09:00", "to": "17:00"},
          "work": [{"recipe": "a.json", "harvest": "1 kg"},
                   {"recipe": {"plant": "lavendar", "still": "bench-column"}, "harvest": "1 kg"}]})",
      {{"a.json", R"({"recipe": 1, "plant": "lavender", "still": "bench-colum"})"}});
  CHECK_THAT(all, ContainsSubstring("campaign.json:1:40: bench: first_day"));
  CHECK_THAT(all, ContainsSubstring("still: Found \"bench-colum\""));
  CHECK_THAT(all, ContainsSubstring("work, item 2: recipe: plant: Found \"lavendar\""));
}

TEST_CASE("too many entries are no campaign", "[campaign]") {
  std::string many;
  for (int i = 0; i < 101; ++i) many += std::string(i == 0 ? "" : ", ") + "{}";
  CHECK_THAT(faults(campaign("", many)), ContainsSubstring("work: Found 101 items"));
}

TEST_CASE("a text is known as a campaign", "[campaign]") {
  CHECK(document_kind(campaign()) == DocumentKind::campaign);
  CHECK(document_kind(R"({"campaign": 1})") == DocumentKind::campaign);
  CHECK(document_kind(some_recipe) == DocumentKind::recipe);
}
