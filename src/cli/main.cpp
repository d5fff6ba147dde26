// The program: reads the command line, calls one command, turns failures into exit statuses.
#include <fmt/core.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <exception>
#include <new>
#include <span>
#include <sstream>
#include <string_view>
#include <system_error>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/help_page.hpp"
#include "cli/output_format.hpp"
#include "firstdrop/base/error.hpp"

namespace {

using namespace firstdrop;

constexpr const char* before_options =
    "Examples:\n"
    "  firstdrop plan my-recipe.json         plan a run and print it\n"
    "  firstdrop new -o my-recipe.json       a recipe to start from, by questions\n"
    "  firstdrop check my-recipe.json        all that is wrong with it\n"
    "  firstdrop sheet my-recipe.json -o run.html   the sheet to print for the bench\n"
    "  firstdrop campaign july.json          several recipes, day by day\n"
    "  firstdrop batch my-recipe.json --summary --vary \"charge=100 g..300 g by 50 g\"\n"
    "                                        what if\n"
    "  firstdrop plants lavender             what is known of a plant, and from where\n"
    "  firstdrop findings reserve-reached    what a finding means, and what to do\n"
    "  firstdrop schemas recipe -o recipe.schema.json   for an editor\n"
    "\n"
    "firstdrop plans a batch of small-scale steam distillation before the heat goes on: how much "
    "herb and water, when the first drop comes, how much hydrosol and oil, how much ice, when to "
    "stop, and how far the pot is from boiling dry.";

constexpr const char* after_options =
    "`firstdrop COMMAND --help` tells more of a command. A file named - is standard input, and for "
    "--output standard output.\n"
    "\n"
    "Exit status: 0 done (also with cautions), 1 the plan is refused, 2 input or usage is wrong, 3 "
    "the system failed.";

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

void add_output(CLI::App& command, std::string& output,
                std::span<const cli::OutputFormat> formats = {}) {
  std::string about = "write to this file, whole or not at all, instead of standard output";
  if (!formats.empty()) {
    about += fmt::format("; a name that ends in {} selects that format",
                         cli::selecting_endings(formats));
  }
  command.add_option("-o,--output", output, about)->option_text("FILE");
}

/// An option that takes one of a few words.
template <class Text>
CLI::Option* add_choice(CLI::App& command, const char* name, Text& word, const char* about,
                        const std::vector<std::string>& words) {
  return command.add_option(name, word, about)
      ->check(CLI::IsMember(words))
      ->option_text(joined(words, "|"));
}

template <class Text>
void add_units(CLI::App& command, Text& units, const char* about) {
  add_choice(command, "--units", units, about, {"metric", "us"});
}

void add_sampling(CLI::App& command, std::string& samples, std::string& jobs) {
  command
      .add_option("--samples", samples, "runs behind the ranges, 16 to 1000000; if left out, 1280")
      ->option_text("NUMBER");
  command
      .add_option("--jobs", jobs,
                  "threads that share them, 1 to 64; changes no figure; if left out, 1")
      ->option_text("NUMBER");
}

CLI::Option* add_format(CLI::App& command, std::string& format) {
  return add_choice(command, "--format", format,
                    "what to write; if left out, by the ending of the file's name, else txt",
                    {"html", "md", "txt"});
}

void add_color(CLI::App& command, std::string& color) {
  add_choice(
      command, "--color", color,
      "colour on the terminal; auto, if left out: where it can show it, unless NO_COLOR is set",
      {"auto", "always", "never"});
}

void add_recipe(CLI::App& command, cli::RecipeOptions& asked) {
  command.add_option("RECIPE", asked.recipe, "recipe file, or - for standard input")->required();
  command
      .add_option("--start", asked.start,
                  "day and local time of heat on, such as 2026-06-20T09:30, in place of the "
                  "recipe's")
      ->option_text("TIME");
  add_units(command, asked.units,
            "what to weigh, pour and read in; if left out, the recipe's, else metric");
  add_sampling(command, asked.samples, asked.jobs);
}

void add_plan(CLI::App& app, const cli::DataFolder& data, cli::PlanOptions& options, int& status) {
  CLI::App* command = app.add_subcommand("plan", "Plan the run that a recipe asks for");
  add_recipe(*command, options.asked);
  CLI::Option* json = command->add_flag("--json", options.json, "print the plan as JSON");
  CLI::Option* explain = command->add_flag(
      "--explain", options.explain, "print every figure with its equation, inputs and source");
  CLI::Option* csv = command->add_flag(
      "--csv", options.csv, "print the timeline as CSV, for spreadsheets and plotting programs");
  command
      ->add_flag("--ics", options.ics,
                 "print the run as an iCalendar file, with alarms on the phone")
      ->excludes(json, explain, csv);
  csv->excludes(json, explain);
  add_output(*command, options.output, cli::plan_formats);
  add_color(*command, options.color);
  command->callback([&] { status = cli::plan(options, cli::TableFolder(data)); });
}

void add_batch(CLI::App& app, const cli::DataFolder& data, cli::BatchOptions& options,
               int& status) {
  CLI::App* command = app.add_subcommand(
      "batch",
      "Plan many recipes, or one in many ways: a line of JSON for each plan, in their order");
  command->footer(batch_examples);
  command
      ->add_option("FILE", options.files,
                   "one recipe, a list of recipes, or JSON Lines; - is standard input")
      ->required();
  command
      ->add_option(
          "--set", options.set,
          "put a value in the place of each recipe's own; keys inside of others with dots: "
          "\"goal.hydrosol=1 L\"; no value leaves the key out")
      ->allow_extra_args(false)
      ->option_text("KEY=VALUE");
  command
      ->add_option(
          "--vary", options.vary,
          "the same with several values, \"still=herb-pot,farm-grid\", or from one to another, "
          "\"charge=100 g..300 g by 50 g\"; several of them give all combinations")
      ->allow_extra_args(false)
      ->option_text("KEY=VALUES");
  command->add_flag(
      "--brief", options.brief,
      "short lines, and no ranges unless --samples asks for them: a hundred times as fast");
  CLI::Option* summary = command->add_flag("--summary", options.summary,
                                           "a table of the whole batch in place of the lines");
  command->add_flag("--json", options.json, "print the summary as JSON")->needs(summary);
  add_units(*command, options.units,
            "what to weigh, pour and read in; if left out, each recipe's, else metric");
  command
      ->add_option("--samples", options.samples,
                   "runs behind the ranges, 16 to 1000000; if left out, 1280, and none for --brief")
      ->option_text("NUMBER");
  command
      ->add_option("--jobs", options.jobs,
                   "threads that plan, 1 to 64; changes no byte of what comes out; if left out, 1")
      ->option_text("NUMBER");
  add_output(*command, options.output);
  command->callback([&] { status = cli::batch(options, cli::TableFolder(data)); });
}

void add_sheet(CLI::App& app, const cli::DataFolder& data, cli::SheetOptions& options,
               int& status) {
  CLI::App* command = app.add_subcommand(
      "sheet", "Write the sheet to work from at the bench: page to print, Markdown or text");
  add_recipe(*command, options.asked);
  add_format(*command, options.format);
  add_output(*command, options.output, cli::sheet_formats);
  command->callback([&] { status = cli::sheet(options, cli::TableFolder(data)); });
}

void add_campaign(CLI::App& app, const cli::DataFolder& data, cli::CampaignOptions& options,
                  int& status) {
  CLI::App* command = app.add_subcommand(
      "campaign", "Plan several recipes on one bench: how many runs, on which days, what to get");
  command->add_option("CAMPAIGN", options.campaign, "campaign file, or - for standard input")
      ->required();
  add_units(*command, options.units,
            "what to weigh, pour and read in; if left out, the campaign's");
  add_sampling(*command, options.samples, options.jobs);
  CLI::Option* json = command->add_flag("--json", options.json, "print the campaign as JSON");
  CLI::Option* ics = command->add_flag(
      "--ics", options.ics, "print its runs as an iCalendar file, with alarms on the phone");
  CLI::Option* run = command
                         ->add_option("--run", options.run,
                                      "write the run sheet of the run of this number instead")
                         ->option_text("NUMBER");
  ics->excludes(json);
  run->excludes(json, ics);
  add_format(*command, options.format)->excludes(json, ics);
  add_output(*command, options.output, cli::campaign_formats);
  add_color(*command, options.color);
  command->callback([&] { status = cli::campaign(options, cli::TableFolder(data)); });
}

void add_new(CLI::App& app, const cli::DataFolder& data, cli::NewOptions& options, int& status) {
  CLI::App* command = app.add_subcommand(
      "new", "Write a recipe to start from and show its plan; on a terminal, ask what is missing");
  Starter& starter = options.starter;
  const auto add = [command](const char* name, std::optional<std::string>& value, const char* about,
                             const char* form) {
    command->add_option(name, value, about)->option_text(form);
  };
  add("--plant", starter.plant, "a key that `firstdrop plants` lists, or a file", "KEY");
  add("--state", starter.state, "if left out, fresh where the plant can be", "fresh|wilted|dried");
  add("--cut", starter.cut, "if left out, chopped; flowers and spikes whole, seeds crushed",
      "whole|chopped|crushed|ground");
  add("--charge", starter.charge, "how much herb, \"300 g\"; if left out, what fits", "MASS");
  add("--still", starter.still, "a key that `firstdrop stills` lists, or a file", "KEY");
  add("--method", starter.method, "if left out, the still's first", "steam|water-and-steam|hydro");
  add("--altitude", starter.site.altitude, "of the place, \"540 m\"", "LENGTH");
  add("--room", starter.site.room, "temperature of the room, \"20 °C\"", "TEMPERATURE");
  add("--coolant", starter.site.coolant, "its temperature at the start, \"14 °C\"", "TEMPERATURE");
  add("--hydrosol", starter.goal.hydrosol, "goal: how much hydrosol, \"800 mL\"", "VOLUME");
  add("--ratio", starter.goal.ratio, "goal: hydrosol per kilogram of fresh herb, \"1.5 L/kg\"",
      "RATIO");
  add("--oil", starter.goal.oil, "goal: how much oil, \"2 mL\" or \"2 g\"", "AMOUNT");
  add("--oil-share", starter.goal.oil_share, "goal: share of the oil to be had here, \"75 %\"",
      "SHARE");
  add("--time", starter.goal.time, "goal: stop by the clock, \"90 min\"", "TIME");
  add_units(*command, starter.units, "what to weigh, pour and read in; if left out, metric");
  add("--title", starter.title, "what to call it", "TEXT");
  add_output(*command, options.output);
  command->add_flag("--force", options.force, "write over a file that exists");
  command->callback([&] { status = cli::new_recipe(options, cli::TableFolder(data)); });
}

std::string version(const cli::DataFolder& data) {
  const std::string origin = cli::TableFolder(data).origin();
  return "firstdrop " FIRSTDROP_VERSION + (origin.empty() ? "" : "\n" + origin);
}

void add_schemas(CLI::App& app, const cli::DataFolder& data, cli::SchemasOptions& options,
                 int& status) {
  CLI::App* command =
      app.add_subcommand("schemas", "List the JSON Schemas of files and output, or write one");
  command->add_option("KEY", options.key, "the schema to write; if left out, the list of all");
  add_output(*command, options.output);
  command->callback([&] { status = cli::schemas(options, cli::TableFolder(data)); });
}

int run(int argc, char** argv) {
  CLI::App app(before_options, "firstdrop");
  app.formatter(cli::help_format());
  app.set_help_flag("-h,--help", "print this page and end");
  app.require_subcommand(1);
  app.fallthrough();  // options of all commands may also follow the command
  cli::DataFolder data;
  app.add_option("--data", data,
                 "read the tables from this folder, before or behind the command; what it has not "
                 "is as compiled in; if left out, FIRSTDROP_DATA may name it")
      ->option_text("FOLDER")
      ->envname("FIRSTDROP_DATA");
  // Added after --data, because its text names the folder that --data gives.
  app.set_version_flag(
      "--version", [&data] { return version(data); }, "print the version and end");
  int status = cli::done;

  cli::PlanOptions plan;
  add_plan(app, data, plan, status);

  cli::BatchOptions batch;
  add_batch(app, data, batch, status);

  cli::SheetOptions sheet;
  add_sheet(app, data, sheet, status);

  cli::CampaignOptions campaign;
  add_campaign(app, data, campaign, status);

  cli::NewOptions start;
  add_new(app, data, start, status);

  // One command for each table.
  const std::vector<std::pair<std::string, std::string>> tables = {
      {"plants", "List the plants, or show one whole"},
      {"liquids", "List the constituents of oils, or show one whole"},
      {"stills", "List the example stills, or show one whole"},
      {"findings", "List what a plan may say, or show one finding whole"},
      {"sources", "List the sources of all figures, or show one whole"},
  };
  cli::TableOptions table;
  for (const auto& [name, words] : tables) {
    CLI::App* command = app.add_subcommand(name, words);
    command->add_option("KEY", table.key, "the entry to show; if left out, the list of all");
    command->add_flag("--json", table.json, "print as JSON");
    add_output(*command, table.output, cli::table_formats);
    if (name == "plants" || name == "stills" || name == "liquids") {
      add_units(*command, table.units, "what to show figures of the bench in");
    }
    command->callback([&, key = name] {
      table.table = key;
      status = cli::table(table, cli::TableFolder(data));
    });
  }

  cli::SchemasOptions schemas;
  add_schemas(app, data, schemas, status);

  cli::CheckOptions check;
  CLI::App* check_command =
      app.add_subcommand("check", "Say all that is wrong in files, and plan nothing");
  check_command
      ->add_option("FILE", check.files,
                   "recipes, campaigns, stills, plants, or JSON Lines of them; - is standard input")
      ->required();
  check_command->callback([&] { status = cli::check(check, cli::TableFolder(data)); });

  app.footer(after_options);  // set last, or the commands would inherit it

  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    // Help and version are results; anything else is wrong usage.
    if (error.get_exit_code() == 0) {
      std::ostringstream page;
      app.exit(error, page, page);
      cli::write_result(page.str());
      return cli::done;
    }
    cli::say(fmt::format("firstdrop: {}\nTry `firstdrop --help`.\n", visible(error.what())));
    return cli::bad_input;
  }
  return status;
}

