#include "firstdrop/output/finding_words.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <set>
#include <vector>

#include "base/text_layout.hpp"
#include "firstdrop/output/still_words.hpp"
#include "firstdrop/plan/plan.hpp"
#include "output/shown_amount.hpp"
#include "output/stop_bounds.hpp"
#include "quantity/numbers_text.hpp"

namespace firstdrop {
namespace {

// --- the grave harms that an oil can do ----------------------------------------------------------

const char* grave_route(Route route) {
  switch (route) {
    case Route::swallowed:
      return "swallowed";
    case Route::breathed:
      return "breathed";
    case Route::on_skin:
      return "put on the skin";
    case Route::in_eyes:
      break;
  }
  return "splashed into the eyes";
}

const char* grave_group(AtRisk group) {
  switch (group) {
    case AtRisk::infants:
      return "infants";
    case AtRisk::children:
      return "children";
    case AtRisk::pregnancy:
      return "pregnant women";
    case AtRisk::epilepsy:
      return "people with epilepsy";
    case AtRisk::allergic:
      return "people with allergies";
    case AtRisk::pets:
      break;
  }
  return "pets";
}

using Harms = std::set<Harm>;

std::string harms_in_a_row(const Harms& harms) {
  std::vector<std::string> words;
  for (const Harm harm : harms) {
    words.push_back(harm == Harm::poisoning ? "serious poisoning" : to_string(harm));
  }
  return in_a_row(words, "or");
}

Harms grave_harms(const Hazard& hazard) {
  Harms grave;
  for (const Harm harm : hazard.harms)
    if (is_grave(harm)) grave.insert(harm);
  return grave;
}

std::map<Route, Harms> harms_by_route(const std::vector<Hazard>& hazards) {
  std::map<Route, Harms> by_route;
  for (const Hazard& hazard : hazards)
    for (const Route route : hazard.routes) by_route[route].merge(grave_harms(hazard));
  return by_route;
}

// "seizures or coma if swallowed, and seizures if breathed or put on the skin".
std::string causes_in_words(const std::vector<Hazard>& hazards,
                            const std::map<Route, Harms>& by_route) {
  Harms unrouted;
  for (const Hazard& hazard : hazards)
    if (hazard.routes.empty()) unrouted.merge(grave_harms(hazard));
  for (const auto& [route, harms] : by_route)
    for (const Harm harm : harms) unrouted.erase(harm);
  std::vector<std::string> clauses;
  if (!unrouted.empty()) clauses.push_back(harms_in_a_row(unrouted));
  std::set<Harms> said;
  for (const auto& [first, harms] : by_route) {
    if (!said.insert(harms).second) continue;
    std::vector<std::string> routes;
    for (const auto& [route, same] : by_route)
      if (same == harms) routes.emplace_back(grave_route(route));
    clauses.push_back(fmt::format("{} if {}", harms_in_a_row(harms), in_a_row(routes, "or")));
  }
  return joined(clauses, ", and ");
}

std::string warning_of(const found::ToxicOil& toxic) {
  const std::vector<Hazard>& hazards = toxic.hazards;
  const std::map<Route, Harms> by_route = harms_by_route(hazards);
  std::string words = fmt::format("{} can cause {}. ", toxic.has_oil ? "This oil" : "This plant",
                                  causes_in_words(hazards, by_route));
  std::set<AtRisk> at_risk;
  if (toxic.in_pregnancy) at_risk.insert(AtRisk::pregnancy);
  bool seizures = false;
  for (const Hazard& hazard : hazards) {
    at_risk.insert(hazard.at_risk.begin(), hazard.at_risk.end());
    seizures = seizures || grave_harms(hazard).contains(Harm::seizures);
  }
  if (!at_risk.empty()) {
    std::vector<std::string> groups;
    for (const AtRisk group : at_risk) groups.emplace_back(grave_group(group));
    words += fmt::format("Most at risk: {}. ", in_a_row(groups, "and"));
  }
  if (by_route.contains(Route::breathed) || seizures) {
    words += fmt::format(
        "Open a window. Keep infants, pets and anyone {}with epilepsy out of the room. ",
        toxic.in_pregnancy ? "who is pregnant or " : "");
  }
  return words +
         "Lock the bottle away. If someone swallows it, call a poison centre at once; don't make "
         "them vomit.";
}

// --- parts of several texts ----------------------------------------------------------------------

const char* key_of(const found::OwnReading& reading) {
  return reading.kind == found::OwnReading::Kind::boil_time ? "own.boil_time"
                                                            : "own.distillate_rate";
}

constexpr const char* how_was_it_measured =
    "Check how you measured it: the setting, the amount of water, the jug and the clock. Write the "
    "heater's setting at that time as own.setting.";

// Empty at the full setting.
std::string at_setting(Fraction setting) {
  return setting < fraction(1) ? fmt::format(" at a setting of {}", text(setting)) : "";
}

std::string circuit_in_words(const Circuit& circuit) {
  return fmt::format("{:.0f} V and {:.0f} A, {}", in_volts(circuit.mains),
                     in_amperes(circuit.breaker), text(circuit.most()));
}

// --- the sentences -------------------------------------------------------------------------------

// One function for each kind of finding. A kind without one doesn't compile.
struct Sentences {
  Units units;

