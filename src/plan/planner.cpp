#include "firstdrop/plan/planner.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <utility>

#include "base/root.hpp"
#include "model/model_parameters.hpp"
#include "model/parameter_sources.hpp"
#include "model/parameters_at.hpp"
#include "model/sampling.hpp"
#include "model/water_budget.hpp"
#include "model/worst_case.hpp"
#include "physics/basis.hpp"
#include "physics/charge.hpp"
#include "physics/water.hpp"
#include "plan/cautions.hpp"
#include "plan/cooling.hpp"
#include "plan/make_finding.hpp"
#include "quantity/numbers_text.hpp"

namespace firstdrop {
namespace {

// More runs than this are a campaign, not a batch (common practice, no source).
constexpr int most_runs = 24;
// A remainder smaller than this share of what one run holds isn't worth heating the still for
// (common practice, no source).
constexpr Fraction no_run_of_its_own = percent(20);
// Less hydrosol than this isn't worth the heat, and nobody can watch a longer run (common
// practice).
constexpr Volume least_run = millilitres(50);
constexpr Duration longest_run = hours(24);
// Releasing all of the oil would take infinite time. A stop that is aimed high leaves at least this
// share.
constexpr double least_left = 1e-9;

// Enough to tell which of two levels is better.
constexpr Sampling rough_sampling = 256;

// Keeps the order within a level. Insertion needs no memory, and there are few findings.
void worst_first(std::vector<Finding>& findings) {
  const auto heavier = [](const Finding& a, const Finding& b) { return a.level > b.level; };
  for (auto next = findings.begin(); next != findings.end(); ++next) {
    std::rotate(std::upper_bound(findings.begin(), next, *next, heavier), next, next + 1);
  }
}

// What to do with a harvest that is slightly more than some full runs hold.
enum class Sharing {
  full_runs,  // the remainder is left over
  evenly,     // split it evenly over one more run
};

class Planner {
 public:
  /// Keeps references. The run is sized for `aim` times the oil wanted. For a goal that is a share
  /// of the oil, it is sized for `aim` times the steam.
  Planner(const ModelParameters& parameters, const Tables& tables, const Sampling& sampling,
          Sharing sharing, double aim = 1.0, Detail detail = Detail::brief)
      : recipe_(parameters.recipe),
        still_(parameters.recipe.still),
        tables_(tables),
        defaults_(tables.design_defaults),
        parameters_(parameters),
        water_(parameters, tables.design_defaults),
        at_medians_(parameters, SamplePoint::medians()),
        sampling_(sampling),
        sharing_(sharing),
        aim_(aim),
        detail_(detail) {}

  /// Makes the plan, without its `recipe`.
  Plan make() {
    plan_.ambient = parameters_.ambient;
    plan_.boiling = parameters_.boiling;
    plan_.latent_heat = parameters_.latent_heat;
    if (!brief()) {
      plan_.sources = sources_of(parameters_, tables_);
      plan_.defaults_used = parameters_.selected->defaults_used;
    }
    if (settle()) describe_run();
    if (plan_.run && recipe_.confidence) check_confidence();
    describe_charge();
    add_cautions(plan_, parameters_, tables_, coldest_coolant_, detail_);
    plan_.source_count = counted(plan_.sources, tables_.sources);
    worst_first(plan_.findings);
    const Level worst = plan_.findings.empty() ? Level::note : plan_.findings.front().level;
    plan_.verdict = worst == Level::refuse    ? Verdict::refused
                    : worst == Level::caution ? Verdict::caution
                                              : Verdict::go;
    return std::move(plan_);
  }

  /// The chance of meeting the goal with this plan; none when the run can't be made as settled.
  std::optional<GoalOdds> odds(Fraction often) {
    if (!settle() || !goal_.any()) return std::nullopt;
    const Run run = nominal_run(charge_, fill_);
    const Duration stop = stop_time(run, stop_);
    if (stop > longest_run || stop <= run.first_drop()) return std::nullopt;
    const Cooling cooling = plan_cooling(parameters_, defaults_, run, upper_heater_run(),
                                         {charge_, fill_}, stop_, detail_);
    const auto refuses = [](const Finding& finding) { return finding.level == Level::refuse; };
    if (std::any_of(cooling.findings.begin(), cooling.findings.end(), refuses)) return std::nullopt;
    return goal_odds(parameters_, decision(), goal_, often, enough_samples(sampling_));
  }

 private:
  bool settle() { return settle_charge() && heater_is_enough() && settle_stop() && settle_fill(); }

  bool brief() const { return detail_ == Detail::brief; }

  Decision decision() const { return {charge_, fill_, water_.reserve(charge_, fill_), stop_}; }

  // The upper-bound heater case for the condenser. The worst case for the pot's water has more
  // heat.
  Run upper_heater_run() const { return Run(upper_heater_values(parameters_, charge_, fill_)); }

  bool refuse(FindingCode code, std::string text, std::optional<Amount> value = {},
              std::optional<Amount> limit = {}) {
    plan_.findings.push_back({std::string(code.text()), Level::refuse, std::move(text),
                              std::move(value), std::move(limit)});
    return false;
  }
  // `words` is the text, or a function that makes it.
  template <class Words>
  void caution(FindingCode code, const Words& words, const std::optional<Amount>& value = {},
               const std::optional<Amount>& limit = {}) {
    plan_.findings.push_back(
        finding_with_words(detail_, Level::caution, code, words, value, limit));
  }

  // In the units of the recipe.
  template <class Quantity>
  std::string text(Quantity quantity) const {
    return firstdrop::text(quantity, recipe_.units);
  }
  template <class Quantity>
  Quantity neat_down(Quantity quantity) const {
    return firstdrop::neat_down(quantity, recipe_.units);
  }
  template <class Quantity>
  Quantity neat_up(Quantity quantity) const {
    return firstdrop::neat_up(quantity, recipe_.units);
  }

