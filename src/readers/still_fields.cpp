// Every key of a still.
#include <fmt/core.h>

#include <algorithm>
#include <string>
#include <vector>

#include "firstdrop/quantity/units.hpp"
#include "readers/documents.hpp"
#include "readers/field_bounds.hpp"
#include "readers/still_defaults.hpp"
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

void check_pot(const Pot& pot, const Report& report) {
  check_proportions("pot", pot.volume, pot.diameter, report);
  const Volume limit = pot.fill_limit.typical() * pot.volume.typical();
  if (pot.minimum_water.typical() < limit) return;
  report.fault("minimum_water", litres_text(pot.minimum_water.typical()) + " of water at least",
               fmt::format("a value below the pot's filling limit, {} % of {}, that is {}",
                           plain(in_percent(pot.fill_limit.typical())),
                           litres_text(pot.volume.typical()), litres_text(limit)));
}

void check_condenser(const Condenser& condenser, const Report& report) {
  const auto needs = [&](const char* key, bool given, const char* what) {
    if (!given)
      report.missing(key, fmt::format("{}: a condenser of the kind {} needs it", what,
                                      to_string(condenser.kind)));
  };
  // Ice and flow have defaults, but not in a shipped table or in a still made in code.
  if (condenser.kind == CondenserKind::run_through) {
    needs("flow_limit", condenser.flow_limit.has_value(),
          "a figure for the most that the tap or hose gives");
  } else {
    needs("coolant", condenser.coolant.has_value(),
          "a figure for the filling of the coolant vessel");
    needs("ice_per_change", condenser.ice_per_change.has_value(),
          "a figure for the ice of one change, 0 kg for none");
  }
  if (condenser.tube_length.has_value() != condenser.tube_diameter.has_value())
    report.missing(condenser.tube_length ? "tube_diameter" : "tube_length",
                   "both tube_length and tube_diameter, or neither");
  if (!is_given(condenser.surface))
    report.missing("surface",
                   "the condensing surface, or tube_length and tube_diameter, or dome_diameter");
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

/// The report for a part of the still.
Report report_of(const std::string& part, const Report& report) {
  return Report([&report, part](std::string_view path, std::string found, std::string wanted,
                                std::string hint) {
    report.fault(part + (path.empty() ? "" : "/") + std::string(path), std::move(found),
                 std::move(wanted), std::move(hint));
  });
}

void check_still_parts(const Still& still, const Tables&, const Report& report) {
  const auto runs = [&](Method method) {
    return std::find(still.methods.begin(), still.methods.end(), method) != still.methods.end();
  };
  if (runs(Method::steam) && !still.column)
    report.missing("column", "a column, because methods names steam");
  if (runs(Method::water_and_steam) && !still.grid)
    report.missing("grid", "a grid, because methods names water-and-steam");
  check_pot(still.pot, report_of("pot", report));
  if (still.column)
    check_proportions("column", still.column->volume, still.column->diameter,
                      report_of("column", report));
  if (still.grid) check_grid(*still.grid, still.pot, report);
  if (still.heater.kind == HeaterKind::immersed_element &&
      still.pot.minimum_water.evidence.known == Known::default_value)
    report.missing("pot/minimum_water",
                   "the water that covers the element by 20 mm: it has no default");
  check_condenser(still.condenser, report_of("condenser", report));
}

template <class T>
Field<T> material(const char* name, std::string T::*member, const char* help,
                  const char* left_out = "") {
  return name_of(name, member, "material", &Tables::materials,
                 {.help = help, .left_out = left_out, .has_default = *left_out != 0});
}

constexpr const char* by_water =
    "Set it on a kitchen scale, zero the scale, and fill in water: each gram is a millilitre. A "
    "large one fills from a marked bucket.";
constexpr const char* by_ruler = "Lay a ruler across the opening, from inner wall to inner wall.";
constexpr const char* by_scale = "Weigh it empty and dry.";

const Fields<Pot>& pot_fields() {
  static const Fields<Pot> fields{
      "pot",
      {
          material("material", &Pot::material, "What it is made of."),
          figure("volume", &Pot::volume, bounds::vessel_volume,
                 {.help = "To the brim.", .example = "3 L", .measure = by_water}),
          figure("diameter", &Pot::diameter, bounds::vessel_diameter,
                 {.help = "Inside. The pot must be 0.2 to 5 times as high as it is wide.",
                  .example = "160 mm",
                  .left_out = "as wide as it is high",
                  .measure = "Lay a ruler across the opening, from inner wall to inner wall. Of a "
                             "flask with a neck, measure the body from outside.",
                  .has_default = true}),
          figure("mass", &Pot::mass, bounds::vessel_mass,
                 {.help = "Mass of the empty pot, which is heated along with the water.",
                  .example = "1.1 kg",
                  .left_out = "that of walls as thick as usual for its material",
                  .measure = by_scale,
                  .has_default = true}),
          figure("fill_limit", &Pot::fill_limit, bounds::fill_limit,
                 {.help = "Share of the volume that you may fill, so that there is room to boil.",
                  .example = "80 %",
                  .left_out = "80 %, or 66 % if herb can lie in the water or on a grid",
                  .has_default = true}),
          figure("minimum_water", &Pot::minimum_water, bounds::minimum_water,
                 {.help = "The least water that must cover the base, or the element in the pot. "
                          "The reserve is never less. It must be less than fill_limit times "
                          "volume.",
                  .example = "300 mL",
                  .left_out = "20 mm over the base; an immersed element needs the figure",
                  .measure = "Stand a ruler in the pot and pour in water from a jug, until it is "
                             "20 mm deep, or 20 mm above the element.",
                  .has_default = true}),
      }};
  return fields;
}

const Fields<Column>& column_fields() {
  static const Fields<Column> fields{
      "column",
      {
          material("material", &Column::material, "What it is made of.", "that of the pot"),
          figure("volume", &Column::volume, bounds::vessel_volume,
                 {.help = "Room for the charge, from the sieve to the head.",
                  .example = "1.5 L",
                  .measure = "Close the bottom with a bag or a lid, and fill it with water from a "
                             "jug, or fill it with rice and measure the rice."}),
          figure("diameter", &Column::diameter, bounds::vessel_diameter,
                 {.help = "Inside. The column must be 0.2 to 5 times as high as it is wide.",
                  .example = "100 mm",
                  .left_out = "half of its height",
                  .measure = by_ruler,
                  .has_default = true}),
          figure("mass", &Column::mass, bounds::vessel_mass,
                 {.help = "Mass of the empty column with its sieve.",
                  .example = "0.5 kg",
                  .left_out = "that of walls as thick as usual for its material",
                  .measure = by_scale,
                  .has_default = true}),
      }};
  return fields;
}

const Fields<Grid>& grid_fields() {
  static const Fields<Grid> fields{
      "grid",
      {
          figure("water_below", &Grid::water_below, bounds::vessel_volume,
                 {.help = "Water that the pot holds up to the underside of the grid. It must be no "
                          "less than the pot's minimum_water.",
                  .example = "4 L",
                  .measure = "Put the grid in, and pour in water from a jug until it touches the "
                             "grid."}),
          figure(
              "space", &Grid::space, bounds::vessel_volume,
              {.help = "Room for the charge above the grid. Together with water_below it must be "
                       "no more than the pot's volume.",
               .example = "8 L",
               .measure = "Go on pouring from there to where the herb may reach."}),
          figure("mass", &Grid::mass, bounds::small_mass,
                 {.help = "Mass of grid and basket.",
                  .example = "0.6 kg",
                  .left_out = "that of a plate as wide as the pot, of its material",
                  .measure = by_scale,
                  .has_default = true}),
      }};
  return fields;
}

const Fields<Head>& head_fields() {
  static const Fields<Head> fields{
      "head",
      {
          material("material", &Head::material, "What it is made of.",
                   "that of the column, or of the pot"),
          figure("mass", &Head::mass, bounds::vessel_mass,
                 {.help = "Mass of lid, dome and vapour path.",
                  .example = "0.3 kg",
                  .left_out = "that of its surface, as thick as usual for its material",
                  .measure = by_scale,
                  .has_default = true}),
          figure("surface", &Head::surface, bounds::surface,
                 {.help = "Outside surface, which loses heat to the room.",
                  .example = "300 cm2",
                  .left_out = "1 to 5 times the cross-section below it",
                  .measure = "A flat lid has pi/4 times its diameter squared, a round dome twice "
                             "that. Add pi times diameter times length of the pipe to the "
                             "condenser.",
                  .has_default = true}),
      }};
  return fields;
}

// The heat of burning propane: 46.4 MJ/kg without that of its steam, from memory.
const Fields<Heater>& heater_fields() {
  static const Fields<Heater> fields{
      "heater",
      {
          choice("kind", &Heater::kind, {.help = "What heats the pot.", .need = Need::always}),
          figure("power", &Heater::power, bounds::heater_power,
                 {.help = "Rated power, at full setting.",
                  .example = "1 kW",
                  .measure = "Read it from the nameplate. For gas, take the kilowatts of that "
                             "burner; 1 kg of propane an hour is 12.9 kW."}),
          figure("efficiency", &Heater::efficiency, bounds::efficiency,
                 {.help = "Share of the power that gets into the pot.",
                  .example = "74 %",
                  .left_out = "that of its kind",
                  .measure = "Do a water run, see firstdrop water-run."}),
      }};
  return fields;
}

const Fields<Condenser>& condenser_fields() {
  static const Fields<Condenser> fields{
      "condenser",
      {
          choice("kind", &Condenser::kind, {.help = "How it is cooled.", .need = Need::always}),
          material("wall", &Condenser::wall, "What the condensing surface is made of.",
                   "the material of the pot"),
          figure("surface", &Condenser::surface, bounds::surface,
                 {.help = "Condensing surface.",
                  .example = "700 cm2",
                  .left_out = "from tube_length and tube_diameter, or from dome_diameter; without "
                              "them from the volume of the coolant, as a coil in it",
                  .measure = "Better give the tube's length and diameter, or the dome's diameter.",
                  .has_default = true}),
          figure("tube_length", &Condenser::tube_length, bounds::tube_length,
                 {.help = "Length of the condenser's tube, straight or coiled. It serves if "
                          "surface is left out.",
                  .example = "2 m",
                  .measure = "Count the turns of a coil, and measure the width of one: each turn "
                             "is 3.14 times as long as it is wide.",
                  .outside_tables = true}),
          figure("tube_diameter", &Condenser::tube_diameter, bounds::tube_diameter,
                 {.help = "Inside of that tube.",
                  .example = "10 mm",
                  .measure = "Measure the outside and take off two walls.",
                  .outside_tables = true}),
          figure("dome_diameter", &Condenser::dome_diameter, bounds::vessel_diameter,
                 {.help = "Inside of a dome or lid on which the steam condenses. It serves if "
                          "surface is left out.",
                  .example = "200 mm",
                  .measure = by_ruler,
                  .outside_tables = true}),
          figure("outlet", &Condenser::outlet, bounds::outlet,
                 {.help =
                      "The highest temperature at which the distillate should leave the condenser.",
                  .example = "40 °C",
                  .left_out = "40 °C",
                  .has_default = true}),
          figure("coolant_limit", &Condenser::coolant_limit, bounds::coolant_limit,
                 {.help = "The highest temperature that the coolant may reach. Then change the "
                          "ice, or turn the heat off.",
                  .example = "35 °C",
                  .left_out = "35 °C",
                  .has_default = true}),
          figure("coolant", &Condenser::coolant, bounds::vessel_volume,
                 {.help = "Volume of coolant in the bath or reservoir, including the ice.",
                  .example = "5 L",
                  .need = Need::by_rule,
                  .needed_if = "for an ice bath or reservoir",
                  .measure = "Fill it from a marked jug or bucket."}),
          figure("ice_per_change", &Condenser::ice_per_change, bounds::one_small_mass,
                 {.help = "Ice that you add at one change, 0 kg for none. It must fit into the "
                          "coolant vessel.",
                  .example = "1.5 kg",
                  .left_out = "300 g for each litre of an ice bath, none in a reservoir",
                  .measure = "Weigh the ice that fits in without making it overflow. 0 kg if you "
                             "use none.",
                  .has_default = true}),
          figure("flow_limit", &Condenser::flow_limit, bounds::tap,
                 {.help = "The most that the tap or hose gives.",
                  .example = "6 L/min",
                  .left_out = "3.8 to 8.3 L/min, a kitchen tap",
                  .measure = "Time how long it takes to fill a bucket of known volume.",
                  .has_default = true}),
      },
      nullptr,
      nullptr,
      R"("if": {"properties": {"kind": {"const": "run-through"}}, "required": ["kind"]},
         "then": {"anyOf": [{"required": ["surface"]}, {"required": ["tube_length"]},
                            {"required": ["dome_diameter"]}]},
         "else": {"if": {"required": ["kind"]}, "then": {"required": ["coolant"]}},
         "dependencies": {"tube_length": ["tube_diameter"], "tube_diameter": ["tube_length"]})"};
  return fields;
}

void check_measured_runs(const MeasuredRuns& measured, const Tables&, const Report& report) {
  if (measured.days <= measured.runs) return;
  report.fault("days", fmt::format("{} runs on {} days", measured.runs, measured.days),
               "no more days than runs");
}

const Fields<MeasuredRuns>& measured_runs_fields() {
  static const Fields<MeasuredRuns> fields{
      "measured_runs",
      {
          count_field("runs", &MeasuredRuns::runs, most_measured_runs,
                      {.help = "How many runs the figures come from.", .example = "1"}, 1),
          count_field("days", &MeasuredRuns::days, most_measured_runs,
                      {.help = "On how many days these runs were.", .example = "1"}, 1),
          day_field("last", &MeasuredRuns::last,
                    {.help = "The day of the last of them.",
                     .example = "2026-06-20",
                     .need = Need::always}),
          quantity_field("hottest", &MeasuredRuns::hottest, bounds::efficiency,
                         {.help = "Share of the power that got into the pot in the hottest run.",
                          .example = "72.3 %",
                          .need = Need::always}),
          quantity_field(
              "setting", &MeasuredRuns::setting, bounds::setting,
              {.help = "Of the heater in these runs.", .example = "80 %", .standard = "100 %"}),
      },
      nullptr,
      check_measured_runs};
  return fields;
}

void complete(Still& still, const Tables& tables) {
  if (tables.materials.empty()) return;  // the table couldn't be read, which was reported there
  still = with_defaults(std::move(still), tables);
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
          words_field("title", &Still::title,
                      {.help = "What pages and sheets call the still.",
                       .example = "Bench column, 1.5 L",
                       .left_out = "Own still",
                       .need = Need::in_table}),
          words_field("about", &Still::about,
                      {.help = "A sentence about it.", .need = Need::in_table}),
          choices("methods", &Still::methods,
                  {.help = "How it can be run. A recipe that names no method gets the first. steam "
                           "needs a column, water-and-steam a grid.",
                   .example = R"(["steam"])",
                   .left_out = "steam with a column, otherwise water-and-steam with a grid, "
                               "otherwise hydro",
                   .need = Need::in_table},
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
                          "open.",
                  .left_out = "the defaults of its keys",
                  .need = Need::in_table}),
          object("heater", &Still::heater, heater_fields, {.help = "What heats the pot."}),
          object("condenser", &Still::condenser, condenser_fields,
                 {.help = "What turns steam into distillate."}),
          figure("wall_hold_up", &Still::wall_hold_up, bounds::small_mass,
                 {.help = "Water that clings to column, head and condenser and doesn't come back "
                          "to the pot.",
                  .example = "12 g",
                  .left_out = "a film of 0.05 to 0.25 mm on all of them",
                  .has_default = true}),
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
      check_still_parts,
      R"("allOf": [
           {"if": {"properties": {"methods": {"type": "array", "contains": {"const": "steam"}}},
                   "required": ["methods"]},
            "then": {"required": ["column"]}},
           {"if": {"properties": {"methods": {"type": "array",
                                              "contains": {"const": "water-and-steam"}}},
                   "required": ["methods"]},
            "then": {"required": ["grid"]}},
           {"if": {"properties": {"heater": {"properties": {"kind": {"const": "immersed-element"}},
                                             "required": ["kind"]}},
                   "required": ["heater"]},
            "then": {"properties": {"pot": {"required": ["minimum_water"]}}}}])",
      complete};
  return fields;
}

const Key& still_key(const std::string& path) {
  static const std::vector<Key> keys = still_fields().keys();
  return key_at(keys, path);
}

bool has_invented_figures(const Still& still) {
  return still_fields().any_evidence(
      still, [](const Evidence& evidence) { return evidence.known == Known::own_invention; });
}

}  // namespace firstdrop
