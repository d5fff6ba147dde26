// The run sheet: everything that it must hold, in each format, for every still and plant and for
// random recipes. How it looks on paper is tested in tests/page, and what a Markdown parser makes
// of it in tests/exports.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <cstdint>
#include <optional>
#include <regex>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "catch.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/output/write.hpp"
#include "firstdrop/plan/planner.hpp"
#include "output/bench_words.hpp"
#include "property/random_recipe.hpp"
#include "quantity/clock_time.hpp"
#include "quantity/numbers_text.hpp"
#include "test_random.hpp"
#include "test_stills.hpp"
#include "test_tables.hpp"

using namespace firstdrop;
using test_stills::column_still;
using test_stills::herb;
using test_stills::iced_still;

namespace {

constexpr std::array formats = {SheetFormat::text, SheetFormat::markdown, SheetFormat::html};
constexpr int samples = 8;

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

int count(const std::string& text, const std::string& part) {
  int times = 0;
  for (std::size_t at = 0; (at = text.find(part, at)) != std::string::npos; at += part.size()) {
    ++times;
  }
  return times;
}

std::string replaced(std::string text, const std::string& old, const std::string& with) {
  for (std::size_t at = 0; (at = text.find(old, at)) != std::string::npos; at += with.size()) {
    text.replace(at, old.size(), with);
  }
  return text;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::size_t begin = 0;
  for (std::size_t end; (end = text.find('\n', begin)) != std::string::npos; begin = end + 1) {
    lines.push_back(text.substr(begin, end - begin));
  }
  if (begin < text.size()) lines.push_back(text.substr(begin));
  return lines;
}

// Turns each stretch of white space into one blank.
std::string in_one_line(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c != ' ' && c != '\n')
      out += c;
    else if (!out.empty() && out.back() != ' ')
      out += ' ';
  }
  return out;
}

std::string without_element(std::string html, const std::string& name) {
  for (std::size_t at; (at = html.find("<" + name)) != std::string::npos;) {
    const std::string end = "</" + name + ">";
    html.erase(at, html.find(end, at) + end.size() - at);
  }
  return html;
}

// What a person reads in any format, without marks and lines. Good enough for our own pages.
std::string words_of(const std::string& sheet, SheetFormat format) {
  std::string out;
  switch (format) {
    case SheetFormat::text:
      return in_one_line(sheet);
    case SheetFormat::markdown:
      for (std::size_t i = 0; i < sheet.size(); ++i) {
        if (sheet[i] == '*' || sheet[i] == '|') {
          out += ' ';
          continue;
        }
        if (sheet[i] == '\\' && i + 1 < sheet.size()) ++i;
        out += sheet[i];
      }
      // A label's lines are marked as quoted.
      return in_one_line(replaced(out, "\n> ", "\n"));
    case SheetFormat::html:
      break;
  }
  bool in_tag = false;
  for (const char c : without_element(sheet, "style")) {
    if (c == '<') in_tag = true;
    if (!in_tag) out += c;
    if (c == '>') {
      in_tag = false;
      out += ' ';
    }
  }
  for (const auto& [entity, sign] :
       {std::pair{"&lt;", "<"}, std::pair{"&gt;", ">"}, std::pair{"&quot;", "\""},
        std::pair{"&amp;", "&"}, std::pair{"\u00a0", " "}}) {
    out = replaced(out, entity, sign);
  }
  return in_one_line(out);
}

// Finds "1.1 L", but not as the end of "21.1 L" or the beginning of "1.1 L/min".
bool has_figure(const std::string& words, const std::string& figure) {
  for (std::size_t at = 0; (at = words.find(figure, at)) != std::string::npos; ++at) {
    const char before = at == 0 ? ' ' : words[at - 1];
    const std::size_t end = at + figure.size();
    const char after = end < words.size() ? words[end] : ' ';
    const bool begins = std::isdigit(static_cast<unsigned char>(before)) == 0 && before != '.';
    const bool ends = std::isalnum(static_cast<unsigned char>(after)) == 0 && after != '/';
    if (begins && ends) return true;
  }
  return false;
}