  bool hydro() const { return recipe_.method_used() == Method::hydro; }
  Volume as_volume(Mass water) const { return water_.as_volume(water); }
  Mass as_mass(Volume water) const { return water_.as_mass(water); }
  // At the temperature at which it is poured in.
  Mass poured_mass(Volume water) const { return water_.poured_mass(water); }
  Volume poured_volume(Mass water) const { return water_.poured_volume(water); }
  Duration absence() const { return recipe_.limits.absence; }
  // How long the pot may keep boiling after the planned stop.
  Duration lateness() const { return longest_lateness(parameters_); }
  std::optional<Mass> least_fill(Mass charge, const Stop& stop) const {
    return water_.least_fill(charge, stop, lateness());
  }
  Volume most_hydrosol(Mass charge, Mass fill) const {
    return water_.most_hydrosol(charge, fill, recipe_.limits.time, lateness());
  }
  bool just_harvest() const { return std::holds_alternative<HarvestGoal>(recipe_.goal); }

  // The nominal run of a charge is cached, because searches ask for it with many different fills.
  Run nominal_run(Mass charge, Mass fill) const {
    if (!nominal_ || nominal_charge_ != charge) {
      nominal_charge_ = charge;
      nominal_.emplace(at_medians_.of(charge, fill));
    }
    Run run = *nominal_;
    run.refill(fill);  // with no filling error
    return run;
  }

  // With the weakest heater and the highest heat loss.
  RunValues weakest_values(Mass fill) const {
    ParametersAt values = at_medians_;
    values.move_heat(SamplePoint::medians().set(Parameter::heater, 0).set(Parameter::heat_loss, 1));
    return values.of(charge_, fill);
  }

  // Hydrosol that the goal asks for from this much charge in all; none where it asks for something
  // else.
  std::optional<Volume> hydrosol_asked(Mass charge) const {
    if (const auto* goal = std::get_if<HydrosolGoal>(&recipe_.goal)) return goal->volume;
    if (const auto* goal = std::get_if<RatioGoal>(&recipe_.goal)) {
      return goal->hydrosol_per_fresh * as_fresh(charge);
    }
    return std::nullopt;
  }

  // --- charge -----------------------------------------------------------------------------------

  // The largest charge for one run. With the charge in the water, the space for herb isn't the only
  // limit: enough water must fit beside it for a run worth heating, with the worst case above its
  // reserve.
  Mass most_charge() const {
    const Mass by_room = charge_capacity(parameters_, defaults_, SamplePoint::medians());
    if (!hydro()) return by_room;
    return largest(grams(0), by_room, [&](Mass charge) {
      const Mass fill = poured_mass(water_.room(charge));
      const Run run = nominal_run(charge, fill);
      if (run.failure()) return fill.si();  // heater_is_enough() reports it
      Volume worth = std::min(charge * parameters_.selected->customary_hydrosol.typical(),
                              run.hydrosol_at(default_end(run, charge)));
      if (const auto asked = hydrosol_asked(charge)) worth = std::min(worth, *asked);
      return water_.worst_margin(charge, fill, Stop{worth, recipe_.limits.time}, lateness()).si();
    });
  }

  bool settle_charge() {
    const Mass fits = most_charge();
    if (fits < grams(0.1)) {
      return refuse(
          "no-water-to-spare",
          fmt::format("Coming {} late boils off more water than this pot can spare, whatever the "
                      "charge.",
                      text(absence())));
    }
    if (recipe_.charge) {
      runs_ = runs_needed(*recipe_.charge, fits);
      charge_ = *recipe_.charge / runs_;
      fill_runs(*recipe_.charge, fits);
      if (runs_ > most_runs) {
        charge_ = neat_down(fits);
        return refuse(
            "charge-too-large",
            fmt::format(
                "{}{} would take {} runs: one run holds {}. No more than {} runs are planned "
                "at a time.",
                other_unit(*recipe_.charge, fits, recipe_.units), text(*recipe_.charge), runs_,
                text(charge_), most_runs),
            Amount{double(runs_), "runs"}, Amount{double(most_runs), "runs"});
      }
      return true;
    }
    charge_ = neat_down(fits);
    if (charge_ <= grams(0)) {
      return refuse("charge-too-large",
                    fmt::format("The still has room for only {} of this material.", text(fits)));
    }
    if (const auto* goal = std::get_if<OilGoal>(&recipe_.goal)) return size_charge_for(*goal);
    return true;
  }

  // Makes one run less, each as full as possible, if the remainder is too little for a run of its
  // own.
  void fill_runs(Mass harvest, Mass fits) {
    const Mass full = neat_down(fits);
    const Mass rest = harvest - full * double(runs_ - 1);
    if (sharing_ == Sharing::evenly || runs_ == 1 || rest > full * no_run_of_its_own) return;
    --runs_;
    charge_ = full;
    rest_ = rest;
  }

  Mass oil_mass(const OilGoal& goal) const {
    if (const auto* mass = std::get_if<Mass>(&goal.amount)) return *mass;
    return std::get<Volume>(goal.amount) * parameters_.selected->oil_density.typical();
  }

  // Oil that separates in the receiver of a full run made for oil.
  Mass oil_of_full_run(Mass charge) const {
    const Run run = nominal_run(charge, poured_mass(water_.room(charge)));
    return run.failure() ? grams(0) : run.oil_in_receiver_at(end_for_oil(run));
  }

  // When a run made for oil ends: hardly any more oil comes over, or the hydrosol begins to
  // dissolve what has separated.
  Duration end_for_oil(const Run& run) const {
    return std::min(time_of_low_gain(run, defaults_.oil_gain.typical()), time_of_most_oil(run));
  }

  // When a run with no other goal ends: the oil still in the charge isn't worth more water and
  // time. But not before there is enough hydrosol to be worth a run.
  Duration default_end(const Run& run, Mass charge) const {
    const Volume customary = charge * parameters_.selected->customary_hydrosol.typical();
    const Rate allowance =
        defaults_.oil_left_per_hydrosol.typical() * (run.distillate_rate() / customary) +
        defaults_.oil_left_per_hour.typical() / hours(1);
    return std::max(time_of_balance(run, allowance), run.time_of_hydrosol(least_run));
  }

  // The same herb as freshly cut.
  Mass as_fresh(Mass charge) const { return charge * parameters_.selected->as_fresh; }

