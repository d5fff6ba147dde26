#include "firstdrop/plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "cautions.hpp"
#include "firstdrop/charge.hpp"
#include "firstdrop/inputs.hpp"
#include "firstdrop/reserve.hpp"
#include "firstdrop/water.hpp"
#include "numbers_text.hpp"

namespace firstdrop {
namespace {

constexpr Duration quarter_hour = minutes(15);
// More runs than this are a campaign, not a batch (common practice, no source).
constexpr int most_runs = 24;
// Less of the recoverable oil than this in the receiver is no oil layer (common practice).
constexpr Fraction worth_parting = percent(10);

// What a kitchen scale and a jug can do.
Mass neat(Mass mass) {
  const double step = mass < grams(100)     ? 1
                      : mass < kilograms(1) ? 5
                      : mass < kilograms(5) ? 10
                                            : 50;
  return grams(std::floor(in_grams(mass) / step + 1e-9) * step);
}
double jug_step_ml(Volume volume) {
  return volume < litres(5) ? 10 : volume < litres(20) ? 50 : 100;
}
Volume neat_up(Volume volume) {
  const double step = jug_step_ml(volume);
  return millilitres(std::ceil(in_millilitres(volume) / step - 1e-9) * step);
}
Volume neat_down(Volume volume) {
  const double step = jug_step_ml(volume);
  return millilitres(std::floor(in_millilitres(volume) / step + 1e-9) * step);
}

// The largest x in [low, high] for which `fits` holds, given that it holds from low up to some x.
template <class Q, class Predicate>
Q largest(Q low, Q high, Predicate fits) {
  if (fits(high)) return high;
  for (int i = 0; i < 50; ++i) {
    const Q middle = (low + high) / 2.0;
    (fits(middle) ? low : high) = middle;
  }
  return low;
}

Point hottest() {
  return Point::typical().set(Input::heater, 1).set(Input::heat_loss, 0);
}
Point weakest() {
  return Point::typical().set(Input::heater, 0).set(Input::heat_loss, 1);
}

class Planner {
 public:
  Planner(const Recipe& recipe, const Library& library, int samples)
      : recipe_(recipe),
        still_(recipe.still),
        library_(library),
        practice_(library.practice),
        inputs_(gather_inputs(recipe, library)),
        samples_(samples) {}

  Plan make() {
    plan_.recipe = recipe_;
    plan_.ambient = inputs_.ambient;
    plan_.boiling = inputs_.boiling;
    plan_.latent_heat = inputs_.latent_heat;
    plan_.sources = inputs_.sources;
    if (settle_charge() && heater_is_enough() && settle_stop() && settle_fill()) describe_run();
    describe_charge();
    plan_.cautions = standing_cautions(recipe_);
    add_cautions(plan_, inputs_, library_);
    std::stable_sort(plan_.findings.begin(), plan_.findings.end(),
                     [](const Finding& a, const Finding& b) { return a.level > b.level; });
    const Level worst = plan_.findings.empty() ? Level::note : plan_.findings.front().level;
    plan_.verdict = worst == Level::refuse    ? Verdict::refused
                    : worst == Level::caution ? Verdict::caution
                                              : Verdict::go;
    return std::move(plan_);
  }

 private:
  bool refuse(std::string code, std::string text, std::optional<Amount> value = {},
              std::optional<Amount> limit = {}) {
    plan_.findings.push_back(
        {std::move(code), Level::refuse, std::move(text), std::move(value), std::move(limit)});
    return false;
  }
  void caution(std::string code, std::string text, std::optional<Amount> value = {},
               std::optional<Amount> limit = {}) {
    plan_.findings.push_back(
        {std::move(code), Level::caution, std::move(text), std::move(value), std::move(limit)});
  }

  bool hydro() const { return recipe_.method == Method::hydro; }
  Volume as_volume(Mass water) const { return water / inputs_.fill_density; }
  Mass as_mass(Volume water) const { return water * inputs_.fill_density; }
  bool just_harvest() const { return std::holds_alternative<HarvestGoal>(recipe_.goal); }

  Run typical_run(Mass charge, Mass fill) const {
    return Run(values_at(inputs_, Point::typical(), charge, fill));
  }

  // The most water that may be poured into the pot with this charge.
  Volume water_room(Mass charge) const {
    const Volume pieces = hydro() ? charge / practice_.particle_density.typical() : litres(0);
    const Volume room =
        fill_room(still_.pot.volume.typical(), still_.pot.fill_limit.typical(), pieces);
    if (recipe_.method != Method::water_and_steam) return room;
    return std::min(room, room_below_grid(still_.grid->water_below.typical(),
                                          practice_.grid_clearance.typical()));
  }