  // In the units of the bench.
  template <class Quantity>
  std::string say(Quantity quantity) const {
    return text(quantity, units);
  }

  // The heat.
  std::string heat(const char* what, const found::HeatAgainstLoss& heat) const {
    return fmt::format(
        "{} At a setting of {}, about {} of heat gets into the pot. Pot and column lose {} when "
        "the "
        "pot is at {}. Insulate them to lose less.",
        what, say(heat.setting), say(heat.into_pot), say(heat.lost), say(heat.boiling));
  }
  std::string operator()(const found::NeverBoils& f) const {
    return heat("The pot never boils.", f.heat);
  }
  std::string operator()(const found::NeverAtTheTop& f) const {
    return heat("No steam reaches the condenser.", f.heat);
  }
  std::string operator()(const found::PlantUnknown& f) const {
    return fmt::format(
        "The hazards of {0} aren't known here: look them up before you distil it, breathe its "
        "steam "
        "or use what comes. {1}",
        f.plant,
        f.is_form
            ? fmt::format("Its figures are typical of its form, {}. Such plants differ a lot.",
                          f.like)
        : f.has_oil
            ? fmt::format("Its figures are those of {}. Its oil could be anything that plants of "
                          "this form give.",
                          f.like)
            : fmt::format("Its figures are those of {}.", f.like));
  }
  std::string operator()(const found::NotToBeDistilled& f) const {
    return fmt::format("Don't distil {}. {}", f.plant, f.why);
  }
  std::string operator()(const found::SteamSpoils& f) const {
    return fmt::format("Steam is wrong for {}. {}", f.plant, f.why);
  }
  std::string operator()(const found::OilUnknown& f) const {
    return fmt::format(
        "Nothing is known here of any oil in {}, so this plan is for hydrosol alone.", f.plant);
  }
  std::string operator()(const found::HeaterWeak& f) const {
    const bool plate =
        f.kind == HeaterKind::electric_plate || f.kind == HeaterKind::induction_plate;
    return plate ? "If the plate's contact with the pot is poor, this heater may bring no steam to "
                   "the condenser at all. Use a higher setting, use a flat-based pot, or insulate "
                   "the still."
                 : "If this heater is among the weaker of its kind, it may bring no steam to the "
                   "condenser at all. Use a higher setting, or insulate the still.";
  }
  std::string operator()(const found::OwnFigureImpossible& f) const {
    return fmt::format(
        "Your {} means {} of heat in the pot{}. A heater of {} can't give more than {}, even at "
        "high mains voltage. {}",
        key_of(f.reading), say(f.reading.heat), at_setting(f.setting), say(f.rated), say(f.most),
        how_was_it_measured);
  }
  std::string operator()(const found::OwnFigureUnlikely& f) const {
    return fmt::format(
        "Your {} means {} of heat in the pot{}. Heaters of this kind give {} to {}. {} The plan "
        "uses "
        "your figure. Its safety limits cover that figure and the usual ones.",
        key_of(f.reading), say(f.reading.heat), at_setting(f.setting), say(f.least), say(f.most),
        how_was_it_measured);
  }
  std::string operator()(const found::OwnFiguresDisagree& f) const {
    return fmt::format(
        "Your readings disagree: {} means {} of heat in the pot, but {} means {}{}. Measure one of "
        "them again. Until then the plan's safety limits cover the stronger heat.",
        key_of(f.lower), say(f.lower.heat), key_of(f.higher), say(f.higher.heat),
        at_setting(f.setting));
  }

