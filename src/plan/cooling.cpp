#include "plan/cooling.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "model/cold_side.hpp"
#include "model/outcomes.hpp"
#include "model/worst_case.hpp"
#include "plan/make_finding.hpp"
#include "quantity/numbers_text.hpp"

namespace firstdrop {
namespace {

// Nobody can keep changing ice more often than this (common practice, no source).
constexpr Duration busy = minutes(5);
constexpr Duration hopeless = minutes(2);
// Coolant this close to boiling condenses too little to count on.
constexpr TemperatureDifference least_difference = kelvins(1);
// A run with the weakest heater isn't followed for longer than this.
constexpr Duration longest_looked_at = hours(24);

std::optional<Duration> earlier(std::optional<Duration> a, std::optional<Duration> b) {
  if (!a || !b) return a ? a : b;
  return std::min(*a, *b);
}

class CoolingPlanner {
 public:
  CoolingPlanner(const ModelParameters& parameters, const DesignDefaults& defaults,
                 const Run& nominal, const Run& hot, const Loading& loading, const Stop& stop,
                 Detail detail)
      : detail_(detail),
        parameters_(parameters),
        defaults_(defaults),
        cold_side_(parameters, defaults),
        condenser_(parameters.recipe.still->condenser),
        nominal_(nominal),
        hot_(hot),
        loading_(loading),
        stop_(stop),
        u_(parameters.selected->condensing.range.typical),
        u_least_(least_of(parameters.selected->condensing)),
        limit_(cold_side_.limit()) {}

  Cooling make() {
    result_.plan.duty = nominal_.vapour() * cold_side_.heat();
    result_.coldest = parameters_.coolant;
    if (parameters_.coolant >= limit_) {
      add(
          Level::refuse, "coolant-starts-warm",
          [&] {
            return fmt::format("The coolant starts at {}, but may be no warmer than {}.",
                               text(parameters_.coolant), text(limit_));
          },
          Amount{in_celsius(parameters_.coolant), "°C"}, Amount{in_celsius(limit_), "°C"});
    } else if (limit_ + least_difference >= parameters_.boiling) {
      add(
          Level::refuse, "coolant-limit-high",
          [&] {
            return fmt::format(
                "The coolant may be as warm as {} by the still's coolant_limit, but water boils "
                "at {} here: it would condense nothing.",
                text(limit_), text(parameters_.boiling));
          },
          Amount{in_celsius(limit_), "°C"}, Amount{in_celsius(parameters_.boiling), "°C"});
    } else if (condenser_.kind == CondenserKind::run_through) {
      run_through();
    } else {
      vessel();
    }
    return std::move(result_);
  }

 private:
  // `words` is the text, or a function that makes it.
  template <class Words>
  void add(Level level, FindingCode code, const Words& words, const Amount& value,
           const std::optional<Amount>& limit = {}) {
    result_.findings.push_back(finding_with_words(detail_, level, code, words, value, limit));
  }

  // In the units of the recipe.
  template <class Quantity>
  std::string text(Quantity quantity) const {
    return firstdrop::text(quantity, parameters_.recipe.units);
  }
  template <class Quantity>
  Quantity neat_down(Quantity quantity) const {
    return firstdrop::neat_down(quantity, parameters_.recipe.units);
  }
  Duration length_of(const Run& run) const {
    return std::max(stop_time(run, stop_) - run.first_drop(), seconds(0));
  }

  // Latent heat only. warmed_by_distillate() adds the rest.
  Power hot_duty() const { return hot_.vapour() * parameters_.latent_heat; }

  // The coolant vessel in the upper-bound heater case, with the least and with the most heat
  // exchange with the room. A bath warmer than the room gets warmest with the least loss to it. A
  // colder one gets warmest with the most gain from it. For a bath that passes room temperature it
  // can be either.
  std::array<CoolantVessel, 2> hot_vessels() const {
    const auto with = [&](HeatTransfer film) {
      return cold_side_.warmed_by_distillate(cold_side_.small_vessel(film), hot_.vapour());
    };
    return {with(least_of(defaults_.bath_loss)), with(most_of(defaults_.bath_loss))};
  }

  // The vessel run with no ice other than that at the start.
  CoolantRun left_alone(CoolantVessel hot) const {
    hot.ice_per_change = grams(0);
    return CoolantRun(hot, hot_duty(), length_of(hot_));
  }