  bool size_charge_for(const OilGoal& goal) {
    const Mass wanted = oil_mass(goal) * aim_;
    const Mass full = oil_of_full_run(charge_);
    if (full <= grams(0)) return true;  // heater_is_enough() or settle_stop() reports it
    const double runs = std::ceil(wanted / full - 1e-9);
    if (runs > most_runs) {
      return refuse(
          "oil-out-of-reach",
          fmt::format("{} of oil would take {:.0f} runs: one full run of {} gives about {}. No "
                      "more than {} runs are planned at a time.",
                      text(wanted), runs, text(charge_), text(full), most_runs),
          Amount{in_grams(wanted), "g"}, Amount{in_grams(full * double(most_runs)), "g"});
    }
    const int fewest = std::max(1, static_cast<int>(runs));
    for (int n = fewest; n <= most_runs && !recipe_.water; ++n) {
      if (share_out(wanted, n)) return true;
    }
    share_out(wanted, fewest);  // settle_stop() or settle_fill() refuses it
    return true;
  }

  // The level in the receiver at which this much oil of this charge has separated; none when it
  // never does.
  std::optional<Volume> level_of_oil(Mass charge, Mass oil) const {
    const Run run = nominal_run(charge, poured_mass(water_.room(charge)));
    if (run.failure()) return std::nullopt;
    const auto reached = time_of_oil(run, oil);
    if (!reached) return std::nullopt;
    const Volume level = run.hydrosol_at(*reached);
    // Past its maximum, the oil in the receiver falls again. Then the level isn't rounded up.
    const bool holds = run.oil_in_receiver_at(run.time_of_hydrosol(neat_up(level))) >= oil;
    return holds ? neat_up(level) : level;
  }

  // The level at which the oil goal is met most often. A high level dissolves the oil that a poor
  // charge would separate. A low level stops a slow charge before its oil has come.
  Volume surest_level(const Run& nominal) const {
    const Mass fill =
        recipe_.water ? poured_mass(*recipe_.water) : poured_mass(water_.room(charge_));
    const Volume crest = nominal.hydrosol_at(time_of_most_oil(nominal));
    Volume surest = neat_up(crest);
    Fraction most;
    for (const double share : {0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.85, 1.0, 1.25, 1.5, 2.0, 3.0}) {
      const Volume level = neat_up(std::max(crest * share, least_run));
      const Stop stop{level, recipe_.limits.time};
      if (water_.worst_margin(charge_, fill, stop, lateness()) < grams(0)) break;
      const Decision decision{charge_, fill, water_.reserve(charge_, fill), stop};
      const Fraction chance =
          goal_odds(parameters_, decision, goal_, *recipe_.confidence, rough_sampling).chance;
      if (chance > most) {
        most = chance;
        surest = level;
      }
    }
    return surest;
  }

  // Splits an oil goal evenly over `runs` runs. Starts with the smallest charge that separates the
  // oil. Larger charges separate it sooner, so it tries them until the pot's water lasts. Returns
  // false when it never does.
  bool share_out(Mass oil, int runs) {
    runs_ = runs;
    const Mass per_run = oil / runs;
    const Mass full = neat_down(most_charge());
    const Mass least = largest(
        grams(0), full, [&](Mass charge) { return (per_run - oil_of_full_run(charge)).si(); });
    constexpr int steps = 16;
    for (int i = 0; i <= steps; ++i) {
      charge_ = std::min(full, neat_up(least + (full - least) * (double(i) / steps)));
      const auto level = level_of_oil(charge_, per_run);
      if (level && least_fill(charge_, Stop{*level, recipe_.limits.time})) return true;
    }
    charge_ = std::min(full, neat_up(least));
    return false;
  }

  void describe_charge() {
    ChargePlan& c = plan_.charge;
    c.mass = charge_;
    c.runs = runs_;
    c.harvest = charge_ * double(runs_);
    c.rest = rest_;
    c.most = most();
    c.least = !brief() && plan_.run && holds_for_less() ? grams(0) : charge_;
    c.as_fresh = as_fresh(charge_);
    c.dry_matter = dry_matter(charge_, parameters_.selected->moisture.typical());
    c.volume =
        hydro() ? water_.pieces(charge_) : charge_ / parameters_.selected->bulk_density.typical();
    const Volume filled = hydro() ? c.volume + poured_volume(fill_) : c.volume;
    c.fill = filled / charge_space(still_, recipe_.method_used());
  }

  // --- heat -------------------------------------------------------------------------------------

  bool heater_is_enough() {
    const Mass fill =
        recipe_.water ? poured_mass(*recipe_.water) : poured_mass(water_.room(charge_));
    const Run nominal = nominal_run(charge_, fill);
    const RunValues& v = nominal.values();
    if (!own_heat_is_possible(v)) return false;
    const TemperatureDifference excess = parameters_.boiling - recipe_.site.room;
    const Power lost = (v.pot_loss + v.column_loss) * excess;
    if (const auto failure = nominal.failure()) {
      const bool pot = *failure == RunFailure::never_boils;
      const Power reaches = std::min(v.heat_warming, v.heat_boiling);
      return refuse(
          pot ? FindingCode("never-boils") : FindingCode("never-at-the-top"),
          fmt::format("{} At {} setting about {} reach the pot, while pot and column "
                      "lose {} at {}. Lagging the still lessens that.",
                      pot ? "The pot never boils." : "Steam never gets to the condenser.",
                      text(recipe_.setting), text(reaches), text(lost), text(parameters_.boiling)),
          Amount{in_watts(reaches), "W"}, Amount{in_watts(lost), "W"});
    }
    if (boiling_of(weakest_values(fill)).failure) {
      caution("heater-weak",
              "If the plate's contact is poor, this heater may not bring steam to the condenser at "
              "all. Use a higher setting, a flat-based pot, or lag the still.");
    }
    return true;
  }

