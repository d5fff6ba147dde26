#include "campaign/campaign.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/text_layout.hpp"
#include "firstdrop/base/error.hpp"
#include "firstdrop/output/finding_words.hpp"
#include "firstdrop/plan/planner.hpp"
#include "output/bench_words.hpp"
#include "output/range_sums.hpp"
#include "output/stop_bounds.hpp"
#include "quantity/numbers_text.hpp"

namespace firstdrop {
namespace {

namespace chrono = std::chrono;

// Nobody can foresee a harvest further ahead, and more runs can only be a slip (ours, from memory).
constexpr chrono::days farthest(366);
constexpr int most_runs = 1000;
// Starts are rounded up to a multiple of this, which is easy to write down and read off a clock.
constexpr chrono::minutes clock_mark(5);
// The number of runs depends only on the nominal run, so counting them needs no samples.
constexpr Sampling counting = 0;

chrono::minutes whole_minutes_up(Duration time) {
  return chrono::minutes(std::llround(std::ceil(in_minutes(time) - 1e-9)));
}

LocalMinute on_a_mark(LocalMinute minute) {
  const auto midnight = chrono::floor<chrono::days>(minute);
  const auto marks = (minute - midnight + clock_mark - chrono::minutes(1)) / clock_mark;
  return midnight + marks * clock_mark;
}

// --- how many runs, and what each is -------------------------------------------------------------

// The plan of one run, and the number of such runs that the work takes.
struct SharedOut {
  Plan plan;
  int runs = 0;
};

bool is_refused(const Plan& plan) {
  return !plan.may_be_run();
}

// Turns a plan into the plan of one of `runs` runs. The finding on several runs is dropped, because
// the campaign lists the runs day by day.
Plan as_one_of(Plan plan, int runs) {
  std::erase_if(plan.findings, [](const Finding& f) { return f.is<found::SeveralRuns>(); });
  plan.verdict = verdict_of(plan.findings);
  plan.charge.runs = runs;
  plan.charge.harvest = plan.charge.mass * double(runs);
  return plan;
}

class WorkPlanner {
 public:
  WorkPlanner(const WorkOrder& order, Units units, const Tables& tables, const Sampling& sampling)
      : recipe_(order.recipe), order_(order), tables_(tables), sampling_(sampling) {
    recipe_.start.clear();
    recipe_.units = units;
  }

  SharedOut share_out() const {
    if (const auto* harvest = std::get_if<HarvestOrder>(&order_.order)) {
      return share_out_harvest(harvest->mass);
    }
    if (const auto* hydrosol = std::get_if<HydrosolGoal>(&order_.order)) {
      return share_out_hydrosol(hydrosol->volume);
    }
    return share_out_oil(std::get<OilGoal>(order_.order));
  }

 private:
  Plan planned(const Recipe& recipe) const { return make_plan(recipe, tables_, sampling_); }
  Plan counted(const Recipe& recipe) const { return make_plan(recipe, tables_, counting); }

  bool wants_an_amount() const {
    return std::holds_alternative<HydrosolGoal>(recipe_.goal) ||
           std::holds_alternative<OilGoal>(recipe_.goal);
  }

  // The goal for another mass of herb: an amount is multiplied by `share`, other goals stay.
  static Goal in_proportion(const Goal& goal, double share) {
    if (const auto* hydrosol = std::get_if<HydrosolGoal>(&goal)) {
      return HydrosolGoal{hydrosol->volume * share};
    }
    if (const auto* oil = std::get_if<OilGoal>(&goal)) {
      return std::visit([&](auto amount) -> Goal { return OilGoal{amount * share}; }, oil->amount);
    }
    return goal;
  }

  // Rounds a hydrosol goal down to a mark of the jug, unless it is below the first mark.
  Goal on_marks(const Goal& goal) const {
    const auto* hydrosol = std::get_if<HydrosolGoal>(&goal);
    if (hydrosol == nullptr) return goal;
    const Volume neat = neat_down(hydrosol->volume, recipe_.units);
    return neat > litres(0) ? HydrosolGoal{neat} : *hydrosol;
  }

