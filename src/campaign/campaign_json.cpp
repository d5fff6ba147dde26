#include "campaign/campaign_json.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <utility>

#include "readers/field_bounds.hpp"
#include "readers/recipe_value.hpp"

namespace firstdrop {
namespace {

using json::Context;
using json::Kind;
using json::Object;
using json::Value;

// Beyond these sizes a number can only be a slip; ours, from memory.
constexpr auto any_ice = from_to(0, 1000, "kg", kilograms);
constexpr auto any_pause = from_to(0, 24, "h", hours);
constexpr std::size_t most_work = 100;
constexpr std::size_t most_days = 366;

constexpr std::array<const char*, 7> weekday_names = {"sun", "mon", "tue", "wed",
                                                      "thu", "fri", "sat"};

std::optional<LocalDay> day_from(const Value& value) {
  if (value.is(Kind::text)) {
    if (const auto day = parse_local_day(value.node().text)) return day;
  }
  value.refuse(local_day_form);
  return std::nullopt;
}

std::optional<std::chrono::minutes> time_from(const Value& value) {
  if (value.is(Kind::text)) {
    if (const auto time = parse_time_of_day(value.node().text)) return time;
  }
  value.refuse(time_of_day_form);
  return std::nullopt;
}

void read_weekdays(const Value& value, Bench& bench) {
  bench.weekdays.fill(false);
  const std::vector<std::string> names(weekday_names.begin(), weekday_names.end());
  const auto days = value.items();
  for (const Value& day : days) {
    const auto found =
        day.is(Kind::text) ? std::find(names.begin(), names.end(), day.node().text) : names.end();
    if (found == names.end()) {
      day.refuse_name(names, "a day of the week");
    } else {
      bench.weekdays.at(static_cast<std::size_t>(found - names.begin())) = true;
    }
  }
  if (value.is(Kind::list) && days.empty()) {
    value.fault("no day", "days of the week, such as [\"mon\", \"sat\"]",
                "leave \"days\" out for every day");
  }
}

Bench bench_from(const Value& value) {
  Bench bench;
  Object object(value);
  std::optional<LocalDay> first;
  if (const auto day = object.required("first_day", local_day_form)) first = day_from(*day);
  bench.first_day = first.value_or(LocalDay());
  if (const auto day = object.optional("last_day")) {
    bench.last_day = day_from(*day);
    if (first && bench.last_day && *bench.last_day < *first) {
      day->refuse("a day no earlier than first_day");
    }
  }
  if (const auto days = object.optional("days")) read_weekdays(*days, bench);
  if (const auto off = object.optional("off")) {
    if (off->is(Kind::list) && off->node().children.size() > most_days) {
      off->fault(fmt::format("{} days", off->node().children.size()),
                 fmt::format("at most {} days", most_days));
    } else {
      for (const Value& item : off->items()) {
        if (const auto day = day_from(item)) bench.off.insert(*day);
      }
    }
  }
  const auto from = object.required("from", time_of_day_form);
  const auto to = object.required("to", time_of_day_form);
  const auto opens = from ? time_from(*from) : std::nullopt;
  const auto closes = to ? time_from(*to) : std::nullopt;
  if (opens) bench.from = *opens;
  if (closes) bench.to = *closes;
  if (opens && closes && *opens == *closes) {
    to->refuse("another time than from", "an earlier time is that of the next day");
  }
  if (const auto pause = object.optional("between_runs")) {
    bench.between_runs = pause->quantity(any_pause).value_or(bench.between_runs);
  }
  object.optional_quantity("ice_per_day", bench.ice_per_day, any_ice);
  object.finish();
  return bench;
}

// Files that a recipe names are in the recipe's folder, not in the campaign's.
FileReader reader_beside(const std::string& recipe_path, const FileReader& read_file) {
  const std::filesystem::path folder = std::filesystem::path(recipe_path).parent_path();
  return
      [folder, read_file](const std::string& path) { return read_file((folder / path).string()); };
}

std::optional<Recipe> recipe_of(const Value& value, WorkOrder& work, const Tables& tables,
                                const FileReader& read_file) {
  if (value.is(Kind::object)) return recipe_from(value, Form::inline_object, tables, read_file);
  constexpr auto wanted = "the path of a recipe that ends in .json, or an object";
  if (!value.is(Kind::text) || !value.node().text.ends_with(".json")) {
    value.refuse(wanted);
    return std::nullopt;
  }
  work.file = value.node().text;
  return from_own_file<Recipe>(value, "an object", read_file, [&](const Value& root) {
    return recipe_from(root, Form::own_file, tables, reader_beside(work.file, read_file));
  });
}

void read_wanted(const Value& value, WorkOrder& work) {
  Object object(value);
  const auto hydrosol = object.optional("hydrosol");
  const auto oil = object.optional("oil");
  if (hydrosol) {
    const Goal goal = hydrosol_goal_from(*hydrosol);
    if (const auto* amount = std::get_if<HydrosolGoal>(&goal)) work.order = *amount;
  }
  if (oil) {
    const Goal goal = oil_goal_from(*oil);
    if (const auto* amount = std::get_if<OilGoal>(&goal)) work.order = *amount;
  }
  if (value.is(Kind::object) && hydrosol.has_value() == oil.has_value()) {
    value.fault(hydrosol ? "hydrosol and oil" : "neither hydrosol nor oil",
                "exactly one of hydrosol or oil",
                hydrosol ? "what comes beside it is told by the plan" : "");
  }
  if (const auto often = object.optional("confidence")) work.confidence = confidence_from(*often);
  object.finish();
}

WorkOrder work_from(const Value& value, const Tables& tables, const FileReader& read_file) {
  WorkOrder work;
  Object object(value);
  object.remarks();
  if (const auto recipe = object.required("recipe", "the path of a recipe, or an object")) {
    if (auto read = recipe_of(*recipe, work, tables, read_file)) work.recipe = std::move(*read);
  }
  const auto harvest = object.optional("harvest");
  const auto wanted = object.optional("wanted");
  if (harvest) work.order = HarvestOrder{harvest->quantity(bounds::charge).value_or(Mass())};
  if (wanted) read_wanted(*wanted, work);
  if (value.is(Kind::object) && harvest.has_value() == wanted.has_value()) {
    value.fault(
        harvest ? "a harvest and what is wanted" : "neither a harvest nor what is wanted",
        "exactly one of harvest, such as \"6 kg\", or wanted, such as {\"hydrosol\": \"5 L\"}",
        harvest ? "put the two into two entries of work" : "");
  }
  object.finish();
  return work;
}

Campaign campaign_from(const Value& value, const Tables& tables, const FileReader& read_file) {
  Campaign campaign;
  Object object(value);
  object.marker("campaign");
  object.remarks();
  object.optional_text("title", campaign.title);
  const auto units = object.optional("units");
  if (const auto bench = object.required("bench", "an object with first_day, from and to")) {
    campaign.bench = bench_from(*bench);
  }
  if (const auto work =
          object.required("work", "a list of recipes with a harvest or what is wanted")) {
    const std::size_t count = work->node().children.size();
    if (work->is(Kind::list) && (count == 0 || count > most_work)) {
      work->fault(count == 0 ? "no work" : fmt::format("{} entries", count),
                  fmt::format("1 to {} recipes with a harvest or what is wanted", most_work));
    } else {
      for (const Value& item : work->items()) {
        campaign.work.push_back(work_from(item, tables, read_file));
      }
    }
  }
  if (!campaign.work.empty()) campaign.units = campaign.work.front().recipe.units;
  if (units)
    campaign.units = units->choice(all_units, "a system of units").value_or(campaign.units);
  object.finish();
  return campaign;
}

}  // namespace

Campaign read_campaign(std::string_view text, const std::string& file, const Tables& tables,
                       const FileReader& read_file) {
  Context context{file, &tables.sources};
  Campaign campaign;
  if (const auto root = json::parse(text, context)) {
    campaign = campaign_from(Value(*root, context), tables, read_file);
  }
  context.finish();
  return campaign;
}

}  // namespace firstdrop