// Texts from the tables and the recipe, which may contain anything.
std::vector<std::string> own_texts(const Plan& plan) {
  const Recipe& r = plan.recipe;
  std::string plant = visible(r.plant->name);
  std::vector<std::string> texts = {visible(r.title),       visible(r.plant->latin),
                                    visible(r.plant->part), visible(r.still->title),
                                    visible(r.lot),         plant};
  if (!plant.empty()) {
    plant[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(plant[0])));
    texts.push_back(plant);
  }
  for (const Finding& finding : plan.findings) {
    if (finding.is<found::PlantHazard>())
      texts.push_back(visible(finding_text(finding, plan.recipe.units)));
  }
  return texts;
}

std::string without_own_texts(std::string words, const Plan& plan) {
  std::vector<std::string> texts = own_texts(plan);
  // Long ones first, because a short one may be part of them.
  std::sort(texts.begin(), texts.end(), [](const std::string& a, const std::string& b) {
    return std::pair(b.size(), a) < std::pair(a.size(), b);
  });
  for (const std::string& text : texts) {
    if (!text.empty()) words = replaced(words, in_one_line(text), "…");
  }
  return words;
}

// --- both systems of units

// Texts of the tables give both units.
std::string without_pairs(std::string words) {
  static const std::regex pairs("[0-9.]+ °C \\([0-9.]+ °F\\)|1 m \\(3 ft\\)");
  return std::regex_replace(words, pairs, "…");
}

/// Figures in metric units on a sheet for a US bench. Below an ounce, grams and millilitres are
/// right.
std::vector<std::string> metric_figures(const std::string& words) {
  static const std::regex metric(
      "([0-9][0-9.]*) ?(°C|kg|g/L|L/kg|g|mL/min|mL|L/min|L|kPa|cm/s|cm|mm|m|m²)(?![A-Za-z/²])");
  std::vector<std::string> found;
  const std::string text = without_pairs(words);
  for (std::sregex_iterator i(text.begin(), text.end(), metric), end; i != end; ++i) {
    const std::string unit = (*i)[2];
    const double number = std::stod((*i)[1]);
    if ((unit == "g" && number <= 28.35) || (unit == "mL" && number <= 29.58)) continue;
    found.push_back((*i)[0]);
  }
  return found;
}

std::vector<std::string> us_figures(const std::string& words) {
  static const std::regex us("[0-9] ?(°F|fl oz|oz|lb|qt|gal|ft|inHg|cups?)(?![A-Za-z])");
  std::vector<std::string> found;
  const std::string text = without_pairs(words);
  for (std::sregex_iterator i(text.begin(), text.end(), us), end; i != end; ++i) {
    found.push_back((*i)[0]);
  }
  return found;
}

// --- what every sheet must hold

struct Judge {
  const Plan& plan;
  std::vector<std::string> faults = {};

  void wants(bool holds, const std::string& what) {
    if (!holds) faults.push_back(what);
  }

  template <class Quantity>
  std::string text(Quantity quantity) const {
    return firstdrop::text(quantity, plan.recipe.units);
  }

  // A printed moment is never later than the actual one.
  static Duration down(Duration time) { return minutes(std::floor(in_minutes(time) + 1e-9)); }