  // What is loaded and asked for.
  std::string operator()(const found::TooManyRuns& f) const {
    return fmt::format(
        "{}{} would take {} runs, because one run holds {}. A plan covers at most {} runs. Plan "
        "part of the harvest at a time, or use a larger still.",
        other_unit(f.harvest, f.fits, units), say(f.harvest), f.runs, say(f.each), f.most_runs);
  }
  std::string operator()(const found::NoRoomForCharge& f) const {
    return fmt::format(
        "Only {} of this material fits into the still, which is too little to weigh out. Use a "
        "larger still.",
        say(f.fits));
  }
  std::string operator()(const found::NoWaterToSpare& f) const {
    return fmt::format(
        "If you come {} late, more water boils off than this pot can spare. Loading less herb "
        "doesn't help.",
        say(f.lateness));
  }
  std::string operator()(const found::OilTakesTooManyRuns& f) const {
    return fmt::format(
        "{} of oil would take {:.0f} runs, because one full run of {} of herb gives about {}. A "
        "plan covers at most {} runs.",
        say(f.wanted), f.runs, say(f.charge), say(f.each), f.most_runs);
  }
  std::string operator()(const found::OilStaysDissolved& f) const {
    return fmt::format(
        "A charge of {} holds {} of oil. About {} of that comes over in this still, and nearly all "
        "of it stays dissolved in the hydrosol.",
        say(f.charge), say(f.in_charge), say(f.comes_over));
  }
  std::string operator()(const found::OilBeyondCharge& f) const {
    return fmt::format(
        "You asked for {:.2f} g of separated oil per run, but a charge of {} gives at most about "
        "{:.2f} g. The charge holds {} of oil, this still gets {} of that, and some of it stays "
        "dissolved in the hydrosol.",
        in_grams(f.wanted), say(f.charge), in_grams(f.most), say(f.in_charge), say(f.recovery));
  }
  std::string operator()(const found::ConfidenceOutOfReach& f) const {
    return fmt::format(
        "At most {} of runs like this meet the goal, and goal.confidence asks for {}.",
        say(f.chance), say(f.wanted));
  }
  std::string operator()(const found::PotOverfull& f) const {
    return fmt::format("{} of water is too much. Only {} fits {}.", say(f.poured), say(f.room),
                       f.below_grid ? "below the grid without wetting the charge"
                                    : "into the pot and leaves enough space for boiling");
  }
  std::string asked(const found::StopAsked& f) const {
    if (f.oil_share) {
      return fmt::format("{} of the oil (about {} of hydrosol)", say(*f.oil_share),
                         say(*f.stop.hydrosol));
    }
    if (f.stop.hydrosol) return say(*f.stop.hydrosol) + " of hydrosol";
    return say(*f.stop.clock) + " of heating";
  }
  std::string operator()(const found::ReserveReached& f) const {
    return fmt::format(
        "The pot could run down to {} of water, but {} must stay in it as a reserve. You pour {} "
        "and ask for {}. In the worst case, you come {} late with the heater at its strongest.",
        say(std::max(f.left, litres(0))), say(f.reserve), say(f.poured), asked(f.asked),
        say(f.lateness));
  }
  std::string operator()(const found::TargetExceedsPot& f) const {
    return fmt::format(
        "{} takes more water than this pot can give. It has room for {} of water, and {} of that "
        "can get into the receiver. The rest is the reserve, what herb and walls soak up, and a "
        "margin. The margin covers you coming {} late with the heater at its strongest.",
        asked(f.asked), say(f.room), say(f.most), say(f.lateness));
  }
  std::string operator()(const found::TooSlow& f) const {
    return fmt::format("This run would take {:.0f} h. Nobody can stay beside it that long.",
                       in_hours(f.takes));
  }
  std::string operator()(const found::StopsBeforeFirstDrop& f) const {
    return fmt::format(
        "The run would stop after {:.1f} min. The first drop comes after {:.1f} min, or with a "
        "weak heater after {:.0f} min. Allow more time.",
        in_minutes(f.stop), in_minutes(f.first_drop), in_minutes(f.latest));
  }
  std::string operator()(const found::BedSolid& f) const {
    return fmt::format(
        "At {} there are no gaps left between the pieces, so steam can't pass. The herb would "
        "block the vapour path. Pack it more loosely, cut it coarser, or check own.bulk_density.",
        say(f.bulk));
  }

  // The coolant.
  std::string operator()(const found::CoolantStartsWarm& f) const {
    return fmt::format("The coolant starts at {}, but its limit is {}. Start with colder water.",
                       say(f.start), say(f.limit));
  }
  std::string operator()(const found::CoolantLimitHigh& f) const {
    return fmt::format(
        "The still's coolant_limit lets the coolant get as warm as {}, but water boils at {} here. "
        "Coolant that warm would condense nothing. Lower coolant_limit.",
        say(f.limit), say(f.boiling));
  }
  std::string operator()(const found::CoolantTooWarm& f) const {
    return fmt::format(
        "{} of coolant reaches its limit of {} after {}. By then only {} of hydrosol has been "
        "collected.",
        say(f.coolant), say(f.limit), say(f.at), say(f.hydrosol));
  }
  std::string operator()(const found::IceOften& f) const {
    return fmt::format(
        "With the heater at its strongest, you would have to put in new ice every {:.1f} min, {} "
        "times in total. One person can't keep up with that. Use a larger bath, put in more ice at "
        "a time, or heat less.",
        in_minutes(f.every), f.changes);
  }
  std::string operator()(const found::CoolantShort& f) const {
    return fmt::format(
        "With the heater at its strongest, the condenser needs {} of coolant. It gets at most {}, "
        "which is too little to carry the heat away.",
        say(f.needed), say(f.most));
  }
  std::string operator()(const found::SteamEscapes& f) const {
    return fmt::format(
        "Steam would escape. With the heater at its strongest and coolant at {}, condensing all "
        "the "
        "steam takes {} of surface. The condenser is sure to have only {}.",
        say(f.coolant), say(f.needed), text_beside(f.has, f.needed, units));
  }
  std::string operator()(const found::DistillateWarm& f) const {
    return fmt::format(
        "With coolant at {}, the distillate comes out warmer than {}. All the steam condenses, but "
        "some oil is lost as vapour. Use colder coolant or less heat.",
        say(f.coolant), say(f.outlet));
  }
  std::string operator()(const found::CoolantWarmIfHot& f) const {
    return fmt::format(
        "With a strong heater, the coolant reaches its limit of {} after {}. Watch its "
        "thermometer, and have ice ready. At the limit, put the ice in or turn the heat off.",
        say(f.limit), say(f.at));
  }
  std::string operator()(const found::IceBeforeStop& f) const {
    return fmt::format(
        "Don't skip the ice before the stop. Without it, the coolant could be at {} if you come {} "
        "late with the heater at its strongest. Steam would then come into the room.",
        say(f.coolant), say(f.lateness));
  }
  std::string operator()(const found::CoolantWhenLate& f) const {
    return fmt::format(
        "If you come {} late to the stop with the heater at its strongest, the coolant could reach "
        "{}. It would no longer condense all the steam, and steam would come into the room.",
        say(f.lateness), say(f.coolant));
  }

