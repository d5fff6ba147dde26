#include "firstdrop/shared.hpp"

#include <string>
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
  // What is its own already is not copied again: references to it stay good.
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
