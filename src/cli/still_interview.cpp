#include "cli/still_interview.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
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
#include "quantity/numbers_text.hpp"
#include "quantity/water_amount.hpp"
#include "readers/documents.hpp"
#include "tables/words.hpp"

namespace firstdrop::cli {
namespace {

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
  if (const auto volume = value_in(draft, "pot.volume"))
    if (const auto parsed = parse_water(*volume)) pot = *parsed;
  return read_still(starter_still(filled_up(draft, pot)), "", tables);
}

std::vector<StillDoubt> doubts(const Starter& draft, const Tables& tables) {
  try {
    return doubts_about(still_so_far(draft, tables), tables);
  } catch (const InputError&) {
    return {};  // something is still missing, or will be asked again
  }
}

bool is_condenser_size(const std::string& path) {
  return path == "condenser.tube_diameter" || path == "condenser.dome_diameter" ||
         path == "condenser.surface";
}

/// Whether the person stands by a figure that raises doubts which `old`, without it, doesn't. A
/// doubt stays the same if later figures change its numbers.
bool is_confirmed(const Starter& old, const Starter& changed, const std::string& path,
                  const Tables& tables, Units units) {
  const std::vector<StillDoubt> known = doubts(old, tables);
  for (const StillDoubt& one : doubts(changed, tables)) {
    // Of the condenser's heat only its own size can tell, which is asked late.
    if (std::holds_alternative<doubt::CondenserHeat>(one) && !is_condenser_size(path)) continue;
    if (std::any_of(known.begin(), known.end(),
                    [&](const StillDoubt& other) { return is_of_same_figure(one, other); }))
      continue;
    say(wrapped("  ", doubt_text(one, units), Look{}));
    if (one_of("Is that right", {{"yes"}, {"no"}}, "no") == "no") return false;
  }
  return true;
}

/// The answer that there is no ice.
bool is_none(const std::string& answer) {
  return answer == "0" || answer == "no" || answer == "none" || answer == "no ice";
}

/// An example of a metric amount in these units.
std::string example_in(const std::string& example, Units units) {
  if (units == Units::metric) return example;
  if (const auto mass = parse_quantity<Mass>(example)) return text(*mass, units);
  if (const auto volume = parse_quantity<Volume>(example)) return text(*volume, units);
  if (const auto flow = parse_quantity<VolumeFlow>(example)) return text(*flow, units);
  if (const auto length = parse_quantity<Length>(example))
    return fmt::format("{:.2g} in", in_metres(*length) / metre_per_inch);
  return example;
}

bool is_weighed_water(const std::string& answer, const Key& key) {
  return !key.quantities.empty() && key.quantities.front().kind.family == water_kind().family &&
         is_weighed(answer);
}

/// Asks for one figure until it is good. Enter takes the default, where there is one.
Starter asked(Starter draft, const StillQuestion& question, const Tables& tables, Units units) {
  const Key& key = still_key(question.path);
  if (value_in(draft, question.path)) return draft;
  const std::string measure = key.measure.empty() ? "" : wrapped("  ", key.measure, Look{});
  say(measure);
  // An element must stay covered.
  const bool has_default = key.has_default && !(question.path == "pot.minimum_water" &&
                                                value_in(draft, "heater.kind") ==
                                                    to_string(HeaterKind::immersed_element));
  const std::string fallback = has_default ? std::string(default_word) : "";
  for (;;) {
    std::string answer = answer_to(
        fmt::format("{}, such as {}", question.ask, example_in(key.example, units)), fallback);
    if (answer.empty() || answer == "?") {
      say(answer.empty() ? "  This has no default.\n" + measure : measure);
      continue;
    }
    if (question.path == "condenser.ice_per_change" && is_none(answer)) answer = "0 kg";
    Starter with = draft;
    with[question.path] = answer;
    const std::string faults =
        faults_of_answer(pointer_to(question.path), [&] { still_so_far(with, tables); });
    if (!faults.empty()) {
      say(faults);
    } else if (answer == fallback || is_confirmed(draft, with, question.path, tables, units)) {
      if (is_weighed_water(answer, key))
        say(fmt::format("  {}\n", text(*parse_water(answer), Units::metric)));
      return with;
    }
  }
}

/// What people call a kind of heater or condenser.
struct OtherWord {
  std::string_view word;
  std::string_view says;
};
constexpr std::array other_words = {
    OtherWord{"electric-plate", "electric hotplate"},
    OtherWord{"induction-plate", "electric induction plate"},
    OtherWord{"immersed-element", "electric element inside"},
    OtherWord{"immersed-element", "electric kettle"},
    OtherWord{"heating-mantle", "electric mantle"},
    OtherWord{"gas-burner", "gas ring"},
    OtherWord{"gas-burner", "propane"},
    OtherWord{"ice-bath", "barrel without a pump"},
};

template <class E>
Starter asked_kind(Starter draft, const std::string& path, const std::string& ask) {
  if (value_in(draft, path)) return draft;
  std::vector<Choice> choices;
  for (const Word<E>& word : words_of<E>) {
    choices.push_back(
        {std::string(word.word), std::string(word.meaning), {std::string(word.meaning)}});
    for (const OtherWord& other : other_words)
      if (other.word == word.word) choices.back().other_names.emplace_back(other.says);
  }
  draft[path] = one_of(ask, choices);
  return draft;
}

Starter asked_material(Starter draft, const Tables& tables) {
  if (value_in(draft, "pot.material")) return draft;
  std::vector<Choice> materials;
  for (const auto& entry : tables.materials) materials.push_back({entry.first});
  for (Choice& material : materials)
    if (material.name == "aluminium") material.other_names = {"aluminum"};
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
      one_of("Where does the herb go",
             {{"column", "into a column or basket above the pot", {"basket above the pot"}},
              {"grid", "onto a grid in the pot, above the water", {"rack", "sieve in the pot"}},
              {"water", "into the water itself", {"into the water itself"}}});
  return where == "column" ? Method::steam
         : where == "grid" ? Method::water_and_steam
                           : Method::hydro;
}

/// The paths of the condenser's size.
std::vector<std::string> asked_condenser_size(const Starter& draft) {
  for (const char* path : {"condenser.surface", "condenser.tube_length", "condenser.dome_diameter"})
    if (value_in(draft, path)) return {"condenser.tube_length", "condenser.tube_diameter"};
  std::vector<Choice> shapes = {{"tube", "a coil or a straight tube that you can measure"},
                                {"dome", "a dome or lid on which the steam condenses"}};
  if (value_in(draft, "condenser.kind") != to_string(CondenserKind::run_through))
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

/// Whether the still that was described has such a key: of a part that it has, and of its kind of
/// condenser.
bool belongs(const std::string& path, const Starter& draft) {
  const std::string part = path.substr(0, path.find('.'));
  if ((part == "column" || part == "grid") && !is_about(draft, part)) return false;
  const bool runs_through =
      value_in(draft, "condenser.kind") == to_string(CondenserKind::run_through);
  if (path == "condenser.flow_limit") return runs_through;
  return path != "condenser.ice_per_change" || !runs_through;
}

/// Writes the word for the default at each key of the still's parts that was left to it.
Starter with_defaults_marked(Starter draft) {
  for (const StillQuestion& question : still_questions())
    if (still_key(question.path).has_default && belongs(question.path, draft) &&
        !value_in(draft, question.path))
      draft[question.path] = default_word;
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

Starter still_interviewed(Starter draft, const Tables& tables, Units units) {
  const auto ask = [&](std::initializer_list<const char*> paths) {
    for (const char* path : paths)
      draft = asked(std::move(draft), question_of(path), tables, units);
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
  if (value_in(draft, "heater.kind") == to_string(HeaterKind::immersed_element))
    ask({"pot.minimum_water"});
  draft =
      asked_kind<CondenserKind>(std::move(draft), "condenser.kind", "How is the condenser cooled");
  if (value_in(draft, "condenser.kind") == to_string(CondenserKind::run_through))
    ask({"condenser.flow_limit"});
  else
    ask({"condenser.coolant", "condenser.ice_per_change"});
  for (const std::string& path : asked_condenser_size(draft))
    draft = asked(std::move(draft), question_of(path), tables, units);
  while (!value_in(draft, "title") || value_in(draft, "title") == "?")
    draft["title"] = answer_to("A name for the still", "Own still");
  return with_defaults_marked(std::move(draft));
}

}  // namespace firstdrop::cli
