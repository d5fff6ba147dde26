// The drawing of the run: well-formed, complete and legible for any plan.
#include <algorithm>
#include <cstdlib>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "catch.hpp"
#include "firstdrop/output/write.hpp"
#include "firstdrop/plan/planner.hpp"
#include "output/drawing.hpp"
#include "property/random_recipe.hpp"
#include "test_stills.hpp"
#include "test_tables.hpp"

using namespace firstdrop;
using namespace test_stills;
using test_random::Random;

namespace {

constexpr double wide = 558.0;
constexpr double high = 162.0;

struct Element {
  std::string name;
  std::map<std::string, std::string> attributes;
  std::string text;  ///< directly after the start tag
  double number(const std::string& key) const {
    const auto found = attributes.find(key);
    REQUIRE(found != attributes.end());
    return std::strtod(found->second.c_str(), nullptr);
  }
};

/// All elements in order. Accepts only what this picture may have: elements that nest and close,
/// attributes in double quotes, each once, and no other markup.
std::vector<Element> elements(const std::string& svg) {
  std::vector<Element> list;
  std::vector<std::string> open;
  std::size_t at = 0;
  while ((at = svg.find('<', at)) != std::string::npos) {
    const std::size_t end = svg.find('>', at);
    REQUIRE(end != std::string::npos);
    std::string tag = svg.substr(at + 1, end - at - 1);
    at = end + 1;
    if (tag.front() == '/') {
      REQUIRE_FALSE(open.empty());
      REQUIRE(tag.substr(1) == open.back());
      open.pop_back();
      continue;
    }
    const bool closed = tag.back() == '/';
    if (closed) tag.pop_back();
    Element e;
    std::size_t p = tag.find(' ');
    e.name = tag.substr(0, p);
    while (p < tag.size()) {
      p = tag.find_first_not_of(" \n", p);
      if (p == std::string::npos) break;
      const std::size_t equals = tag.find("=\"", p);
      REQUIRE(equals != std::string::npos);
      const std::size_t quote = tag.find('"', equals + 2);
      REQUIRE(quote != std::string::npos);
      const std::string key = tag.substr(p, equals - p);
      REQUIRE(key.find(' ') == std::string::npos);
      REQUIRE(e.attributes.emplace(key, tag.substr(equals + 2, quote - equals - 2)).second);
      p = quote + 1;
    }
    e.text = svg.substr(at, svg.find('<', at) - at);
    list.push_back(e);
    if (!closed) open.push_back(e.name);
  }
  REQUIRE(open.empty());
  return list;
}

std::string plain(std::string text) {
  for (const auto& [entity, c] : std::map<std::string, std::string>{
           {"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&amp;", "&"}}) {
    for (std::size_t at = 0; (at = text.find(entity, at)) != std::string::npos; ++at)
      text.replace(at, entity.size(), c);
  }
  return text;
}

/// The space that the letters of a text element take: from the tops of capitals to the tails of p
/// and q, with the width of a wide font.
Frame frame_of(const Element& text, double size) {
  const bool bold = text.attributes.count("font-weight") > 0;
  const double width = line_width(plain(text.text), size) * (bold ? 1.15 : 1.0);
  const auto anchor = text.attributes.find("text-anchor");
  double left = text.number("x");
  if (anchor != text.attributes.end()) left -= anchor->second == "end" ? width : width / 2;
  const double base = text.number("y");
  return {left, base - 0.73 * size, left + width, base + 0.24 * size};
}

void is_legible(const std::string& svg) {
  const auto list = elements(svg);
  REQUIRE(list.front().name == "svg");
  CHECK(list.front().attributes.at("viewBox") == "0 0 558 162");
  const double size = list.front().number("font-size");
  // 558 units are 186 mm; 7.5 pt is 2.646 mm.
  CHECK(size * 186.0 / wide >= 7.5 * 25.4 / 72.0);
  const Frame paper{0, 0, wide, high};
  std::vector<Frame> texts;
  std::vector<std::string> words;
  std::set<std::string> ids;
  for (const Element& e : list) {
    CHECK(e.name != "script");
    CHECK(e.name != "style");
    CHECK(e.attributes.count("style") == 0);
    for (const auto& [key, value] : e.attributes) {
      CHECK(key.find("href") == std::string::npos);
      CHECK(key.substr(0, 2) != "on");
      CHECK(value.find("nan") == std::string::npos);
      CHECK(value.find("inf") == std::string::npos);
    }
    if (const auto id = e.attributes.find("id"); id != e.attributes.end())
      CHECK(ids.insert(id->second).second);
    if (e.name == "text") {
      const Frame frame = frame_of(e, size);
      CAPTURE(e.text, frame.left, frame.right, frame.top, frame.bottom);
      CHECK(paper.holds(frame));
      for (std::size_t i = 0; i < texts.size(); ++i) {
        CAPTURE(words[i], texts[i].left, texts[i].right, texts[i].top, texts[i].bottom);
        CHECK_FALSE(frame.overlaps(texts[i]));
      }
      texts.push_back(frame);
      words.push_back(e.text);
    }
    if (e.name == "polyline" || e.name == "polygon") {
      std::string points = e.attributes.at("points");
      std::replace(points.begin(), points.end(), ',', ' ');
      const char* p = points.c_str();
      char* end = nullptr;
      bool is_x = true;
      for (double v = std::strtod(p, &end); end != p; v = std::strtod(p, &end)) {
        CHECK(v >= 0.0);
        CHECK(v <= (is_x ? wide : high));
        is_x = !is_x;
        p = end;
      }
    }
  }
  for (const char* key : {"aria-labelledby", "aria-describedby"})
    CHECK(ids.count(list.front().attributes.at(key)) == 1);
  CHECK(texts.size() > 10);
}

std::string text_of(const std::string& svg, const std::string& name) {
  for (const Element& e : elements(svg)) {
    if (e.name == name) return plain(e.text);
  }
  return "";
}

bool says(const std::string& svg, const std::string& words) {
  for (const Element& e : elements(svg)) {
    if (e.name == "text" && plain(e.text).find(words) != std::string::npos) return true;
  }
  return false;
}

Recipe column_recipe(Volume hydrosol = millilitres(500)) {
  return recipe(herb(), iced_still(litres(1), litres(6), kilograms(1)), HydrosolGoal{hydrosol});
}

}  // namespace

