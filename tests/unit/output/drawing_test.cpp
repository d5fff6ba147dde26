// Marks on axes, widths of text, places for labels.
#include "output/drawing.hpp"

#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "catch.hpp"
#include "test_random.hpp"

using namespace firstdrop;
using Catch::Matchers::WithinAbs;
using test_random::Random;

namespace {

void are(const std::vector<double>& marks, const std::vector<double>& wanted) {
  REQUIRE(marks.size() == wanted.size());
  for (std::size_t i = 0; i < marks.size(); ++i) CHECK_THAT(marks[i], WithinAbs(wanted[i], 1e-9));
}

}  // namespace

TEST_CASE("marks are round and cover the range", "[drawing]") {
  are(round_marks(0, 1.94, 5), {0, 0.5, 1, 1.5, 2});
  are(round_marks(0, 2, 5), {0, 0.5, 1, 1.5, 2});
  are(round_marks(0, 2.001, 5), {0, 1, 2, 3});
  are(round_marks(14, 35, 3), {0, 20, 40});
  are(round_marks(14, 35, 4), {10, 20, 30, 40});
  are(round_marks(-3, 4, 3), {-5, 0, 5});
  are(round_marks(0, 0.031, 3), {0, 0.02, 0.04});
  are(round_marks(35, 35, 3), {35, 35.5, 36});
}

TEST_CASE("marks cover any range, in no more than asked for, at steps of 1, 2 or 5", "[drawing]") {
  Random random(41);
  for (int i = 0; i < 2000; ++i) {
    const double low = random.chance(0.5) ? 0.0 : random.between(-50, 100);
    const double high = low + random.log_uniform(1e-3, 1e5);
    const std::size_t most = 3 + random.below(5);
    const auto marks = round_marks(low, high, most);
    CAPTURE(low, high, most);
    REQUIRE(marks.size() >= 2);
    REQUIRE(marks.size() <= most);
    const double step = marks[1] - marks[0];
    CHECK(marks.front() <= low + 1e-6 * step);
    CHECK(marks.back() >= high - 1e-6 * step);
    const double digit = step / std::pow(10.0, std::floor(std::log10(step) + 1e-9));
    const double off = std::min({std::abs(digit - 1), std::abs(digit - 2), std::abs(digit - 5)});
    CHECK(off < 1e-5);
  }
}

TEST_CASE("time is marked at steps of a clock", "[drawing]") {
  are(minute_marks(66, 12), {0, 10, 20, 30, 40, 50, 60});
  are(minute_marks(66, 6), {0, 15, 30, 45, 60});
  are(minute_marks(8, 12), {0, 1, 2, 3, 4, 5, 6, 7, 8});
  are(minute_marks(600, 12), {0, 60, 120, 180, 240, 300, 360, 420, 480, 540, 600});
  are(minute_marks(0.5, 12), {0});
  CHECK(minute_marks(1e6, 12).size() <= 12);
}

TEST_CASE("as many decimals as tell marks apart", "[drawing]") {
  CHECK(decimals_for(20) == 0);
  CHECK(decimals_for(1) == 0);
  CHECK(decimals_for(0.5) == 1);
  CHECK(decimals_for(0.1) == 1);
  CHECK(decimals_for(0.02) == 2);
}

TEST_CASE("widths are those of a wide sans serif", "[drawing]") {
  // DejaVu Sans: the advance of 0 is 1303 of 2048 units, that of m is 1995, that of i is 569.
  CHECK_THAT(line_width("0", 10), WithinAbs(10 * 1303.0 / 2048, 0.01));
  CHECK_THAT(line_width("mi", 10), WithinAbs(10 * (1995.0 + 569.0) / 2048, 0.01));
  CHECK_THAT(line_width("°", 10), WithinAbs(10, 1e-9));
  CHECK(line_width("", 10) == 0.0);
}

TEST_CASE("a line crosses a frame or does not", "[drawing]") {
  const Frame frame{10, 10, 20, 15};
  CHECK(crosses(frame, {0, 12}, {30, 12}));
  CHECK(crosses(frame, {12, 12}, {13, 13}));
  CHECK(crosses(frame, {15, 0}, {15, 40}));
  CHECK(crosses(frame, {8, 12}, {12, 8}) == false);
  CHECK(crosses(frame, {0, 10}, {30, 10}) == false);  // along its edge
  CHECK(crosses(frame, {0, 9}, {30, 9}) == false);
  CHECK(crosses(frame, {0, 0}, {9, 9}) == false);
  CHECK(crosses(frame, {0, 5}, {30, 20}));
}

TEST_CASE("a polygon is hatched inside and nowhere else", "[drawing]") {
  // A square with sides of 10. Its lines are 10 / sqrt 2 long on average, in either direction.
  const std::vector<Spot> square = {{0, 0}, {10, 0}, {10, 10}, {0, 10}};
  for (const bool rising : {true, false}) {
    const auto lines = hatching(square, rising, 1.0);
    // One line for each step of 1 along the diagonal of 14.14.
    CHECK(lines.size() >= 13);
    CHECK(lines.size() <= 15);
    double length = 0.0;
    for (const Stretch& s : lines) {
      CHECK(s.from.x <= s.to.x);
      CHECK_THAT(s.to.y - s.from.y, WithinAbs((rising ? -1 : 1) * (s.to.x - s.from.x), 1e-9));
      for (const Spot p : {s.from, s.to}) {
        CHECK((p.x > -1e-9 && p.x < 10 + 1e-9 && p.y > -1e-9 && p.y < 10 + 1e-9));
      }
      length += std::hypot(s.to.x - s.from.x, s.to.y - s.from.y);
    }
    // The total length of lines 1 apart equals the area they cover.
    CHECK_THAT(length, WithinAbs(100, 2));
  }
  // A notch isn't hatched.
  const std::vector<Spot> notched = {{0, 0}, {4, 0},  {4, 8},   {6, 8},
                                     {6, 0}, {10, 0}, {10, 10}, {0, 10}};
  for (const Stretch& s : hatching(notched, true, 1.0))
    CHECK_FALSE(crosses({4, 0, 6, 8}, s.from, s.to));
  CHECK(hatching({{0, 0}, {5, 5}}, true, 1.0).empty());
}

