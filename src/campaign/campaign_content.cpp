#include "campaign/campaign_content.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <set>
#include <utility>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "firstdrop/output/finding_words.hpp"
#include "output/bench_words.hpp"
#include "output/stop_bounds.hpp"
#include "quantity/numbers_text.hpp"

namespace firstdrop {
namespace {

std::string title_of(const CampaignWork& work) {
  const Recipe& recipe = work.plan.recipe;
  return visible(recipe.title.empty() ? "Untitled run" : recipe.title);
}

template <class Quantity>
std::string about(const Range<Quantity>& range, Units units) {
  const std::string typical = text(range.typical, units);
  const std::string low = text(range.low, units);
  const std::string high = text(range.high, units);
  // If all runs stop at the same level, low and high differ only in the last digits.
  const bool same = range.high - range.low <= range.typical * 1e-9;
  return same || low == high ? typical
                             : fmt::format("about {} ({})", typical, span_text(low, high));
}

bool gas(const CampaignWork& work) {
  const Still& still = work.plan.recipe.still;
  return still.heater.kind == HeaterKind::gas_burner;
}

class Writer {
 public:
  explicit Writer(const CampaignPlan& plan) : plan_(plan), units_(plan.campaign.units) {}

  CampaignContent write() {
    head();
    example_stills();
    for (std::size_t i = 0; i < plan_.work.size(); ++i) {
      items(plan_.work[i], plan_.campaign.work[i]);
    }
    totals();
    for (const CampaignDay& day : plan_.days) day_list(day);
    notes();
    always();
    return std::move(content_);
  }

 private:
  template <class Quantity>
  std::string text(Quantity quantity) const {
    return firstdrop::text(quantity, units_);
  }

  void head() {
    const Campaign& campaign = plan_.campaign;
    content_.title = visible(campaign.title.empty() ? "Untitled campaign" : campaign.title);
    content_.verdict = verdict_of(plan_);
    const auto runs = static_cast<std::size_t>(plan_.runs());
    content_.summary = counted(runs, "run", "runs");
    if (runs > 0) {
      const LocalDay first = plan_.days.front().day;
      const LocalDay last = plan_.days.back().day;
      content_.summary += fmt::format(" on {}, ", counted(plan_.days.size(), "day", "days"));
      content_.summary +=
          first == last ? day_with_weekday(first)
                        : fmt::format("{} to {}", day_with_weekday(first), day_with_weekday(last));
    }
    switch (content_.verdict) {
      case Verdict::go:
        content_.verdict_words = "all of it has its day";
        break;
      case Verdict::caution:
        content_.verdict_words = "read the cautions first";
        break;
      case Verdict::refused:
        content_.verdict_words = runs > 0 ? "not all of it can be done; see why first"
                                          : "none of it can be done as asked";
        break;
    }
  }

  void example_stills() {
    std::set<std::string> names;
    for (const CampaignWork& work : plan_.work) {
      const Still& still = work.plan.recipe.still;
      if (has_invented_figures(still)) names.insert(visible(still.title));
    }
    if (names.empty()) return;
    content_.example =
        fmt::format("{} ({})", example_still_words, joined({names.begin(), names.end()}, "; "));
  }

  std::string order_in_words(const WorkOrder& order) const {
    if (const auto* harvest = std::get_if<HarvestOrder>(&order.order)) {
      return fmt::format("{} of harvest", text(harvest->mass));
    }
    std::string often;
    if (order.confidence) often = fmt::format(", in {} of runs", text(*order.confidence));
    if (const auto* hydrosol = std::get_if<HydrosolGoal>(&order.order)) {
      return fmt::format("{} of hydrosol wanted{}", text(hydrosol->volume), often);
    }
    const auto& oil = std::get<OilGoal>(order.order);
    return fmt::format("{} of oil wanted{}",
                       std::visit([&](auto amount) { return text(amount); }, oil.amount), often);
  }

  void items(const CampaignWork& work, const WorkOrder& order) {
    const Recipe& recipe = work.plan.recipe;
    const Plant& plant = recipe.plant;
    const Still& still = recipe.still;
    CampaignItem item;
    item.title = title_of(work);
    item.subject =
        fmt::format("{} ({}, {}), {}, {}", visible(plant.name), to_string(recipe.state),
                    to_string(recipe.cut), in_words(recipe.method_used()), visible(still.title));
    item.order = order_in_words(order);
    for (const CampaignProblem& problem : work.problems) {
      item.problems.push_back((problem.code == "refused" ? "Refused: " : "") +
                              visible(problem.text));
    }
    // Refused work has no amounts, because nobody may work from it.
    if (work.placed > 0) {
      const std::string count = work.placed == work.runs
                                    ? counted(work.runs, "run", "runs")
                                    : fmt::format("{} of {} runs", work.placed, work.runs);
      item.runs = fmt::format("{} of {}", count, text(work.plan.charge.mass));
      item.each = one_run_in_words(work) + ". " + bounds_in_words(work.plan, "");
      item.gives = yield_in_words(work);
      for (const Finding& finding : work.plan.findings) {
        if (is_read_first(finding))
          item.cautions.push_back(visible(finding_text(finding, work.plan.recipe.units)));
      }
      for (const CampaignProblem& caution : work.cautions) {
        item.cautions.push_back(visible(caution.text));
      }
    }
    content_.items.push_back(std::move(item));
  }