  Mass reserve_of(Mass charge, Mass fill) const {
    const Mass wetting =
        hydro() ? charge * practice_.hydro_wetting.typical() * inputs_.fill_density : grams(0);
    return water_reserve(fill, practice_.reserve_share.typical(),
                         as_mass(still_.pot.minimum_water.typical()), wetting);
  }

  // Water above the reserve in the worst credible case, when the person comes late to the stop.
  Mass worst_margin(Mass charge, Mass fill, const Stop& stop) const {
    const Run worst(worst_values(inputs_, charge, fill, stop, recipe_.limits.absence));
    if (worst.failure()) return fill;  // nothing ever boils off
    const Duration late = stop_time(worst, stop) + recipe_.limits.absence;
    return worst.water_at(late).left - reserve_of(charge, fill);
  }

  // The least first fill that keeps the worst case above its reserve; none when no fill that the
  // pot has room for does.
  std::optional<Mass> least_fill(Mass charge, const Stop& stop) const {
    const Mass room = as_mass(water_room(charge));
    const auto too_little = [&](Mass fill) { return worst_margin(charge, fill, stop) < grams(0); };
    if (too_little(room)) return std::nullopt;
    return largest(grams(0), room, too_little);
  }

  // The most hydrosol that a fill can give with the worst case above its reserve.
  Volume most_hydrosol(Mass charge, Mass fill) const {
    return neat_down(largest(litres(0), as_volume(fill), [&](Volume v) {
      return worst_margin(charge, fill, Stop{v, recipe_.limits.time}) >= grams(0);
    }));
  }

  // --- charge -----------------------------------------------------------------------------------

  // The most charge for one run. In water it is not the room alone that counts: what is left for
  // water must be enough for a run worth heating, with the worst case above its reserve.
  Mass most_charge() const {
    const Mass by_room = charge_capacity(inputs_, practice_, Point::typical());
    if (!hydro()) return by_room;
    return largest(grams(0), by_room, [&](Mass charge) {
      const Mass fill = as_mass(water_room(charge));
      const Run run = typical_run(charge, fill);
      if (run.failure()) return true;  // said by heater_is_enough()
      Volume worth =
          std::min(charge * practice_.hydro_yield.typical(), run.hydrosol_at(default_end(run)));
      if (const auto* goal = std::get_if<HydrosolGoal>(&recipe_.goal)) {
        worth = std::min(worth, goal->volume);
      }
      return worst_margin(charge, fill, Stop{worth, recipe_.limits.time}) >= grams(0);
    });
  }

  bool settle_charge() {
    const Mass fits = most_charge();
    if (recipe_.charge) {
      runs_ = runs_needed(*recipe_.charge, fits);
      charge_ = *recipe_.charge / runs_;
      if (runs_ > most_runs) {
        const std::string biggest = text(neat(fits));
        charge_ = neat(fits);
        return refuse(
            "charge-too-large",
            fmt::format("{} would take {} runs: one run holds {}. Use a larger still, or plan at "
                        "most {} runs ({}) at a time.",
                        text(*recipe_.charge), runs_, biggest, most_runs,
                        text(neat(fits) * double(most_runs))),
            Amount{double(runs_), "runs"}, Amount{double(most_runs), "runs"});
      }
      return true;
    }
    charge_ = neat(fits);
    if (charge_ <= grams(0)) {
      return refuse("charge-too-large",
                    fmt::format("The still has room for only {} of this material.", text(fits)));
    }
    if (const auto* goal = std::get_if<OilGoal>(&recipe_.goal)) return size_charge_for(*goal);
    return true;
  }

  Mass oil_mass(const OilGoal& goal) const {
    if (const auto* mass = std::get_if<Mass>(&goal.amount)) return *mass;
    return std::get<Volume>(goal.amount) * inputs_.oil_density.typical();
  }

  // Oil that parts in the receiver of a run made for oil.
  Mass oil_of_full_run(Mass charge) const {
    const Run run = typical_run(charge, as_mass(water_room(charge)));
    return run.failure() ? grams(0) : run.oil_in_receiver_at(default_end(run));
  }

  // When a run with no other goal ends: hardly any more oil comes over, or the hydrosol begins to
  // take back what has parted. Where next to nothing parts, the hydrosol is the product.
  Duration default_end(const Run& run) const {
    const Duration low_gain = time_of_low_gain(run, practice_.oil_gain.typical());
    const Duration crest = time_of_most_oil(run);
    const bool parts = run.oil_in_receiver_at(crest) > run.values().oil_recoverable * worth_parting;
    return parts ? std::min(low_gain, crest) : low_gain;
  }