  // Every amount that a person weighs, pours or sets, and every limit.
  std::vector<std::string> amounts_and_limits() const {
    const RunPlan& run = *plan.run;
    const Condenser& condenser = plan.recipe.still->condenser;
    std::vector<std::string> all = {text(plan.charge.mass),
                                    pour_text(plan),
                                    text(plan.recipe.setting),
                                    text(down(run.times.latest)),
                                    text(down(run.times.earliest_stop)),
                                    text(run.water.reserve),
                                    text(run.times.boil),
                                    text(run.times.first_drop),
                                    text(run.times.stop),
                                    text(down(run.times.reserve_worst)),
                                    text(down(run.times.dry_worst)),
                                    text(run.rates.distillate),
                                    text(run.uncertainty.hydrosol.typical),
                                    text(run.water.left_at_stop)};
    if (run.stop_criterion == StopRule::time || !run.stop.hydrosol) {
      all.push_back(text(run.stop.clock.value()));
    } else {
      all.push_back(text(*run.stop.hydrosol));
    }
    if (!run.stop.hydrosol || run.water.never_beyond > *run.stop.hydrosol * 1.001) {
      all.push_back(text(run.water.never_beyond));
    }
    if (run.stop.hydrosol && plan.recipe.limits.absence >= minutes(1)) {
      all.push_back(text(down(plan.recipe.limits.absence)));
    }
    if (run.water.after_heat_off >= millilitres(5)) all.push_back(text(run.water.after_heat_off));
    if (condenser.coolant) all.push_back(text(condenser.coolant->typical()));
    if (plan.recipe.site.coolant) all.push_back(text(*plan.recipe.site.coolant));
    if (condenser.kind == CondenserKind::run_through) {
      all.push_back(text(tap_up(run.cooling.flow.value(), plan.recipe.units)));
      all.push_back(text(tap_up(run.cooling.flow_most.value(), plan.recipe.units)));
    } else {
      all.push_back(text(condenser.coolant_limit.typical()));
    }
    if (run.cooling.first_ice) {
      all.push_back(text(ice_up(*run.cooling.first_ice, plan.recipe.units)));
    }
    for (const IceChange& change : run.cooling.ice_changes) {
      all.push_back(text(ice_up(change.ice, plan.recipe.units)));
    }
    const IceToHave ice = ice_to_have_ready(run.cooling, plan.recipe.units);
    if (ice.expected) all.push_back(text(*ice.expected));
    if (ice.ready) all.push_back(text(*ice.ready));
    if (plan.recipe.receiver_volume) all.push_back(text(*plan.recipe.receiver_volume));
    return all;
  }

  // The times of changes, by the clock or in minutes.
  template <class Change>
  void tells_all(const std::vector<Change>& changes, const std::string& words,
                 const std::string& what) {
    const auto start = parse_local_minute(plan.recipe.start);
    for (const Change& change : changes) {
      const std::string at = start ? time_of_day(*start, change.at).substr(0, 5)
                             : changes.size() > 5
                                 ? fmt::format("{}", std::llround(in_minutes(change.at)))
                                 : text(change.at);
      wants(has_figure(words, at), what + " at " + at);
    }
  }

  void of_any_format(const std::string& words) {
    wants(has(words,
              in_one_line(visible(plan.recipe.title.empty() ? "Untitled run" : plan.recipe.title))),
          "the title");
    for (const std::string& figure : amounts_and_limits()) wants(has_figure(words, figure), figure);
    for (const Finding& finding : plan.findings) {
      const std::string code(finding.code());
      const std::string text = finding_text(finding, plan.recipe.units);
      if (finding.kind->standing) {
        wants(has(words, in_one_line(visible(finding.kind->brief))), code);
        wants(!finding.kind->brief.empty(), code + " in brief");
      } else if (finding.level == Level::caution || code == "plant-hazard" ||
                 code == "flash-point") {
        wants(has(words, in_one_line(visible(text))), code);
      }
    }
    tells_all(plan.run->cooling.ice_changes, words, "ice");
    tells_all(plan.run->receiver_changes, words, "receiver_volume");
    const std::string rest = without_own_texts(words, plan);
    for (const std::string& figure :
         plan.recipe.units == Units::us ? metric_figures(rest) : us_figures(rest)) {
      faults.push_back("in the other units: " + figure);
    }
  }

  void of_text(const std::string& sheet) {
    const std::vector<std::string> lines = lines_of(sheet);
    std::set<std::string> own;
    for (const std::string& text : own_texts(plan)) {
      for (const std::string& sign : signs(text)) own.insert(sign);
    }
    for (const std::string& line : lines) {
      // A longer line has only one word after its tick, box or time.
      const std::size_t last = line.find_last_of(' ');
      const int word = last == std::string::npos ? text_width(line) : text_width(line.substr(last));
      wants(text_width(line) <= 80 || text_width(line) - word <= 32, "a line that fits: " + line);
      wants(line.empty() || line.back() != ' ', "no trailing blanks: " + line);
      for (const std::string& sign : signs(line)) {
        wants(sign == "°" || sign == "·" || sign == "²" || own.contains(sign), "ASCII: " + line);
      }
    }
    wants(sheet.starts_with(visible(plan.recipe.title).substr(0, 1)) || plan.recipe.title.empty(),
          "the title first");
    in_order(lines);
  }