  // One entry for each plant and state, summed over all the work that uses it.
  void herbs(const std::map<std::size_t, int>& runs, bool on_its_day,
             std::vector<CampaignAmount>& list) const {
    struct Heap {
      std::string key;
      State state;
      std::string name;
      Mass mass;
    };
    std::vector<Heap> heaps;
    for (const auto& [index, count] : runs) {
      const CampaignWork& work = plan_.work[index];
      const Recipe& recipe = work.plan.recipe;
      const Plant& plant = recipe.plant;
      auto heap = std::find_if(heaps.begin(), heaps.end(), [&](const Heap& one) {
        return one.key == plant.key && one.state == recipe.state;
      });
      if (heap == heaps.end()) {
        heap = heaps.insert(heap, {plant.key, recipe.state, visible(plant.name), Mass()});
      }
      heap->mass += work.plan.charge.mass * double(count);
    }
    for (const Heap& heap : heaps) {
      list.push_back({"Herb", text(heap.mass),
                      fmt::format("{}, {}{}", heap.name, to_string(heap.state),
                                  on_its_day ? for_its_day(heap.state) : for_all(heap.state))});
    }
  }

  static const char* for_its_day(State state) {
    switch (state) {
      case State::fresh:
        return ": cut or bought for today";
      case State::wilted:
        return ": cut a day or so before";
      case State::dried:
        break;
    }
    return "";
  }
  static const char* for_all(State state) {
    return state == State::dried ? ": may be bought ahead" : ": day by day, as listed below";
  }

  void totals() {
    auto& list = content_.totals;
    const CampaignNeeds needs = plan_.needs();
    std::optional<Mass> most_ice;
    for (const CampaignDay& day : plan_.days) most_ice = std::max(most_ice, day.needs.ice_ready);
    if (plan_.days.empty()) return;
    std::map<std::size_t, int> runs;
    for (std::size_t i = 0; i < plan_.work.size(); ++i) {
      if (plan_.work[i].placed > 0) runs[i] = plan_.work[i].placed;
    }
    herbs(runs, false, list);
    water(needs, list);
    if (needs.ice_ready) {
      list.push_back({"Ice", text(needs.ice.value_or(Mass())),
                      fmt::format("expected; have up to {} ready for a day", text(*most_ice))});
    }
    std::string from = "from the socket";
    const auto burns = [](const CampaignWork& work) { return work.placed > 0 && gas(work); };
    const auto plugs = [](const CampaignWork& work) { return work.placed > 0 && !gas(work); };
    if (std::any_of(plan_.work.begin(), plan_.work.end(), burns)) {
      from = std::any_of(plan_.work.begin(), plan_.work.end(), plugs) ? "socket and gas" : "of gas";
    }
    list.push_back({"Heat", text(needs.plug), from});
    costs();
  }

  void water(const CampaignNeeds& needs, std::vector<CampaignAmount>& list) const {
    list.push_back({"Water", text(needs.pot_water), "into the pot"});
    if (needs.tap_water > litres(0)) {
      list.push_back({"Tap", text(needs.tap_water), "through the condenser", false});
    }
  }

  void costs() {
    std::map<std::string, double> costs;
    for (const CampaignWork& work : plan_.work) {
      if (work.placed == 0) continue;
      const EnergyPlan& energy = work.plan.run->energy;
      if (!energy.energy_cost && !energy.plant_cost) continue;
      costs[energy.currency] +=
          work.placed * (energy.energy_cost.value_or(0.0) + energy.plant_cost.value_or(0.0));
    }
    for (const auto& [currency, sum] : costs) {
      content_.totals.push_back({"Cost", fmt::format("{:.2f} {}", sum, visible(currency)),
                                 "as far as recipes have prices"});
    }
  }

  static std::string clock(LocalDay day, LocalMinute at) {
    return time_of_day(day, minutes(double((at - day).count())));
  }

  void day_list(const CampaignDay& day) {
    CampaignDayList list;
    list.day = day_with_weekday(day.day);
    if (day.needs.ice_ready) {
      list.ready.push_back({"Ice", text(*day.needs.ice_ready),
                            fmt::format("to have ready, frozen by {}; {} expected",
                                        clock(day.day, plan_.campaign.bench.opens(day.day)),
                                        day.needs.ice ? text(*day.needs.ice) : "none")});
    }
    herbs(runs_by_work(day), true, list.ready);
    water(day.needs, list.ready);
    list.ready.push_back({"Heat", text(day.needs.plug), "", false});
    for (const CampaignRun& run : day.runs) {
      const CampaignWork& work = plan_.work[run.work];
      list.rows.push_back({fmt::format("{}", run.number), clock(day.day, run.heat_on),
                           clock(day.day, run.stop), clock(day.day, run.done_by),
                           fmt::format("{}: {}; {}", title_of(work), one_run_in_words(work),
                                       by_in_words(work.plan, clock(day.day, run.heat_off_by)))});
    }
    content_.days.push_back(std::move(list));
  }