  bool size_charge_for(const OilGoal& goal) {
    const Mass wanted = oil_mass(goal);
    const Mass full = oil_of_full_run(charge_);
    if (full <= grams(0)) return true;  // said by heater_is_enough() or settle_stop()
    const double runs = std::ceil(wanted / full - 1e-9);
    if (runs > most_runs) {
      return refuse(
          "oil-out-of-reach",
          fmt::format("{} of oil would take {:.0f} runs: one full run of {} gives about {}. Use a "
                      "larger still or plan at most {} runs at a time.",
                      text(wanted), runs, text(charge_), text(full), most_runs),
          Amount{in_grams(wanted), "g"}, Amount{in_grams(full * double(most_runs)), "g"});
    }
    share_out(wanted, std::max(1, static_cast<int>(runs)));
    return true;
  }

  // The charge that gives the oil wanted in so many even runs.
  void share_out(Mass oil, int runs) {
    runs_ = runs;
    const Mass full = neat(most_charge());
    const Mass least =
        largest(grams(0), full, [&](Mass charge) { return oil_of_full_run(charge) < oil / runs; });
    // Up to the next mark of the scale, so that the oil is there.
    const Mass step = least < grams(100) ? grams(1) : least < kilograms(1) ? grams(5) : grams(50);
    charge_ = std::min(full, step * std::ceil(least / step));
  }

  // More and smaller runs for an oil goal, when the water of the fewest does not fit.
  bool more_runs() {
    const auto* goal = std::get_if<OilGoal>(&recipe_.goal);
    if (!goal || recipe_.charge || runs_ >= most_runs) return false;
    share_out(oil_mass(*goal), runs_ + 1);
    return charge_ > grams(0);
  }

  void describe_charge() {
    ChargePlan& c = plan_.charge;
    c.mass = charge_;
    c.runs = runs_;
    c.harvest = recipe_.charge.value_or(charge_ * double(runs_));
    c.dry_matter = dry_matter(charge_, inputs_.moisture.typical());
    c.volume = charge_ / inputs_.bulk_density.typical();
    if (hydro()) {
      c.volume = charge_ / practice_.particle_density.typical();
      const Volume water = as_volume(fill_);
      c.fill = (c.volume + water) / still_.pot.volume.typical();
    } else {
      c.fill = c.volume / charge_space(still_, recipe_.method);
    }
  }

  // --- heat -------------------------------------------------------------------------------------

  bool heater_is_enough() {
    const Mass fill = recipe_.water ? as_mass(*recipe_.water) : as_mass(water_room(charge_));
    const Power rated = still_.heater.power.typical() * recipe_.setting;
    const Fraction implied = implied_efficiency(inputs_, charge_, fill);
    if (implied > fraction(1)) {
      return refuse("own-figure-impossible",
                    fmt::format("The bench's own figures need {} in the pot, but the heater gives "
                                "at most {} at this setting. Check own.distillate_rate, "
                                "own.boil_time and the heater's power.",
                                text(rated * implied), text(rated)),
                    Amount{in_watts(rated * implied), "W"}, Amount{in_watts(rated), "W"});
    }
    const auto failure_at = [&](const Point& point) {
      return Run(values_at(inputs_, point, charge_, fill)).failure();
    };
    const RunValues v = values_at(inputs_, Point::typical(), charge_, fill);
    const TemperatureDifference excess = inputs_.boiling - recipe_.site.room;
    const Power lost = (v.pot_loss + v.column_loss) * excess;
    if (const auto failure = failure_at(Point::typical())) {
      const bool pot = *failure == RunFailure::never_boils;
      const Power reaches = std::min(v.heat_warming, v.heat_boiling);
      const Fraction needed = recipe_.setting * (lost / reaches);
      const std::string way_out =
          needed < fraction(1)
              ? fmt::format("Use a setting of at least {:.0f} %, or lag the still.",
                            std::ceil(in_percent(needed) + 1e-9))
              : fmt::format("Use a heater above {}, or lag the still.",
                            text(still_.heater.power.typical() * needed));
      return refuse(pot ? "never-boils" : "never-at-the-top",
                    fmt::format("{} At {} setting about {} reach the pot, while pot and column "
                                "lose {} at {}. {}",
                                pot ? "The pot never boils." : "Steam never gets to the condenser.",
                                text(recipe_.setting), text(reaches), text(lost),
                                text(inputs_.boiling), way_out),
                    Amount{in_watts(reaches), "W"}, Amount{in_watts(lost), "W"});
    }
    if (failure_at(weakest())) {
      caution("heater-weak",
              "If the plate's contact is poor, this heater may not bring steam to the condenser at "
              "all. Use a higher setting, a flat-based pot, or lag the still.");
    }
    return true;
  }

  // --- stop -------------------------------------------------------------------------------------