  // Converts the readings taken on the bench to watts, and compares them with what the heater can
  // give and with each other. Returns false for an impossible reading.
  bool own_heat_is_possible(const RunValues& v) {
    if (!measured_heat(parameters_)) return true;
    const Range<Power> by_tables = heat_by_tables(parameters_);
    const Power nameplate = most_of(still_.heater.power) * recipe_.setting;
    const Power cap = nameplate * defaults_.mains.range.high;
    const std::string at_setting =
        recipe_.setting < fraction(1) ? fmt::format(" at {} setting", text(recipe_.setting)) : "";
    struct Reading {
      const char* key;
      Power heat;
    };
    std::vector<Reading> readings;
    if (parameters_.own_boil_time) readings.push_back({"own.boil_time", v.heat_warming});
    if (parameters_.own_rate) readings.push_back({"own.distillate_rate", v.heat_boiling});
    const auto weaker = [](const Reading& a, const Reading& b) { return a.heat < b.heat; };
    const Reading low = *std::min_element(readings.begin(), readings.end(), weaker);
    const Reading high = *std::max_element(readings.begin(), readings.end(), weaker);
    constexpr const char* how =
        "How was it measured: at which setting, with how much water, by which jug and clock? "
        "Write the setting of the reading as own.setting.";
    if (high.heat > cap) {
      return refuse("own-figure-impossible",
                    fmt::format("{} means {} of heat in the pot{}. A heater of {} can't give more "
                                "than {}, even at high mains voltage. {}",
                                high.key, text(high.heat), at_setting,
                                text(still_.heater.power.typical()), text(cap), how),
                    Amount{in_watts(high.heat), "W"}, Amount{in_watts(cap), "W"});
    }
    const bool too_hot = high.heat > by_tables.high;
    if (too_hot || low.heat < by_tables.low) {
      const Reading& odd = too_hot ? high : low;
      caution(
          "own-figure-unlikely",
          [&] {
            return fmt::format(
                "{} means {} of heat in the pot{}. Heaters of this kind give {} to {}. {} The plan "
                "follows your figure, and its safety covers both.",
                odd.key, text(odd.heat), at_setting, text(by_tables.low), text(by_tables.high),
                how);
          },
          Amount{in_watts(odd.heat), "W"},
          Amount{in_watts(too_hot ? by_tables.high : by_tables.low), "W"});
    }
    const double accuracy = 2.0 * defaults_.own_heat_accuracy.range.typical;
    if (low.heat * (1.0 + accuracy) < high.heat * (1.0 - accuracy)) {
      caution(
          "own-figures-disagree",
          [&] {
            return fmt::format(
                "Your readings disagree: {} means {} of heat in the pot, {} means {}{}. Measure "
                "one of them again. Until then the plan's safety covers the stronger heat.",
                low.key, text(low.heat), high.key, text(high.heat), at_setting);
          },
          Amount{in_watts(low.heat), "W"}, Amount{in_watts(high.heat), "W"});
    }
    return true;
  }

  // --- stop -------------------------------------------------------------------------------------

  // Turns the goal of one run into a level in the receiver or a clock time.
  bool settle_stop() {
    const Mass fill =
        recipe_.water ? poured_mass(*recipe_.water) : poured_mass(water_.room(charge_));
    stop_.clock = recipe_.limits.time;
    if (const auto asked = hydrosol_asked(charge_ * double(runs_))) {
      goal_.hydrosol = *asked / runs_;
      stop_.hydrosol = neat_up(*goal_.hydrosol);
      rule_ = StopRule::hydrosol;
      return true;
    }
    const Run run = nominal_run(charge_, fill);
    if (const auto* oil = std::get_if<OilGoal>(&recipe_.goal)) {
      const Mass per_run = oil_mass(*oil) / runs_;
      auto level = level_of_oil(charge_, per_run * aim_);
      if (!level && !(recipe_.confidence && aim_ > 1.0)) return refuse_oil(per_run, run);
      if (const auto* volume = std::get_if<Volume>(&oil->amount)) {
        goal_.oil_volume = *volume / runs_;
      } else {
        goal_.oil = per_run;
      }
      if (recipe_.confidence) level = surest_level(run);
      stop_.hydrosol = *level;
      rule_ = StopRule::oil;
    } else if (const auto* share = std::get_if<OilShareGoal>(&recipe_.goal)) {
      goal_.oil_share = share->share;
      // `aim` times the steam leaves the share (1 - share) ^ aim. It must not be zero, because
      // releasing everything would take infinite time.
      const double left = std::max(std::pow(1.0 - share->share, aim_), least_left);
      const Fraction aimed = std::max(share->share, fraction(1.0 - left));
      stop_.hydrosol = neat_up(run.hydrosol_at(run.time_of_oil_share(aimed)));
      rule_ = StopRule::oil_share;
    } else if (const auto* time = std::get_if<TimeGoal>(&recipe_.goal)) {
      stop_.clock = std::min(time->time, recipe_.limits.time.value_or(time->time));
      rule_ = StopRule::time;
    } else {
      stop_.hydrosol = neat_up(run.hydrosol_at(default_end(run, charge_)));
      rule_ = StopRule::oil_left;
    }
    return true;
  }

  bool refuse_oil(Mass per_run, const Run& run) {
    const Mass most = run.oil_in_receiver_at(time_of_most_oil(run));
    if (most < grams(0.05)) {
      return refuse(
          "oil-out-of-reach",
          fmt::format("Of the {} of oil in {} of this charge about {} come over in this still, and "
                      "nearly all of that stays dissolved in the hydrosol.",
                      text(oil_in_charge(parameters_, SamplePoint::medians(), charge_)),
                      text(charge_), text(run.oil_vaporised_at(default_end(run, charge_)))),
          Amount{in_grams(per_run), "g"}, Amount{in_grams(most), "g"});
    }
    return refuse(
        "oil-out-of-reach",
        fmt::format(
            "{:.2f} g of oil a run is more than {} of this charge can part in the receiver: at "
            "most about {:.2f} g (the charge holds {}, this still gets {} of it, and the "
            "hydrosol keeps its share).",
            in_grams(per_run), text(charge_), in_grams(most),
            text(oil_in_charge(parameters_, SamplePoint::medians(), charge_)),
            text(parameters_.selected->recovery.typical())),
        Amount{in_grams(per_run), "g"}, Amount{in_grams(most), "g"});
  }

  // --- water ------------------------------------------------------------------------------------

  std::string asked() const {
    if (rule_ == StopRule::oil_share && stop_.hydrosol) {
      return fmt::format("{} of the oil, which takes about {} of hydrosol,",
                         text(std::get<OilShareGoal>(recipe_.goal).share), text(*stop_.hydrosol));
    }
    if (stop_.hydrosol) return text(*stop_.hydrosol) + " of hydrosol";
    return text(*stop_.clock) + " from heat on";
  }

