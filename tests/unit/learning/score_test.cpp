#include "learning/score.hpp"

#include <cmath>

#include "catch.hpp"

using namespace firstdrop;

namespace {

struct Percentages {
  double low;
  double typical;
  double high;
  ScoreOf kind;
};

}  // namespace

TEST_CASE("a score curve goes through the three percentiles", "[learning]") {
  for (const Percentages& p :
       {Percentages{0.55, 0.74, 0.80, ScoreOf::share}, Percentages{6.8, 8.0, 8.8, ScoreOf::ratio},
        Percentages{11, 20, 40, ScoreOf::ratio}, Percentages{30, 90, 150, ScoreOf::difference},
        Percentages{5, 5, 5, ScoreOf::ratio}}) {
    const ScoreCurve curve(p.low, p.typical, p.high, p.kind);
    CAPTURE(p.low, p.typical, p.high);
    CHECK(curve.keeps_percentiles());
    CHECK_THAT(curve.at(-score_of_p90), WithinRel(p.low, 1e-12));
    CHECK_THAT(curve.at(0), WithinRel(p.typical, 1e-12));
    CHECK_THAT(curve.at(score_of_p90), WithinRel(p.high, 1e-12));
  }
}

TEST_CASE("a score curve rises everywhere, even where the median is at an end", "[learning]") {
  for (const Percentages& p :
       {Percentages{0.60, 0.80, 0.80, ScoreOf::share}, Percentages{7, 7, 9, ScoreOf::ratio},
        Percentages{0.55, 0.74, 0.80, ScoreOf::share}}) {
    const ScoreCurve curve(p.low, p.typical, p.high, p.kind);
    double before = curve.at(-8);
    for (double score = -7.9; score < 8; score += 0.1) {
      CHECK(curve.at(score) > before);
      before = curve.at(score);
    }
  }
  const ScoreCurve at_its_end(7, 7, 9, ScoreOf::ratio);
  CHECK_FALSE(at_its_end.keeps_percentiles());
  CHECK_THAT(at_its_end.at(0), WithinRel(7.0, 1e-12));
  // The distance between P10 and P90 stays.
  CHECK_THAT(at_its_end.at(score_of_p90) / at_its_end.at(-score_of_p90), WithinRel(9.0 / 7, 1e-12));
}

TEST_CASE("shares stay below one and differences above zero at any score", "[learning]") {
  const ScoreCurve share(0.94, 0.97, 0.985, ScoreOf::share);
  CHECK(share.at(6) < 1.0);
  CHECK(share.at(-6) > 0.0);
  const ScoreCurve difference(0, 5, 15, ScoreOf::difference);
  CHECK(difference.at(-6) == 0.0);
  CHECK(difference.at(6) > 15.0);
}