  // What the goal asks of one run, as a level to watch in the receiver or as a clock.
  bool settle_stop() {
    const Mass fill = recipe_.water ? as_mass(*recipe_.water) : as_mass(water_room(charge_));
    const Run run = typical_run(charge_, fill);
    stop_.clock = recipe_.limits.time;
    if (const auto* goal = std::get_if<HydrosolGoal>(&recipe_.goal)) {
      stop_.hydrosol = goal->volume / runs_;
      goal_.hydrosol = stop_.hydrosol;
      rule_ = StopRule::hydrosol;
    } else if (const auto* oil = std::get_if<OilGoal>(&recipe_.goal)) {
      const Mass per_run = oil_mass(*oil) / runs_;
      const auto reached = time_of_oil(run, per_run);
      if (!reached) {
        const Mass most = run.oil_in_receiver_at(time_of_most_oil(run));
        return refuse(
            "oil-out-of-reach",
            fmt::format("{} of oil a run is more than {} of this charge can part in the receiver: "
                        "at most about {} (the charge holds {}, this still gets {} of it, and the "
                        "hydrosol keeps its share). Take more herb, or lower the goal to {}.",
                        text(per_run), text(charge_), text(most),
                        text(oil_in_charge(inputs_, Point::typical(), charge_)),
                        text(inputs_.recovery.typical()), text(most * 0.95 * double(runs_))),
            Amount{in_grams(per_run), "g"}, Amount{in_grams(most), "g"});
      }
      if (const auto* volume = std::get_if<Volume>(&oil->amount)) {
        goal_.oil_volume = *volume / runs_;
      } else {
        goal_.oil = per_run;
      }
      const Volume level = run.hydrosol_at(*reached);
      // Past its crest the receiver loses oil again: then the level stays as it is.
      const Volume neat_level = neat_up(level);
      const bool holds = run.oil_in_receiver_at(run.time_of_hydrosol(neat_level)) >= per_run;
      stop_.hydrosol = holds ? neat_level : level;
      rule_ = StopRule::oil;
    } else if (const auto* share = std::get_if<OilShareGoal>(&recipe_.goal)) {
      goal_.oil_share = share->share;
      stop_.hydrosol = neat_up(run.hydrosol_at(run.time_of_oil_share(share->share)));
      rule_ = StopRule::oil_share;
    } else if (const auto* time = std::get_if<TimeGoal>(&recipe_.goal)) {
      stop_.clock = std::min(time->time, recipe_.limits.time.value_or(time->time));
      rule_ = StopRule::time;
    } else {
      stop_.hydrosol = neat_up(run.hydrosol_at(default_end(run)));
      rule_ = StopRule::oil_rate;
    }
    return true;
  }

  // --- water ------------------------------------------------------------------------------------

  std::string asked() const {
    if (stop_.hydrosol) return text(*stop_.hydrosol) + " of hydrosol";
    return text(*stop_.clock) + " from heat on";
  }

  bool settle_fill() {
    const Volume room = water_room(charge_);
    if (recipe_.water) {
      fill_ = as_mass(*recipe_.water);
      if (*recipe_.water > room) return refuse_overfull(room);
      if (worst_margin(charge_, fill_, stop_) >= grams(0)) return true;
      if (just_harvest() && shorten_to(fill_)) return true;
      return refuse_short_water(room);
    }
    if (const auto least = least_fill(charge_, stop_)) {
      Volume fill = as_volume(*least);
      if (hydro()) {
        const SpecificVolume around = practice_.hydro_water.at(recipe_.state).typical();
        fill = std::max(fill, charge_ * around);
      }
      fill_ = as_mass(std::min(neat_up(fill), room));
      return true;
    }
    fill_ = as_mass(room);
    if (just_harvest() && shorten_to(fill_)) return true;
    if (more_runs()) return settle_stop() && settle_fill();
    if (hydro() && !recipe_.charge && lighten_charge()) return settle_stop() && settle_fill();
    return refuse_target(room);
  }

  // Ends a run early so that its water lasts.
  bool shorten_to(Mass fill) {
    const Volume most = most_hydrosol(charge_, fill);
    if (most < millilitres(50)) return false;
    stop_.hydrosol = most;
    rule_ = StopRule::reserve;
    return true;
  }

  // Less charge leaves more room for water (hydro).
  bool lighten_charge() {
    if (lightened_) return false;
    lightened_ = true;
    const Mass fits = neat(largest(
        grams(0), charge_, [&](Mass charge) { return least_fill(charge, stop_).has_value(); }));
    if (fits <= grams(0) || fits >= charge_) return false;
    charge_ = fits;
    return true;
  }

