#include "cli/parser.hpp"

#include <fmt/core.h>

#include <CLI/CLI.hpp>
#include <array>
#include <cctype>
#include <map>
#include <optional>
#include <span>
#include <sstream>
#include <utility>

#include "base/suggestion.hpp"
#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "campaign/documents.hpp"
#include "cli/file_help.hpp"
#include "cli/help_page.hpp"
#include "cli/key_option.hpp"
#include "cli/output_format.hpp"
#include "cli/still_interview.hpp"
#include "quantity/words.hpp"
#include "readers/documents.hpp"

namespace firstdrop::cli {
namespace {

constexpr const char* before_options =
    "Examples:\n"
    "  firstdrop plan my-recipe.json         plan a run and print it\n"
    "  firstdrop new -o my-recipe.json       write a first recipe by answering questions\n"
    "  firstdrop check my-recipe.json        list what is wrong in it\n"
    "  firstdrop sheet my-recipe.json -o run.html   the sheet to print for the bench\n"
    "  firstdrop campaign july.json          plan several recipes, day by day\n"
    "  firstdrop batch my-recipe.json --summary --vary \"charge=100 g..300 g by 50 g\"\n"
    "                                        what if\n"
    "  firstdrop plants lavender             what is known about a plant, and from where\n"
    "  firstdrop findings reserve-reached    what a finding means, and what to do\n"
    "  firstdrop schemas recipe -o recipe.schema.json   a schema for your editor\n"
    "\n"
    "firstdrop plans a batch of small-scale steam distillation before you turn on the heat: how "
    "much herb and water, when the first drop comes, how much hydrosol and oil, how much ice, when "
    "to stop, and how far the pot is from boiling dry.";

constexpr const char* after_options =
    "`firstdrop help COMMAND` describes a command, and `firstdrop help recipe` the keys of a "
    "recipe. A file named - is standard input, and for "
    "--output standard output.\n"
    "\n"
    "Exit status: 0 done (also with cautions), 1 the plan is refused, 2 input or usage is wrong, 3 "
    "the system failed.";

constexpr const char* water_run_examples =
    "Examples:\n"
    "  firstdrop water-run bench-column        the sheet\n"
    "  firstdrop water-run bench-column --boil \"11.5 min\" --caught \"102 mL at 19 min\" \\\n"
    "    --caught \"246 mL at 28 min\" -o my-measured-still.json";

constexpr const char* batch_examples =
    "Examples:\n"
    "  firstdrop batch recipes.jsonl --jobs 4 >plans.jsonl\n"
    "  firstdrop batch recipes.jsonl --summary\n"
    "  firstdrop batch my-recipe.json --summary --vary \"charge=100 g..300 g by 50 g\"\n"
    "  firstdrop batch my-recipe.json --brief --set \"goal.hydrosol=500 mL\" \\\n"
    "    --vary \"site.altitude=0 m,1500 m\" --vary \"still.heater.power=800 W,1200 W\"\n"
    "\n"
    "A recipe that is broken becomes a line with \"error\", its file, line and reason. The exit "
    "status is that of the worst: 0 all may be run, 1 some are refused, 2 some are broken.";

// The kinds of files whose keys `firstdrop help` lists. A campaign is a command, too.
constexpr std::array files_with_help = {"recipe", "still", "plant"};

const char* const samples_help =
    "How many simulated runs the ranges are computed from, 16 to 1000000.";
const char* const units_help =
    "Units of your scale, jug and thermometer. Amounts are rounded to what these can show. JSON "
    "and CSV are metric in any case.";

Value text(const char* name) {
  return {Value::Kind::text, name};
}
Value word(std::vector<std::string> words) {
  const std::string name = joined(words, "|");
  return {Value::Kind::word, name, std::move(words)};
}
Value file(const char* name, std::vector<std::string> endings = {}) {
  return {Value::Kind::file, name, std::move(endings)};
}
Value key(const std::string& table) {
  return {Value::Kind::key, "KEY", {}, table};
}
Value key_or_file(const std::string& table) {
  return {Value::Kind::key_or_file, "KEY", {"json"}, table};
}

/// What an option for a recipe's key takes.
Value value_of_key(const Key& key) {
  if (key.form == KeyForm::choice) return word(key.words);
  if (key.form == KeyForm::reference) return key_or_file(key.table + "s");
  std::vector<std::string> kinds;
  for (const KeyQuantity& one : key.quantities) kinds.push_back(one.kind.name);
  std::string name = kinds.empty() ? "text" : joined(kinds, "|");
  for (char& c : name) c = c == ' ' ? '-' : static_cast<char>(std::toupper(c));
  return {Value::Kind::text, std::move(name)};
}

std::string version(const DataFolder& data) {
  const std::string origin = TableFolder(data).origin();
  return "firstdrop " FIRSTDROP_VERSION + (origin.empty() ? "" : "\n" + origin);
}

}  // namespace

struct Parser::Definition {
  CLI::App app{before_options, "firstdrop"};
  Options options;
  std::map<const CLI::Option*, Value> values;