TEST_CASE("a run is drawn with its curves, events and words", "[picture]") {
  const Plan p = plan(column_recipe());
  REQUIRE(p.run);
  const std::string svg = run_picture(p);
  is_legible(svg);
  for (const char* words : {"heat on", "boils ", "first drop ", "stop ", "reserve ", "pot water ",
                            "hydrosol 500 mL", "oil ", "coolant", "limit 35 °C", "hatched"}) {
    CAPTURE(words);
    CHECK(says(svg, words));
  }
  CHECK_FALSE(says(svg, "clock"));
  CHECK(text_of(svg, "title") == "The run over time: test");
  const std::string words = text_of(svg, "desc");
  CHECK(says(svg, "jug not checked: off by "));
  CHECK(says(svg, ", worst "));
  for (const char* part : {"of water in the pot boils after", "first drop", "500 mL of hydrosol",
                           "within 15 min of reaching 500 mL. Jug not checked: heat off by ",
                           "With the strongest heater the pot is down to its reserve (",
                           ", dry after ", "The coolant starts at"}) {
    CAPTURE(part);
    CHECK(words.find(part) != std::string::npos);
  }
}

TEST_CASE("a start puts the clock under the minutes", "[picture]") {
  Recipe r = column_recipe();
  r.start = "2026-06-20T23:50";
  const std::string svg = run_picture(plan(r));
  is_legible(svg);
  CHECK(says(svg, "clock"));
  CHECK(says(svg, "23:50"));
  CHECK(says(svg, "00:10"));
}