  static std::vector<std::string> signs(const std::string& text) {
    std::vector<std::string> found;
    for (std::size_t i = 0; i < text.size();) {
      std::size_t end = i + 1;
      while (end < text.size() && (static_cast<unsigned char>(text[end]) & 0xc0U) == 0x80U) ++end;
      if (end - i > 1) found.push_back(text.substr(i, end - i));
      i = end;
    }
    return found;
  }

  void in_order(const std::vector<std::string>& lines) {
    static const std::regex step("^ *(?:([0-9]+) h)? ?(?:([0-9]+) min)? .*\\[__:__\\].*$");
    double before = -1;
    std::size_t steps = 0;
    for (const std::string& line : lines) {
      std::smatch match;
      if (!std::regex_match(line, match, step)) continue;
      const auto number = [&](std::size_t i) {
        return match[i].matched ? std::stod(match[i]) : 0.0;
      };
      const double at = 60 * number(1) + number(2);
      wants(at >= before, "order of time: " + line);
      before = at;
      ++steps;
    }
    const auto rows = [](std::size_t changes) { return changes > 5 ? 1 : changes; };
    // With many ice changes, the one before the stop has its own row.
    const auto& ice = plan.run->cooling.ice_changes;
    const bool one_more =
        ice.size() > 5 && std::any_of(ice.begin(), ice.end(), [&](const IceChange& change) {
          return is_before_stop(plan, change);
        });
    wants(steps ==
              4 + rows(ice.size()) + (one_more ? 1 : 0) + rows(plan.run->receiver_changes.size()),
          fmt::format("all steps, not {}", steps));
  }
};

std::vector<std::string> faults_of(const Plan& plan) {
  Judge judge{plan};
  for (const SheetFormat format : formats) {
    const std::string sheet = run_sheet(plan, format);
    if (format == SheetFormat::text) judge.of_text(sheet);
    const std::size_t before = judge.faults.size();
    judge.of_any_format(words_of(sheet, format));
    for (std::size_t i = before; i < judge.faults.size(); ++i) {
      judge.faults[i] += format == SheetFormat::text       ? " (text)"
                         : format == SheetFormat::markdown ? " (Markdown)"
                                                           : " (HTML)";
    }
  }
  return judge.faults;
}

void check_sheets_of(Recipe recipe, int& sheets) {
  for (const Units units : {Units::metric, Units::us}) {
    recipe.units = units;
    const auto plan = random_recipe::planned(recipe, shipped_tables(), samples);
    if (!plan) return;
    if (plan->verdict == Verdict::refused) continue;
    ++sheets;
    CAPTURE(recipe.plant->key, recipe.still->key, to_string(recipe.method_used()),
            units == Units::us);
    CHECK(faults_of(*plan) == std::vector<std::string>{});
  }
}

Plan plain(Goal goal = HydrosolGoal{millilitres(500)}) {
  return test_stills::plan(test_stills::recipe(herb(), column_still(), std::move(goal)));
}

std::string sheet(const Plan& plan, SheetFormat format = SheetFormat::text) {
  return words_of(run_sheet(plan, format), format);
}

constexpr const char* nasty =
    R"(a|b ||| *c* **d** _e_ `f` ~~g~~ <script>h</script> [i](http://x.org) ](http://x.org) )"
    R"(www.x.org &amp; &lt; <!-- j --> \ \\ # k " ' </title> ]]> {l} !m)";

}  // namespace

