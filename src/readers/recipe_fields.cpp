// Every key of a recipe.
#include <fmt/core.h>

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "firstdrop/readers/blend.hpp"
#include "quantity/clock_time.hpp"
#include "quantity/words.hpp"
#include "readers/documents.hpp"
#include "readers/field_bounds.hpp"
#include "readers/known_names.hpp"
#include "readers/recipe_value.hpp"
#include "readers/words.hpp"
#include "tables/words.hpp"

namespace firstdrop {
namespace {

using json::Kind;
using json::Value;

// --- plant and still

std::map<std::string, Shared<Plant>> to_suggest(std::map<std::string, Shared<Plant>> plants) {
  std::erase_if(plants, [](const auto& entry) { return is_refused(entry.second); });
  return plants;
}
const std::map<std::string, Shared<Still>>& to_suggest(
    const std::map<std::string, Shared<Still>>& stills) {
  return stills;
}

/// A plant or still that is given as a key of its table, as the path of a file, or as an object.
/// `T` is its type, and `Owner` that of the object that names it.
template <class Owner, class T>
Field<Owner> reference(const char* name, Shared<T> Owner::*member,
                       std::map<std::string, Shared<T>> Tables::*table,
                       const Fields<T>& (*fields)(), const Says& says) {
  const auto read_object = [=](const Value& value, const Reading& reading) {
    T read;
    read.key = "own";
    fields().read(value, read, reading);
    return read;
  };
  Field<Owner> made = field<Owner>(
      name, KeyForm::reference, says,
      [=](const Value& value, Owner& recipe, const Reading& reading) {
        if (value.is(Kind::object)) {
          recipe.*member = read_object(value, reading.as(Form::inline_object));
          return;
        }
        if (!value.is(Kind::text)) {
          value.refuse(
              fmt::format("a key of the {} table, a path that ends in .json, or an object", name));
          return;
        }
        const std::string& text = value.node().text;
        const auto& entries = reading.tables.*table;
        if (const auto entry = entries.find(text); entry != entries.end()) {
          recipe.*member = entry->second;
        } else if (!text.ends_with(".json")) {
          value.refuse(
              fmt::format("a key of the {} table, or the path of a file of your own that ends in "
                          ".json",
                          name),
              did_you_mean(text, known_names(to_suggest(entries)),
                           fmt::format("firstdrop {}s", name)));
        } else if (auto own = from_own_file<T>(
                       value, fmt::format("a key of the {} table or an object", name),
                       reading.read_file, [&](const Value& root) {
                         return read_object(root, reading.as(Form::own_file));
                       })) {
          recipe.*member = std::move(*own);
        }
      },
      nullptr, [=](Key& key) { key.table = name; }, Need::always);
  made.inside = [=](Key& key) { fields().describe(key); };
  return made;
}

constexpr std::size_t most_fractions = 8;  // ours; more can only be a slip

const Fields<BlendPart>& blend_part_fields() {
  static const Fields<BlendPart> fields{
      "blend_part",
      {
          reference(
              "plant", &BlendPart::plant, &Tables::plants, plant_fields,
              {.help = "One of the plants, as under the recipe's plant.", .example = "lavender"}),
          quantity_field("share", &BlendPart::share, bounds::blend_share,
                         {.help = "Its share of the charge, by mass as you load it. All shares "
                                  "together are 100 %.",
                          .example = "60 %",
                          .need = Need::always}),
      }};
  return fields;
}

Field<Recipe> plant() {
  Field<Recipe> made =
      reference("plant", &Recipe::plant, &Tables::plants, plant_fields,
                {.help = "What is distilled: a key that `firstdrop plants` lists, the path of a "
                         ".json file of your own, relative to the recipe's folder, or an object of "
                         "the same form.",
                 .example = "lavender",
                 .left_out = "plants is needed",
                 .need = Need::by_rule,
                 .needed_if = "unless there is plants"});
  made.need = Need::always;
  made.or_key = "plants";
  return made;
}

Field<Recipe> blend() {
  return field<Recipe>(
      "plants", KeyForm::list,
      {.help = "Plants that are loaded together, in place of plant: 2 to 8 of them. Each releases "
               "its oil at its own pace; they share one bed, one water and one stop.",
       .example =
           R"([{"plant": "lavender", "share": "60 %"}, {"plant": "rosemary", "share": "40 %"}])",
       .left_out = "one plant"},
      [](const Value& value, Recipe& recipe, const Reading& reading) {
        const std::size_t before = field_detail::faults_so_far(value);
        std::vector<BlendPart> parts;
        for (const Value& item : value.items()) {
          BlendPart part;
          blend_part_fields().read(item, part, reading);
          parts.push_back(std::move(part));
        }
        if (!value.is(Kind::list) || field_detail::faults_so_far(value) != before) return;
        if (!recipe.plant->name.empty())
          value.fault("plants beside a plant", "one of plant and plants");
        else if (const auto fault = blend_fault(parts))
          value.fault(fault->found, fault->wanted);
        else
          recipe.plant = blended(std::move(parts), reading.tables);
      },
      nullptr,
      [](Key& key) {
        Key item = field_detail::described("", KeyForm::object, {}, Need::no);
        blend_part_fields().describe(item);
        key.keys = {std::move(item)};
        key.least = 2;
        key.most = 8;
      });
}

// --- the goal

/// The object "goal" of a file. A valid one has exactly one of the first five.
struct AskedGoal {
  std::optional<Volume> hydrosol;
  std::optional<SpecificVolume> ratio;
  std::optional<std::variant<Mass, Volume>> oil;
  std::optional<Fraction> oil_share;
  std::optional<Duration> time;
  std::optional<Fraction> confidence;
};

std::vector<std::string> goals_in(const AskedGoal& goal) {
  std::vector<std::string> names;
  if (goal.hydrosol) names.emplace_back("hydrosol");
  if (goal.ratio) names.emplace_back("ratio");
  if (goal.oil) names.emplace_back("oil");
  if (goal.oil_share) names.emplace_back("oil_share");
  if (goal.time) names.emplace_back("time");
  return names;
}

void check_goal(const AskedGoal& goal, const Tables&, const Report& report) {
  const std::vector<std::string> given = goals_in(goal);
  if (given.size() != 1) {
    std::string found = "no goal";
    if (!given.empty()) {
      found = fmt::format("{} goals: {}", given.size(), given.front());
      for (std::size_t i = 1; i < given.size(); ++i) found += " and " + given[i];
    }
    report.fault("", found, "exactly one of hydrosol, ratio, oil, oil_share or time",
                 given.empty() ? "leave \"goal\" out to use up the harvest" : "");
  }
  if (goal.confidence && goal.time)
    report.fault("confidence", "a confidence together with a time",
                 "a confidence only with hydrosol, ratio, oil or oil_share",
                 "remove one of them: a run by the clock always stops at that time");
}

const Fields<AskedGoal>& goal_fields() {
  static const Fields<AskedGoal> fields{
      "goal",
      {
          quantity_field("hydrosol", &AskedGoal::hydrosol, bounds::hydrosol,
                         {.help = "This much hydrosol.", .example = "800 mL"}),
          quantity_field("ratio", &AskedGoal::ratio, bounds::ratio,
                         {.help = "This much hydrosol for each kilogram of herb. Dried and wilted "
                                  "herb counts as the fresh herb that it came from. If the tables "
                                  "have only dried material of a plant, its mass counts as it is.",
                          .example = "1.5 L/kg"}),
          oil_field(&AskedGoal::oil,
                    {.help = "This much oil in the receiver, separated from the hydrosol: a mass "
                             "or a volume.",
                     .example = "2 mL"}),
          quantity_field("oil_share", &AskedGoal::oil_share, bounds::oil_share,
                         {.help = "This share of the oil that this still can get from the charge.",
                          .example = "75 %"}),
          quantity_field("time", &AskedGoal::time, bounds::run,
                         {.help = "Stop by the clock, counted from the start of heating.",
                          .example = "90 min"}),
          quantity_field("confidence", &AskedGoal::confidence, bounds::confidence,
                         {.help = "The share of runs in which the goal must be met. Charge, water "
                                  "and stop are planned for that. Not with time.",
                          .example = "80 %",
                          .left_out = "about half of the runs"}),
      },
      nullptr,
      check_goal,
      R"("oneOf": [{"required": ["hydrosol"]}, {"required": ["ratio"]}, {"required": ["oil"]},
                   {"required": ["oil_share"]}, {"required": ["time"]}],
         "dependencies": {"time": {
           "not": {"required": ["confidence"]},
           "errorMessage": "Write no confidence beside a time: a run by the clock always ends in time."}})"};
  return fields;
}

Goal goal_of(const AskedGoal& asked) {
  if (asked.hydrosol) return HydrosolGoal{*asked.hydrosol};
  if (asked.ratio) return RatioGoal{*asked.ratio};
  if (asked.oil) return OilGoal{*asked.oil};
  if (asked.oil_share) return OilShareGoal{*asked.oil_share};
  if (asked.time) return TimeGoal{*asked.time};
  return HarvestGoal{};
}

AskedGoal asked_for(const Recipe& recipe) {
  AskedGoal asked;
  asked.confidence = recipe.confidence;
  if (const auto* hydrosol = std::get_if<HydrosolGoal>(&recipe.goal))
    asked.hydrosol = hydrosol->volume;
  else if (const auto* ratio = std::get_if<RatioGoal>(&recipe.goal))
    asked.ratio = ratio->hydrosol_per_fresh;
  else if (const auto* oil = std::get_if<OilGoal>(&recipe.goal))
    asked.oil = oil->amount;
  else if (const auto* share = std::get_if<OilShareGoal>(&recipe.goal))
    asked.oil_share = share->share;
  else if (const auto* time = std::get_if<TimeGoal>(&recipe.goal))
    asked.time = time->time;
  return asked;
}

Field<Recipe> goal() {
  return field<Recipe>(
      "goal", KeyForm::object,
      {.help = "What you want: exactly one of hydrosol, ratio, oil, oil_share and time. With any "
               "of them but time, confidence may stand beside it. Amounts "
               "of hydrosol and oil are for the whole recipe and are shared evenly between its "
               "runs.",
       .left_out = "stop when the oil still in the herb isn't worth more water and time"},
      [](const Value& value, Recipe& recipe, const Reading& reading) {
        AskedGoal asked;
        goal_fields().read(value, asked, reading);
        recipe.goal = goal_of(asked);
        recipe.confidence = asked.confidence;
      },
      [](const Recipe& recipe, const KeyPath& path) {
        const bool none = std::holds_alternative<HarvestGoal>(recipe.goal);
        if (!none)
          goal_fields().check(asked_for(recipe), path);
        else if (recipe.confidence)
          path.at("confidence")
              .fault("a confidence without a goal",
                     "a confidence beside hydrosol, ratio, oil or oil_share");
      },
      [](Key& key) { goal_fields().describe(key); });
}

// --- the site

void check_site(const Site& site, const Tables&, const Report& report) {
  if (site.altitude && site.pressure)
    report.fault("", "altitude and pressure", "one of the two, because each gives the other");
  if (site.mains && !site.breaker)
    report.missing("circuit", "the rating of the breaker beside mains, such as \"16 A\"");
  if (site.breaker && !site.mains)
    report.missing("mains", "the voltage beside circuit, such as \"230 V\"");
}

const Fields<Site>& site_fields() {
  static const Fields<Site> fields{
      "site",
      {
          quantity_field("altitude", &Site::altitude, bounds::altitude,
                         {.help = "Altitude above the sea. Give the pressure instead, or neither.",
                          .example = "540 m",
                          .left_out = "sea level"}),
          quantity_field(
              "pressure", &Site::pressure, bounds::pressure,
              {.help =
                   "Air pressure as a barometer at the place shows it, not reduced to sea level.",
               .example = "95.1 kPa",
               .left_out = "that of the altitude"}),
          quantity_field("room", &Site::room, bounds::room,
                         {.help = "Temperature of the room.", .standard = "20 °C"}),
          quantity_field("coolant", &Site::coolant, bounds::coolant,
                         {.help = "Temperature of the coolant at the start, as it comes or is "
                                  "filled in.",
                          .example = "14 °C",
                          .left_out = "the room's temperature"}),
          choice("place", &Site::place, {.help = "Where the still stands.", .standard = "indoors"}),
          quantity_field(
              "mains", &Site::mains, bounds::mains,
              {.help = "Rated voltage, as on the heater's nameplate. Only together with circuit. "
                       "The plan then says whether the heater is too much for that circuit.",
               .example = "230 V",
               .left_out = "the circuit isn't checked"}),
          quantity_field("circuit", &Site::breaker, bounds::breaker,
                         {.help = "Rating of the breaker or fuse of that socket. Only together "
                                  "with mains.",
                          .example = "16 A"}),
      },
      nullptr,
      check_site,
      R"("allOf": [{"not": {"required": ["altitude", "pressure"]},
                    "errorMessage": "Write altitude or pressure, not both: either tells the other."}],
         "dependencies": {"mains": ["circuit"], "circuit": ["mains"]})"};
  return fields;
}

