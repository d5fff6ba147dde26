#include "cli/pages/water_run_page.hpp"

#include <fmt/core.h>

#include <cmath>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "cli/pages/terminal_page.hpp"
#include "quantity/clock_time.hpp"
#include "quantity/range_text.hpp"

namespace firstdrop::cli {
namespace {

constexpr int run_label_width = 22;
constexpr int middle_width = 27;

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
    const Range<Q> range{Q::from_si(entry.expected_low), Q::from_si(entry.expected),
                         Q::from_si(entry.expected_high)};
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
    page_.line("  ", "Before: the defaults for a heater and materials of this kind.");
    const double off = (r.jug - 1.0) * 100.0;
    if (!report_.log.caught.empty() && std::abs(off) >= 1.0) {
      page_.line("  ", fmt::format("The jug seems to show {:.0f} % {} than is in it.",
                                   std::abs(off), off > 0 ? "more" : "less"));
    }
  }

  void misfits() {
    if (report_.misfits.empty()) return;
    page_.heading("Doesn't fit");
    for (const Misfit& misfit : report_.misfits) {
      const EntryFit& entry = report_.result.entries[misfit.entry];
      std::string words = fmt::format("{}: {}.", capitalised(label_of(entry)), typed_of(entry));
      if (misfit.would_fit.empty())
        words += " Check what you wrote. If it is right, leave this entry out, or run again.";
      else
        words += fmt::format(" It would fit if it were {}. Correct it if so.", misfit.would_fit);
      page_.line("- ", words);
    }
  }

  void next() {
    page_.heading("What to do next");
    if (!report_.misfits.empty()) {
      page_.line("- ", "No still file is written while an entry doesn't fit.");
      return;
    }
    if (const auto& earlier = report_.recipe.still->measured_runs) {
      page_.line("- ", fmt::format("This still already had figures from {}, the last on {}. These "
                                   "replace them: firstdrop can't combine runs yet.",
                                   counted(earlier->runs, "run", "runs"), day_text(earlier->last)));
    }
    const bool writes = !report_.written.empty();
    page_.line("- ", writes ? fmt::format("Name {} as the still in your recipes.",
                                          visible(report_.written))
                            : std::string("Add -o my-still.json to write these figures to a still "
                                          "file that recipes can name."));
    page_.line("- ",
               "Run it again on another day. The figures should agree, because runs of one still "
               "differ by about 3 %. A still file holds the figures of one water run; firstdrop "
               "can't combine several yet.");
    page_.line("- ",
               "Your plans still allow for a stronger heater until 3 runs on 2 days are known.");
  }

  const WaterRunReport& report_;
  TerminalPage page_;
};

}  // namespace

std::string water_run_page(const WaterRunReport& report, const Look& look) {
  return WaterRunPage(report, look).write();
}

}  // namespace firstdrop::cli
