#include "campaign/campaign_json.hpp"

#include <fmt/core.h>

#include <filesystem>
#include <utility>

#include "quantity/words.hpp"
#include "readers/documents.hpp"
#include "readers/field_bounds.hpp"
#include "readers/recipe_value.hpp"

namespace firstdrop {
namespace {

/// As Bench::weekdays counts.
enum class Weekday { sunday, monday, tuesday, wednesday, thursday, friday, saturday };

}  // namespace

template <>
inline constexpr auto words_of<Weekday> = std::to_array<Word<Weekday>>({
    {Weekday::sunday, "sun"},
    {Weekday::monday, "mon"},
    {Weekday::tuesday, "tue"},
    {Weekday::wednesday, "wed"},
    {Weekday::thursday, "thu"},
    {Weekday::friday, "fri"},
    {Weekday::saturday, "sat"},
});

namespace {

using json::Context;
using json::Kind;
using json::Value;

// Beyond these sizes a number can only be a slip; ours, from memory.
constexpr auto any_ice = from_to(0, 1000, "kg", kilograms);
constexpr auto any_pause = from_to(0, 24, "h", hours);
constexpr std::size_t most_work = 100;
constexpr std::size_t most_days = 366;

// --- the bench

Field<Bench> time_field(const char* name, std::chrono::minutes Bench::*member, const char* help,
                        const char* example) {
  return field<Bench>(name, KeyForm::time_of_day,
                      {.help = help, .example = example, .need = Need::always},
                      [=](const Value& value, Bench& bench, const Reading&) {
                        if (!value.is(Kind::text))
                          value.refuse(time_of_day_form);
                        else if (const auto time = parse_time_of_day(value.node().text))
                          bench.*member = *time;
                        else
                          value.refuse_with(time_of_day_fault(value.node().text));
                      });
}

Field<Bench> weekdays() {
  return field<Bench>(
      "days", KeyForm::list,
      {.help = "Days of the week with somebody there.",
       .example = R"(["mon", "wed", "sat"])",
       .left_out = "every day"},
      [](const Value& value, Bench& bench, const Reading&) {
        bench.weekdays.fill(false);
        for (const Value& item : value.items())
          if (const auto day = item.choice<Weekday>())
            bench.weekdays.at(static_cast<std::size_t>(*day)) = true;
        if (value.is(Kind::list) && value.node().children.empty())
          value.fault("no day", "days of the week, such as [\"mon\", \"sat\"]",
                      "leave \"days\" out for every day");
      },
      nullptr, [](Key& key) { describe_choices<Weekday>(key, 1); });
}

Field<Bench> days_off() {
  return field<Bench>(
      "off", KeyForm::list,
      {.help = "Days on which nobody is there, 366 at most.",
       .example = R"(["2026-07-15"])",
       .left_out = "none"},
      [](const Value& value, Bench& bench, const Reading&) {
        const std::size_t count = value.node().children.size();
        if (value.is(Kind::list) && count > most_days) {
          value.fault(fmt::format("{} days", count), fmt::format("at most {} days", most_days));
          return;
        }
        for (const Value& item : value.items())
          if (const auto day = field_detail::day_from(item)) bench.off.insert(*day);
      },
      nullptr,
      [](Key& key) {
        key.keys = {field_detail::described("", KeyForm::day, {}, Need::no)};
        key.most = most_days;
      });
}

void check_bench(const Bench& bench, const Tables&, const Report& report) {
  if (bench.last_day && *bench.last_day < bench.first_day)
    report.fault("last_day", "a day before first_day", "a day no earlier than first_day");
  if (bench.from == bench.to)
    report.fault("to", "the same time as from", "a time other than from",
                 "an earlier time is on the next day");
}

const Fields<Bench>& bench_fields() {
  static const Fields<Bench> fields{
      "bench",
      {
          day_field("first_day", &Bench::first_day,
                    {.help = "The first day on which a run may start.",
                     .example = "2026-07-06",
                     .need = Need::always}),
          day_field("last_day", &Bench::last_day,
                    {.help = "The last one, no earlier than the first.",
                     .example = "2026-07-18",
                     .left_out = "as many days as it takes"}),
          weekdays(),
          days_off(),
          time_field("from", &Bench::from, "The earliest time for heat on.", "09:00"),
          time_field("to", &Bench::to,
                     "The heat must be off by this time. If it is earlier than from, it is on the "
                     "next day.",
                     "17:00"),
          quantity_field("between_runs", &Bench::between_runs, any_pause,
                         {.help = "From \"bench free\" to the start of the next run: time to cool "
                                  "down, empty, clean and fill again.",
                          .standard = "45 min"}),
          quantity_field("ice_per_day", &Bench::ice_per_day, any_ice,
                         {.help = "What the freezer gives in a day.",
                          .example = "4 kg",
                          .left_out = "unlimited"}),
      },
      nullptr,
      check_bench};
  return fields;
}

// --- the work

/// What a campaign wants of a recipe; a valid one has exactly one of the first two.
struct Wanted {
  std::optional<Volume> hydrosol;
  std::optional<std::variant<Mass, Volume>> oil;
  std::optional<Fraction> confidence;
};

void check_wanted(const Wanted& wanted, const Tables&, const Report& report) {
  if (wanted.hydrosol.has_value() != wanted.oil.has_value()) return;
  report.fault("", wanted.hydrosol ? "hydrosol and oil" : "neither hydrosol nor oil",
               "exactly one of hydrosol or oil",
               wanted.hydrosol ? "the plan says how much of the other you get" : "");
}

const Fields<Wanted>& wanted_fields() {
  static const Fields<Wanted> fields{
      "wanted",
      {
          quantity_field("hydrosol", &Wanted::hydrosol, bounds::hydrosol,
                         {.help = "This much hydrosol, in as many runs as the recipe takes to make "
                                  "it.",
                          .example = "5 L"}),
          oil_field(&Wanted::oil,
                    {.help = "This much oil: a mass or a volume. Charge and stop are worked out "
                             "for it.",
                     .example = "10 mL"}),
          quantity_field("confidence", &Wanted::confidence, bounds::confidence,
                         {.help = "The share of runs that must give their part.",
                          .example = "80 %",
                          .left_out = "about half of the runs"}),
      },
      nullptr,
      check_wanted,
      R"("oneOf": [{"required": ["hydrosol"]}, {"required": ["oil"]}])"};
  return fields;
}

/// An entry of a campaign's work as a file has it.
struct WorkEntry {
  Recipe recipe;
  std::string file;
  std::optional<Mass> harvest;
  std::optional<Wanted> wanted;
};

// Files that a recipe names are in the recipe's folder, not in the campaign's.
FileReader reader_beside(const std::string& recipe_path, const FileReader& read_file) {
  const std::filesystem::path folder = std::filesystem::path(recipe_path).parent_path();
  return
      [folder, read_file](const std::string& path) { return read_file((folder / path).string()); };
}

Field<WorkEntry> work_recipe() {
  return field<WorkEntry>(
      "recipe", KeyForm::reference,
      {.help = "The path of a recipe file that ends in .json, relative to the campaign's folder, "
               "or the recipe itself as an object. Its start isn't used.",
       .example = "hedge-lavender.json"},
      [](const Value& value, WorkEntry& work, const Reading& reading) {
        if (value.is(Kind::object)) {
          work.recipe = recipe_from(value, reading.as(Form::inline_object));
          return;
        }
        if (!value.is(Kind::text) || !value.node().text.ends_with(".json")) {
          value.refuse("the path of a recipe that ends in .json, or an object");
          return;
        }
        work.file = value.node().text;
        auto own =
            from_own_file<Recipe>(value, "an object", reading.read_file, [&](const Value& root) {
              const FileReader beside = reader_beside(work.file, *reading.read_file);
              return recipe_from(root, {reading.tables, Form::own_file, &beside});
            });
        if (own) work.recipe = std::move(*own);
      },
      nullptr, [](Key& key) { recipe_fields().describe(key); }, Need::always);
}

void check_order(const WorkEntry& work, const Tables&, const Report& report) {
  if (work.harvest.has_value() != work.wanted.has_value()) return;
  report.fault(
      "", work.harvest ? "a harvest and what is wanted" : "neither a harvest nor what is wanted",
      "exactly one of harvest, such as \"6 kg\", or wanted, such as {\"hydrosol\": \"5 L\"}",
      work.harvest ? "make two entries of work from it" : "");
}

const Fields<WorkEntry>& work_fields() {
  static const Fields<WorkEntry> fields{
      "work_order",
      {
          schema_remark<WorkEntry>(),
          note_remark<WorkEntry>(),
          work_recipe(),
          quantity_field("harvest", &WorkEntry::harvest, bounds::charge,
                         {.help = "Herb to use up in full. It replaces the recipe's charge and is "
                                  "shared out evenly. If the recipe's goal is an amount, it is "
                                  "scaled in proportion.",
                          .example = "6 kg",
                          .need = Need::by_rule,
                          .needed_if = "unless you give wanted; don't give both"}),
          object("wanted", &WorkEntry::wanted, wanted_fields,
                 {.help = "What to get: exactly one of hydrosol and oil, and perhaps confidence. "
                          "It replaces the recipe's goal.",
                  .need = Need::by_rule,
                  .needed_if = "unless you give a harvest; don't give both"}),
      },
      nullptr,
      check_order,
      R"("oneOf": [{"required": ["harvest"]}, {"required": ["wanted"]}])"};
  return fields;
}

// --- the campaign

/// A campaign as a file has it.
struct CampaignFile {
  std::string title;
  std::optional<Units> units;
  Bench bench;
  std::vector<WorkEntry> work;
};

const Fields<CampaignFile>& campaign_file_fields() {
  static const Fields<CampaignFile> fields{
      "campaign",
      {
          version<CampaignFile>("campaign", "It marks the file as a campaign in this format."),
          schema_remark<CampaignFile>(),
          text_field("title", &CampaignFile::title,
                     {.help = "What the campaign is called.",
                      .example = "Early July at the hedge",
                      .left_out = "\"Untitled campaign\""}),
          note_remark<CampaignFile>(),
          choice("units", &CampaignFile::units,
                 {.help = "What you weigh, pour and read in on this bench.",
                  .left_out = "the first recipe's"}),
          object("bench", &CampaignFile::bench, bench_fields,
                 {.help = "When somebody is there, and how much ice the freezer gives."}),
          objects("work", &CampaignFile::work, work_fields,
                  {.help = "1 to 100 recipes in the order in which they are done, each with a "
                           "harvest or with what is wanted.",
                   .need = Need::always},
                  1, most_work),
      }};
  return fields;
}

WorkOrder order_of(WorkEntry entry) {
  WorkOrder work{std::move(entry.recipe), std::move(entry.file), HarvestOrder{}, {}};
  if (entry.harvest) work.order = HarvestOrder{*entry.harvest};
  if (!entry.wanted) return work;
  work.confidence = entry.wanted->confidence;
  if (entry.wanted->hydrosol) work.order = HydrosolGoal{*entry.wanted->hydrosol};
  if (entry.wanted->oil) work.order = OilGoal{*entry.wanted->oil};
  return work;
}

}  // namespace

Document campaign_document() {
  return document("campaign",
                  "What `firstdrop campaign` plans: several recipes on one bench, day after day.",
                  campaign_file_fields());
}

Campaign read_campaign(std::string_view text, const std::string& file, const Tables& tables,
                       const FileReader& read_file) {
  Context context{file, &tables.sources};
  CampaignFile read;
  if (const auto root = json::parse(text, context))
    campaign_file_fields().read(Value(*root, context), read, {tables, Form::own_file, &read_file});
  context.finish();
  Campaign campaign{std::move(read.title), std::move(read.bench), {}, Units::metric};
  campaign.units = read.units.value_or(read.work.front().recipe.units);
  for (WorkEntry& entry : read.work) campaign.work.push_back(order_of(std::move(entry)));
  return campaign;
}

}  // namespace firstdrop