// --- own figures, limits and prices

const Fields<OwnFigures>& own_fields() {
  static const Fields<OwnFigures> fields{
      "own",
      {
          quantity_field("bulk_density", &OwnFigures::bulk_density, bounds::bulk_density,
                         {.help = "How densely you fill the still: the mass of the herb divided by "
                                  "the volume that it takes up, in the state and cut that you "
                                  "distil. This figure helps most.",
                          .example = "170 g/L"}),
          either_field("oil_content", &OwnFigures::oil_content, bounds::oil_content,
                       bounds::oil_by_volume, "for example, \"0.7 %\" or \"7 mL/kg\"",
                       {.help = "All the oil of a full run here, both separated and dissolved in "
                                "the hydrosol, as a share of the mass of herb that you loaded, or "
                                "as a volume of oil per mass of herb, such as 7 mL/kg.",
                        .example = "0.7 %"}),
          quantity_field(
              "distillate_rate", &OwnFigures::distillate_rate, bounds::rate,
              {.help = "How fast distillate runs into the receiver while the still runs.",
               .example = "14 mL/min"}),
          quantity_field("boil_time", &OwnFigures::boil_time, bounds::boil_time,
                         {.help = "From the start of heating until the pot boils. It needs "
                                  "boil_water, or the recipe's water.",
                          .example = "16 min"}),
          quantity_field("boil_water", &OwnFigures::boil_water, bounds::water,
                         {.help = "The water that was in the pot for boil_time.",
                          .example = "1.7 L",
                          .left_out = "the recipe's water"}),
          quantity_field(
              "setting", &OwnFigures::setting, bounds::setting,
              {.help = "The heater's setting while you measured distillate_rate and boil_time.",
               .example = "40 %",
               .left_out = "the recipe's"}),
          quantity_field("boil_setting", &OwnFigures::boil_setting, bounds::setting,
                         {.help = "The heater's setting during boil_time, if it was different.",
                          .example = "100 %",
                          .left_out = "the same as setting"}),
          quantity_field("mains", &OwnFigures::mains, bounds::mains,
                         {.help = "The voltage that you measured at the socket with the heater on. "
                                  "It needs site.mains and must be within 15 % of it.",
                          .example = "234 V",
                          .left_out = "the plan allows for 10 % more or less than site.mains"}),
      }};
  return fields;
}