  SharedOut share_out_harvest(Mass harvest) const {
    Mass recipes_own = recipe_.charge.value_or(harvest);
    if (!recipe_.charge && wants_an_amount()) {
      Plan own = counted(recipe_);
      if (is_refused(own)) return {std::move(own), 0};
      recipes_own = own.charge.harvest;
    }
    Recipe all = recipe_;
    all.charge = harvest;
    all.goal = in_proportion(recipe_.goal, harvest / recipes_own);
    Recipe to_count = all;
    // Goals other than hydrosol and ratio don't change how much herb fits into the still.
    if (!std::holds_alternative<HydrosolGoal>(all.goal) &&
        !std::holds_alternative<RatioGoal>(all.goal)) {
      to_count.goal = HarvestGoal{};
    }
    to_count.confidence.reset();
    // The whole harvest is used: a remainder adds one run, and all runs get equal charges.
    const ChargePlan count = counted(to_count).charge;
    const int runs = count.runs + (count.rest > grams(0) ? 1 : 0);

    Recipe one = all;
    one.charge = harvest / runs;
    one.goal = on_marks(in_proportion(all.goal, 1.0 / runs));
    Plan plan = planned(one);
    const int all_runs = runs * plan.charge.runs;
    return {std::move(plan), all_runs};
  }

  SharedOut share_out_hydrosol(Volume wanted) const {
    Plan own = counted(recipe_);
    if (is_refused(own)) return {std::move(own), 0};
    const Volume of_a_run = own.run->uncertainty.hydrosol.typical;
    const double runs = std::clamp(std::ceil(wanted / of_a_run - 1e-9), 1.0, most_runs + 1.0);
    Recipe one = recipe_;
    one.charge = own.charge.mass;
    // Rounded up to a mark, but never so far that the hydrosol is thinner than the recipe's.
    const Volume level = neat_up(wanted / runs, recipe_.units);
    one.goal = HydrosolGoal{level > of_a_run ? wanted / runs : level};
    one.confidence = order_.confidence;
    return {planned(one), static_cast<int>(runs)};
  }

  // make_plan() limits the number of runs in a plan. Beyond that, the oil is split into equal parts
  // first.
  SharedOut share_out_oil(const OilGoal& wanted) const {
    Recipe part = recipe_;
    part.charge.reset();
    part.confidence = order_.confidence;
    constexpr int most_tries = 8;
    int parts = 1;
    for (int tries = 1;; ++tries) {
      part.goal = in_proportion(wanted, 1.0 / parts);
      Plan plan = planned(part);
      const int more = is_refused(plan) ? more_parts(plan, parts) : parts;
      if (more == parts || more > most_runs || tries == most_tries) {
        const int runs = parts * plan.charge.runs;
        return {std::move(plan), runs};
      }
      parts = more;
    }
  }

  // The oil wanted over the most that the plan can give, if the plan is refused for it.
  static std::optional<double> beyond_reach(const Plan& plan) {
    const auto over = [](Mass wanted, Mass most) {
      return most > grams(0) ? std::optional<double>(wanted / most) : std::nullopt;
    };
    for (const Finding& finding : plan.findings) {
      if (const auto* runs = std::get_if<found::OilTakesTooManyRuns>(&finding.what))
        return over(runs->wanted, runs->each * double(runs->most_runs));
      if (const auto* lost = std::get_if<found::OilStaysDissolved>(&finding.what))
        return over(lost->wanted, lost->most);
      if (const auto* charge = std::get_if<found::OilBeyondCharge>(&finding.what))
        return over(charge->wanted, charge->most);
    }
    return std::nullopt;
  }

  // The number of parts to split the oil into. Returns `parts` if something else refuses the plan.
  static int more_parts(const Plan& plan, int parts) {
    const std::optional<double> share = beyond_reach(plan);
    if (!share) return parts;
    return static_cast<int>(
        std::clamp(std::ceil(parts * *share - 1e-9), parts + 1.0, most_runs + 1.0));
  }