  // The warmest coolant when a late person comes, whatever ice has gone in before. If the coolant
  // can reach its limit, some weaker heater may bring it there exactly at the stop, so the lateness
  // starts at the limit.
  Temperature warmest_when_late(CoolantVessel hot, const CoolantRun& alone) const {
    const Duration lateness = longest_lateness(parameters_);
    if (hot.ice_per_change < least_ice || !alone.limit_reached()) {
      return alone.temperature_at(length_of(hot_) + lateness);
    }
    hot.ice_per_change = grams(0);
    hot.first_ice = grams(0);
    hot.start = limit_;
    return CoolantRun(hot, hot_duty(), lateness).end();
  }

  // Whether the ice of the planned changes lasts until a late person comes, with any heater. The
  // most and the least heat that a run brings to the coolant come with the strongest and the
  // weakest heater, or the other way round: with the weakest, the room warms the coolant for
  // longest. If both need the same number of changes by the stop, so does every heater between
  // them. Then one of the two also has the warmest coolant on a late stop: the heat from the room
  // grows with the length of the run, and the heat during the lateness grows with the vapour.
  bool last_ice_lasts(const std::vector<IceChange>& changes) const {
    if (changes.empty()) return false;
    const Run cool(lower_heater_values(parameters_, loading_.charge, loading_.first_fill));
    if (cool.failure()) return false;
    std::vector<Mass> as_planned;
    std::vector<Mass> thin;
    for (const IceChange& change : changes) {
      as_planned.push_back(change.ice);
      thin.push_back(change.ice * cold_side_.thinned());
    }
    // One extra piece. If it goes in, the coolant has reached its limit once more than planned.
    as_planned.push_back(changes.back().ice);
    thin.push_back(thin.back());
    const auto as_many = [&](const CoolantRun& run) {
      return run.changes().size() == changes.size();
    };
    const Duration hot_length = length_of(hot_);
    const Duration cool_length = length_of(cool);
    const Power cool_duty = cool.vapour() * parameters_.latent_heat;
    // With no uncondensed loss the level is reached sooner, and with the largest loss it is reached
    // later.
    const double caught = 1.0 - hot_.values().uncondensed_loss;
    const Duration all_condensed = hot_length * caught;
    const Duration slow_length = cool_length / caught;
    const Duration lateness = longest_lateness(parameters_);
    const auto holds = [&](HeatTransfer film) {
      const CoolantVessel small = cold_side_.small_vessel(film);
      const CoolantVessel large = cold_side_.large_vessel(film);
      const CoolantVessel hot = cold_side_.warmed_by_distillate(small, hot_.vapour());
      const CoolantVessel slow = cold_side_.warmed_by_distillate(small, cool.vapour());
      const CoolantRun at_hottest(hot, hot_duty(), hot_length, thin);
      const CoolantRun at_slowest(slow, cool_duty, slow_length, thin);
      const Temperature late = std::max(at_hottest.temperature_at(hot_length + lateness),
                                        at_slowest.temperature_at(slow_length + lateness));
      return as_many(at_hottest) && as_many(at_slowest) && condenses(late) &&
             as_many(CoolantRun(large, cool_duty, cool_length, as_planned)) &&
             as_many(CoolantRun(large, hot_duty(), all_condensed, as_planned));
    };
    return holds(least_of(defaults_.bath_loss)) && holds(most_of(defaults_.bath_loss));
  }

