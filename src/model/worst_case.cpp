#include "model/worst_case.hpp"

#include <algorithm>
#include <cmath>

#include "model/share_at.hpp"
#include "physics/basis.hpp"
#include "physics/charge.hpp"
#include "quantity/normal.hpp"

namespace firstdrop {

SamplePoint worst_for_water() {
  SamplePoint point = SamplePoint::medians();
  point.set(Parameter::heater, 1).set(Parameter::heat_loss, 0).set(Parameter::moisture, 0);
  point.set(Parameter::dry_specific_heat, 0)
      .set(Parameter::hold_up, 1)
      .set(Parameter::film_hold_up, 1);
  point.set(Parameter::wall_hold_up, 1)
      .set(Parameter::uncondensed_loss, 1)
      .set(Parameter::fill_error, 1);
  return point;
}

namespace {

// For runs of which we use only what the fill doesn't change: how long steam takes to heat column
// and charge, how much vapour there is then, and how much condenses.
constexpr Mass any_fill = kilograms(1);

// The watts that a measured time or rate stands for rise with the losses and the heat capacity that
// it was measured against. These are the least and the most that a reading can mean, over the
// corners of those ranges.
struct ReadingBounds {
  Range<Power> warming;  // of all three only low and high are set
  Range<MassFlow> vapour;
  Range<Duration> steaming;
  int runs = 0;     // corners that reach a first drop
  int corners = 0;  // all corners
};

template <class T>
void widen(Range<T>& range, T value, bool first) {
  range.low = first ? value : std::min(range.low, value);
  range.high = first ? value : std::max(range.high, value);
}

// A quantile of the heater's range, and the factor by which mains or dial change its heat.
struct HeatCase {
  double quantile;
  double times;
};
// Whether the margins for mains and dial count, as they do for the pot's water only.
enum class Margins { left_out, counted };
// Inequality 1: the end of the heater's range, and P90 or P10 with other mains or another dial.
std::array<HeatCase, 2> strongest(double mains) {
  return {HeatCase{1.0, 1.0}, {0.9, mains}};
}
std::array<HeatCase, 2> weakest(double mains) {
  return {HeatCase{0.0, 1.0}, {0.1, mains}};
}

void heat_by(RunValues& v, double factor) {
  v.heat_warming = v.heat_warming * factor;
  v.heat_boiling = v.heat_boiling * factor;
}

// Over the corners of heater, heat loss, moisture and dry heat; `values` is at `point` for the
// rest.
ReadingBounds reading_bounds(ParametersAt values, SamplePoint point, Mass charge,
                             const std::array<HeatCase, 2>& heats) {
  ReadingBounds m;
  for (const HeatCase& heat : heats) {
    point.set(Parameter::heater, heat.quantile);
    for (const double loss : {0.0, 1.0}) {
      values.move_heat(point.set(Parameter::heat_loss, loss));
      for (const double moisture : {0.0, 1.0}) {
        for (const double dry_heat : {0.0, 1.0}) {
          point.set(Parameter::moisture, moisture).set(Parameter::dry_specific_heat, dry_heat);
          values.move_capacities(point);
          RunValues v = values.of(charge, any_fill);
          heat_by(v, heat.times);
          widen(m.warming, v.heat_warming, m.corners == 0);
          ++m.corners;
          const Boiling boiling = boiling_of(v);
          if (boiling.failure) continue;
          widen(m.vapour, boiling.vapour, m.runs == 0);
          widen(m.steaming, boiling.steaming, m.runs == 0);
          ++m.runs;
        }
      }
    }
  }
  return m;
}

// The heat that makes this much vapour.
Power heat_for_vapour(const RunValues& v, MassFlow vapour) {
  return vapour * v.latent_heat + (v.pot_loss + v.column_loss) * (v.boiling - v.room);
}

// Changes the column's heat capacity so that steam takes `steaming` to heat it.
void steam_within(RunValues& v, Duration steaming) {
  const Boiling boiling = boiling_of(v);
  if (boiling.failure) return;
  v.column_capacity = v.column_capacity * double(steaming / boiling.steaming);
}

// Starts water and pot so far above the room: the water may have warmed the pot, or have cooled in
// it, before heating starts.
void start_over_room(RunValues& v, TemperatureDifference excess) {
  v.fill_excess = excess;
  v.pot_excess = excess;
}

// Inequality 1, and what measured runs of the still add to it.
Power strongest_heat(const ModelParameters& parameters, double more, Margins margins) {
  const SelectedParameters& selected = *parameters.selected;
  const auto most_of = [&](const Cited<Fraction>& efficiency) {
    Power most = watts(0);
    for (const HeatCase& heat : strongest(more))
      most = std::max(most, heat_at(parameters, efficiency, heat.quantile) * heat.times);
    return most;
  };
  const Power by_still = most_of(selected.heater_efficiency);
  if (!selected.replaced) return by_still;
  const MeasuredRuns& measured = *parameters.recipe.still->measured_runs;
  const auto run_to_run = double(selected.replaced->run_to_run);
  const Cited<Fraction>& usual = selected.replaced->heater_efficiency;
  const Power hottest = heat_at(parameters, {Range<Fraction>::exactly(measured.hottest), {}}, 0.5) *
                        std::exp(bound_in_sd * run_to_run);
  const Power by_default = most_of(usual);
  // One reading, or several on one day, may all be on the cool side. At another setting the dial
  // may give more than it says.
  const bool proven = measured.are_enough() && measured.setting == parameters.recipe.setting;
  if (margins == Margins::left_out || !proven) return std::max({by_still, by_default, hottest});
  // From three runs on two days, the bound moves with the still, and keeps its room.
  const Power typical = heat_by_tables_at(parameters, 0.5);
  const double room = std::log(double(by_default / heat_at(parameters, usual, 0.5)));
  const Range<Fraction>& known = selected.heater_efficiency.range;
  const double sd = std::log(double(known.high / known.low)) / bound_in_sd;
  const double next = bound_in_sd * std::hypot(sd, run_to_run);
  return std::max(
      typical * std::exp(std::max(next, std::min(room, double(selected.replaced->most_room)))),
      hottest);
}

// The values at worst_for_water() with the most heat that tables or readings allow: inequality 2.
RunValues upper_heater_of(const ModelParameters& parameters, const ParametersAt& by_tables,
                          const std::optional<ParametersAt>& own, Mass charge, Mass fill,
                          Margins margins) {
  const bool nominal = margins == Margins::left_out;
  const double more_than_tables = nominal ? 1.0 : parameters.of_tables.most;
  const double more_than_reading = nominal ? 1.0 : parameters.of_reading.most;
  // The driest charge and the smallest fill give the earliest first drop, and the longest run by
  // the clock. With the largest uncondensed loss a level takes the most vapour, and a measured rate
  // stands for the most.
  RunValues v = by_tables.of(charge, fill);
  v.heat_warming = strongest_heat(parameters, more_than_tables, margins);
  v.heat_boiling = v.heat_warming;
  start_over_room(v, std::max(v.fill_excess, kelvins(0)));
  if (!own) return v;
  const ReadingBounds m =
      reading_bounds(*own, worst_for_water(), charge, strongest(more_than_reading));
  v.heat_warming = std::max(v.heat_warming, m.warming.high);
  if (m.runs == 0) return v;
  const Boiling boiling = boiling_of(v);
  const bool by_both = !boiling.failure;
  v.heat_boiling =
      heat_for_vapour(v, by_both ? std::max(boiling.vapour, m.vapour.high) : m.vapour.high);
  steam_within(v, by_both ? std::min(boiling.steaming, m.steaming.low) : m.steaming.low);
  return v;
}

// Inequality 4: the water that charge and walls hold at worst.
//
// The driest charge, the highest hold-up and the walls that hold most don't meet in one run of 200;
// each by itself may. Let each of the three be a fraction s of the way from its median to its
// bound. We take combinations as credible if their s^2 add up to no more than 1. For parameters
// that vary independently and normally, the bound below is exceeded in about one run of 200.
//
// Within that set, with moisture m, hold-up H, charge c and walls W,
//
//     held = c * ((1 - m) * H - m) + W
//          <= held_median + sqrt(d_m^2 + d_H^2 + d_W^2) + c * dm * dH / 2.
//
// d_i is what one parameter adds at its bound; dm and dH are the distances of moisture and hold-up
// to their bounds, and s_m * s_H is at most 1/2. Where a film holds more, held = F * c + W, with F
// and W bounded in the same way.
Mass held_at_worst(const ModelParameters& parameters, Mass charge) {
  const SelectedParameters& selected = *parameters.selected;
  const Fraction moisture = share_at(selected.moisture, 0.5, most_moisture);
  // As far below the median as it may be, even below zero. In a range by factors, a fraction s of
  // the way is no more than s times the slope at the median.
  const Range<Fraction>& moist = selected.moisture.range;
  const Fraction driest = moist.by_ratio
                              ? moisture * (1.0 - std::log(double(moisture / moist.least())))
                              : moist.least();
  const Fraction hold_up = positive_at(selected.hold_up, 0.5);
  const Fraction most_hold_up = positive_at(selected.hold_up, 1.0);
  const Fraction film = share_at(selected.film_hold_up, 0.5, fraction(5));
  const Fraction most_film = share_at(selected.film_hold_up, 1.0, fraction(5));
  const Mass walls = std::max(selected.wall_hold_up.typical(), grams(0));
  Mass most_walls = std::max(selected.wall_hold_up.range.most(), grams(0));
  if (selected.replaced)
    most_walls = std::max(most_walls, selected.replaced->wall_hold_up.range.most());

  const auto soaked = [&](Fraction m, Fraction h) {
    return dry_matter(charge, m) * h - charge * m;
  };
  const Mass typical = soaked(moisture, hold_up);
  const double by_moisture = (soaked(driest, hold_up) - typical).si();
  const double by_hold_up = (soaked(moisture, most_hold_up) - typical).si();
  const double by_film = (charge * (most_film - film)).si();
  const double by_walls = (most_walls - walls).si();
  const Mass by_both = charge * double(moisture - driest) * double(most_hold_up - hold_up);
  const Mass dry =
      typical + by_both / 2.0 + Mass::from_si(std::hypot(by_moisture, by_hold_up, by_walls));
  const Mass wet = charge * film + Mass::from_si(std::hypot(by_film, by_walls));
  const Mass at_all_ends =
      water_held(charge, share_at(selected.moisture, 0.0, most_moisture), most_hold_up, most_film);
  return std::min(walls + std::max(dry, wet), at_all_ends + most_walls);
}

std::optional<ParametersAt> own_values(const ModelParameters& parameters,
                                       const SamplePoint& point) {
  if (!measured_heat(parameters)) return std::nullopt;
  return ParametersAt(parameters, point);
}

}  // namespace

Duration longest_after_heat(const ModelParameters& parameters) {
  return std::max(parameters.selected->stored_heat.range.most(), seconds(0));
}

Duration longest_lateness(const ModelParameters& parameters) {
  return parameters.recipe.limits.absence + longest_after_heat(parameters);
}

WorstCase::WorstCase(const ModelParameters& parameters, Mass charge)
    : parameters_(&parameters),
      at_worst_(parameters, worst_for_water(), HeatFrom::tables),
      own_at_worst_(own_values(parameters, worst_for_water())),
      strongest_(load(charge)) {}

void WorstCase::reload(Mass charge) {
  strongest_ = load(charge);
}

Run WorstCase::load(Mass charge) {
  column_capacity_ = HeatCapacity();
  column_loss_ = Conductance();
  slow_runs_ = 0;
  may_never_drip_ = false;
  RunValues at_worst =
      upper_heater_of(*parameters_, at_worst_, own_at_worst_, charge, any_fill, Margins::counted);
  const Mass held = held_at_worst(*parameters_, charge);
  if (bounded()) {
    at_worst.hold_up = held;
  } else {
    at_worst.soaked = std::max(held - at_worst.hold_up, grams(0));
  }
  Run strongest(at_worst);
  if (!bounded()) return strongest;
  // Reaching a level takes longest with the weakest heater and the largest uncondensed loss. Behind
  // a measured rate of distillate it is the other way round: there is least steam, and steaming
  // takes longest, where nothing is lost.
  load_slow(at_worst_, charge, 1, parameters_->of_tables.least);
  if (!own_at_worst_) return strongest;
  load_slow(*own_at_worst_, charge, 1, parameters_->of_reading.least);
  if (parameters_->own_rate) load_slow(*own_at_worst_, charge, 0, parameters_->of_reading.least);
  return strongest;
}

void WorstCase::load_slow(ParametersAt slow, Mass charge, double uncondensed, double mains) {
  // The most condenses where there is most to heat and most to lose.
  SamplePoint heavy = worst_for_water();
  heavy.set(Parameter::moisture, 1).set(Parameter::dry_specific_heat, 1);
  heavy.set(Parameter::uncondensed_loss, uncondensed);
  slow.move_capacities(heavy);
  for (const HeatCase& heat : weakest(mains)) {
    heavy.set(Parameter::heater, heat.quantile);
    for (const double loss : {0.0, 1.0}) {
      slow.move_heat(heavy.set(Parameter::heat_loss, loss));
      RunValues v = slow.of(charge, any_fill);
      heat_by(v, heat.times);
      column_capacity_ = std::max(column_capacity_, v.column_capacity);
      column_loss_ = std::max(column_loss_, v.column_loss);
      const Boiling boiling = boiling_of(v);
      if (boiling.failure) {
        may_never_drip_ = true;
        continue;
      }
      slow_[slow_runs_++] = {boiling,
                             boiling.vapour * (1.0 - v.uncondensed_loss) / v.distillate_density};
    }
  }
}

// Inequality 5: the most that can condense in column and charge, at any point of the ranges, until
// the run has boiled for `lateness` past its stop. `strongest` is the run that boils earliest.
Mass WorstCase::most_condensed(const Stop& stop, Duration lateness, const Run& strongest) const {
  Mass most = kilograms(1e9);
  if (stop.hydrosol) {
    if (may_never_drip_) return most;
    most = grams(0);
    for (std::size_t i = 0; i < slow_runs_; ++i) {
      const SlowRun& slow = slow_[i];
      const Boiling& boiling = slow.boiling;
      const Duration running = *stop.hydrosol / slow.distillate + lateness;
      most = std::max(
          most, boiling.steam * boiling.steaming + (boiling.steam - boiling.vapour) * running);
    }
  }
  if (stop.clock) {
    // By the clock: column and charge heated through, and the full loss from the earliest boil on.
    const RunValues& v = strongest.values();
    const TemperatureDifference rise = v.boiling - v.room;
    const Duration hot = std::max(*stop.clock + lateness - strongest.boil(), seconds(0));
    most = std::min(most, (column_capacity_ * rise + column_loss_ * rise * hot) / v.latent_heat);
  }
  return most;
}

// Inequality 6: the water that the run with the strongest heater must have lost to charge and
// walls, so that no run with any other heater has less left when each stops at this level and boils
// on for `lateness`. `most` is the most that charge and walls can have taken up by then.
//
// A heater that makes the vapour V reaches the level once it has made
//
//     M = level * density / (1 - uncondensed_loss),
//
// however strong it is. After that it boils off V * lateness. With the heat capacity and the loss
// of column and charge at their highest, what has condensed is
//
//     E * (1 + V / C) * ln(1 + C / V) + C * (M / V + lateness)  <=  a + b / V,
//     E = capacity * rise / latent_heat,  C = loss * rise / latent_heat,
//     a = E + C * lateness,  b = C * (E / 2 + M),
//
// because ln(1 + x) <= x * (2 + x) / (2 * (1 + x)). So beyond M at most
//
//     V * lateness + min(most, a + b / V)
//
// is gone. This rises with V until a + b / V = most, and is convex from there on: it is largest at
// that V or at the strongest heater's.
Mass WorstCase::lost_at_worst(Volume level, Duration lateness, const Run& strongest,
                              Mass most) const {
  const RunValues& v = strongest.values();
  const TemperatureDifference rise = v.boiling - v.room;
  const Mass heated = column_capacity_ * rise / v.latent_heat;
  const MassFlow lost = column_loss_ * rise / v.latent_heat;
  const Mass vapour = level * v.distillate_density / (1.0 - v.uncondensed_loss);
  const Mass a = heated + lost * lateness;
  const Mass b = heated / 2.0 + vapour;  // in units of `lost`
  const MassFlow most_vapour = strongest.vapour();
  const Mass at_strongest = std::min(most, a + b * double(lost / most_vapour));
  if (most <= a) return at_strongest;
  const MassFlow fills = std::min(most_vapour, lost * double(b / (most - a)));
  return std::max(at_strongest, most - (most_vapour - fills) * lateness);
}

Run WorstCase::strongest_heater(Mass first_fill) const {
  Run run = strongest_;
  run.refill(first_fill * at_worst_.filled());
  return run;
}

Run WorstCase::run(Mass first_fill, const Stop& stop, Duration lateness) const {
  Run run = strongest_heater(first_fill);
  Mass lost = run.values().hold_up;
  if (bounded() && !run.failure()) {
    lost = std::min(lost, most_condensed(stop, lateness, run));
    if (stop.hydrosol) {
      // Where the clock ends this run before the level, other runs may lose what it hasn't boiled
      // off.
      const Duration end = std::max(stop_time(run, stop) + lateness, run.first_drop());
      const Duration left_out = run.time_of_hydrosol(*stop.hydrosol) + lateness - end;
      lost = std::min(lost,
                      lost_at_worst(*stop.hydrosol, lateness, run, lost) + run.vapour() * left_out);
    }
  }
  run.soak_at_once(lost);
  return run;
}

RunValues upper_heater_values(const ModelParameters& parameters, Mass charge, Mass first_fill) {
  const SamplePoint point = worst_for_water();
  return upper_heater_of(parameters, ParametersAt(parameters, point, HeatFrom::tables),
                         own_values(parameters, point), charge, first_fill, Margins::left_out);
}

RunValues lower_heater_values(const ModelParameters& parameters, Mass charge, Mass first_fill) {
  SamplePoint point = SamplePoint::medians();
  point.set(Parameter::heater, 0).set(Parameter::heat_loss, 1).set(Parameter::uncondensed_loss, 0);
  point.set(Parameter::moisture, 1)
      .set(Parameter::dry_specific_heat, 1)
      .set(Parameter::fill_error, 0);
  RunValues v = ParametersAt(parameters, point, HeatFrom::tables).of(charge, first_fill);
  start_over_room(v, std::min(v.fill_excess, kelvins(0)));
  const auto own = own_values(parameters, point);
  if (!own) return v;
  const ReadingBounds m = reading_bounds(*own, point, charge, weakest(1.0));
  v.heat_warming = std::min(v.heat_warming, m.warming.low);
  const Boiling boiling = boiling_of(v);
  if (boiling.failure || m.runs < m.corners) {
    v.heat_boiling = watts(0);
    return v;
  }
  v.heat_boiling = heat_for_vapour(v, std::min(boiling.vapour, m.vapour.low));
  steam_within(v, std::max(boiling.steaming, m.steaming.high));
  return v;
}

}  // namespace firstdrop
