// Every key of the tables that hold neither plants nor stills.
#include "readers/table_fields.hpp"

#include <fmt/core.h>

#include <stdexcept>

#include "base/visible_text.hpp"
#include "readers/documents.hpp"
#include "readers/field_bounds.hpp"
#include "readers/like_plant.hpp"
#include "tables/words.hpp"

namespace firstdrop {
namespace {

using json::Value;

// --- sources

Field<Source> seen_field() {
  // What of a source was read, and perhaps a remark.
  constexpr auto pattern = "^(whole|abstract|excerpt|quoted by another|package|none)(: .*)?$";
  return field<Source>(
      "seen", KeyForm::special,
      {.help = "What of it was read: whole, abstract, excerpt, quoted by another, package (a "
               "software package or database that has its figures) or none (from memory, or our "
               "own). A remark may follow after a colon.",
       .example = "whole"},
      [](const Value& value, Source& source, const Reading&) {
        source.seen = value.words().value_or("");
        const std::string what = source.seen.substr(0, source.seen.find(": "));
        for (const char* one :
             {"whole", "abstract", "excerpt", "quoted by another", "package", "none"})
          if (what == one) return;
        if (!source.seen.empty())
          value.refuse(
              "whole, abstract, excerpt, quoted by another, package or none, and perhaps "
              "a remark after a colon");
      },
      nullptr, [=](Key& key) { key.pattern = pattern; }, Need::always);
}

// --- liquids

constexpr auto antoine_equation = "ln(P/Pa) = a - b/(T/K + c)";

void check_validity(const Antoine& fit, const Tables&, const Report& report) {
  if (fit.valid_from < fit.valid_to) return;
  report.fault("valid_to", fmt::format("{} K", plain(fit.valid_to.kelvin())),
               fmt::format("a value above valid_from, {} K", plain(fit.valid_from.kelvin())));
}

const Fields<Antoine>& antoine_fields() {
  constexpr auto coefficient = from_to(-5000, 100000, "K", kelvins);
  constexpr auto validity = from_to(100, 900, "K", Temperature::from_kelvin);
  static const Fields<Antoine> fields{
      "antoine",
      {
          field<Antoine>(
              "equation", KeyForm::special,
              {.help = "The one form that is computed.", .example = antoine_equation},
              [](const Value& value, Antoine&, const Reading&) {
                if (value.node().text != antoine_equation)
                  value.refuse(
                      fmt::format("\"{}\", the one form that is computed", antoine_equation));
              },
              nullptr, [](Key& key) { key.pattern = R"(^ln\(P/Pa\) = a - b/\(T/K \+ c\)$)"; },
              Need::always),
          number_field("a", &Antoine::a, 0, 100,
                       {.help = "In the equation.", .need = Need::always}),
          quantity_field("b", &Antoine::b, coefficient,
                         {.help = "In the equation.", .need = Need::always}),
          quantity_field("c", &Antoine::c, coefficient,
                         {.help = "In the equation.", .need = Need::always}),
          quantity_field("valid_from", &Antoine::valid_from, validity,
                         {.help = "The lowest temperature of the fit.", .need = Need::always}),
          quantity_field("valid_to", &Antoine::valid_to, validity,
                         {.help = "The highest temperature of the fit.", .need = Need::always}),
      },
      &Antoine::evidence,
      check_validity};
  return fields;
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

Field<Liquid> cas_number() {
  return field<Liquid>(
      "cas", KeyForm::special,
      {.help = "CAS Registry Number, whose last digit checks the others.",
       .example = "7732-18-5",
       .left_out = "not known"},
      [](const Value& value, Liquid& liquid, const Reading&) {
        const auto text = value.text();
        if (!text) return;
        liquid.cas = *text;
        if (!is_cas_number(liquid.cas))
          value.refuse("a CAS Registry Number with its right check digit, such as \"7732-18-5\"");
      },
      nullptr, [](Key& key) { key.pattern = "^[0-9]{2,7}-[0-9]{2}-[0-9]$"; });
}

// --- findings

const Fields<Guidance>& guidance_fields() {
  static const Fields<Guidance> fields{
      "guidance",
      {
          words_field("reason", &Guidance::reason, {.help = "How it does harm."}),
          words_field("follows", &Guidance::follows,
                      {.help = "The body whose guidance it follows, and its document."}),
      },
      &Guidance::evidence};
  return fields;
}

void check_brief(const FindingKind& kind, const Tables&, const Report& report) {
  if (kind.standing && kind.brief.empty())
    report.missing("brief", "what to do in few words, because the finding is standing");
  if (!kind.standing && !kind.brief.empty())
    report.fault("brief", "a brief for a finding that isn't standing", "no brief");
}

}  // namespace

const Fields<Source>& source_fields() {
  static const Fields<Source> fields{
      "source",
      {
          words_field("citation", &Source::citation, {.help = "Authors, year, title and place."}),
          text_field("link", &Source::link,
                     {.help = "A DOI or address, empty if there is none.", .need = Need::always}),
          seen_field(),
      }};
  return fields;
}

const Fields<Liquid>& liquid_fields() {
  static const Fields<Liquid> fields{
      "liquid",
      {
          words_field("name", &Liquid::name, {.help = "What the liquid is called."}),
          cas_number(),
          figure("molar_mass", &Liquid::molar_mass, between(1, 1000, "g/mol", grams_per_mole),
                 {.help = "Of the pure liquid."}),
          object("vapour_pressure", &Liquid::vapour_pressure, antoine_fields,
                 {.help = "An equation for the vapour pressure.",
                  .left_out = "no equation was found that reaches the temperature of steam, so "
                              "what the steam can carry leaves the liquid out"}),
          figure("density", &Liquid::density, bounds::of_liquid,
                 {.help = "At the temperature that its basis states."}),
          figure("water_solubility", &Liquid::water_solubility, bounds::in_water,
                 {.help = "Mass that dissolves per volume of water."}),
          figure("boiling_point", &Liquid::boiling_point, bounds::chemist_range,
                 {.help = "At the pressure that its basis states."}),
          figure("flash_point", &Liquid::flash_point, bounds::chemist_range,
                 {.help = "Of the liquid."}),
      }};
  return fields;
}

const Fields<Material>& material_fields() {
  static const Fields<Material> fields{
      "material_entry",
      {
          figure("specific_heat", &Material::specific_heat, bounds::solid_heat,
                 {.help = "From room temperature to that of steam."}),
          figure("heat_loss", &Material::heat_loss, bounds::surface_loss,
                 {.help = "From its outside at steam temperature to the room."}),
          figure("condensing", &Material::condensing, bounds::wall_transfer,
                 {.help = "From condensing steam through the wall to still water."}),
          figure("density", &Material::density, from_to(100, 20000, "g/L", grams_per_litre),
                 {.help = "Of the material itself."}),
          figure("wall", &Material::wall, bounds::thickness,
                 {.help = "How thick vessels of it usually are."}),
      }};
  return fields;
}

namespace {

const Fields<RunCounts>& run_counts_fields() {
  constexpr int most = 1000;
  static const Fields<RunCounts> fields{
      "run_counts",
      {
          count_field("most_runs", &RunCounts::most_runs, most,
                      {.help = "A harvest that takes more runs is refused."}),
          count_field("many_runs", &RunCounts::many_runs, most,
                      {.help = "A harvest that takes more runs gets a caution."}),
          count_field("most_receivers", &RunCounts::most_receivers, most,
                      {.help = "Changes of the receiver in a run. With more, none is planned."}),
      },
      &RunCounts::evidence};
  return fields;
}

const Fields<StillDefaults>& still_defaults_fields() {
  static const Fields<StillDefaults> fields{
      "still_defaults",
      {
          figures_by("fill_limit", "METHOD", &StillDefaults::fill_limit, bounds::fill_limit,
                     {.help = "Share of the pot that may be filled, by method."}, true),
          figure("pot_height", &StillDefaults::pot_height, bounds::small_ratio,
                 {.help = "Height of a pot over its diameter."}),
          figure("column_height", &StillDefaults::column_height, bounds::small_ratio,
                 {.help = "Height of a column over its diameter."}),
          figure("water_over_base", &StillDefaults::water_over_base, bounds::thickness,
                 {.help = "Depth of water that must stay over the pot's base."}),
          figure("head_surface", &StillDefaults::head_surface, bounds::small_ratio,
                 {.help = "Surface of the head over the cross-section below it."}),
          figure("wall_film", &StillDefaults::wall_film, bounds::thickness,
                 {.help = "Water on column, head and condenser, as a film."}),
          figure("coil_surface", &StillDefaults::coil_surface, bounds::small_ratio,
                 {.help = "Condensing surface of a coil over the volume of its coolant to the "
                          "power of 2/3."}),
          figure("tube_cooled", &StillDefaults::tube_cooled, bounds::any_share,
                 {.help = "Share of a condenser's tube that lies in the coolant."}),
          figure("dome_surface", &StillDefaults::dome_surface, bounds::small_ratio,
                 {.help = "Surface of a condensing dome over its cross-section."}),
          figure("outlet", &StillDefaults::outlet, bounds::outlet, {.help = "Warmest distillate."}),
          figure("coolant_limit", &StillDefaults::coolant_limit, bounds::coolant_limit,
                 {.help = "Warmest coolant."}),
          figure("ice", &StillDefaults::ice, from_to(0, 900, "g/L", grams_per_litre),
                 {.help = "Ice at one change over the volume of an ice bath."}),
          figure("tap", &StillDefaults::tap, bounds::tap, {.help = "The most that a tap gives."}),
      }};
  return fields;
}

const Fields<ReadingErrors>& reading_fields() {
  using R = ReadingErrors;
  constexpr auto any_error = from_to(0, 1000, "g", grams);
  constexpr auto any_weight = from_to(0, 1000, "kg", kilograms);
  const auto error = [](const char* name, auto member, const auto& bounds, const char* help) {
    return quantity_field(name, member, bounds, {.help = help, .need = Need::always});
  };
  static const Fields<R> fields{
      "reading_errors",
      {
          error("clock", &R::clock, from_to(0, 60, "min", minutes), "Of a time."),
          error("jug", &R::jug, bounds::any_share, "Of a level in a jug, as a share of it."),
          error("least_jug", &R::least_jug, from_to(0, 1000, "mL", millilitres),
                "Of a level in a jug, if that is more."),
          error("jug_marks", &R::jug_marks, bounds::any_share,
                "Of a jug's marks, as a share: common to all of its readings."),
          error("meter", &R::meter, bounds::any_share, "Of an energy meter, as a share."),
          error("fill", &R::fill, bounds::any_share, "Of the water poured in, as a share."),
          error("scale", &R::scale, any_error, "Of the scale for amounts up to `scale_to`."),
          error("scale_to", &R::scale_to, any_weight, "The most that is weighed on that scale."),
          error("large_scale", &R::large_scale, any_error,
                "Of the scale for larger amounts, up to `large_scale_to`."),
          error("large_scale_to", &R::large_scale_to, any_weight,
                "The most that is weighed on that scale."),
          error("farm_scale", &R::farm_scale, any_error, "Of the scale for still larger amounts."),
      },
      &R::evidence};
  return fields;
}

template <class Q>
Field<PlausibleStill> limit(const char* name, Q PlausibleStill::*member, const Bounds<Q>& bounds,
                            const char* help) {
  return quantity_field(name, member, bounds, {.help = help, .need = Need::always});
}

const Fields<PlausibleStill>& plausible_fields() {
  using P = PlausibleStill;
  constexpr auto any_time = from_to(0, 168, "h", hours);
  constexpr auto any_ratio = from_to(0, 10000, "%", percent);
  constexpr auto any_difference = from_to(0, 80, "K", kelvins);
  constexpr const char* wall = "Thickness of pot, column and head, worked out from their mass.";
  constexpr const char* space = "Space for the charge over the pot's volume.";
  constexpr const char* head = "Surface of the head over the cross-section below it.";
  constexpr const char* boil = "Time to boil of a pot filled to half of its fill limit.";
  constexpr const char* condenser = "Heat that the condenser takes over heat that comes.";
  constexpr const char* warms = "Time in which the coolant warms by `warming`.";
  constexpr const char* film = "Film of water on the walls.";
  constexpr const char* depth = "Depth of the minimum water over the pot's base.";
  constexpr const char* tap = "Flow of a tap.";
  static const Fields<P> fields{
      "plausible_still",
      {
          limit("least_wall", &P::least_wall, bounds::thickness, wall),
          limit("most_wall", &P::most_wall, bounds::thickness, wall),
          limit("least_space", &P::least_space, any_ratio, space),
          limit("most_space", &P::most_space, any_ratio, space),
          limit("least_head", &P::least_head, any_ratio, head),
          limit("most_head", &P::most_head, any_ratio, head),
          limit("least_boil", &P::least_boil, any_time, boil),
          limit("most_boil", &P::most_boil, any_time, boil),
          limit("least_condenser", &P::least_condenser, any_ratio, condenser),
          limit("most_condenser", &P::most_condenser, any_ratio, condenser),
          limit("drop", &P::drop, any_difference, "From steam to coolant, for these two."),
          limit("least_warming", &P::least_warming, any_time, warms),
          limit("most_warming", &P::most_warming, any_time, warms),
          limit("warming", &P::warming, any_difference, "Of the coolant, for these two."),
          limit("least_film", &P::least_film, bounds::thickness, film),
          limit("most_film", &P::most_film, bounds::thickness, film),
          limit("least_depth", &P::least_depth, bounds::thickness, depth),
          limit("most_depth", &P::most_depth, from_to(0, 3, "m", metres), depth),
          limit("least_tap", &P::least_tap, bounds::tap, tap),
          limit("most_tap", &P::most_tap, bounds::tap, tap),
      },
      &P::evidence};
  return fields;
}

}  // namespace

const Fields<DesignDefaults>& design_defaults_fields() {
  constexpr auto any_time = from_to(0, 168, "h", hours);
  constexpr auto any_difference = from_to(0, 80, "K", kelvins);
  static const Fields<DesignDefaults> fields{
      "design_defaults",
      {
          version<DesignDefaults>("design_defaults",
                                  "It marks the file as the table of design defaults."),
          schema_remark<DesignDefaults>(),
          note_remark<DesignDefaults>(),
          figures_by(
              "heater_efficiency", "KIND", &DesignDefaults::heater_efficiency,
              bounds::positive_share,
              {.help = "Share of the rated power that gets into the pot, by kind of heater."},
              true),
          figures_by(
              "stored_heat", "KIND", &DesignDefaults::stored_heat, from_to(0, 60, "min", minutes),
              {.help =
                   "Heat that still gets into the pot after the heater is off, by kind of heater. "
                   "It is given as the time in which the heater supplied that heat before."},
              true),
          figures_by("particle_size", "CUT", &DesignDefaults::particle_size,
                     up_to(1000, "mm", millimetres),
                     {.help = "Size of the pieces, six times volume over surface, by cut."}, true),
          figures_by("cut_density", "CUT", &DesignDefaults::cut_density, up_to(1000, "%", percent),
                     {.help = "Bulk density relative to that of chopped material, by cut."}, true),
          figures_by(
              "recovery", "METHOD", &DesignDefaults::recovery, bounds::recovered,
              {.help =
                   "Share of the oil that a laboratory finds which a small still gets, by method."},
              true),
          figure("fast_share", &DesignDefaults::fast_share, bounds::any_share,
                 {.help = "Share of the oil that comes fast."}),
          figure("slow_rate", &DesignDefaults::slow_rate, bounds::positive_share,
                 {.help = "Release rate of the slow stage over that of the fast one."}),
          figure("flow_on_fast", &DesignDefaults::flow_on_fast, bounds::small_ratio,
                 {.help = "Resistance of the steam over that of the plant at the published flow, "
                          "in the fast stage."}),
          figure("flow_on_slow", &DesignDefaults::flow_on_slow, bounds::small_ratio,
                 {.help = "The same in the slow stage."}),
          figure("stated_end", &DesignDefaults::stated_end, bounds::recovered,
                 {.help = "Share of the recoverable oil that has come when people stop a run."}),
          figure("drying_retention", &DesignDefaults::drying_retention, bounds::recovered,
                 {.help = "Share of the oil that drying keeps, per dry matter."}),
          figure("hydrosol_oil", &DesignDefaults::hydrosol_oil, bounds::in_water,
                 {.help = "Oil in the hydrosol of any plant, used where nothing better is known."}),
          figure("hydrosol_saturation", &DesignDefaults::hydrosol_saturation, bounds::small_ratio,
                 {.help = "Oil measured in hydrosols over what could dissolve."}),
          figure("mixing", &DesignDefaults::mixing, bounds::any_share,
                 {.help = "Share of oil and hydrosol that stays mixed in the receiver."}),
          figure("particle_density", &DesignDefaults::particle_density,
                 from_to(100, 3000, "g/L", grams_per_litre),
                 {.help = "Of the plant tissue itself."}),
          figure("dry_specific_heat", &DesignDefaults::dry_specific_heat, bounds::solid_heat,
                 {.help = "Of plant dry matter."}),
          figure("hold_up", &DesignDefaults::hold_up, bounds::small_ratio,
                 {.help = "Water that the drained charge holds, per dry matter."}),
          figure("film_hold_up", &DesignDefaults::film_hold_up, bounds::small_ratio,
                 {.help = "Condensate that clings to a charge that is already wet, per charge."}),
          figure("head_space", &DesignDefaults::head_space, bounds::all_but_whole,
                 {.help = "Share of the column left free above the charge."}),
          figure("uncondensed_loss", &DesignDefaults::uncondensed_loss, bounds::all_but_whole,
                 {.help = "Share of the vapour that the condenser doesn't catch."}),
          figure("reserve_share", &DesignDefaults::reserve_share, bounds::part_share,
                 {.help = "Share of the first fill that must stay in the pot."}),
          figure("fill_error", &DesignDefaults::fill_error, bounds::any_share,
                 {.help = "Error of the first fill, read on a jug, as a share of it."}),
          figure(
              "grid_clearance", &DesignDefaults::grid_clearance, bounds::any_share,
              {.help =
                   "Share of the space for water below a grid that boiling water must not reach."}),
          figure("mains", &DesignDefaults::mains, from_to(50, 200, "%", percent),
                 {.help = "Power that a heater draws over that of its nameplate, as the mains "
                          "voltage varies."}),
          figure("dial_error", &DesignDefaults::dial_error, bounds::any_share,
                 {.help = "Extra heat beyond what the heater's dial says when it is turned down."}),
          figure("own_accuracy", &DesignDefaults::own_accuracy, bounds::any_share,
                 {.help = "Relative uncertainty of a figure that was measured on a bench."}),
          figure("own_heat_accuracy", &DesignDefaults::own_heat_accuracy, bounds::any_share,
                 {.help = "Relative uncertainty of the next run's heat, from one reading of rate "
                          "or time to boil."}),
          figure("run_to_run_heat", &DesignDefaults::run_to_run_heat, bounds::any_share,
                 {.help = "Standard deviation of the heat from run to run, as a share of it."}),
          figure("most_heat_room", &DesignDefaults::most_heat_room, bounds::any_share,
                 {.help = "The strongest heat that a plan allows for, over the usual heat of a "
                          "still that is known from many runs, in logarithms."}),
          figure("own_oil_accuracy", &DesignDefaults::own_oil_accuracy, bounds::any_share,
                 {.help = "Relative uncertainty of an oil content that was measured on a bench."}),
          figure(
              "between_plants", &DesignDefaults::between_plants, bounds::any_share,
              {.help = "Standard deviation of the logarithm of the oil content between plants of "
                       "one form."}),
          figure("oil_gain", &DesignDefaults::oil_gain, bounds::positive_share,
                 {.help =
                      "Share of the recoverable oil: stop when a quarter of an hour brings less."}),
          figure("oil_left_per_hydrosol", &DesignDefaults::oil_left_per_hydrosol,
                 bounds::positive_share,
                 {.help = "Share of the recoverable oil that a run without a goal may leave for "
                          "each customary amount of hydrosol."}),
          figure("oil_left_per_hour", &DesignDefaults::oil_left_per_hour, bounds::any_share,
                 {.help = "The same for each hour of running."}),
          figure("hydrosol_per_fresh", &DesignDefaults::hydrosol_per_fresh,
                 bounds::water_per_charge,
                 {.help = "Hydrosol that published runs draw from herb, counted as fresh."}),
          figure("hydrosol_per_dry_fruit", &DesignDefaults::hydrosol_per_dry_fruit,
                 bounds::water_per_charge,
                 {.help = "The same for seed and other material that is known only dry."}),
          figure("steam_per_charge", &DesignDefaults::steam_per_charge, bounds::steam_flow,
                 {.help = "Steam per charge and hour in published runs."}),
          figures_by("hydro_water", "STATE", &DesignDefaults::hydro_water, bounds::water_per_charge,
                     {.help = "Water in the pot per charge for the method hydro, by state."}, true),
          figure("hydro_wetting", &DesignDefaults::hydro_wetting, bounds::water_per_charge,
                 {.help =
                      "Free water per charge that must be left at the end, for the method hydro."}),
          figure("approach", &DesignDefaults::approach, from_to(0, 80, "K", kelvins),
                 {.help = "How much warmer than the coolant the distillate is, at least."}),
          figure("bath_loss", &DesignDefaults::bath_loss, bounds::surface_loss,
                 {.help = "Heat loss of the coolant vessel to the room."}),
          figure("circuit_share", &DesignDefaults::circuit_share, bounds::positive_share,
                 {.help = "Share of a circuit's rating that a heater may draw for hours."}),
          figure("socket_for_hours", &DesignDefaults::socket_for_hours, bounds::heater_power,
                 {.help = "The most that a household socket should carry for hours."}),
          figure("least_circuit", &DesignDefaults::least_circuit, bounds::heater_power,
                 {.help = "The most that the smallest common circuit carries for hours."}),
          figure("still_reported", &DesignDefaults::still_reported, bounds::still_volume,
                 {.help = "Pot volume above which some country wants a still reported."}),
          object("counts", &DesignDefaults::counts, run_counts_fields,
                 {.help = "How many runs and receivers a plan may have."}),
          figure("least_last_run", &DesignDefaults::least_last_run, bounds::any_share,
                 {.help = "Share of a full run. A remainder that is smaller is left over."}),
          figure("least_run", &DesignDefaults::least_run, from_to(0, 100, "L", litres),
                 {.help = "Hydrosol that makes a run worth heating the still for."}),
          figure("longest_run", &DesignDefaults::longest_run, any_time,
                 {.help = "From the start of heating. A longer run is refused."}),
          figure("tiring_run", &DesignDefaults::tiring_run, any_time,
                 {.help = "From the start of heating. A longer run gets a caution."}),
          figure("long_distilling", &DesignDefaults::long_distilling, any_time,
                 {.help = "From the first drop. In a longer run, real yields may fall again."}),
          figure("least_fill", &DesignDefaults::least_fill, bounds::any_share,
                 {.help = "Share of the space that a charge should fill."}),
          figure("lifting_pressure", &DesignDefaults::lifting_pressure, bounds::small_ratio,
                 {.help = "Pressure drop of the bed over its weight per area. More gets a "
                          "caution."}),
          figure("low_chance", &DesignDefaults::low_chance, bounds::any_share,
                 {.help = "A lower chance to meet the goal gets a caution."}),
          figure(
              "little_oil", &DesignDefaults::little_oil, bounds::any_share,
              {.help = "Share of the recoverable oil. With less, the end of the pot's water gets "
                       "a caution."}),
          figure("thin_hydrosol", &DesignDefaults::thin_hydrosol, bounds::small_ratio,
                 {.help = "Hydrosol drawn from herb over the most that published runs draw. More "
                          "gets a note."}),
          figure("much_dissolved", &DesignDefaults::much_dissolved, bounds::any_share,
                 {.help = "Dissolved oil over the oil vaporised. More gets a note."}),
          figure("hard_to_collect", &DesignDefaults::hard_to_collect, from_to(0, 100, "L", litres),
                 {.help = "Separated oil. Less gets a note."}),
          figure("much_heat_lost", &DesignDefaults::much_heat_lost, bounds::any_share,
                 {.help = "Heat that pot and column lose over the heat into the pot. More gets a "
                          "note."}),
          figure("ice_interval", &DesignDefaults::ice_interval, any_time,
                 {.help = "Time between two changes of ice. Less gets a caution."}),
          figure("least_ice_interval", &DesignDefaults::least_ice_interval, any_time,
                 {.help = "Time between two changes of ice. Less is refused."}),
          figure("ice_before_stop", &DesignDefaults::ice_before_stop, any_time,
                 {.help = "How long before the stop the ice for a late stop goes in."}),
          figure("least_difference", &DesignDefaults::least_difference, any_difference,
                 {.help = "Between coolant and boiling water. With less, the coolant condenses too "
                          "little to count on."}),
          figure(
              "near_freezing", &DesignDefaults::near_freezing, any_difference,
              {.help = "Between the coolant and the temperature at which the oil sets. Less gets "
                       "a caution."}),
          figure("clear_of_flame", &DesignDefaults::clear_of_flame, from_to(0, 100, "m", metres),
                 {.help = "Distance to keep clear around a burner."}),
          object("still", &DesignDefaults::still, still_defaults_fields,
                 {.help = "What a still has where its owner hasn't measured it."}),
          object("readings", &DesignDefaults::readings, reading_fields,
                 {.help = "How exactly people read a run's figures. Standard deviations."}),
          object("plausible", &DesignDefaults::plausible, plausible_fields,
                 {.help = "Beyond these limits, a figure of a still is likely a slip."}),
      }};
  return fields;
}

namespace {

const Fields<FormDefaults>& form_fields() {
  static const Fields<FormDefaults> fields{
      "form_defaults",
      {
          text_field("note", &FormDefaults::note, {.help = "A remark for people."}),
          figure("hold_up", &FormDefaults::hold_up, bounds::small_ratio,
                 {.help = "Water that the drained material holds, per dry matter.",
                  .left_out = "that of herb"}),
          objects_by("states", "STATE", &FormDefaults::states, plant_state_fields,
                     {.help = "Defaults by state. An oil content is that of a plant of which only "
                              "the form is known.",
                      .need = Need::always}),
          figure("oil_density", &FormDefaults::oil_density, bounds::of_liquid,
                 {.help = "Density of the oil of such a plant.", .left_out = "nothing is known"}),
          text_field("release_class", &FormDefaults::release_class,
                     {.help = "Release class of such a plant.", .left_out = "nothing is known"}),
      }};
  return fields;
}

}  // namespace

const Fields<FormTable>& forms_fields() {
  static const Fields<FormTable> fields{
      "forms",
      {
          version<FormTable>("forms", "It says which table the file is."),
          schema_remark<FormTable>(),
          note_remark<FormTable>(),
          objects_by("entries", "KEY", &FormTable::entries, form_fields,
                     {.help = "The entries by their keys.", .need = Need::always}, 1),
      }};
  return fields;
}

const Fields<ReleaseClass>& release_class_fields() {
  static const Fields<ReleaseClass> fields{
      "release_class",
      {
          words_field("note", &ReleaseClass::note, {.help = "Which plants it is for."}),
          objects_by("release", "METHOD", &ReleaseClass::by_method, oil_release_fields,
                     {.help = "How fast the oil comes, by method.", .need = Need::always}, 1),
      }};
  return fields;
}

const Fields<FindingKind>& finding_fields() {
  static const Fields<FindingKind> fields{
      "finding",
      {
          choices("level", &FindingKind::levels,
                  {.help = "The levels at which it occurs.", .need = Need::always}, 1),
          words_field("meaning", &FindingKind::meaning, {.help = "What it means."}),
          words_field("do", &FindingKind::what_to_do, {.help = "What to do."}),
          truth_field("standing", &FindingKind::standing,
                      {.help = "Whether it holds for every run of its kind, whatever the numbers.",
                       .standard = "false"}),
          truth_field("danger", &FindingKind::danger,
                      {.help = "Whether it says how still, plant or method can harm people in any "
                               "run.",
                       .standard = "false"}),
          words_field("brief", &FindingKind::brief,
                      {.help = "What to do in few words, for the sheet.",
                       .need = Need::by_rule,
                       .needed_if = "if standing is true; otherwise there must be none"}),
          object("guidance", &FindingKind::guidance, guidance_fields,
                 {.help = "Why it matters to people's safety, and whose guidance it follows."}),
      },
      nullptr,
      check_brief,
      R"("if": {"properties": {"standing": {"const": true}}, "required": ["standing"]},
         "then": {"required": ["brief"]},
         "else": {"not": {"required": ["brief"]}})"};
  return fields;
}

std::vector<Document> table_documents() {
  std::vector<Document> all = {
      document("sources", "Where figures come from.", table_fields("sources", source_fields())),
      document("liquids", "Constituents of oils.", table_fields("liquids", liquid_fields())),
      document("materials", "What stills are made of.",
               table_fields("materials", material_fields())),
      document("design_defaults", "Figures that hold for all plants and stills.",
               design_defaults_fields()),
      document("release_classes", "How fast the oil comes, by where it sits.",
               table_fields("release_classes", release_class_fields())),
      document("forms", "Defaults for figures that a plant leaves out.", forms_fields()),
      document("plants", "The plants that recipes name.", table_fields("plants", plant_fields())),
      document("stills", "The stills that recipes name.", table_fields("stills", still_fields())),
      document("findings", "What a plan may say.", table_fields("findings", finding_fields()))};
  return all;
}

std::vector<std::string> names_of_table(const std::string& table, const Tables& tables) {
  using field_detail::names_in;
  if (table == "material") return names_in(tables.materials);
  if (table == "plant") return names_in(tables.plants);
  if (table == "plant or form") return names_to_be_like(tables);
  if (table == "still") return names_in(tables.stills);
  if (table == "liquid") return names_in(tables.liquids);
  if (table == "release class") return class_names(tables);
  throw std::logic_error("no table of " + table);
}

}  // namespace firstdrop