  Definition() {
    app.formatter(help_format());
    app.set_help_flag("-h,--help", "Print help and end.");
    app.require_subcommand(1);
    app.fallthrough();  // options of all commands may also follow the command
    add(app, "--data", options.data, {Value::Kind::folder, "FOLDER"},
        "Read tables from this folder; built-in tables fill the gaps. May stand before or after "
        "the command. If left out, FIRSTDROP_DATA in the environment may name a folder.")
        ->envname("FIRSTDROP_DATA");
    // Added after --data, because its text names the folder that --data gives.
    app.set_version_flag(
        "--version", [this] { return version(options.data); },
        "Print the version and end. With a folder of tables, also say which tables come from it.");
    add_plan();
    add_batch();
    add_sheet();
    add_campaign();
    add_new();
    add_water_run();
    const char* const json_help = "Print as JSON.";
    const char* const json_of_own =
        "Print as JSON. One entry printed this way is a file to change into your own.";
    add_table("plants", "List the plants, find some by name or form, or show one in full",
              json_of_own);
    add_table("liquids", "List the constituents of oils, find some, or show one in full",
              json_help);
    add_table("stills", "List the example stills, find some, or show one in full", json_of_own);
    add_table("findings", "List what a plan may say, or show one finding in full", json_help);
    add_table("sources", "List the sources of all figures, find some, or show one in full",
              json_help);
    add_schemas();
    add_check();
    add_help();
    app.footer(after_options);  // set last, or the commands would inherit it
  }

  /// An option that takes a value, or an argument if its name has no dashes.
  template <class T>
  CLI::Option* add(CLI::App& to, const std::string& name, T& variable, Value value,
                   const std::string& help) {
    CLI::Option* option = to.add_option(name, variable, help);
    if (option->nonpositional()) option->option_text(value.name);
    values[option] = std::move(value);
    return option;
  }
  /// An option whose words the parser itself checks.
  template <class T>
  CLI::Option* add_choice(CLI::App& to, const std::string& name, T& variable,
                          const std::vector<std::string>& words, const std::string& help) {
    return add(to, name, variable, word(words), help)->check(CLI::IsMember(words));
  }
  template <class Asked>
  CLI::App& add_command(const std::string& name, const std::string& about, const Asked& asked,
                        int (*command)(const Asked&, const TableFolder&)) {
    CLI::App* added = app.add_subcommand(name, about);
    added->callback([this, &asked, command] {
      options.run = [&asked, command](const TableFolder& folder) { return command(asked, folder); };
    });
    return *added;
  }

  void add_output(CLI::App& to, std::string& output, std::span<const OutputFormat> formats,
                  const std::vector<std::string>& endings = {}) {
    std::string help =
        "Write to this file instead of standard output. It is written in full or not at all.";
    if (!formats.empty()) {
      help +=
          fmt::format(" A name that ends in {} selects that format.", selecting_endings(formats));
    }
    add(to, "-o,--output", output, file("FILE", endings), help);
  }

  template <class T>
  void add_units(CLI::App& to, T& units, const std::string& help) {
    add_choice(to, "--units", units, all_words<Units>(), help);
  }

