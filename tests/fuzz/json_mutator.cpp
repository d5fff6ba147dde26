// Mutates JSON by its structure, so that the search gets past the parser. Most faults in a plan can
// only be reached by a text that the readers accept. One change in eight is libFuzzer's own change
// of bytes.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <nlohmann/json.hpp>
#include <random>
#include <string>
#include <string_view>
#include <vector>

// libFuzzer defines this name and signature, and those of the two functions at the end.
extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t max_size);

namespace {

using Json = nlohmann::ordered_json;
using Random = std::minstd_rand;

constexpr std::array units = {"g",      "kg",  "oz/qt", "gal/min", "ft2",   "mg",   "lb",
                              "mL",     "L",   "fl oz", "cup",     "°C",    "°F",   "K",
                              "W",      "kW",  "s",     "min",     "h",     "mm",   "cm",
                              "m",      "m2",  "cm2",   "Pa",      "kPa",   "g/L",  "kg/m3",
                              "mL/min", "L/h", "%",     "kg/kg",   "1/min", "L/kg", "mL/100 g"};
constexpr std::array words = {"",         "<b>&amp;</b>", "\u001b[31m", "2026-06-20T09:30",
                              "lavender", "measured",     "ratio",      "read",
                              "x.json",   "\u202e"};

/// A key and the words that it accepts. They make it likely that the readers accept a change.
struct Choice {
  std::string_view key;
  std::vector<std::string_view> values;
};
const std::vector<Choice>& choices() {
  static const std::vector<Choice> all = {
      {"method", {"steam", "water-and-steam", "hydro"}},
      {"methods", {"steam", "water-and-steam", "hydro"}},
      {"state", {"fresh", "wilted", "dried"}},
      {"cut", {"whole", "chopped", "crushed", "ground"}},
      {"plant", {"lavender", "rose", "clove-bud", "vetiver-root", "caraway-seed", "lemon-peel"}},
      {"still",
       {"bench-basket", "bench-column", "bench-column-large", "farm-grid", "glass-bench",
        "herb-pot"}},
      {"kind",
       {"electric-plate", "induction-plate", "immersed-element", "gas-burner", "ice-bath",
        "reservoir", "run-through"}},
      {"material", {"stainless-steel", "copper", "glass"}},
      {"wall", {"stainless-steel", "copper", "glass"}},
      {"form", {"leafy-herb", "leaf", "flowers", "needles", "seed", "wood", "root", "peel"}},
      {"units", {"metric", "us"}},
      {"days", {"mon", "tue", "wed", "thu", "fri", "sat", "sun"}},
      {"first_day", {"2026-07-06", "2028-02-29", "9999-12-31", "1900-01-01"}},
      {"from", {"00:00", "09:00", "23:59"}},
      {"to", {"00:00", "17:00", "23:59"}},
      {"liquid", {"linalool", "menthol", "eugenol", "limonene", "camphor", "geraniol"}},
  };
  return all;
}

/// Members that a recipe, campaign or still may have, each with a value that the readers accept.
constexpr std::array members = {
    R"({"charge": "180 g"})",
    R"({"charge": "30 kg"})",
    R"({"water": "1.7 L"})",
    R"({"setting": "60 %"})",
    R"({"seed": 7})",
    R"({"units": "us"})",
    R"({"start": "2026-06-20T09:30"})",
    R"({"receiver": "250 mL"})",
    R"({"lot": "L 7|2"})",
    R"({"site": {"altitude": "540 m", "room": "21 °C", "coolant": "14 °C"}})",
    R"({"site": {"pressure": "84 kPa", "coolant": "40 °C"}})",
    R"({"site": {"place": "outdoors", "mains": "230 V", "circuit": "16 A"}})",
    R"({"goal": {"hydrosol": "800 mL"}})",
    R"({"goal": {"ratio": "1.5 L/kg"}})",
    R"({"goal": {"oil": "2 g"}})",
    R"({"goal": {"oil": "2 mL"}})",
    R"({"goal": {"oil_share": "60 %"}})",
    R"({"goal": {"hydrosol": "800 mL", "confidence": "90 %"}})",
    R"({"goal": {"oil": "1 g", "confidence": "75 %"}})",
    R"({"goal": {"time": "1 h 30 min"}})",
    R"({"own": {"bulk_density": "160 g/L", "oil_content": "0.7 %"}})",
    R"({"own": {"distillate_rate": "14 mL/min"}})",
    R"({"own": {"boil_time": "16 min", "boil_water": "1.5 L"}})",
    R"({"limits": {"time": "3 h", "absence": "15 min"}})",
    R"({"limits": {"absence": "8 h"}})",
    R"({"prices": {"energy_per_kwh": 0.3, "plant_per_kg": 6, "currency": "EUR"}})",
    R"({"harvest": "600 g"})",
    R"({"harvest": "90 kg"})",
    R"({"wanted": {"hydrosol": "3 L"}})",
    R"({"wanted": {"oil": "9 mL", "confidence": "70 %"}})",
    R"({"last_day": "2026-07-09"})",
    R"({"off": ["2026-07-07", "2026-07-08"]})",
    R"({"between_runs": "2 h"})",
    R"({"ice_per_day": "2 kg"})",
    R"({"efficiency": "60 %"})",
    R"({"ice_per_change": "1 kg"})",
    R"({"flow_limit": "2 L/min"})",
    R"({"coolant": "20 L"})",
    R"({"grid": {"water_below": "5 L", "space": "15 L", "mass": "1 kg"}})",
    R"({"column": {"material": "glass", "volume": "2 L", "diameter": "10 cm", "mass": "1 kg"}})",
    R"({"method": "hydro"})",
    R"({"cut": "ground"})",
    R"({"state": "dried"})"};
constexpr std::array numbers = {0.0,  1.0,  -1.0,  1e-9,   1e-3, 0.1, 0.5,  0.999, 1.001,  2.0,
                                10.0, 99.0, 100.0, 273.15, 1e3,  1e6, 1e12, 1e300, 5e-324, 1.7e308};

template <class List>
auto pick(const List& list, Random& random) {
  return list[random() % std::size(list)];
}

double other_number(double number, Random& random) {
  switch (random() % 8) {
    case 0:
      return pick(numbers, random);
    case 1:
      return number * std::pow(10.0, static_cast<double>(random() % 9) - 4.0);
    case 2:
      return number + (random() % 2 == 0 ? 1.0 : -1.0);
    case 3:
    case 4:
      return number * std::pow(2.0, static_cast<double>(random() % 9) - 4.0);
    default:
      return number * (0.5 + static_cast<double>(random() % 1000) / 1000.0);
  }
}

/// Gives a text such as "1.7 L" another number or another unit. Leaves any other text unchanged and
/// returns false.
bool change_quantity(std::string& text, Random& random) {
  double number = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{}) return false;
  const std::string rest = text.substr(static_cast<std::size_t>(end - text.data()));
  text = random() % 12 == 0 ? fmt::format("{} {}", number, pick(units, random))
                            : fmt::format("{}{}", other_number(number, random), rest);
  return true;
}

