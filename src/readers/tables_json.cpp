#include "firstdrop/readers/tables_json.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "base/visible_text.hpp"
#include "firstdrop/quantity/units.hpp"
#include "readers/documents.hpp"
#include "readers/field_bounds.hpp"
#include "readers/table_entries.hpp"
#include "readers/table_json.hpp"

namespace firstdrop {

// Not in the unnamed namespace, where Value::choice would not find them.
static std::string to_string(OilPer per) {
  return per == OilPer::as_received ? "as-received" : "dry-matter";
}
static std::string to_string(Distilled distilled) {
  return distilled == Distilled::to_exhaustion ? "to-exhaustion" : "to-stated-end";
}

namespace {

using json::Context;
using json::Kind;
using json::Object;
using json::Value;
using json::was_read;

constexpr std::array all_heaters = {HeaterKind::electric_plate, HeaterKind::induction_plate,
                                    HeaterKind::immersed_element, HeaterKind::gas_burner};
constexpr std::array all_forms = {PlantForm::leafy_herb, PlantForm::leaf, PlantForm::flowers,
                                  PlantForm::needles,    PlantForm::seed, PlantForm::wood,
                                  PlantForm::root,       PlantForm::peel};
constexpr std::array all_bases = {OilPer::as_received, OilPer::dry_matter};
constexpr std::array all_distilled = {Distilled::to_exhaustion, Distilled::to_stated_end};

template <class Map>
std::vector<std::string> keys_of(const Map& map) {
  std::vector<std::string> keys;
  for (const auto& entry : map) keys.push_back(entry.first);
  return keys;
}

/// Reads a key into another table.
template <class Map>
void reference(Object& object, const char* key, std::string& into, const Map& table,
               const char* of_what) {
  const auto value = object.required(key, of_what);
  if (!value) return;
  const auto name = value->words();
  if (!name) return;
  if (table.empty() || table.contains(*name))  // empty: unreadable, reported elsewhere
    into = *name;
  else
    value->refuse_name(keys_of(table), of_what);
}

/// Reads the member's name as a value of an enumeration.
template <class E, std::size_t n>
std::optional<E> named(const Value& member, const std::array<E, n>& all, const char* of_what) {
  std::vector<std::string> names;
  for (const E value : all) {
    names.push_back(to_string(value));
    if (names.back() == member.key()) return value;
  }
  const auto nearest = nearest_name(std::string(member.key()), names);
  member.fault(fmt::format("the unknown key {}", firstdrop::quoted(member.key())),
               fmt::format("{}: {}", of_what, json::either(names)),
               nearest.empty() ? std::string() : fmt::format("did you mean \"{}\"?", nearest));
  return std::nullopt;
}

/// One figure for each value of an enumeration; none may be missing.
template <class E, std::size_t n, class Q>
void figure_for_each(Object& parent, const char* key, std::map<E, Cited<Q>>& into,
                     const std::array<E, n>& all, const Bounds<Q>& bounds) {
  const auto value = parent.required(key, "an object with a figure for each kind");
  if (!value) return;
  Object object(*value);
  for (const E kind : all) object.figure(to_string(kind), into[kind], bounds);
  object.finish();
}

// --- The small tables

Source source_from(const Value& value) {
  Source source;
  source.key = value.key();
  Object object(value);
  object.words("citation", source.citation, "authors, year, title and place");
  if (const auto link = object.required("link", "a DOI or address, or \"\""))
    source.link = link->text().value_or("");
  object.words("seen", source.seen, "what of it was read");
  const std::string what = source.seen.substr(0, source.seen.find(": "));
  const std::vector<std::string> all = {"whole",   "abstract", "excerpt", "quoted by another",
                                        "package", "none"};
  if (!source.seen.empty() && std::find(all.begin(), all.end(), what) == all.end())
    object.fault_at("seen", visible(source.seen),
                    json::either(all) + ", and perhaps a remark after a colon");
  object.finish();
  return source;
}

Antoine antoine_from(const Value& value) {
  constexpr auto equation = "ln(P/Pa) = a - b/(T/K + c)";
  constexpr auto coefficient = from_to(-5000, 100000, "K", kelvins);
  constexpr auto validity = from_to(100, 900, "K", Temperature::from_kelvin);
  Antoine fit;
  Object object(value);
  if (const auto text = object.required("equation", equation))
    if (text->node().text != equation)
      text->refuse(fmt::format("\"{}\", the one form that is computed", equation));
  if (const auto a = object.required("a", "a plain number")) fit.a = a->number(0, 100).value_or(0);
  object.quantity("b", fit.b, coefficient);
  object.quantity("c", fit.c, coefficient);
  const bool from = object.quantity("valid_from", fit.valid_from, validity);
  const bool to = object.quantity("valid_to", fit.valid_to, validity);
  if (from && to && fit.valid_from >= fit.valid_to)
    object.fault_at("valid_to", fmt::format("{} K", plain(fit.valid_to.kelvin())),
                    fmt::format("more than valid_from, {} K", plain(fit.valid_from.kelvin())));
  fit.evidence = object.evidence();
  object.finish();
  return fit;
}

/// Whether the last digit of a CAS Registry Number is the right check digit. That is the sum of the
/// other digits, each times its place counted from the right, modulo ten.
bool is_cas_number(const std::string& text) {
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  const std::size_t size = text.size();
  if (size < 7 || size > 12 || text[size - 2] != '-' || text[size - 5] != '-') return false;
  int sum = 0;
  int place = 0;
  for (std::size_t i = size; i-- > 0;) {
    if (i == size - 2 || i == size - 5) continue;
    if (!is_digit(text[i])) return false;
    sum += place++ * (text[i] - '0');
  }
  return sum % 10 == text.back() - '0';
}

Liquid liquid_from(const Value& value) {
  Liquid liquid;
  liquid.key = value.key();
  Object object(value);
  object.words("name", liquid.name, "the liquid's name");
  if (const auto cas = object.optional("cas")) {
    liquid.cas = cas->text().value_or("");
    if (cas->is(Kind::text) && !is_cas_number(liquid.cas))
      cas->refuse("a CAS Registry Number with its right check digit, such as \"7732-18-5\"");
  }
  object.figure("molar_mass", liquid.molar_mass, between(1, 1000, "g/mol", grams_per_mole));
  if (const auto fit = object.optional("vapour_pressure"))
    liquid.vapour_pressure = antoine_from(*fit);
  object.optional_figure("density", liquid.density, bounds::of_liquid);
  object.optional_figure("water_solubility", liquid.water_solubility, bounds::in_water);
  object.optional_figure("boiling_point", liquid.boiling_point, bounds::chemist_range);
  object.optional_figure("flash_point", liquid.flash_point, bounds::chemist_range);
  object.finish();
  return liquid;
}

Material material_from(const Value& value) {
  Material material;
  material.key = value.key();
  Object object(value);
  object.figure("specific_heat", material.specific_heat, bounds::solid_heat);
  object.figure("heat_loss", material.heat_loss, bounds::surface_loss);
  object.figure("condensing", material.condensing, bounds::wall_transfer);
  object.finish();
  return material;
}

DesignDefaults design_defaults_from(const Value& value) {
  DesignDefaults defaults;
  Object object(value);
  object.marker("design_defaults");
  object.remarks();
  figure_for_each(object, "heater_efficiency", defaults.heater_efficiency, all_heaters,
                  bounds::positive_share);
  figure_for_each(object, "stored_heat", defaults.stored_heat, all_heaters,
                  from_to(0, 60, "min", minutes));
  figure_for_each(object, "particle_size", defaults.particle_size, all_cuts,
                  up_to(1000, "mm", millimetres));
  figure_for_each(object, "cut_density", defaults.cut_density, all_cuts, up_to(1000, "%", percent));
  figure_for_each(object, "recovery", defaults.recovery, all_methods, bounds::recovered);
  object.figure("fast_share", defaults.fast_share, bounds::any_share);
  object.figure("slow_rate", defaults.slow_rate, bounds::positive_share);
  object.figure("flow_on_fast", defaults.flow_on_fast, bounds::small_ratio);
  object.figure("flow_on_slow", defaults.flow_on_slow, bounds::small_ratio);
  object.figure("stated_end", defaults.stated_end, bounds::recovered);
  object.figure("drying_retention", defaults.drying_retention, bounds::recovered);
  object.figure("hydrosol_oil", defaults.hydrosol_oil, bounds::in_water);
  object.figure("hydrosol_saturation", defaults.hydrosol_saturation, bounds::small_ratio);
  object.figure("mixing", defaults.mixing, bounds::any_share);
  object.figure("particle_density", defaults.particle_density,
                from_to(100, 3000, "g/L", grams_per_litre));
  object.figure("dry_specific_heat", defaults.dry_specific_heat, bounds::solid_heat);
  object.figure("hold_up", defaults.hold_up, bounds::small_ratio);
  object.figure("film_hold_up", defaults.film_hold_up, bounds::small_ratio);
  object.figure("head_space", defaults.head_space, bounds::all_but_whole);
  object.figure("uncondensed_loss", defaults.uncondensed_loss, bounds::all_but_whole);
  object.figure("reserve_share", defaults.reserve_share, bounds::part_share);
  object.figure("fill_error", defaults.fill_error, bounds::any_share);
  object.figure("grid_clearance", defaults.grid_clearance, bounds::any_share);
  object.figure("mains", defaults.mains, from_to(50, 200, "%", percent));
  object.figure("dial_error", defaults.dial_error, bounds::any_share);
  object.figure("own_accuracy", defaults.own_accuracy, bounds::any_share);
  object.figure("own_heat_accuracy", defaults.own_heat_accuracy, bounds::any_share);
  object.figure("own_oil_accuracy", defaults.own_oil_accuracy, bounds::any_share);
  object.figure("oil_gain", defaults.oil_gain, bounds::positive_share);
  object.figure("oil_left_per_hydrosol", defaults.oil_left_per_hydrosol, bounds::positive_share);
  object.figure("oil_left_per_hour", defaults.oil_left_per_hour, bounds::any_share);
  object.figure("hydrosol_per_fresh", defaults.hydrosol_per_fresh, bounds::water_per_charge);
  object.figure("hydrosol_per_dry_fruit", defaults.hydrosol_per_dry_fruit,
                bounds::water_per_charge);
  object.figure("steam_per_charge", defaults.steam_per_charge, bounds::steam_flow);
  figure_for_each(object, "hydro_water", defaults.hydro_water, all_states,
                  bounds::water_per_charge);
  object.figure("hydro_wetting", defaults.hydro_wetting, bounds::water_per_charge);
  object.figure("approach", defaults.approach, from_to(0, 80, "K", kelvins));
  object.figure("bath_loss", defaults.bath_loss, bounds::surface_loss);
  object.figure("circuit_share", defaults.circuit_share, bounds::positive_share);
  object.figure("socket_for_hours", defaults.socket_for_hours, bounds::heater_power);
  object.figure("least_circuit", defaults.least_circuit, bounds::heater_power);
  object.figure("still_reported", defaults.still_reported, bounds::vessel_volume);
  object.finish();
  return defaults;
}

// --- Plants

/// Published oil contents are by mass or by volume; the unit tells which.
bool is_by_volume(const Value& figure) {
  if (figure.is(Kind::text)) return bool(parse_quantity<SpecificVolume>(figure.node().text));
  for (const auto& member : figure.node().children)
    if (member.key == "unit") return bool(from_unit<SpecificVolume>(1.0, member.text));
  return false;
}

OilContent oil_content_from(const Value& value) {
  OilContent content;
  Object object(value);
  if (const auto figure = object.required("figure", "the oil's share of the material")) {
    if (is_by_volume(*figure))
      content.by_volume = figure->figure(bounds::oil_by_volume);
    else
      content.by_mass = figure->figure(bounds::oil_content);
  }
  if (const auto per = object.required("per", "as-received or dry-matter"))
    if (const auto choice = per->choice(all_bases, "what the oil is a share of"))
      content.per = *choice;
  if (const auto distilled = object.required("distilled", "to-exhaustion or to-stated-end"))
    if (const auto choice = distilled->choice(all_distilled, "how far it was distilled"))
      content.distilled = *choice;
  if (const auto studies = object.optional("studies")) content.studies = studies->number(0, 1000);
  if (const auto trials = object.optional("trials")) content.trials = trials->number(0, 1000);
  object.finish();
  return content;
}

PlantState state_from(const Value& value) {
  PlantState state;
  Object object(value);
  object.optional_figure("moisture", state.moisture, bounds::wet);
  if (const auto densities = object.optional("bulk_density")) {
    for (const auto& member : densities->members())
      if (const auto cut = named(member, all_cuts, "a cut"))
        state.bulk_density.push_back({*cut, member.figure(bounds::bulk_density)});
    if (densities->is(Kind::object) && densities->node().children.empty())
      densities->fault("an empty object", "a figure for at least one cut");
  }
  if (const auto content = object.optional("oil_content"))
    state.oil_content = oil_content_from(*content);
  object.finish();
  return state;
}

OilRelease release_from(const Value& value) {
  OilRelease release;
  Object object(value);
  object.figure("half_life", release.half_life, bounds::half_life);
  object.optional_figure("fast_share", release.fast_share, bounds::any_share);
  object.optional_figure("steam_flow", release.steam_flow, bounds::steam_flow);
  object.finish();
  return release;
}

void read_releases(const Value& value, std::map<Method, OilRelease>& into) {
  for (const auto& member : value.members())
    if (const auto method = named(member, all_methods, "a method"))
      into[*method] = release_from(member);
  if (value.is(Kind::object) && value.node().children.empty())
    value.fault("an empty object", "a release for at least one method");
}

FormDefaults form_from(const Value& value) {
  FormDefaults form;
  Object object(value);
  object.optional_text("note", form.note);
  object.optional_figure("hold_up", form.hold_up, bounds::small_ratio);
  if (const auto states = object.required("states", "the defaults fresh, wilted or dried"))
    for (const auto& member : states->members())
      if (const auto state = named(member, all_states, "a state"))
        form.states[*state] = state_from(member);
  object.finish();
  return form;
}

ReleaseClass release_class_from(const Value& value) {
  ReleaseClass of_class;
  of_class.key = value.key();
  Object object(value);
  object.words("note", of_class.note, "which plants it is for");
  if (const auto releases = object.required("release", "how fast the oil comes, by method"))
    read_releases(*releases, of_class.by_method);
  object.finish();
  return of_class;
}

// Moisture and bulk density that a state leaves out must be in the defaults of the plant's form.
void require_defaults(const Value& states, const Plant& plant, const Tables& tables) {
  const auto form = plant.form ? tables.forms.find(*plant.form) : tables.forms.end();
  for (const Value& member : states.members()) {
    const auto state = std::find_if(all_states.begin(), all_states.end(),
                                    [&](State s) { return to_string(s) == member.key(); });
    if (state == all_states.end() || !member.is(Kind::object)) continue;
    const auto silent_on = [&](const char* key) {
      const auto& children = member.node().children;
      return std::none_of(children.begin(), children.end(),
                          [&](const json::Node& child) { return child.key == key; });
    };
    PlantState defaults;
    if (form != tables.forms.end() && form->second.states.contains(*state)) {
      defaults = form->second.states.at(*state);
    }
    const auto lacks = [&](const char* what) {
      member.fault(fmt::format("no {}, and {}", what,
                               plant.form ? "none in its form " + to_string(*plant.form)
                                          : std::string("no form")),
                   "the figure, or a form of the material that has a default for this state");
    };
    if (silent_on("moisture") && !defaults.moisture) lacks("moisture");
    if (silent_on("bulk_density") && defaults.bulk_density.empty()) lacks("bulk_density");
  }
}

void read_states(const Value& value, Plant& plant, const Tables& tables, bool form_misread) {
  for (const auto& member : value.members())
    if (const auto state = named(member, all_states, "a state"))
      plant.states[*state] = state_from(member);
  if (!value.is(Kind::object)) return;
  const bool has_oil = std::any_of(plant.states.begin(), plant.states.end(), [](const auto& entry) {
    return entry.second.oil_content.has_value();
  });
  if (!form_misread) require_defaults(value, plant, tables);
  if (plant.states.empty())
    value.fault("no state", "at least one of fresh, wilted and dried");
  else if (!has_oil)
    value.fault("no oil_content in any state", "an oil_content in at least one state");
}

void read_release_class(const Value& value, Plant& plant, const Tables& tables) {
  const auto name = value.words();
  if (!name) return;
  std::vector<std::string> known = keys_of(tables.release_classes);
  const bool unread = known.empty();  // empty: unreadable, reported elsewhere
  std::erase_if(known, [](const std::string& key) { return key.ends_with("-seed"); });
  known.emplace_back("seed");
  if (unread || std::find(known.begin(), known.end(), *name) != known.end())
    plant.release_class = *name;
  else
    value.refuse_name(known, "a release class");
}

// A list of names, each at most once.
template <class E, std::size_t n>
void read_choices(const Value& value, const std::array<E, n>& all, const std::string& one,
                  std::vector<E>& into) {
  for (const auto& item : value.items()) {
    const auto choice = item.choice(all, "a " + one);
    if (!choice) continue;
    if (std::find(into.begin(), into.end(), *choice) != into.end())
      item.refuse(fmt::format("each {} once", one));
    else
      into.push_back(*choice);
  }
}

void read_constituents(const Value& value, Plant& plant, const Tables& tables) {
  double total = 0.0;
  for (const auto& member : value.members()) {
    const std::string liquid(member.key());
    if (!tables.liquids.empty() && !tables.liquids.contains(liquid)) {
      const auto nearest = nearest_name(liquid, keys_of(tables.liquids));
      member.fault(fmt::format("the unknown liquid {}", firstdrop::quoted(liquid)),
                   "a key of the liquid table",
                   nearest.empty() ? std::string() : fmt::format("did you mean \"{}\"?", nearest));
    }
    plant.constituents.push_back({liquid, member.figure(bounds::any_share)});
    total += plant.constituents.back().share.typical().si();
  }
  if (total > 1.0 + 1e-9)
    value.fault(fmt::format("typical shares of {} % together", plain(100.0 * total)),
                "at most 100 %");
}

UsualCut usual_cut_from(const Value& value) {
  UsualCut cut;
  Object object(value);
  object.optional_figure("time", cut.time, bounds::run);
  object.words("sign", cut.sign, "what to watch for");
  cut.evidence = object.evidence();
  object.finish();
  return cut;
}

BestMethod best_method_from(const Value& value) {
  BestMethod best;
  Object object(value);
  if (const auto method = object.required("method", "a method"))
    best.method = method->choice(all_methods, "a method").value_or(best.method);
  object.words("why", best.why, "why this method");
  best.evidence = object.evidence();
  object.finish();
  return best;
}

Hazard hazard_from(const Value& value) {
  Hazard hazard;
  Object object(value);
  if (const auto harms = object.required("harms", "a list of harms"))
    read_choices(*harms, all_harms, "harm", hazard.harms);
  if (const auto ruled_out = object.optional("ruled_out"))
    read_choices(*ruled_out, all_harms, "harm", hazard.ruled_out);
  if (const auto routes = object.optional("routes"))
    read_choices(*routes, all_routes, "route", hazard.routes);
  if (const auto at_risk = object.optional("at_risk"))
    read_choices(*at_risk, all_at_risk, "group", hazard.at_risk);
  if (const auto substances = object.optional("substances"))
    read_choices(*substances, all_harmful_substances, "substance", hazard.substances);
  object.words("text", hazard.text, "what the danger is");
  hazard.evidence = object.evidence();
  object.finish();
  return hazard;
}

/// The key of a plant or still: that of its table entry, its own "key", or "own". Outside of
/// tables, the marker is read as well.
std::string identity(Object& object, const char* marker, Form form) {
  if (form == Form::table_entry) return std::string(object.value().key());
  object.marker(marker, form == Form::inline_object);
  const auto key = object.optional("key");
  return key ? key->words().value_or("") : "own";
}

}  // namespace

Plant plant_from(const Value& value, Form form, const Tables& tables) {
  Plant plant;
  Object object(value);
  plant.key = identity(object, "plant", form);
  std::string ignored;
  object.optional_text("$schema", ignored);
  object.optional_text("note", plant.note);
  object.words("name", plant.name, "the plant's name");
  object.words("latin", plant.latin, "the plant's botanical name");
  object.words("part", plant.part, "the part of the plant that is distilled");
  // A user's own plant may have all of its figures. A shipped one must name its form and release
  // class.
  const bool shipped = form == Form::table_entry;
  if (const auto name =
          shipped ? object.required("form", "the form of the material") : object.optional("form"))
    plant.form = name->choice(all_forms, "a form of the material");
  const bool form_misread = !plant.form && object.optional("form");
  if (const auto loaded = object.optional("loaded"))
    plant.loaded = loaded->choice(all_cuts, "a cut");
  const auto class_name = shipped ? object.required("release_class", "a release class")
                                  : object.optional("release_class");
  if (class_name) read_release_class(*class_name, plant, tables);
  if (const auto states = object.required("states", "the plant fresh, wilted or dried"))
    read_states(*states, plant, tables, form_misread);
  if (const auto releases = !class_name
                                ? object.required("release", "how fast the oil comes, by method")
                                : object.optional("release"))
    read_releases(*releases, plant.release);
  if (const auto recovery = object.optional("recovery"))
    for (const auto& member : recovery->members())
      if (const auto method = named(member, all_methods, "a method"))
        plant.recovery[*method] = member.figure(bounds::recovered);
  object.figure("oil_density", plant.oil_density, bounds::of_liquid);
  if (const auto constituents = object.optional("constituents"))
    read_constituents(*constituents, plant, tables);
  object.optional_figure("hydrosol_oil", plant.hydrosol_oil, bounds::in_water);
  object.optional_figure("oil_freezes", plant.oil_freezes, bounds::chemist_range);
  object.optional_figure("flash_point", plant.flash_point, bounds::chemist_range);
  if (const auto wants = object.optional("wants_cohobation"))
    plant.wants_cohobation = wants->truth().value_or(false);
  if (const auto cut = object.optional("usual_cut")) plant.usual_cut = usual_cut_from(*cut);
  if (const auto best = object.optional("best_method")) plant.best_method = best_method_from(*best);
  if (const auto hazards = object.optional("hazards"))
    for (const auto& item : hazards->items()) plant.hazards.push_back(hazard_from(item));
  object.finish();
  return plant;
}

Still still_from(const Value& value, Form form, const Tables& tables) {
  Still still;
  still.key = form == Form::table_entry ? std::string(value.key()) : "own";
  still_fields().read(value, still, {tables, {}, form});
  return still;
}

// --- The tables as a whole

namespace {

Guidance guidance_from(const Value& value) {
  Guidance guidance;
  Object object(value);
  object.words("reason", guidance.reason, "how it does harm");
  object.words("follows", guidance.follows, "the body whose guidance it follows");
  guidance.evidence = object.evidence();
  object.finish();
  return guidance;
}

FindingKind finding_from(const Value& value) {
  static constexpr std::array all_levels = {Level::note, Level::caution, Level::refuse};
  FindingKind kind;
  Object object(value);
  if (const auto levels = object.required("level", "a list of levels")) {
    for (const auto& item : levels->items()) {
      if (const auto level = item.choice(all_levels, "a level")) kind.levels.push_back(*level);
    }
    if (levels->is(Kind::list) && levels->node().children.empty())
      levels->fault("an empty list", "at least one level");
  }
  object.words("meaning", kind.meaning, "what it means");
  object.words("do", kind.what_to_do, "what to do");
  if (const auto standing = object.optional("standing"))
    kind.standing = standing->truth().value_or(false);
  if (const auto danger = object.optional("danger")) kind.danger = danger->truth().value_or(false);
  if (kind.standing) object.words("brief", kind.brief, "what to do in few words");
  if (const auto guidance = object.optional("guidance")) kind.guidance = guidance_from(*guidance);
  object.finish();
  return kind;
}

bool is_plain_key(std::string_view key) {
  return !key.empty() && std::all_of(key.begin(), key.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
           c == '_' || c == '.';
  });
}

/// {"plants": 1, "entries": {…}}
template <class T, class Read>
void read_table(std::string_view text, const char* name, Context& context,
                std::map<std::string, T>& into, Read read) {
  context.file = fmt::format("{}.json", name);
  const auto root = json::parse(text, context);
  if (!root) return;
  const Value top(*root, context);
  Object object(top);
  object.marker(name);
  object.remarks();
  if (const auto entries = object.required("entries", "the table's entries by their keys")) {
    for (const auto& entry : entries->members()) {
      if (!is_plain_key(entry.key()))
        entry.fault(fmt::format("the key {}", firstdrop::quoted(entry.key())),
                    "letters, digits, hyphens and dots");
      into.emplace(entry.key(), read(entry));
    }
    if (entries->is(Kind::object) && into.empty() && !context.partial)
      entries->refuse("at least one entry");
  }
  object.finish();
}

void read_forms(std::string_view text, Context& context, Tables& tables) {
  std::map<std::string, FormDefaults> by_name;
  read_table(text, "forms", context, by_name, [](const Value& entry) {
    return named(entry, all_forms, "a form of the material") ? form_from(entry) : FormDefaults{};
  });
  for (const PlantForm form : all_forms) {
    const auto found = by_name.find(to_string(form));
    if (found != by_name.end()) tables.forms[form] = found->second;
  }
}

// Reads a user's own file.
template <class T>
T read_own(std::string_view text, const std::string& file, const Tables& tables,
           T (*from)(const Value&, Form, const Tables&)) {
  Context context{file, &tables.sources};
  T own;
  if (const auto root = json::parse(text, context)) {
    own = from(Value(*root, context), Form::own_file, tables);
  }
  context.finish();
  return own;
}

}  // namespace