TEST_CASE("the sheet's own test can fail", "[sheet]") {
  CHECK(metric_figures("5 °C").size() == 1);
  CHECK(metric_figures("2 kg, 1.5 L, 30 mL, 29 g (a 0.5 L/min) 100 mL/min, 3 m").size() == 7);
  CHECK(metric_figures("12 mL, 28 g, 41 °C (106 °F), 1 m (3 ft), 5 min, 3 lb").empty());
  CHECK(us_figures("5 °F, 7 fl oz, 3 oz, 2 lb, 1 qt, 1 gal, 3.3 ft").size() == 7);
  CHECK(us_figures("41 °C (106 °F), 12 mL").empty());
  CHECK(has_figure("is 1.1 L.", "1.1 L"));
  CHECK_FALSE(has_figure("21.1 L", "1.1 L"));
  CHECK_FALSE(has_figure("1.1 L/min", "1.1 L"));
  CHECK_FALSE(has_figure("11 Lot", "11 L"));

  Plan p = plain();
  REQUIRE(faults_of(p).empty());
  const auto finds = [](const Plan& plan, const std::string& sheet, const std::string& what) {
    Judge judge{plan};
    judge.of_text(sheet);
    judge.of_any_format(words_of(sheet, SheetFormat::text));
    return has(fmt::format("{}", fmt::join(judge.faults, "; ")), what);
  };
  const std::string text = run_sheet(p, SheetFormat::text);
  CHECK(finds(p, text + "x \n", "trailing"));
  CHECK(finds(p, text + "a " + std::string(79, 'x') + " b\n", "fits"));
  CHECK(finds(p, text + "–\n", "ASCII"));
  CHECK(finds(p, text + "100 °F\n", "other units"));
  CHECK(finds(p, replaced(text, "500 mL", "501 mL"), "500 mL"));
  CHECK(finds(p, replaced(text, "Stay with it", "Leave it"), "stay-with-it"));
  CHECK(finds(p, replaced(text, "     0 min ", "   999 min "), "order of time"));
}

TEST_CASE("every still with every plant has its sheet", "[sheet]") {
  int sheets = 0;
  for (const Recipe& recipe : plain_recipes()) check_sheets_of(recipe, sheets);
  CHECK(sheets > 300);
}

TEST_CASE("random recipes have their sheets", "[sheet]") {
  int sheets = 0;
  for (std::uint64_t i = 0; sheets < 400 && i < 10000; ++i) {
    test_random::Random random(4711 + i);
    const auto document = random_recipe::document(random, shipped_tables());
    const auto recipe = random_recipe::read(document, shipped_tables());
    if (!recipe) continue;
    CAPTURE(i);
    check_sheets_of(*recipe, sheets);
  }
  CHECK(sheets >= 400);
}

TEST_CASE("each change of ice has its step, up to five", "[sheet]") {
  Plan p = test_stills::plan(test_stills::recipe(
      herb(), iced_still(litres(1), litres(6), kilograms(1)), HydrosolGoal{millilitres(500)}));
  auto& changes = p.run->cooling.ice_changes;
  REQUIRE_FALSE(changes.empty());
  const Duration first = changes.front().at;
  changes.resize(1);
  const auto with_changes = [&](int number) {
    changes.resize(1);
    for (int i = 1; i < number; ++i)
      changes.push_back({first + minutes(3 * i), grams(i == 23 ? 410 : 1000)});
    return sheet(p);
  };
  CHECK(count(with_changes(1), ", put in ") == 1);
  CHECK(count(with_changes(5), ", put in ") == 5);
  const std::string many = with_changes(24);
  CHECK(count(many, ", put in ") == 1);
  CHECK(has(many, fmt::format("about at {:.0f}, ", in_minutes(first))));
  CHECK(has(many, fmt::format("{:.0f} (500 g) min. Take out 1 L of warm "
                              "water, put in 1 kg of ice.",
                              in_minutes(first + minutes(3 * 23)))));
}

TEST_CASE("as much ice is got ready as its pieces take", "[sheet]") {
  Plan p = test_stills::plan(test_stills::recipe(
      herb(), iced_still(litres(1), litres(6), kilograms(1)), HydrosolGoal{millilitres(500)}));
  p.run->cooling.first_ice = grams(1000);
  p.run->cooling.ice_changes.assign(4, {minutes(40), grams(1000)});
  p.run->cooling.ice = grams(5000);
  p.run->cooling.ice_ready.reset();
  CHECK(has(sheet(p), "Ice 5 kg ready; 5 kg expected, 1 kg at the start"));
  p.run->cooling.ice_ready = grams(6000);
  CHECK(has(sheet(p), "Ice 6 kg ready; 5 kg expected, 1 kg at the start"));
  p.recipe.units = Units::us;  // 35.27 oz becomes 2.3 lb for each piece
  CHECK(has(sheet(p), "Ice 13.3 lb ready; 11.5 lb expected, 2.3 lb at the start"));
  p.run->cooling.ice = kilograms(7);  // the ice to have ready is never less than expected
  CHECK(has(sheet(p), "Ice 15.5 lb ready; 15.5 lb expected, 2.3 lb at the start"));
  p.recipe.units = Units::metric;
  p.run->cooling.ice.reset();
  p.run->cooling.first_ice.reset();
  p.run->cooling.ice_changes.clear();
  CHECK(has(sheet(p), "Ice 6 kg ready; none expected"));
}