  void add_sampling(CLI::App& to, std::string& samples, std::string& jobs) {
    add(to, "--samples", samples, text("NUMBER"),
        fmt::format("{} If left out, 1280.", samples_help));
    add(to, "--jobs", jobs, text("NUMBER"),
        "How many threads compute the ranges, 1 to 64. The figures are the same for any number. If "
        "left out, 1.");
  }

  CLI::Option* add_format(CLI::App& to, std::string& format) {
    return add_choice(to, "--format", format, format_names(sheet_formats),
                      "What to write: plain text, a page to print, or Markdown. If left out, the "
                      "ending of the file's name decides, else txt.");
  }

  void add_color(CLI::App& to, std::string& color) {
    add_choice(to, "--color", color, {"auto", "always", "never"},
               "Colour on the terminal. If left out, auto: colour where the terminal can show it, "
               "unless NO_COLOR is set. A file gets none.");
  }

  void add_recipe(CLI::App& to, RecipeOptions& asked) {
    add(to, "RECIPE", asked.recipe, file("RECIPE", {"json"}),
        "The recipe's file, or - for standard input.")
        ->required();
    add(to, "--start", asked.start, text("TIME"),
        "Day and local time at which heating starts, such as \"2026-06-20 9:30\", \"today 14:00\" "
        "or \"tomorrow 9:30 am\". It replaces the recipe's. Clock times then stand beside the "
        "minutes.");
    add_units(to, asked.units,
              fmt::format("{} If left out, the recipe's, else metric.", units_help));
    add_sampling(to, asked.samples, asked.jobs);
  }

  void add_plan() {
    PlanOptions& asked = options.plan;
    CLI::App& to = add_command("plan", "Plan the run that a recipe asks for", asked, cli::plan);
    add_recipe(to, asked.asked);
    CLI::Option* json =
        to.add_flag("--json", asked.json,
                    "Print the plan as JSON. With --explain, it also has every figure one by one.");
    CLI::Option* explain =
        to.add_flag("--explain", asked.explain,
                    "Print every figure with its equation, inputs and source. They come in an "
                    "order in which you can check them with a pocket calculator.");
    CLI::Option* csv = to.add_flag(
        "--csv", asked.csv, "Print the timeline as CSV, for spreadsheets and plotting programs.");
    to.add_flag("--ics", asked.ics,
                "Print the run as an iCalendar file, with alarms on the phone. The recipe or "
                "--start must say when heating starts.")
        ->excludes(json, explain, csv);
    csv->excludes(json, explain);
    add_output(to, asked.output, plan_formats);
    add_color(to, asked.color);
  }

  void add_sheet() {
    SheetOptions& asked = options.sheet;
    CLI::App& to = add_command(
        "sheet", "Write the sheet to work from at the bench: page to print, Markdown or text",
        asked, cli::sheet);
    add_recipe(to, asked.asked);
    add_format(to, asked.format);
    add_output(to, asked.output, sheet_formats, format_names(sheet_formats));
  }

  void add_batch() {
    BatchOptions& asked = options.batch;
    CLI::App& to = add_command(
        "batch",
        "Plan many recipes, or one in many ways: a line of JSON for each plan, in their order",
        asked, cli::batch);
    to.footer(batch_examples);
    add(to, "FILE", asked.files, file("FILE", {"json", "jsonl"}),
        "One recipe, a list of recipes, or JSON Lines; - is standard input.")
        ->required();
    add(to, "--set", asked.set, {Value::Kind::setting, "KEY=VALUE"},
        "Override a value in every recipe. Dots reach nested keys: \"goal.hydrosol=1 L\". An empty "
        "value removes the key. May be given several times.")
        ->allow_extra_args(false);
    add(to, "--vary", asked.vary, {Value::Kind::settings, "KEY=VALUES"},
        "Plan each recipe once for each of several values. Write \"still=herb-pot,farm-grid\", or "
        "in steps from one to another \"charge=100 g..300 g by 50 g\". If given several times, all "
        "combinations are planned.")
        ->allow_extra_args(false);
    to.add_flag("--brief", asked.brief,
                "Write short lines of the nominal run, about a hundred times as fast. They have no "
                "notes, sources or timeline; with --samples, they have ranges.");
    CLI::Option* summary = to.add_flag("--summary", asked.summary,
                                       "Print a table of the whole batch in place of the lines. "
                                       "With --vary, it has a row for each combination.");
    to.add_flag("--json", asked.json, "Print the summary as JSON.")->needs(summary);
    add_units(to, asked.units,
              fmt::format("{} If left out, each recipe's, else metric.", units_help));
    add(to, "--samples", asked.samples, text("NUMBER"),
        fmt::format("{} If left out, 1280; but --brief then has no ranges.", samples_help));
    add(to, "--jobs", asked.jobs, text("NUMBER"),
        "How many threads plan, 1 to 64. The output is the same to the byte for any number. If "
        "left out, 1.");
    add_output(to, asked.output, {});
  }