const Fields<Limits>& limits_fields() {
  static const Fields<Limits> fields{
      "limits",
      {
          quantity_field("time", &Limits::time, bounds::run,
                         {.help = "The longest run, from the start of heating.",
                          .example = "3 h",
                          .left_out = "no limit"}),
          quantity_field(
              "absence", &Limits::absence, bounds::absence,
              {.help = "How late you might turn the heat off after the stop. The plan keeps enough "
                       "water in the pot for that long. Never leave a run alone.",
               .standard = "15 min"}),
      }};
  return fields;
}

void check_prices(const Prices& prices, const Tables&, const Report& report) {
  const bool blank = prices.currency.find_first_not_of(' ') == std::string::npos;
  if ((prices.energy_per_kwh || prices.plant_per_kg) && blank)
    report.missing("currency", "the currency of the prices, such as \"EUR\"");
}

const Fields<Prices>& prices_fields() {
  constexpr double any_price = 1e6;  // more can only be a slip
  static const Fields<Prices> fields{
      "prices",
      {
          number_field("energy_per_kwh", &Prices::energy_per_kwh, 0, any_price,
                       {.help = "Price of electricity or gas, per kWh.", .example = "0.32"}),
          number_field("plant_per_kg", &Prices::plant_per_kg, 0, any_price,
                       {.help = "Price of the plant material as you load it, per kilogram.",
                        .example = "6"}),
          text_field("currency", &Prices::currency,
                     {.help = "The currency of the prices.",
                      .example = "EUR",
                      .need = Need::by_rule,
                      .needed_if = "beside a price"}),
      },
      nullptr,
      check_prices,
      R"("if": {"anyOf": [{"required": ["energy_per_kwh"]}, {"required": ["plant_per_kg"]}]},
         "then": {"required": ["currency"], "properties": {"currency": {"pattern": "[^ ]"}}})"};
  return fields;
}