  // The circuit.
  std::string operator()(const found::CircuitOverloaded& f) const {
    return fmt::format(
        "The heater draws {}, more than the circuit can carry ({}). Use another circuit or a "
        "smaller heater.",
        say(f.draws), circuit_in_words(f.circuit));
  }
  std::string operator()(const found::CircuitNearLimit& f) const {
    return fmt::format(
        "The heater draws {}, more than {} of what the circuit can carry ({}). Use nothing else on "
        "this circuit, and plug the heater straight into the wall. Feel plug and socket now and "
        "then, and turn the heat off if they get hot.",
        say(f.draws), say(f.share), circuit_in_words(f.circuit));
  }
  std::string operator()(const found::SocketNearLimit& f) const {
    return fmt::format(
        "The heater draws {}, more than a household socket should carry for hours ({}). Use "
        "nothing else on its circuit, and plug the heater straight into the wall. Feel plug and "
        "socket now and then, and turn the heat off if they get hot. Enter your circuit as "
        "site.mains and site.circuit.",
        say(f.draws), say(f.bears));
  }
  std::string operator()(const found::CircuitUnknown& f) const {
    return fmt::format(
        "The heater draws {}. The smallest common household circuit (120 V, 15 A) carries {} for "
        "hours. Look at your breaker, and enter your circuit as site.mains and site.circuit.",
        say(f.draws), say(f.bears));
  }

  // The charge.
  std::string operator()(const found::SeveralRuns& f) const {
    std::string words = fmt::format(
        "{}The harvest of {} takes {} runs of {} each. All amounts in this plan are for one run.",
        other_unit(f.harvest, f.fits, units), say(f.harvest), f.runs, say(f.each));
    if (!f.in_all) return words;
    return words + fmt::format(" All runs together give {} of hydrosol and need {} of heating.",
                               say(f.in_all->hydrosol), say(f.in_all->heat_on));
  }
  std::string operator()(const found::ChargeLeftOver& f) const {
    return fmt::format(
        "{} is {} more than fills the still, and that is too little for a run of its own. {} it "
        "for the next batch, or freeze it. Never press the charge down to make it fit.",
        say(f.asked), say(f.rest),
        f.may_be_added ? "Add it if it goes in loosely. If not, keep" : "Keep");
  }
  std::string operator()(const found::GroundChannels&) const {
    return "Ground material packs tight. Steam breaks a channel through it, or blows it into the "
           "vapour path and may block the path. Use a coarser cut, or put the herb in the water "
           "(hydro).";
  }
  std::string operator()(const found::ColumnNearlyEmpty& f) const {
    return fmt::format(
        "{}{} fills only {} of the space, so nearly all that comes over is plain water. Load more "
        "herb or use a smaller still.",
        other_unit(f.harvest, f.fits, units), say(f.charge), say(f.fill));
  }
  std::string operator()(const found::BulkDensityGuess& f) const {
    return fmt::format(
        "The least certain figure here is how much herb fits: from {} to {}. Fill the {} loosely "
        "once, weigh that herb, and enter its weight per volume as own.bulk_density. Never press "
        "the charge down to make it fit.",
        say(f.least), say(f.most), f.in_column ? "column" : "space over the grid");
  }

  // The figures behind the plan.
  std::string operator()(const found::OwnFiguresUsed& f) const {
    return fmt::format("Your own figures are used instead of those in the tables: {}.",
                       joined(f.figures, ", "));
  }
  std::string operator()(const found::MethodWithoutFigures& f) const {
    return fmt::format(
        "No figures are published for distilling this charge {}. The plan uses figures of another "
        "method, so take the amount of oil as a guess.",
        in_words(f.method));
  }
  std::string operator()(const found::PlantNote& f) const { return f.text; }
  std::string operator()(const found::MethodNotUsual& f) const {
    return fmt::format("Best distilled {}. {}", in_words(f.best), f.why);
  }
  std::string operator()(const found::DefaultFigures& f) const {
    return fmt::format(
        "Some figures of this charge are not published. General ones are used for: {}.",
        joined(f.figures, ", "));
  }
  std::string operator()(const found::StillDefaultsUsed& f) const {
    std::vector<std::string> figures;
    for (const DefaultFigure& figure : f.figures) figures.push_back(default_text(figure, units));
    return fmt::format("Some figures of this still weren't measured, so defaults are used: {}.",
                       joined(figures, ", "));
  }
  std::string operator()(const found::StillDoubtful& f) const {
    std::string text;
    for (const StillDoubt& doubt : f.doubts) text += doubt_text(doubt, units) + ' ';
    return text + (f.doubts.size() == 1 ? "Check that figure in the still's file."
                                        : "Check these figures in the still's file.");
  }
  std::string operator()(const found::UsualStop& f) const {
    std::string words =
        f.sign +
        " This is how others stop. It is never a reason to stop later than this plan says.";
    if (f.published) {
      words += fmt::format(
          " Published runs stop {} to {} after the first drop; this plan stops {} after it.",
          say(f.published->low), say(f.published->high), say(f.planned));
    }
    return words;
  }