  void add_campaign() {
    CampaignOptions& asked = options.campaign;
    CLI::App& to = add_command(
        "campaign", "Plan several recipes on one bench: how many runs, on which days, what to get",
        asked, cli::campaign);
    add(to, "CAMPAIGN", asked.campaign, file("CAMPAIGN", {"json"}),
        "The campaign's file, or - for standard input.")
        ->required();
    add_units(to, asked.units,
              fmt::format("{} If left out, the campaign's, else metric.", units_help));
    add_sampling(to, asked.samples, asked.jobs);
    CLI::Option* json = to.add_flag("--json", asked.json, "Print the campaign as JSON.");
    CLI::Option* ics = to.add_flag(
        "--ics", asked.ics,
        "Print its runs, and the ice for them, as an iCalendar file, with alarms on the phone.");
    CLI::Option* run = add(to, "--run", asked.run, text("NUMBER"),
                           "Write the run sheet for the run of this number instead.");
    ics->excludes(json);
    run->excludes(json, ics);
    add_format(to, asked.format)->excludes(json, ics);
    add_output(to, asked.output, campaign_formats);
    add_color(to, asked.color);
  }

  void add_check() {
    CheckOptions& asked = options.check;
    CLI::App& to =
        add_command("check", "List what is wrong in files, and plan nothing", asked, cli::check);
    add(to, "FILE", asked.files, file("FILE", {"json", "jsonl"}),
        "Recipes, campaigns, stills, plants, or JSON Lines of them; - is standard input.")
        ->required();
  }

  void add_new() {
    NewOptions& asked = options.new_recipe;
    CLI::App& to = add_command(
        "new",
        "Write a recipe to start from and show its plan, or describe your still; on a terminal, "
        "ask what is missing",
        asked, cli::new_document);
    add(to, "WHAT", asked.what, word({"recipe", "still"}), "What to write. If left out, a recipe.");
    // The recipe's reader checks these values, and names what it would accept.
    for (const char* path :
         {"plant", "state", "cut", "charge", "still", "method", "site.place", "site.altitude",
          "site.room", "site.coolant", "goal.hydrosol", "goal.ratio", "goal.oil", "goal.oil_share",
          "goal.time", "units", "title"})
      add_recipe_key(to, path, asked.starter[path]);
    for (const StillQuestion& question : still_questions())
      add_still_key(to, question, asked.still[question.path]);
    add_output(to, asked.output, {});
    to.add_flag("--force", asked.force, "Overwrite a file that exists.");
  }

  /// An option that gives a figure of a new still.
  void add_still_key(CLI::App& to, const StillQuestion& question,
                     std::optional<std::string>& value) {
    const Key& key = still_key(question.path);
    std::string help = question.ask + '.';
    if (!key.example.empty()) help += fmt::format(" For example \"{}\".", key.example);
    if (!key.left_out.empty()) help += fmt::format(" If left out: {}.", key.left_out);
    Value takes = value_of_key(key);
    if (key.form == KeyForm::choice) {
      takes.name = "KIND";  // its words would make the help wide
      help += " One of " + joined(key.words, ", ") + '.';
    }
    add(to, option_of_still_key(question.path), value, takes, help)->group("Of a new still");
  }