TEST_CASE("receivers are enough for a late stop, and each change is told", "[sheet]") {
  Plan p = plain();
  p.recipe.receiver_volume = millilitres(200);
  p.run->receiver_changes = {{minutes(30), millilitres(200)}, {minutes(42), millilitres(400)}};
  p.run->water.never_beyond = millilitres(790);
  p.run->water.most_caught = millilitres(795);
  std::string words = sheet(p);
  CHECK(has(words, "4 receivers of 200 mL each, one under the outlet"));
  CHECK(has(words, "Receiver full: 200 mL in total. Next receiver under the outlet."));
  CHECK(has(words, "Receiver full: 400 mL in total. Next receiver under the outlet."));
  CHECK(has(words, "500 mL in total, 100 mL in the last receiver ("));
  CHECK(has(words,
            "Heat off before 790 mL is caught in total and within 15 min of reaching 500 mL."));
  CHECK(has(words, "Caught in total: "));
  CHECK_FALSE(has(words, "In the receiver"));
  p.run->water.most_caught = millilitres(800);
  CHECK(has(sheet(p), "4 receivers of 200 mL each"));

  p.run->receiver_changes.clear();
  p.recipe.receiver_volume = litres(1);
  words = sheet(p);
  CHECK(has(words, "A receiver of 1 L."));
  CHECK(has(words, "500 mL in the receiver ("));
  CHECK(has(words, "In the receiver: "));
  // If the receiver is far too small, no changes are planned.
  p.recipe.receiver_volume = millilitres(10);
  words = sheet(p);
  CHECK(has(words, "80 receivers of 10 mL each"));
  CHECK(has(words, "500 mL in total ("));
  CHECK_FALSE(has(words, "n the receiver"));
  p.recipe.receiver_volume.reset();
  CHECK(has(sheet(p), "Receiver: 800 mL or more, a mark at 500 mL."));

  for (int i = 0; i < 24; ++i) p.run->receiver_changes.push_back({minutes(20 + i), litres(i)});
  CHECK(count(sheet(p), "Next receiver under the outlet.") == 1);
  CHECK(has(sheet(p), "Each time the receiver is full, about at 20, 21, 22, "));
}

TEST_CASE("of a row of times the first of another day names it", "[sheet]") {
  Plan p = plain();
  p.recipe.start = "2026-12-31T23:30";
  for (int i = 0; i < 6; ++i) {
    p.run->receiver_changes.push_back({minutes(20 + 5 * i), millilitres(50)});
  }
  CHECK(has(sheet(p), "about at 23:50, 23:55, 00:00 +1d, 00:05, 00:10, 00:15."));
}

TEST_CASE("a lot has its code", "[sheet]") {
  Plan p = plain();
  for (const SheetFormat format : formats) {
    p.recipe.lot.clear();
    p.recipe.start.clear();
    p.charge.runs = 1;
    CHECK(has(sheet(p, format), "TESTHERB-______"));
    p.recipe.start = "2026-06-20T09:30";
    CHECK(has(sheet(p, format), "TESTHERB-260620"));
    CHECK_FALSE(has(sheet(p, format), "TESTHERB-260620-"));
    p.charge.runs = 3;
    CHECK(has(sheet(p, format), "TESTHERB-260620-__"));
    CHECK(has(sheet(p, format), "one of 3 such runs"));
    p.recipe.lot = "L 7/2";
    CHECK(has(sheet(p, format), "L 7/2"));
    CHECK_FALSE(has(sheet(p, format), "TESTHERB-"));
  }
  p.recipe.lot.clear();
  p.recipe.plant.change().key = "--";
  CHECK(has(sheet(p), "Lot LOT-260620"));
}

