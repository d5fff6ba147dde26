// Every key of a still.
#include <fmt/core.h>

#include <algorithm>

#include "firstdrop/quantity/units.hpp"
#include "readers/documents.hpp"
#include "readers/field_bounds.hpp"
#include "tables/words.hpp"

namespace firstdrop {
namespace {

/// Density of ice at 0 °C; from memory, agrees with IAPWS R10-06(2009) to the digits given.
constexpr Density ice_density = kilograms_per_cubic_metre(916.7);

/// More runs than anybody does with one still; a slip otherwise.
constexpr int most_measured_runs = 100000;

std::string litres_text(Volume volume) {
  return fmt::format("{} L", plain(in_litres(volume)));
}

/// A round vessel of this volume and diameter must have a plausible height. The limits, common
/// practice without a source, catch a radius, or centimetres for millimetres.
void check_proportions(const char* name, const Cited<Volume>& volume, const Cited<Length>& diameter,
                       const Report& report) {
  const Length height = volume.typical() / circle_area(diameter.typical());
  const Fraction ratio = height / diameter.typical();
  if (ratio >= 0.2 && ratio <= 5.0) return;
  report.fault("diameter",
               fmt::format("a {} of {} and {} mm across: {} mm high, {} times its diameter", name,
                           litres_text(volume.typical()), plain(in_millimetres(diameter.typical())),
                           plain(in_millimetres(height)), plain(ratio)),
               "sizes that give a height of 0.2 to 5 times the diameter");
}

void check_pot(const Pot& pot, const Tables&, const Report& report) {
  check_proportions("pot", pot.volume, pot.diameter, report);
  const Volume limit = pot.fill_limit.typical() * pot.volume.typical();
  if (pot.minimum_water.typical() < limit) return;
  report.fault("minimum_water", litres_text(pot.minimum_water.typical()) + " of water at least",
               fmt::format("a value below the pot's filling limit, {} % of {}, that is {}",
                           plain(in_percent(pot.fill_limit.typical())),
                           litres_text(pot.volume.typical()), litres_text(limit)));
}

void check_column(const Column& column, const Tables&, const Report& report) {
  check_proportions("column", column.volume, column.diameter, report);
}

void check_condenser(const Condenser& condenser, const Tables&, const Report& report) {
  const auto needs = [&](const char* key, bool given, const char* what) {
    if (!given)
      report.missing(key, fmt::format("{}: a condenser of the kind {} needs it", what,
                                      to_string(condenser.kind)));
  };
  if (condenser.kind == CondenserKind::run_through) {
    needs("flow_limit", condenser.flow_limit.has_value(),
          "a figure for the most that the tap or hose gives");
  } else {
    needs("coolant", condenser.coolant.has_value(),
          "a figure for the filling of the coolant vessel");
    needs("ice_per_change", condenser.ice_per_change.has_value(),
          "a figure for the ice of one change, 0 kg for none");
  }
  if (!condenser.coolant || !condenser.ice_per_change) return;
  const Mass ice = condenser.ice_per_change->typical();
  const Volume room = condenser.coolant->typical();
  if (ice / ice_density > room)
    report.fault("ice_per_change",
                 fmt::format("{} kg of ice, which takes {}", plain(in_kilograms(ice)),
                             litres_text(ice / ice_density)),
                 "a mass that takes at most what the coolant vessel holds, " + litres_text(room));
}

void check_grid(const Grid& grid, const Pot& pot, const Report& report) {
  const Volume both = grid.water_below.typical() + grid.space.typical();
  const Volume whole = pot.volume.typical();
  if (both > whole * (1 + 1e-9))  // 4 L and 8 L make 12 L, whatever the rounding
    report.fault("grid",
                 fmt::format("{} below the grid and {} above it, {} together",
                             litres_text(grid.water_below.typical()),
                             litres_text(grid.space.typical()), litres_text(both)),
                 "values that add up to at most the pot's " + litres_text(whole));
  if (pot.minimum_water.typical() > grid.water_below.typical())
    report.fault(
        "grid/water_below", litres_text(grid.water_below.typical()) + " below the grid",
        "a value of at least the pot's minimum_water, " + litres_text(pot.minimum_water.typical()));
}

void check_parts(const Still& still, const Tables&, const Report& report) {
  const auto runs = [&](Method method) {
    return std::find(still.methods.begin(), still.methods.end(), method) != still.methods.end();
  };
  if (runs(Method::steam) && !still.column)
    report.missing("column", "a column, because methods names steam");
  if (runs(Method::water_and_steam) && !still.grid)
    report.missing("grid", "a grid, because methods names water-and-steam");
  if (still.grid) check_grid(*still.grid, still.pot, report);
}

template <class T>
Field<T> material(const char* name, std::string T::*member, const char* help) {
  return name_of(name, member, "material", &Tables::materials, {.help = help});
}

const Fields<Pot>& pot_fields() {
  static const Fields<Pot> fields{
      "pot",
      {
          material("material", &Pot::material, "What it is made of."),
          figure("volume", &Pot::volume, bounds::vessel_volume,
                 {.help = "To the brim.", .example = "3 L"}),
          figure("diameter", &Pot::diameter, bounds::vessel_diameter,
                 {.help = "Inside. The pot must be 0.2 to 5 times as high as it is wide.",
                  .example = "160 mm"}),
          figure("mass", &Pot::mass, bounds::vessel_mass,
                 {.help = "Mass of the empty pot, which is heated along with the water.",
                  .example = "1.1 kg"}),
          figure("fill_limit", &Pot::fill_limit, bounds::fill_limit,
                 {.help = "Share of the volume that you may fill, so that there is room to boil.",
                  .example = "80 %"}),
          figure(
              "minimum_water", &Pot::minimum_water, bounds::minimum_water,
              {.help = "The least water that must cover the base, or the element in the pot. "
                       "The reserve is never less. It must be less than fill_limit times volume.",
               .example = "300 mL"}),
      },
      nullptr,
      check_pot};
  return fields;
}

const Fields<Column>& column_fields() {
  static const Fields<Column> fields{
      "column",
      {
          material("material", &Column::material, "What it is made of."),
          figure("volume", &Column::volume, bounds::vessel_volume,
                 {.help = "Room for the charge, from the sieve to the head.", .example = "1.5 L"}),
          figure("diameter", &Column::diameter, bounds::vessel_diameter,
                 {.help = "Inside. The column must be 0.2 to 5 times as high as it is wide.",
                  .example = "100 mm"}),
          figure("mass", &Column::mass, bounds::vessel_mass,
                 {.help = "Mass of the empty column with its sieve.", .example = "0.5 kg"}),
      },
      nullptr,
      check_column};
  return fields;
}

const Fields<Grid>& grid_fields() {
  static const Fields<Grid> fields{
      "grid",
      {
          figure("water_below", &Grid::water_below, bounds::vessel_volume,
                 {.help = "Water that the pot holds up to the underside of the grid. It must be no "
                          "less than the pot's minimum_water.",
                  .example = "4 L"}),
          figure(
              "space", &Grid::space, bounds::vessel_volume,
              {.help = "Room for the charge above the grid. Together with water_below it must be "
                       "no more than the pot's volume.",
               .example = "8 L"}),
          figure("mass", &Grid::mass, bounds::one_small_mass,
                 {.help = "Mass of grid and basket.", .example = "0.6 kg"}),
      }};
  return fields;
}

const Fields<Head>& head_fields() {
  static const Fields<Head> fields{
      "head",
      {
          material("material", &Head::material, "What it is made of."),
          figure("mass", &Head::mass, bounds::vessel_mass,
                 {.help = "Mass of lid, dome and vapour path.", .example = "0.3 kg"}),
          figure("surface", &Head::surface, bounds::surface,
                 {.help = "Outside surface, which loses heat to the room.", .example = "300 cm2"}),
      }};
  return fields;
}

const Fields<Heater>& heater_fields() {
  static const Fields<Heater> fields{
      "heater",
      {
          choice("kind", &Heater::kind, {.help = "What heats the pot.", .need = Need::always}),
          figure("power", &Heater::power, bounds::heater_power,
                 {.help = "Rated power, at full setting.", .example = "1 kW"}),
          figure("efficiency", &Heater::efficiency, bounds::efficiency,
                 {.help = "Share of the power that gets into the pot.",
                  .example = "74 %",
                  .left_out = "that of its kind"}),
      }};
  return fields;
}

const Fields<Condenser>& condenser_fields() {
  static const Fields<Condenser> fields{
      "condenser",
      {
          choice("kind", &Condenser::kind, {.help = "How it is cooled.", .need = Need::always}),
          material("wall", &Condenser::wall, "What the condensing surface is made of."),
          figure("surface", &Condenser::surface, bounds::surface,
                 {.help = "Condensing surface.", .example = "700 cm2"}),
          figure("outlet", &Condenser::outlet, bounds::outlet,
                 {.help =
                      "The highest temperature at which the distillate should leave the condenser.",
                  .example = "40 °C"}),
          figure("coolant_limit", &Condenser::coolant_limit, bounds::coolant_limit,
                 {.help = "The highest temperature that the coolant may reach. Then change the "
                          "ice, or turn the heat off.",
                  .example = "35 °C"}),
          figure("coolant", &Condenser::coolant, bounds::vessel_volume,
                 {.help = "Volume of coolant in the bath or reservoir, including the ice.",
                  .example = "5 L",
                  .need = Need::by_rule,
                  .needed_if = "for an ice bath or reservoir"}),
          figure("ice_per_change", &Condenser::ice_per_change, bounds::one_small_mass,
                 {.help = "Ice that you add at one change, 0 kg for none. It must fit into the "
                          "coolant vessel.",
                  .example = "1.5 kg",
                  .need = Need::by_rule,
                  .needed_if = "for an ice bath or reservoir"}),
          figure("flow_limit", &Condenser::flow_limit, bounds::tap,
                 {.help = "The most that the tap or hose gives.",
                  .example = "6 L/min",
                  .need = Need::by_rule,
                  .needed_if = "for run-through"}),
      },
      nullptr,
      check_condenser,
      R"("if": {"properties": {"kind": {"const": "run-through"}}, "required": ["kind"]},
         "then": {"required": ["flow_limit"]},
         "else": {"if": {"required": ["kind"]},
                  "then": {"required": ["coolant", "ice_per_change"]}})"};
  return fields;
}

void check_measured_runs(const MeasuredRuns& measured, const Tables&, const Report& report) {
  if (measured.days >= 1 && measured.days <= measured.runs) return;
  report.fault("days", fmt::format("{} runs on {} days", measured.runs, measured.days),
               "at least one day, and no more days than runs");
}

const Fields<MeasuredRuns>& measured_runs_fields() {
  static const Fields<MeasuredRuns> fields{
      "measured_runs",
      {
          count_field("runs", &MeasuredRuns::runs, most_measured_runs,
                      {.help = "How many runs the figures come from.", .example = "1"}),
          count_field("days", &MeasuredRuns::days, most_measured_runs,
                      {.help = "On how many days these runs were.", .example = "1"}),
          day_field("last", &MeasuredRuns::last,
                    {.help = "The day of the last of them.",
                     .example = "2026-06-20",
                     .need = Need::always}),
          quantity_field("hottest", &MeasuredRuns::hottest, bounds::efficiency,
                         {.help = "Share of the power that got into the pot in the hottest run.",
                          .example = "72.3 %",
                          .need = Need::always}),
      },
      nullptr,
      check_measured_runs};
  return fields;
}

}  // namespace

const Fields<Still>& still_fields() {
  static const Fields<Still> fields{
      "inline_still",
      {
          version<Still>("still", "It marks the file as a still in this format."),
          words_field("key", &Still::key,
                      {.help = "The still's short name in plans and JSON.",
                       .example = "kitchen-pot",
                       .standard = "own",
                       .need = Need::no,
                       .outside_tables = true}),
          schema_remark<Still>(),
          note_remark<Still>(),
          words_field(
              "title", &Still::title,
              {.help = "What pages and sheets call the still.", .example = "Bench column, 1.5 L"}),
          words_field("about", &Still::about,
                      {.help = "A sentence about it.", .need = Need::in_table}),
          choices("methods", &Still::methods,
                  {.help = "How it can be run. A recipe that names no method gets the first. steam "
                           "needs a column, water-and-steam a grid.",
                   .example = R"(["steam"])",
                   .need = Need::always},
                  1),
          object("pot", &Still::pot, pot_fields, {.help = "The pot that is heated."}),
          object("column", &Still::column, column_fields,
                 {.help = "The vessel above the pot that holds the charge.",
                  .need = Need::by_rule,
                  .needed_if = "if methods names steam"}),
          object("grid", &Still::grid, grid_fields,
                 {.help = "The grid in the pot that carries the charge above the water.",
                  .need = Need::by_rule,
                  .needed_if = "if methods names water-and-steam"}),
          object("head", &Still::head, head_fields,
                 {.help = "Lid, dome and vapour path up to the condenser. The path must always be "
                          "open."}),
          object("heater", &Still::heater, heater_fields, {.help = "What heats the pot."}),
          object("condenser", &Still::condenser, condenser_fields,
                 {.help = "What turns steam into distillate."}),
          figure("wall_hold_up", &Still::wall_hold_up, bounds::small_mass,
                 {.help = "Water that clings to column, head and condenser and doesn't come back "
                          "to the pot.",
                  .example = "12 g"}),
          figure("heat_loss", &Still::heat_loss, bounds::surface_loss,
                 {.help = "Heat that pot, column and head lose to the room, per surface.",
                  .example = "7.6 W/(m2 K)",
                  .left_out = "those of their materials",
                  .outside_tables = true}),
          object("measured_runs", &Still::measured_runs, measured_runs_fields,
                 {.help = "What measured runs of this still have shown; `firstdrop water-run` "
                          "writes it. With fewer than three runs on two days, the worst case of "
                          "a plan stays that of the default figures, or hotter.",
                  .left_out = "none was measured",
                  .outside_tables = true}),
      },
      nullptr,
      check_parts,
      R"("allOf": [
           {"if": {"properties": {"methods": {"type": "array", "contains": {"const": "steam"}}},
                   "required": ["methods"]},
            "then": {"required": ["column"]}},
           {"if": {"properties": {"methods": {"type": "array",
                                              "contains": {"const": "water-and-steam"}}},
                   "required": ["methods"]},
            "then": {"required": ["grid"]}}])"};
  return fields;
}

bool has_invented_figures(const Still& still) {
  return still_fields().any_evidence(
      still, [](const Evidence& evidence) { return evidence.known == Known::own_invention; });
}

}  // namespace firstdrop
