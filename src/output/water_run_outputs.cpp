#include "output/water_run_outputs.hpp"

#include <optional>

#include "learning/words.hpp"
#include "output/output.hpp"
#include "quantity/clock_time.hpp"

namespace firstdrop {
namespace {

/// An entry of the log.
struct WrittenEntry {
  const EntryFit& fit;
  const WaterRunLog& log;
  std::string would_fit;
};
/// The still's figures, before or after the run.
struct WrittenFigures {
  const StillFigures& figures;
  const Range<Power>& net_heat;
};

const std::string& typed_text(const WrittenEntry& of) {
  switch (of.fit.what) {
    case EntryOf::boil:
      return of.log.boil->text;
    case EntryOf::first_drop:
      return of.log.first_drop->text;
    case EntryOf::caught:
      return of.log.caught[of.fit.mark].volume.text;
    case EntryOf::left:
      return of.log.left->text;
    case EntryOf::energy:
      break;
  }
  return of.log.energy->text;
}

std::optional<Duration> time_of_mark(const WrittenEntry& of) {
  if (of.fit.what != EntryOf::caught) return std::nullopt;
  return of.log.caught[of.fit.mark].at.value;
}

// The expected reading as a quantity of one kind; none for an entry of another kind.
template <class Q>
std::optional<Range<Q>> expected_as(const WrittenEntry& of, bool is_of_this_kind) {
  const auto& expected = of.fit.expected;
  if (!is_of_this_kind || !expected) return std::nullopt;
  return Range<Q>{Q::from_si(expected->p10), Q::from_si(expected->p50), Q::from_si(expected->p90)};
}

Outputs<WrittenEntry> entry_outputs() {
  using Of = Output<WrittenEntry>;
  constexpr const char* otherwise = "it is of another kind, or no drop was expected";
  const auto is = [](const WrittenEntry& of, EntryOf what) { return of.fit.what == what; };
  return {
      Of::word(
          "what", [](const WrittenEntry& of) { return of.fit.what; }, "What was written down."),
      Of::words("written", typed_text, "As it was written."),
      Of::amount("at_min", in_minutes, time_of_mark,
                 "When the jug showed it, from the start of heating.", otherwise),
      Of::amount(
          "expected_min", in_minutes,
          [=](const WrittenEntry& of) {
            return expected_as<Duration>(of, is(of, EntryOf::boil) || is(of, EntryOf::first_drop));
          },
          "By what was known before the run.", otherwise),
      Of::amount(
          "expected_ml", in_millilitres,
          [=](const WrittenEntry& of) { return expected_as<Volume>(of, is(of, EntryOf::caught)); },
          "By what was known before the run.", otherwise),
      Of::amount(
          "expected_g", in_grams,
          [=](const WrittenEntry& of) { return expected_as<Mass>(of, is(of, EntryOf::left)); },
          "By what was known before the run.", otherwise),
      Of::amount(
          "expected_kwh", in_kilowatt_hours,
          [=](const WrittenEntry& of) { return expected_as<Energy>(of, is(of, EntryOf::energy)); },
          "By what was known before the run.", otherwise),
      Of::amount(
          "residual", as_number, [](const WrittenEntry& of) { return of.fit.residual; },
          "How far it is above what the figures after the run give, in standard errors of reading. "
          "An entry beyond 4 doesn't fit.")
          .from_to(-1e9, 1e9),
      Of::amount(
          "weight_pct", as_number, [](const WrittenEntry& of) { return of.fit.weight * 100.0; },
          "How much it counts.")
          .from_to(0, 100.001),
      Of::words(
          "would_fit", [](const WrittenEntry& of) -> const std::string& { return of.would_fit; },
          "What would fit in its place, if one slip explains it.",
          "it fits, or no slip or more than one explains it"),
  };
}

Outputs<WrittenFigures> figure_outputs() {
  using Of = Output<WrittenFigures>;
  return {
      Of::amount(
          "net_heat_w", in_watts, [](const WrittenFigures& of) { return of.net_heat; },
          "Heat into the pot that isn't lost to the room."),
      Of::amount(
          "efficiency_pct", in_percent,
          [](const WrittenFigures& of) { return of.figures.efficiency; },
          "Share of the power that gets into the pot."),
      Of::amount(
          "heat_loss_w_per_m2_k", in_watts_per_square_metre_kelvin,
          [](const WrittenFigures& of) { return of.figures.heat_loss; },
          "Heat that pot, column and head lose to the room, per surface."),
      Of::amount(
          "wall_hold_up_g", in_grams,
          [](const WrittenFigures& of) { return of.figures.wall_hold_up; },
          "Water that clings to column, head and condenser."),
  };
}

std::vector<WrittenEntry> entries_of_run(const WrittenWaterRun& of) {
  std::vector<WrittenEntry> entries;
  for (const EntryFit& fit : of.result.entries) entries.push_back({fit, of.log, ""});
  for (const Misfit& misfit : of.misfits) entries[misfit.entry].would_fit = misfit.would_fit;
  return entries;
}

const Outputs<WrittenWaterRun>& written_water_run_outputs() {
  using Of = Output<WrittenWaterRun>;
  static const Outputs<WrittenWaterRun> outputs = {
      Of::version("water_run"),
      Of::words(
          "still", [](const WrittenWaterRun& of) -> const auto& { return of.setup.still.key; },
          "Key of the still."),
      Of::words(
          "day", [](const WrittenWaterRun& of) { return day_text(of.day); }, "The day of the run.")
          .as(KeyForm::day),
      Of::amount(
          "setting_pct", in_percent, [](const WrittenWaterRun& of) { return of.setup.setting; },
          "Setting of the heater."),
      Of::amount(
          "fill_g", in_grams, [](const WrittenWaterRun& of) { return of.setup.fill; },
          "Water poured into the pot."),
      Of::list("entries", entries_of_run, entry_outputs(), "What was written down.").at_least_one(),
      Of::object(
          "before",
          [](const WrittenWaterRun& of) {
            return WrittenFigures{of.result.before, of.result.net_before};
          },
          figure_outputs(),
          "What earlier runs at this setting have shown, or else the defaults for a heater and "
          "materials of this kind."),
      Of::object(
          "after",
          [](const WrittenWaterRun& of) {
            return WrittenFigures{of.result.after, of.result.net_after};
          },
          figure_outputs(), "What the run has shown of the still."),
      Of::amount(
          "hottest_pct", in_percent, [](const WrittenWaterRun& of) { return of.result.hottest; },
          "Share of the power that got into the pot in this run."),
      Of::amount(
          "jug_pct", as_number, [](const WrittenWaterRun& of) { return of.result.jug * 100.0; },
          "What the jug seems to show over what is in it."),
  };
  return outputs;
}

}  // namespace

std::string water_run_json(const WrittenWaterRun& run) {
  return document_text(written_water_run_outputs(), run, true);
}

Document water_run_document() {
  return written_document("water-run",
                          "What `firstdrop water-run STILL --json` prints for readings: what they "
                          "show of the still.",
                          written_water_run_outputs());
}

}  // namespace firstdrop
