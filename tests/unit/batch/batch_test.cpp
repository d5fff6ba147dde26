#include "batch/batch.hpp"

#include <algorithm>
#include <atomic>
#include <map>
#include <new>
#include <nlohmann/json.hpp>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/output/write.hpp"
#include "firstdrop/plan/planner.hpp"
#include "test_tables.hpp"

using namespace firstdrop;
using Json = nlohmann::json;

namespace {

struct Text {
  std::string file;
  std::string content;
};

struct Batch {
  std::vector<Text> inputs;
  BatchOrder order = {};
  std::size_t piece = 1U << 20U;  // most bytes that one read gives
  FileReader beside = nullptr;
  std::function<bool()> stop = nullptr;
  std::function<void(std::string_view)> also_write = nullptr;

  Batch() { order.samples = 16; }

  BatchResult result = {};
  std::string run() {
    std::string out;
    BatchEdge edge;
    std::size_t at = 0;
    edge.next_input = [&]() -> std::optional<BatchInput> {
      if (at == inputs.size()) return std::nullopt;
      const Text& input = inputs[at++];
      if (input.content == "unreadable")
        throw InputError(Fault{input.file, "", "no such file", "a readable JSON file", "", 0, 0});
      const auto read = [this, &input, done = std::size_t{0}](char* there,
                                                              std::size_t most) mutable {
        const std::size_t size = input.content.copy(there, std::min(most, piece), done);
        done += size;
        return size;
      };
      return BatchInput{input.file, read, nullptr, beside};
    };
    edge.write = [&](std::string_view lines) {
      out += lines;
      if (also_write) also_write(lines);
    };
    edge.stop = stop;
    result = plan_batch(order, shipped_tables(), embedded_table_texts(), edge);
    return out;
  }
};

std::string recipe(const std::string& more) {
  return R"({"recipe": 1, "plant": "lavender", "cut": "chopped", "still": "bench-column")" +
         (more.empty() ? "" : ", " + more) + "}\n";
}

std::vector<Json> lines(const std::string& text) {
  std::vector<Json> all;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    all.push_back(Json::parse(line));
  }
  return all;
}

std::vector<Json> planned(const std::string& content) {
  Batch batch;
  batch.inputs = {{"all.jsonl", content}};
  return lines(batch.run());
}

// Good, refused and broken recipes, with blank lines among them.
std::string mixed(int count) {
  std::string text;
  for (int i = 0; i < count; ++i) {
    const std::string title = "\"title\": \"No. " + std::to_string(i) + "\"";
    if (i % 11 == 3)
      text += recipe(title + R"(, "goal": {"hydrosol": "30 L"})");
    else if (i % 13 == 5)
      text += "{\"recipe\": 1, \"title\": \"open\n\n";
    else if (i % 17 == 6)
      text += recipe(title + R"(, "chrge": "1 g")");
    else
      text += recipe(title + R"(, "charge": ")" + std::to_string(50 + i) + " g\"");
  }
  return text;
}

}  // namespace

TEST_CASE("a line of a batch is the plan on one line", "[batch]") {
  const std::string text = recipe(R"("title": "One", "lot": "L 1", "charge": "150 g")");
  Batch batch;
  batch.inputs = {{"one.json", text}};
  const std::string line = batch.run();
  const Recipe same = read_recipe(text, "one.json", shipped_tables(), nullptr);
  CHECK(line == plan_json_line(make_plan(same, shipped_tables(), 16)) + "\n");
  CHECK(Json::parse(line) == Json::parse(plan_json(make_plan(same, shipped_tables(), 16))));
  CHECK(Json::parse(line).at("title") == "One");
  CHECK(Json::parse(line).at("lot") == "L 1");
  CHECK(batch.result.counts.recipes == 1);
  CHECK(batch.result.counts.planned == 1);
}

TEST_CASE("the same bytes for any number of threads and any pieces", "[batch]") {
  Batch batch;
  batch.inputs = {{"a.jsonl", mixed(60)}, {"b.json", "[" + recipe("") + "]"}};
  batch.order.grid = RecipeGrid({}, {"site.altitude=0 m,900 m", "own.bulk_density=150 g/L"});
  batch.order.summary = true;
  const std::string one = batch.run();
  const std::string sums = batch_summary_json(batch.result, batch.order.grid);
  CHECK(lines(one).size() > 100);
  for (const int jobs : {2, 3, 7}) {
    for (const std::size_t piece : {std::size_t{1} << 20U, std::size_t{97}}) {
      batch.order.jobs = jobs;
      batch.piece = piece;
      CHECK(batch.run() == one);
      CHECK(batch_summary_json(batch.result, batch.order.grid) == sums);
    }
  }
}

