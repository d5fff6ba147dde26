#include "cli/pages/water_run_page.hpp"

#include <fmt/core.h>

#include <cmath>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "cli/pages/terminal_page.hpp"
#include "output/measured_still.hpp"
#include "quantity/clock_time.hpp"
#include "quantity/range_text.hpp"

namespace firstdrop::cli {
namespace {

constexpr int run_label_width = 22;
constexpr int middle_width = 27;
// With fewer entries that agree, nobody can tell which of them is wrong.
constexpr std::size_t least_fits = 3;

std::string loss_text(const Range<HeatTransfer>& film) {
  return fmt::format(
      "{:.1f} ({:.1f} to {:.1f}) W/(m2 K)", in_watts_per_square_metre_kelvin(film.typical),
      in_watts_per_square_metre_kelvin(film.low), in_watts_per_square_metre_kelvin(film.high));
}

class WaterRunPage {
 public:
  WaterRunPage(const WaterRunReport& report, const Look& look)
      : report_(report), page_(look, run_label_width) {}

  std::string write() {
    page_.title(fmt::format("Water run of {}, {}", visible(report_.recipe.still->title),
                            day_text(report_.day)));
    page_.line("",
               fmt::format("{} of water, heater at {}, room at {}.", in_units(report_.setup.fill),
                           text(report_.setup.setting), in_units(report_.recipe.site.room)));
    entries();
    shown();
    misfits();
    next();
    return page_.written();
  }

 private:
  template <class Q>
  std::string in_units(Q quantity) const {
    return text(quantity, report_.recipe.units);
  }
  void columns(const std::string& label, const std::string& middle, const std::string& last) {
    page_.add("  " + padded(label, run_label_width) + " " + padded(middle, middle_width) + " " +
              last + "\n");
  }
  void heading(const char* what, const char* middle, const char* last) {
    page_.heading(padded(what, run_label_width + 3) + padded(middle, middle_width) + " " + last);
  }

  void entries() {
    heading("Measured", "expected (8 runs in 10)", "was");
    for (const EntryFit& entry : report_.result.entries)
      columns(label_of(entry), expected_of(entry), typed_of(entry));
  }

  std::string label_of(const EntryFit& entry) const {
    switch (entry.what) {
      case EntryOf::boil:
        return "water boils";
      case EntryOf::first_drop:
        return "first drop";
      case EntryOf::caught:
        return "in the jug at " + visible(report_.log.caught[entry.mark].at.text);
      case EntryOf::left:
        return "left in the pot";
      case EntryOf::energy:
        break;
    }
    return "energy";
  }

  template <class Q>
  std::string expected_in(const EntryFit& entry) const {
    if (!entry.expected) return "no drop";
    const Range<Q> range{Q::from_si(entry.expected->p10), Q::from_si(entry.expected->p50),
                         Q::from_si(entry.expected->p90)};
    return with_span(range, report_.recipe.units);
  }
  std::string expected_of(const EntryFit& entry) const {
    switch (entry.what) {
      case EntryOf::boil:
      case EntryOf::first_drop:
        return expected_in<Duration>(entry);
      case EntryOf::caught:
        return expected_in<Volume>(entry);
      case EntryOf::left:
        return expected_in<Mass>(entry);
      case EntryOf::energy:
        break;
    }
    return expected_in<Energy>(entry);
  }

  /// What would fit the other entries.
  std::string fitted_of(const EntryFit& entry) const {
    switch (entry.what) {
      case EntryOf::boil:
      case EntryOf::first_drop:
        return in_units(Duration::from_si(entry.fitted));
      case EntryOf::caught:
        return in_units(Volume::from_si(entry.fitted));
      case EntryOf::left:
        return in_units(Mass::from_si(entry.fitted));
      case EntryOf::energy:
        break;
    }
    return in_units(Energy::from_si(entry.fitted));
  }

  std::string typed_of(const EntryFit& entry) const {
    const WaterRunLog& log = report_.log;
    switch (entry.what) {
      case EntryOf::boil:
        return visible(log.boil->text);
      case EntryOf::first_drop:
        return visible(log.first_drop->text);
      case EntryOf::caught:
        return visible(log.caught[entry.mark].volume.text);
      case EntryOf::left:
        return visible(log.left->text);
      case EntryOf::energy:
        break;
    }
    return visible(log.energy->text);
  }