namespace {

void read_rest(const TableTexts& texts, Context& context, Tables& tables) {
  if (!tables.sources.empty()) context.sources = &tables.sources;
  read_table(texts.liquids, "liquids", context, tables.liquids, liquid_from);
  read_table(texts.materials, "materials", context, tables.materials, material_from);
  context.file = "design_defaults.json";
  if (const auto root = json::parse(texts.design_defaults, context))
    tables.design_defaults = design_defaults_from(Value(*root, context));
  read_table(texts.release_classes, "release_classes", context, tables.release_classes,
             release_class_from);
  read_forms(texts.forms, context, tables);
  read_table(texts.plants, "plants", context, tables.plants,
             [&](const Value& entry) { return plant_from(entry, Form::table_entry, tables); });
  read_table(texts.stills, "stills", context, tables.stills,
             [&](const Value& entry) { return still_from(entry, Form::table_entry, tables); });
  read_table(texts.findings, "findings", context, tables.findings, finding_from);
  context.finish();
}

}  // namespace

Tables read_tables(const TableTexts& texts) {
  Tables tables;
  Context context;
  context.shipped = true;
  read_table(texts.sources, "sources", context, tables.sources, source_from);
  read_rest(texts, context, tables);
  return tables;
}

namespace {

/// `seen` of a source, from its entry in a table that is known to be valid.
std::string seen_of(std::string_view entry) {
  constexpr std::string_view key = "\"seen\": \"";
  const std::size_t at = entry.rfind(key);
  if (at == std::string_view::npos) return {};
  entry.remove_prefix(at + key.size());
  return std::string(entry.substr(0, entry.find('"')));
}

}  // namespace