TEST_CASE("a broken recipe is a line that says where and why, and stops no other", "[batch]") {
  const std::vector<Json> seen = planned(
      "\n" + recipe("") + "{\"recipe\": 1, \"title\": \"open\n" + recipe(R"("chrge": "1 g")") +
      "{\"recipe\": 1, \"plant\": \"rose\" \"still\"}\n" + recipe(""));
  REQUIRE(seen.size() == 5);
  CHECK(seen[0].at("plan") == 1);
  CHECK(seen[1].at("error") == 1);
  CHECK(seen[1].at("file") == "all.jsonl");
  CHECK(seen[1].at("line") == 3);
  CHECK(seen[1].at("column") == 29);
  CHECK_THAT(seen[1].at("reason").get<std::string>(), ContainsSubstring("closing quote"));
  CHECK(seen[2].at("line") == 4);
  CHECK(seen[2].at("column") == 79);
  CHECK_THAT(seen[2].at("reason").get<std::string>(),
             ContainsSubstring("Found the unknown key \"chrge\""));
  CHECK(seen[2].at("faults").at(0).at("hint") == "did you mean \"charge\"?");
  CHECK(seen[3].at("line") == 5);
  CHECK(seen[3].at("column") == 31);
  CHECK(seen[4].at("plan") == 1);
}

TEST_CASE("a column in a list on one line is that of the file", "[batch]") {
  Batch batch;
  batch.inputs = {{"list.json", "[{\"ä\": 1, \"b\": 2}, {\"recipe\": }]"}};
  const std::vector<Json> seen = lines(batch.run());
  REQUIRE(seen.size() == 1);
  CHECK(seen[0].at("line") == 1);
  CHECK(seen[0].at("column") == 31);
}

TEST_CASE("inputs that cannot be read, and texts that no reader sees", "[batch]") {
  Batch batch;
  batch.inputs = {
      {"gone.json", "unreadable"},
      {"open.json", "[" + recipe("")},
      {"large.json", "{\"note\": \"" + std::string(5'000'000, 'x') + "\"}\n" + recipe("")},
      {"empty.json", ""}};
  const std::vector<Json> seen = lines(batch.run());
  REQUIRE(seen.size() == 4);
  CHECK(seen[0].at("file") == "gone.json");
  CHECK(!seen[0].contains("line"));
  CHECK(seen[1].at("error") == 1);
  CHECK(seen[1].at("line") == 1);
  CHECK_THAT(seen[2].at("reason").get<std::string>(), ContainsSubstring("more than 4 MiB"));
  CHECK(seen[3].at("plan") == 1);
  CHECK(batch.result.counts.broken == 3);
}

TEST_CASE("every recipe at every point of the grid", "[batch]") {
  Batch batch;
  batch.inputs = {{"all.jsonl", recipe("\"title\": \"a\"") + "{\n" + recipe("\"title\": \"b\"")}};
  batch.order.grid =
      RecipeGrid({"limits.absence=5 min"}, {"charge=,100 g", "still.heater.power=800 W,1200 W"});
  const std::vector<Json> seen = lines(batch.run());
  REQUIRE(seen.size() == 9);  // text that isn't JSON gives one error line
  CHECK(seen[4].at("error") == 1);
  CHECK(seen[0].at("set") == Json::parse(R"({"charge": null, "still.heater.power": "800 W"})"));
  CHECK(seen[3].at("set") == Json::parse(R"({"charge": "100 g", "still.heater.power": "1200 W"})"));
  CHECK(seen[3].at("title") == "a");
  CHECK(seen[5].at("title") == "b");
  // The still is named and has another heater. Anything else is as in its table.
  CHECK(seen[3].at("still") == "bench-column");
  CHECK(seen[3].at("times").at("boil_min").get<double>() <
        0.85 * seen[2].at("times").at("boil_min").get<double>());
  CHECK(seen[3].at("charge").at("mass_g") == 100);
  CHECK(seen[1].at("charge").at("mass_g").get<double>() > 150);
  CHECK(batch.result.counts.recipes == 3);
  CHECK(batch.result.counts.planned == 8);
}