  // The run.
  std::string operator()(const found::TimeLimitFirst& f) const {
    return fmt::format(
        "The time limit of {} ends the run before its goal, with {} of hydrosol. Allow more time "
        "(limits.time), or accept less.",
        say(f.limit), say(f.hydrosol));
  }
  std::string operator()(const found::TimeLimitBelowGoal& f) const {
    return fmt::format(
        "The time limit of {} ends the run before the {} that you asked for. Raise limits.time, or "
        "ask for a shorter run.",
        say(f.limit), say(f.goal));
  }
  std::string operator()(const found::WaterEndsRun& f) const {
    if (!f.oil_over)
      return fmt::format(
          "The pot's water ends this run. Another 15 min would add {} of hydrosol. But if you came "
          "late with the heater at its strongest, there would be too little water for it. To run "
          "longer, load less herb, shorten limits.absence or use a larger pot.",
          say(f.more));
    return fmt::format(
        "The pot's water ends this run after {} of the oil has come over. Another 15 min would add "
        "{} of hydrosol {}. But if you came late with the heater at its strongest, there would be "
        "too little water for it. To run longer, load less herb, shorten limits.absence or use a "
        "larger pot.",
        say(*f.oil_over), say(f.more),
        f.more_oil < grams(0.005) ? "but no oil" : fmt::format("and {} of oil", say(f.more_oil)));
  }
  std::string operator()(const found::CoolantEndsRun& f) const {
    return fmt::format(
        "The coolant gets too warm after {} and ends this run. To run longer, plan with ice or "
        "with more coolant.",
        say(f.at));
  }
  std::string operator()(const found::FractionEmpty& f) const {
    return fmt::format(
        "Fraction {} never begins: it would at {}, and the run stops at {}. Let it begin earlier, "
        "or ask for more hydrosol.",
        f.number, say(f.begins), say(f.hydrosol));
  }
  std::string operator()(const found::GoalUncertain& f) const {
    return fmt::format(
        "The chance of meeting the goal is only {}. Ask for less, or allow more herb, water or "
        "time.",
        say(f.chance));
  }
  std::string operator()(const found::MayGiveNothing& f) const {
    return fmt::format(
        "With a weak heater, the first drop comes as late as {}, after the planned stop. Allow "
        "more time.",
        say(f.first_drop));
  }
  std::string operator()(const found::MayEndEarly& f) const {
    return fmt::format(
        "A usual heater reaches {} after {}, but the heat must go off at {} if it isn't there by "
        "then: a very strong heater with a leak could have used up the pot's water. Ask "
        "for less, pour in more water if there is room, or find out how strong your heater is with "
        "a water run.",
        say(f.level), say(f.stop), say(whole_minutes_down(f.give_up)));
  }
  std::string operator()(const found::LongRun& f) const {
    return fmt::format(
        "This run needs someone beside it for {}. To make it shorter, use more heat, ask for less "
        "hydrosol, or load less herb.",
        say(f.takes));
  }
  std::string operator()(const found::HydroScorch&) const {
    return "Herb in the water foams at first, and scorches on the bottom when the water gets low. "
           "Stir, put the still together, then heat. Watch the level, and turn the heat down when "
           "the pot foams. The run then takes longer, but all limits stay the same.";
  }
  std::string operator()(const found::ChargeNotCovered& f) const {
    return fmt::format(
        "{} of water is too little for {} of herb. Published runs use at least {}. Pour more, or "
        "load less herb.",
        say(f.water), say(f.charge), say(f.least));
  }
  std::string operator()(const found::BedBlocks& f) const {
    return fmt::format(
        "Steam needs a pressure of {} to pass the herb, whose own weight presses down with {}. The "
        "steam may lift the herb, break a channel through it, or find no way through. Pack it more "
        "loosely, cut it coarser, or heat less.",
        say(f.drop), say(f.weight));
  }
  std::string operator()(const found::VapourInTheRoom& f) const {
    return fmt::format(
        "About {} of the water ({} to {}) leaves as vapour that the condenser doesn't catch. Air "
        "the room. If you see steam at the outlet, turn the heat off at once.",
        say(f.water.typical), say(f.water.low), say(f.water.high));
  }
  std::string operator()(const found::HydrosolThin& f) const {
    const std::string converted = f.converted_to ? fmt::format(", converted from fresh to {} herb",
                                                               to_string(*f.converted_to))
                                                 : "";
    return fmt::format(
        "{} of hydrosol from {} of herb is {}, far more than in published runs ({} to {}{}). {}"
        "ater hydrosol is weaker. For strong hydrosol, stop at {} ({}) or load more herb.",
        say(f.hydrosol), say(f.charge), say(f.hydrosol / f.charge), say(f.published.low),
        say(f.published.high), converted, f.has_oil ? "Most of the oil comes early, so l" : "L",
        say(f.charge * f.published.high), say(f.published.high));
  }
  std::string operator()(const found::OilAllInHydrosol& f) const {
    return fmt::format(
        "All the oil that comes over ({}) stays in the hydrosol, so there is none to separate.",
        say(f.vaporised));
  }
  std::string operator()(const found::OilStaysInHydrosol& f) const {
    return fmt::format(
        "Of the {} of oil that comes over, about {} stays dissolved in {} of hydrosol. The "
        "hydrosol is fragrant, but little oil separates. For more oil, ask for less hydrosol or "
        "load more herb.",
        say(f.vaporised), say(f.dissolved), say(f.hydrosol));
  }
  std::string operator()(const found::OilHardToPart& f) const {
    if (f.oil < a_drop_of_oil)
      return "Hardly any oil separates, a film at most. Keep it in the hydrosol.";
    return fmt::format(
        "About {} of oil separates, which is a film or a few drops. Use a narrow receiver or a "
        "pipette, or keep the oil in the hydrosol.",
        say(f.oil));
  }
  std::string operator()(const found::SteamBoundUnknown&) const {
    return "How much of this oil steam can carry is not known here, because too few vapour "
           "pressures are known. The plan lets the plant alone set the pace. The oil may come more "
           "slowly.";
  }
  std::string operator()(const found::SteamBoundPartial& f) const {
    return fmt::format(
        "How much oil steam can carry is calculated for {:.0f} % of this oil. The rest is assumed "
        "to behave the same: {}.",
        in_percent(f.covered), f.left_out);
  }
  std::string operator()(const found::SteamSetsThePace& f) const {
    return fmt::format(
        "Until {} after the start, the steam carries all the oil vapour it can and sets the pace. "
        "After that, the plant does.",
        say(f.until));
  }
  std::string operator()(const found::CurveOnlyRises&) const {
    return "The plan's oil curve can't fall, but real yields can. In one study, lemongrass and "
           "palmarosa gave 25 to 40 % less oil after 240 min than at 20 to 160 min.";
  }
  std::string operator()(const found::MuchHeatLost& f) const {
    return fmt::format(
        "{} of the {} of heat that gets into the pot is lost to the room. Insulate pot and column "
        "to get more steam.",
        say(f.lost), say(f.into_pot));
  }
  std::string operator()(const found::ReceiverSmall& f) const {
    return fmt::format(
        "A receiver of {} would be full {:.0f} times, once every {:.1f} min. Use a larger one.",
        say(f.receiver), f.times, in_minutes(f.every));
  }

