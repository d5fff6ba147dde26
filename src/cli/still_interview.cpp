#include "cli/still_interview.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <functional>
#include <map>
#include <optional>
#include <utility>

#include "base/text_layout.hpp"
#include "base/words.hpp"
#include "cli/files.hpp"
#include "cli/questions.hpp"
#include "cli/terminal.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/model/still_doubt.hpp"
#include "firstdrop/output/still_words.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "readers/documents.hpp"
#include "tables/words.hpp"

namespace firstdrop::cli {
namespace {

std::optional<std::string> value_of(const Starter& draft, const std::string& path) {
  const auto entry = draft.find(path);
  return entry == draft.end() ? std::nullopt : entry->second;
}

/// The pointer to the key with this path: "/pot/volume" for "pot.volume".
std::string pointer_in_still(std::string path) {
  std::replace(path.begin(), path.end(), '.', '/');
  return '/' + path;
}

/// The draft with usual figures for what hasn't been asked yet, so that the reader and the check
/// for slips can judge what has.
Starter filled_up(Starter draft, Volume pot) {
  const auto stand_in = [&](const char* path, std::string text) {
    auto& value = draft[path];
    if (!value) value = std::move(text);
  };
  const double litres_of_pot = in_litres(pot);
  stand_in("pot.material", "stainless-steel");
  stand_in("pot.volume", fmt::format("{} L", litres_of_pot));
  stand_in("heater.kind", "electric-plate");
  stand_in("heater.power", fmt::format("{} W", std::clamp(300.0 * litres_of_pot, 10.0, 2e5)));
  stand_in("condenser.kind", "ice-bath");
  stand_in("condenser.coolant", fmt::format("{} L", std::clamp(3.0 * litres_of_pot, 0.01, 2000.0)));
  return draft;
}

/// The still as far as it is known.
Still still_so_far(const Starter& draft, const Tables& tables) {
  Volume pot = litres(3);
  if (const auto volume = value_of(draft, "pot.volume"))
    if (const auto parsed = parse_quantity<Volume>(*volume)) pot = *parsed;
  return read_still(starter_still(filled_up(draft, pot)), "", tables);
}

/// The strict reader's faults for this key.
std::string faults_at(const std::string& path, const Starter& draft, const Tables& tables) {
  std::string words;
  try {
    still_so_far(draft, tables);
  } catch (const InputError& error) {
    for (Fault fault : error.faults()) {
      if (fault.pointer != pointer_in_still(path)) continue;
      fault.pointer.clear();
      fault.line = fault.column = 0;  // in a text that nobody has seen
      words += fault.text() + "\n";
    }
  }
  return words;
}

std::vector<std::string> doubts(const Starter& draft, const Tables& tables) {
  std::vector<std::string> texts;
  try {
    for (const StillDoubt& one : doubts_about(still_so_far(draft, tables), tables))
      texts.push_back(doubt_text(one, Units::metric));
  } catch (const InputError&) {
    // Something is still missing, or will be asked again.
  }
  return texts;
}

/// Whether the person stands by a figure that raises doubts which weren't there before.
bool is_confirmed(const Starter& before, const Starter& after, const Tables& tables) {
  const std::vector<std::string> known = doubts(before, tables);
  for (const std::string& text : doubts(after, tables)) {
    if (std::find(known.begin(), known.end(), text) != known.end()) continue;
    say(wrapped("  ", text, Look{}));
    if (one_of("Is that right", {{"yes"}, {"no"}}, "no") == "no") return false;
  }
  return true;
}

/// Asks for one figure until it is good. Enter takes the default, where there is one.
Starter asked(Starter draft, const StillQuestion& question, const Tables& tables) {
  const Key key = still_key(question.path);
  if (value_of(draft, question.path)) return draft;
  if (!key.measure.empty()) say(wrapped("  ", key.measure, Look{}));
  for (;;) {
    const std::string fallback = key.has_default ? std::string(default_word) : "";
    const std::string answer =
        answer_to(fmt::format("{}, such as {}", question.ask, key.example), fallback);
    if (answer.empty()) continue;
    Starter with = draft;
    with[question.path] = answer;
    const std::string faults = faults_at(question.path, with, tables);
    if (!faults.empty()) {
      say(faults);
    } else if (answer == fallback || is_confirmed(draft, with, tables)) {
      return with;
    }
  }
}

template <class E>
Starter asked_kind(Starter draft, const std::string& path, const std::string& ask) {
  if (value_of(draft, path)) return draft;
  std::vector<Choice> choices;
  for (const Word<E>& word : words_of<E>)
    choices.push_back(
        {std::string(word.word), std::string(word.meaning), {std::string(word.meaning)}});
  draft[path] = one_of(ask, choices);
  return draft;
}

Starter asked_material(Starter draft, const Tables& tables) {
  if (value_of(draft, "pot.material")) return draft;
  std::vector<Choice> materials;
  for (const auto& entry : tables.materials) materials.push_back({entry.first});
  draft["pot.material"] = one_of("What is the pot made of", materials);
  return draft;
}

bool is_about(const Starter& draft, const std::string& part) {
  return std::any_of(draft.begin(), draft.end(), [&](const auto& entry) {
    return entry.second && entry.first.starts_with(part + '.');
  });
}

/// The parts beside the pot that hold herb: a column, a grid, or none.
Method asked_method(const Starter& draft) {
  if (is_about(draft, "column")) return Method::steam;
  if (is_about(draft, "grid")) return Method::water_and_steam;
  const std::string where =
      one_of("Where does the herb go", {{"column", "into a column or basket above the pot"},
                                        {"grid", "onto a grid in the pot, above the water"},
                                        {"water", "into the water itself"}});
  return where == "column" ? Method::steam
         : where == "grid" ? Method::water_and_steam
                           : Method::hydro;
}

/// The paths of the condenser's size.
std::vector<std::string> asked_condenser_size(const Starter& draft) {
  for (const char* path : {"condenser.surface", "condenser.tube_length", "condenser.dome_diameter"})
    if (value_of(draft, path)) return {"condenser.tube_length", "condenser.tube_diameter"};
  std::vector<Choice> shapes = {{"tube", "a coil or a straight tube that you can measure"},
                                {"dome", "a dome or lid on which the steam condenses"}};
  if (value_of(draft, "condenser.kind") != to_string(CondenserKind::run_through))
    shapes.push_back({"unknown", "take a usual coil for the size of the bath"});
  const std::string shape = one_of("What is the condenser inside", shapes);
  if (shape == "tube") return {"condenser.tube_length", "condenser.tube_diameter"};
  if (shape == "dome") return {"condenser.dome_diameter"};
  return {};
}

const StillQuestion& question_of(const std::string& path) {
  const auto& all = still_questions();
  return *std::find_if(all.begin(), all.end(),
                       [&](const StillQuestion& one) { return one.path == path; });
}

/// Writes the word for the default at each key of the still's parts that was left to it.
Starter with_defaults_marked(Starter draft) {
  for (const StillQuestion& question : still_questions()) {
    const std::string part = question.path.substr(0, question.path.find('.'));
    const bool has_part = part != "column" && part != "grid" ? true : is_about(draft, part);
    const bool of_other_kind =
        (question.path == "condenser.flow_limit") ==
        (value_of(draft, "condenser.kind") != to_string(CondenserKind::run_through));
    const bool counts =
        (question.path != "condenser.flow_limit" && question.path != "condenser.ice_per_change") ||
        !of_other_kind;
    if (still_key(question.path).has_default && has_part && counts && !draft[question.path])
      draft[question.path] = default_word;
  }
  // The size of tube or dome serves.
  for (const char* path : {"condenser.tube_length", "condenser.dome_diameter"})
    if (draft[path]) draft["condenser.surface"].reset();
  return draft;
}

}  // namespace

const std::vector<StillQuestion>& still_questions() {
  static const std::vector<StillQuestion> all = {
      {"pot.material", "Material of the pot"},
      {"pot.volume", "Volume of the pot, to the brim"},
      {"pot.diameter", "Inside diameter of the pot"},
      {"pot.mass", "Weight of the empty pot"},
      {"pot.fill_limit", "Share of the pot that you may fill"},
      {"pot.minimum_water", "Least water that must stay in the pot"},
      {"column.volume", "Room for herb in the column or basket"},
      {"column.diameter", "Inside diameter of the column"},
      {"column.mass", "Weight of the empty column"},
      {"grid.water_below", "Water that fits below the grid"},
      {"grid.space", "Room for herb above the grid"},
      {"grid.mass", "Weight of the grid"},
      {"head.mass", "Weight of lid and pipe to the condenser"},
      {"head.surface", "Outside surface of lid and pipe"},
      {"heater.kind", "Kind of heater"},
      {"heater.power", "Power on the heater's nameplate"},
      {"heater.efficiency", "Share of the power that gets into the pot"},
      {"condenser.kind", "How the condenser is cooled"},
      {"condenser.coolant", "Water that the bath or bucket holds, ice included"},
      {"condenser.ice_per_change", "Ice that you put in at one change"},
      {"condenser.flow_limit", "Most water that the tap gives"},
      {"condenser.tube_length", "Length of the condenser's tube"},
      {"condenser.tube_diameter", "Inside diameter of the condenser's tube"},
      {"condenser.dome_diameter", "Inside diameter of the condensing dome"},
      {"condenser.surface", "Condensing surface"},
      {"wall_hold_up", "Water that stays on the walls"}};
  return all;
}

Starter still_interviewed(Starter draft, const Tables& tables) {
  const auto ask = [&](std::initializer_list<const char*> paths) {
    for (const char* path : paths) draft = asked(std::move(draft), question_of(path), tables);
  };
  say(wrapped("",
              "You need a kitchen scale, a measuring jug, a ruler, and a few minutes at the still. "
              "Where you can't measure, press Enter: a default with a wide range is used, and the "
              "file says so. Units: g, kg, mL, L, mm, cm, W, kW, or US units.",
              Look{}));
  draft = asked_material(std::move(draft), tables);
  ask({"pot.volume", "pot.diameter", "pot.mass"});
  const Method method = asked_method(draft);
  if (method == Method::steam) ask({"column.volume", "column.diameter", "column.mass"});
  if (method == Method::water_and_steam) ask({"grid.water_below", "grid.space"});
  ask({"head.mass"});
  draft = asked_kind<HeaterKind>(std::move(draft), "heater.kind", "What heats the pot");
  ask({"heater.power"});
  if (value_of(draft, "heater.kind") == to_string(HeaterKind::immersed_element)) {
    while (!value_of(draft, "pot.minimum_water") ||
           value_of(draft, "pot.minimum_water") == std::string(default_word)) {
      draft["pot.minimum_water"].reset();
      say("  The element must stay covered, so this figure has no default.\n");
      ask({"pot.minimum_water"});
    }
  }
  draft =
      asked_kind<CondenserKind>(std::move(draft), "condenser.kind", "How is the condenser cooled");
  if (value_of(draft, "condenser.kind") == to_string(CondenserKind::run_through))
    ask({"condenser.flow_limit"});
  else
    ask({"condenser.coolant", "condenser.ice_per_change"});
  for (const std::string& path : asked_condenser_size(draft))
    draft = asked(std::move(draft), question_of(path), tables);
  if (!value_of(draft, "title")) draft["title"] = answer_to("A name for the still", "Own still");
  return with_defaults_marked(std::move(draft));
}

}  // namespace firstdrop::cli
