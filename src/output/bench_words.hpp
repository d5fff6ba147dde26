// What page, sheet, calendar and campaign say alike of the work at the bench: pouring, the heater,
// ice, the gauge, and what comes after heat off.
#pragma once

#include <optional>
#include <string>

#include "firstdrop/plan/plan.hpp"

namespace firstdrop {

/// "at room temperature", or "at 90 °C" where the recipe says how warm its water is.
std::string how_warm_to_pour(const Recipe& recipe);

/// Whether it is read before anything else: a caution of this run, or a danger of any.
inline bool is_read_first(const Finding& finding) {
  return finding.level == Level::caution || finding.danger;
}

/// The water to pour in, "1.84 L", up to a mark of the jug: never less than was planned.
std::string pour_text(const Plan& plan);

/// How much hydrosol the herb gives: "3.9 L/kg of herb", "6.1 L/kg of dried herb, 1.5 L/kg as
/// fresh". Needs a plan with a run.
std::string hydrosol_per_herb_in_words(const Plan& plan);

/// "Up to 300 g, if it goes in loosely: same water, same stop.": for which charges the
/// plan holds.
std::string charges_in_words(const Plan& plan);
/// The same for a sheet, behind the charge: "at most 300 g", "or less", "no more or less".
std::string charges_in_few_words(const Plan& plan);

/// The quickest that a heater within the plan can fill a jug up to one of its marks.
struct HeaterCheck {
  std::string mark;   ///< "100 mL"; "4 fl oz (1/2 cup)"
  Duration at_least;  ///< in steps of 5 s, rounded down
};
/// Of the marks that jugs usually have (metric or US; from memory), the one whose time at this flow
/// is nearest to five minutes: long enough to take by a clock, and soon enough to act.
HeaterCheck heater_check(VolumeFlow most, Units units);
/// "100 mL in less than 4 min 45 s? Too hot for this plan: turn down until it takes longer, or
/// heat off."
std::string heater_check_in_words(const Plan& plan);

/// What fills bath or bucket: "20 L", and "20 L (up to 28 L)" where the still has a range for it,
/// with the most that it may hold. Not for coolant from the tap.
std::string coolant_in_words(const Plan& plan);

/// Ice in pieces as they are weighed out.
struct IceToHave {
  std::optional<Mass> expected;  ///< the typical run takes it
  std::optional<Mass> ready;     ///< any heater gets along with it; never less than expected
};
IceToHave ice_to_have_ready(const CoolingPlan& cooling, Units units);
/// "600 g expected, at about 61 min and not at the start; have 1.2 kg ready", or nothing.
std::string ice_in_words(const Plan& plan);
/// Whether it is the ice that goes in shortly before the stop (finding ice-before-stop), whatever
/// the temperature of the coolant.
bool is_before_stop(const Plan& plan, const IceChange& change);
/// What tells that it is time: "coolant at 35 °C", "720 mL in the receiver", or the clock where
/// that ends the run.
std::string sign_for_ice(const Plan& plan, const IceChange& change);
/// "take out 600 mL of warm water, put in 600 g of ice".
std::string ice_change_in_words(Mass ice, Units units);
/// "Coolant at its limit and no ice left: HEAT OFF."; nothing for coolant from the tap.
std::string coolant_limit_in_words(const Plan& plan);

/// "The jug is the gauge: a metal pot shows no level."; nothing for a pot of glass.
std::string gauge_in_words(const Plan& plan);

/// "About 25 mL more comes", after heat off; nothing where it is not worth a word.
std::string more_after_heat_in_words(const Plan& plan);
/// The same, and what to leave as it is until then.
std::string after_heat_in_words(const Plan& plan);

}  // namespace firstdrop