  bool settle_fill() {
    const Volume room = water_.room(charge_);
    if (recipe_.water) {
      fill_ = poured_mass(*recipe_.water);
      if (*recipe_.water > room) return refuse_overfull(room);
      if (water_.worst_margin(charge_, fill_, stop_, lateness()) >= grams(0)) {
        most_ = most_for(fill_);
        return true;
      }
      if (just_harvest() && shorten_to(fill_)) return true;
      return refuse_short_water();
    }
    if (auto least = least_fill(charge_, stop_)) {
      allow_for_more(*least);
      Volume fill = poured_volume(*least);
      if (hydro()) {
        const SpecificVolume around = defaults_.hydro_water.at(recipe_.state).typical();
        fill = std::max(fill, charge_ * around);
      }
      if (neat_up(fill) <= room) {
        fill = neat_up(fill);
      } else {
        fill = neat_down(room) >= poured_volume(*least) ? neat_down(room) : room;
      }
      fill_ = poured_mass(fill);
      return true;
    }
    fill_ = poured_mass(room);
    if (just_harvest() && shorten_to(fill_)) return true;
    if (hydro() && !recipe_.charge && lighten_charge()) {
      // The heater must be checked again: with a lighter charge, a measured time to boil stands for
      // less heat.
      plan_.findings.clear();  // those of the heater, which are reported again
      return heater_is_enough() && settle_stop() && settle_fill();
    }
    return refuse_target(room);
  }

  // The largest charge that may be loaded instead. How much herb fits is the least certain figure.
  // So water and stop should hold for as much as fits at the P90 of the bulk density, unless the
  // recipe fixes the charge and leaves the water to the planner. By the clock, more water would
  // mean less hydrosol. A charge that lies in the water needs its own amount of water.
  Mass may_be_loaded() const {
    const bool sized = std::holds_alternative<OilGoal>(recipe_.goal);
    if (hydro() || stop_.clock || (sized && !recipe_.charge)) return charge_;
    const SamplePoint loosely = SamplePoint::medians().set(Parameter::bulk_density, 0.9);
    const Mass fits = neat_down(charge_capacity(parameters_, defaults_, loosely));
    const Mass asked = recipe_.charge && !recipe_.water ? *recipe_.charge / runs_ : fits;
    return std::max(std::min(asked, fits), charge_);
  }

  Mass most() const { return std::max(most_, charge_); }

  // The largest such charge for which this fill lasts.
  Mass most_for(Mass fill) const {
    return std::max(charge_, neat_down(largest(charge_, may_be_loaded(), [&](Mass charge) {
                      return water_.worst_margin(charge, fill, stop_, lateness()).si();
                    })));
  }

  // Raises the least fill to what the largest allowed charge needs, as far as there is room.
  void allow_for_more(Mass& least) {
    most_ = may_be_loaded();
    if (most_ <= charge_) return;
    const Mass to_a_mark = std::max(least, poured_mass(neat_down(water_.room(charge_))));
    const auto more = least_fill(most_, stop_);
    if (more && *more <= to_a_mark) {
      least = *more;
      return;
    }
    least = to_a_mark;
    most_ = most_for(least);
  }

  // Whether this fill, stop and limits also hold for less herb, down to none. By the clock, less
  // herb gives more distillate, which takes more coolant.
  bool holds_for_less() const {
    if (!stop_.hydrosol || stop_.clock || hydro()) return false;
    const RunPlan& run = *plan_.run;
    const Duration after_heat = longest_after_heat(parameters_);
    const auto lasts = [&](Volume level, Duration lateness) {
      const Stop stop{level, std::nullopt};
      return water_.worst_margin(grams(0), fill_, stop, lateness) >= grams(0);
    };
    const Run worst = water_.worst_case(grams(0)).run(fill_, stop_, lateness());
    const Duration to_reserve =
        water_.worst_time_until(water_.reserve(charge_, fill_), grams(0), fill_, worst, seconds(0));
    return lasts(*stop_.hydrosol, lateness()) && lasts(run.water.never_beyond, after_heat) &&
           run.times.latest + after_heat <= to_reserve;
  }

  // Ends the run early enough for its water to last.
  bool shorten_to(Mass fill) {
    const Volume most = most_hydrosol(charge_, fill);
    if (most < least_run) return false;
    stop_.hydrosol = most;
    rule_ = StopRule::reserve;
    return true;
  }

  // Less charge leaves more room for water (hydro).
  bool lighten_charge() {
    if (lightened_) return false;
    lightened_ = true;
    const Mass fits = neat_down(largest(grams(0), charge_, [&](Mass charge) {
      return water_.worst_margin(charge, poured_mass(water_.room(charge)), stop_, lateness()).si();
    }));
    if (fits <= grams(0) || fits >= charge_) return false;
    charge_ = fits;
    return true;
  }

  bool refuse_overfull(Volume room) {
    const bool grid = recipe_.method_used() == Method::water_and_steam;
    return refuse("pot-overfull",
                  fmt::format("{} of water is more than the {} that {} has room for {}.",
                              text(*recipe_.water), text(room), grid ? "the grid" : "the pot",
                              grid ? "without wetting the charge" : "with space for boiling"),
                  Amount{in_millilitres(*recipe_.water), "mL"}, Amount{in_millilitres(room), "mL"});
  }

  bool refuse_short_water() {
    const Mass margin = water_.worst_margin(charge_, fill_, stop_, lateness());
    const Volume reserve = as_volume(water_.reserve(charge_, fill_));
    describe_run();
    return refuse(
        "reserve-reached",
        fmt::format(
            "With {} in the pot and {}, the worst credible case is down to {} of water when "
            "the person comes {} late; the reserve is {}.",
            text(*recipe_.water), asked(), text(std::max(as_volume(margin) + reserve, litres(0))),
            text(absence()), text(reserve)),
        Amount{in_millilitres(as_volume(margin) + reserve), "mL"},
        Amount{in_millilitres(reserve), "mL"});
  }

  bool refuse_target(Volume room) {
    const Volume most = most_hydrosol(charge_, poured_mass(room));
    std::optional<Amount> value;
    if (stop_.hydrosol) value = Amount{in_millilitres(*stop_.hydrosol), "mL"};
    fill_ = grams(0);
    return refuse(
        "target-exceeds-pot",
        fmt::format(
            "{} takes more water than this pot can give: of the {} it has room for, {} can be "
            "caught. The rest is the reserve, what charge and walls hold, and {} of lateness "
            "with the heater at its strongest.",
            asked(), text(room), text(most), text(absence())),
        value, Amount{in_millilitres(most), "mL"});
  }

  // --- the run ----------------------------------------------------------------------------------