  void vessel() {
    const CoolantVessel& vessel = cold_side_.vessel();
    const auto [losing, gaining] = hot_vessels();
    const CoolantRun loses = left_alone(losing);
    const CoolantRun gains = left_alone(gaining);
    const Duration length = length_of(nominal_);
    CoolantRun run(vessel, result_.plan.duty, length);
    Temperature late =
        std::max(warmest_when_late(losing, loses), warmest_when_late(gaining, gains));
    Duration beyond;
    if (!condenses(late)) {
      // The last piece of ice may be larger, by what a late person needs in the upper-bound heater
      // case.
      const Power most =
          hot_.vapour() * condensing_heat(parameters_.boiling, celsius(0.01)).total();
      const Duration longer = longest_lateness(parameters_) * double(most / result_.plan.duty);
      const CoolantRun more(vessel, result_.plan.duty, length, longer);
      if (last_ice_lasts(more.changes())) {
        run = more;
        beyond = longer;
        late = limit_;
      }
    }
    if (loses.limit_reached()) check_pace(run.changes(), losing);

    // A hot heater warms the coolant sooner, and ice still goes in at the limit. After the stop
    // nobody is there to put it in.
    const Temperature warmest = std::min(std::max(loses.warmest(), gains.warmest()), limit_);
    const auto limit_reached = earlier(loses.limit_reached(), gains.limit_reached());
    if (limit_reached && !run.limit_reached()) {
      const Duration at = hot_.first_drop() + *limit_reached;
      add(
          Level::caution, "coolant-warm-if-hot",
          [&] {
            return fmt::format(
                "With a strong heater the coolant is at its limit of {} after {}: watch its "
                "thermometer and stop there, or have some ice at hand.",
                text(limit_), text(at));
          },
          Amount{in_minutes(at), "min"});
    }
    check_surface(warmest, cold_side_.condensing_in_vessel(hot_.vapour(), u_least_, warmest),
                  cold_side_.surface_in_vessel(nominal_.vapour(), u_, warmest), warmest);
    check_late(late);
    if (run.limit_reached() && run.changes().empty()) too_warm(run);
    describe(vessel, beyond, std::move(run));
  }

  // Describes the nominal run with all its ice. `without` is the same run without the ice before
  // the stop.
  void describe(const CoolantVessel& vessel, Duration beyond, CoolantRun without) {
    const Duration length = length_of(nominal_);
    const IceChange planned{length - ice_before_stop_.at, ice_before_stop_.ice};
    CoolantRun run = planned.ice < least_ice
                         ? std::move(without)
                         : CoolantRun(vessel, result_.plan.duty, length, beyond, planned);
    CoolingPlan& plan = result_.plan;
    plan.reservoir_end = run.end();
    if (const auto reached = run.limit_reached()) {
      plan.reservoir_limit = nominal_.first_drop() + *reached;
    }
    if (vessel.first_ice > grams(0)) plan.first_ice = vessel.first_ice;
    if (run.ice() > grams(0)) plan.ice = run.ice();
    result_.coldest = std::min(result_.coldest, run.temperature_at(seconds(0)));
    for (const IceChange& change : run.changes()) {
      plan.ice_changes.push_back({nominal_.first_drop() + change.at, change.ice});
      result_.coldest =
          std::min(result_.coldest, cold_side_.chilled(run.temperature_at(change.at - seconds(1)),
                                                       run.temperature_at(change.at + seconds(1))));
    }
    if (detail_ == Detail::full) plan.ice_ready = ice_ready(vessel, run);
    result_.vessel = std::move(run);
    result_.rule = CoolingRule{beyond, ice_before_stop_};
  }

  // Enough ice for any heater. Either the strongest takes most, or the weakest, because the room
  // warms its coolant for longest. A person who has ice puts in a whole piece, because they don't
  // know that it is the last one.
  std::optional<Mass> ice_ready(const CoolantVessel& vessel, const CoolantRun& planned) const {
    const Units units = parameters_.recipe.units;
    const Mass at_first = ice_up(vessel.first_ice, units);
    const Mass before_stop = ice_up(ice_before_stop_.ice, units);
    Mass most;
    if (vessel.ice_per_change >= least_ice) {
      std::vector<Mass> pieces;
      Mass largest;
      const bool before = ice_before_stop_.ice >= least_ice;
      const Duration then = length_of(nominal_) - ice_before_stop_.at;
      for (const IceChange& change : planned.changes()) {
        if (before && change.at == then) continue;  // counted separately
        pieces.push_back(change.ice);
        largest = std::max(largest, change.ice);
      }
      // Where the nominal run never reaches the limit, a hotter one gets the still's usual piece.
      if (largest < least_ice) largest = std::min(vessel.ice_per_change, vessel.filling);
      pieces.resize(most_ice_changes, largest);
      const auto takes = [&](const CoolantVessel& hot_or_cool, const Run& run, Duration length) {
        const Power duty = run.vapour() * parameters_.latent_heat;
        const CoolantRun coolant(hot_or_cool, duty, length, pieces);
        Mass sum;
        for (const IceChange& change : coolant.changes()) sum += ice_up(change.ice, units);
        most = std::max(most, sum);
      };
      const Run cool(lower_heater_values(parameters_, loading_.charge, loading_.first_fill));
      const double caught = 1.0 - hot_.values().uncondensed_loss;
      for (const HeatTransfer film :
           {least_of(defaults_.bath_loss), most_of(defaults_.bath_loss)}) {
        // A small bath gets pieces in proportion to its size, or pieces as large as it has room
        // for. With the large pieces, the last one may turn out not to be needed.
        CoolantVessel brimful = cold_side_.small_vessel(film);
        brimful.ice_per_change = std::min(vessel.ice_per_change, brimful.filling);
        for (const CoolantVessel& one :
             {cold_side_.small_vessel(film), brimful, cold_side_.large_vessel(film)}) {
          takes(cold_side_.warmed_by_distillate(one, hot_.vapour()), hot_, length_of(hot_));
          if (cool.failure()) continue;
          const Duration slow = std::min(length_of(cool) / caught, longest_looked_at);
          takes(cold_side_.warmed_by_distillate(one, cool.vapour()), cool, slow);
        }
      }
    }
    const Mass all = at_first + most + before_stop;
    if (all <= Mass()) return std::nullopt;
    return planned.ice() > Mass() ? std::max(all, ice_to_have(result_.plan, units)) : all;
  }