// --- the recipe

Field<Recipe> start() {
  return field<Recipe>("start", KeyForm::minute,
                       {.help = "When the heat goes on, in local time, such as 2026-06-20T09:30 "
                                "or 2026-06-20 9:30 am. `--start` overrides it for one run, and "
                                "also takes today and tomorrow for the day.",
                        .example = "2026-06-20T09:30",
                        .left_out = "no clock times"},
                       [](const Value& value, Recipe& recipe, const Reading&) {
                         if (!value.is(Kind::text)) {
                           value.refuse(local_minute_form);
                         } else if (const auto start = parse_local_minute(value.node().text)) {
                           recipe.start = local_minute_text(*start);
                         } else {
                           value.refuse_with(local_minute_fault(value.node().text));
                         }
                       });
}

Field<Recipe> seed() {
  return field<Recipe>("seed", KeyForm::whole_number,
                       {.help = "Seed of the sampling behind the ranges. Change it to see how much "
                                "they depend on chance.",
                        .standard = "1"},
                       [](const Value& value, Recipe& recipe, const Reading&) {
                         recipe.seed = value.whole_number().value_or(recipe.seed);
                       });
}

/// What can't be asked of a plant of whose oil nothing is known.
void check_oil_known(const Recipe& recipe, const Report& report) {
  const Plant& plant = recipe.plant;
  if (has_oil_figures(plant)) return;
  const auto unknown = [&](const char* key, const char* found, const char* instead) {
    report.fault(key, found, instead,
                 fmt::format("nothing is known of the oil of {}", visible(plant.name)));
  };
  if (std::holds_alternative<OilGoal>(recipe.goal))
    unknown("goal/oil", "an amount of oil", "hydrosol, ratio or time");
  if (std::holds_alternative<OilShareGoal>(recipe.goal))
    unknown("goal/oil_share", "a share of the oil", "hydrosol, ratio or time");
  if (recipe.own.oil_content)
    unknown("own/oil_content", "an oil content",
            "a plant file of your own with oil_density, release_class and oil_content");
}