/// A node with its key, or with the key of the list that holds it.
struct Place {
  Json* node;
  std::string key;
};

void gather(Json& node, const std::string& key, std::vector<Place>& into) {
  into.push_back({&node, key});
  if (node.is_array())
    for (Json& child : node) gather(child, key, into);
  if (node.is_object())
    for (auto item = node.begin(); item != node.end(); ++item)
      gather(item.value(), item.key(), into);
}

std::string changed_bytes(std::string text, Random& random) {
  const std::size_t size = text.size();
  text.resize(size + 1 + random() % 16);
  text.resize(LLVMFuzzerMutate(reinterpret_cast<std::uint8_t*>(text.data()), size, text.size()));
  return text;
}

void change_object(Json& object, Random& random) {
  // All three numbers of a figure change by the same factor, so that they stay in order.
  if (object.contains("typical") && random() % 8 != 0) {
    const double factor = std::pow(10.0, static_cast<double>(random() % 13) / 4.0 - 1.5);
    for (const char* key : {"low", "typical", "high"})
      if (object.contains(key) && object[key].is_number())
        object[key] = object[key].get<double>() * factor;
  } else if (!object.empty() && random() % 3 == 0) {
    object.erase(std::next(object.begin(), static_cast<std::ptrdiff_t>(random() % object.size())));
  } else {
    object.update(Json::parse(pick(members, random)));
  }
}

