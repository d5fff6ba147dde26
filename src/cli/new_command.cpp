#include <fmt/core.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <functional>
#include <optional>
#include <utility>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/key_option.hpp"
#include "cli/output_format.hpp"
#include "cli/pages/plan_page.hpp"
#include "cli/questions.hpp"
#include "cli/terminal.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/plan/planner.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "quantity/numbers_text.hpp"
#include "readers/starter.hpp"

namespace firstdrop::cli {
namespace {

namespace fs = std::filesystem;

bool is_file(const std::string& path) {
  std::error_code error;
  return fs::is_regular_file(path, error);
}

/// What prevents writing a file there, as far as it can be known before the questions.
std::optional<Fault> obstacle(const std::string& path, bool force) {
  if (to_standard_output(path)) return std::nullopt;
  if (auto fault = fault_of_name(path, FormatChoice{recipe_formats})) return fault;
  if (!force && is_file(path)) {
    return Fault{visible(path),
                 "",
                 "There is a file of this name already",
                 "Choose another name with -o, or overwrite it with --force",
                 "",
                 0,
                 0};
  }
  // For example a user's own still or plant, named in an answer.
  if (was_read(path)) {
    return Fault{visible(path),
                 "",
                 "This recipe reads this file",
                 "Choose another file to write to",
                 "",
                 0,
                 0};
  }
  const fs::path folder = fs::path(path).parent_path();
  std::error_code error;
  if (folder.empty() || fs::is_directory(folder, error)) return std::nullopt;
  return Fault{visible(path),
               "",
               fmt::format("There is no folder {}", visible(folder.string())),
               "Choose a file in a folder that exists",
               "",
               0,
               0};
}

Recipe read(const Starter& starter, const std::string& output, const Tables& tables) {
  return read_recipe(starter_recipe(starter), "", tables, reader_beside(output));
}

/// The option that sets the value at this pointer into the recipe.
std::string option_of(std::string pointer) {
  if (pointer == "/goal") return "--hydrosol, --ratio, --oil, --oil-share, --time";
  std::replace(pointer.begin(), pointer.end(), '/', '.');
  return option_of_key(pointer);
}

/// The pointer to the key with this path: "/site/altitude" for "site.altitude".
std::string pointer_to(std::string path) {
  std::replace(path.begin(), path.end(), '.', '/');
  return '/' + path;
}

/// The faults of what was asked for, with options in place of JSON pointers.
InputError by_options(const InputError& error) {
  std::vector<Fault> faults = error.faults();
  for (Fault& fault : faults) {
    if (!fault.file.empty() || fault.pointer.empty()) continue;
    fault.line = fault.column = 0;  // in a text that nobody has seen
    fault.pointer = option_of(fault.pointer);
    if (fault.pointer == "--plant" && fault.hint.empty())
      fault.hint = "to list them, run `firstdrop plants`";
    if (fault.pointer == "--still" && fault.hint.empty())
      fault.hint = "to list them, run `firstdrop stills`";
  }
  return InputError(std::move(faults));
}

/// Fresh, unless the table has only other states of the plant; then the first of those.
std::string usual_state(const Plant& plant) {
  const bool fresh = plant.states.empty() || plant.states.contains(State::fresh);
  return to_string(fresh ? State::fresh : plant.states.begin()->first);
}

/// The recipe with the planner's defaults spelled out, to show a person what can be changed.
Recipe completed(Starter& starter, const std::string& output, const Tables& tables) {
  if (!starter["state"] && starter["plant"]) {
    const auto plant = tables.plants.find(*starter["plant"]);
    if (plant != tables.plants.end()) starter["state"] = usual_state(plant->second);
  }
  Recipe recipe = read(starter, output, tables);
  starter["state"] = to_string(recipe.state);
  starter["cut"] = to_string(recipe.cut);
  starter["method"] = to_string(recipe.method_used());
  if (!starter["title"])
    starter["title"] = fmt::format("{}, {}", capitalised(recipe.plant->name), *starter["state"]);
  return read(starter, output, tables);
}

/// "ice-bath" as people say it.
std::string plain_words(std::string name) {
  std::replace(name.begin(), name.end(), '-', ' ');
  return name;
}

// --- the questions

class Interview {
 public:
  Interview(Starter& starter, std::string& output, bool force, const Tables& tables)
      : starter_(starter), output_(output), force_(force), tables_(tables) {}

