#include "cooling.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "cold_side.hpp"
#include "firstdrop/water.hpp"
#include "numbers_text.hpp"

namespace firstdrop {
namespace {

// Changing ice more often than this is no run one can keep up (common practice, no source).
constexpr Duration busy = minutes(5);
constexpr Duration hopeless = minutes(2);
// Before the stop, time to put ice in (common practice).
constexpr Duration shortly = minutes(5);
// Coolant this close to boiling condenses nothing worth counting on.
constexpr TemperatureDifference least_difference = kelvins(1);

class CoolingPlanner {
 public:
  CoolingPlanner(const Inputs& inputs, const Practice& practice, const Run& typical, const Run& hot,
                 const Stop& stop)
      : inputs_(inputs),
        cold_side_(inputs, practice),
        condenser_(inputs.recipe.still.condenser),
        typical_(typical),
        hot_(hot),
        stop_(stop),
        u_(inputs.condensing.range.typical),
        u_least_(std::max(inputs.condensing.range.least(), inputs.condensing.range.low * 0.5)),
        limit_(cold_side_.limit()),
        heat_(cold_side_.heat()) {}

  Cooling make() {
    result_.plan.duty = typical_.vapour() * heat_;
    result_.coldest = inputs_.coolant;
    if (inputs_.coolant >= limit_) {
      add(Level::refuse, "coolant-starts-warm",
          fmt::format("The coolant starts at {}, but may be no warmer than {}. Start with colder "
                      "water.",
                      text(inputs_.coolant), text(limit_)),
          Amount{in_celsius(inputs_.coolant), "°C"}, Amount{in_celsius(limit_), "°C"});
    } else if (limit_ + least_difference >= inputs_.boiling) {
      add(Level::refuse, "coolant-limit-high",
          fmt::format(
              "The coolant may be as warm as {} by the still's coolant_limit, but water boils "
              "at {} here: it would condense nothing. Lower the limit.",
              text(limit_), text(inputs_.boiling)),
          Amount{in_celsius(limit_), "°C"}, Amount{in_celsius(inputs_.boiling), "°C"});
    } else if (condenser_.kind == CondenserKind::run_through) {
      run_through();
    } else {
      vessel();
    }
    return std::move(result_);
  }

 private:
  void add(Level level, std::string code, std::string words, Amount value, Amount limit) {
    result_.findings.push_back(
        {std::move(code), level, std::move(words), std::move(value), std::move(limit)});
  }

  Duration length_of(const Run& run) const {
    return std::max(stop_time(run, stop_) - run.first_drop(), seconds(0));
  }

  void vessel() {
    const CoolantVessel vessel = cold_side_.vessel();
    // The last ice need only last to the stop, unless a hot plate and a late person need more of
    // it.
    const Duration absence = inputs_.recipe.limits.absence;
    const Duration hot_length = length_of(hot_);
    const CoolantRun bare(vessel, hot_.vapour() * heat_, hot_length);
    const bool lasts = condenses(bare.temperature_at(hot_length + absence));
    const Duration beyond = lasts ? seconds(0) : absence;
    const CoolantRun run(vessel, result_.plan.duty, length_of(typical_), beyond);
    CoolingPlan& plan = result_.plan;
    plan.reservoir_end = run.end();
    if (const auto reached = run.limit_reached()) {
      plan.reservoir_limit = typical_.first_drop() + *reached;
    }
    if (vessel.first_ice > grams(0)) plan.first_ice = vessel.first_ice;
    if (run.ice() > grams(0)) plan.ice = run.ice();
    result_.coldest = std::min(result_.coldest, run.temperature_at(seconds(0)));
    for (const IceChange& change : run.changes()) {
      plan.ice_changes.push_back({typical_.first_drop() + change.at, change.ice});
      result_.coldest = std::min(result_.coldest, run.temperature_at(change.at + seconds(1)));
    }
    if (run.changes().size() > 1) check_pace(run.changes());

    // A hot plate warms the coolant sooner; ice still goes in at the limit. After the stop nobody
    // is there to do it.
    const CoolantRun hot_run(vessel, hot_.vapour() * heat_, hot_length, beyond);
    const Temperature warmest = std::min(hot_run.warmest(), limit_);
    if (hot_run.warmest() > limit_ && !run.limit_reached()) {
      const Duration at = hot_.first_drop() + *hot_run.limit_reached();
      add(Level::caution, "coolant-warm-if-hot",
          fmt::format("With a strong heater the coolant is at its limit of {} after {}: watch its "
                      "thermometer and stop there, or have some ice at hand.",
                      text(limit_), text(at)),
          Amount{in_minutes(at), "min"}, Amount{in_celsius(limit_), "°C"});
    }
    check_surface(warmest, cold_side_.surface_in_vessel(hot_.vapour(), u_least_, warmest),
                  cold_side_.surface_in_vessel(typical_.vapour(), u_, warmest), warmest);
    check_late(vessel, hot_run.temperature_at(hot_length + absence));

    if (run.limit_reached() && run.changes().empty()) too_warm(run);
    result_.vessel = run;
    const Mass ice_to_end = plan.ice.value_or(grams(0)) - run.ice();
    result_.rule = CoolingRule{beyond, ice_to_end};
  }