  // `planned` are the changes of the nominal run; `hot` is the vessel with the strongest heater.
  void check_pace(const std::vector<IceChange>& planned, const CoolantVessel& hot) {
    const auto apart = [](const std::vector<IceChange>& changes) {
      return changes.size() > 1 ? changes[1].at - changes[0].at : hours(24);
    };
    const CoolantRun strongest(hot, hot_duty(), length_of(hot_));
    const Duration at_worst = std::min(apart(strongest.changes()), apart(planned));
    if (at_worst >= busy) return;
    add(
        apart(planned) < hopeless ? Level::refuse : Level::caution, "ice-often",
        [&] {
          return fmt::format(
              "With the heater at its strongest the coolant needs new ice every {:.1f} min, {} "
              "times: more than one person can keep up with. Use a larger bath, more ice at a "
              "time, or less heat.",
              in_minutes(at_worst), std::max(strongest.changes().size(), planned.size()));
        },
        Amount{in_minutes(at_worst), "min"}, Amount{in_minutes(busy), "min"});
  }

  void too_warm(const CoolantRun& run) {
    const Duration reached = *run.limit_reached();
    const Duration length = length_of(nominal_);
    const Volume filling = condenser_.coolant->typical();
    result_.ends = nominal_.first_drop() + reached;
    add(
        Level::refuse, "coolant-too-warm",
        [&] {
          return fmt::format(
              "{} of coolant is at its limit of {} after {}, with {} of hydrosol collected.",
              text(filling), text(limit_), text(*result_.ends),
              text(neat_down(nominal_.hydrosol_at(*result_.ends))));
        },
        Amount{in_minutes(*result_.ends), "min"},
        Amount{in_minutes(nominal_.first_drop() + length), "min"});
  }

  void run_through() {
    CoolingPlan& plan = result_.plan;
    plan.flow = cold_side_.flow(nominal_.vapour());
    plan.flow_most = cold_side_.most_flow(hot_.vapour());
    result_.rule = CoolingRule{};
    plan.coolant_used = *plan.flow * length_of(nominal_);
    check_surface(limit_, cold_side_.most_surface_in_flow(hot_.vapour(), u_least_),
                  cold_side_.surface_in_flow(nominal_.vapour(), u_), parameters_.coolant);
    const VolumeFlow most = least_of(*condenser_.flow_limit);
    if (*plan.flow_most > most) {
      add(
          Level::refuse, "coolant-short",
          [&] {
            return fmt::format(
                "With the heater at its strongest the condenser needs {} of coolant, but "
                "gets at most {}.",
                text(*plan.flow_most), text(most));
          },
          Amount{in_litres_per_minute(*plan.flow_most), "L/min"},
          Amount{in_litres_per_minute(most), "L/min"});
    }
  }