  void describe_run() {
    if (plan_.run) return;
    const Run run = nominal_run(charge_, fill_);
    if (stop_time(run, stop_) > longest_run) {
      refuse("too-slow",
             fmt::format("This run would take {:.0f} h, and nobody can stay with it so long.",
                         in_hours(stop_time(run, stop_))),
             Amount{in_hours(stop_time(run, stop_)), "h"}, Amount{in_hours(longest_run), "h"});
      return;
    }
    const Run hot = upper_heater_run();

    Cooling cooling =
        plan_cooling(parameters_, defaults_, run, hot, {charge_, fill_}, stop_, detail_);
    // Where the recipe has no goal, the coolant may end the run.
    const bool cooling_ends =
        cooling.ends && just_harvest() && run.hydrosol_at(*cooling.ends) >= least_run;
    if (cooling_ends) {
      stop_.hydrosol = neat_down(run.hydrosol_at(*cooling.ends));
      cooling = plan_cooling(parameters_, defaults_, run, hot, {charge_, fill_}, stop_, detail_);
    }
    // The fill was settled for the original stop. If the coolant ends the run earlier, more water
    // is left.
    const Run worst = water_.worst_case(charge_).run(fill_, stop_, lateness());
    RunPlan& r = plan_.run.emplace();
    r.cooling = std::move(cooling.plan);
    coldest_coolant_ = cooling.coldest;
    std::move(cooling.findings.begin(), cooling.findings.end(), std::back_inserter(plan_.findings));
    const Duration stop = stop_time(run, stop_);
    const bool clock_first =
        stop_.clock && stop_.hydrosol && *stop_.clock < run.time_of_hydrosol(*stop_.hydrosol);
    r.stop = stop_;
    r.stop_criterion = cooling_ends ? StopRule::cooling : clock_first ? StopRule::time : rule_;

    const WaterBalance water = run.water_at(stop);
    const Mass reserve = water_.reserve(charge_, fill_);
    r.water.pour = poured_volume(fill_);
    r.water.first_fill = as_volume(fill_);
    r.water.distilled = as_volume(water.distilled);
    const OilCourse oil_of(run);
    const OilBalance oil = oil_of.at(stop);
    const Mass recoverable = run.values().oil_recoverable;
    r.nominal = {r.water.distilled, oil.separated,
                 oil.separated / parameters_.selected->oil_density.typical(),
                 recoverable > grams(0) ? Fraction(oil.vaporised / recoverable) : fraction(1)};
    r.water.held = as_volume(water.held);
    r.water.uncondensed = as_volume(water.uncondensed);
    r.water.left_at_stop = as_volume(water.left);
    r.water.reserve = as_volume(reserve);
    r.water.absence = as_volume(worst.vapour() * lateness());
    r.water.pot_fill = (r.water.pour + water_.pieces(charge_)) / still_.pot.volume.typical();

    r.times.boil = run.boil();
    r.times.first_drop = run.first_drop();
    r.times.stop = stop;
    r.times.reserve = run.time_until_left(reserve);
    r.times.dry = run.time_until_left(grams(0));
    const Run strongest = water_.worst_case(charge_).strongest_heater(fill_);
    describe_latest(run, strongest, worst, r);
    if (clock_first && r.water.never_beyond > litres(0) && r.water.never_beyond < *stop_.hydrosol) {
      // The clock ends the nominal run long before that level. In the worst case the level would
      // take too much water, so it is replaced by the highest safe one.
      stop_.hydrosol = r.water.never_beyond;
      r.stop = stop_;
      describe_latest(run, strongest, worst, r);
    }
    if (stop <= run.first_drop()) {
      refuse(
          "stops-before-first-drop",
          fmt::format("The run would stop after {:.1f} min, but the first drop comes after {:.1f} "
                      "min, and may take {:.0f} min.",
                      in_minutes(stop), in_minutes(run.first_drop()), latest_first_drop()),
          Amount{in_minutes(stop), "min"}, Amount{in_minutes(run.first_drop()), "min"});
    }

    const RunValues& v = run.values();
    r.rates.distillate = run.distillate_rate();
    r.rates.distillate_most = worst.distillate_rate();
    r.rates.steam_per_charge = run.steam_per_charge();
    r.rates.heat_into_pot = v.heat_boiling;
    r.rates.heat_lost = (v.pot_loss + v.column_loss) * (v.boiling - v.room);
    if (!hydro() && !describe_bed(run, r.rates)) {
      refuse(
          "bed-solid",
          fmt::format("At {} nothing is left between the pieces for steam to pass: it would block "
                      "the vapour path. Pack looser, cut coarser, or check own.bulk_density.",
                      text(parameters_.selected->bulk_density.typical())),
          Amount{in_grams_per_litre(parameters_.selected->bulk_density.typical()), "g/L"},
          Amount{in_grams_per_litre(defaults_.particle_density.typical()), "g/L"});
    }

    if (recipe_.receiver) {
      const double full = std::ceil(run.hydrosol_at(stop) / *recipe_.receiver - 1e-9) - 1.0;
      for (double n = 1; n <= full && full <= most_receiver_changes; ++n) {
        const Volume caught = *recipe_.receiver * n;
        r.receiver_changes.push_back({run.time_of_hydrosol(caught), caught});
      }
    }

    r.energy.plug = still_.heater.power.typical() * recipe_.setting * parameters_.mains * stop;
    const Prices& prices = recipe_.prices;
    r.energy.currency = prices.currency;
    if (prices.energy_per_kwh) {
      r.energy.energy_cost = *prices.energy_per_kwh * in_kilowatt_hours(r.energy.plug);
    }
    if (prices.plant_per_kg) r.energy.plant_cost = *prices.plant_per_kg * in_kilograms(charge_);

    if (!brief()) describe_timeline(run, stop, cooling, r);
    if (brief() && sampling_.samples == 0) {
      r.uncertainty = nominal_uncertainty(parameters_, decision(), run);
      r.uncertainty.plug = Range<Energy>::exactly(r.energy.plug);
      if (r.cooling.ice) r.uncertainty.ice = Range<Mass>::exactly(*r.cooling.ice);
    } else {
      sample(cooling.rule, r);
    }
    const Duration not_dry = r.times.dry_worst - longest_after_heat(parameters_);
    r.times.give_up = std::max(r.times.latest, std::min(r.uncertainty.stop.high, not_dry));
    r.more = {run.hydrosol_at(stop + quarter_hour) - run.hydrosol_at(stop),
              oil_of.at(stop + quarter_hour).separated - oil.separated};
    r.codistillation_limit_known = parameters_.codistillation.has_value();
    if (!brief()) r.codistillation_limit_until = run.codistillation_limit_until();

    r.mass_residual = v.first_fill - water.distilled - water.uncondensed - water.held - water.left;
    if (!brief()) r.energy_residual = run.energy_at(stop).residual();
  }