  // The still.
  std::string operator()(const found::GasIndoors&) const {
    return "Gas that burns indoors can make carbon monoxide, which nobody can smell. Run the still "
           "outdoors (site.place). Indoors, use only a burner made for indoors, under a hood that "
           "leads outside. Have a carbon monoxide alarm in the room. If it sounds or anyone's head "
           "aches, turn the flame off and get everyone out.";
  }
  std::string operator()(const found::OpenFlame& f) const {
    return fmt::format(
        "A flame burns under the still{}. Put the receiver well away from the flame and lower, "
        "with a screen between them. Keep {} clear all round. Check hose and regulator for leaks.",
        f.flash_point ? ", and this oil can catch fire from about " + say(*f.flash_point)
                      : std::string(),
        say(f.clear));
  }
  std::string operator()(const found::GlassOverHeat&) const {
    return "You are heating glass. Use borosilicate only: in a mantle of its size, on a plate as "
           "wide as its base, or on a gauze over a flame. Check it for star cracks, chips and "
           "scratches, and don't use it if "
           "you find any. Never let it boil dry, and never put cold water on it. Wear eye "
           "protection.";
  }
  std::string operator()(const found::ElementCovered& f) const {
    return fmt::format(
        "The heating element must stay under water. Never let the water fall below {}. If it does, "
        "turn the heat off at once.",
        say(f.least));
  }
  std::string operator()(const found::StillSizeRules& f) const {
    return fmt::format(
        "The pot holds {}. Germany requires every still above {} to be reported. The US regulates "
        "those above a gallon. Other places have other rules: ask customs or the excise office. "
        "Never put alcohol in the still.",
        say(f.pot), say(f.reported));
  }