/// Whether the system refused to start a thread. Nothing else gives this error code.
bool is_of_a_thread(const std::exception& error) {
  const auto* of_system = dynamic_cast<const std::system_error*>(&error);
  return of_system != nullptr && of_system->code() == std::errc::resource_unavailable_try_again;
}

/// Reports that memory ran out. Allocates no memory itself.
void out_of_memory() {
  constexpr std::string_view words =
      "firstdrop: out of memory; raise the limit of this shell (ulimit -v), or ask for fewer "
      "--samples or --jobs\n";
  if (::write(STDERR_FILENO, words.data(), words.size()) < 0) return;  // nowhere else to report it
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const InputError& error) {
    for (const Fault& fault : error.faults()) cli::say("firstdrop: " + fault.text() + "\n");
    return cli::bad_input;
  } catch (const RangeError& error) {
    cli::say(fmt::format("firstdrop: {}\n", error.what()));
    return cli::bad_input;
  } catch (const std::bad_alloc&) {
    out_of_memory();
    return cli::system_failed;
  } catch (const std::exception& error) {
    if (is_of_a_thread(error)) {
      cli::say(
          "firstdrop: cannot start another thread; ask for fewer with --jobs, or raise the limits "
          "of this shell (ulimit -u, ulimit -v)\n");
      return cli::system_failed;
    }
    cli::say(fmt::format("firstdrop: {}\n", error.what()));
    return cli::system_failed;
  }
}