  void hold() {
    say("Answer each question; what stands in brackets is taken for an empty answer.\n"
        "Ctrl-C ends this, and nothing is written.\n\n");
    if (!starter_["plant"]) ask_plant();
    if (!starter_["state"]) ask_state();
    if (!starter_["still"]) ask_still();
    if (!starter_["charge"]) {
      ask_quantity(us() ? "How much herb for all of it, such as 10 oz"
                        : "How much herb for all of it, such as 300 g",
                   "as much as fits", "charge",
                   [](const Recipe& recipe) { return text(*recipe.charge, recipe.units); });
    }
    if (!starter_["site.altitude"]) {
      ask_quantity(
          us() ? "Altitude of the place, such as 1800 ft" : "Altitude of the place, such as 540 m",
          "sea level", "site.altitude",
          [](const Recipe& recipe) { return text(*recipe.site.altitude, recipe.units); });
    }
    if (!asks_for_goal()) ask_goal();
    // On a terminal the recipe would be lost among the answers, so ask for a file.
    if (output_ == standard_output && isatty(STDOUT_FILENO) == 1) ask_file();
    say("\n");
  }

 private:
  bool asks_for_goal() const {
    return std::any_of(starter_.begin(), starter_.end(), [](const auto& entry) {
      return entry.first.starts_with("goal.") && entry.second;
    });
  }
  bool us() const { return value("units") == to_string(Units::us); }
  std::optional<std::string> value(const std::string& path) const {
    const auto entry = starter_.find(path);
    return entry == starter_.end() ? std::nullopt : entry->second;
  }
  Units units() const { return us() ? Units::us : Units::metric; }

  /// The strict reader's faults for this key, and for a file that the answer names.
  std::string faults_at(const std::string& pointer) const {
    std::string words;
    try {
      read(starter_, output_, tables_);
    } catch (const InputError& error) {
      for (Fault fault : error.faults()) {
        if (fault.file.empty() && fault.pointer != pointer) continue;
        if (fault.file.empty()) {
          fault.pointer.clear();
          fault.line = fault.column = 0;  // in a text that nobody has seen
        }
        words += fault.text() + "\n";
      }
    }
    return words;
  }

  bool is_own_file(const std::string& answer, const std::string& path) {
    if (!answer.ends_with(".json")) return false;
    starter_[path] = answer;
    const std::string faults = faults_at(pointer_to(path));
    if (faults.empty()) return true;
    say(faults);
    starter_[path].reset();
    return false;
  }

  void ask_plant() {
    std::vector<Choice> plants;
    for (const auto& [key, plant] : tables_.plants) {
      plants.push_back(
          {key, fmt::format("{}, {}", plant->name, plant->latin), {plant->name, plant->latin}});
    }
    for (;;) {
      const std::string answer =
          answer_to("Which plant (its name or part of it, ? lists all, or a file of your own)");
      if (answer == "?") say(list_of(plants, false));
      if (answer.empty() || answer == "?") continue;
      if (answer.ends_with(".json")) {
        if (is_own_file(answer, "plant")) return;
        continue;
      }
      const std::vector<std::size_t> meant = meant_by(answer, plants);
      if (meant.size() == 1) {
        const Choice& plant = plants[meant.front()];
        say(fmt::format("  {}: {}\n", plant.name, plant.about));
        starter_["plant"] = plant.name;
        return;
      }
      say(not_clear(answer, plants, meant));
    }
  }

  void ask_state() {
    const auto plant = tables_.plants.find(*starter_["plant"]);
    if (plant == tables_.plants.end()) return;  // a user's own file: the reader knows its states
    std::vector<Choice> states;
    for (const auto& entry : plant->second->states) states.push_back({to_string(entry.first), ""});
    starter_["state"] = usual_state(plant->second);
    if (states.size() == 1)
      say(fmt::format("  {} is all that is known of it\n", states.front().name));
    else if (!states.empty())
      starter_["state"] = one_of("In which state", states, *starter_["state"]);
  }

  /// Steam, unless the plant is best distilled in the water, like petals that clump.
  Method first_method() const {
    const auto plant = tables_.plants.find(*value("plant"));
    const bool in_water = plant != tables_.plants.end() && plant->second->best_method &&
                          plant->second->best_method->method == Method::hydro;
    return in_water ? Method::hydro : Method::steam;
  }

  void ask_still() {
    std::vector<Choice> stills;
    std::string fallback;
    for (const auto& [key, still] : tables_.stills) {
      std::vector<std::string> methods;
      for (const Method method : still->methods) methods.push_back(in_words(method));
      if (fallback.empty() && still->methods.front() == first_method()) fallback = key;
      stills.push_back(
          {key,
           fmt::format("{}; pot of {}, {} of {}, {}; {}", still->title,
                       text(still->pot.volume.typical(), units()),
                       plain_words(to_string(still->heater.kind)),
                       text(still->heater.power.typical()),
                       plain_words(to_string(still->condenser.kind)), joined(methods, " or ")),
           {still->title}});
    }
    say(list_of(stills, true));
    for (;;) {
      const std::string answer = answer_to("Which still, or a file of your own", fallback);
      if (answer.ends_with(".json")) {
        if (is_own_file(answer, "still")) return;
        continue;
      }
      if (const auto choice = chosen(answer, stills)) {
        starter_["still"] = *choice;
        return;
      }
    }
  }