  Recipe recipe_;
  const WorkOrder& order_;
  const Tables& tables_;
  Sampling sampling_;
};

// --- when ----------------------------------------------------------------------------------------

class CampaignPlanner {
 public:
  CampaignPlanner(const Campaign& campaign, const Tables& tables, const Sampling& sampling)
      : bench_(campaign.bench), units_(campaign.units) {
    plan_.campaign = campaign;
    std::vector<Fault> faults;
    for (std::size_t i = 0; i < campaign.work.size(); ++i) {
      const WorkOrder& order = campaign.work[i];
      try {
        SharedOut shared = WorkPlanner(order, units_, tables, sampling).share_out();
        add_ways_out(shared.plan, tables, sampling);
        CampaignWork work;
        work.runs = is_refused(shared.plan) ? 0 : shared.runs;
        work.plan = as_one_of(std::move(shared.plan), shared.runs);
        plan_.work.push_back(std::move(work));
      } catch (const InputError& error) {
        for (Fault fault : error.faults()) {
          if (fault.file.empty()) fault.file = order.file;
          if (order.file.empty()) fault.pointer = fmt::format("/work/{}/recipe", i) + fault.pointer;
          faults.push_back(std::move(fault));
        }
      }
    }
    if (!faults.empty()) throw InputError(std::move(faults));
  }

  CampaignPlan make() {
    for (std::size_t i = 0; i < plan_.work.size(); ++i) place_work(i);
    for (std::size_t i = 0; i < plan_.work.size(); ++i) check_ice_ready(i);
    return std::move(plan_);
  }

 private:
  template <class Quantity>
  std::string text(Quantity quantity) const {
    return firstdrop::text(quantity, units_);
  }

  static void problem(CampaignWork& work, std::string code, std::string text) {
    work.problems.push_back({std::move(code), std::move(text)});
  }

  void place_work(std::size_t index) {
    CampaignWork& work = plan_.work[index];
    if (is_refused(work.plan)) {
      for (const Finding& finding : work.plan.findings) {
        if (finding.level == Level::refuse) problem(work, "refused", finding_text(finding, units_));
      }
      if (!work.problems.empty() && !work.plan.ways_out.empty()) {
        work.problems.front().text +=
            fmt::format(" Ways out: {}.", joined(work.plan.ways_out, "; or "));
      }
      return;
    }
    if (work.runs > most_runs) {
      problem(work, "too-many-runs",
              fmt::format("This takes {} runs, and no more than {} are planned. Use a larger "
                          "still, or ask for less.",
                          work.runs, most_runs));
      return;
    }
    const RunPlan& run = *work.plan.run;
    const IceToHave ice = ice_to_have_ready(run.cooling, units_);
    work.ice = ice.expected;
    work.ice_ready = ice.ready;
    if (!fits_a_day(work)) return;

    std::optional<LocalMinute> last;
    for (int i = 0; i < work.runs; ++i) {
      last = place_run(index);
      if (!last) break;
    }
    if (work.placed < work.runs) say_days_run_out(work, last);
  }

  // Whether one run fits into a day of the bench. If not, a problem is added to the work.
  bool fits_a_day(CampaignWork& work) const {
    const chrono::minutes takes = whole_minutes_up(done_by(work.plan));
    const chrono::minutes open = bench_.closes(bench_.first_day) - bench_.opens(bench_.first_day);
    if (takes > open) {
      std::vector<std::string> ways;
      if (takes < chrono::hours(24)) {
        ways.push_back(fmt::format(
            "keep the bench until {} (bench.to)",
            time_of_day(bench_.opens(bench_.first_day), minutes(double(takes.count())))));
      }
      ways.emplace_back("ask less of a run, or give it more heat");
      problem(
          work, "run-too-long",
          fmt::format("A run may take {}, {} late, and the bench is open for {}. Ways out: {}.",
                      text(minutes(double(takes.count()))), text(work.plan.recipe.limits.absence),
                      text(minutes(double(open.count()))), joined(ways, "; or ")));
    }
    if (work.ice && bench_.ice_per_day && *work.ice > *bench_.ice_per_day) {
      problem(work, "ice-short",
              fmt::format("A run takes {} of ice, and the freezer gives {} a day. Ways out: buy "
                          "ice and set bench.ice_per_day to {}; or ask less of a run; or use "
                          "colder water or more of it.",
                          text(*work.ice), text(*bench_.ice_per_day), text(*work.ice)));
    }
    return work.problems.empty();
  }

