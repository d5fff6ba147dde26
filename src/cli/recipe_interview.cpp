#include "cli/recipe_interview.hpp"

#include <fmt/core.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <functional>
#include <utility>
#include <vector>

#include "base/text_layout.hpp"
#include "base/words.hpp"
#include "cli/files.hpp"
#include "cli/new_file.hpp"
#include "cli/output_format.hpp"
#include "cli/pages/plan_page.hpp"
#include "cli/questions.hpp"
#include "cli/recipe_changes.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "quantity/numbers_text.hpp"
#include "readers/documents.hpp"
#include "readers/words.hpp"

namespace firstdrop::cli {
namespace {

namespace fs = std::filesystem;

bool in_us_units(const RecipeDraft& draft) {
  return draft.value("units") == to_string(Units::us);
}
Units units_of(const RecipeDraft& draft) {
  return in_us_units(draft) ? Units::us : Units::metric;
}

/// The strict reader's faults for this key, and for a file that the answer names.
std::string faults_at(const std::string& pointer, const RecipeDraft& draft, const Tables& tables) {
  return faults_of_answer(pointer, [&] { read_draft(draft, tables); });
}

/// Takes the name of a file of one's own as the plant or still, and a plant that is like another.
OtherAnswer own_file(const std::string& path, const RecipeDraft& draft, const Tables& tables) {
  return [=, &tables](const std::string& answer) -> std::optional<bool> {
    const bool like = path == "plant" && plant_like(answer).has_value();
    const bool blend = path == "plant" && !plant_shares(answer).empty();
    if (!like && !blend && !answer.ends_with(".json")) return std::nullopt;
    const std::string faults = faults_at(pointer_to(like    ? "plant.like"
                                                    : blend ? "plants"
                                                            : path),
                                         draft.with(path, answer), tables);
    say(faults);
    return faults.empty();
  };
}

// --- plant and state

std::string ask_plant(const RecipeDraft& draft, const Tables& tables) {
  std::vector<Choice> plants;
  for (const auto& [key, plant] : tables.plants) {
    plants.push_back(
        {key, fmt::format("{}, {}", plant->name, plant->latin), {plant->name, plant->latin}});
    auto& names = plants.back().other_names;
    names.insert(names.end(), plant->also.begin(), plant->also.end());
  }
  say(wrapped("",
              "A plant that isn't listed is planned from one that it is like, or from its form: "
              "answer \"apple mint like spearmint\", or \"hedge mustard like leafy-herb\". For "
              "several plants in one charge, answer \"60 % lavender, 40 % rosemary\".",
              Look{}));
  return one_of("Which plant (its name or part of it, ? lists all, or a file of your own)", plants,
                "", own_file("plant", draft, tables));
}

std::optional<std::string> ask_state(const RecipeDraft& draft, const Tables& tables) {
  const auto plant = tables.plants.find(*draft.value("plant"));
  if (plant == tables.plants.end()) return usual_state_of(draft, tables);
  std::vector<Choice> states;
  for (const auto& entry : plant->second->states) states.push_back({to_string(entry.first)});
  std::string usual = usual_state(plant->second);
  if (states.size() > 1) return one_of("In which state", states, usual);
  if (states.size() == 1)
    say(fmt::format("  {} is all that is known of it\n", states.front().name));
  return usual;
}

// --- the still

std::string about_still(const Still& still, Units units) {
  std::vector<std::string> methods;
  for (const Method method : still.methods) methods.push_back(in_words(method));
  return fmt::format("{}; pot of {}, {} of {}, {}; {}", still.title,
                     text(still.pot.volume.typical(), units), spaced(to_string(still.heater.kind)),
                     text(still.heater.power.typical()), spaced(to_string(still.condenser.kind)),
                     joined(methods, " or "));
}

/// The person's own stills in the recipe's folder.
std::vector<Choice> own_stills(const RecipeDraft& draft, const Tables& tables) {
  const fs::path folder = fs::path(draft.output).parent_path();
  std::vector<Choice> stills;
  for (const std::string& name : json_files_in(folder.string())) {
    const auto words = glance_at((folder / name).string());
    if (!words || document_kind(*words) != DocumentKind::still) continue;
    try {
      const Still still = read_still(*words, name, tables);
      stills.push_back({name, about_still(still, units_of(draft)), {still.title}});
    } catch (const InputError&) {
      stills.push_back({name, fmt::format("has mistakes: `firstdrop check {}` lists them", name)});
    }
  }
  return stills;
}

std::string ask_still(const RecipeDraft& draft, const Tables& tables) {
  std::vector<Choice> stills = own_stills(draft, tables);
  say("\n" + wrapped("",
                     "A plan is only as good as the description of the still. The stills that come "
                     "with firstdrop are invented examples. `firstdrop new still` describes yours.",
                     Look{}));
  for (const auto& [key, still] : tables.stills) {
    stills.push_back({key, "example: " + about_still(still, units_of(draft)), {still->title}});
  }
  // Without a default, so that nobody plans for an invented still unawares.
  return one_of("Which still, or a file of your own", stills, "", own_file("still", draft, tables));
}

// --- amounts

struct AmountQuestion {
  const char* path;
  std::string words;     ///< with an example
  std::string fallback;  ///< what holds if the recipe doesn't say
  std::function<std::string(const Recipe&)> as_read;
};

/// The value for the recipe. None means what stands in brackets.
std::optional<std::string> ask_amount(const AmountQuestion& question, const RecipeDraft& draft,
                                      const Tables& tables) {
  for (;;) {
    std::string answer = answer_to(question.words, question.fallback);
    if (answer == "?") {
      say(wrapped("  ", recipe_key(question.path).help, Look{}));
      continue;
    }
    if (answer == question.fallback) return std::nullopt;
    const RecipeDraft answered = draft.with(question.path, answer);
    const std::string faults = faults_at(pointer_to(question.path), answered, tables);
    if (faults.empty()) {
      say(fmt::format("  {}\n", question.as_read(read_draft(answered, tables))));
      return answer;
    }
    say(faults);
  }
}

AmountQuestion charge_question(bool us) {
  return {"charge",
          us ? "How much herb for all of it, such as 10 oz"
             : "How much herb for all of it, such as 300 g",
          "as much as fits",
          [](const Recipe& recipe) { return text(*recipe.charge, recipe.units); }};
}

AmountQuestion altitude_question(bool us) {
  return {"site.altitude",
          us ? "How high is the place above the sea, such as 1800 ft"
             : "How high is the place above the sea, such as 540 m",
          "sea level",
          [](const Recipe& recipe) { return text(*recipe.site.altitude, recipe.units); }};
}

/// None means indoors.
std::optional<std::string> ask_place() {
  std::vector<Choice> places;
  for (const Word<Place>& place : words_of<Place>)
    places.push_back(
        {std::string(place.word), std::string(place.meaning), {std::string(place.meaning)}});
  std::string where = one_of("Where does the still stand", places, to_string(Site{}.place));
  if (where == to_string(Site{}.place)) return std::nullopt;
  return where;
}

AmountQuestion room_question(bool us) {
  return {"site.room",
          us ? "How warm is the room, such as 75 °F" : "How warm is the room, such as 24 °C",
          text(Site{}.room, us ? Units::us : Units::metric),
          [](const Recipe& recipe) { return text(recipe.site.room, recipe.units); }};
}

const char* coolant_words(CondenserKind kind) {
  switch (kind) {
    case CondenserKind::ice_bath:
      return "How cold is the water in the cooling bath when you start";
    case CondenserKind::reservoir:
      return "How cold is the water in the cooling bucket when you start";
    case CondenserKind::run_through:
      break;
  }
  return "How cold is the cooling water from the tap";
}

AmountQuestion coolant_question(bool us, CondenserKind kind) {
  return {"site.coolant",
          fmt::format("{}, such as {}", coolant_words(kind), us ? "54 °F" : "12 °C"),
          "as warm as the room",
          [](const Recipe& recipe) { return text(*recipe.site.coolant, recipe.units); }};
}

// --- the goal

bool has_goal(const RecipeDraft& draft) {
  return std::any_of(draft.starter.begin(), draft.starter.end(), [](const auto& entry) {
    return entry.first.starts_with("goal.") && entry.second;
  });
}

std::string goal_as_read(const Recipe& recipe) {
  if (const auto* hydrosol = std::get_if<HydrosolGoal>(&recipe.goal))
    return text(hydrosol->volume, recipe.units) + " of hydrosol";
  const auto& amount = std::get<OilGoal>(recipe.goal).amount;
  return std::visit([&](auto quantity) { return text(quantity, recipe.units); }, amount) +
         " of oil";
}

/// What a run without a goal gives, because that can be reached. Empty if there is none.
std::string reachable(const RecipeDraft& draft, bool oil, const Tables& tables) {
  const Plan plan = make_plan(read_draft(completed(draft, tables), tables), tables);
  if (!plan.run || plan.verdict == Verdict::refused) return {};
  const Units units = units_of(draft);
  const double runs = plan.charge.runs;
  if (!oil) return text(neat_down(plan.run->uncertainty.hydrosol.typical * runs, units), units);
  if (plan.run->uncertainty.oil_volume.typical < millilitres(0.1)) return {};
  return text(plan.run->uncertainty.oil_volume.typical * runs, units);
}

RecipeDraft with_goal(RecipeDraft draft, const Tables& tables) {
  const std::string all = "all";
  const std::string want =
      one_of("What do you want",
             {{"hydrosol", "a certain amount of it"},
              {"oil", "a certain amount of it"},
              {all, "what the herb gives: stop when the oil left is not worth more water"}},
             all);
  if (want == all) return draft;
  const bool oil = want == "oil";
  const std::string words = oil                  ? "How much oil, such as 2 mL or 2 g"
                            : in_us_units(draft) ? "How much hydrosol, such as 1 qt or 20 fl oz"
                                                 : "How much hydrosol, such as 500 mL or 1.2 L";
  const char* const path = oil ? "goal.oil" : "goal.hydrosol";
  const std::string fallback = reachable(draft, oil, tables);
  for (;;) {
    const std::string answer = answer_to(words, fallback);
    RecipeDraft answered = draft.with(path, answer);
    const std::string faults = faults_at(pointer_to(path), answered, tables);
    if (faults.empty()) {
      say(fmt::format("  {}\n", goal_as_read(read_draft(answered, tables))));
      return answered;
    }
    say(faults);
  }
}

}  // namespace

RecipeDraft interviewed(RecipeDraft draft, const Tables& tables) {
  say("Answer each question; what stands in brackets is taken for an empty answer.\n"
      "Ctrl-C ends this, and nothing is written.\n\n");
  if (!draft.value("plant")) draft.starter["plant"] = ask_plant(draft, tables);
  if (!draft.value("state")) draft.starter["state"] = ask_state(draft, tables);
  if (!draft.value("still")) draft.starter["still"] = ask_still(draft, tables);
  const bool us = in_us_units(draft);
  const auto ask = [&](const AmountQuestion& question) {
    if (!draft.value(question.path))
      draft.starter[question.path] = ask_amount(question, draft, tables);
  };
  ask(charge_question(us));
  if (!draft.value("site.place")) draft.starter["site.place"] = ask_place();
  ask(altitude_question(us));
  ask(room_question(us));
  ask(coolant_question(us, read_draft(draft, tables).still->condenser.kind));
  return has_goal(draft) ? draft : with_goal(std::move(draft), tables);
}

std::optional<RecipeDraft> asked_for_way_out(const RecipeDraft& draft, const Plan& refused,
                                             const Tables& tables) {
  const std::vector<WayOut> ways = ways_out(refused, tables);
  const std::vector<RecipeChange> changes = recipe_changes(draft, refused, ways, tables);
  if (changes.empty()) return std::nullopt;
  say("\n" + plan_head(refused, Look{}));
  say(changes.size() == 1 ? "\nThis change makes it a plan that may be run:\n"
                          : "\nEach of these changes makes it a plan that may be run:\n");
  std::vector<Choice> choices;
  for (const RecipeChange& change : changes) choices.push_back({change.text});
  const std::string keep = "none: keep the recipe as it is";
  choices.push_back({keep, "", {"none"}});
  const std::string taken = one_of("Which change", choices);
  for (const RecipeChange& change : changes)
    if (change.text == taken) return change.draft;
  return std::nullopt;
}

RecipeDraft with_file(RecipeDraft draft, bool force, const Tables& tables) {
  if (draft.output != standard_output || isatty(STDOUT_FILENO) != 1) return draft;
  std::string plant = *draft.value("plant");
  if (const auto unlisted = plant_like(plant)) plant = unlisted->name;
  if (const auto blend = plant_shares(plant); !blend.empty())
    plant = blend.front().plant + " blend";
  std::replace(plant.begin(), plant.end(), ' ', '-');
  // A user's own still or plant is looked up in the recipe's folder, so check them again.
  const auto faults = [&](const std::string& path) {
    return faults_at("", RecipeDraft{draft.starter, path}, tables);
  };
  draft.output = ask_new_file("Write the recipe to which file, or - for none",
                              plant.ends_with(".json") ? "recipe" : plant, force,
                              FormatChoice{recipe_formats}, faults);
  return draft;
}

}  // namespace firstdrop::cli