const Fields<HydrosolFraction>& fraction_fields() {
  static const Fields<HydrosolFraction> fields{
      "fraction",
      {quantity_field("until", &HydrosolFraction::until, bounds::receiver,
                      {.help = "All that has been caught, in all receivers, when this fraction "
                               "ends. Every fraction but the last has one.",
                       .example = "200 mL",
                       .left_out = "the last fraction lasts until the stop"})}};
  return fields;
}

void check_fractions(const Recipe& recipe, const Tables&, const Report& report) {
  const std::vector<HydrosolFraction>& fractions = recipe.fractions;
  if (fractions.empty()) return;
  if (recipe.receiver_volume)
    report.fault("fractions", "fractions beside receiver_volume", "one of the two");
  if (fractions.size() < 2 || fractions.size() > most_fractions)
    report.fault("fractions", counted(fractions.size(), "fraction", "fractions"),
                 fmt::format("2 to {} fractions", most_fractions));
  for (std::size_t i = 0; i < fractions.size(); ++i) {
    const bool last = i + 1 == fractions.size();
    if (last && fractions[i].until)
      report.fault("fractions", "an end of the last fraction",
                   "no until in the last fraction: it lasts until the stop");
    if (!last && !fractions[i].until)
      report.fault("fractions", "a fraction without until", "until in every fraction but the last");
    if (i > 0 && fractions[i].until && fractions[i - 1].until &&
        *fractions[i].until <= *fractions[i - 1].until)
      report.fault("fractions", "an end at or before that of the fraction before",
                   "ends that rise: each counts all that has been caught so far");
  }
}