TEST_CASE("a label takes the first free place, or the nearest one", "[drawing]") {
  LabelPlaces places({0, 0, 100, 40});
  places.keep_off({0, 20}, {100, 20});
  const auto first = places.take(30, 10, {{5, 15}, {5, 8}});
  REQUIRE(first);
  CHECK(first->top == 8.0);
  // That place is taken now, so the nearest free one is beside it.
  const auto second = places.take(30, 10, {{5, 8}});
  REQUIRE(second);
  CHECK_FALSE(second->overlaps(*first));
  CHECK_FALSE(crosses(*second, {0, 20}, {100, 20}));
  // A label crosses the line only where there is no other room.
  places.keep_off(Frame{0, 0, 100, 19});
  places.keep_off(Frame{0, 21, 100, 40});
  CHECK_FALSE(places.take(30, 10, {{5, 8}}));
  CHECK(places.take(30, 2, {{5, 8}}));
  CHECK_FALSE(LabelPlaces({0, 0, 20, 40}).take(30, 10, {{0, 0}}));
}

TEST_CASE("labels cover no other, whatever is asked for", "[drawing]") {
  Random random(42);
  for (int i = 0; i < 300; ++i) {
    const Frame panel{0, 0, 300, 80};
    LabelPlaces places(panel);
    std::vector<Frame> taken;
    for (int k = 0; k < 8; ++k) {
      places.keep_off({random.between(0, 300), random.between(0, 80)},
                      {random.between(0, 300), random.between(0, 80)});
      const auto frame = places.take(random.between(10, 120), 10,
                                     {{random.between(-20, 300), random.between(-20, 80)}});
      if (!frame) continue;
      CHECK(panel.holds(*frame));
      for (const Frame& other : taken) CHECK_FALSE(frame->overlaps(other));
      taken.push_back(*frame);
    }
    CHECK(taken.size() >= 5);
  }
}

TEST_CASE("flags stand in rows, and poles between them", "[drawing]") {
  // All are near the left edge: the farther to the right, the lower the row.
  const auto places = place_flags({{3, 40}, {2, 40}, {0, 40}}, 0, 200, 3, 4);
  for (const auto& p : places) REQUIRE(p);
  CHECK(places[0]->row == 0);
  CHECK(places[1]->row == 1);
  CHECK(places[2]->row == 2);
  // In a single row, only the first ones get a place.
  const auto one_row = place_flags({{50, 40}, {60, 40}, {150, 40}}, 0, 200, 1, 4);
  CHECK(one_row[0]);
  CHECK(one_row[1]);  // to the right of its pole
  CHECK(one_row[2]);
  CHECK_FALSE(place_flags({{40, 40}, {52, 140}, {150, 40}}, 0, 200, 1, 4)[2]);
  CHECK_FALSE(place_flags({{50, 300}}, 0, 200, 3, 4)[0]);
  CHECK_FALSE(place_flags({{250, 20}}, 0, 200, 3, 4)[0]);
}

TEST_CASE("flags overlap neither flags nor poles", "[drawing]") {
  Random random(43);
  std::size_t placed = 0;
  std::size_t wanted = 0;
  for (int i = 0; i < 400; ++i) {
    const int rows = 1 + static_cast<int>(random.below(3));
    std::vector<Flag> flags;
    const std::size_t count = 1 + random.below(12);
    for (std::size_t k = 0; k < count; ++k)
      flags.push_back({random.between(20, 400), random.between(10, 90)});
    const auto places = place_flags(flags, 0, 420, rows, 5);
    REQUIRE(places.size() == count);
    wanted += count;
    for (std::size_t k = 0; k < count; ++k) {
      if (!places[k]) continue;
      ++placed;
      const double left = places[k]->left;
      CHECK(left >= 0.0);
      CHECK(left + flags[k].width <= 420.0);
      CHECK(places[k]->row < rows);
      CHECK(flags[k].x >= left - 1e-9);
      CHECK(flags[k].x <= left + flags[k].width + 1e-9);
      for (std::size_t other = 0; other < count; ++other) {
        if (other == k || !places[other]) continue;
        if (places[other]->row == places[k]->row) {
          CHECK((left + flags[k].width + 5 <= places[other]->left + 1e-9 ||
                 places[other]->left + flags[other].width + 5 <= left + 1e-9));
        } else if (places[other]->row > places[k]->row) {
          const double pole = flags[other].x;
          CHECK((pole < left || pole > left + flags[k].width));
        }
      }
    }
  }
  // The test is only useful if most flags find a place.
  CHECK(placed > wanted / 2);
}
