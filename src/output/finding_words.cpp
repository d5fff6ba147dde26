#include "firstdrop/output/finding_words.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <set>
#include <vector>

#include "base/text_layout.hpp"
#include "firstdrop/plan/plan.hpp"
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

std::string warning_of(const std::vector<Hazard>& hazards) {
  const std::map<Route, Harms> by_route = harms_by_route(hazards);
  std::string words = fmt::format("This oil can cause {}. ", causes_in_words(hazards, by_route));
  std::set<AtRisk> at_risk;
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
    words += "Open a window. Keep infants, pets and anyone with epilepsy out of the room. ";
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
    "How was it measured: at which setting, with how much water, by which jug and clock? Write the "
    "setting of the reading as own.setting.";

// Empty at the full setting.
std::string at_setting(Fraction setting) {
  return setting < fraction(1) ? fmt::format(" at {} setting", text(setting)) : "";
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
        "{} At {} setting about {} reach the pot, while pot and column lose {} at {}. Lagging the "
        "still lessens that.",
        what, say(heat.setting), say(heat.into_pot), say(heat.lost), say(heat.boiling));
  }
  std::string operator()(const found::NeverBoils& f) const {
    return heat("The pot never boils.", f.heat);
  }
  std::string operator()(const found::NeverAtTheTop& f) const {
    return heat("Steam never gets to the condenser.", f.heat);
  }
  std::string operator()(const found::HeaterWeak&) const {
    return "If the plate's contact is poor, this heater may not bring steam to the condenser at "
           "all. Use a higher setting, a flat-based pot, or lag the still.";
  }
  std::string operator()(const found::OwnFigureImpossible& f) const {
    return fmt::format(
        "{} means {} of heat in the pot{}. A heater of {} can't give more than {}, even at high "
        "mains voltage. {}",
        key_of(f.reading), say(f.reading.heat), at_setting(f.setting), say(f.rated), say(f.most),
        how_was_it_measured);
  }
  std::string operator()(const found::OwnFigureUnlikely& f) const {
    return fmt::format(
        "{} means {} of heat in the pot{}. Heaters of this kind give {} to {}. {} The plan follows "
        "your figure, and its safety covers both.",
        key_of(f.reading), say(f.reading.heat), at_setting(f.setting), say(f.least), say(f.most),
        how_was_it_measured);
  }
  std::string operator()(const found::OwnFiguresDisagree& f) const {
    return fmt::format(
        "Your readings disagree: {} means {} of heat in the pot, {} means {}{}. Measure one of "
        "them again. Until then the plan's safety covers the stronger heat.",
        key_of(f.lower), say(f.lower.heat), key_of(f.higher), say(f.higher.heat),
        at_setting(f.setting));
  }

  // What is loaded and asked for.
  std::string operator()(const found::TooManyRuns& f) const {
    return fmt::format(
        "{}{} would take {} runs: one run holds {}. No more than {} runs are planned at a time.",
        other_unit(f.harvest, f.fits, units), say(f.harvest), f.runs, say(f.each), f.most_runs);
  }
  std::string operator()(const found::NoRoomForCharge& f) const {
    return fmt::format("The still has room for only {} of this material.", say(f.fits));
  }
  std::string operator()(const found::NoWaterToSpare& f) const {
    return fmt::format(
        "Coming {} late boils off more water than this pot can spare, whatever the charge.",
        say(f.lateness));
  }
  std::string operator()(const found::OilTakesTooManyRuns& f) const {
    return fmt::format(
        "{} of oil would take {:.0f} runs: one full run of {} gives about {}. No more than {} runs "
        "are planned at a time.",
        say(f.wanted), f.runs, say(f.charge), say(f.each), f.most_runs);
  }
  std::string operator()(const found::OilStaysDissolved& f) const {
    return fmt::format(
        "Of the {} of oil in {} of this charge about {} come over in this still, and nearly all of "
        "that stays dissolved in the hydrosol.",
        say(f.in_charge), say(f.charge), say(f.comes_over));
  }
  std::string operator()(const found::OilBeyondCharge& f) const {
    return fmt::format(
        "{:.2f} g of oil a run is more than {} of this charge can part in the receiver: at most "
        "about {:.2f} g (the charge holds {}, this still gets {} of it, and the hydrosol keeps its "
        "share).",
        in_grams(f.wanted), say(f.charge), in_grams(f.most), say(f.in_charge), say(f.recovery));
  }
  std::string operator()(const found::ConfidenceOutOfReach& f) const {
    return fmt::format("The goal is met in {} of such runs at most, and shall be in {}.",
                       say(f.chance), say(f.wanted));
  }
  std::string operator()(const found::PotOverfull& f) const {
    return fmt::format("{} of water is more than the {} that {} has room for {}.", say(f.poured),
                       say(f.room), f.below_grid ? "the grid" : "the pot",
                       f.below_grid ? "without wetting the charge" : "with space for boiling");
  }
  std::string asked(const found::StopAsked& f) const {
    if (f.oil_share) {
      return fmt::format("{} of the oil, which takes about {} of hydrosol,", say(*f.oil_share),
                         say(*f.stop.hydrosol));
    }
    if (f.stop.hydrosol) return say(*f.stop.hydrosol) + " of hydrosol";
    return say(*f.stop.clock) + " from heat on";
  }
  std::string operator()(const found::ReserveReached& f) const {
    return fmt::format(
        "With {} in the pot and {}, the worst credible case is down to {} of water when the person "
        "comes {} late; the reserve is {}.",
        say(f.poured), asked(f.asked), say(std::max(f.left, litres(0))), say(f.lateness),
        say(f.reserve));
  }
  std::string operator()(const found::TargetExceedsPot& f) const {
    return fmt::format(
        "{} takes more water than this pot can give: of the {} it has room for, {} can be caught. "
        "The rest is the reserve, what charge and walls hold, and {} of lateness with the heater "
        "at its strongest.",
        asked(f.asked), say(f.room), say(f.most), say(f.lateness));
  }
  std::string operator()(const found::TooSlow& f) const {
    return fmt::format("This run would take {:.0f} h, and nobody can stay with it so long.",
                       in_hours(f.takes));
  }
  std::string operator()(const found::StopsBeforeFirstDrop& f) const {
    return fmt::format(
        "The run would stop after {:.1f} min, but the first drop comes after {:.1f} min, and may "
        "take {:.0f} min.",
        in_minutes(f.stop), in_minutes(f.first_drop), in_minutes(f.latest));
  }
  std::string operator()(const found::BedSolid& f) const {
    return fmt::format(
        "At {} nothing is left between the pieces for steam to pass: it would block the vapour "
        "path. Pack looser, cut coarser, or check own.bulk_density.",
        say(f.bulk));
  }

  // The coolant.
  std::string operator()(const found::CoolantStartsWarm& f) const {
    return fmt::format("The coolant starts at {}, but may be no warmer than {}.", say(f.start),
                       say(f.limit));
  }
  std::string operator()(const found::CoolantLimitHigh& f) const {
    return fmt::format(
        "The coolant may be as warm as {} by the still's coolant_limit, but water boils at {} "
        "here: it would condense nothing.",
        say(f.limit), say(f.boiling));
  }
  std::string operator()(const found::CoolantTooWarm& f) const {
    return fmt::format(
        "{} of coolant is at its limit of {} after {}, with {} of hydrosol "
        "collected.",
        say(f.coolant), say(f.limit), say(f.at), say(f.hydrosol));
  }
  std::string operator()(const found::IceOften& f) const {
    return fmt::format(
        "With the heater at its strongest the coolant needs new ice every {:.1f} min, {} times: "
        "more than one person can keep up with. Use a larger bath, more ice at a time, or less "
        "heat.",
        in_minutes(f.every), f.changes);
  }
  std::string operator()(const found::CoolantShort& f) const {
    return fmt::format(
        "With the heater at its strongest the condenser needs {} of coolant, but gets at most {}.",
        say(f.needed), say(f.most));
  }
  std::string operator()(const found::SteamEscapes& f) const {
    return fmt::format(
        "With the heater at its strongest and coolant at {}, condensing all steam takes {} of "
        "surface and the condenser has {}: steam would come into the room.",
        say(f.coolant), say(f.needed), say(f.has));
  }
  std::string operator()(const found::DistillateWarm& f) const {
    return fmt::format(
        "All steam condenses, but with coolant at {} the distillate leaves warmer than {}: oil is "
        "lost with its vapour. Use colder coolant or less heat.",
        say(f.coolant), say(f.outlet));
  }
  std::string operator()(const found::CoolantWarmIfHot& f) const {
    return fmt::format(
        "With a strong heater the coolant is at its limit of {} after {}: watch its thermometer "
        "and stop there, or have some ice at hand.",
        say(f.limit), say(f.at));
  }
  std::string operator()(const found::IceBeforeStop& f) const {
    return fmt::format(
        "Do not skip the ice before the stop: if you come {} late and the heater is at its "
        "strongest, the coolant would be at {} without it, and steam would come into the room.",
        say(f.lateness), say(f.coolant));
  }
  std::string operator()(const found::CoolantWhenLate& f) const {
    return fmt::format(
        "If you come {} late to the stop and the heater is at its strongest, the coolant is at {} "
        "and no longer condenses all steam: it would come into the room.",
        say(f.lateness), say(f.coolant));
  }

  // The circuit.
  std::string operator()(const found::CircuitOverloaded& f) const {
    return fmt::format("The heater draws {}, more than the circuit has ({}).", say(f.draws),
                       circuit_in_words(f.circuit));
  }
  std::string operator()(const found::CircuitNearLimit& f) const {
    return fmt::format(
        "The heater draws {}, more than {} of the circuit ({}): nothing else on it, straight into "
        "the wall, and feel plug and socket now and then.",
        say(f.draws), say(f.share), circuit_in_words(f.circuit));
  }
  std::string operator()(const found::SocketNearLimit& f) const {
    return fmt::format(
        "The heater draws {}, more than a household socket should carry for hours ({}): nothing "
        "else on its circuit, straight into the wall, and feel plug and socket now and then. Say "
        "your circuit in site.mains and site.circuit.",
        say(f.draws), say(f.bears));
  }
  std::string operator()(const found::CircuitUnknown& f) const {
    return fmt::format(
        "The heater draws {}; the smallest common household circuit (120 V, 15 A) carries {} for "
        "hours. Look at the breaker, and say your circuit in site.mains and site.circuit.",
        say(f.draws), say(f.bears));
  }

  // The charge.
  std::string operator()(const found::SeveralRuns& f) const {
    std::string words =
        fmt::format("{}The harvest of {} takes {} runs of {} each. All amounts are for one run.",
                    other_unit(f.harvest, f.fits, units), say(f.harvest), f.runs, say(f.each));
    if (!f.in_all) return words;
    return words + fmt::format(" All of them: {} of hydrosol, {} with the heat on.",
                               say(f.in_all->hydrosol), say(f.in_all->heat_on));
  }
  std::string operator()(const found::ChargeLeftOver& f) const {
    return fmt::format(
        "{} is {} more than fills the still, too little for a run of its own.{} Keep the rest for "
        "the next batch, or freeze it. Never press the charge down to make it fit.",
        say(f.asked), say(f.rest), f.may_be_added ? " Add it if it goes in loosely." : "");
  }
  std::string operator()(const found::GroundChannels&) const {
    return "Ground material packs tight: steam breaks a channel through it or blows it into the "
           "vapour path and may block it. Use a coarser cut, or the charge in water.";
  }
  std::string operator()(const found::ColumnNearlyEmpty& f) const {
    return fmt::format(
        "{}{} fill only {} of the space: nearly all that comes over is plain water. Take more herb "
        "or a smaller still.",
        other_unit(f.harvest, f.fits, units), say(f.charge), say(f.fill));
  }
  std::string operator()(const found::BulkDensityGuess& f) const {
    return fmt::format(
        "How much herb fits is the weakest figure here: from {} to {}. Weigh what fills the {} "
        "once and put it into the recipe's own.bulk_density. Never press the charge down to make "
        "it fit.",
        say(f.least), say(f.most), f.in_column ? "column" : "space over the grid");
  }

  // The figures behind the plan.
  std::string operator()(const found::OwnFiguresUsed& f) const {
    return fmt::format("Your own figures, used instead of those of the tables: {}.",
                       joined(f.figures, ", "));
  }
  std::string operator()(const found::MethodWithoutFigures& f) const {
    return fmt::format(
        "There are no published figures for running this plant {}: take the oil as a guess.",
        in_words(f.method));
  }
  std::string operator()(const found::PlantNote& f) const { return f.text; }
  std::string operator()(const found::MethodNotUsual& f) const {
    return fmt::format("The way found best for this plant is {}. {}", in_words(f.best), f.why);
  }
  std::string operator()(const found::DefaultFigures& f) const {
    return fmt::format("No figure of its own, so another stands in: {}.", joined(f.figures, ", "));
  }
  std::string operator()(const found::UsualStop& f) const {
    std::string words = f.sign + " (That is how others stop, and never a reason to stop later";
    if (f.published) {
      words +=
          fmt::format("; published runs take {} to {}, this plan stops {} after its first drop",
                      say(f.published->low), say(f.published->high), say(f.planned));
    }
    return words + ".)";
  }

  // The run.
  std::string operator()(const found::TimeLimitFirst& f) const {
    return fmt::format("The time limit of {} ends the run first, with {} of hydrosol.",
                       say(f.limit), say(f.hydrosol));
  }
  std::string operator()(const found::TimeLimitBelowGoal& f) const {
    return fmt::format("The time limit of {} ends the run before the {} that are its goal.",
                       say(f.limit), say(f.goal));
  }
  std::string operator()(const found::WaterEndsRun& f) const {
    return fmt::format(
        "The pot's water ends this run with {} of the oil over: another quarter hour would bring "
        "{} of hydrosol and {} oil, but with the heater at its strongest, and you late, there "
        "would be no water for it.",
        say(f.oil_over), say(f.more),
        f.more_oil < grams(0.005) ? "no more" : say(f.more_oil) + " of");
  }
  std::string operator()(const found::CoolantEndsRun& f) const {
    return fmt::format(
        "The coolant gets too warm at {} and ends this run. With ice it could go on.", say(f.at));
  }
  std::string operator()(const found::GoalUncertain& f) const {
    return fmt::format(
        "The chance to meet the goal is only {}. Ask for less, or allow more herb, water or time.",
        say(f.chance));
  }
  std::string operator()(const found::MayGiveNothing& f) const {
    return fmt::format(
        "With a weak heater the first drop comes as late as {}, after this stop. Allow more time.",
        say(f.first_drop));
  }
  std::string operator()(const found::LongRun& f) const {
    return fmt::format(
        "This run needs someone beside it for {}. More heat, less hydrosol or a smaller charge "
        "shortens it.",
        say(f.takes));
  }
  std::string operator()(const found::HydroScorch&) const {
    return "Herb in water foams up at first and scorches at the bottom when the water gets low. "
           "Stir, close, then heat; turn down when it foams, and watch the level. Turned down, the "
           "run takes longer, but the limits stay as they are.";
  }
  std::string operator()(const found::ChargeNotCovered& f) const {
    return fmt::format("{} of water is little for {} of charge: published runs use at least {}.",
                       say(f.water), say(f.charge), say(f.least));
  }
  std::string operator()(const found::BedBlocks& f) const {
    return fmt::format(
        "Steam needs {} to pass this bed, which weighs {}: it may lift, channel or block. Pack "
        "looser, cut coarser, or heat less.",
        say(f.drop), say(f.weight));
  }
  std::string operator()(const found::VapourInTheRoom& f) const {
    return fmt::format(
        "About {} of the water ({} to {}) leaves as vapour that the condenser does not catch: air "
        "the room. If more shows at the outlet: heat off first.",
        say(f.water.typical), say(f.water.low), say(f.water.high));
  }
  std::string operator()(const found::HydrosolThin& f) const {
    const std::string converted = f.converted_to ? fmt::format(", converted from fresh to {} herb",
                                                               to_string(*f.converted_to))
                                                 : "";
    return fmt::format(
        "{} from {} is {}, far more than published hydrosols have ({} to {}{}). Most of the oil "
        "comes early, so later hydrosol is weaker. For a strong one, stop at {} ({}) or load more "
        "herb.",
        say(f.hydrosol), say(f.charge), say(f.hydrosol / f.charge), say(f.published.low),
        say(f.published.high), converted, say(f.charge * f.published.high), say(f.published.high));
  }
  std::string operator()(const found::OilAllInHydrosol& f) const {
    return fmt::format("All the oil that comes over ({}) stays in the hydrosol; none parts.",
                       say(f.vaporised));
  }
  std::string operator()(const found::OilStaysInHydrosol& f) const {
    return fmt::format(
        "Of {} of oil that come over, about {} stay dissolved in {} of hydrosol: a fragrant "
        "hydrosol, little oil on it. Less hydrosol or more herb leaves more.",
        say(f.vaporised), say(f.dissolved), say(f.hydrosol));
  }
  std::string operator()(const found::OilHardToPart& f) const {
    if (f.oil < a_drop_of_oil)
      return "Hardly any oil parts, a film at most: keep it in the hydrosol.";
    return fmt::format(
        "About {} of oil is a film or a few drops: use a narrow receiver or a pipette, or keep it "
        "in the hydrosol.",
        say(f.oil));
  }
  std::string operator()(const found::SteamBoundUnknown&) const {
    return "How much of this oil steam can carry is not known here (too few vapour pressures), so "
           "its pace is that of the plant alone.";
  }
  std::string operator()(const found::SteamBoundPartial& f) const {
    return fmt::format(
        "What steam can carry is worked out from {:.0f} % of this oil and taken to hold for the "
        "rest: {}.",
        in_percent(f.covered), f.left_out);
  }
  std::string operator()(const found::SteamSetsThePace& f) const {
    return fmt::format(
        "Until {} steam is full of oil vapour and sets the pace; after that the plant does.",
        say(f.until));
  }
  std::string operator()(const found::CurveOnlyRises&) const {
    return "The oil curve cannot fall, but real yields can: in one study lemongrass and palmarosa "
           "gave 25 to 40 % less after 240 min than at 20 to 160 min.";
  }
  std::string operator()(const found::MuchHeatLost& f) const {
    return fmt::format(
        "{} of the {} that reach the pot are lost to the room. Lagging pot and column would bring "
        "more steam.",
        say(f.lost), say(f.into_pot));
  }
  std::string operator()(const found::ReceiverSmall& f) const {
    return fmt::format("A receiver of {} is full {:.0f} times, every {:.1f} min: use a larger one.",
                       say(f.receiver), f.times, in_minutes(f.every));
  }

  // The still.
  std::string operator()(const found::GasIndoors&) const {
    return "Gas burns indoors and can make carbon monoxide: run it outdoors (site.place), or only "
           "with a burner made for indoors, under a hood that leads outside, with a carbon "
           "monoxide alarm in the room. If it sounds or heads ache: flame off, everyone out.";
  }
  std::string operator()(const found::OpenFlame& f) const {
    return fmt::format(
        "A flame burns under the still{}: receiver well away from it and lower, a screen between, "
        "{} clear all round, hose and regulator tried for leaks.",
        f.flash_point ? ", and this oil takes fire from about " + say(*f.flash_point)
                      : std::string(),
        say(f.clear));
  }
  std::string operator()(const found::GlassOverHeat&) const {
    return "Glass stands over heat: borosilicate only, looked over for stars, cracks and "
           "scratches, on a plate as wide as its base or a gauze, never dry, no cold water on it. "
           "Wear eye protection.";
  }
  std::string operator()(const found::ElementCovered& f) const {
    return fmt::format("The element must stay under water: never below {}.", say(f.least));
  }
  std::string operator()(const found::StillSizeRules& f) const {
    return fmt::format(
        "The pot holds {}. Germany wants every still above {} reported, the USA look at those "
        "above a gallon, and other places have other rules: ask customs or the excise office. No "
        "alcohol in the still.",
        say(f.pot), say(f.reported));
  }

  // The oil.
  std::string operator()(const found::ToxicOil& f) const { return warning_of(f.hazards); }
  // Says what may be sold as food. It doesn't say whether anything is safe to swallow.
  std::string operator()(const found::RegulatedSubstance& f) const {
    std::vector<std::string> names;
    for (const HarmfulSubstance substance : f.substances) names.push_back(to_string(substance));
    std::sort(names.begin(), names.end());
    return fmt::format(
        "This oil holds {}. European law forbids adding {} to food as such, and limits how much "
        "some foods may hold. If you sell oil or hydrosol as food or flavouring, ask the food "
        "authority first.",
        in_a_row(names, "and"), names.size() == 1 ? "this substance" : "these substances");
  }
  std::string operator()(const found::PlantHazard& f) const { return f.hazard.text; }
  std::string operator()(const found::OilSinks&) const {
    return "This oil is heavier than water: it gathers at the bottom of the receiver.";
  }
  std::string operator()(const found::OilNearWater&) const {
    return "This oil is about as heavy as water: it may float, sink or hang in it. Look at both "
           "ends of the receiver and give it time to part.";
  }
  std::string operator()(const found::OilFreezes& f) const {
    return fmt::format(
        "This oil can set solid near {}, and the coolant is as cold as {}: it may block the "
        "condenser. Keep the coolant warmer{}, and watch that distillate keeps coming.",
        say(f.freezes), say(f.coolant), f.can_hold_ice ? ", with water instead of ice" : "");
  }
  std::string operator()(const found::OilAtFlashPoint& f) const {
    return fmt::format(
        "The distillate may leave at {}, and the oil takes fire from about {}: colder coolant, and "
        "no flame, glowing coil or bare switch near outlet and receiver.",
        say(f.distillate), say(f.flash_point));
  }
  std::string operator()(const found::FlashPoint& f) const {
    return fmt::format(
        "The oil's flash point is about {}: keep flames and sparks away from the receiver.",
        say(f.flash_point));
  }
  std::string operator()(const found::WantsCohobation& f) const {
    std::string words = "Much of this oil stays in the first water";
    if (f.oil) {
      words += fmt::format(" ({} of the {} that come over)", say(f.oil->dissolved),
                           say(f.oil->vaporised));
    }
    return words +
           ". To win it, that water goes back into the cold pot for another run; this plan ends "
           "with the first water.";
  }
  std::string operator()(const found::HydrosolStorage&) const {
    return "Hydrosol spoils: clean, hot-rinsed bottles filled to the neck and dated, at 5 °C (41 "
           "°F) or below and dark. Use it within weeks or preserve it; away with it when cloudy, "
           "stringy or sour. Never in eyes, on wounds or on infants.";
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

Amount in_unit(Power power) {
  return {in_watts(power), "W"};
}
Amount in_unit(Mass mass) {
  return {in_grams(mass), "g"};
}
Amount in_unit(Volume volume) {
  return {in_millilitres(volume), "mL"};
}
Amount in_unit(Duration time) {
  return {in_minutes(time), "min"};
}
Amount in_unit(Temperature temperature) {
  return {in_celsius(temperature), "°C"};
}
Amount in_unit(Fraction share) {
  return {in_percent(share), "%"};
}
Amount in_unit(Density density) {
  return {in_grams_per_litre(density), "g/L"};
}
Amount in_unit(SpecificVolume volume) {
  return {in_litres_per_kilogram(volume), "L/kg"};
}
Amount in_unit(VolumeFlow flow) {
  return {in_litres_per_minute(flow), "L/min"};
}
Amount in_unit(Area area) {
  return {in_square_metres(area), "m²"};
}
Amount in_unit(Pressure pressure) {
  return {in_pascals(pressure), "Pa"};
}
Amount in_hours_of(Duration time) {
  return {in_hours(time), "h"};
}
Amount in_litres_of(Volume volume) {
  return {in_litres(volume), "L"};
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
    return {in_unit(f.reading.heat), in_unit(f.most)};
  }
  FindingAmounts operator()(const found::OwnFigureUnlikely& f) const {
    return {in_unit(f.reading.heat), in_unit(f.reading.heat > f.most ? f.most : f.least)};
  }
  FindingAmounts operator()(const found::OwnFiguresDisagree& f) const {
    return {in_unit(f.lower.heat), in_unit(f.higher.heat)};
  }
  FindingAmounts operator()(const found::TooManyRuns& f) const {
    return {counted(f.runs, "runs"), counted(f.most_runs, "runs")};
  }
  FindingAmounts operator()(const found::OilTakesTooManyRuns& f) const {
    return {in_unit(f.wanted), in_unit(f.each * double(f.most_runs))};
  }
  FindingAmounts operator()(const found::OilStaysDissolved& f) const {
    return {in_unit(f.wanted), in_unit(f.most)};
  }
  FindingAmounts operator()(const found::OilBeyondCharge& f) const {
    return {in_unit(f.wanted), in_unit(f.most)};
  }
  FindingAmounts operator()(const found::ConfidenceOutOfReach& f) const {
    return {in_unit(f.chance), in_unit(f.wanted)};
  }
  FindingAmounts operator()(const found::PotOverfull& f) const {
    return {in_unit(f.poured), in_unit(f.room)};
  }
  FindingAmounts operator()(const found::ReserveReached& f) const {
    return {in_unit(f.left), in_unit(f.reserve)};
  }
  FindingAmounts operator()(const found::TargetExceedsPot& f) const {
    const auto& level = f.asked.stop.hydrosol;
    return {level ? std::optional(in_unit(*level)) : std::nullopt, in_unit(f.most)};
  }
  FindingAmounts operator()(const found::TooSlow& f) const {
    return {in_hours_of(f.takes), in_hours_of(f.longest)};
  }
  FindingAmounts operator()(const found::StopsBeforeFirstDrop& f) const {
    return {in_unit(f.stop), in_unit(f.first_drop)};
  }
  FindingAmounts operator()(const found::BedSolid& f) const {
    return {in_unit(f.bulk), in_unit(f.pieces)};
  }
  FindingAmounts operator()(const found::CoolantStartsWarm& f) const {
    return {in_unit(f.start), in_unit(f.limit)};
  }
  FindingAmounts operator()(const found::CoolantLimitHigh& f) const {
    return {in_unit(f.limit), in_unit(f.boiling)};
  }
  FindingAmounts operator()(const found::CoolantTooWarm& f) const {
    return {in_unit(f.at), in_unit(f.stop)};
  }
  FindingAmounts operator()(const found::IceOften& f) const {
    return {in_unit(f.every), in_unit(f.manageable)};
  }
  FindingAmounts operator()(const found::CoolantShort& f) const {
    return {in_unit(f.needed), in_unit(f.most)};
  }
  FindingAmounts operator()(const found::SteamEscapes& f) const {
    return {in_unit(f.needed), in_unit(f.has)};
  }
  FindingAmounts operator()(const found::DistillateWarm& f) const {
    return {in_unit(f.needed), in_unit(f.has)};
  }
  FindingAmounts operator()(const found::CoolantWarmIfHot& f) const { return {in_unit(f.at), {}}; }
  FindingAmounts operator()(const found::IceBeforeStop& f) const {
    return {in_unit(f.coolant), in_unit(f.limit)};
  }
  FindingAmounts operator()(const found::CoolantWhenLate& f) const {
    return {in_unit(f.coolant), in_unit(f.limit)};
  }
  FindingAmounts operator()(const found::CircuitOverloaded& f) const {
    return {in_unit(f.draws), in_unit(f.circuit.most())};
  }
  FindingAmounts operator()(const found::CircuitNearLimit& f) const {
    return {in_unit(f.draws), in_unit(f.bears)};
  }
  FindingAmounts operator()(const found::SocketNearLimit& f) const {
    return {in_unit(f.draws), in_unit(f.bears)};
  }
  FindingAmounts operator()(const found::CircuitUnknown& f) const {
    return {in_unit(f.draws), in_unit(f.bears)};
  }
  FindingAmounts operator()(const found::ColumnNearlyEmpty& f) const {
    return {in_unit(f.fill), in_unit(f.least)};
  }
  FindingAmounts operator()(const found::GoalUncertain& f) const {
    return {in_unit(f.chance), in_unit(f.least)};
  }
  FindingAmounts operator()(const found::ChargeNotCovered& f) const {
    return {in_unit(f.water), in_unit(f.least)};
  }
  FindingAmounts operator()(const found::BedBlocks& f) const {
    return {in_unit(f.drop), in_unit(f.most)};
  }
  FindingAmounts operator()(const found::HydrosolThin& f) const {
    return {in_unit(f.hydrosol / f.charge), in_unit(f.most)};
  }
  FindingAmounts operator()(const found::OilStaysInHydrosol& f) const {
    return {counted(100.0 * (f.dissolved / f.vaporised), "%"), in_unit(f.most)};
  }
  FindingAmounts operator()(const found::ReceiverSmall& f) const {
    return {counted(f.times, "times"), counted(f.most, "times")};
  }
  FindingAmounts operator()(const found::StillSizeRules& f) const {
    return {in_litres_of(f.pot), in_litres_of(f.reported)};
  }
  FindingAmounts operator()(const found::OilAtFlashPoint& f) const {
    return {in_unit(f.distillate), in_unit(f.flash_point)};
  }

 private:
  static FindingAmounts of(const found::HeatAgainstLoss& heat) {
    return {in_unit(heat.into_pot), in_unit(heat.lost)};
  }
};

}  // namespace

std::string finding_text(const Finding& finding, Units units) {
  const auto say = [&]<class What>(const What& what) -> std::string {
    if constexpr (IsInTable<What>) {
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