TEST_CASE("a value of the grid that a recipe cannot have is that line's fault", "[batch]") {
  Batch batch;
  batch.inputs = {{"all.jsonl", recipe("")}};
  batch.order.grid = RecipeGrid({}, {"method=steam,hydro"});
  const std::vector<Json> seen = lines(batch.run());
  REQUIRE(seen.size() == 2);
  CHECK(seen[0].at("plan") == 1);
  CHECK(seen[1].at("set").at("method") == "hydro");
  CHECK_THAT(seen[1].at("reason").get<std::string>(), ContainsSubstring("It comes from --vary"));
}

TEST_CASE("a still of one's own, changed in a what-if", "[batch]") {
  const std::string entry = [] {
    Json still = Json::parse(embedded_table_texts().stills).at("entries").at("bench-column");
    still["still"] = 1;
    return still.dump();
  }();
  Batch batch;
  batch.inputs = {{"all.jsonl", R"({"recipe": 1, "plant": "rose", "still": "mine.json"})"}};
  std::atomic<int> reads = 0;
  batch.beside = [&](const std::string& path) {
    CHECK(path == "mine.json");
    ++reads;
    return entry;
  };
  batch.order.grid = RecipeGrid({}, {"still.heater.power=800 W..1200 W by 200 W"});
  const std::vector<Json> seen = lines(batch.run());
  REQUIRE(seen.size() == 3);
  CHECK(reads == 3);
  CHECK(seen[0].at("times").at("boil_min") > seen[2].at("times").at("boil_min"));
}

TEST_CASE("the sums of a batch are those of its lines", "[batch]") {
  Batch batch;
  batch.inputs = {{"all.jsonl", mixed(40) + recipe(R"("charge": "1 kg")") +
                                    recipe(R"("goal": {"hydrosol": "900 mL"})") +
                                    R"({"recipe": 1, "plant": "rose", "still": "herb-pot"})"}};
  batch.order.summary = true;
  const std::string text = batch.run();
  const BatchSummary& s = batch.result.summary;
  double herb = 0, water = 0, ice = 0, energy = 0, hydrosol = 0, oil = 0, time = 0;
  std::int64_t runs = 0, go = 0, refused = 0, broken = 0;
  for (const Json& line : lines(text)) {
    if (line.contains("error")) {
      ++broken;
    } else if (line.at("verdict") == "refused") {
      ++refused;
    } else {
      ++go;
      const int of_plan = line.at("charge").at("runs").get<int>();
      runs += of_plan;
      herb += line.at("charge").at("harvest_g").get<double>();
      water += of_plan * line.at("water").at("first_fill_ml").get<double>();
      if (line.at("uncertainty").contains("ice_kg"))
        ice += of_plan * line.at("uncertainty").at("ice_kg").at("p90").get<double>();
      energy += of_plan * line.at("uncertainty").at("kwh").at("p50").get<double>();
      hydrosol += of_plan * line.at("hydrosol").at("ml").at("p10").get<double>();
      oil += of_plan * line.at("oil").at("in_receiver_ml").at("p90").get<double>();
      time += of_plan * line.at("uncertainty").at("stop_min").at("p50").get<double>();
    }
  }
  CHECK(s.go + s.caution == go);
  CHECK(s.refused == refused);
  CHECK(s.broken == broken);
  CHECK(s.runs == runs);
  CHECK(runs > go);
  CHECK_THAT(in_grams(s.herb), WithinRel(herb, 1e-12));
  CHECK_THAT(in_millilitres(s.water), WithinRel(water, 1e-12));
  CHECK_THAT(in_kilograms(s.ice.high), WithinRel(ice, 1e-12));
  CHECK(ice > 0);
  CHECK_THAT(in_kilowatt_hours(s.energy.typical), WithinRel(energy, 1e-12));
  CHECK_THAT(in_millilitres(s.hydrosol.low), WithinRel(hydrosol, 1e-12));
  CHECK_THAT(in_millilitres(s.oil_volume.high), WithinRel(oil, 1e-12));
  CHECK_THAT(in_minutes(s.heat_on.typical), WithinRel(time, 1e-12));
  REQUIRE(s.plants.size() == 2);
  CHECK(s.plants.at("damask rose").plans == 1);
  CHECK_THAT(in_grams(s.plants.at("damask rose").herb + s.plants.at("lavender").herb),
             WithinRel(herb, 1e-12));
  CHECK(s.refusals.at("target-exceeds-pot").plans == refused);
  CHECK(s.refusals.at("target-exceeds-pot").first.size() == BatchSummary::most_told);
  CHECK(s.refusals.at("target-exceeds-pot").first.front().first == "No. 3");
  REQUIRE(s.first_broken.size() == BatchSummary::most_told);
  CHECK(s.first_broken.front().line == 6);

  // Without lines, the summary is the same.
  batch.order.lines = BatchLines::none;
  const std::string before = batch_summary_json(batch.result, batch.order.grid);
  CHECK(batch.run().empty());
  CHECK(batch_summary_json(batch.result, batch.order.grid) == before);
}

