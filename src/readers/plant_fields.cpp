// Every key of a plant.
#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "base/visible_text.hpp"
#include "firstdrop/quantity/units.hpp"
#include "readers/documents.hpp"
#include "readers/field_bounds.hpp"
#include "readers/known_names.hpp"
#include "readers/like_plant.hpp"
#include "tables/words.hpp"

namespace firstdrop {
namespace {

using json::Kind;
using json::Value;

// --- oil content

/// Published oil contents are by mass or by volume; the unit tells which.
bool is_by_volume(const Value& figure) {
  if (figure.is(Kind::text)) return bool(parse_quantity<SpecificVolume>(figure.node().text));
  for (const auto& member : figure.node().children)
    if (member.key == "unit") return bool(from_unit<SpecificVolume>(1.0, member.text));
  return false;
}

Field<OilContent> content_figure() {
  return field<OilContent>(
      "figure", KeyForm::figure,
      {.help = "The oil, by mass (% and the like) or by volume (mL/100 g and the like).",
       .example = "0.7 %"},
      [](const Value& value, OilContent& content, const Reading&) {
        if (is_by_volume(value))
          content.by_volume = value.figure(bounds::oil_by_volume);
        else
          content.by_mass = value.figure(bounds::oil_content);
      },
      [](const OilContent& content, const KeyPath& path) {
        if (content.by_mass.has_value() == content.by_volume.has_value())
          path.fault("both figures or none", "a figure either by mass or by volume");
        if (content.by_mass)
          field_detail::check_figure(*content.by_mass, bounds::oil_content, path);
        if (content.by_volume)
          field_detail::check_figure(*content.by_volume, bounds::oil_by_volume, path);
      },
      [](Key& key) {
        key.quantities = {field_detail::key_quantity(bounds::oil_content),
                          field_detail::key_quantity(bounds::oil_by_volume)};
        key.keys = figure_keys();
      },
      Need::always);
}

const Fields<OilContent>& oil_content_fields() {
  constexpr double most_studies = 1000;  // ours; more can only be a slip
  static const Fields<OilContent> fields{
      "oil_content",
      {
          content_figure(),
          choice("per", &OilContent::per, {.help = "What it is a share of.", .need = Need::always}),
          choice("distilled", &OilContent::distilled,
                 {.help = "How far the material was distilled. Use to-stated-end for your own "
                          "runs: the recovery isn't applied to it again.",
                  .need = Need::always}),
          number_field("studies", &OilContent::studies, 0, most_studies,
                       {.help = "How many independent studies the figure rests on; it may be a "
                                "fraction. Leave it out for your own runs."}),
          number_field("trials", &OilContent::trials, 0, most_studies,
                       {.help = "How many of the studies distilled the plant themselves."}),
      }};
  return fields;
}

// --- states

Field<PlantState> bulk_densities() {
  return field<PlantState>(
      "bulk_density", KeyForm::map,
      {.help = "Mass of the charge per volume that it fills, as it lies in the column, by cut. "
               "For a cut that is missing here it is worked out from another.",
       .left_out = "that of the plant's form"},
      [](const Value& value, PlantState& state, const Reading&) {
        for_each_word<Cut>(value, 1, [&](Cut cut, const Value& member) {
          state.bulk_density.push_back({cut, member.figure(bounds::bulk_density)});
        });
      },
      [](const PlantState& state, const KeyPath& path) {
        for (const BulkDensity& bulk : state.bulk_density)
          field_detail::check_figure(bulk.density, bounds::bulk_density,
                                     path.at(word_of(bulk.cut)));
      },
      [](Key& key) {
        Key one = field_detail::described("", KeyForm::figure, {.example = "170 g/L"}, Need::no);
        describes_figure(bounds::bulk_density)(one);
        describe_map<Cut>(key, "CUT", 1, false, std::move(one));
      });
}

}  // namespace

const Fields<PlantState>& plant_state_fields() {
  static const Fields<PlantState> fields{
      "plant_state",
      {
          figure("moisture", &PlantState::moisture, bounds::wet,
                 {.help = "Water per material as you load it, by mass.",
                  .example = "75 %",
                  .left_out = "that of the plant's form"}),
          bulk_densities(),
          object("oil_content", &PlantState::oil_content, oil_content_fields,
                 {.help = "Oil in the material.",
                  .left_out = "that of another state, converted to this one"}),
      }};
  return fields;
}

const Fields<OilRelease>& oil_release_fields() {
  static const Fields<OilRelease> fields{
      "oil_release",
      {
          figure("half_life", &OilRelease::half_life, bounds::half_life,
                 {.help = "Time from the first drop until half of the recoverable oil has come, "
                          "with the typical fast share.",
                  .example = "17 min"}),
          figure("fast_share", &OilRelease::fast_share, bounds::any_share,
                 {.help = "Share of the oil that lies on or near the surface and comes fast.",
                  .example = "20 %",
                  .left_out = "the value for all plants"}),
          figure("steam_flow", &OilRelease::steam_flow, bounds::steam_flow,
                 {.help = "Steam flow for which the half-life holds, in kilograms per kilogram of "
                          "charge and hour.",
                  .example = "1.5 1/h",
                  .left_out = "the typical flow of published runs"}),
      }};
  return fields;
}

std::vector<std::string> class_names(const Tables& tables) {
  std::vector<std::string> names = field_detail::names_in(tables.release_classes);
  if (names.empty()) return names;
  std::erase_if(names, [](const std::string& key) { return key.ends_with("-seed"); });
  names.emplace_back("seed");
  return names;
}

namespace {

// --- parts of a plant

const Fields<UsualCut>& usual_cut_fields() {
  static const Fields<UsualCut> fields{
      "usual_cut",
      {
          figure("time", &UsualCut::time, bounds::run,
                 {.help = "Time from the first drop to the stop.", .example = "60 min"}),
          words_field("sign", &UsualCut::sign, {.help = "What to watch for."}),
      },
      &UsualCut::evidence};
  return fields;
}

const Fields<BestMethod>& best_method_fields() {
  static const Fields<BestMethod> fields{
      "best_method",
      {
          choice("method", &BestMethod::method, {.help = "The method.", .need = Need::always}),
          words_field("why", &BestMethod::why, {.help = "Why this method."}),
      },
      &BestMethod::evidence};
  return fields;
}

const Fields<Unsuited>& unsuited_fields() {
  static const Fields<Unsuited> fields{
      "unsuited",
      {
          truth_field("refused", &Unsuited::refused,
                      {.help = "Whether nobody should distil it. A plan of it is then refused. "
                               "Otherwise a plan cautions that steam spoils it.",
                       .standard = "false"}),
          words_field("why", &Unsuited::why, {.help = "Why, in sentences."}),
          words_field("usual_way", &Unsuited::usual_way,
                      {.help = "What people do instead, in a sentence.",
                       .left_out = "no other way is named",
                       .need = Need::no}),
      },
      &Unsuited::evidence};
  return fields;
}

const Fields<Hazard>& hazard_fields() {
  static const Fields<Hazard> fields{
      "hazard",
      {
          choices("harms", &Hazard::harms,
                  {.help = "What it does. A plan warns of seizures, coma and poisoning above all "
                           "else. The list is empty where the text only rules a harm out.",
                   .example = R"(["seizures", "coma"])",
                   .need = Need::always}),
          choices(
              "ruled_out", &Hazard::ruled_out,
              {.help = "Harms that the text mentions only to say that this oil doesn't cause them.",
               .example = R"(["sunburn"])"}),
          choices("routes", &Hazard::routes,
                  {.help = "How the oil gets to where it does harm.",
                   .example = R"(["swallowed", "breathed"])",
                   .left_out = "not stated, or there is no such route"}),
          choices("at_risk", &Hazard::at_risk,
                  {.help = "Whom it harms more than others.",
                   .example = R"(["children", "epilepsy"])",
                   .left_out = "everyone alike"}),
          choices("substances", &Hazard::substances,
                  {.help = "The parts of the oil that do the harm, where the source names them.",
                   .example = R"(["camphor", "cineole"])"}),
          words_field("text", &Hazard::text, {.help = "What the danger is, and what to do."}),
      },
      &Hazard::evidence};
  return fields;
}

Field<Plant> release_class() {
  return field<Plant>(
      "release_class", KeyForm::name,
      {.help = "Where the oil sits, which decides how fast it comes.",
       .example = "surface-glands",
       .left_out = "release is needed if there is any figure of the oil",
       .need = Need::no},
      [](const Value& value, Plant& plant, const Reading& reading) {
        const auto name = value.words();
        if (!name) return;
        const std::vector<std::string> names = class_names(reading.tables);
        if (names.empty() || std::find(names.begin(), names.end(), *name) != names.end())
          plant.release_class = *name;
        else
          value.refuse_name(names, "a release class");
      },
      [](const Plant& plant, const KeyPath& path) {
        const std::vector<std::string> names = class_names(path.tables());
        const bool known =
            plant.release_class.empty() ||
            std::find(names.begin(), names.end(), plant.release_class) != names.end();
        if (!known)
          path.fault(firstdrop::quoted(plant.release_class),
                     "a release class: " + json::either(names));
      },
      [](Key& key) { key.table = "release class"; });
}

Field<Plant> constituents() {
  return field<Plant>(
      "constituents", KeyForm::map,
      {.help = "What the oil consists of: keys that `firstdrop liquids` lists, with their shares "
               "of the oil, no more than 100 % together. The plan works out from them how much oil "
               "the steam can carry.",
       .example = R"({"linalool": "35 %", "linalyl-acetate": "33 %"})",
       .left_out = "what the steam can carry is unknown, and the plan says so"},
      [](const Value& value, Plant& plant, const Reading& reading) {
        const auto& liquids = reading.tables.liquids;
        for (const Value& member : value.members()) {
          const std::string liquid(member.key());
          if (!liquids.empty() && !liquids.contains(liquid)) {
            member.fault(fmt::format("the unknown liquid {}", firstdrop::quoted(liquid)),
                         "a key of the liquid table",
                         did_you_mean(liquid, known_names(liquids), "firstdrop liquids"));
          }
          plant.constituents.push_back({liquid, member.figure(bounds::any_share)});
        }
      },
      [](const Plant& plant, const KeyPath& path) {
        for (const Constituent& constituent : plant.constituents) {
          const KeyPath here = path.at(constituent.liquid);
          if (!path.tables().liquids.contains(constituent.liquid))
            here.fault("an unknown liquid", "a key of the liquid table");
          field_detail::check_figure(constituent.share, bounds::any_share, here);
        }
      },
      [](Key& key) {
        Key one = field_detail::described("LIQUID", KeyForm::figure,
                                          {.help = "Share of the oil, by mass.", .example = "35 %"},
                                          Need::no);
        describes_figure(bounds::any_share)(one);
        key.table = "liquid";
        key.keys = {std::move(one)};
      });
}

// Moisture and bulk density that a state leaves out must be in the defaults of the plant's form.
void check_defaults(const Plant& plant, const Tables& tables, const Report& report) {
  const auto form = plant.form ? tables.forms.find(*plant.form) : tables.forms.end();
  for (const auto& [state, of_state] : plant.states) {
    PlantState defaults;
    if (form != tables.forms.end() && form->second.states.contains(state))
      defaults = form->second.states.at(state);
    const auto lacks = [&, where = "states/" + to_string(state)](const char* what) {
      report.fault(where,
                   fmt::format("no {}, and {}", what,
                               plant.form ? "none in its form " + to_string(*plant.form)
                                          : std::string("no form")),
                   "the figure, or a form of the material that has a default for this state");
    };
    if (!of_state.moisture && !defaults.moisture) lacks("moisture");
    if (of_state.bulk_density.empty() && defaults.bulk_density.empty()) lacks("bulk_density");
  }
}

/// What a plant needs that is like no other.
void check_needed(const Plant& plant, const Report& report) {
  if (plant.latin.empty() && plant.like.empty())
    report.missing("latin", "the botanical name, or like and a plant of the table");
  if (plant.part.empty()) report.missing("part", "the part that is distilled");
  if (plant.states.empty()) report.missing("states", "what is known of it in at least one state");
}

/// A plant that nobody should distil isn't planned like another under its own name.
void check_not_refused(const Plant& plant, const Tables& tables, const Report& report) {
  if (plant.like.empty()) return;
  const std::string name = plain_name(plant.name);
  const auto is_it = [&](const std::string& other) { return plain_name(other) == name; };
  for (const auto& [key, entry] : tables.plants) {
    if (!is_refused(entry)) continue;
    const bool same = is_it(key) || is_it(entry->name) || is_it(entry->latin) ||
                      std::any_of(entry->also.begin(), entry->also.end(), is_it);
    if (!same) continue;
    report.fault(
        "name", fmt::format("a plant that nobody should distil, {}", firstdrop::quoted(plant.name)),
        "another plant", entry->unsuited->why);
    return;
  }
}

/// A plant has all that a plan needs of its oil, or nothing.
void check_oil(const Plant& plant, const Report& report) {
  const bool releases = !plant.release_class.empty() || !plant.release.empty();
  const bool content = has_oil_figures(plant);
  const bool says_anything = releases || plant.oil_density || content || !plant.recovery.empty() ||
                             !plant.constituents.empty() || plant.hydrosol_oil ||
                             plant.oil_freezes || plant.flash_point || plant.wants_cohobation;
  if (!says_anything) return;
  const std::string or_none = ", or no figure of the oil at all: plans are then for hydrosol";
  if (!plant.oil_density) report.missing("oil_density", "the density of its oil" + or_none);
  if (!releases)
    report.missing("release", "how fast the oil comes, by method, or a release_class" + or_none);
  if (!content && !plant.states.empty())
    report.fault("states", "no oil_content in any state",
                 "an oil_content in at least one state" + or_none);
}

void complete(Plant& plant, const Tables& tables) {
  plant = completed_by_like(std::move(plant), tables);
}

void check_whole(const Plant& plant, const Tables& tables, const Report& report) {
  check_needed(plant, report);
  check_not_refused(plant, tables, report);
  check_oil(plant, report);
  check_defaults(plant, tables, report);
  double total = 0.0;
  for (const Constituent& constituent : plant.constituents)
    total += constituent.share.typical().si();
  if (total > 1.0 + 1e-9)
    report.fault("constituents", fmt::format("typical shares of {} % together", plain(100 * total)),
                 "shares of at most 100 % together");
}

}  // namespace

namespace {

constexpr const char* unless_like = "unless there is like";
constexpr const char* beside_oil = "if there is any figure of its oil";

Field<Plant> like() {
  constexpr const char* wanted = "a key of the plant table or a form";
  return field<Plant>(
      "like", KeyForm::name,
      {.help = "For a plant that isn't in the table: the plant that it is like, or its form "
               "alone. What this file leaves out is taken from there, with a wide range of "
               "oil. Hazards aren't.",
       .example = "spearmint",
       .left_out = "it is like no other, so its own figures are needed",
       .outside_tables = true},
      [](const Value& value, Plant& plant, const Reading& reading) {
        const auto word = value.words();
        if (!word) return;
        const auto entry = reading.tables.plants.find(*word);
        if (entry != reading.tables.plants.end() && is_refused(entry->second)) {
          value.fault(
              fmt::format("a plant that nobody should distil, {}", firstdrop::quoted(*word)),
              "another plant or a form", "nothing can be planned like it");
          return;
        }
        const std::vector<std::string> names = names_to_be_like(reading.tables);
        if (reading.tables.plants.empty() ||
            std::find(names.begin(), names.end(), *word) != names.end())
          plant.like = *word;
        else
          value.refuse_name(names, wanted, "to list the plants, run `firstdrop plants`");
      },
      [](const Plant& plant, const KeyPath& path) {
        const std::vector<std::string> names = names_to_be_like(path.tables());
        if (!plant.like.empty() && std::find(names.begin(), names.end(), plant.like) == names.end())
          path.fault("an unknown name", wanted);
      },
      [](Key& key) { key.table = "plant or form"; });
}

}  // namespace

const Fields<Plant>& plant_fields() {
  static const Fields<Plant> fields{
      "inline_plant",
      {
          version<Plant>("plant", "It marks the file as a plant in this format."),
          words_field("key", &Plant::key,
                      {.help = "The plant's short name in plans and JSON.",
                       .example = "garden-lavender",
                       .standard = "own",
                       .need = Need::no,
                       .outside_tables = true}),
          schema_remark<Plant>(),
          text_field("note", &Plant::note, {.help = "A remark for people; the plan shows it."}),
          words_field("name", &Plant::name,
                      {.help = "What the plant is called.", .example = "lavender"}),
          texts_field("also", &Plant::also,
                      {.help = "Other common names. `firstdrop plants` finds the plant by them.",
                       .example = R"(["true lavender", "English lavender"])",
                       .left_out = "none"}),
          like(),
          words_field("latin", &Plant::latin,
                      {.help = "Its botanical name.",
                       .example = "Lavandula angustifolia",
                       .need = Need::by_rule,
                       .needed_if = unless_like}),
          words_field("part", &Plant::part,
                      {.help = "The part that is distilled.",
                       .example = "flowering tops",
                       .need = Need::by_rule,
                       .needed_if = unless_like}),
          choice("form", &Plant::form,
                 {.help = "What the material is like to weigh and pack. Figures of moisture and "
                          "bulk density that a state leaves out come from it.",
                  .left_out = "every state needs moisture and bulk_density",
                  .need = Need::in_table}),
          choice("loaded", &Plant::loaded,
                 {.help = "How people load it: the cut of a recipe that names none.",
                  .left_out = "by its form: flowers whole, seed crushed, anything else chopped"}),
          release_class(),
          objects_by("states", "STATE", &Plant::states, plant_state_fields,
                     {.help = "What is known of the plant fresh, wilted and dried: at least one of "
                              "them, and an oil_content in at least one if there is any figure of "
                              "its oil.",
                      .need = Need::by_rule,
                      .needed_if = unless_like},
                     1),
          objects_by("release", "METHOD", &Plant::release, oil_release_fields,
                     {.help = "How fast the oil comes, by method.",
                      .need = Need::by_rule,
                      .needed_if = "if there is any figure of its oil and no release_class"},
                     1),
          figures_by("recovery", "METHOD", &Plant::recovery, bounds::recovered,
                     {.help = "How much of the oil that a laboratory finds a still gets from the "
                              "same batch, by method.",
                      .left_out = "that of all plants"}),
          figure("oil_density", &Plant::oil_density, bounds::of_liquid,
                 {.help = "Density of the oil: whether it floats, and how much room it takes. "
                          "Without any figure of the oil, plans are for hydrosol and say nothing "
                          "of oil.",
                  .example = "0.885 g/mL",
                  .need = Need::by_rule,
                  .needed_if = beside_oil}),
          constituents(),
          figure("hydrosol_oil", &Plant::hydrosol_oil, bounds::in_water,
                 {.help = "Oil that stays in the hydrosol, as measured.",
                  .example = "300 mg/L",
                  .left_out = "worked out from the solubility of the constituents"}),
          figure("oil_freezes", &Plant::oil_freezes, bounds::chemist_range,
                 {.help = "Temperature at which the oil begins to freeze.",
                  .example = "16.5 °C",
                  .left_out = "the plan doesn't mention it"}),
          figure("flash_point", &Plant::flash_point, bounds::chemist_range,
                 {.help = "Flash point of the oil.",
                  .example = "68 °C",
                  .left_out = "the plan doesn't mention it"}),
          truth_field(
              "wants_cohobation", &Plant::wants_cohobation,
              {.help = "Whether most of the oil stays in the first water, as with roses. To "
                       "get that oil, the first water goes into the cold pot of another "
                       "run.",
               .standard = "false"}),
          figure("hydrosol_per_fresh", &Plant::hydrosol_per_fresh, bounds::ratio,
                 {.help = "Hydrosol that people collect per mass of fresh material.",
                  .example = "0.8 L/kg",
                  .left_out = "that of all plants"}),
          object("usual_cut", &Plant::usual_cut, usual_cut_fields,
                 {.help = "When people who distil this plant usually stop."}),
          object("best_method", &Plant::best_method, best_method_fields,
                 {.help = "How this plant is best distilled, if one method is better."}),
          object("unsuited", &Plant::unsuited, unsuited_fields,
                 {.help = "For a plant that steam spoils, or that nobody should distil: why.",
                  .left_out = "steam suits it"}),
          objects("hazards", &Plant::hazards, hazard_fields,
                  {.help = "What is dangerous about plant, oil or hydrosol.",
                   .left_out = "nothing is known, which doesn't mean harmless"}),
      },
      nullptr,
      check_whole,
      R"("if": {"not": {"required": ["like"]}},
         "then": {
           "required": ["latin", "part", "states"],
           "if": {"not": {"required": ["form"]}},
           "then": {"properties": {"states": {"additionalProperties": {
                      "required": ["moisture", "bulk_density"]}}}}},
         "allOf": [{
           "if": {"not": {"required": ["like"]}, "anyOf": [
             {"required": ["oil_density"]}, {"required": ["release_class"]},
             {"required": ["release"]}, {"required": ["recovery"]}, {"required": ["constituents"]},
             {"required": ["hydrosol_oil"]}, {"required": ["oil_freezes"]},
             {"required": ["flash_point"]},
             {"required": ["wants_cohobation"],
              "properties": {"wants_cohobation": {"const": true}}},
             {"required": ["states"], "properties": {"states": {"anyOf": [
               {"required": ["fresh"], "properties": {"fresh": {"required": ["oil_content"]}}},
               {"required": ["wilted"], "properties": {"wilted": {"required": ["oil_content"]}}},
               {"required": ["dried"], "properties": {"dried": {"required": ["oil_content"]}}}]}}}]},
           "then": {
             "required": ["oil_density"],
             "anyOf": [{"required": ["release_class"]}, {"required": ["release"]}],
             "properties": {"states": {"anyOf": [
               {"required": ["fresh"], "properties": {"fresh": {"required": ["oil_content"]}}},
               {"required": ["wilted"], "properties": {"wilted": {"required": ["oil_content"]}}},
               {"required": ["dried"], "properties": {"dried": {"required": ["oil_content"]}}}]}}}}])",
      complete};
  return fields;
}

}  // namespace firstdrop