void change_text(Json& node, const std::string& key, Random& random) {
  std::string text = node.get<std::string>();
  const auto choice = std::find_if(choices().begin(), choices().end(),
                                   [&](const Choice& one) { return one.key == key; });
  const bool odd = random() % 16 == 0;
  if (choice != choices().end() && !odd)
    node = pick(choice->values, random);
  else if (!odd && change_quantity(text, random))
    node = text;
  else
    node = random() % 2 == 0 ? changed_bytes(std::move(text), random) : pick(words, random);
}

void change_list(Json& list, Random& random) {
  const std::size_t at = random() % list.size();
  if (random() % 2 == 0) {
    list.erase(list.begin() + static_cast<std::ptrdiff_t>(at));
  } else {
    Json copy = list[at];
    list.push_back(std::move(copy));
  }
}

void change(Json& tree, Random& random) {
  std::vector<Place> places;
  gather(tree, "", places);
  const Place place = pick(places, random);
  Json& node = *place.node;
  if (random() % 32 == 0) {
    Json copy = *pick(places, random).node;
    node = std::move(copy);
  } else if (node.is_string()) {
    change_text(node, place.key, random);
  } else if (node.is_number()) {
    node = other_number(node.get<double>(), random);
  } else if (node.is_object()) {
    // The document itself would seldom be picked, but it's where most members belong.
    change_object(tree.is_object() && random() % 2 == 0 ? tree : node, random);
  } else if (node.is_array() && !node.empty()) {
    change_list(node, random);
  } else {
    node = pick(words, random);
  }
}

/// The text as JSON. The result is discarded if the text isn't JSON, or is nested so deep (above 64
/// levels) that writing it out could overflow the stack.
Json tree_of(const std::uint8_t* data, std::size_t size) {
  std::size_t depth = 0;
  for (std::size_t i = 0; i < size; ++i) {
    if (data[i] == '{' || data[i] == '[') ++depth;
    if ((data[i] == '}' || data[i] == ']') && depth > 0) --depth;
    if (depth > 64) return Json(Json::value_t::discarded);
  }
  return Json::parse(data, data + size, nullptr, false);
}

/// Writes the tree as text. Returns the number of bytes, or 0 if the text doesn't fit.
std::size_t put(const Json& tree, std::uint8_t* data, std::size_t max_size) {
  const std::string text = tree.dump(-1, ' ', false, Json::error_handler_t::replace);
  if (text.size() > max_size) return 0;
  std::memcpy(data, text.data(), text.size());
  return text.size();
}

}  // namespace

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size,
                                               std::size_t max_size, unsigned seed) {
  Random random(seed);
  if (random() % 8 != 0) {
    if (Json tree = tree_of(data, size); !tree.is_discarded()) {
      for (std::size_t left = random() % 4 == 0 ? 3 : 1; left > 0; --left) change(tree, random);
      if (const std::size_t written = put(tree, data, max_size)) return written;
    }
  }
  return LLVMFuzzerMutate(data, size, max_size);
}

/// Combines two documents: the first, with about a quarter of the top-level members of the other.
extern "C" std::size_t LLVMFuzzerCustomCrossOver(const std::uint8_t* one, std::size_t one_size,
                                                 const std::uint8_t* other, std::size_t other_size,
                                                 std::uint8_t* out, std::size_t max_size,
                                                 unsigned seed) {
  Random random(seed);
  Json tree = tree_of(one, one_size);
  Json from = tree_of(other, other_size);
  if (!tree.is_object() || !from.is_object()) return 0;
  for (const auto& [key, value] : from.items())
    if (random() % 4 == 0) tree[key] = value;
  return put(tree, out, max_size);
}