  void check_pace(const std::vector<IceChange>& changes) {
    const Duration apart = changes[1].at - changes[0].at;
    if (apart >= busy) return;
    add(apart < hopeless ? Level::refuse : Level::caution, "ice-often",
        fmt::format(
            "The coolant needs new ice every {:.1f} min, {} times: more than one can keep up "
            "with. Use a larger bath, more ice at a time, or less heat.",
            in_minutes(apart), changes.size()),
        Amount{in_minutes(apart), "min"}, Amount{in_minutes(busy), "min"});
  }

  void too_warm(const CoolantRun& run) {
    const Duration reached = *run.limit_reached();
    const Duration length = length_of(typical_);
    const Volume filling = condenser_.coolant->typical();
    result_.ends = typical_.first_drop() + reached;
    const SpecificHeat cp = mean_liquid_specific_heat(celsius(1), limit_);
    const Energy excess = result_.plan.duty * (length - reached);
    const Mass ice = excess / (ice_melting_heat + cp * (limit_ - celsius(0)));
    add(Level::refuse, "coolant-too-warm",
        fmt::format("{} of coolant is at its limit of {} after {}, with {} of hydrosol collected. "
                    "Have {} of ice for it (give the still an ice_per_change), take about {} of "
                    "coolant, or lower the goal.",
                    text(filling), text(limit_), text(*result_.ends),
                    text(neat_down(typical_.hydrosol_at(*result_.ends))), text(neat_up(ice)),
                    text(neat_up(filling * (length / reached)))),
        Amount{in_minutes(*result_.ends), "min"},
        Amount{in_minutes(typical_.first_drop() + length), "min"});
  }

  void run_through() {
    CoolingPlan& plan = result_.plan;
    plan.flow = cold_side_.flow(typical_.vapour());
    plan.flow_hot = cold_side_.flow(hot_.vapour());
    result_.rule = CoolingRule{};
    plan.coolant_used = *plan.flow * length_of(typical_);
    check_surface(limit_, cold_side_.surface_in_flow(hot_.vapour(), u_least_),
                  cold_side_.surface_in_flow(typical_.vapour(), u_), inputs_.coolant);
    const VolumeFlow most = condenser_.flow_limit->typical();
    if (*plan.flow_hot > most) {
      add(Level::refuse, "coolant-short",
          fmt::format("With the heater at its strongest the condenser needs {} of coolant, but "
                      "gets at most {}. "
                      "{}Use colder coolant or a wider hose.",
                      text(*plan.flow_hot), text(most), lower_setting(most / *plan.flow_hot)),
          Amount{in_litres_per_minute(*plan.flow_hot), "L/min"},
          Amount{in_litres_per_minute(most), "L/min"});
    }
  }

  // "Use a setting below 60 %. ", or nothing when that would be no run.
  std::string lower_setting(double share) const {
    const double percent = std::floor(in_percent(inputs_.recipe.setting) * share);
    return percent < 10.0 ? "" : fmt::format("Use a setting below {:.0f} %. ", percent);
  }