  bool refuse_overfull(Volume room) {
    const bool grid = recipe_.method == Method::water_and_steam;
    return refuse(
        "pot-overfull",
        fmt::format("{} of water is more than the {} that {} has room for {}. Pour at most "
                    "{}.",
                    text(*recipe_.water), text(room), grid ? "the grid" : "the pot",
                    grid ? "without wetting the charge" : "with space for boiling",
                    text(neat_down(room))),
        Amount{in_millilitres(*recipe_.water), "mL"}, Amount{in_millilitres(room), "mL"});
  }

  bool refuse_short_water(Volume room) {
    const Mass margin = worst_margin(charge_, fill_, stop_);
    const Volume reserve = as_volume(reserve_of(charge_, fill_));
    const auto least = least_fill(charge_, stop_);
    std::string way_out = least && as_volume(*least) <= room
                              ? fmt::format("Pour at least {}", text(neat_up(as_volume(*least))))
                              : fmt::format("The pot takes at most {}", text(neat_down(room)));
    const Volume less = most_hydrosol(charge_, fill_);
    if (less >= millilitres(50)) way_out += fmt::format(", or stop at {} of hydrosol", text(less));
    describe_run();
    return refuse(
        "reserve-reached",
        fmt::format(
            "With {} in the pot and {}, the worst credible case is down to {} of water when "
            "the person comes {} late; the reserve is {}. {}.",
            text(*recipe_.water), asked(), text(std::max(as_volume(margin) + reserve, litres(0))),
            text(recipe_.limits.absence), text(reserve), way_out),
        Amount{in_millilitres(as_volume(margin) + reserve), "mL"},
        Amount{in_millilitres(reserve), "mL"});
  }

  bool refuse_target(Volume room) {
    const Volume most = most_hydrosol(charge_, as_mass(room));
    std::string ways;
    std::optional<Amount> value;
    if (stop_.hydrosol) {
      value = Amount{in_millilitres(*stop_.hydrosol), "mL"};
      if (most >= millilitres(50)) {
        const double total = double(*stop_.hydrosol / most) * runs_;
        ways += fmt::format(" Lower it to {} a run, or make {:.0f} runs of it.", text(most),
                            std::ceil(total - 1e-9));
      }
    } else {
      ways += fmt::format(" Stop at {} of hydrosol instead.", text(most));
    }
    // A pot with the same habits, only larger: bisect its volume.
    const Volume pot = still_.pot.volume.typical();
    Planner larger(*this);
    const auto holds = [&](double scale) {
      larger.still_.pot.volume.range = Range<Volume>::exactly(pot * scale);
      if (larger.still_.grid) {
        larger.still_.grid->water_below.range =
            Range<Volume>::exactly(still_.grid->water_below.typical() * scale);
      }
      return larger.least_fill(charge_, stop_).has_value();
    };
    for (double scale = 1.1; scale < 20.0; scale *= 1.1) {
      if (!holds(scale)) continue;
      ways += fmt::format(" Or use a pot of about {}.", text(pot * scale));
      break;
    }
    fill_ = grams(0);
    return refuse(
        "target-exceeds-pot",
        fmt::format("{} takes more water than the pot can hold: it has room for {}, of which the "
                    "reserve and {} of lateness at the hottest plate must stay.{}",
                    asked(), text(room), text(recipe_.limits.absence), ways),
        value, Amount{in_millilitres(most), "mL"});
  }

  // --- the run ----------------------------------------------------------------------------------