  void shown() {
    const WaterRunResult& r = report_.result;
    heading("Shown", "before", "now");
    const Units units = report_.recipe.units;
    columns("heat that makes steam", with_span(r.net_before, units), with_span(r.net_after, units));
    columns("power that gets in", with_span(r.before.efficiency, units),
            with_span(r.after.efficiency, units));
    columns("heat lost per surface", loss_text(r.before.heat_loss), loss_text(r.after.heat_loss));
    columns("water on the walls", with_span(r.before.wall_hold_up, units),
            with_span(r.after.wall_hold_up, units));
    page_.line("  ", adds_to_earlier_runs(report_.setup)
                         ? "Before: by earlier runs at this setting."
                         : "Before: the defaults for a heater and materials of this kind.");
    const double off = (r.jug - 1.0) * 100.0;
    if (!report_.log.caught.empty() && std::abs(off) >= 1.0) {
      page_.line("  ", fmt::format("The jug seems to show {:.0f} % {} than is in it.",
                                   std::abs(off), off > 0 ? "more" : "less"));
    }
  }

  std::string misfit_words(const Misfit& misfit, const EntryFit& entry, bool most_agree) const {
    std::string words =
        fmt::format("{}: you wrote {}, but {} would fit the rest.", capitalised(label_of(entry)),
                    typed_of(entry), fitted_of(entry));
    if (!misfit.would_fit.empty())
      return words +
             fmt::format(" It would fit if it were {}. Correct it if so.", misfit.would_fit);
    if (entry.what == EntryOf::left && entry.residual < 0.0)
      return words + fmt::format(
                         " If you weighed right, {} of water is missing: steam may have left "
                         "somewhere but through the condenser. Find out where before the next run.",
                         in_units(Mass::from_si(entry.fitted) - report_.log.left->value));
    return words +
           (most_agree
                ? " Check what you wrote. If it is right, leave this entry out, or run again."
                : " Check what you wrote. If it is right, run again.");
  }

  void misfits() {
    if (report_.misfits.empty()) return;
    page_.heading("Doesn't fit");
    const std::size_t fits = report_.result.entries.size() - report_.misfits.size();
    for (const Misfit& misfit : report_.misfits)
      page_.line("- ",
                 misfit_words(misfit, report_.result.entries[misfit.entry], fits >= least_fits));
  }

  void next() {
    page_.heading("What to do next");
    if (!report_.misfits.empty()) {
      page_.line("- ", "No still file is written while an entry doesn't fit.");
      return;
    }
    const auto& earlier = report_.setup.still.measured_runs;
    if (earlier && !adds_to_earlier_runs(report_.setup)) {
      page_.line("- ", fmt::format("This still has figures from {} at {}, the last on {}. Those of "
                                   "this run, at another setting, take their place.",
                                   counted(earlier->runs, "run", "runs"), text(earlier->setting),
                                   day_text(earlier->last)));
    }
    const bool writes = !report_.written.empty();
    page_.line("- ",
               writes
                   ? fmt::format("Name {} as the still in your recipes.", visible(report_.written))
                   : std::string("Add -o my-measured-still.json to write these figures to a still "
                                 "file that recipes can name."));
    const MeasuredRuns known = with_this_run(report_.setup, report_.result, report_.day);
    if (known.are_enough()) return;
    page_.line(
        "- ", fmt::format("These figures rest on {} on {}. Plans allow for a stronger heater until "
                          "it is 3 runs on 2 days.",
                          counted(known.runs, "run", "runs"), counted(known.days, "day", "days")));
    page_.line("- ", writes ? fmt::format("Run it again on another day, and add it to these: "
                                          "firstdrop water-run {}",
                                          visible(report_.written))
                            : std::string("Run it again on another day, with the file that you "
                                          "write as its still: each run adds to those before."));
  }

  const WaterRunReport& report_;
  TerminalPage page_;
};

}  // namespace

std::string water_run_page(const WaterRunReport& report, const Look& look) {
  return WaterRunPage(report, look).write();
}

}  // namespace firstdrop::cli