Tables read_tables(const TableTexts& texts, const TablePart& part) {
  Tables tables;
  Context context;
  context.shipped = true;
  context.partial = true;
  for (const auto& [key, text] : table_entries(texts.sources)) {
    tables.sources.emplace(key, Source{std::string(key), "", "", seen_of(text)});
  }
  const std::string plants = table_of("plants", texts.plants, part.plants);
  const std::string stills = table_of("stills", texts.stills, part.stills);
  TableTexts some = texts;
  // A plant of the table names its liquids; a user's own plant may name any.
  const bool all_of_table =
      !part.plants.empty() &&
      std::all_of(part.plants.begin(), part.plants.end(), [&](const std::string& key) {
        return plants.find('"' + key + "\": {") != std::string::npos;
      });
  std::set<std::string> named;
  for (const auto& [key, text] : table_entries(texts.liquids)) {
    if (!all_of_table || plants.find('"' + std::string(key) + '"') != std::string::npos) {
      named.emplace(key);
    }
  }
  const std::string liquids = table_of("liquids", texts.liquids, named);
  some.liquids = liquids;
  some.plants = plants;
  some.stills = stills;
  read_rest(some, context, tables);
  return tables;
}

Still read_still(std::string_view text, const std::string& file, const Tables& tables) {
  return read_own<Still>(text, file, tables, still_from);
}

Plant read_plant(std::string_view text, const std::string& file, const Tables& tables) {
  return read_own<Plant>(text, file, tables, plant_from);
}

}  // namespace firstdrop