  void describe_run() {
    if (plan_.run) return;
    const Run run = typical_run(charge_, fill_);
    const Run worst(worst_values(inputs_, charge_, fill_, stop_, recipe_.limits.absence));
    const Run hot(values_at(inputs_, hottest(), charge_, fill_));

    RunPlan r;
    // Cooling may end the run before anything else does.
    const auto cooling_ends = cool(run, hot, r);
    if (cooling_ends) stop_.hydrosol = neat_down(run.hydrosol_at(*cooling_ends));
    const Duration stop = stop_time(run, stop_);
    const bool clock_first =
        stop_.clock && stop_.hydrosol && *stop_.clock < run.time_of_hydrosol(*stop_.hydrosol);
    r.stop = stop_;
    r.binding_stop = cooling_ends ? StopRule::cooling : clock_first ? StopRule::time : rule_;
    if (cooling_ends) cool(run, hot, r);

    const WaterBalance water = run.water_at(stop);
    const Mass reserve = reserve_of(charge_, fill_);
    r.water.first_fill = as_volume(fill_);
    r.water.distilled = as_volume(water.distilled);
    r.water.held = as_volume(water.held);
    r.water.vented = as_volume(water.vented);
    r.water.left_at_stop = as_volume(water.left);
    r.water.reserve = as_volume(reserve);
    r.water.absence = as_volume(worst.vapour() * recipe_.limits.absence);
    const Volume pieces = hydro() ? charge_ / practice_.particle_density.typical() : litres(0);
    r.water.pot_fill = (r.water.first_fill + pieces) / still_.pot.volume.typical();

    r.times.boil = run.boil();
    r.times.first_drop = run.first_drop();
    r.times.stop = stop;
    r.times.reserve = run.time_until_left(reserve);
    r.times.dry = run.time_until_left(grams(0));
    r.times.stop_worst = stop_time(worst, stop_);
    r.times.reserve_worst = worst.time_until_left(reserve);
    r.times.dry_worst = worst.time_until_left(grams(0));
    r.water.never_beyond = neat_down(worst.hydrosol_at(r.times.reserve_worst));
    if (stop <= run.first_drop()) {
      refuse(
          "stops-before-first-drop",
          fmt::format("The run would stop after {:.1f} min, but the first drop comes after {:.1f} "
                      "min, and may take {:.0f} min. Allow more time.",
                      in_minutes(stop), in_minutes(run.first_drop()), latest_first_drop()),
          Amount{in_minutes(stop), "min"}, Amount{in_minutes(run.first_drop()), "min"});
    }

    const RunValues& v = run.values();
    r.rates.distillate = run.distillate_rate();
    r.rates.steam_per_charge = run.steam_made() / charge_;
    r.rates.heat_into_pot = v.heat_boiling;
    r.rates.heat_lost = (v.pot_loss + v.column_loss) * (v.boiling - v.room);
    if (!hydro()) describe_bed(run, r.rates);

    r.energy.plug = still_.heater.power.typical() * recipe_.setting * stop;
    const Prices& prices = recipe_.prices;
    r.energy.currency = prices.currency;
    if (prices.energy_per_kwh) {
      r.energy.energy_cost = *prices.energy_per_kwh * in_kilowatt_hours(r.energy.plug);
    }
    if (prices.plant_per_kg) r.energy.plant_cost = *prices.plant_per_kg * in_kilograms(charge_);

    describe_timeline(run, stop, r);
    std::vector<Mark> marks;
    for (const TimelinePoint& point : r.timeline) marks.push_back({point.hydrosol, point.at});
    r.spread = spread_of(inputs_, {charge_, fill_, stop_}, goal_, samples_, marks);
    for (std::size_t i = 0; i < r.timeline.size(); ++i) r.timeline[i].oil = r.spread.oil_course[i];
    r.more = {run.hydrosol_at(stop + quarter_hour) - run.hydrosol_at(stop),
              run.oil_in_receiver_at(stop + quarter_hour) - run.oil_in_receiver_at(stop)};
    r.steam_bound_until = run.steam_bound_until();

    const WaterBalance& w = water;
    r.mass_residual = v.first_fill - w.distilled - w.vented - w.held - w.left;
    r.energy_residual = run.energy_at(stop).residual();
    plan_.run = std::move(r);
  }

  // In minutes, with the weakest plate; of the typical run when that never gets there.
  double latest_first_drop() const {
    const Run weak(values_at(inputs_, weakest(), charge_, fill_));
    return in_minutes(weak.failure() ? typical_run(charge_, fill_).first_drop()
                                     : weak.first_drop());
  }

  void describe_bed(const Run& run, RatesPlan& rates) const {
    const Area area = bed_area(still_, recipe_.method);
    const Density steam = saturated_vapour_density(inputs_.boiling);
    const Velocity velocity = superficial_velocity(run.steam_made(), steam, area);
    const Density bulk = inputs_.bulk_density.typical();
    const Fraction voids = void_fraction(bulk, practice_.particle_density.typical());
    rates.steam_velocity = velocity;
    if (voids <= fraction(0)) return;
    rates.bed_pressure_drop =
        bed_pressure_drop(velocity, steam, saturated_vapour_viscosity(inputs_.boiling), voids,
                          practice_.particle_size.at(recipe_.cut).typical(), charge_ / bulk / area);
  }

  // Conductance from a coolant vessel to the room: a cylinder as high as wide, without its base.
  Conductance vessel_loss(Volume filling) const {
    const Length side = metres(std::cbrt(4.0 * filling.si() / 3.14159265358979));
    return practice_.bath_loss.typical() * (circle_area(side) * 5.0);
  }