TEST_CASE("each point of a grid has sums of its own", "[batch]") {
  Batch batch;
  batch.inputs = {{"all.jsonl", mixed(12) + "{"}};
  batch.order.summary = true;
  batch.order.lines = BatchLines::none;
  batch.order.grid = RecipeGrid({}, {"charge=100 g,200 g", "goal=,{\"hydrosol\": \"30 L\"}"});
  CHECK(batch.run().empty());
  const BatchResult& all = batch.result;
  REQUIRE(all.variants.size() == 4);
  for (const BatchSummary& one : all.variants) {
    CHECK(one.planned() == 10);
    CHECK(one.broken == 1);  // the misspelt key; text that isn't JSON is in none
  }
  CHECK(all.summary.planned() == 40);
  CHECK(all.summary.broken == 6);
  CHECK(all.variants[0].go + all.variants[0].caution == 10);
  CHECK_THAT(in_grams(all.variants[0].herb), WithinRel(1000, 1e-9));
  CHECK_THAT(in_grams(all.variants[2].herb), WithinRel(2000, 1e-9));
  CHECK(all.variants[3].refused == 10);
  const Json json = Json::parse(batch_summary_json(all, batch.order.grid));
  CHECK(!json.contains("herb_kg"));
  CHECK(json.at("variants").at(2).at("set").at("charge") == "200 g");
  CHECK_THAT(json.at("variants").at(2).at("herb_kg").get<double>(), WithinRel(2, 1e-9));
}

TEST_CASE("plants of people's own cannot make a summary grow without end", "[batch]") {
  BatchSummary summary;
  PlanOutcome outcome;
  outcome.runs = 2;
  outcome.herb = kilograms(1);
  for (int i = 0; i < 1000; ++i) {
    outcome.plant = "plant " + std::to_string(i);
    summary.add(outcome);
  }
  CHECK(summary.plants.size() == BatchSummary::most_plants);
  CHECK(summary.other_plants.plans == 800);
  CHECK_THAT(in_kilograms(summary.herb), WithinRel(1000, 1e-12));
  CHECK_THAT(in_kilograms(summary.other_plants.herb), WithinRel(800, 1e-12));
}

TEST_CASE("a batch that is stopped has written whole lines in order", "[batch]") {
  Batch batch;
  batch.inputs = {{"all.jsonl", mixed(400)}};
  const std::string all = batch.run();
  for (const int jobs : {1, 4}) {
    std::atomic<bool> stop = false;
    batch.order.jobs = jobs;
    batch.stop = [&] { return stop.load(); };
    batch.also_write = [&](std::string_view) { stop = true; };
    const std::string some = batch.run();
    CHECK(batch.result.stopped);
    CHECK(some.size() < all.size());
    CHECK(all.starts_with(some));
    CHECK(some.ends_with('\n'));
  }
}

TEST_CASE("what the outside throws ends the batch", "[batch]") {
  Batch batch;
  batch.inputs = {{"all.jsonl", mixed(400)}};
  batch.order.jobs = 3;
  batch.also_write = [](std::string_view) { throw std::runtime_error("full"); };
  CHECK_THROWS_WITH(batch.run(), "full");
  batch.also_write = nullptr;
  batch.inputs = {{"all.jsonl", R"({"recipe": 1, "plant": "rose", "still": "mine.json"})"}};
  batch.beside = [](const std::string&) -> std::string { throw std::bad_alloc(); };
  CHECK_THROWS_AS(batch.run(), std::bad_alloc);
  // Any other exception becomes the error line of that one recipe.
  batch.beside = [](const std::string&) -> std::string { throw std::length_error("odd"); };
  CHECK_THAT(batch.run(),
             ContainsSubstring("\"reason\":\"Found a value that can't be worked out: odd"));
}