  // `at_outlet` is the coolant where the distillate leaves.
  void check_surface(Temperature warmest, const Surface& worst, const Surface& typical,
                     Temperature at_outlet) {
    const Area has = condenser_.surface.typical();
    result_.plan.surface_needed = typical.total();
    if (typical.total() <= has) result_.plan.distillate = cold_side_.outlet_above(at_outlet);
    if (worst.condensing > has) {
      add(Level::refuse, "steam-escapes",
          fmt::format("With the heater at its strongest and coolant at {}, condensing all steam "
                      "takes {} of "
                      "surface and the condenser has {}: steam would come into the room. {}Use "
                      "colder coolant or a larger condenser.",
                      text(warmest), text(worst.condensing), text(has),
                      lower_setting(has / worst.condensing)),
          Amount{in_square_metres(worst.condensing), "m²"}, Amount{in_square_metres(has), "m²"});
    } else if (typical.total() > has || cold_side_.outlet_above(at_outlet) > cold_side_.outlet()) {
      add(Level::caution, "distillate-warm",
          fmt::format("All steam condenses, but with coolant at {} the distillate leaves warmer "
                      "than {}: oil is lost with its vapour. Use colder coolant or less heat.",
                      text(warmest), text(cold_side_.outlet())),
          Amount{in_square_metres(typical.total()), "m²"}, Amount{in_square_metres(has), "m²"});
    }
  }

  bool condenses(Temperature coolant) const {
    return coolant + least_difference < inputs_.boiling &&
           cold_side_.surface_in_vessel(hot_.vapour(), u_least_, coolant).condensing <=
               condenser_.surface.typical();
  }

  // Whether steam still condenses when the person comes late at the hottest plate, with fresh ice
  // shortly before the stop if it takes that.
  void check_late(const CoolantVessel& vessel, Temperature coolant) {
    const auto& said = result_.findings;
    const auto escapes = [](const Finding& f) { return f.code == "steam-escapes"; };
    if (condenses(coolant) || std::any_of(said.begin(), said.end(), escapes)) return;
    const Duration absence = inputs_.recipe.limits.absence;
    const Duration before = std::min(shortly, length_of(typical_));
    CoolantVessel iced = vessel;
    iced.start = limit_;
    iced.first_ice = std::min(vessel.ice_per_change, vessel.filling);
    iced.ice_per_change = grams(0);
    const CoolantRun late(iced, hot_.vapour() * heat_, before + absence);
    const bool ice_to_be_had = iced.first_ice >= least_ice;
    if (ice_to_be_had && condenses(late.end())) {
      CoolingPlan& plan = result_.plan;
      const IceChange last{stop_time(typical_, stop_) - before, iced.first_ice};
      const auto later = [&](const IceChange& change) { return change.at > last.at; };
      plan.ice_changes.insert(std::find_if(plan.ice_changes.begin(), plan.ice_changes.end(), later),
                              last);
      plan.ice = plan.ice.value_or(grams(0)) + iced.first_ice;
      add(Level::caution, "ice-before-stop",
          fmt::format("Do not skip the ice before the stop: if you come {} late and the heater is "
                      "at its strongest, "
                      "the coolant would be at {} without it, and steam would come into the room.",
                      text(absence), text(std::min(coolant, inputs_.boiling))),
          Amount{in_celsius(std::min(coolant, inputs_.boiling)), "°C"},
          Amount{in_celsius(limit_), "°C"});
      return;
    }
    const Temperature then = std::min(ice_to_be_had ? late.end() : coolant, inputs_.boiling);
    add(Level::refuse, "coolant-when-late",
        fmt::format("If you come {} late to the stop and the heater is at its strongest, the "
                    "coolant is at {} and "
                    "no longer condenses all steam: it would come into the room. Shorten "
                    "limits.absence, have more coolant, or a larger condenser.",
                    text(absence), text(then)),
        Amount{in_celsius(then), "°C"}, Amount{in_celsius(limit_), "°C"});
  }

  const Inputs& inputs_;
  ColdSide cold_side_;
  const Condenser& condenser_;
  const Run& typical_;
  const Run& hot_;
  Stop stop_;
  HeatTransfer u_;
  HeatTransfer u_least_;
  Temperature limit_;
  SpecificEnergy heat_;
  Cooling result_;
};

}  // namespace

Cooling plan_cooling(const Inputs& inputs, const Practice& practice, const Run& typical,
                     const Run& hot, const Stop& stop) {
  return CoolingPlanner(inputs, practice, typical, hot, stop).make();
}

}  // namespace firstdrop
