// The run as characters: no wider than the terminal, ASCII where it must be, and true to the plan.
#include "cli/pages/plan_chart.hpp"

#include <algorithm>
#include <cstdlib>
#include <optional>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "base/text_layout.hpp"
#include "catch.hpp"
#include "firstdrop/plan/planner.hpp"
#include "property/random_recipe.hpp"
#include "test_stills.hpp"
#include "test_tables.hpp"

using namespace firstdrop;
using namespace test_stills;
using cli::Look;
using cli::plan_chart;
using test_random::Random;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

Look look(int width, bool ascii) {
  Look l;
  l.width = width;
  l.ascii = ascii;
  return l;
}

bool is_ascii(const std::string& text) {
  for (const char c : text) {
    if (c != '\n' && (c < ' ' || c > '~')) return false;
  }
  return true;
}

/// Checks the curves of an ASCII chart: the pot water never rises, the hydrosol never falls, and no
/// column lacks pot water.
void is_true(const std::string& chart) {
  const std::vector<std::string> lines = lines_of(chart);
  REQUIRE(lines.size() > 11);
  // The names at the right end begin in the same column in all lines. The axis ends before it.
  const std::size_t axis = lines[0].find_first_of("|+");
  REQUIRE(axis != std::string::npos);
  const std::size_t end = lines[9].compare(axis - 4, 3, "oil") == 0 || lines[9][axis] == '|'
                              ? lines[10].size()
                              : lines[9].size();
  int water = 0;
  int hydrosol = 8;
  bool dripping = false;
  for (std::size_t x = axis + 1; x < end; ++x) {
    std::optional<int> w;
    std::optional<int> h;
    for (int row = 0; row < 9; ++row) {
      const std::string& line = lines[static_cast<std::size_t>(row)];
      const char c = x < line.size() ? line[x] : ' ';
      if (c == 'w' || c == '*') w = row;
      if (c == 'h' || c == '*') h = row;
    }
    CAPTURE(x, chart);
    REQUIRE(w);
    REQUIRE(*w >= water);
    water = *w;
    if (h) {
      REQUIRE(*h <= hydrosol);
      hydrosol = *h;
      dripping = true;
    } else {
      REQUIRE_FALSE(dripping);
    }
  }
}

/// Checks the upper edge of all dots of the braille chart, column by column. It falls with the pot
/// water until the hydrosol is above it, and rises from then on.
void has_true_dots(const std::string& chart) {
  const std::vector<std::string> lines = lines_of(chart);
  REQUIRE(lines.size() > 11);
  std::vector<int> top;
  for (int row = 0; row < 9; ++row) {
    const std::string& line = lines[static_cast<std::size_t>(row)];
    std::size_t at = std::min(line.find("│"), line.find("┤"));
    REQUIRE(at != std::string::npos);
    at += 3;
    for (std::size_t cell = 0; at < line.size(); ++cell) {
      const auto lead = static_cast<unsigned char>(line[at]);
      const std::size_t bytes = lead < 0x80 ? 1 : 3;
      unsigned bits = 0;
      if (lead == 0xE2 && (static_cast<unsigned char>(line[at + 1]) & 0xFCU) == 0xA0U) {
        bits = ((static_cast<unsigned char>(line[at + 1]) & 3U) << 6U) |
               (static_cast<unsigned char>(line[at + 2]) & 0x3FU);
      }
      at += bytes;
      // Dots 1 2 3 7 on the left and 4 5 6 8 on the right are these bits.
      const unsigned order[2][4] = {{0, 1, 2, 6}, {3, 4, 5, 7}};
      for (std::size_t side = 0; side < 2; ++side) {
        for (int dot = 0; dot < 4; ++dot) {
          if ((bits >> order[side][dot] & 1U) == 0) continue;
          const std::size_t x = 2 * cell + side;
          if (top.size() <= x) top.resize(x + 1, 99);
          top[x] = std::min(top[x], 4 * row + dot);
        }
      }
    }
  }
  REQUIRE(top.size() > 40);
  bool rising = false;
  for (std::size_t x = 0; x < top.size(); ++x) {
    CAPTURE(x, chart);
    REQUIRE(top[x] < 36);
    if (x == 0) continue;
    if (top[x] < top[x - 1]) rising = true;
    REQUIRE((top[x] == top[x - 1] || (top[x] < top[x - 1]) == rising));
  }
}

void is_sound(const Plan& plan) {
  for (const int width : {60, 80, 100, 200}) {
    for (const bool ascii : {false, true}) {
      const std::string chart = plan_chart(plan, look(width, ascii));
      CAPTURE(width, ascii, chart);
      for (const std::string& line : lines_of(chart)) {
        CHECK(text_width(line) <= std::min(width, 100));
        CHECK((line.empty() || line.back() != ' '));
      }
      CHECK(is_ascii(chart) == ascii);
      if (ascii) {
        is_true(chart);
      } else {
        has_true_dots(chart);
      }
    }
  }
}