  // The oil.
  std::string operator()(const found::ToxicOil& f) const { return warning_of(f); }
  // Says what may be sold as food. It doesn't say whether anything is safe to swallow.
  std::string operator()(const found::RegulatedSubstance& f) const {
    std::vector<std::string> names;
    for (const HarmfulSubstance substance : f.substances) names.push_back(to_string(substance));
    std::sort(names.begin(), names.end());
    return fmt::format(
        "This oil contains {}. European law forbids adding {} to food as such, and limits how much "
        "some foods may contain. If you sell oil or hydrosol as food or flavouring, ask the food "
        "authority first.",
        in_a_row(names, "and"), names.size() == 1 ? "this substance" : "these substances");
  }
  std::string operator()(const found::PlantHazard& f) const { return f.hazard.text; }
  std::string operator()(const found::OilSinks&) const {
    return "This oil is heavier than water, so it collects at the bottom of the receiver.";
  }
  std::string operator()(const found::OilNearWater&) const {
    return "This oil is about as heavy as water, so it may float, sink or hang in between. Look at "
           "the top and the bottom of the receiver, and give the oil time to separate.";
  }
  std::string operator()(const found::OilFreezes& f) const {
    return fmt::format(
        "This oil can set solid near {}, and the coolant gets as cold as {}. Solid oil may block "
        "the condenser. Keep the coolant warmer{}. Watch that distillate keeps coming, and turn "
        "the heat off if it stops.",
        say(f.freezes), say(f.coolant), f.can_hold_ice ? ", with water instead of ice" : "");
  }
  std::string operator()(const found::OilAtFlashPoint& f) const {
    return fmt::format(
        "The distillate may come out at {}, and the oil can catch fire from about {}. Use colder "
        "coolant. Keep flames, glowing coils and switches that can spark away from outlet and "
        "receiver.",
        say(f.distillate), say(f.flash_point));
  }
  std::string operator()(const found::FlashPoint& f) const {
    return fmt::format(
        "The oil's flash point is about {}. Keep flames and sparks away from the receiver.",
        say(f.flash_point));
  }
  std::string operator()(const found::WantsCohobation& f) const {
    std::string words = "Much of this oil stays dissolved in the hydrosol";
    if (f.oil) {
      words += fmt::format(" ({} of the {} that comes over)", say(f.oil->dissolved),
                           say(f.oil->vaporised));
    }
    return words +
           ". To get that oil, put the hydrosol back into the cold pot for another run. This plan "
           "covers only the first run.";
  }
  std::string operator()(const found::HydrosolStorage&) const {
    return "Hydrosol spoils. Fill clean, hot-rinsed bottles to the neck, and date them. Keep them "
           "dark, at 5 °C (41 °F) or below. Use the hydrosol within weeks or preserve it. Throw it "
           "out if it turns cloudy, stringy or sour. Never use it in eyes, on wounds or on "
           "infants.";
  }
};

// Those that hold for every run have their words in the table.
template <class What>
concept HasSentence = requires(const Sentences& sentences, const What& what) {
  sentences(what);
};
template <class What>
concept IsInTable = std::is_empty_v<What> && !HasSentence<What>;

// --- the numbers ---------------------------------------------------------------------------------

// As scripts know it; explanations have the ASCII form.
constexpr ShownUnit<Area> square_metres{"m²", in_square_metres};

template <class T>
FindingAmounts amounts_in(const ShownUnit<T>& unit, std::type_identity_t<T> value,
                          std::type_identity_t<T> limit) {
  return {amount_in(unit, value), amount_in(unit, limit)};
}

Amount counted(double number, const char* of_what) {
  return {number, of_what};
}

// One function for each kind of finding with a number.
struct Amounts {
  FindingAmounts operator()(const auto&) const { return {}; }
  FindingAmounts operator()(const found::NeverBoils& f) const { return of(f.heat); }
  FindingAmounts operator()(const found::NeverAtTheTop& f) const { return of(f.heat); }
  FindingAmounts operator()(const found::OwnFigureImpossible& f) const {
    return amounts_in(shown_in::watts, f.reading.heat, f.most);
  }
  FindingAmounts operator()(const found::OwnFigureUnlikely& f) const {
    return amounts_in(shown_in::watts, f.reading.heat, f.reading.heat > f.most ? f.most : f.least);
  }
  FindingAmounts operator()(const found::OwnFiguresDisagree& f) const {
    return amounts_in(shown_in::watts, f.lower.heat, f.higher.heat);
  }
  FindingAmounts operator()(const found::TooManyRuns& f) const {
    return {counted(f.runs, "runs"), counted(f.most_runs, "runs")};
  }
  FindingAmounts operator()(const found::OilTakesTooManyRuns& f) const {
    return amounts_in(shown_in::grams, f.wanted, f.each * double(f.most_runs));
  }
  FindingAmounts operator()(const found::OilStaysDissolved& f) const {
    return amounts_in(shown_in::grams, f.wanted, f.most);
  }
  FindingAmounts operator()(const found::OilBeyondCharge& f) const {
    return amounts_in(shown_in::grams, f.wanted, f.most);
  }
  FindingAmounts operator()(const found::ConfidenceOutOfReach& f) const {
    return amounts_in(shown_in::percent, f.chance, f.wanted);
  }
  FindingAmounts operator()(const found::PotOverfull& f) const {
    return amounts_in(shown_in::millilitres, f.poured, f.room);
  }
  FindingAmounts operator()(const found::ReserveReached& f) const {
    return amounts_in(shown_in::millilitres, f.left, f.reserve);
  }
  FindingAmounts operator()(const found::TargetExceedsPot& f) const {
    const auto& level = f.asked.stop.hydrosol;
    return {level ? std::optional(amount_in(shown_in::millilitres, *level)) : std::nullopt,
            amount_in(shown_in::millilitres, f.most)};
  }
  FindingAmounts operator()(const found::TooSlow& f) const {
    return amounts_in(shown_in::hours, f.takes, f.longest);
  }
  FindingAmounts operator()(const found::StopsBeforeFirstDrop& f) const {
    return amounts_in(shown_in::minutes, f.stop, f.first_drop);
  }
  FindingAmounts operator()(const found::BedSolid& f) const {
    return amounts_in(shown_in::grams_per_litre, f.bulk, f.pieces);
  }
  FindingAmounts operator()(const found::CoolantStartsWarm& f) const {
    return amounts_in(shown_in::celsius, f.start, f.limit);
  }
  FindingAmounts operator()(const found::CoolantLimitHigh& f) const {
    return amounts_in(shown_in::celsius, f.limit, f.boiling);
  }
  FindingAmounts operator()(const found::CoolantTooWarm& f) const {
    return amounts_in(shown_in::minutes, f.at, f.stop);
  }
  FindingAmounts operator()(const found::IceOften& f) const {
    return amounts_in(shown_in::minutes, f.every, f.manageable);
  }
  FindingAmounts operator()(const found::CoolantShort& f) const {
    return amounts_in(shown_in::litres_per_minute, f.needed, f.most);
  }
  FindingAmounts operator()(const found::SteamEscapes& f) const {
    return amounts_in(square_metres, f.needed, f.has);
  }
  FindingAmounts operator()(const found::DistillateWarm& f) const {
    return amounts_in(square_metres, f.needed, f.has);
  }
  FindingAmounts operator()(const found::CoolantWarmIfHot& f) const {
    return {amount_in(shown_in::minutes, f.at), {}};
  }
  FindingAmounts operator()(const found::IceBeforeStop& f) const {
    return amounts_in(shown_in::celsius, f.coolant, f.limit);
  }
  FindingAmounts operator()(const found::CoolantWhenLate& f) const {
    return amounts_in(shown_in::celsius, f.coolant, f.limit);
  }
  FindingAmounts operator()(const found::CircuitOverloaded& f) const {
    return amounts_in(shown_in::watts, f.draws, f.circuit.most());
  }
  FindingAmounts operator()(const found::CircuitNearLimit& f) const {
    return amounts_in(shown_in::watts, f.draws, f.bears);
  }
  FindingAmounts operator()(const found::SocketNearLimit& f) const {
    return amounts_in(shown_in::watts, f.draws, f.bears);
  }
  FindingAmounts operator()(const found::CircuitUnknown& f) const {
    return amounts_in(shown_in::watts, f.draws, f.bears);
  }
  FindingAmounts operator()(const found::ColumnNearlyEmpty& f) const {
    return amounts_in(shown_in::percent, f.fill, f.least);
  }
  FindingAmounts operator()(const found::GoalUncertain& f) const {
    return amounts_in(shown_in::percent, f.chance, f.least);
  }
  FindingAmounts operator()(const found::ChargeNotCovered& f) const {
    return amounts_in(shown_in::millilitres, f.water, f.least);
  }
  FindingAmounts operator()(const found::BedBlocks& f) const {
    return amounts_in(shown_in::pascals, f.drop, f.most);
  }
  FindingAmounts operator()(const found::HydrosolThin& f) const {
    return amounts_in(shown_in::litres_per_kilogram, f.hydrosol / f.charge, f.most);
  }
  FindingAmounts operator()(const found::OilStaysInHydrosol& f) const {
    return {counted(100.0 * (f.dissolved / f.vaporised), "%"),
            amount_in(shown_in::percent, f.most)};
  }
  FindingAmounts operator()(const found::ReceiverSmall& f) const {
    return {counted(f.times, "times"), counted(f.most, "times")};
  }
  FindingAmounts operator()(const found::StillSizeRules& f) const {
    return amounts_in(shown_in::litres, f.pot, f.reported);
  }
  FindingAmounts operator()(const found::OilAtFlashPoint& f) const {
    return amounts_in(shown_in::celsius, f.distillate, f.flash_point);
  }

 private:
  static FindingAmounts of(const found::HeatAgainstLoss& heat) {
    return amounts_in(shown_in::watts, heat.into_pot, heat.lost);
  }
};

}  // namespace

std::string finding_text(const Finding& finding, Units units) {
  const auto say = [&](const auto& what) -> std::string {
    if constexpr (IsInTable<std::decay_t<decltype(what)>>) {
      return finding.kind->what_to_do;
    } else {
      return Sentences{units}(what);
    }
  };
  return std::visit(say, finding.what);
}

FindingAmounts finding_amounts(const Finding& finding) {
  return std::visit(Amounts(), finding.what);
}

std::string finding_reason(const Finding& finding) {
  const auto& guidance = finding.kind->guidance;
  return guidance ? guidance->reason : "";
}

std::string finding_follows(const Finding& finding) {
  if (const auto* hazard = std::get_if<found::PlantHazard>(&finding.what))
    return hazard->hazard.evidence.basis;
  const auto& guidance = finding.kind->guidance;
  return guidance ? guidance->follows : "";
}

}  // namespace firstdrop