  // Fills in the cooling; gives the time at which the coolant ends the run, if it does.
  std::optional<Duration> cool(const Run& run, const Run& hot, RunPlan& r) {
    const Condenser& condenser = still_.condenser;
    const Temperature limit = condenser.coolant_limit.typical();
    const Temperature outlet = condenser.outlet.typical();
    const HeatTransfer u = inputs_.condensing.range.typical;
    const HeatTransfer u_least =
        std::max(inputs_.condensing.range.least(), inputs_.condensing.range.low * 0.5);
    const SpecificEnergy heat = condensing_heat(inputs_.boiling, outlet).total();
    const Duration length = std::max(stop_time(run, stop_) - run.first_drop(), seconds(0));
    r.cooling = {};
    r.cooling.duty = run.vapour() * heat;
    if (inputs_.coolant >= limit) {
      refuse_once("coolant-starts-warm",
                  fmt::format("The coolant starts at {}, but may be no warmer than {}. Start with "
                              "colder water.",
                              text(inputs_.coolant), text(limit)),
                  Amount{in_celsius(inputs_.coolant), "°C"}, Amount{in_celsius(limit), "°C"});
      return std::nullopt;
    }
    if (condenser.kind == CondenserKind::run_through) {
      return cool_by_tap(run, hot, u, u_least, heat, r);
    }

    const Volume filling = condenser.coolant->typical();
    const Mass per_change =
        condenser.ice_per_change ? condenser.ice_per_change->typical() : grams(0);
    CoolantVessel vessel;
    vessel.filling = as_mass(filling);
    vessel.first_ice = condenser.kind == CondenserKind::ice_bath ? per_change : grams(0);
    vessel.start = inputs_.coolant;
    vessel.limit = limit;
    vessel.ice_per_change = per_change;
    vessel.room = recipe_.site.room;
    vessel.loss = vessel_loss(filling);
    coolant_ = CoolantRun(vessel, r.cooling.duty, length);
    r.cooling.reservoir_end = coolant_->end();
    if (const auto reached = coolant_->limit_reached()) {
      r.cooling.reservoir_limit = run.first_drop() + *reached;
    }
    if (vessel.first_ice > grams(0)) r.cooling.first_ice = vessel.first_ice;
    if (coolant_->ice() > grams(0)) r.cooling.ice = coolant_->ice();
    for (const IceChange& change : coolant_->changes()) {
      r.cooling.ice_changes.push_back({run.first_drop() + change.at, change.ice});
    }

    // The warmest coolant of a run at the hottest plate decides whether steam gets away.
    const Duration hot_length = std::max(stop_time(hot, stop_) - hot.first_drop(), seconds(0));
    const Temperature warmest =
        std::min(CoolantRun(vessel, hot.vapour() * heat, hot_length).warmest(), limit);
    const auto needed = [&](MassFlow steam, HeatTransfer wall) {
      const Temperature out = std::max(outlet, warmest + practice_.approach.typical());
      return surface_in_bath(steam, wall, inputs_.boiling, out, warmest);
    };
    r.cooling.surface_needed = needed(run.vapour(), u).total();
    check_surface(needed(hot.vapour(), u_least), needed(run.vapour(), u), warmest);

    const bool ends = coolant_->limit_reached() && coolant_->changes().empty();
    if (!ends) return std::nullopt;
    const Duration at = run.first_drop() + *coolant_->limit_reached();
    if (just_harvest()) return at;
    const SpecificHeat cp = mean_liquid_specific_heat(celsius(1), limit);
    const Energy excess = r.cooling.duty * (stop_time(run, stop_) - at);
    const Mass ice = excess / (ice_melting_heat + cp * (limit - celsius(0)));
    refuse_once("coolant-too-warm",
                fmt::format("{} of coolant is at its limit of {} after {}, with {} of hydrosol "
                            "collected. Have {} of ice for it (give the still an ice_per_change), "
                            "take about {} of coolant, or lower the goal.",
                            text(filling), text(limit), text(at), text(run.hydrosol_at(at)),
                            text(ice), text(filling * (length / *coolant_->limit_reached()))),
                Amount{in_minutes(at), "min"}, Amount{in_minutes(stop_time(run, stop_)), "min"});
    return std::nullopt;
  }

  std::optional<Duration> cool_by_tap(const Run& run, const Run& hot, HeatTransfer u,
                                      HeatTransfer u_least, SpecificEnergy heat, RunPlan& r) {
    const Condenser& condenser = still_.condenser;
    const Temperature limit = condenser.coolant_limit.typical();
    const Temperature outlet =
        std::max(condenser.outlet.typical(), inputs_.coolant + practice_.approach.typical());
    const auto flow = [&](const Run& which) {
      return coolant_flow(which.vapour() * heat, inputs_.coolant, limit) / inputs_.fill_density;
    };
    r.cooling.flow = flow(run);
    const auto needed = [&](const Run& which, HeatTransfer wall) {
      return surface_in_counterflow(which.vapour(), wall, inputs_.boiling, outlet, inputs_.coolant,
                                    limit);
    };
    r.cooling.surface_needed = needed(run, u).total();
    check_surface(needed(hot, u_least), needed(run, u), limit);
    const VolumeFlow most = condenser.flow_limit->typical();
    if (flow(hot) > most) {
      refuse_once("coolant-short",
                  fmt::format("At the hottest plate the condenser needs {} of coolant, but gets at "
                              "most {}. Use less heat, colder coolant or a wider hose.",
                              text(flow(hot)), text(most)),
                  Amount{in_litres_per_minute(flow(hot)), "L/min"},
                  Amount{in_litres_per_minute(most), "L/min"});
    }
    return std::nullopt;
  }

