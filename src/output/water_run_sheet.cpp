#include "output/water_run_sheet.hpp"

#include <fmt/core.h>

#include <utility>

#include "base/visible_text.hpp"
#include "output/bench_words.hpp"
#include "output/sheet.hpp"
#include "output/sheet_content.hpp"
#include "quantity/range_text.hpp"

namespace firstdrop {
namespace {

class WaterRunSheet {
 public:
  WaterRunSheet(const WaterRunPlan& plan, const Recipe& recipe, const Tables& tables)
      : plan_(plan), recipe_(recipe), still_(recipe.still), tables_(tables) {}

  SheetContent content(const std::string& command) const {
    SheetContent sheet;
    sheet.title = "Water run";
    sheet.subject = fmt::format("{} · water alone, no herb · to measure the still's heat",
                                visible(still_.title));
    if (has_invented_figures(still_)) sheet.example = "Example still: measure yours.";
    sheet.verdict = "Water only";
    sheet.amounts = amounts();
    sheet.bench = set_up();
    sheet.before_heat = checks();
    sheet.steps = steps();
    sheet.stop = amount(plan_.marks.back().level);
    sheet.latest = fmt::format(
        "Never leave it alone. In the worst case, {} late, {} of water is still in the pot; {} "
        "must stay.",
        text(recipe_.limits.absence), amount(plan_.left_at_worst), amount(plan_.reserve));
    if (plan_.drawn_less)
      sheet.latest += " That is why you draw less than a fifth of the water here.";
    if (plan_.cooled_less)
      sheet.latest += " You draw less than usual, so that the coolant stays below its limit.";
    sheet.forgotten = brief("ran-dry");
    sheet.yield = "Steam scalds: stop at once if it leaves anywhere but through the condenser.";
    sheet.boxes = boxes();
    sheet.afterwards = afterwards(command);
    sheet.cautions = {
        "Keep the vapour path open from the pot to the outlet. Never plug, clamp or weigh it down.",
        "Never open the still while it is hot.",
        "Steam at the outlet or at a joint: heat off, then find out why."};
    sheet.footing =
        "Times are from heat on, for this still's figures or the defaults for its kind: 8 runs in "
        "10. Steps without a figure are common practice.";
    return sheet;
  }

 private:
  template <class Q>
  std::string amount(Q quantity) const {
    return text(quantity, recipe_.units);
  }
  std::string brief(const char* code) const { return tables_.findings.at(code)->brief; }

  // A kitchen scale shows grams up to a few kilograms.
  std::string by_weight() const {
    if (recipe_.units == Units::us || plan_.fill_mass > kilograms(3))
      return amount(plan_.fill_mass);
    return fmt::format("{:.0f} g", in_grams(plan_.fill_mass));
  }

  std::vector<SheetAmount> amounts() const {
    const std::string power = text(still_.heater.power.typical());
    std::vector<SheetAmount> all = {
        {"Water", amount(plan_.fill),
         fmt::format("or {} on the scale, {}; write down what you weigh", by_weight(),
                     how_warm_to_pour(recipe_))}};
    coolant(all);
    all.push_back({"Heat", text(recipe_.setting),
                   fmt::format("of {}; if you can, the setting of your batches", power)});
    return all;
  }

  void coolant(std::vector<SheetAmount>& all) const {
    const Condenser& condenser = still_.condenser;
    const auto& given = recipe_.site.coolant;
    const std::string cold = given ? amount(*given) + " at most" : "as warm as the room at most";
    if (plan_.cooling.flow) {
      all.push_back({"Tap", text(tap_up(*plan_.cooling.flow, recipe_.units), recipe_.units),
                     "from the first drop on, " + cold});
      return;
    }
    const bool bath = condenser.kind == CondenserKind::ice_bath;
    const bool has_ice = plan_.cooling.ice > grams(0);
    all.push_back({bath ? "Bath" : "Bucket", amount(condenser.coolant->typical()),
                   cold + (bath && has_ice ? " before the ice" : "")});
    if (!has_ice) return;
    const std::string at_once = amount(plan_.cooling.ice_at_once);
    const bool more = plan_.cooling.ice > plan_.cooling.ice_at_once * (1.0 + 1e-9);
    std::string how = "ready; " + at_once + " at a time, if the coolant gets to its limit";
    if (bath)
      how = more ? at_once + " at the start, more if the bath gets to its limit" : "at the start";
    all.push_back({"Ice", amount(ice_up(plan_.cooling.ice, recipe_.units)), how});
  }

  std::vector<std::string> set_up() const {
    return {"Still level, steady, free all round. The same lid, plate and place as always.",
            brief("air-and-distance"),
            still_.heater.kind == HeaterKind::gas_burner ? "Hose tested with soapy water."
                                                         : brief("wet-electricity"),
            "Coolant as above. An empty jug under the outlet. " + brief("suck-back"),
            "Gloves, glasses, timer, scale, pen."};
  }

