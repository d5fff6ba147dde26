// Names that a person may have meant. The names are those of well-known herbs, and the expected
// order follows from the edits, counted by hand beside each.
#include "base/suggestion.hpp"

#include <string>
#include <vector>

#include "catch.hpp"

using namespace firstdrop;

namespace {

const std::vector<KnownName>& herbs() {
  static const std::vector<KnownName> all = {
      {"german-chamomile", {"German chamomile", "Matricaria chamomilla"}},
      {"lavandin", {"Lavandula x intermedia"}},
      {"lavender", {"Lavandula angustifolia", "true lavender"}},
      {"peppermint", {"Mentha x piperita"}},
      {"rosemary", {"Salvia rosmarinus"}},
      {"sage", {"Salvia officinalis"}},
      {"scots-pine", {"Scots pine"}},
      {"spearmint", {"Mentha spicata"}},
      {"sweet-marjoram", {"knotted marjoram"}},
  };
  return all;
}

using Names = std::vector<std::string>;

struct Meant {
  const char* word;
  Names names;
};

}  // namespace

TEST_CASE("near names, the nearest first", "[suggestion]") {
  const std::vector<Meant> cases = {
      {"lavendar", {"lavender", "lavandin"}},    // one edit; three edits
      {"mint", {"peppermint", "spearmint"}},     // a part of both; "pine" is two edits away
      {"chamomile", {"german-chamomile"}},       // a part
      {"camomile", {"german-chamomile"}},        // one edit from a part
      {"marjorm", {"sweet-marjoram"}},           // likewise
      {"Knotted_Marjoram", {"sweet-marjoram"}},  // its other name, in another spelling
      {"Lavandula", {"lavandin", "lavender"}},   // a part of both botanical names
      {"saeg", {"sage"}},                        // two letters swapped: two edits
      {"sage leaf", {"sage"}},                   // contains the name
      {"SALVIA", {"rosemary", "sage"}},          // a part, in the order of the list
      {"foo", {}},
      {"xq", {}},
      {"", {}},
  };
  for (const Meant& meant : cases) {
    CAPTURE(meant.word);
    CHECK(near_names(meant.word, herbs()) == meant.names);
  }
}

TEST_CASE("no more than three names are near", "[suggestion]") {
  const std::vector<KnownName> four = {{"mint-a"}, {"mint-b"}, {"mint-c"}, {"mint-d"}};
  CHECK(near_names("mint", four) == Names{"mint-a", "mint-b", "mint-c"});
}

TEST_CASE("names much farther away than the nearest are left out", "[suggestion]") {
  // In 16 letters six edits are few. The second name is three edits farther away than the first.
  const std::vector<KnownName> two = {{"abcdefghijklmnoX"}, {"abcdefghijkXXXXp"}};
  CHECK(near_names("abcdefghijklmnop", two) == Names{"abcdefghijklmnoX"});
  CHECK(near_names("abcdefghijklmnop", {two[1]}) == Names{"abcdefghijkXXXXp"});
}

TEST_CASE("the hint names what is near, and the command that lists all", "[suggestion]") {
  CHECK(did_you_mean("lavendar", herbs(), "firstdrop plants") ==
        "did you mean \"lavender\" or \"lavandin\"? Run `firstdrop plants` to list all");
  CHECK(did_you_mean("foo", herbs(), "firstdrop plants") == "run `firstdrop plants` to list all");
  CHECK(did_you_mean("mint", {{"mint-a"}, {"mint-b"}, {"mint-c"}}, "firstdrop plants") ==
        "did you mean \"mint-a\", \"mint-b\" or \"mint-c\"? Run `firstdrop plants` to list all");
}

TEST_CASE("names are compared without case, blanks and underscores", "[suggestion]") {
  CHECK(plain_name("Salvia_Rosmarinus, Spenn") == "salvia-rosmarinus--spenn");
}