Field<Recipe> fractions() {
  return objects(
      "fractions", &Recipe::fractions, fraction_fields,
      {.help = "Parts of the distillate, each in a receiver of its own: 2 to 8 in order. "
               "The plan tells volume, oil and dissolved oil of each.",
       .example = R"([{"until": "200 mL"}, {}])",
       .left_out = "one receiver takes everything"},
      2, most_fractions);
}

void check_whole_recipe(const Recipe& recipe, const Tables& tables, const Report& report) {
  const Plant& plant = recipe.plant;
  check_oil_known(recipe, report);
  check_fractions(recipe, tables, report);
  const Still& still = recipe.still;
  if (!plant.states.contains(recipe.state)) {
    std::vector<std::string> states;
    for (const auto& other : plant.states) states.push_back(to_string(other.first));
    report.fault(
        "state", firstdrop::quoted(to_string(recipe.state)),
        fmt::format("a state that {} has: {}", visible(plant.key == "own" ? plant.name : plant.key),
                    json::either(states)));
  }
  const auto& methods = still.methods;
  if (recipe.method && !methods.empty() &&
      std::find(methods.begin(), methods.end(), *recipe.method) == methods.end()) {
    std::vector<std::string> names;
    for (const Method method : methods) names.push_back(to_string(method));
    report.fault(
        "method", firstdrop::quoted(to_string(*recipe.method)),
        fmt::format("a method of the still {}: {}", visible(still.key), json::either(names)));
  }
  // A still whose methods name steam has a column; one made in code may name no methods.
  const Method used = recipe.method_used();
  if (methods.empty() && used == Method::steam && !still.column)
    report.fault("still", "no column", "a column, for steam");
  if (methods.empty() && used == Method::water_and_steam && !still.grid)
    report.fault("still", "no grid", "a grid, for water-and-steam");
  const OwnFigures& own = recipe.own;
  if (own.mains && !recipe.site.circuit()) {
    report.fault("own/mains", "a measured voltage without the rated one",
                 "site.mains, the voltage on the heater's nameplate, and site.circuit");
  } else if (own.mains) {
    // A larger difference means the voltage of another socket (common practice, no source).
    const double share = *own.mains / *recipe.site.mains;
    if (!(share >= 0.85 && share <= 1.15))
      report.fault("own/mains", fmt::format("{:.0f} % of site.mains", share * 100.0),
                   "a voltage within 15 % of site.mains, that of the heater's nameplate");
  }
  if (own.boil_time && !own.boil_water && !recipe.water)
    report.missing("own/boil_water",
                   "the water that was in the pot for boil_time, or the recipe's \"water\"");
}

}  // namespace