  /// An empty answer leaves the key out, which means the default shown in brackets.
  void ask_quantity(const std::string& question, const std::string& fallback,
                    const std::string& path,
                    const std::function<std::string(const Recipe&)>& as_read) {
    for (;;) {
      const std::string answer = answer_to(question, fallback);
      if (answer == fallback) return;
      if (is_taken(answer, path, as_read)) return;
    }
  }

  bool is_taken(const std::string& answer, const std::string& path,
                const std::function<std::string(const Recipe&)>& as_read) {
    starter_[path] = answer;
    const std::string faults = faults_at(pointer_to(path));
    if (faults.empty()) {
      say(fmt::format("  {}\n", as_read(read(starter_, output_, tables_))));
      return true;
    }
    say(faults);
    starter_[path].reset();
    return false;
  }

  void ask_goal() {
    const std::string all = "all";
    const std::string want =
        one_of("What do you want",
               {{"hydrosol", "a certain amount of it"},
                {"oil", "a certain amount of it"},
                {all, "what the herb gives: stop when the oil left is not worth more water"}},
               all);
    if (want == all) return;
    // Suggests what a run without a goal gives, because that can be reached.
    Starter without = starter_;
    const Plan plan = make_plan(completed(without, output_, tables_), tables_);
    const bool workable = plan.run && plan.verdict != Verdict::refused;
    const double runs = plan.charge.runs;
    const bool oil = want == "oil";
    std::string fallback;
    if (workable && oil && plan.run->uncertainty.oil_volume.typical >= millilitres(0.1))
      fallback = text(plan.run->uncertainty.oil_volume.typical * runs, units());
    if (workable && !oil)
      fallback = text(neat_down(plan.run->uncertainty.hydrosol.typical * runs, units()), units());
    for (;;) {
      const std::string answer = answer_to(oil    ? "How much oil, such as 2 mL or 2 g"
                                           : us() ? "How much hydrosol, such as 1 qt or 20 fl oz"
                                                  : "How much hydrosol, such as 500 mL or 1.2 L",
                                           fallback);
      if (is_taken(answer, oil ? "goal.oil" : "goal.hydrosol", goal_as_read)) return;
    }
  }

  static std::string goal_as_read(const Recipe& recipe) {
    if (const auto* hydrosol = std::get_if<HydrosolGoal>(&recipe.goal))
      return text(hydrosol->volume, recipe.units) + " of hydrosol";
    const auto& amount = std::get<OilGoal>(recipe.goal).amount;
    return std::visit([&](auto quantity) { return text(quantity, recipe.units); }, amount) +
           " of oil";
  }

  void ask_file() {
    const std::string stem = starter_["plant"]->ends_with(".json") ? "recipe" : *starter_["plant"];
    std::string fallback = stem + ".json";
    for (int i = 2; is_file(fallback); ++i) fallback = fmt::format("{}-{}.json", stem, i);
    for (;;) {
      const std::string answer =
          answer_to("Write the recipe to which file, or - for none", fallback);
      if (const auto fault = obstacle(answer, force_)) {
        say(fault->text() + "\n");
        continue;
      }
      output_ = answer;
      // A user's own still or plant is looked up in the recipe's folder, so check them again.
      const std::string faults = faults_at("");
      if (faults.empty()) return;
      say(faults);
    }
  }

  Starter& starter_;
  std::string& output_;
  bool force_;
  const Tables& tables_;
};

// Shows the first plan. A terminal gets only the short answer, because a full page would scroll
// away.
void show(const Plan& plan, const std::string& output) {
  if (!to_standard_output(output)) {
    const Look look = look_of_stdout("auto");
    write_result(isatty(STDOUT_FILENO) == 1 ? plan_answer(plan, look) : plan_page(plan, look));
    say(fmt::format("firstdrop: wrote {}. Change it as you like, then:\n  firstdrop plan {}\n",
                    visible(output), visible(output)));
  } else if (isatty(STDERR_FILENO) == 1) {
    say(plan_answer(plan, Look{}));
  } else if (plan.verdict == Verdict::refused) {
    say(plan_head(plan, Look{}));
  }
}

}  // namespace

int new_recipe(const NewOptions& options, const TableFolder& folder) {
  std::string output = options.output;
  if (auto fault = obstacle(output, options.force)) throw InputError(std::move(*fault));
  const Tables tables = folder.tables();
  Starter starter = options.starter;
  if (!(starter["plant"] && starter["still"]) && somebody_answers())
    Interview(starter, output, options.force, tables).hold();

  const Plan plan = [&] {
    try {
      Plan made = make_plan(completed(starter, output, tables), tables);
      add_ways_out(made, tables);
      return made;
    } catch (const InputError& error) {
      throw by_options(error);
    }
  }();
  write_result(starter_recipe(starter), output);
  show(plan, output);
  return plan.verdict == Verdict::refused ? refused : done;
}

}  // namespace firstdrop::cli
