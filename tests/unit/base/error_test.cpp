#include "firstdrop/base/error.hpp"

#include "base/visible_text.hpp"
#include "catch.hpp"
#include "firstdrop/tables/plant.hpp"
#include "firstdrop/tables/still.hpp"

using namespace firstdrop;

namespace {

Fault gram_fault() {
  Fault fault;
  fault.file = "hedge.json";
  fault.pointer = "/charge";
  fault.found = "\"260 gr\"";
  fault.wanted = "a mass";
  fault.hint = "did you mean \"260 g\"?";
  return fault;
}

}  // namespace

TEST_CASE("a fault is one line: place, what was found, what would do, a way out", "[error]") {
  CHECK(gram_fault().text() ==
        "hedge.json: charge: Found \"260 gr\". Write a mass. Did you mean \"260 g\"?");
}

TEST_CASE("a fault leaves out what it does not know", "[error]") {
  Fault fault = gram_fault();
  fault.hint.clear();
  CHECK(fault.text() == "hedge.json: charge: Found \"260 gr\". Write a mass.");
  fault.file.clear();
  CHECK(fault.text() == "charge: Found \"260 gr\". Write a mass.");
  fault.pointer.clear();
  CHECK(fault.text() == "Found \"260 gr\". Write a mass.");
  fault.found.clear();
  CHECK(fault.text() == "Write a mass.");
  fault.wanted.clear();
  CHECK(fault.text().empty());
  fault.hint = "try again";
  CHECK(fault.text() == "Try again.");
  fault.file = "hedge.json";
  CHECK(fault.text() == "hedge.json: Try again.");
}

TEST_CASE("line and column stand behind the file", "[error]") {
  Fault fault;
  fault.file = "hedge.json";
  fault.found = "a comma";
  fault.line = 3;
  CHECK(fault.text() == "hedge.json:3: Found a comma.");
  fault.column = 14;
  CHECK(fault.text() == "hedge.json:3:14: Found a comma.");
  fault.file.clear();
  CHECK(fault.text() == "line 3, column 14: Found a comma.");
}

TEST_CASE("a fault names its key as people spell it", "[error]") {
  const auto at = [](const std::string& pointer) {
    Fault fault;
    fault.pointer = pointer;
    fault.found = "3";
    return fault.text();
  };
  CHECK(at("/goal/hydrosol") == "goal: hydrosol: Found 3.");
  CHECK(at("/work/1/wanted/oil") == "work, item 2: wanted: oil: Found 3.");
  CHECK(at("/a/0/11") == "a, item 1, item 12: Found 3.");
  CHECK(at("/0") == "0: Found 3.");  // a document is never a list
  CHECK(at("/a~1b/c~0d/x: y/") == "\"a/b\": \"c~d\": \"x: y\": \"\": Found 3.");
}

TEST_CASE("a fault of a key names the object around it", "[error]") {
  Fault fault;
  fault.file = "hedge.json";
  fault.pointer = "/still/pot";
  fault.found = "nothing";
  fault.wanted = "the pot";
  CHECK(fault.is_about_key());
  CHECK(fault.text() == "hedge.json: still: The key \"pot\" is missing. Write the pot.");
  fault.found = "nothing, which means 1 L";
  CHECK(fault.text() ==
        "hedge.json: still: The key \"pot\" is missing, which means 1 L. Write the pot.");
  fault.found = "the unknown key \"pot\"";
  CHECK(fault.text() == "hedge.json: still: Found the unknown key \"pot\". Write the pot.");
  fault.pointer = "/pot";
  CHECK(fault.text() == "hedge.json: Found the unknown key \"pot\". Write the pot.");
  fault.found = "\"nothing\"";
  CHECK_FALSE(fault.is_about_key());
  CHECK(fault.text() == "hedge.json: pot: Found \"nothing\". Write the pot.");
  fault.file.clear();
  fault.pointer = "--still";
  fault.found = "nothing";
  CHECK(fault.text() == "The option --still is missing. Write the pot.");
  fault.pointer.clear();
  CHECK(fault.text() == "Found nothing. Write the pot.");
}