  std::vector<std::string> checks() const {
    return {fmt::format("{} of water is in the pot. No herb: the still is empty above it.",
                        amount(plan_.fill)),
            "Blow into the outlet: air must pass. " + brief("open-path"),
            "Coolant is on. If there is an energy meter, it shows zero.", brief("stay-with-it")};
  }

  SheetStep step(const Range<Duration>& at, std::string see, std::string act) const {
    SheetStep made;
    made.at = text(at.typical);
    made.range = span_text(at, recipe_.units);
    made.see = std::move(see);
    made.act = std::move(act);
    return made;
  }

  std::vector<SheetStep> steps() const {
    SheetStep on;
    on.at = text(seconds(0));
    on.act = fmt::format("HEAT ON, {}. Start the timer.", text(recipe_.setting));
    on.key = true;
    SheetStep watch;
    watch.see = "All the time: drip steady, outlet cool, coolant cool.";
    watch.act = fmt::format(
        "Steam anywhere but in the condenser: HEAT OFF. Coolant at {}: cool it with ice, or HEAT "
        "OFF.",
        text(recipe_.still->condenser.coolant_limit.typical(), recipe_.units));
    watch.timed = false;
    std::vector<SheetStep> all = {
        on, step(plan_.boil, "The water boils: it drums, and steam rises.", "Write the time."),
        step(plan_.first_drop, "First drop.",
             fmt::format("Write the time. None by {}: HEAT OFF, is the path open?",
                         text(plan_.none_by))),
        watch};
    for (const TimedMark& mark : plan_.marks) {
      const bool last = &mark == &plan_.marks.back();
      if (last && plan_.cooling.ice_before_stop) all.push_back(last_ice());
      SheetStep one = step(
          mark.at, fmt::format("About {} in the jug.", amount(mark.level)),
          last ? "Write level and time. HEAT OFF. Coolant stays on." : "Write level and time.");
      one.key = last;
      all.push_back(std::move(one));
    }
    const HeaterCheck check = heater_check(plan_.most_distillate, recipe_.units);
    all[3].act +=
        fmt::format(" {} in less than {}: too hot, HEAT OFF.", check.mark, text(check.at_least));
    return all;
  }

  SheetStep last_ice() const {
    SheetStep ice;
    const Volume level = plan_.marks.back().level * ice_mark;
    ice.see = fmt::format("About {} in the jug.", amount(neat_down(level, recipe_.units)));
    ice.act = fmt::format("Put {} of ice in, warm or not.", amount(plan_.cooling.ice_at_once));
    ice.timed = false;
    return ice;
  }

  std::vector<SheetBox> boxes() const {
    const bool us = recipe_.units == Units::us;
    const char* jug = us ? "fl oz" : "mL";
    const char* scale = us ? "oz" : "g";
    std::vector<SheetBox> all = {
        {"Water poured in", scale}, {"Water boils at", "min"}, {"First drop at", "min"}};
    for (const char* which : {"Level 1", "Level 2", "Level 3"}) {
      all.push_back({which, jug});
      all.push_back({fmt::format("{} at", which), "min"});
    }
    all.push_back({"Left in the pot", scale});
    all.push_back({"Energy by the meter", "kWh"});
    all.push_back({"Room", us ? "°F" : "°C"});
    all.push_back({"Altitude", us ? "ft" : "m"});
    all.push_back({"Setting", "%"});
    return all;
  }

  std::vector<std::string> afterwards(const std::string& command) const {
    const bool us = recipe_.units == Units::us;
    const char* jug = us ? "fl oz" : "mL";
    const char* scale = us ? "oz" : "g";
    return {"Leave it closed until it is cold. " + brief("after-heat-off"),
            "Pour out what is left in the pot, and weigh it.",
            fmt::format("Type what you wrote, and leave out what you don't have: {0} "
                        "--fill \"____ {2}\" --boil \"____ min\" --first-drop \"____ min\" "
                        "--caught \"____ {1} at ____ min\" --caught \"____ {1} at ____ min\" "
                        "--caught \"____ {1} at ____ min\" --left \"____ {2}\" "
                        "--energy \"____ kWh\" -o my-measured-still.json",
                        command, jug, scale)};
  }

  const WaterRunPlan& plan_;
  const Recipe& recipe_;
  const Still& still_;
  const Tables& tables_;
};

}  // namespace

std::string water_run_sheet(const WaterRunPlan& plan, const Recipe& recipe, const Tables& tables,
                            const std::string& command, SheetFormat format) {
  return sheet_in(format, WaterRunSheet(plan, recipe, tables).content(command));
}

}  // namespace firstdrop
