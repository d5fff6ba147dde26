#include <fmt/core.h>

#include <algorithm>
#include <chrono>
#include <utility>
#include <variant>

#include "base/visible_text.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/key_list.hpp"
#include "cli/made_at.hpp"
#include "cli/new_file.hpp"
#include "cli/output_format.hpp"
#include "cli/pages/water_run_page.hpp"
#include "cli/units_option.hpp"
#include "firstdrop/base/error.hpp"
#include "json/json_edit.hpp"
#include "json/json_reader.hpp"
#include "learning/water_run_plan.hpp"
#include "output/measured_still.hpp"
#include "output/water_run_outputs.hpp"
#include "output/water_run_sheet.hpp"
#include "physics/water.hpp"
#include "quantity/clock_time.hpp"
#include "quantity/range_text.hpp"
#include "quantity/water_amount.hpp"
#include "readers/field_bounds.hpp"
#include "readers/recipe_document.hpp"
#include "readers/starter.hpp"
#include "readers/table_entries.hpp"

namespace firstdrop::cli {
namespace {

InputError wrong_option(const std::string& option, const std::string& found,
                        const std::string& wanted, const std::string& hint = "") {
  return InputError(Fault{"", "", fmt::format("{} for {}", found, option), wanted, hint, 0, 0});
}

/// Reads the amount that an option gives.
template <class Q>
Typed<Q> amount_of(const std::string& option, const std::string& text, const Bounds<Q>& bounds) {
  const auto amount = parse_within(text, bounds);
  if (!amount)
    throw wrong_option(option, amount.fault.found, amount.fault.wanted, amount.fault.hint);
  if (!bounds.holds(*amount))
    throw wrong_option(option, firstdrop::quoted(text), "a value " + bounds.text());
  return {*amount, text};
}
template <class Q>
std::optional<Typed<Q>> amount_if_given(const std::string& option,
                                        const std::optional<std::string>& text,
                                        const Bounds<Q>& bounds) {
  return text ? std::optional(amount_of(option, *text, bounds)) : std::nullopt;
}

// A water run may draw less than any recipe pours in.
constexpr auto drawn_water = least_to(Least{millilitres(1), "1 mL"}, 1000, "L", litres);
constexpr Energy kilowatt_hours(double x) {
  return joules(x * 3.6e6);
}
constexpr auto energy_drawn = up_to(1000, "kWh", kilowatt_hours);

/// "102 mL at 19 min".
WaterRunLog::Mark mark_of(const std::string& text) {
  const std::string between = " at ";
  const std::size_t at = text.find(between);
  if (at == std::string::npos)
    throw wrong_option("--caught", firstdrop::quoted(text), "a level and its time",
                       "for example, \"102 mL at 19 min\"");
  return {amount_of("--caught", text.substr(0, at), drawn_water),
          amount_of("--caught", text.substr(at + between.size()), bounds::boil_time)};
}

WaterRunLog log_of(const WaterRunOptions& options) {
  WaterRunLog log;
  log.boil = amount_if_given("--boil", options.boil, bounds::boil_time);
  log.first_drop = amount_if_given("--first-drop", options.first_drop, bounds::boil_time);
  for (const std::string& text : options.caught) log.caught.push_back(mark_of(text));
  log.left = amount_if_given("--left", options.left, bounds::charge);
  log.energy = amount_if_given("--energy", options.energy, energy_drawn);
  if (!log.boil && !log.first_drop && log.caught.empty())
    throw InputError(Fault{"", "", "Nothing says how much heat gets into the pot",
                           "Write --boil, --first-drop or --caught as well", "", 0, 0});
  if ((log.left || log.energy) && log.caught.empty())
    throw InputError(Fault{"", "", "Nothing says when the heat went off",
                           "Write --caught as well: --left and --energy count from its last time",
                           "", 0, 0});
  return log;
}

/// Throws InputError if the log has more water than was poured in.
void check_log(const WaterRunLog& log, const WaterRunSetup& setup, Units units) {
  const std::string poured = text(setup.fill, units);
  const Volume pot = most_of(setup.still.pot.volume);
  if (setup.fill / liquid_density(setup.poured) > pot)
    throw wrong_option("--fill", poured + " of water",
                       fmt::format("no more than the pot's {}", text(pot, units)));
  if (log.left && log.left->value > setup.fill)
    throw wrong_option("--left", firstdrop::quoted(log.left->text),
                       "no more than the " + poured + " poured in",
                       "if you poured in more, give --fill");
  for (const WaterRunLog::Mark& mark : log.caught)
    if (mark.volume.value * setup.water.fill_density > setup.fill)
      throw wrong_option("--caught", firstdrop::quoted(mark.volume.text),
                         "no more than the " + poured + " poured in",
                         "if you poured in more, give --fill");
}

bool has_entries(const WaterRunOptions& options) {
  return options.boil || options.first_drop || !options.caught.empty() || options.left ||
         options.energy;
}

// --- the still

/// The still, with the site and the settings of its run.
struct Asked {
  Recipe recipe;      ///< without a plant
  std::string still;  ///< the text of a still's file
};

std::vector<Override> overrides_of(const WaterRunOptions& options) {
  std::vector<Override> overrides;
  const auto add = [&](std::vector<std::string> path, const char* option,
                       const std::optional<std::string>& text) {
    if (text) overrides.push_back({std::move(path), json_text(*text), option});
  };
  add({"setting"}, "--setting", options.setting);
  add({"site", "altitude"}, "--altitude", options.altitude);
  add({"site", "room"}, "--room", options.room);
  return overrides;
}

/// An entry of the table of stills as a file of one's own: with the marker, and with the margin
/// that the entry has in its table taken away.
std::string own_still(std::string_view entry) {
  const std::string margin = "\n    ";
  std::string text = "{\n  \"still\": 1," + std::string(entry.substr(1));
  for (std::size_t at = 0; (at = text.find(margin, at)) != std::string::npos; ++at)
    text.erase(at + 1, margin.size() - 1);
  return text + "\n";
}

/// The text of a still's file: of the still that a recipe names or spells out.
std::string still_of_recipe(const std::string& content, const FileReader& beside,
                            const TableTexts& tables) {
  json::Context context;
  const auto root = json::parse(content, context);
  if (!root) context.finish();
  for (const json::Node& member : root->children) {
    if (member.key != "still") continue;
    if (member.kind == json::Kind::object)
      return json::with_value(std::string(json::value_at(content, member.begin)), {"still"}, "1");
    if (const auto entry = table_entry(member.text, tables.stills)) return own_still(*entry);
    return beside(member.text);
  }
  return "";
}

Asked asked_for(const WaterRunOptions& options, const Tables& tables, const TableTexts& texts) {
  const std::string& named = options.still;
  const std::vector<Override> overrides = overrides_of(options);
  const auto with_still = [&](const std::string& name, const FileReader& reader) {
    return RecipeDocument(starter_recipe({{"still", name}}), "")
        .read_without_plant(tables, reader, overrides);
  };
  Asked asked;
  if (const auto entry = table_entry(named, texts.stills)) {
    asked = {with_still(named, nullptr), own_still(*entry)};
  } else if (!named.ends_with(".json") && named != "-") {
    std::vector<KnownName> known;
    for (const auto& still : tables.stills) known.push_back({still.first});
    throw no_such_name(named, "stills", known);
  } else {
    std::string content = read_text_file(named);
    if (document_kind(content) == DocumentKind::still) {
      const std::string name = named == "-" ? "-.json" : named;
      Recipe recipe = with_still(name, [&](const std::string&) { return content; });
      asked = {std::move(recipe), std::move(content)};
    } else {
      const FileReader beside = reader_beside(named);
      asked.recipe = RecipeDocument(content, named).read_without_plant(tables, beside, overrides);
      asked.still = still_of_recipe(content, beside, texts);
    }
  }
  if (!options.units.empty()) asked.recipe.units = units_named(options.units);
  return asked;
}

// --- the run

/// The fill as it was weighed or measured.
Mass fill_of(const WaterRunOptions& options, const Recipe& recipe, Density poured) {
  if (!options.fill) {
    const Volume usual = usual_water_run_fill(recipe.still, recipe.units);
    return recipe.water.value_or(usual) * poured;
  }
  const Volume fill = amount_of("--fill", *options.fill, bounds::water).value;
  return fill * (is_weighed(*options.fill) ? weighed_water_density : poured);
}

WaterRunSetup setup_of(const WaterRunOptions& options, const Recipe& recipe) {
  const Site& site = recipe.site;
  WaterRunSetup setup;
  setup.still = recipe.still;
  setup.method = recipe.method_used();
  const Pressure ambient =
      site.pressure.value_or(standard_pressure(site.altitude.value_or(metres(0))));
  setup.water = site_water(ambient, site.room);
  setup.poured = recipe.water_temperature.value_or(site.room);
  if (setup.poured > setup.water.boiling - kelvins(1))
    throw InputError(Fault{"", "/water_temperature",
                           fmt::format("{:.4g} °C", in_celsius(setup.poured)),
                           "water at least 1 K below boiling", "", 0, 0});
  setup.coolant = site.coolant.value_or(site.room);
  setup.setting = recipe.setting;
  setup.fill = fill_of(options, recipe, liquid_density(setup.poured));
  return setup;
}

int refuse(NoWaterRun why, const WaterRunSetup& setup, const Recipe& recipe) {
  const std::string fill = text(setup.fill, recipe.units);
  switch (why) {
    case NoWaterRun::too_weak:
      say(
          fmt::format("firstdrop: At {} the heater might not bring a drop. Run it at a higher "
                      "setting.\n",
                      text(setup.setting)));
      break;
    case NoWaterRun::too_little:
      say(
          fmt::format("firstdrop: {} of water doesn't last. If you come {} late, the heater could "
                      "boil the pot below what must stay in it. Pour in more (--fill), or allow "
                      "for less in the recipe's limits.absence.\n",
                      fill, text(recipe.limits.absence)));
      break;
    case NoWaterRun::steam_escapes:
      say(
          fmt::format("firstdrop: Steam could come into the room. At {} the condenser may not take "
                      "all of it. Use a lower --setting: a plan of a batch finds one that works. "
                      "Or measure the condenser, and give its tube or surface.\n",
                      text(setup.setting)));
      break;
    case NoWaterRun::coolant_warms:
      say(
          fmt::format("firstdrop: The coolant gets warmer than {} too soon. Pour in less "
                      "(--fill), use a lower --setting, or start with colder coolant (site.coolant "
                      "of a recipe).\n",
                      text(setup.still.condenser.coolant_limit.typical(), recipe.units)));
      break;
    case NoWaterRun::pot_overfull:
      say(
          fmt::format("firstdrop: {} of water is more than the pot may be filled with. Pour in "
                      "less (--fill).\n",
                      fill));
      break;
  }
  return refused;
}

/// The command to type afterwards, without the entries.
std::string command_for(const WaterRunOptions& options) {
  const auto as_argument = [](const std::string& word) {
    return word.find(' ') == std::string::npos ? visible(word) : "\"" + visible(word) + "\"";
  };
  std::string command = "firstdrop water-run " + as_argument(options.still);
  const auto add = [&](const char* option, const std::optional<std::string>& value) {
    if (value) command += fmt::format(" {} {}", option, as_argument(*value));
  };
  add("--setting", options.setting);
  add("--altitude", options.altitude);
  add("--room", options.room);
  if (!options.units.empty()) command += " --units " + options.units;
  return command;
}

/// Of an option that needs readings.
InputError needs_readings(const std::string& option) {
  return InputError(
      Fault{"", "", "No readings for " + option,
            fmt::format("Write --boil, --first-drop or --caught as well, or leave {} out", option),
            "", 0, 0});
}

int write_sheet(const WaterRunOptions& options, const Asked& asked, const Tables& tables) {
  if (options.json) throw needs_readings("--json");
  if (options.day) throw needs_readings("--day");
  if (options.force) throw needs_readings("--force");
  FormatChoice choice{sheet_formats};
  if (!options.format.empty())
    choice.leave({format_named(options.format)}, "with --format " + options.format);
  const SheetFormat format = sheet_format(output_format(options.output, choice));
  const WaterRunSetup setup = setup_of(options, asked.recipe);
  const auto plan = plan_water_run(setup, asked.recipe.limits.absence, asked.recipe.units, tables);
  if (const auto* why = std::get_if<NoWaterRun>(&plan)) return refuse(*why, setup, asked.recipe);
  write_result(water_run_sheet(std::get<WaterRunPlan>(plan), asked.recipe, tables,
                               command_for(options), format),
               options.output);
  return done;
}

std::chrono::local_days day_of(const WaterRunOptions& options) {
  if (!options.day || *options.day == "today") return today();
  if (*options.day == "yesterday") return today() - std::chrono::days(1);
  const auto day = parse_local_day(*options.day);
  if (!day) throw wrong_option("--day", firstdrop::quoted(*options.day), local_day_form);
  return *day;
}

int work_out(const WaterRunOptions& options, const Asked& asked, const Tables& tables) {
  if (!options.format.empty())
    throw InputError(Fault{"", "", "Found --format with readings",
                           "Leave it out: --format is of the sheet", "", 0, 0});
  const FormatChoice choice{recipe_formats};
  if (!to_standard_output(options.output)) {
    if (auto fault = fault_of_still_file(options.output)) throw InputError(std::move(*fault));
    if (auto fault = fault_of_name(options.output, choice)) throw InputError(std::move(*fault));
    allow_to_replace(options.output, options.force);
  }
  const std::chrono::local_days day = day_of(options);
  const WaterRunLog log = log_of(options);
  const WaterRunSetup setup = setup_of(options, asked.recipe);
  check_log(log, setup, asked.recipe.units);
  const StillFigures before = figures_before_run(setup, tables);
  const WaterRunModel model(setup, before, tables);
  const auto result = learn_from(model, before, log);
  if (!result) {
    if (!model.run(ScoreVector(run_score_count)))
      return refuse(NoWaterRun::too_weak, setup, asked.recipe);
    throw InputError(Fault{"", "", "Readings that no still of this kind would give",
                           "Check them, and the still's figures", "", 0, 0});
  }
  const std::vector<Misfit> misfits = misfits_of(model, log, *result);
  const bool writes = misfits.empty() && !to_standard_output(options.output);
  const WaterRunReport report{
      asked.recipe, setup, log, *result, misfits, day, writes ? options.output : ""};
  if (writes) {
    const std::string still = measured_still(asked.still, setup, *result, day);
    read_still(still, options.output, tables);  // throws if it weren't valid
    write_result(still, options.output);
  }
  write_result(options.json ? water_run_json({setup, log, *result, misfits, day}) + "\n"
                            : water_run_page(report, look_of_stdout(options.color)));
  return misfits.empty() ? done : refused;
}

}  // namespace

int water_run(const WaterRunOptions& options, const TableFolder& folder) {
  const Tables tables = folder.tables();
  const Asked asked = asked_for(options, tables, folder.texts());
  return has_entries(options) ? work_out(options, asked, tables)
                              : write_sheet(options, asked, tables);
}

}  // namespace firstdrop::cli
