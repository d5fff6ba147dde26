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
#include <map>
#include <nlohmann/json.hpp>
#include <random>
#include <string>
#include <string_view>
#include <vector>

#include "campaign/documents.hpp"
#include "firstdrop/readers/tables_json.hpp"

// libFuzzer defines this name and signature, and those of the two functions at the end.
extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t max_size);

namespace {

using Json = nlohmann::ordered_json;
using Random = std::minstd_rand;

constexpr std::array words = {"",         "<b>&amp;</b>", "\u001b[31m", "2026-06-20T09:30",
                              "lavender", "measured",     "ratio",      "read",
                              "x.json",   "\u202e"};

/// What the documents' descriptions offer, so that the readers accept many of the changes.
struct Offers {
  std::vector<std::string> units;
  std::map<std::string, std::vector<std::string>> words;  ///< that a key accepts
  std::vector<Json> members;                              ///< that some object accepts
};

Json value_of(const firstdrop::Key& key) {
  const std::string& text = key.example.empty() ? key.standard : key.example;
  // Lists, numbers and truth values are JSON in an example; texts stand without quotes.
  if (key.form == firstdrop::KeyForm::list || key.form == firstdrop::KeyForm::map ||
      key.form == firstdrop::KeyForm::number || key.form == firstdrop::KeyForm::whole_number ||
      key.form == firstdrop::KeyForm::truth)
    return Json::parse(text, nullptr, false);
  return text;
}

void add_offers(const std::vector<firstdrop::Key>& keys, const std::string& parent,
                Offers& offers) {
  for (const firstdrop::Key& key : keys) {
    const firstdrop::Key& worded = key.form == firstdrop::KeyForm::list ? key.keys.front() : key;
    for (const std::string& word : worded.words) offers.words[key.name].push_back(word);
    const Json value = value_of(key);
    if (!value.is_discarded() && value != "") {
      offers.members.push_back({{key.name, value}});
      if (!parent.empty()) offers.members.push_back({{parent, {{key.name, value}}}});
    }
    const bool named = key.form == firstdrop::KeyForm::object;
    if (key.form != firstdrop::KeyForm::figure) add_offers(key.keys, named ? key.name : "", offers);
  }
}

const Offers& offers() {
  static const Offers all = [] {
    Offers made;
    for (const auto& kind : firstdrop::quantity_kinds())
      made.units.insert(made.units.end(), kind.units.begin(), kind.units.end());
    for (const auto& document : firstdrop::documents()) add_offers(document.root.keys, "", made);
    const firstdrop::Tables tables = firstdrop::read_tables(firstdrop::embedded_table_texts());
    for (const auto& entry : tables.plants) made.words["plant"].push_back(entry.first);
    for (const auto& entry : tables.stills) made.words["still"].push_back(entry.first);
    for (const auto& entry : tables.materials)
      for (const char* key : {"material", "wall"}) made.words[key].push_back(entry.first);
    made.words["first_day"] = {"2026-07-06", "2028-02-29", "9999-12-31", "1900-01-01"};
    made.words["from"] = {"00:00", "09:00", "23:59"};
    made.words["to"] = {"00:00", "17:00", "23:59"};
    // Members that need each other.
    for (const char* text :
         {R"({"site": {"place": "outdoors", "mains": "230 V", "circuit": "16 A"}})",
          R"({"goal": {"hydrosol": "800 mL", "confidence": "90 %"}})",
          R"({"wanted": {"oil": "9 mL", "confidence": "70 %"}})",
          R"({"limits": {"absence": "8 h"}})", R"({"charge": "30 kg"})",
          R"({"prices": {"energy_per_kwh": 0.3, "plant_per_kg": 6, "currency": "EUR"}})"})
      made.members.push_back(Json::parse(text));
    return made;
  }();
  return all;
}

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
  text = random() % 12 == 0 ? fmt::format("{} {}", number, pick(offers().units, random))
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
    object.update(pick(offers().members, random));
  }
}

void change_text(Json& node, const std::string& key, Random& random) {
  std::string text = node.get<std::string>();
  const auto choice = offers().words.find(key);
  const bool odd = random() % 16 == 0;
  if (choice != offers().words.end() && !odd)
    node = pick(choice->second, random);
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