TEST_CASE("US benches read US marks", "[picture]") {
  Recipe r = column_recipe(litres(0.6));
  r.units = Units::us;
  const std::string svg = run_picture(plan(r));
  is_legible(svg);
  CHECK(says(svg, "fl oz"));
  CHECK(says(svg, "°F"));
  CHECK_FALSE(says(svg, "°C"));
  CHECK_FALSE(says(svg, " L"));
}

TEST_CASE("coolant from the tap has no panel", "[picture]") {
  Recipe r = column_recipe();
  r.still = tap_still(litres(5) / minutes(1));
  const std::string svg = run_picture(plan(r));
  is_legible(svg);
  CHECK_FALSE(says(svg, "coolant"));
  CHECK(text_of(svg, "desc").find("coolant") == std::string::npos);
}

TEST_CASE("where no oil parts, the picture says so", "[picture]") {
  Recipe r = column_recipe();
  r.own.oil_content = percent(0.001);
  const Plan p = plan(r);
  REQUIRE(p.run);
  REQUIRE(p.run->uncertainty.oil_volume.high < millilitres(0.05));
  const std::string svg = run_picture(p);
  is_legible(svg);
  CHECK(says(svg, "oil: less than a drop separates"));
}

TEST_CASE("a reserve far beyond the run is pointed to, and one near is drawn", "[picture]") {
  Recipe r = column_recipe(millilitres(100));
  r.water = litres(1.5);
  const Plan far = plan(r);
  REQUIRE(far.run);
  REQUIRE(far.run->times.reserve > far.run->times.stop * 2.0);
  is_legible(run_picture(far));
  CHECK(says(run_picture(far), "→"));
  const Plan near = plan(column_recipe());
  REQUIRE(near.run->times.reserve < near.run->times.stop * 2.0);
  CHECK_FALSE(says(run_picture(near), "→"));
}

TEST_CASE("nobody works from the picture of a refused plan", "[picture]") {
  const Plan p = plan(column_recipe(litres(50)));
  REQUIRE(p.verdict == Verdict::refused);
  CHECK_THROWS_AS(run_picture(p), RefusedError);
}

TEST_CASE("a title is text and no markup", "[picture]") {
  Recipe r = column_recipe();
  r.title = "<b>\"Rose\" & 'rue'</b>\x1b\xEF\xBF\xBF";
  const std::string svg = run_picture(plan(r));
  is_legible(svg);
  CHECK(text_of(svg, "title") == "The run over time: <b>\"Rose\" & 'rue'</b>\\u001b?");
  CHECK(svg.find("<b>") == std::string::npos);
}

TEST_CASE("two pictures in a page have no id in common", "[picture]") {
  const Plan p = plan(column_recipe());
  const auto first = elements(run_picture(p, "a"));
  const auto second = elements(run_picture(p, "b"));
  for (const Element& e : first) {
    const auto id = e.attributes.find("id");
    if (id == e.attributes.end()) continue;
    CHECK(id->second.substr(0, 2) == "a-");
    for (const Element& other : second) {
      const auto found = other.attributes.find("id");
      CHECK((found == other.attributes.end() || found->second != id->second));
    }
  }
}

TEST_CASE("many ice changes are counted where there is no room to name them", "[picture]") {
  Plan p = plan(column_recipe());
  REQUIRE(p.run);
  auto& changes = p.run->cooling.ice_changes;
  for (const int count : {1, 3, 8, 40}) {
    changes.clear();
    for (int i = 0; i < count; ++i)
      changes.push_back({p.run->times.stop * (0.35 + 0.6 * i / count), grams(450)});
    const std::string svg = run_picture(p);
    is_legible(svg);
    CAPTURE(count);
    CHECK(says(svg, count == 1 ? "ice 500 g" : "ice"));
    if (count == 40) CHECK(says(svg, "ice, 40 times"));
  }
}

