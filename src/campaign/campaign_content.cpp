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
#include "quantity/range_text.hpp"

namespace firstdrop {
namespace {

template <class Quantity>
std::string about_in_all(const Range<Quantity>& range, Units units) {
  // If all runs stop at the same level, low and high differ only in the last digits.
  const bool same = range.high - range.low <= range.typical * 1e-9;
  return same ? text(range.typical, units) : about(range, units);
}

bool gas(const CampaignWork& work) {
  const Still& still = work.plan.recipe.still;
  return still.heater.kind == HeaterKind::gas_burner;
}

std::string clock(LocalDay day, LocalMinute at) {
  return time_of_day(day, minutes(double((at - day).count())));
}

// ---- head

std::string summary_of(const CampaignPlan& plan) {
  const auto runs = static_cast<std::size_t>(plan.runs());
  std::string count = counted(runs, "run", "runs");
  if (runs == 0) return count;
  const std::string first = day_with_weekday(plan.days.front().day);
  const std::string last = day_with_weekday(plan.days.back().day);
  return fmt::format("{} on {}, {}", count, counted(plan.days.size(), "day", "days"),
                     first == last ? first : fmt::format("{} to {}", first, last));
}

std::string verdict_words(Verdict verdict, int runs) {
  switch (verdict) {
    case Verdict::go:
      return "all of it has its day";
    case Verdict::caution:
      return "read the cautions first";
    case Verdict::refused:
      break;
  }
  return runs > 0 ? "not all of it can be done; see why first" : "none of it can be done as asked";
}

std::string example_stills(const std::vector<CampaignWork>& all) {
  std::set<std::string> names;
  for (const CampaignWork& work : all) {
    const Still& still = work.plan.recipe.still;
    if (has_invented_figures(still)) names.insert(visible(still.title));
  }
  if (names.empty()) return "";
  return fmt::format("{} ({})", example_still_words, joined({names.begin(), names.end()}, "; "));
}

// ---- the work

std::string order_in_words(const WorkOrder& order, Units units) {
  if (const auto* harvest = std::get_if<HarvestOrder>(&order.order)) {
    return fmt::format("{} of harvest", text(harvest->mass, units));
  }
  std::string often;
  if (order.confidence) often = fmt::format(", in {} of runs", text(*order.confidence));
  if (const auto* hydrosol = std::get_if<HydrosolGoal>(&order.order)) {
    return fmt::format("{} of hydrosol wanted{}", text(hydrosol->volume, units), often);
  }
  const auto& oil = std::get<OilGoal>(order.order);
  return fmt::format("{} of oil wanted{}",
                     std::visit([&](auto amount) { return text(amount, units); }, oil.amount),
                     often);
}

std::vector<std::string> cautions_of(const CampaignWork& work) {
  std::vector<std::string> cautions;
  for (const Finding& finding : work.plan.findings) {
    if (is_read_first(finding))
      cautions.push_back(visible(finding_text(finding, work.plan.recipe.units)));
  }
  for (const CampaignProblem& caution : work.cautions) cautions.push_back(visible(caution.text));
  return cautions;
}

CampaignItem item_of(const CampaignWork& work, const WorkOrder& order, Units units) {
  CampaignItem item;
  item.title = run_title(work.plan.recipe);
  item.subject = subject_in_words(work.plan.recipe);
  item.order = order_in_words(order, units);
  for (const CampaignProblem& problem : work.problems) {
    item.problems.push_back((problem.code == "refused" ? "Refused: " : "") + visible(problem.text));
  }
  // Refused work has no amounts, because nobody may work from it.
  if (work.placed == 0) return item;
  const std::string count = work.placed == work.runs
                                ? counted(work.runs, "run", "runs")
                                : fmt::format("{} of {} runs", work.placed, work.runs);
  item.runs = fmt::format("{} of {}", count, text(work.plan.charge.mass, units));
  item.each = one_run_in_words(work) + ". " + bounds_in_words(work.plan, "");
  item.gives = yield_in_words(work);
  item.cautions = cautions_of(work);
  return item;
}

std::vector<CampaignItem> items_of(const CampaignPlan& plan) {
  std::vector<CampaignItem> items;
  for (std::size_t i = 0; i < plan.work.size(); ++i) {
    items.push_back(item_of(plan.work[i], plan.campaign.work[i], plan.campaign.units));
  }
  return items;
}

// ---- what it takes

const char* for_its_day(State state) {
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
const char* for_all_days(State state) {
  return state == State::dried ? ": may be bought ahead" : ": day by day, as listed below";
}

using ForState = const char* (*)(State);

// One entry for each plant and state, summed over all the work that uses it.
std::vector<CampaignAmount> herbs(const CampaignPlan& plan, const std::map<std::size_t, int>& runs,
                                  ForState advice) {
  struct Heap {
    std::string key;
    State state;
    std::string name;
    Mass mass;
  };
  std::vector<Heap> heaps;
  const auto add = [&](const Recipe& recipe, const Plant& plant, Mass mass) {
    auto heap = std::find_if(heaps.begin(), heaps.end(), [&](const Heap& one) {
      return one.key == plant.key && one.state == recipe.state;
    });
    if (heap == heaps.end()) {
      heap = heaps.insert(heap, {plant.key, recipe.state, visible(plant.name), Mass()});
    }
    heap->mass += mass;
  };
  for (const auto& [index, count] : runs) {
    const Plan& of_run = plan.work[index].plan;
    const Mass charge = of_run.charge.mass * double(count);
    const std::vector<BlendPart>& blend = of_run.recipe.plant->blend;
    if (blend.empty()) add(of_run.recipe, of_run.recipe.plant, charge);
    for (const BlendPart& part : blend) add(of_run.recipe, part.plant, charge * part.share);
  }
  std::vector<CampaignAmount> list;
  for (const Heap& heap : heaps) {
    list.push_back({"Herb", text(heap.mass, plan.campaign.units),
                    fmt::format("{}, {}{}", heap.name, to_string(heap.state), advice(heap.state))});
  }
  return list;
}

std::vector<CampaignAmount> water(const CampaignNeeds& needs, Units units) {
  std::vector<CampaignAmount> list = {{"Water", text(needs.pot_water, units), "into the pot"}};
  if (needs.tap_water > litres(0)) {
    list.push_back({"Tap", text(needs.tap_water, units), "through the condenser", false});
  }
  return list;
}

std::vector<CampaignAmount> costs(const std::vector<CampaignWork>& all) {
  std::map<std::string, double> sums;
  for (const CampaignWork& work : all) {
    if (work.placed == 0) continue;
    const EnergyPlan& energy = work.plan.run->energy;
    if (!energy.energy_cost && !energy.plant_cost) continue;
    sums[energy.currency] +=
        work.placed * (energy.energy_cost.value_or(0.0) + energy.plant_cost.value_or(0.0));
  }
  std::vector<CampaignAmount> list;
  for (const auto& [currency, sum] : sums) {
    list.push_back({"Cost", fmt::format("{:.2f} {}", sum, visible(currency)),
                    "as far as recipes have prices"});
  }
  return list;
}

const char* source_of_heat(const std::vector<CampaignWork>& all) {
  const auto any = [&](bool of_gas) {
    return std::any_of(all.begin(), all.end(), [&](const CampaignWork& work) {
      return work.placed > 0 && gas(work) == of_gas;
    });
  };
  if (!any(true)) return "from the socket";
  return any(false) ? "socket and gas" : "of gas";
}

void append_amounts(std::vector<CampaignAmount>& to, const std::vector<CampaignAmount>& more) {
  to.insert(to.end(), more.begin(), more.end());
}

std::vector<CampaignAmount> totals_of(const CampaignPlan& plan) {
  if (plan.days.empty()) return {};
  const Units units = plan.campaign.units;
  const CampaignNeeds needs = plan.needs();
  std::map<std::size_t, int> runs;
  for (std::size_t i = 0; i < plan.work.size(); ++i) {
    if (plan.work[i].placed > 0) runs[i] = plan.work[i].placed;
  }
  std::vector<CampaignAmount> list = herbs(plan, runs, for_all_days);
  append_amounts(list, water(needs, units));
  if (needs.ice_ready) {
    std::optional<Mass> most_ice;
    for (const CampaignDay& day : plan.days) most_ice = std::max(most_ice, day.needs.ice_ready);
    list.push_back(
        {"Ice", text(needs.ice.value_or(Mass()), units),
         fmt::format("expected; have up to {} ready for a day", text(*most_ice, units))});
  }
  list.push_back({"Heat", text(needs.plug), source_of_heat(plan.work)});
  append_amounts(list, costs(plan.work));
  return list;
}

// ---- the days

std::vector<CampaignAmount> amounts_for(const CampaignDay& day, const CampaignPlan& plan) {
  const Units units = plan.campaign.units;
  std::vector<CampaignAmount> list;
  if (day.needs.ice_ready) {
    list.push_back({"Ice", text(*day.needs.ice_ready, units),
                    fmt::format("to have ready, frozen by {}; {} expected",
                                clock(day.day, plan.campaign.bench.opens(day.day)),
                                day.needs.ice ? text(*day.needs.ice, units) : "none")});
  }
  append_amounts(list, herbs(plan, runs_by_work(day), for_its_day));
  append_amounts(list, water(day.needs, units));
  list.push_back({"Heat", text(day.needs.plug), "", false});
  return list;
}

CampaignDayList day_list(const CampaignDay& day, const CampaignPlan& plan) {
  CampaignDayList list;
  list.day = day_with_weekday(day.day);
  list.ready = amounts_for(day, plan);
  for (const CampaignRun& run : day.runs) {
    const CampaignWork& work = plan.work[run.work];
    list.rows.push_back(
        {fmt::format("{}", run.number), clock(day.day, run.heat_on), clock(day.day, run.stop),
         clock(day.day, run.done_by),
         fmt::format("{}: {}; {}", run_title(work.plan.recipe), one_run_in_words(work),
                     by_in_words(work.plan, clock(day.day, run.heat_off_by)))});
  }
  return list;
}

// ---- notes

std::vector<std::string> notes_on(const CampaignPlan& plan) {
  if (plan.days.empty()) return {};
  std::vector<std::string> list;
  list.push_back(
      "This page is for planning. Work each run from its own run sheet: firstdrop campaign "
      "FILE --run 1 -o run-1.html writes that of run 1.");
  list.push_back(fmt::format(
      "\"Stop\" is the planned stop. By \"bench free\" nine runs in ten have ended, even if you "
      "come as late as the recipe allows. It is for planning the day, not for the heat: for that, "
      "go by \"heat off by\". The next run starts {} after the bench is free, so that you can "
      "cool, empty, clean and fill the still. If a run takes even longer, all later runs move. "
      "Leave the last one out rather than hurry.",
      text(plan.campaign.bench.between_runs)));
  list.emplace_back(
      "Ranges are those of one run (10 to 90 %) times the number of runs. That assumes that all "
      "runs "
      "err the same way, because they share what isn't known about plant and still. No sum can be "
      "wider.");
  if (std::any_of(plan.days.begin(), plan.days.end(),
                  [](const CampaignDay& day) { return day.needs.ice_ready.has_value(); })) {
    list.emplace_back(
        "Ice is rounded up for each run. The ice to have ready is enough for any heater. Days are "
        "filled by the ice expected. Give it a day and a night to freeze (common practice).");
  }
  if (plan.days.size() > 1 &&
      std::any_of(plan.work.begin(), plan.work.end(), [](const CampaignWork& work) {
        return work.placed > 0 && work.plan.recipe.state == State::fresh;
      })) {
    list.emplace_back(
        "Fresh herb is planned as fresh on its day. Herb that is cut all at once wilts while it "
        "waits. Cut it day by day, or dry the rest and plan it as dried.");
  }
  return list;
}

// The standing findings of all runs in their brief form, each once.
std::vector<std::string> for_every_run(const std::vector<CampaignWork>& all) {
  std::vector<std::string> list;
  for (const CampaignWork& work : all) {
    for (const Finding& finding : work.plan.findings) {
      const std::string& brief = finding.kind->brief;
      if (brief.empty() || finding.is<found::LocalRules>()) continue;
      if (std::find(list.begin(), list.end(), brief) == list.end()) {
        list.push_back(brief);
      }
    }
  }
  return list;
}

}  // namespace

CampaignContent campaign_content(const CampaignPlan& plan) {
  CampaignContent content;
  content.title = visible(plan.campaign.title.empty() ? "Untitled campaign" : plan.campaign.title);
  content.summary = summary_of(plan);
  content.example = example_stills(plan.work);
  content.verdict = verdict_of(plan);
  content.verdict_words = verdict_words(content.verdict, plan.runs());
  content.items = items_of(plan);
  content.totals = totals_of(plan);
  for (const CampaignDay& day : plan.days) content.days.push_back(day_list(day, plan));
  content.notes = notes_on(plan);
  content.always = for_every_run(plan.work);
  content.footing =
      "Local codes, rules on stills and licensed practice come before this page. A plan is no "
      "promise: "
      "watch the still, not the page.";
  return content;
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
  std::string words =
      fmt::format("{}, {} of water {}", charge_in_words(work.plan.recipe, work.plan.charge.mass),
                  pour_text(work.plan), how_warm_to_pour(work.plan.recipe));
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
  std::string hydrosol = about_in_all(work.hydrosol(), units) + " of hydrosol";
  if (!work.plan.run->has_oil) return hydrosol;
  const Range<Volume>& of_a_run = work.plan.run->uncertainty.oil_volume;
  if (of_a_run.high < a_drop_of_oil) return hydrosol + ", no oil to separate";
  const Range<Volume> oil = work.oil_volume();
  if (of_a_run.typical < a_drop_of_oil) {
    return fmt::format("{}, a film of oil at most, up to {}", hydrosol, text(oil.high, units));
  }
  return fmt::format("{}, {} of oil", hydrosol, about_in_all(oil, units));
}

}  // namespace firstdrop