  void add_water_run() {
    WaterRunOptions& asked = options.water_run;
    CLI::App& to = add_command("water-run",
                               "Measure your still's heat with water alone: write the sheet for "
                               "that, then work out the readings",
                               asked, cli::water_run);
    to.footer(water_run_examples);
    add(to, "STILL", asked.still, {Value::Kind::key_or_file, "STILL", {"json"}, "stills"},
        "A still of the table, the file of your own still, or a recipe, which needs no plant here. "
        "- is standard input.")
        ->required();
    // The recipe's reader checks these values.
    add_recipe_key(to, "setting", asked.setting);
    add_recipe_key(to, "site.altitude", asked.altitude);
    add_recipe_key(to, "site.room", asked.room);
    add(to, "--fill", asked.fill, text("MASS|VOLUME"),
        "Water that you pour into the pot. If left out, the recipe's, or half of what the pot may "
        "be filled with.");
    add_units(to, asked.units,
              fmt::format("{} If left out, the recipe's, else metric.", units_help));
    add(to, "--boil", asked.boil, text("DURATION"),
        "When the water boiled, counted from the start of heating. Without this and the next four "
        "options, the sheet is written.");
    add(to, "--first-drop", asked.first_drop, text("DURATION"), "When the first drop fell.");
    add(to, "--caught", asked.caught, text("LEVEL"),
        "A level of the jug and its time, such as \"102 mL at 19 min\". May be given several "
        "times. The heat goes off at the last.")
        ->allow_extra_args(false);
    add(to, "--left", asked.left, text("MASS"), "Water left in the pot, weighed when it was cold.");
    add(to, "--energy", asked.energy, text("ENERGY"), "What an energy meter showed.");
    add(to, "--day", asked.day, text("DAY"),
        "The day of the run, such as 2026-12-01 or yesterday. If left out, today.");
    CLI::Option* json = to.add_flag("--json", asked.json, "Print what the readings show as JSON.");
    add_format(to, asked.format)->excludes(json);
    add(to, "-o,--output", asked.output, file("FILE", {"txt", "html", "md", "json"}),
        "Write the sheet to this file; a name that ends in .html or .md selects that format. With "
        "readings, write your still's file with the measured figures, whose name ends in .json. It "
        "is written in full or not at all.");
    to.add_flag("--force", asked.force, "Overwrite a file that exists.");
    add_color(to, asked.color);
  }

  /// An option that gives the value of a recipe's key.
  void add_recipe_key(CLI::App& to, const std::string& path, std::optional<std::string>& value) {
    const Key& key = recipe_key(path);
    std::string help = key.help;
    if (!key.example.empty() && key.form != KeyForm::reference)
      help += fmt::format(" For example \"{}\".", key.example);
    const std::string& left_out = key.left_out.empty() ? key.standard : key.left_out;
    if (!left_out.empty()) help += fmt::format(" If left out: {}.", left_out);
    CLI::Option* option = add(to, option_of_key(path), value, value_of_key(key), help);
    if (path.starts_with("goal.")) option->group("Goal, one of");
  }

  void add_table(const std::string& name, const char* about, const std::string& json_help) {
    TableOptions& asked = options.tables[name];
    asked.table = name;
    CLI::App& to = add_command(name, about, asked, cli::table);
    add(to, "KEY", asked.words, key(name),
        "The entry to show in full, by its key or its exact name. Any other words list the entries "
        "that have all of them. If left out, the list of all.");
    to.add_flag("--json", asked.json, json_help + " A list is an object of entries by their keys.");
    add_output(to, asked.output, table_formats);
    if (name == "plants" || name == "stills" || name == "liquids") {
      add_units(to, asked.units, "Units for the figures of the bench. If left out, metric.");
    }
  }

  std::vector<KnownName> commands() const {
    std::vector<KnownName> names;
    for (const CLI::App* command : app.get_subcommands({})) names.push_back({command->get_name()});
    return names;
  }

  void add_help() {
    std::vector<std::string> topics;
    for (const KnownName& command : commands()) topics.push_back(command.name);
    for (const char* file : files_with_help) topics.emplace_back(file);
    CLI::App* to = app.add_subcommand("help", "Describe a command or the keys of a kind of file");
    add(*to, "NAME", options.help.topic, {Value::Kind::word, "NAME", topics},
        "A command; or recipe, still or plant, for the keys of such a file. If left out, the "
        "program and its commands.");
  }