TEST_CASE("no line is drawn over an ice change, unless the timeline knows it", "[picture]") {
  Plan p = plan(column_recipe());
  REQUIRE(p.run);
  REQUIRE_FALSE(p.run->uncertainty.oil_volume.high < millilitres(0.05));
  auto& timeline = p.run->timeline;
  const Duration stop = p.run->times.stop;
  const Duration ice = stop * 0.81;
  p.run->cooling.ice_changes = {{ice, grams(500)}};
  timeline.erase(std::remove_if(timeline.begin(), timeline.end(),
                                [](const TimelinePoint& t) { return t.event.ends_with("ice"); }),
                 timeline.end());
  const auto curves = [](const std::string& svg) {
    const auto list = elements(svg);
    return std::count_if(list.begin(), list.end(), [](const Element& e) {
      return (e.name == "polyline" || e.name == "circle");
    });
  };
  p.run->cooling.ice_changes.clear();
  const auto whole = curves(run_picture(p));
  p.run->cooling.ice_changes = {{ice, grams(500)}};
  CHECK(curves(run_picture(p)) == whole + 1);  // in two pieces
  // With the timeline's points before and after the ice, the curve is in one piece again.
  const auto after = std::find_if(timeline.begin(), timeline.end(),
                                  [&](const TimelinePoint& t) { return t.at > ice; });
  REQUIRE(after != timeline.begin());
  REQUIRE(after != timeline.end());
  TimelinePoint point = *after;
  TimelinePoint before = *(after - 1);
  before.at = ice;
  before.event = "before ice";
  point.at = ice;
  point.event = "ice";
  timeline.insert(after, {before, point});
  CHECK(curves(run_picture(p)) == whole);
}

TEST_CASE("every plain recipe makes a legible picture", "[picture]") {
  int drawn = 0;
  std::size_t i = 0;
  for (Recipe& r : plain_recipes({"lavender", "rose", "peppermint", "rosemary"})) {
    if (++i % 2 == 0) r.units = Units::us;
    if (i % 3 == 0) r.start = "2026-06-20T07:35";
    const Plan p = make_plan(r, shipped_tables(), 16);
    if (!p.may_be_run()) continue;
    const std::string svg = run_picture(p);
    CAPTURE(r.plant->key, r.still->key);
    is_legible(svg);
    ++drawn;
  }
  CHECK(drawn > 10);
}

TEST_CASE("every random recipe makes a legible picture", "[picture]") {
  int drawn = 0;
  int terse = 0;  // the sheet beside it has these words
  for (std::uint64_t i = 0; drawn < 300; ++i) {
    REQUIRE(i < 20000);
    Random random(0x9E3779B97F4A7C15U * (i + 1));
    const auto document = random_recipe::document(random, shipped_tables());
    auto r = random_recipe::read(document, shipped_tables());
    if (!r) continue;
    const auto p = random_recipe::planned(*r, shipped_tables(), 8);
    if (!p) continue;
    if (!p->may_be_run()) continue;
    const std::string svg = run_picture(*p);
    CAPTURE(i, document.dump());
    is_legible(svg);
    for (const char* words :
         {"stop ", "at reserve", "pot water ", "must stay", "hydrosol ", "oil", " left"}) {
      CAPTURE(words);
      CHECK(says(svg, words));
    }
    // Where a run stops at its first drop, there isn't room for all the labels.
    const TimesPlan& t = p->run->times;
    CHECK((says(svg, "boils ") || t.stop - t.boil < t.stop * 0.02));
    CHECK((says(svg, "first drop ") || t.stop - t.first_drop < t.stop * 0.02));
    if (!says(svg, "off by ")) ++terse;
    ++drawn;
  }
  CHECK(terse * 20 < drawn);
}