  // How long the pot's water lasts in the worst credible case, and how much hydrosol is caught when
  // the heat must be off.
  struct LastsUntil {
    Duration reserve;
    Duration dry;
    Volume level;
  };
  LastsUntil lasts_until(Mass charge, const Run& worst, Mass reserve) const {
    const Duration late = stop_time(worst, stop_) + lateness();
    // The plan was settled so that the reserve lasts until then. In a refused plan it may not.
    const bool lasts = worst.water_at(late).left >= reserve * (1.0 - 1e-9);
    const Duration to_reserve =
        water_.worst_time_until(reserve, charge, fill_, worst, lasts ? late : seconds(0));
    return {to_reserve, water_.worst_time_until(grams(0), charge, fill_, worst, to_reserve),
            worst.hydrosol_at(std::max(to_reserve - longest_after_heat(parameters_), seconds(0)))};
  }

  // How long the heat may stay on in the worst credible case, by level and by clock.
  void describe_latest(const Run& nominal, const Run& hot, const Run& worst, RunPlan& r) const {
    const Duration after_heat = longest_after_heat(parameters_);
    const Mass reserve = r.water.reserve * parameters_.fill_density;
    TimesPlan& t = r.times;
    t.stop_worst = stop_time(worst, stop_);
    const VolumeFlow soonest = hot.vapour() *
                               (1.0 - parameters_.selected->uncondensed_loss.range.least()) /
                               parameters_.fill_density;
    t.earliest_stop = t.stop_worst;
    if (stop_.hydrosol) {
      t.earliest_stop = std::min(t.stop_worst, hot.first_drop() + *stop_.hydrosol / soonest);
    }
    LastsUntil lasts = lasts_until(charge_, worst, reserve);
    const Mass most = this->most();
    if (most > charge_) {
      const Run heavy = water_.worst_case(most).run(fill_, stop_, lateness());
      const LastsUntil with_most = lasts_until(most, heavy, reserve);
      lasts.reserve = std::min(lasts.reserve, with_most.reserve);
      lasts.dry = std::min(lasts.dry, with_most.dry);
      lasts.level = std::min(lasts.level, with_most.level);
    }
    t.reserve_worst = lasts.reserve;
    t.dry_worst = lasts.dry;
    t.latest =
        std::max(std::min(t.reserve_worst - after_heat, t.stop_worst + absence()), seconds(0));
    // A person who watches the level also watches the clock, if the stop has one. In a run by the
    // clock, the clock is the latest safe time.
    const std::optional<Duration> clock = r.stops_by_clock() ? t.latest : stop_.clock;
    const Volume by_any = water_.most_hydrosol(most, fill_, clock, after_heat);
    r.water.never_beyond = std::min(by_any, neat_down(lasts.level));
    // Where the jug has no mark between the stop and the highest safe level, the stop itself is
    // used.
    if (stop_.hydrosol && r.water.never_beyond < *stop_.hydrosol &&
        water_.worst_margin(most, fill_, Stop{stop_.hydrosol, clock}, after_heat) >= grams(0)) {
      r.water.never_beyond = *stop_.hydrosol;
    }
    r.water.most_caught = r.water.never_beyond + worst.distillate_rate() * after_heat;
    const Duration stored = std::max(parameters_.selected->stored_heat.typical(), seconds(0));
    r.water.after_heat_off = nominal.distillate_rate() * stored;
  }

  void sample(const std::optional<CoolingRule>& cooling, RunPlan& r) const {
    std::vector<Mark> marks;
    for (const TimelinePoint& point : r.timeline) {
      marks.push_back({point.hydrosol, point.at, point.phase == Phase::running});
    }
    r.uncertainty = uncertainty_of(parameters_, defaults_, decision(), goal_, sampling_, marks,
                                   cooling, detail_);
    for (std::size_t i = 0; i < r.timeline.size(); ++i)
      r.timeline[i].oil = r.uncertainty.oil_course[i];
  }

  // --- confidence -------------------------------------------------------------------------------

  void check_confidence() {
    const Fraction often = *recipe_.confidence;
    const GoalOdds odds =
        goal_odds(parameters_, decision(), goal_, often, enough_samples(sampling_));
    plan_.run->allow = odds.time;
    if (odds.chance >= often) return;
    refuse("confidence-out-of-reach",
           fmt::format("The goal is met in {} of such runs at most, and shall be in {}.",
                       text(odds.chance), text(often)),
           Amount{in_percent(odds.chance), "%"}, Amount{in_percent(often), "%"});
  }

  // In minutes, with the weakest heater. Of the nominal run when the weakest heater never gets that
  // far.
  double latest_first_drop() const {
    const Run weak(weakest_values(fill_));
    return in_minutes(weak.failure() ? nominal_run(charge_, fill_).first_drop()
                                     : weak.first_drop());
  }

  // Returns false when the bed has no room for steam.
  bool describe_bed(const Run& run, RatesPlan& rates) const {
    const Bed bed{
        charge_, parameters_.selected->bulk_density.typical(), defaults_.particle_density.typical(),
        defaults_.particle_size.at(recipe_.cut).typical(), bed_area(still_, recipe_.method_used())};
    const BedFlow flow =
        steam_through(bed, run.steam_made(), saturated_vapour_density(parameters_.boiling),
                      saturated_vapour_viscosity(parameters_.boiling));
    rates.steam_velocity = flow.superficial;
    rates.bed_pressure_drop = flow.pressure_drop;
    return flow.pressure_drop.has_value();
  }