TEST_CASE("no two plants have the same lot on the same day", "[sheet]") {
  std::set<std::string> lots;
  for (const auto& [key, plant] : shipped_tables().plants) {
    Plan p = plain();
    p.recipe.plant = plant;
    p.recipe.start = "2026-06-20T09:30";
    const std::string text = sheet(p);
    const auto at = text.find("Lot ");
    REQUIRE(at != std::string::npos);
    lots.insert(text.substr(at, text.find('.', at) - at));
  }
  CHECK(lots.size() == shipped_tables().plants.size());
}

TEST_CASE("a start adds day and clock, past midnight too", "[sheet]") {
  Plan p = plain();
  CHECK(has(sheet(p), "Day ____-__-__"));
  p.recipe.start = "2028-02-29T23:50";
  const std::string words = sheet(p);
  CHECK(has(words, "Day 2028-02-29"));
  CHECK(has(words, "0 min 23:50 [__:__] HEAT ON"));
  CHECK(has(words, " +1d [__:__] "));
}

TEST_CASE("the sheet follows place, heater, pot, method and oil", "[sheet]") {
  Plan p = plain();
  CHECK(has(sheet(p), "Window open."));
  CHECK(has(sheet(p), "Socket with tested 30 mA RCD or GFCI"));
  CHECK(has(sheet(p), "lift the oil off"));
  CHECK(has(sheet(p), "test herb, fresh, chopped · by steam · Test column"));
  p.recipe.site.place = Place::outdoors;
  p.recipe.still.change().pot.material = "glass";
  p.recipe.plant.change().oil_density = test_stills::exactly(kilograms_per_cubic_metre(1040));
  CHECK_FALSE(has(sheet(p), "Window"));
  CHECK(has(sheet(p), "Glass: no star cracks"));
  CHECK(has(sheet(p), "draw the oil off below"));

  Still on_gas = test_stills::hydro_still();
  on_gas.heater.kind = HeaterKind::gas_burner;
  Recipe recipe = test_stills::recipe(herb(), on_gas, HydrosolGoal{millilitres(900)});
  recipe.charge = grams(500);
  const Plan gas = test_stills::plan(recipe);
  REQUIRE(gas.verdict != Verdict::refused);
  CHECK(has(sheet(gas), "Burner: 1 m clear"));
  CHECK_FALSE(has(sheet(gas), "Socket"));
  CHECK(has(sheet(gas), "stirred, all of it wet"));
  CHECK_FALSE(has(sheet(gas), "Herb in loosely"));
  CHECK(has(sheet(gas), "tap water runs"));
}

TEST_CASE("a run by the clock stops by the clock", "[sheet]") {
  const Plan p = plain(TimeGoal{minutes(45)});
  REQUIRE(p.run->stop_criterion == StopRule::time);
  const std::string words = sheet(p);
  CHECK(has(words, "STOP AT 45 min."));
  CHECK(has(words, "45 min by the clock, however much has come."));
  CHECK(has(words, "Timer: 45 min, the stop."));
  CHECK(has(words, "In any case: heat off by 60 min (__:__)."));
}

TEST_CASE("a plan without a title, and the same bytes each time", "[sheet]") {
  Plan p = plain();
  p.recipe.title.clear();
  for (const SheetFormat format : formats) {
    CHECK(has(sheet(p, format), "Untitled run"));
    CHECK(run_sheet(p, format) == run_sheet(p, format));
  }
}

TEST_CASE("nobody works from a refused plan", "[sheet]") {
  Plan p = plain();
  for (const SheetFormat format : formats) {
    p.verdict = Verdict::refused;
    CHECK_THROWS_AS(run_sheet(p, format), RefusedError);
  }
  p.verdict = Verdict::go;
  p.run.reset();
  for (const SheetFormat format : formats) CHECK_THROWS_AS(run_sheet(p, format), RefusedError);
}

