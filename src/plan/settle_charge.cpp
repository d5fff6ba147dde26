#include <algorithm>
#include <cmath>

#include "base/root.hpp"
#include "physics/charge.hpp"
#include "physics/stop.hpp"
#include "plan/settle.hpp"

namespace firstdrop {
namespace {

// A kitchen scale shows nothing lighter (common practice, no source).
constexpr Mass least_charge = grams(0.1);
// Charges tried between the least that separates the oil and a full one.
constexpr int charge_steps = 16;

// The largest charge for one run. With the charge in the water, the space for herb isn't the only
// limit: enough water must fit beside it for a run worth heating, with the worst case above its
// reserve.
Mass capacity(const Planning& p) {
  const Mass by_room = charge_capacity(p.parameters, p.defaults, SamplePoint::medians());
  if (!p.hydro()) return by_room;
  return largest(grams(0), by_room, [&](Mass charge) {
    const Mass fill = p.water.poured_mass(p.water.room(charge));
    const Run run = p.nominal.of(charge, fill);
    if (run.failure()) return fill.si();  // check_heater() reports it
    Volume worth = std::min(charge * p.parameters.selected->customary_hydrosol.typical(),
                            run.hydrosol_at(default_end(p, run, charge)));
    if (const auto asked = hydrosol_asked(p, charge)) worth = std::min(worth, *asked);
    return p.water.worst_margin(charge, fill, Stop{worth, p.recipe.limits.time}, p.lateness()).si();
  });
}

// Splits the harvest evenly over the fewest runs. If the last run would hold too little to be worth
// heating, there is one run less, each is as full as possible, and the rest is left over.
ChargeChoice share_harvest(const Planning& p, Mass harvest, Mass fits, Sharing sharing) {
  ChargeChoice choice;
  choice.runs = runs_needed(harvest, fits);
  choice.charge = harvest / choice.runs;
  const Mass full = p.neat_down(fits);
  const Mass last = harvest - full * double(choice.runs - 1);
  if (sharing == Sharing::full_runs && choice.runs > 1 &&
      last <= full * p.defaults.least_last_run.typical()) {
    --choice.runs;
    choice.charge = full;
    choice.rest = last;
  }
  const int most_runs = p.defaults.counts.most_runs;
  if (choice.runs <= most_runs) return choice;
  choice.charge = full;
  choice.refusal.emplace(Level::refuse,
                         found::TooManyRuns{harvest, fits, full, choice.runs, most_runs});
  return choice;
}

// Oil that separates in the receiver of a full run made for oil. Such a run ends when hardly any
// more oil comes over, or when the hydrosol begins to dissolve what has separated.
Mass oil_of_full_run(const Planning& p, Mass charge) {
  const Run run = p.nominal.of(charge, p.water.poured_mass(p.water.room(charge)));
  if (run.failure()) return grams(0);
  return run.oil_in_receiver_at(
      std::min(time_of_low_gain(run, p.defaults.oil_gain.typical()), time_of_most_oil(run)));
}

struct OilCharge {
  Mass charge;
  bool lasts = false;  ///< the pot's water lasts until the oil has separated
};

// Finds the charge that separates this much oil in one run. Starts with the smallest one. Larger
// charges separate the oil sooner, so it tries them until the pot's water lasts.
OilCharge charge_for(const Planning& p, Mass oil, Mass full) {
  const Mass least =
      largest(grams(0), full, [&](Mass charge) { return (oil - oil_of_full_run(p, charge)).si(); });
  for (int i = 0; i <= charge_steps; ++i) {
    const Mass charge =
        std::min(full, p.neat_up(least + (full - least) * (double(i) / charge_steps)));
    const auto level = level_of_oil(p, charge, oil);
    if (level && p.water.least_fill(charge, Stop{*level, p.recipe.limits.time}, p.lateness())) {
      return {charge, true};
    }
  }
  return {std::min(full, p.neat_up(least)), false};
}

// `full` is the charge of a full run.
ChargeChoice charge_for_oil(const Planning& p, Mass wanted, Mass full) {
  ChargeChoice choice;
  choice.charge = full;
  const Mass each = oil_of_full_run(p, full);
  if (each <= grams(0)) return choice;  // check_heater() or choose_stop() reports it
  const double runs = std::ceil(wanted / each - 1e-9);
  const int most_runs = p.defaults.counts.most_runs;
  if (runs > most_runs) {
    choice.refusal.emplace(Level::refuse,
                           found::OilTakesTooManyRuns{wanted, runs, full, each, most_runs});
    return choice;
  }
  const int fewest = std::max(1, static_cast<int>(runs));
  for (int n = fewest; n <= most_runs && !p.recipe.water; ++n) {
    const OilCharge found = charge_for(p, wanted / n, full);
    if (!found.lasts) continue;
    choice.runs = n;
    choice.charge = found.charge;
    return choice;
  }
  choice.runs = fewest;  // choose_stop() or choose_water() refuses it
  choice.charge = charge_for(p, wanted / fewest, full).charge;
  return choice;
}

}  // namespace

ChargeChoice choose_charge(const Planning& p, Sharing sharing, double aim) {
  const Mass fits = capacity(p);
  ChargeChoice choice;
  if (fits < least_charge) {
    choice.refusal.emplace(Level::refuse, found::NoWaterToSpare{p.recipe.limits.absence});
    return choice;
  }
  if (p.recipe.charge) return share_harvest(p, *p.recipe.charge, fits, sharing);
  choice.charge = p.neat_down(fits);
  if (choice.charge <= grams(0)) {
    choice.refusal.emplace(Level::refuse, found::NoRoomForCharge{fits});
    return choice;
  }
  if (const auto* goal = std::get_if<OilGoal>(&p.recipe.goal))
    return charge_for_oil(p, oil_asked(p, *goal) * aim, choice.charge);
  return choice;
}

}  // namespace firstdrop