  void describe_timeline(const Run& run, Duration stop, const Cooling& cooling, RunPlan& r) const {
    static const std::string before_ice = "before ice";
    struct Moment {
      Duration at;
      std::string event;
    };
    // With more ice changes than this, none is listed, so that the timeline stays readable.
    constexpr std::size_t most_marked = 24;
    std::vector<Moment> moments = {{seconds(0), "heat on"},
                                   {run.boil(), "boils"},
                                   {run.first_drop(), "first drop"},
                                   {stop, "stop"}};
    if (r.cooling.ice_changes.size() <= most_marked) {
      for (const IceChange& change : r.cooling.ice_changes) {
        moments.push_back({change.at, before_ice});
        moments.push_back({change.at, "ice"});
      }
    }
    for (const ReceiverChange& change : r.receiver_changes) {
      moments.push_back({change.at, "next receiver"});
    }
    // About twelve plain points, at round minutes.
    static constexpr std::array<double, 7> steps = {2, 5, 10, 15, 20, 30, 60};
    const double wanted = in_minutes(stop) / 12.0;
    const auto step =
        std::find_if(steps.begin(), steps.end(), [&](double s) { return s >= wanted; });
    const Duration every = minutes(step == steps.end() ? 120.0 : *step);
    for (Duration t = every; t < stop; t += every) {
      const auto near = [&](const Moment& m) { return std::abs((m.at - t) / every) < 0.25; };
      if (std::none_of(moments.begin(), moments.end(), near)) moments.push_back({t, ""});
    }
    std::stable_sort(moments.begin(), moments.end(),
                     [](const Moment& a, const Moment& b) { return a.at < b.at; });
    for (const Moment& moment : moments) {
      TimelinePoint point;
      point.at = moment.at;
      point.event = moment.event;
      point.phase = run.phase_at(moment.at);
      point.pot_water = as_volume(run.water_at(moment.at).left);
      point.pot = run.pot_temperature(moment.at);
      point.hydrosol = run.hydrosol_at(moment.at);
      if (cooling.vessel) {
        // Rounding could put the change itself on either side, so look a moment before or after it.
        const Duration aside = seconds(1e-3);
        const Duration at = moment.event == before_ice ? moment.at - aside
                            : moment.event == "ice"    ? moment.at + aside
                                                       : moment.at;
        const Duration condensing = std::max(at - run.first_drop(), seconds(0));
        point.coolant = cooling.vessel->temperature_at(condensing);
      }
      r.timeline.push_back(std::move(point));
    }
  }

  const Recipe& recipe_;
  const Still& still_;
  const Tables& tables_;
  const DesignDefaults& defaults_;
  const ModelParameters& parameters_;
  WaterBudget water_;
  ParametersAt at_medians_;
  Sampling sampling_;
  Sharing sharing_;
  double aim_;
  Detail detail_;

  mutable std::optional<Run> nominal_;
  mutable Mass nominal_charge_;

  Plan plan_;
  Mass charge_;
  int runs_ = 1;
  Mass rest_;
  Mass most_;  // largest charge for this fill; zero until it is settled
  Mass fill_;
  Stop stop_;
  StopRule rule_ = StopRule::hydrosol;
  GoalOfRun goal_;
  std::optional<Temperature> coldest_coolant_;
  bool lightened_ = false;
};

// The distribution of oil is skewed, so a run aimed at the amount wanted usually gives less. Finds
// how much higher to aim so that the goal is met `often`. If that can't be done, returns the aim
// that comes closest.
double aim_for(Fraction often, const ModelParameters& parameters, const Tables& tables,
               const Sampling& sampling, Sharing sharing) {
  constexpr double step = 1.3;
  constexpr double highest = 60.0;
  // Rounding to the marks of jug and scale hides a finer aim.
  constexpr double fine = 1.01;
  const auto chance = [&](double aim) {
    const auto odds = Planner(parameters, tables, sampling, sharing, aim).odds(often);
    return odds ? std::optional(odds->chance) : std::nullopt;
  };
  double low = 1.0;
  const auto as_wanted = chance(low);
  if (!as_wanted || *as_wanted >= often) return low;
  // A fixed charge has no more oil to aim for, and surest_level() finds its best level without an
  // aim.
  const bool oil = std::holds_alternative<OilGoal>(parameters.recipe.goal);
  if (oil && parameters.recipe.confidence && parameters.recipe.charge) return low;
  // Aims higher until the goal is met as often as asked, or the plan can no longer be run.
  double high = low;
  bool met = false;
  while (!met && high < highest) {
    high *= step;
    const auto there = chance(high);
    if (!there) break;
    met = *there >= often;
    if (met) break;
    low = high;
  }
  while (high / low > fine) {
    const double middle = std::sqrt(low * high);
    const auto there = chance(middle);
    met = met || (there && *there >= often);
    const bool too_high = !there || *there >= often;
    (too_high ? high : low) = middle;
  }
  return met ? high : low;
}

Plan planned(const ModelParameters& parameters, const Tables& tables, const Sampling& sampling,
             Detail detail, Sharing sharing) {
  const Recipe& recipe = parameters.recipe;
  // An oil goal without a confidence is met in half of the runs. The other goals are what the
  // nominal run gives.
  const bool oil = std::holds_alternative<OilGoal>(recipe.goal);
  const bool share = std::holds_alternative<OilShareGoal>(recipe.goal);
  double aim = 1.0;
  if (oil || (share && recipe.confidence)) {
    const Fraction often = recipe.confidence.value_or(percent(50));
    aim = aim_for(often, parameters, tables, sampling, sharing);
  }
  return Planner(parameters, tables, sampling, sharing, aim, detail).make();
}

Plan planned(ModelParameters parameters, const Tables& tables, const Sampling& sampling,
             Detail detail) {
  Plan plan = planned(parameters, tables, sampling, detail, Sharing::full_runs);
  // With fewer runs, each must give more, which may be too much.
  if (plan.charge.rest > grams(0) && !plan.may_be_run()) {
    plan = planned(parameters, tables, sampling, detail, Sharing::evenly);
  }
  plan.recipe = std::move(parameters.recipe);
  return plan;
}

}  // namespace

Plan make_plan(Recipe recipe, const Tables& tables, const Sampling& sampling, Detail detail) {
  return planned(model_parameters(std::move(recipe), tables), tables, sampling, detail);
}

PlanMaker::PlanMaker(const Tables& tables) : tables_(tables), cache_(new ParameterCache) {}

PlanMaker::~PlanMaker() {
  delete cache_;
}

Plan PlanMaker::make(Recipe recipe, const Sampling& sampling, Detail detail) {
  return planned(cache_->gather(std::move(recipe), tables_), tables_, sampling, detail);
}

}  // namespace firstdrop