const Fields<Recipe>& recipe_fields() {
  static const Fields<Recipe> fields{
      "inline_recipe",
      {
          version<Recipe>("recipe", "It marks the file as a recipe in this format."),
          schema_remark<Recipe>(),
          text_field("title", &Recipe::title,
                     {.help = "What page, sheet and calendar call the batch.",
                      .example = "Hedge lavender, first cut",
                      .left_out = "\"Untitled run\""}),
          note_remark<Recipe>(),
          plant(),
          blend(),
          choice(
              "state", &Recipe::state,
              {.help = "The state of the herb. Write it for a plant that has no figures for fresh.",
               .standard = "fresh"}),
          choice("cut", &Recipe::cut,
                 {.help = "How the herb was cut before loading.",
                  .left_out = "chopped; flowers whole and seeds crushed; for a plant of your own "
                              "see its key loaded"}),
          quantity_field(
              "charge", &Recipe::charge, bounds::charge,
              {.help = "All the herb that you have. If it is more than one run holds, it is split "
                       "into equal runs. A remainder of up to a fifth of a run is left over.",
               .example = "260 g",
               .left_out = "the still is filled"}),
          reference("still", &Recipe::still, &Tables::stills, still_fields,
                    {.help = "What it is distilled in: a key that `firstdrop stills` lists, the "
                             "path of a .json file of your own, relative to the recipe's folder, "
                             "or an object of the same form.",
                     .example = "bench-column"}),
          choice(
              "method", &Recipe::method,
              {.help = "Where the herb is during the run. It must be one of the still's methods.",
               .left_out = "the still's first"}),
          quantity_field("water", &Recipe::water, bounds::water,
                         {.help = "The water that you pour in.",
                          .example = "1.7 L",
                          .left_out = "it is worked out"}),
          quantity_field("water_temperature", &Recipe::water_temperature, bounds::poured,
                         {.help = "Temperature of the water that you pour in, for example from a "
                                  "kettle. Volumes of this water are measured at that temperature. "
                                  "It must be at least 1 K below boiling at the site.",
                          .example = "60 °C",
                          .left_out = "the room's temperature"}),
          quantity_field(
              "setting", &Recipe::setting, bounds::setting,
              {.help = "Heater setting, as a share of its full power.", .standard = "100 %"}),
          object("site", &Recipe::site, site_fields,
                 {.help = "The surroundings of the run.",
                  .left_out = "sea level, indoors, 20 °C",
                  .need = Need::no}),
          goal(),
          object("own", &Recipe::own, own_fields,
                 {.help = "What you measured with this still. It beats the tables and narrows the "
                          "ranges. A distillate rate or boil time may make the worst case worse, "
                          "never better.",
                  .need = Need::no}),
          object("limits", &Recipe::limits, limits_fields,
                 {.help = "What the run must not exceed.",
                  .left_out = "15 min of absence, no limit of time",
                  .need = Need::no}),
          fractions(),
          quantity_field("receiver_volume", &Recipe::receiver_volume, bounds::receiver,
                         {.help = "What one receiver holds. The plan says when to change it. Not "
                                  "together with fractions.",
                          .example = "1 L",
                          .left_out = "one receiver takes everything"}),
          text_field("lot", &Recipe::lot,
                     {.help = "The code on the label.",
                      .example = "L 2026-12",
                      .left_out = "made from plant and day"}),
          start(),
          object("prices", &Recipe::prices, prices_fields,
                 {.help = "What energy and plant cost. The plan then says what a run costs.",
                  .left_out = "no costs",
                  .need = Need::no}),
          choice("units", &Recipe::units,
                 {.help = "What you weigh, pour and read in. Files may have quantities in either.",
                  .standard = "metric"}),
          seed(),
      },
      nullptr,
      check_whole_recipe,
      R"("oneOf": [{"required": ["plant"]}, {"required": ["plants"]}],
         "dependencies": {"fractions": {"not": {"required": ["receiver_volume"]}}},
         "allOf": [
           {"if": {"properties": {"own": {"required": ["boil_time"]}}, "required": ["own"]},
            "then": {"anyOf": [{"required": ["water"]},
                               {"properties": {"own": {"required": ["boil_water"]}}}]}},
           {"if": {"properties": {"own": {"required": ["mains"]}}, "required": ["own"]},
            "then": {"required": ["site"],
                     "properties": {"site": {"required": ["mains", "circuit"]}},
                     "errorMessage": "Write site.mains and site.circuit beside own.mains."}}])"};
  return fields;
}

const Key& recipe_key(const std::string& path) {
  // Without what is inside a plant or still that is spelled out, which is much.
  static const std::vector<Key> keys = [] {
    std::vector<Key> outer;
    for (const Field<Recipe>& field : recipe_fields().fields) outer.push_back(field.key());
    return outer;
  }();
  return key_at(keys, path);
}

}  // namespace firstdrop