  // Puts a run on the first day that has room for it, and returns when it is done. After the
  // bench's last day a run takes up time, but isn't part of the plan. Returns nothing if no day
  // within reach has room.
  std::optional<LocalMinute> place_run(std::size_t index) {
    CampaignWork& work = plan_.work[index];
    const RunPlan& run = *work.plan.run;
    const chrono::minutes takes = whole_minutes_up(done_by(work.plan));
    for (; day_ <= bench_.first_day + farthest; next_day()) {
      if (!bench_.is_open(day_)) continue;
      const LocalMinute start = on_a_mark(std::max(bench_.opens(day_), free_from_));
      if (start + takes > bench_.closes(day_)) continue;
      if (work.ice && bench_.ice_per_day && ice_of_day_ + *work.ice > *bench_.ice_per_day) continue;

      free_from_ = start + takes + whole_minutes_up(bench_.between_runs);
      if (work.ice) ice_of_day_ += *work.ice;
      if (!bench_.last_day || day_ <= *bench_.last_day) {
        ++work.placed;
        CampaignRun placed;
        placed.work = index;
        placed.number = ++runs_;
        placed.heat_on = start;
        placed.stop = clock_time(start, run.times.stop);
        placed.done_by = clock_time(start, minutes(double(takes.count())));
        placed.heat_off_by = clock_time(start, stop_bounds(work.plan).by);
        add_to_day(placed, work);
      }
      return start + takes;
    }
    return std::nullopt;
  }

  void next_day() {
    day_ += chrono::days(1);
    ice_of_day_ = Mass();
  }

  void add_to_day(const CampaignRun& placed, const CampaignWork& work) {
    if (plan_.days.empty() || plan_.days.back().day != day_) {
      plan_.days.emplace_back();
      plan_.days.back().day = day_;
    }
    CampaignDay& day = plan_.days.back();
    day.runs.push_back(placed);
    const RunPlan& run = *work.plan.run;
    day.needs.add({work.ice, work.ice_ready, run.water.pour,
                   run.cooling.coolant_used.value_or(Volume()), run.energy.plug});
  }

  // Days are filled by the expected ice. If a day's ice to have ready is more than the freezer
  // gives, the first work on that day that needs ice gets a caution.
  void check_ice_ready(std::size_t index) {
    if (!bench_.ice_per_day) return;
    const CampaignDay* worst = nullptr;
    int days = 0;
    for (const CampaignDay& day : plan_.days) {
      const auto ready = day.needs.ice_ready.value_or(Mass());
      if (ready <= *bench_.ice_per_day) continue;
      const auto first = std::find_if(
          day.runs.begin(), day.runs.end(),
          [&](const CampaignRun& run) { return plan_.work[run.work].ice_ready.has_value(); });
      if (first == day.runs.end() || first->work != index) continue;
      ++days;
      if (worst == nullptr || ready > *worst->needs.ice_ready) worst = &day;
    }
    if (worst == nullptr) return;
    const Mass expected = worst->needs.ice.value_or(Mass());
    plan_.work[index].cautions.push_back(
        {"ice-ready-short",
         fmt::format("The freezer gives {} of ice a day (bench.ice_per_day). The runs of {} are "
                     "expected to take {}, but {} if the heater is at its strongest{}. Buy the "
                     "other {}, or do fewer runs a day. Without it: when the coolant is at its "
                     "limit and no ice is left, turn the heat off.",
                     text(*bench_.ice_per_day), day_text(worst->day), text(expected),
                     text(*worst->needs.ice_ready),
                     days > 1 ? fmt::format(" ({} days are like this)", days) : "",
                     text(*worst->needs.ice_ready - *bench_.ice_per_day))});
  }