  void notes() {
    if (plan_.days.empty()) return;
    auto& list = content_.notes;
    list.push_back(
        "This page is for planning. Each run is worked from its own run sheet: firstdrop campaign "
        "FILE --run 1 -o run-1.html writes that of run 1.");
    list.push_back(fmt::format(
        "Stop is the planned stop. Bench free is when nine runs in ten have ended, with "
        "you "
        "as late as the recipe allows. It is for planning the day and no limit for the heat: that "
        "is what stands after \"heat off by\". The next run is counted on only {} after the bench "
        "is free, "
        "for cooling, emptying, cleaning and filling. If a run takes longer still, all after it "
        "move: leave the last one out rather than hurry.",
        text(plan_.campaign.bench.between_runs)));
    list.emplace_back(
        "Ranges are 10 to 90 % of a run, times the runs: as if all erred the same way, since they "
        "share what is not known of plant and still. No sum is wider.");
    if (std::any_of(plan_.days.begin(), plan_.days.end(),
                    [](const CampaignDay& day) { return day.needs.ice_ready.has_value(); })) {
      list.emplace_back(
          "Ice is rounded up run by run. What to have ready is enough for any heater; days are "
          "filled by what is expected. Give it a day and a night to freeze (common practice).");
    }
    if (plan_.days.size() > 1 &&
        std::any_of(plan_.work.begin(), plan_.work.end(), [](const CampaignWork& work) {
          return work.placed > 0 && work.plan.recipe.state == State::fresh;
        })) {
      list.emplace_back(
          "Fresh herb is planned as fresh on its day. What is cut all at once wilts while it "
          "waits: "
          "cut it day by day, or dry the rest and plan it as dried.");
    }
  }

  // The standing findings of all runs in their brief form, each once.
  void always() {
    for (const CampaignWork& work : plan_.work) {
      for (const Finding& finding : work.plan.findings) {
        const std::string& brief = finding.kind->brief;
        if (brief.empty() || finding.is<found::LocalRules>()) continue;
        auto& list = content_.always;
        if (std::find(list.begin(), list.end(), brief) == list.end()) {
          list.push_back(brief);
        }
      }
    }
    content_.footing =
        "Local codes, still rules and licensed practice come before this page. A plan is no "
        "promise: watch the still, not the page.";
  }

  const CampaignPlan& plan_;
  const Units units_;
  CampaignContent content_;
};

}  // namespace

CampaignContent campaign_content(const CampaignPlan& plan) {
  return Writer(plan).write();
}

Verdict verdict_of(const CampaignPlan& plan) {
  if (!plan.may_be_run()) return Verdict::refused;
  const bool caution =
      std::any_of(plan.work.begin(), plan.work.end(), [](const CampaignWork& work) {
        return work.plan.verdict == Verdict::caution || !work.cautions.empty();
      });
  return caution ? Verdict::caution : Verdict::go;
}

std::map<std::size_t, int> runs_by_work(const CampaignDay& day) {
  std::map<std::size_t, int> runs;
  for (const CampaignRun& run : day.runs) ++runs[run.work];
  return runs;
}

std::string day_with_weekday(LocalDay day) {
  return weekday_text(day) + " " + day_text(day);
}

std::string one_run_in_words(const CampaignWork& work) {
  const Units units = work.plan.recipe.units;
  const RunPlan& run = *work.plan.run;
  const Plant& plant = work.plan.recipe.plant;
  std::string words =
      fmt::format("{} of {}, {} of water {}", text(work.plan.charge.mass, units),
                  visible(plant.name), pour_text(work.plan), how_warm_to_pour(work.plan.recipe));
  if (work.ice_ready) {
    words += fmt::format(", {} of ice", work.ice ? text(*work.ice, units) : "no");
    if (work.ice_ready != work.ice) {
      words += fmt::format(" (have {} ready)", text(*work.ice_ready, units));
    }
  }
  if (run.stops_by_clock()) {
    words += fmt::format("; stop after {}", text(*run.stop.clock));
    if (run.stop.hydrosol) words += fmt::format(" or at {}", text(*run.stop.hydrosol, units));
  } else {
    words += fmt::format("; stop at {}", text(*run.stop.hydrosol, units));
    if (const auto by = run.clock_beside_level()) {
      words += fmt::format(" (still below it after {}: then too)", text(*by));
    }
  }
  return words;
}

std::string yield_in_words(const CampaignWork& work) {
  const Units units = work.plan.recipe.units;
  const std::string hydrosol = about(work.hydrosol(), units) + " of hydrosol";
  const Range<Volume>& of_a_run = work.plan.run->uncertainty.oil_volume;
  if (of_a_run.high < a_drop_of_oil) return hydrosol + ", no oil to part";
  const Range<Volume> oil = work.oil_volume();
  if (of_a_run.typical < a_drop_of_oil) {
    return fmt::format("{}, a film of oil at most, up to {}", hydrosol, text(oil.high, units));
  }
  return fmt::format("{}, {} of oil", hydrosol, about(oil, units));
}

}  // namespace firstdrop
