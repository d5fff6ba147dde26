#include "firstdrop/base/shared.hpp"

#include <atomic>
#include <string>
#include <thread>
#include <vector>

#include "catch.hpp"

using firstdrop::Shared;

TEST_CASE("copies share one place until one of them is changed", "[shared]") {
  Shared<std::string> a = std::string("lavender");
  Shared<std::string> b = a;
  CHECK(a.is_same_as(b));
  b.change() = "peppermint";
  CHECK_FALSE(a.is_same_as(b));
  CHECK(*a == "lavender");
  CHECK(*b == "peppermint");
  // A value that isn't shared is not copied again, so references to it stay valid.
  const std::string* const place = &*b;
  b.change() += " tea";
  CHECK(&*b == place);
  CHECK(b->size() == 14);
}

TEST_CASE("equal values may stand in two places", "[shared]") {
  const Shared<std::string> a = std::string("rose");
  const Shared<std::string> b = std::string("rose");
  CHECK_FALSE(a.is_same_as(b));
  CHECK(static_cast<const std::string&>(a) == static_cast<const std::string&>(b));
}

TEST_CASE("an empty one can be changed without a trace on the others", "[shared]") {
  Shared<std::vector<int>> a;
  const Shared<std::vector<int>> b;
  CHECK(a.is_same_as(b));
  a.change().push_back(1);
  CHECK(b->empty());
  CHECK(Shared<std::vector<int>>()->empty());
}

TEST_CASE("what moved away leaves the other alone", "[shared]") {
  Shared<std::string> a = std::string("sage");
  const Shared<std::string> b = std::move(a);
  CHECK(*b == "sage");
}

TEST_CASE("a copy that is assigned over or moved onto itself stays what it is", "[shared]") {
  Shared<std::string> a = std::string("sage");
  Shared<std::string> b = std::string("rose");
  b = a;
  CHECK(b.is_same_as(a));
  auto& same = a;
  a = same;
  CHECK(*a == "sage");
  a = std::move(same);
  CHECK(*a == "sage");
  CHECK(*b == "sage");
  b = std::string("thyme");
  CHECK(*a == "sage");
  CHECK(*b == "thyme");
}

namespace {

/// Counts how many objects of its type exist.
struct Counted {
  static inline std::atomic<int> alive = 0;
  int value = 0;
  Counted() { ++alive; }
  Counted(const Counted& other) : value(other.value) { ++alive; }
  Counted& operator=(const Counted&) = default;
  ~Counted() { --alive; }
};

}  // namespace

TEST_CASE("a value goes with the last who holds it, by whatever thread", "[shared]") {
  const int before = Counted::alive;
  {
    const Shared<Counted> first{Counted()};
    CHECK(Counted::alive == before + 1);
    std::vector<std::thread> threads;
    std::atomic<int> wrong = 0;
    for (int t = 0; t < 4; ++t) {
      threads.emplace_back([&, mine = first, t]() mutable {
        for (int i = 1; i <= 2000; ++i) {
          const Shared<Counted> kept = mine;
          Shared<Counted> changed = mine;
          changed.change().value = t * 10000 + i;
          if (kept->value != (i - 1 == 0 ? 0 : t * 10000 + i - 1)) ++wrong;
          mine = std::move(changed);
        }
      });
    }
    for (std::thread& thread : threads) thread.join();
    CHECK(wrong == 0);
    CHECK(first->value == 0);
    CHECK(Counted::alive == before + 1);
  }
  CHECK(Counted::alive == before);
}