  // `at_outlet` is the temperature of the coolant where the distillate leaves.
  void check_surface(Temperature warmest, Area worst, const Surface& nominal,
                     Temperature at_outlet) {
    const Area has = least_of(condenser_.surface);
    result_.plan.surface_needed = nominal.total();
    if (nominal.total() <= has) result_.plan.distillate = cold_side_.outlet_above(at_outlet);
    if (worst > has) {
      add(
          Level::refuse, "steam-escapes",
          [&] {
            return fmt::format(
                "With the heater at its strongest and coolant at {}, condensing all steam "
                "takes {} of "
                "surface and the condenser has {}: steam would come into the room.",
                text(warmest), text(worst), text(has));
          },
          Amount{in_square_metres(worst), "m²"}, Amount{in_square_metres(has), "m²"});
    } else if (nominal.total() > has || cold_side_.outlet_above(at_outlet) > cold_side_.outlet()) {
      add(
          Level::caution, "distillate-warm",
          [&] {
            return fmt::format(
                "All steam condenses, but with coolant at {} the distillate leaves warmer "
                "than {}: oil is lost with its vapour. Use colder coolant or less heat.",
                text(warmest), text(cold_side_.outlet()));
          },
          Amount{in_square_metres(nominal.total()), "m²"}, Amount{in_square_metres(has), "m²"});
    }
  }

  bool condenses(Temperature coolant) const {
    return coolant + least_difference < parameters_.boiling &&
           cold_side_.condensing_in_vessel(hot_.vapour(), u_least_, coolant) <=
               least_of(condenser_.surface);
  }

  // Checks that steam still condenses when the person comes late in the upper-bound heater case,
  // with fresh ice shortly before the stop if that is needed.
  void check_late(Temperature coolant) {
    const auto& said = result_.findings;
    const auto escapes = [](const Finding& f) { return f.code == "steam-escapes"; };
    if (condenses(coolant) || std::any_of(said.begin(), said.end(), escapes)) return;
    const Duration absence = parameters_.recipe.limits.absence;
    const Duration before = std::min(ice_before_stop, length_of(nominal_));
    Temperature late = celsius(0);
    bool ice_to_be_had = true;
    for (CoolantVessel iced : hot_vessels()) {
      iced.start = limit_;
      iced.first_ice = std::min(iced.ice_per_change, iced.filling);
      ice_to_be_had = iced.first_ice >= least_ice;
      iced.ice_per_change = grams(0);
      late = std::max(late,
                      CoolantRun(iced, hot_duty(), before + longest_lateness(parameters_)).end());
    }
    if (ice_to_be_had && condenses(late)) {
      const CoolantVessel& vessel = cold_side_.vessel();
      ice_before_stop_ = {before, std::min(vessel.ice_per_change, vessel.filling)};
      add(
          Level::caution, "ice-before-stop",
          [&] {
            return fmt::format(
                "Do not skip the ice before the stop: if you come {} late and the heater is "
                "at its strongest, "
                "the coolant would be at {} without it, and steam would come into the room.",
                text(absence), text(std::min(coolant, parameters_.boiling)));
          },
          Amount{in_celsius(std::min(coolant, parameters_.boiling)), "°C"},
          Amount{in_celsius(limit_), "°C"});
      return;
    }
    const Temperature then = std::min(ice_to_be_had ? late : coolant, parameters_.boiling);
    add(
        Level::refuse, "coolant-when-late",
        [&] {
          return fmt::format(
              "If you come {} late to the stop and the heater is at its strongest, the "
              "coolant is at {} and "
              "no longer condenses all steam: it would come into the room.",
              text(absence), text(then));
        },
        Amount{in_celsius(then), "°C"}, Amount{in_celsius(limit_), "°C"});
  }

  Detail detail_;
  const ModelParameters& parameters_;
  const DesignDefaults& defaults_;
  ColdSide cold_side_;
  const Condenser& condenser_;
  const Run& nominal_;
  const Run& hot_;
  Loading loading_;
  Stop stop_;
  HeatTransfer u_;
  HeatTransfer u_least_;
  Temperature limit_;
  IceChange ice_before_stop_;  ///< `at` counts back from the stop
  Cooling result_;
};

}  // namespace

Mass ice_to_have(const CoolingPlan& plan, Units units) {
  Mass pieces = ice_up(plan.first_ice.value_or(Mass()), units);
  for (const IceChange& change : plan.ice_changes) pieces += ice_up(change.ice, units);
  return std::max(pieces, ice_up(*plan.ice, units));
}

Cooling plan_cooling(const ModelParameters& parameters, const DesignDefaults& defaults,
                     const Run& nominal, const Run& hot, const Loading& loading, const Stop& stop,
                     Detail detail) {
  return CoolingPlanner(parameters, defaults, nominal, hot, loading, stop, detail).make();
}

}  // namespace firstdrop