  void check_surface(const Surface& worst, const Surface& typical, Temperature warmest) {
    const Area has = still_.condenser.surface.typical();
    if (worst.condensing > has) {
      refuse_once(
          "steam-escapes",
          fmt::format("At the hottest plate, with coolant at {}, condensing all steam takes "
                      "{} of surface and the condenser has {}: steam would come into the "
                      "room. Use a setting below {}, colder coolant, or a larger condenser.",
                      text(warmest), text(worst.condensing), text(has),
                      text(recipe_.setting * std::floor(100.0 * (has / worst.condensing)) / 100.0)),
          Amount{in_square_metres(worst.condensing), "m²"}, Amount{in_square_metres(has), "m²"});
    } else if (typical.total() > has && !warned_warm_) {
      warned_warm_ = true;
      caution(
          "distillate-warm",
          fmt::format("All steam condenses, but with coolant at {} the distillate leaves warmer "
                      "than {}: oil is lost with its vapour. Use colder coolant or less heat.",
                      text(warmest), text(still_.condenser.outlet.typical())),
          Amount{in_square_metres(typical.total()), "m²"}, Amount{in_square_metres(has), "m²"});
    }
  }

  // Cooling is worked out twice when it ends the run; its findings are said once.
  void refuse_once(const std::string& code, std::string text, std::optional<Amount> value,
                   std::optional<Amount> limit) {
    const auto same = [&](const Finding& f) { return f.code == code; };
    if (std::any_of(plan_.findings.begin(), plan_.findings.end(), same)) return;
    refuse(code, std::move(text), std::move(value), std::move(limit));
  }

  void describe_timeline(const Run& run, Duration stop, RunPlan& r) const {
    struct Moment {
      Duration at;
      std::string event;
    };
    std::vector<Moment> marks = {{seconds(0), "heat on"},
                                 {run.boil(), "boils"},
                                 {run.first_drop(), "first drop"},
                                 {stop, "stop"}};
    for (const IceChange& change : r.cooling.ice_changes) marks.push_back({change.at, "ice"});
    // Some twelve plain points, on round minutes.
    static constexpr std::array<double, 7> steps = {2, 5, 10, 15, 20, 30, 60};
    const double wanted = in_minutes(stop) / 12.0;
    const auto step =
        std::find_if(steps.begin(), steps.end(), [&](double s) { return s >= wanted; });
    const Duration every = minutes(step == steps.end() ? 120.0 : *step);
    for (Duration t = every; t < stop; t += every) {
      const auto near = [&](const Moment& m) { return std::abs((m.at - t) / every) < 0.25; };
      if (std::none_of(marks.begin(), marks.end(), near)) marks.push_back({t, ""});
    }
    std::stable_sort(marks.begin(), marks.end(),
                     [](const Moment& a, const Moment& b) { return a.at < b.at; });
    for (const Moment& mark : marks) {
      TimelinePoint point;
      point.at = mark.at;
      point.event = mark.event;
      point.phase = run.phase_at(mark.at);
      point.pot_water = as_volume(run.water_at(mark.at).left);
      point.pot = run.pot_temperature(mark.at);
      point.hydrosol = run.hydrosol_at(mark.at);
      if (coolant_) {
        const Duration condensing = std::max(mark.at - run.first_drop(), seconds(0));
        point.coolant = coolant_->temperature_at(condensing);
      }
      r.timeline.push_back(std::move(point));
    }
  }

  Recipe recipe_;
  Still still_;
  const Library& library_;
  const Practice& practice_;
  Inputs inputs_;
  int samples_;

  Plan plan_;
  Mass charge_;
  int runs_ = 1;
  Mass fill_;
  Stop stop_;
  StopRule rule_ = StopRule::hydrosol;
  GoalOfRun goal_;
  std::optional<CoolantRun> coolant_;
  bool lightened_ = false;
  bool warned_warm_ = false;
};

}  // namespace

std::string to_string(Verdict verdict) {
  switch (verdict) {
    case Verdict::go:
      return "go";
    case Verdict::caution:
      return "caution";
    case Verdict::refused:
      break;
  }
  return "refused";
}

std::string to_string(Level level) {
  switch (level) {
    case Level::note:
      return "note";
    case Level::caution:
      return "caution";
    case Level::refuse:
      break;
  }
  return "refuse";
}

Plan make_plan(const Recipe& recipe, const Library& library, int samples) {
  return Planner(recipe, library, samples).make();
}

}  // namespace firstdrop
