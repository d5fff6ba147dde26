#include "base/ordered_work.hpp"

#include <atomic>
#include <chrono>
#include <stdexcept>
#include <string>
#include <vector>

#include "catch.hpp"

using namespace firstdrop;

namespace {

// Some pieces take longer than others, so without OrderedWork they would finish in another order.
void take_some_time(int piece) {
  std::this_thread::sleep_for(std::chrono::microseconds(piece * 7919 % 300));
}

void take_some_time_with(int& piece) {
  take_some_time(piece);
}

}  // namespace

TEST_CASE("results come in the order of the work", "[ordered_work]") {
  for (const int workers : {1, 2, 7}) {
    std::vector<int> seen;
    std::atomic<int> in_hand = 0;
    int most = 0;
    OrderedWork<int> work(
        workers, 5,
        [&] {
          return [](int& piece) {
            take_some_time(piece);
            piece *= 2;
          };
        },
        [&](int& piece) {
          most = std::max(most, in_hand--);
          seen.push_back(piece);
        });
    for (int i = 0; i < 300; ++i) {
      work.add(i);
      ++in_hand;
    }
    work.finish();
    REQUIRE(seen.size() == 300);
    for (int i = 0; i < 300; ++i) CHECK(seen[static_cast<std::size_t>(i)] == 2 * i);
    // The limit is 5; the check allows one more.
    CHECK(most <= 6);
  }
}

TEST_CASE("no work is done without a piece", "[ordered_work]") {
  OrderedWork<int> work(
      2, 5, [] { return [](int&) { FAIL("work"); }; }, [](int&) { FAIL("done"); });
  work.finish();
}

TEST_CASE("what a worker throws comes out, and ends it", "[ordered_work]") {
  for (const bool in_work : {true, false}) {
    std::atomic<int> handed_on = 0;
    OrderedWork<int> work(
        2, 3,
        [&] {
          return [&](int& piece) {
            take_some_time(piece);
            if (in_work && piece == 20) throw std::runtime_error("twenty");
          };
        },
        [&](int& piece) {
          if (!in_work && piece == 20) throw std::runtime_error("twenty");
          ++handed_on;
        });
    const auto all = [&] {
      for (int i = 0; i < 1000; ++i) work.add(i);
      work.finish();
    };
    CHECK_THROWS_WITH(all(), "twenty");
    CHECK(handed_on <= 20);
  }
}

TEST_CASE("work that is left behind does not hang, and what is handed on is in order",
          "[ordered_work]") {
  std::vector<int> handed_on;
  {
    OrderedWork<int> work(
        2, 10, [] { return take_some_time_with; }, [&](int& piece) { handed_on.push_back(piece); });
    for (int i = 0; i < 10; ++i) work.add(i);
  }
  for (std::size_t i = 0; i < handed_on.size(); ++i) CHECK(handed_on[i] == static_cast<int>(i));
}