TEST_CASE("a capital letter makes a sentence of its own", "[error]") {
  Fault fault;
  fault.file = "hedge.json";
  fault.found = "No such file";
  fault.wanted = "Name a file that can be read";
  CHECK(fault.text() == "hedge.json: No such file. Name a file that can be read.");
}

TEST_CASE("a fault stays on its line whatever the file holds", "[error]") {
  Fault fault = gram_fault();
  fault.file = "a\nb.json";
  fault.pointer = "/key\x1b[31m";
  fault.found = "line\r\nbreak \xff";
  CHECK(fault.text() ==
        "a\\nb.json: \"key\\u001b[31m\": Found line\\r\\nbreak \\xff. Write a mass. "
        "Did you mean \"260 g\"?");
}

TEST_CASE("an input error carries every fault", "[error]") {
  Fault second = gram_fault();
  second.pointer = "/water";
  const InputError error({gram_fault(), second});
  REQUIRE(error.faults().size() == 2);
  CHECK(error.faults()[1].pointer == "/water");
  CHECK(std::string(error.what()) == gram_fault().text() + "\n" + second.text());

  const InputError single(gram_fault());
  CHECK(single.faults().size() == 1);
  CHECK(single.what() == gram_fault().text());

  CHECK_FALSE(std::string(InputError(std::vector<Fault>{}).what()).empty());
}

TEST_CASE("the nearest name", "[error]") {
  const std::vector<std::string> keys{"charge", "bulk_density", "hydrosol", "water", "own"};
  CHECK(nearest_name("chrage", keys) == "charge");  // two neighbours swapped: two replacements
  CHECK(nearest_name("Charge", keys) == "charge");
  CHECK(nearest_name("bulk-density", keys) == "bulk_density");
  CHECK(nearest_name("BULK-DENSITY", keys) == "bulk_density");
  CHECK(nearest_name("bulk-density", {"bulk-densitx", "bulk_density"}) == "bulk_density");
  CHECK(nearest_name("hydrosl", keys) == "hydrosol");
  CHECK(nearest_name("waters", keys) == "water");
}

TEST_CASE("near is two edits, or a third of a long word", "[error]") {
  CHECK(nearest_name("waxxr", {"water"}) == "water");  // two replacements
  CHECK(nearest_name("xxxer", {"water"}).empty());     // three replacements in five letters
  // In a word of twelve letters, four edits are near but five are not.
  CHECK(nearest_name("xxxx_density", {"bulk_density"}) == "bulk_density");
  CHECK(nearest_name("xxxxxdensity", {"bulk_density"}).empty());
  // The difference in length alone can be too large.
  CHECK(nearest_name("wat", {"water_density"}).empty());
}

TEST_CASE("of two near names the nearer, of equals the first", "[error]") {
  CHECK(nearest_name("lavendr", {"lavandin", "lavender"}) == "lavender");
  CHECK(nearest_name("oi", {"oil", "oin"}) == "oil");
  CHECK(nearest_name("oi", {"oin", "oil"}) == "oin");
}

TEST_CASE("no name is near when there is nothing in common", "[error]") {
  CHECK(nearest_name("x", {"g", "kg"}).empty());
  CHECK(nearest_name("", {"g", "own"}).empty());
  CHECK(nearest_name("water", {}).empty());

  // A part of a single name.
  CHECK(nearest_name("steel", {"copper", "stainless-steel"}) == "stainless-steel");
  CHECK(nearest_name("mint", {"peppermint", "spearmint"}).empty());
  CHECK(nearest_name("gas", {"gas-burner", "immersed-element"}).empty());  // too short to tell
}

