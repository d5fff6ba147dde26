// Words about the work at the bench that page, sheet, calendar and campaign share: pouring, the
// heater, ice, the gauge, and what comes after the heat is off.
#pragma once

#include <optional>
#include <string>

#include "firstdrop/plan/plan.hpp"

namespace firstdrop {

/// The recipe's title, or "Untitled run".
std::string run_title(const Recipe& recipe);

/// A charge to weigh out: "210 g of lavender", or "126 g of lavender and 84 g of rosemary, mixed".
std::string charge_in_words(const Recipe& recipe, Mass charge);

/// "next receiver, 400 mL in total", or "fraction 2 begins: next receiver, 400 mL in total".
std::string next_receiver_in_words(const Plan& plan, const ReceiverChange& change);

/// "lavender (fresh, whole), steam, 5 L column still": plant, state, cut, method and still.
std::string subject_in_words(const Recipe& recipe);

/// "Go", "Go with caution" or "Refused".
std::string verdict_in_words(Verdict verdict);

/// "at room temperature", or "at 90 °C" where the recipe gives the temperature of its water.
std::string how_warm_to_pour(const Recipe& recipe);

/// Whether a finding must be read before anything else: a caution of this run, or a danger in any
/// run.
inline bool is_read_first(const Finding& finding) {
  return finding.level == Level::caution || finding.kind->danger;
}
/// Whether a finding is a hazard of the plant or its oil, which pages list by themselves.
inline bool is_hazard(const Finding& finding) {
  return finding.is<found::PlantHazard>() || finding.is<found::FlashPoint>();
}

/// The water to pour in, as "1.84 L". It is rounded up to a mark of the jug, so it is never less
/// than planned.
std::string pour_text(const Plan& plan);

/// How much hydrosol the herb gives: "3.9 L/kg of herb", "6.1 L/kg of dried herb, 1.5 L/kg as
/// fresh". Needs a plan with a run.
std::string hydrosol_per_herb_in_words(const Plan& plan);

/// Says for which charges the plan holds: "Up to 300 g, if it goes in loosely: same water, same
/// stop."
std::string charges_in_words(const Plan& plan);
/// The same for a sheet, to follow the charge: "at most 300 g", "or less", "no more or less".
std::string charges_in_few_words(const Plan& plan);

/// The shortest time in which a heater within the plan can fill a jug to one of its marks.
struct HeaterCheck {
  std::string mark;   ///< "100 mL"; "4 fl oz (1/2 cup)"
  Duration at_least;  ///< in steps of 5 s, rounded down
};
/// Picks, from the marks that jugs usually have (metric or US; from memory), the one that this flow
/// reaches in the time nearest to five minutes. That is long enough to time by a clock, and soon
/// enough to act.
HeaterCheck heater_check(VolumeFlow most, Units units);
/// "100 mL in less than 4 min 45 s? Too hot for this plan: turn down until it takes longer, or
/// heat off."
std::string heater_check_in_words(const Plan& plan);

/// Whether a heater's setting shows as 100 %.
inline bool is_full(Fraction setting) {
  return in_percent(setting) >= 99.5;
}
/// How to find a burner's setting, which no scale shows: "250 mL in about 4 min 45 s once it
/// drips". Empty at full heat, and for other heaters.
std::string setting_by_drip(const Plan& plan);

/// What fills the bath or the bucket: "20 L". Where the still gives a range, it adds the most that
/// the vessel may hold: "20 L (up to 28 L)". Not for coolant from the tap.
std::string coolant_in_words(const Plan& plan);

/// Amounts of ice, in pieces as they are weighed out.
struct IceToHave {
  std::optional<Mass> expected;  ///< taken by the nominal run
  std::optional<Mass> ready;     ///< enough for any heater; never less than expected
};
IceToHave ice_to_have_ready(const CoolingPlan& cooling, Units units);
/// "600 g expected, at about 61 min and not at the start; have 1.2 kg ready". Empty if no ice is
/// needed.
std::string ice_in_words(const Plan& plan);
/// Whether this is the ice that goes in shortly before the stop at any coolant temperature (finding
/// ice-before-stop).
bool is_before_stop(const Plan& plan, const IceChange& change);
/// The sign that it is time for the ice: "coolant at 35 °C", "720 mL in the receiver", or the clock
/// where the clock ends the run.
std::string sign_for_ice(const Plan& plan, const IceChange& change);
/// "take out 600 mL of warm water, put in 600 g of ice".
std::string ice_change_in_words(Mass ice, Units units);
/// "Coolant at its limit (35 °C): HEAT OFF.", with a word on ice where there is some to put in.
/// Empty for coolant from the tap.
std::string coolant_limit_in_words(const Plan& plan);

/// "The jug is the gauge: a metal pot shows no level." Empty for a glass pot.
std::string gauge_in_words(const Plan& plan);

/// "About 25 mL more comes", after the heat is off. Empty where it is too little to mention.
std::string more_after_heat_in_words(const Plan& plan);
/// The same, and what to leave alone until then.
std::string after_heat_in_words(const Plan& plan);

}  // namespace firstdrop