Recipe column_recipe(Volume hydrosol = millilitres(500)) {
  return recipe(herb(), iced_still(litres(1), litres(6), kilograms(1)), HydrosolGoal{hydrosol});
}

class Environment {
 public:
  explicit Environment(const std::vector<std::pair<std::string, std::string>>& wanted) {
    for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG", "TERM"}) {
      const char* value = std::getenv(name);
      before_.emplace_back(name, value ? std::optional<std::string>(value) : std::nullopt);
      unsetenv(name);
    }
    for (const auto& [name, value] : wanted) setenv(name.c_str(), value.c_str(), 1);
  }
  ~Environment() {
    for (const auto& [name, value] : before_) {
      if (value)
        setenv(name.c_str(), value->c_str(), 1);
      else
        unsetenv(name.c_str());
    }
  }
  Environment(const Environment&) = delete;
  Environment& operator=(const Environment&) = delete;

 private:
  std::vector<std::pair<std::string, std::optional<std::string>>> before_;
};

bool ascii_in(const std::vector<std::pair<std::string, std::string>>& environment) {
  const Environment set(environment);
  return cli::only_ascii();
}

}  // namespace

TEST_CASE("a chart names its curves and events", "[chart]") {
  const Plan p = plan(column_recipe());
  REQUIRE(p.run);
  is_sound(p);
  for (const bool ascii : {false, true}) {
    const std::string chart = plan_chart(p, look(80, ascii));
    for (const char* words : {"pot water ", "hydrosol 500 mL", "reserve ", "oil", "heat on",
                              "boils ", "first drop ", "stop ", " min"}) {
      CAPTURE(words, chart);
      CHECK(chart.find(words) != std::string::npos);
    }
  }
}

TEST_CASE("colour adds nothing that is not there without it", "[chart]") {
  const Plan p = plan(column_recipe());
  Look coloured = look(80, false);
  coloured.colour = true;
  std::string bare;
  const std::string chart = plan_chart(p, coloured);
  for (std::size_t i = 0; i < chart.size(); ++i) {
    if (chart[i] == '\x1b')
      i = chart.find('m', i);
    else
      bare += chart[i];
  }
  CHECK(bare == plan_chart(p, look(80, false)));
  CHECK(chart != bare);
}

TEST_CASE("a chart speaks the bench's units", "[chart]") {
  Recipe r = column_recipe(millilitres(600));
  r.units = Units::us;
  const Plan p = plan(r);
  is_sound(p);
  CHECK(plan_chart(p, look(80, true)).find("fl oz") != std::string::npos);
}

TEST_CASE("a refused plan has no chart", "[chart]") {
  CHECK_THROWS_AS(plan_chart(plan(column_recipe(litres(50))), look(80, false)), RefusedError);
}

TEST_CASE("every random recipe makes a sound chart", "[chart]") {
  int drawn = 0;
  for (std::uint64_t i = 0; drawn < 200; ++i) {
    REQUIRE(i < 20000);
    Random random(0xD1B54A32D192ED03U * (i + 1));
    auto r =
        random_recipe::read(random_recipe::document(random, shipped_tables()), shipped_tables());
    if (!r) continue;
    const auto p = random_recipe::planned(*r, shipped_tables(), 8);
    if (!p || !p->may_be_run()) continue;
    CAPTURE(i);
    is_sound(*p);
    ++drawn;
  }
}

TEST_CASE("the locale says whether there is more than ASCII", "[chart]") {
  CHECK(ascii_in({}));
  CHECK(ascii_in({{"LANG", "C"}}));
  CHECK(ascii_in({{"LANG", "de_AT.ISO-8859-1"}}));
  CHECK_FALSE(ascii_in({{"LANG", "de_AT.UTF-8"}}));
  CHECK_FALSE(ascii_in({{"LANG", "de_AT.utf8@euro"}}));
  CHECK_FALSE(ascii_in({{"LC_CTYPE", "C.UTF-8"}, {"LANG", "C"}}));
  CHECK(ascii_in({{"LC_ALL", "C"}, {"LC_CTYPE", "C.UTF-8"}, {"LANG", "C.UTF-8"}}));
  CHECK_FALSE(ascii_in({{"LC_ALL", ""}, {"LANG", "C.UTF-8"}}));
  CHECK(ascii_in({{"LANG", "C.UTF-8"}, {"TERM", "dumb"}}));
}