  // `ends` is when the last run would end, if a day within reach has room for it.
  void say_days_run_out(CampaignWork& work, std::optional<LocalMinute> ends) const {
    std::vector<std::string> ways;
    if (ends) {
      ways.push_back(fmt::format("go on until {} (bench.last_day)", day_text(day_)));
    }
    ways.emplace_back("open the bench on more days, or for longer");
    const int left = work.runs - work.placed;
    const std::string until =
        bench_.last_day ? fmt::format("until {} (bench.last_day)", day_text(*bench_.last_day))
                        : fmt::format("within {} days", farthest.count());
    std::string words =
        work.placed > 0 ? fmt::format("{} of its {} runs {} no day {}", left, work.runs,
                                      left == 1 ? "finds" : "find", until)
        : left == 1     ? fmt::format("Its one run finds no day {}", until)
                        : fmt::format("None of its {} runs finds a day {}", left, until);
    words += fmt::format(": {} of {} would be left over.",
                         text(work.plan.charge.mass * double(left)), work.plan.recipe.plant->name);
    if (work.placed > 0) {
      ways.push_back(fmt::format("do with {} runs", work.placed));
    }
    problem(work, "days-run-out", words + fmt::format(" Ways out: {}.", joined(ways, "; or ")));
  }

  const Bench bench_;
  const Units units_;
  CampaignPlan plan_;
  int runs_ = 0;
  LocalDay day_ = bench_.first_day;
  LocalMinute free_from_ = bench_.opens(bench_.first_day);
  Mass ice_of_day_;
};

}  // namespace

bool Bench::is_open(LocalDay day) const {
  return weekdays.at(chrono::weekday(day).c_encoding()) && !off.contains(day);
}

LocalMinute Bench::closes(LocalDay day) const {
  return day + to + (to <= from ? chrono::days(1) : chrono::days(0));
}

Mass CampaignWork::herb() const {
  return plan.charge.mass * double(placed);
}
Range<Volume> CampaignWork::hydrosol() const {
  return plan.run ? times(plan.run->uncertainty.hydrosol, placed) : Range<Volume>{};
}
Range<Volume> CampaignWork::oil_volume() const {
  return plan.run ? times(plan.run->uncertainty.oil_volume, placed) : Range<Volume>{};
}
Range<Mass> CampaignWork::oil() const {
  return plan.run ? times(plan.run->uncertainty.oil_in_receiver, placed) : Range<Mass>{};
}
Range<Energy> CampaignWork::plug() const {
  return plan.run ? times(plan.run->uncertainty.plug, placed) : Range<Energy>{};
}

bool CampaignPlan::may_be_run() const {
  return std::all_of(work.begin(), work.end(),
                     [](const CampaignWork& one) { return one.problems.empty(); });
}

int CampaignPlan::runs() const {
  int all = 0;
  for (const CampaignDay& day : days) all += static_cast<int>(day.runs.size());
  return all;
}

void CampaignNeeds::add(const CampaignNeeds& other) {
  if (other.ice) ice = ice.value_or(Mass()) + *other.ice;
  if (other.ice_ready) ice_ready = ice_ready.value_or(Mass()) + *other.ice_ready;
  pot_water += other.pot_water;
  tap_water += other.tap_water;
  plug += other.plug;
}

CampaignNeeds CampaignPlan::needs() const {
  CampaignNeeds all;
  for (const CampaignDay& day : days) all.add(day.needs);
  return all;
}

Duration done_by(const Plan& plan) {
  return std::max(plan.run->times.stop, plan.run->uncertainty.stop.high) +
         plan.recipe.limits.absence;
}

CampaignPlan plan_campaign(const Campaign& campaign, const Tables& tables,
                           const Sampling& sampling) {
  return CampaignPlanner(campaign, tables, sampling).make();
}

Plan run_of_campaign(const CampaignPlan& campaign, int number) {
  for (const CampaignDay& day : campaign.days) {
    for (const CampaignRun& run : day.runs) {
      if (run.number != number) continue;
      Plan plan = campaign.work[run.work].plan;
      std::string start = date_and_time(run.heat_on);
      start.replace(start.find(' '), 1, "T");
      plan.recipe.start = start;
      return plan;
    }
  }
  throw RangeError(
      fmt::format("there is no run {} in this campaign of {}", number, campaign.runs()));
}

}  // namespace firstdrop