TEST_CASE("what does not show is written out", "[error]") {
  CHECK(visible("plain °C, m², 日本") == "plain °C, m², 日本");
  CHECK(visible("\n\r\t") == "\\n\\r\\t");
  CHECK(visible(std::string_view("\0\x1b\x7f", 3)) == "\\u0000\\u001b\\u007f");
  CHECK(visible("5\u00a0g") == "5\\u00a0g");
  CHECK(visible("\u202e\u200b\ufeff\u2028") == "\\u202e\\u200b\\ufeff\\u2028");
  CHECK(visible("\U000e0041") == "\\U000e0041");
  CHECK(visible("\U0001f33f") == "\U0001f33f");
}

TEST_CASE("bytes that are not UTF-8 are written out one by one", "[error]") {
  CHECK(visible("a\xff"
                "b") == "a\\xffb");
  CHECK(visible("\xc2") == "\\xc2");           // cut off
  CHECK(visible("\xe2\x82") == "\\xe2\\x82");  // cut off
  CHECK(visible("\xc0\xaf") == "\\xc0\\xaf");  // overlong form
  CHECK(visible("\xe0\x80\xaf") == "\\xe0\\x80\\xaf");
  CHECK(visible("\xe0\x9f\xbf") == "\\xe0\\x9f\\xbf");
  CHECK(visible("\u0800\ud7ff\U00010000") == "\u0800\ud7ff\U00010000");
  CHECK(visible("\xf0\x80\x80\xaf") == "\\xf0\\x80\\x80\\xaf");
  CHECK(visible("\xed\xa0\x80") == "\\xed\\xa0\\x80");           // a surrogate
  CHECK(visible("\xf4\x90\x80\x80") == "\\xf4\\x90\\x80\\x80");  // above U+10FFFF
  CHECK(visible("\xe2g\x80") == "\\xe2g\\x80");
}

TEST_CASE("written out twice is written out once", "[error]") {
  const std::string once = firstdrop::quoted("a \"b\" \\ \n \xff");
  CHECK(once == R"("a \"b\" \\ \n \xff")");
  CHECK(visible(once) == once);
}

TEST_CASE("a quotation is cut by characters, not bytes", "[error]") {
  CHECK(firstdrop::quoted(std::string(60, 'a')) == "\"" + std::string(60, 'a') + "\"");
  CHECK(firstdrop::quoted(std::string(61, 'a')) == "\"" + std::string(60, 'a') + "…\"");
  CHECK(firstdrop::quoted("°°°°", 3) == "\"°°°…\"");
}

TEST_CASE("names of the choices as they stand in files", "[error]") {
  CHECK(to_string(Method::steam) == "steam");
  CHECK(to_string(Method::water_and_steam) == "water-and-steam");
  CHECK(to_string(Method::hydro) == "hydro");
  CHECK(to_string(State::fresh) == "fresh");
  CHECK(to_string(State::wilted) == "wilted");
  CHECK(to_string(State::dried) == "dried");
  CHECK(to_string(Cut::whole) == "whole");
  CHECK(to_string(Cut::chopped) == "chopped");
  CHECK(to_string(Cut::crushed) == "crushed");
  CHECK(to_string(Cut::ground) == "ground");
  CHECK(to_string(HeaterKind::electric_plate) == "electric-plate");
  CHECK(to_string(HeaterKind::induction_plate) == "induction-plate");
  CHECK(to_string(HeaterKind::immersed_element) == "immersed-element");
  CHECK(to_string(HeaterKind::gas_burner) == "gas-burner");
  CHECK(to_string(CondenserKind::ice_bath) == "ice-bath");
  CHECK(to_string(CondenserKind::reservoir) == "reservoir");
  CHECK(to_string(CondenserKind::run_through) == "run-through");
}

TEST_CASE("text that came from outside stays text in markup", "[visible_text]") {
  CHECK(as_markup("Rose & <b>thyme</b>, \"first\" cut") ==
        "Rose &amp; &lt;b&gt;thyme&lt;/b&gt;, &quot;first&quot; cut");
  CHECK(as_markup("18 °C") == "18 °C");
  CHECK(as_markup("a\nb\x1b") == "a\\nb\\u001b");
  CHECK(as_markup("\xEF\xBF\xBE|\xEF\xBF\xBF") == "?|?");  // not allowed: XML 1.0, 2.2
}