  /// The page that `firstdrop help` prints. Throws InputError.
  std::string help_page() const {
    const std::string& topic = options.help.topic;
    const auto formatter = app.get_formatter();
    if (topic.empty())
      return formatter->make_help(&app, app.get_name(), CLI::AppFormatMode::Normal);
    for (const CLI::App* command : app.get_subcommands({}))
      if (command->get_name() == topic) return command->help(app.get_name());
    std::vector<KnownName> known = commands();
    for (const char* file : files_with_help) known.push_back({file});
    for (const Document& document : documents())
      if (document.name == topic) return file_help(document);
    throw InputError(Fault{"", "", fmt::format("There is no help on {}", firstdrop::quoted(topic)),
                           "", did_you_mean(topic, known, "firstdrop help"), 0, 0});
  }

  /// The error for a line that the parser refused.
  [[noreturn]] void refuse(const CLI::ParseError& error) const {
    const std::vector<std::string> rest = app.remaining();
    if (app.get_subcommands().empty() && !rest.empty() && !rest.front().starts_with('-')) {
      throw InputError(Fault{"", "",
                             fmt::format("There is no command {}", firstdrop::quoted(rest.front())),
                             "", did_you_mean(rest.front(), commands(), "firstdrop help"), 0, 0});
    }
    if (app.get_subcommands().empty() && rest.empty())
      throw UsageError("Name a command, such as plan. `firstdrop help` lists all");
    throw UsageError(error.what());
  }

  void add_schemas() {
    SchemasOptions& asked = options.schemas;
    CLI::App& to = add_command("schemas", "List the JSON Schemas of files and output, or write one",
                               asked, cli::schemas);
    add(to, "KEY", asked.key, key("schemas"), "The schema to write. If left out, the list of all.");
    add_output(to, asked.output, {});
  }

  OptionDescription described(const CLI::Option* option, const CLI::App& of) const {
    OptionDescription one;
    for (const std::string& name : option->get_snames()) one.names.push_back("-" + name);
    for (const std::string& name : option->get_lnames()) one.names.push_back("--" + name);
    const auto value = values.find(option);
    if (value != values.end()) one.value = value->second;
    one.help = help_of(option, &of);
    one.required = option->get_required();
    one.repeats = option->get_expected_max() > 1;
    one.ends = option == of.get_help_ptr() || option == of.get_version_ptr();
    one.excludes = names_of(option->get_excludes(), &of);
    if (option->get_group() == CLI::OptionDefaults().get_group()) return one;
    one.one_of = option->get_group();
    for (const CLI::Option* other : of.get_options({}))
      if (other != option && other->get_group() == option->get_group())
        one.excludes.push_back(other->get_name(false, false));
    return one;
  }
};

Parser::Parser() : definition_(std::make_unique<Definition>()) {}
Parser::~Parser() = default;

const Options& Parser::options() const {
  return definition_->options;
}

std::optional<std::string> Parser::parse(int argc, const char* const* argv) {
  try {
    definition_->app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    if (error.get_exit_code() != 0) definition_->refuse(error);
    std::ostringstream page;  // help or version
    definition_->app.exit(error, page, page);
    return page.str();
  }
  if (definition_->app.got_subcommand("help")) return definition_->help_page();
  return std::nullopt;
}

CommandLine Parser::description() const {
  const CLI::App& app = definition_->app;
  CommandLine line;
  for (const CLI::Option* option : app.get_options({})) {
    OptionDescription one = definition_->described(option, app);
    one.after_command = option != app.get_version_ptr();
    line.options.push_back(std::move(one));
  }
  for (const CLI::App* command : app.get_subcommands({})) {
    CommandDescription one{command->get_name(), command->get_description(), {}, {}};
    for (const CLI::Option* option : command->get_options({})) {
      if (option == command->get_help_ptr()) continue;
      auto& where = option->get_positional() ? one.arguments : one.options;
      where.push_back(definition_->described(option, *command));
    }
    line.commands.push_back(std::move(one));
  }
  return line;
}

}  // namespace firstdrop::cli