namespace {

Plan nasty_plan() {
  Plan p = plain();
  p.recipe.title = nasty;
  p.recipe.lot = nasty;
  p.recipe.plant.change().name = nasty;
  p.recipe.plant.change().latin = nasty;
  p.recipe.plant.change().part = nasty;
  p.recipe.still.change().title = nasty;
  Hazard hazard;
  hazard.text = nasty;
  p.findings.emplace_back(Level::note, found::PlantHazard{hazard});
  p.findings.emplace_back(Level::caution, found::PlantNote{nasty});
  return p;
}

int bars(const std::string& line) {
  int found = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (line[i] == '\\')
      ++i;
    else if (line[i] == '|')
      ++found;
  }
  return found;
}

// The elements still open at the end, or the first tag that closes the wrong element. Empty for a
// well-formed page.
std::string unbalanced(const std::string& html) {
  static const std::set<std::string> empty = {"meta", "br", "!DOCTYPE"};
  std::vector<std::string> open;
  for (std::size_t at = 0; (at = html.find('<', at)) != std::string::npos; ++at) {
    const std::size_t end = html.find('>', at);
    if (end == std::string::npos) return "a tag without an end";
    const std::string tag = html.substr(at + 1, end - at - 1);
    const bool closes = tag.starts_with("/");
    const std::string name =
        tag.substr(closes ? 1 : 0, tag.find_first_of(" /\n", 1) - (closes ? 1 : 0));
    if (closes) {
      if (open.empty() || open.back() != name) return "</" + name + ">";
      open.pop_back();
    } else if (!empty.contains(name) && !tag.ends_with("/")) {
      open.push_back(name);
    }
    at = end;
  }
  return fmt::format("{}", fmt::join(open, " "));
}

}  // namespace

TEST_CASE("names are words in Markdown, whatever is in them", "[sheet]") {
  const std::string text = run_sheet(nasty_plan(), SheetFormat::markdown);
  int cells = 0;
  for (const std::string& line : lines_of(text)) {
    CAPTURE(line);
    if (line.starts_with("| ")) {
      if (cells == 0) cells = bars(line);
      CHECK(bars(line) == cells);
    } else {
      cells = 0;
      CHECK(bars(line) == 0);
    }
  }
  // No part of a name could begin markup.
  const std::regex sound(R"((\\[\s\S]|[^\\`_<\[\]{}#~&>|*])*)");
  for (const std::string& line : lines_of(text)) {
    if (!has(line, "k \" '")) continue;
    CAPTURE(line);
    const std::size_t name = line.find("\\|b");
    REQUIRE(name != std::string::npos);
    const std::size_t end = line.find("!m", name);
    CHECK(std::regex_match(line.substr(name, end - name), sound));
    CHECK_FALSE(has(line, "http:"));
    CHECK_FALSE(has(line, "www."));
  }
  CHECK(has(words_of(text, SheetFormat::markdown), "<script>h</script> [i](http://x.org)"));

  Plan p = plain();
  for (const char* name : {"1. x", "2) x", "- x", "+ x", "=== x"}) {
    p.recipe.plant.change().name = name;
    CHECK_FALSE(has(run_sheet(p, SheetFormat::markdown), "\n" + std::string(name)));
  }
}

TEST_CASE("names are words in HTML, whatever is in them", "[sheet]") {
  const std::string html = run_sheet(nasty_plan(), SheetFormat::html);
  CHECK_FALSE(has(html, "<script"));
  CHECK_FALSE(has(html, "<!--"));
  CHECK_FALSE(has(html, " & "));
  CHECK_FALSE(has(html, "&amp;lt;/title"));
  CHECK(count(html, "</title>") == 2);  // that of the page and that of the picture
  CHECK(has(html, "&lt;script&gt;h&lt;/script&gt;"));
  CHECK(has(html, "&amp;amp; &amp;lt;"));
  CHECK(unbalanced(html).empty());
}

TEST_CASE("the page is well-formed", "[sheet]") {
  CHECK(unbalanced(run_sheet(plain(), SheetFormat::html)).empty());
  CHECK(unbalanced("<p>a<br>b</p><path d=\"\"/>").empty());
  CHECK(unbalanced("<p><b>a</p></b>") == "</p>");
  CHECK(unbalanced("<p>a") == "p");
  CHECK(unbalanced("<p>a</p") == "a tag without an end");
}
