/// @file
/// Findings: what a plan says beyond its numbers. A finding holds what was found, as values;
/// in_words() of output/finding_words.hpp makes its text.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "firstdrop/base/shared.hpp"
#include "firstdrop/model/still_doubt.hpp"
#include "firstdrop/physics/course.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"
#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/tables/finding.hpp"
#include "firstdrop/tables/plant.hpp"

namespace firstdrop {

/// Each kind of thing that a plan can find. `code` is its row in the table of findings. Several
/// kinds share a code where one row covers them.
namespace found {

// --- the heat

/// Heat into the pot against the heat that pot and column lose at the boil.
struct HeatAgainstLoss {
  Fraction setting;     ///< of the heater
  Power into_pot;       ///< the lesser of the heat while warming and while boiling
  Power lost;           ///< by pot and column at the boil
  Temperature boiling;  ///< of water here
};
/// The pot loses all its heat before it boils.
struct NeverBoils {
  static constexpr const char* code = "never-boils";
  HeatAgainstLoss heat;
};
/// All steam condenses in the column.
struct NeverAtTheTop {
  static constexpr const char* code = "never-at-the-top";
  HeatAgainstLoss heat;
};
/// Nothing is known of the plant. The figures of another one, or of its form, are used instead.
struct PlantUnknown {
  static constexpr const char* code = "plant-unknown";
  std::string plant;
  std::string like;      ///< the other plant, or the form in words
  bool is_form = false;  ///< whether `like` is a form
  bool has_oil = true;   ///< whether anything is known of the oil of `like`
};
/// Nobody should distil the plant.
struct NotToBeDistilled {
  static constexpr const char* code = "not-to-be-distilled";
  std::string plant;
  std::string why;  ///< sentences of the plant's entry
};
/// Steam spoils the plant.
struct SteamSpoils {
  static constexpr const char* code = "steam-spoils";
  std::string plant;
  std::string why;  ///< sentences of the plant's entry
};
/// Nothing is known of the plant's oil.
struct OilUnknown {
  static constexpr const char* code = "oil-unknown";
  std::string plant;
};
/// The weakest heater of this kind brings no steam to the condenser.
struct HeaterWeak {
  static constexpr const char* code = "heater-weak";
  HeaterKind kind = HeaterKind::electric_plate;
};

/// A reading taken on the bench, and the heat that it means.
struct OwnReading {
  enum class Kind { boil_time, distillate_rate };
  Kind kind = Kind::boil_time;  ///< a key of the recipe's `own`
  Power heat;                   ///< into the pot
};
/// A reading means more heat than the heater can give.
struct OwnFigureImpossible {
  static constexpr const char* code = "own-figure-impossible";
  OwnReading reading;
  Fraction setting;  ///< of the recipe
  Power rated;       ///< of the heater
  Power most;        ///< that the heater gives at this setting and at high mains voltage
};
/// A reading means more or less heat than such heaters give.
struct OwnFigureUnlikely {
  static constexpr const char* code = "own-figure-unlikely";
  OwnReading reading;
  Fraction setting;  ///< of the recipe
  Power least;       ///< by the tables
  Power most;        ///< by the tables
};
/// Two readings mean different heat.
struct OwnFiguresDisagree {
  static constexpr const char* code = "own-figures-disagree";
  OwnReading lower;
  OwnReading higher;
  Fraction setting;  ///< of the recipe
};

// --- what is loaded and asked for

/// The harvest takes more runs than are planned at a time.
struct TooManyRuns {
  static constexpr const char* code = "charge-too-large";
  Mass harvest;       ///< as the recipe asks for
  Mass fits;          ///< in one run
  Mass each;          ///< charge of one run, on a mark of the scale
  int runs = 0;       ///< that the harvest takes
  int most_runs = 0;  ///< that are planned at a time
};
/// The still has no room for a charge that a scale can weigh.
struct NoRoomForCharge {
  static constexpr const char* code = "charge-too-large";
  Mass fits;
};
/// A late stop takes more water than the pot can spare, whatever the charge.
struct NoWaterToSpare {
  static constexpr const char* code = "no-water-to-spare";
  Duration lateness;  ///< that the recipe allows
};
/// An oil goal takes more runs than are planned at a time.
struct OilTakesTooManyRuns {
  static constexpr const char* code = "oil-out-of-reach";
  Mass wanted;
  double runs = 0.0;  ///< a whole number, which may be beyond the range of an int
  Mass charge;        ///< of one full run
  Mass each;          ///< oil of one full run
  int most_runs = 0;  ///< that are planned at a time
};
/// Nearly all the oil that comes over stays dissolved.
struct OilStaysDissolved {
  static constexpr const char* code = "oil-out-of-reach";
  Mass wanted;      ///< of one run
  Mass charge;      ///< of one run
  Mass in_charge;   ///< oil in that charge
  Mass comes_over;  ///< in a run without a goal
  Mass most;        ///< that separates
};
/// The charge can't separate that much oil.
struct OilBeyondCharge {
  static constexpr const char* code = "oil-out-of-reach";
  Mass wanted;        ///< of one run
  Mass charge;        ///< of one run
  Mass in_charge;     ///< oil in that charge
  Fraction recovery;  ///< share of it that this still gets
  Mass most;          ///< that separates
};
/// No plan meets the goal as often as asked.
struct ConfidenceOutOfReach {
  static constexpr const char* code = "confidence-out-of-reach";
  Fraction chance;  ///< of the plan that comes closest
  Fraction wanted;
};
/// The recipe's water doesn't fit.
struct PotOverfull {
  static constexpr const char* code = "pot-overfull";
  Volume poured;
  Volume room;
  bool below_grid = false;  ///< the grid limits it, otherwise the pot
};
/// What ends a run, as the recipe asks for it.
struct StopAsked {
  std::optional<Fraction> oil_share;  ///< only for a goal that is a share of the oil
  Stop stop;
};
/// The recipe's water reaches the reserve in the worst case.
struct ReserveReached {
  static constexpr const char* code = "reserve-reached";
  Volume poured;
  StopAsked asked;
  Volume left;  ///< in the worst case after a late stop; below zero if the pot boils dry
  Volume reserve;
  Duration lateness;  ///< that the recipe allows
};
/// No fill that fits lasts for the goal.
struct TargetExceedsPot {
  static constexpr const char* code = "target-exceeds-pot";
  StopAsked asked;
  Volume room;        ///< for water
  Volume most;        ///< hydrosol that the fullest pot can give
  Duration lateness;  ///< that the recipe allows
};
/// Nobody can stay with such a long run.
struct TooSlow {
  static constexpr const char* code = "too-slow";
  Duration takes;
  Duration longest;  ///< that is planned
};
/// The run ends before anything comes over.
struct StopsBeforeFirstDrop {
  static constexpr const char* code = "stops-before-first-drop";
  Duration stop;
  Duration first_drop;  ///< of the nominal run
  Duration latest;      ///< first drop with the weakest heater
};
/// The bed has no voids for steam.
struct BedSolid {
  static constexpr const char* code = "bed-solid";
  Density bulk;
  Density pieces;  ///< of the plant tissue
};

// --- the coolant

/// The coolant is at its limit before the run.
struct CoolantStartsWarm {
  static constexpr const char* code = "coolant-starts-warm";
  Temperature start;
  Temperature limit;
};
/// The still allows coolant that would condense nothing.
struct CoolantLimitHigh {
  static constexpr const char* code = "coolant-limit-high";
  Temperature limit;
  Temperature boiling;
};
/// The coolant is at its limit before the stop.
struct CoolantTooWarm {
  static constexpr const char* code = "coolant-too-warm";
  Volume coolant;
  Temperature limit;
  Duration at;      ///< from the start of heating
  Volume hydrosol;  ///< caught by then, on a mark of the jug
  Duration stop;    ///< planned, from the start of heating
};
/// Ice is needed more often than a person can manage.
struct IceOften {
  static constexpr const char* code = "ice-often";
  Duration every;           ///< in the upper-bound heater case
  std::size_t changes = 0;  ///< in all
  Duration manageable;      ///< shortest time between changes without a caution
};
/// The tap gives too little.
struct CoolantShort {
  static constexpr const char* code = "coolant-short";
  VolumeFlow needed;  ///< in the upper-bound heater case
  VolumeFlow most;    ///< that the tap gives
};
/// The condenser is too small for the upper-bound heater case.
struct SteamEscapes {
  static constexpr const char* code = "steam-escapes";
  Temperature coolant;
  Area needed;
  Area has;  ///< the condenser
};
/// All steam condenses, but the distillate leaves warm.
struct DistillateWarm {
  static constexpr const char* code = "distillate-warm";
  Temperature coolant;
  Temperature outlet;  ///< warmest that the still wants
  Area needed;
  Area has;  ///< the condenser
};
/// With a strong heater the coolant reaches its limit.
struct CoolantWarmIfHot {
  static constexpr const char* code = "coolant-warm-if-hot";
  Temperature limit;
  Duration at;  ///< from the start of heating
};
/// Without ice before the stop, a late person finds steam in the room.
struct IceBeforeStop {
  static constexpr const char* code = "ice-before-stop";
  Duration lateness;    ///< that the recipe allows
  Temperature coolant;  ///< when that person comes, without the ice
  Temperature limit;
};
/// A late person finds steam in the room, also with ice.
struct CoolantWhenLate {
  static constexpr const char* code = "coolant-when-late";
  Duration lateness;    ///< that the recipe allows
  Temperature coolant;  ///< when that person comes
  Temperature limit;
};

// --- the circuit

/// The heater draws more than the circuit carries.
struct CircuitOverloaded {
  static constexpr const char* code = "circuit-overloaded";
  Power draws;
  Circuit circuit;
};
/// The heater draws more than a circuit should carry for hours.
struct CircuitNearLimit {
  static constexpr const char* code = "circuit-near-limit";
  Power draws;
  Circuit circuit;
  Fraction share;  ///< of the circuit that a heater may draw for hours
  Power bears;     ///< that share as power
};
/// The circuit is unknown, and the heater draws more than a household socket should carry for
/// hours.
struct SocketNearLimit {
  static constexpr const char* code = "circuit-near-limit";
  Power draws;
  Power bears;  ///< the socket
};
/// The circuit is unknown, and the heater draws more than the smallest one carries for hours.
struct CircuitUnknown {
  static constexpr const char* code = "circuit-check";
  Power draws;
  Power bears;  ///< the smallest common circuit
};

// --- the charge

/// The harvest takes several runs.
struct SeveralRuns {
  static constexpr const char* code = "several-runs";
  Mass harvest;
  Mass fits;  ///< in one run
  Mass each;  ///< charge of one run
  int runs = 0;
  /// What all runs take and give.
  struct InAll {
    Volume hydrosol;
    Duration heat_on;
  };
  std::optional<InAll> in_all;  ///< none without a run
};
/// A little of the harvest is left over.
struct ChargeLeftOver {
  static constexpr const char* code = "charge-left-over";
  Mass asked;                 ///< by the recipe
  Mass rest;                  ///< left over
  bool may_be_added = false;  ///< the plan holds with the rest shared out over the runs
};
/// Ground material lets no steam through.
struct GroundChannels {
  static constexpr const char* code = "ground-channels";
};
/// The charge fills little of its space.
struct ColumnNearlyEmpty {
  static constexpr const char* code = "column-nearly-empty";
  Mass harvest;
  Mass fits;  ///< in one run
  Mass charge;
  Fraction fill;
  Fraction least;  ///< fill without a caution
};
/// How much fits isn't known well.
struct BulkDensityGuess {
  static constexpr const char* code = "bulk-density-guess";
  Mass least;              ///< that fits at the P10 of the bulk density
  Mass most;               ///< that fits at its P90
  bool in_column = false;  ///< otherwise over a grid
};

// --- the figures behind the plan

/// The recipe's own figures replace some of the tables'.
struct OwnFiguresUsed {
  static constexpr const char* code = "own-figures";
  std::vector<std::string> figures;  ///< their names
};
/// No figures are published for the plant by this method.
struct MethodWithoutFigures {
  static constexpr const char* code = "method-without-figures";
  Method method = Method::steam;
};
/// A note in the plant's entry.
struct PlantNote {
  static constexpr const char* code = "plant-note";
  std::string text;
};
/// Another method was found best for the plant.
struct MethodNotUsual {
  static constexpr const char* code = "method-not-usual";
  Method best = Method::steam;
  std::string why;  ///< a sentence of the plant's entry
};
/// Default values are used for some figures.
struct DefaultFigures {
  static constexpr const char* code = "default-figures";
  std::vector<std::string> figures;  ///< their names, and the default used for each
};
/// Nobody has measured some figures of the still, so they have their defaults.
struct StillDefaultsUsed {
  static constexpr const char* code = "still-defaults";
  std::vector<DefaultFigure> figures;
};
/// Figures of the still that are more likely slips than true.
struct StillDoubtful {
  static constexpr const char* code = "still-doubtful";
  std::vector<StillDoubt> doubts;
};
/// When others stop.
struct UsualStop {
  static constexpr const char* code = "usual-cut";
  std::string sign;                          ///< a sentence of the plant's entry
  std::optional<Range<Duration>> published;  ///< time from the first drop
  Duration planned;                          ///< the same of this plan
};

// --- the run

/// The time limit ends the run before its goal.
struct TimeLimitFirst {
  static constexpr const char* code = "time-limit-first";
  Duration limit;
  Volume hydrosol;  ///< caught by then
};
/// The time limit is shorter than the time goal.
struct TimeLimitBelowGoal {
  static constexpr const char* code = "time-limit-first";
  Duration limit;
  Duration goal;
};
/// The pot's water ends the run.
struct WaterEndsRun {
  static constexpr const char* code = "water-ends-run";
  /// Vaporised by the stop, of the oil in the charge; none if nothing is known of the oil.
  std::optional<Fraction> oil_over;
  Volume more;    ///< hydrosol that another quarter hour would bring
  Mass more_oil;  ///< and oil
};
/// The coolant ends the run.
struct CoolantEndsRun {
  static constexpr const char* code = "coolant-ends-run";
  Duration at;  ///< from the start of heating
};
/// The run stops before a fraction begins.
struct FractionEmpty {
  static constexpr const char* code = "fraction-empty";
  std::size_t number = 0;  ///< of the first such fraction, from 1
  Volume begins;           ///< all that is caught then
  Volume hydrosol;         ///< at the stop
};
/// The goal will probably not be met.
struct GoalUncertain {
  static constexpr const char* code = "goal-uncertain";
  Fraction chance;
  Fraction least;  ///< chance without a caution
};
/// With a weak heater the first drop comes after the stop.
struct MayGiveNothing {
  static constexpr const char* code = "may-give-nothing";
  Duration first_drop;  ///< P90
};
/// The heat must go off before a usual heater reaches the level, because with the strongest heater
/// and a leak the pot would run dry.
struct MayEndEarly {
  static constexpr const char* code = "may-end-early";
  Volume level;
  Duration give_up;  ///< when the heat must go off if the level isn't reached
  Duration stop;     ///< when a usual heater reaches it
};
/// The run needs a person for long.
struct LongRun {
  static constexpr const char* code = "long-run";
  Duration takes;
};
/// Herb in boiling water foams and scorches.
struct HydroScorch {
  static constexpr const char* code = "hydro-scorch";
};
/// There is little water around the charge.
struct ChargeNotCovered {
  static constexpr const char* code = "charge-not-covered";
  Volume water;
  Mass charge;
  Volume least;  ///< that published runs use
};
/// Steam may lift or block the bed.
struct BedBlocks {
  static constexpr const char* code = "bed-blocks";
  Pressure drop;    ///< over the bed
  Pressure weight;  ///< of the bed, per area
  Pressure most;    ///< drop without a caution
};
/// Some vapour passes the condenser.
struct VapourInTheRoom {
  static constexpr const char* code = "vapour-in-the-room";
  Range<Volume> water;
};
/// There is more hydrosol than published runs draw.
struct HydrosolThin {
  static constexpr const char* code = "hydrosol-thin";
  Volume hydrosol;
  Mass charge;
  Range<SpecificVolume> published;
  std::optional<State> converted_to;  ///< `published` was converted from fresh herb to this state
  SpecificVolume most;                ///< without this finding
  bool has_oil = true;                ///< whether anything is known of the oil
};
/// No oil separates.
struct OilAllInHydrosol {
  static constexpr const char* code = "oil-all-in-hydrosol";
  Mass vaporised;
};
/// Much of the oil stays dissolved.
struct OilStaysInHydrosol {
  static constexpr const char* code = "oil-stays-in-hydrosol";
  Mass vaporised;
  Mass dissolved;
  Volume hydrosol;
  Fraction most;  ///< share without this finding
};
/// So little oil separates that it's hard to collect.
struct OilHardToPart {
  static constexpr const char* code = "oil-hard-to-part";
  Volume oil;
};
/// What steam can carry of this oil isn't known.
struct SteamBoundUnknown {
  static constexpr const char* code = "steam-bound-unknown";
};
/// What steam can carry is known for part of this oil.
struct SteamBoundPartial {
  static constexpr const char* code = "steam-bound-partial";
  Fraction covered;
  std::string left_out;  ///< the other constituents, each with the reason
};
/// At first the steam, not the plant, sets the pace.
struct SteamSetsThePace {
  static constexpr const char* code = "steam-sets-the-pace";
  Duration until;  ///< from the start of heating
};
/// The model's oil curve can't fall, but real yields can.
struct CurveOnlyRises {
  static constexpr const char* code = "curve-only-rises";
};
/// Pot and column lose much of the heat.
struct MuchHeatLost {
  static constexpr const char* code = "much-heat-lost";
  Power lost;
  Power into_pot;
};
/// The receiver must be changed too often.
struct ReceiverSmall {
  static constexpr const char* code = "receiver-small";
  Volume receiver;
  double times = 0.0;  ///< that it is full; a whole number
  Duration every;
  int most = 0;  ///< changes that are planned
};

// --- the still

/// A gas burner indoors.
struct GasIndoors {
  static constexpr const char* code = "gas-indoors";
};
/// A flame under the still.
struct OpenFlame {
  static constexpr const char* code = "open-flame";
  std::optional<Temperature> flash_point;  ///< of the oil
  Length clear;                            ///< distance to keep free
};
/// A glass pot on a heater.
struct GlassOverHeat {
  static constexpr const char* code = "glass-over-heat";
};
/// An immersed element must stay under water.
struct ElementCovered {
  static constexpr const char* code = "element-covered";
  Volume least;  ///< water in the pot
};
/// Pots above some size are subject to rules.
struct StillSizeRules {
  static constexpr const char* code = "still-size-rules";
  Volume pot;
  Volume reported;  ///< size above which it must be registered
};

// --- the oil

/// The oil can do grave harm.
struct ToxicOil {
  static constexpr const char* code = "toxic-oil";
  std::vector<Hazard> hazards;  ///< those of the plant with a grave harm
  bool in_pregnancy = false;    ///< whether any hazard of the plant harms pregnant women more
  bool has_oil = true;          ///< whether anything is known of the plant's oil
};
/// The oil holds substances that food law limits.
struct RegulatedSubstance {
  static constexpr const char* code = "regulated-substance";
  std::vector<HarmfulSubstance> substances;  ///< each once
};
/// A hazard of the plant's entry.
struct PlantHazard {
  static constexpr const char* code = "plant-hazard";
  Hazard hazard;
};
/// The oil sinks.
struct OilSinks {
  static constexpr const char* code = "oil-sinks";
};
/// The oil is about as heavy as water.
struct OilNearWater {
  static constexpr const char* code = "oil-near-water";
};
/// The oil can set solid in the condenser.
struct OilFreezes {
  static constexpr const char* code = "oil-freezes";
  Temperature freezes;
  Temperature coolant;        ///< the coldest of the run
  bool can_hold_ice = false;  ///< the coolant stands in a bath or bucket
};
/// The distillate may be hot enough for the oil to catch fire.
struct OilAtFlashPoint {
  static constexpr const char* code = "oil-at-flash-point";
  Temperature distillate;
  Temperature flash_point;
};
/// The oil's flash point.
struct FlashPoint {
  static constexpr const char* code = "flash-point";
  Temperature flash_point;
};
/// Much of the oil is in the first water.
struct WantsCohobation {
  static constexpr const char* code = "wants-cohobation";
  /// Oil of this run.
  struct Oil {
    Mass dissolved;
    Mass vaporised;
  };
  std::optional<Oil> oil;  ///< none if none comes over
};
/// How to keep hydrosol.
struct HydrosolStorage {
  static constexpr const char* code = "hydrosol-storage";
};

// --- what holds for every run; the table has the words

struct SteamScalds {
  static constexpr const char* code = "steam-scalds";
};
struct OpenPath {
  static constexpr const char* code = "open-path";
};
struct SuckBack {
  static constexpr const char* code = "suck-back";
};
struct StayWithIt {
  static constexpr const char* code = "stay-with-it";
};
struct AfterHeatOff {
  static constexpr const char* code = "after-heat-off";
};
struct RanDry {
  static constexpr const char* code = "ran-dry";
};
struct AirAndDistance {
  static constexpr const char* code = "air-and-distance";
};
struct WetElectricity {
  static constexpr const char* code = "wet-electricity";
};
struct NeatOil {
  static constexpr const char* code = "neat-oil";
};
struct LocalRules {
  static constexpr const char* code = "local-rules";
};

}  // namespace found

/// What was found: one of the kinds above.
using Found = std::variant<
    found::NotToBeDistilled, found::PlantUnknown, found::SteamSpoils, found::OilUnknown,
    found::NeverBoils, found::NeverAtTheTop, found::HeaterWeak, found::OwnFigureImpossible,
    found::OwnFigureUnlikely, found::OwnFiguresDisagree, found::TooManyRuns, found::NoRoomForCharge,
    found::NoWaterToSpare, found::OilTakesTooManyRuns, found::OilStaysDissolved,
    found::OilBeyondCharge, found::ConfidenceOutOfReach, found::PotOverfull, found::ReserveReached,
    found::TargetExceedsPot, found::TooSlow, found::StopsBeforeFirstDrop, found::BedSolid,
    found::CoolantStartsWarm, found::CoolantLimitHigh, found::CoolantTooWarm, found::IceOften,
    found::CoolantShort, found::SteamEscapes, found::DistillateWarm, found::CoolantWarmIfHot,
    found::IceBeforeStop, found::CoolantWhenLate, found::CircuitOverloaded, found::CircuitNearLimit,
    found::SocketNearLimit, found::CircuitUnknown, found::SeveralRuns, found::ChargeLeftOver,
    found::GroundChannels, found::ColumnNearlyEmpty, found::BulkDensityGuess, found::OwnFiguresUsed,
    found::MethodWithoutFigures, found::PlantNote, found::MethodNotUsual, found::DefaultFigures,
    found::StillDefaultsUsed, found::StillDoubtful, found::UsualStop, found::TimeLimitFirst,
    found::TimeLimitBelowGoal, found::WaterEndsRun, found::CoolantEndsRun, found::FractionEmpty,
    found::GoalUncertain, found::MayGiveNothing, found::MayEndEarly, found::LongRun,
    found::HydroScorch, found::ChargeNotCovered, found::BedBlocks, found::VapourInTheRoom,
    found::HydrosolThin, found::OilAllInHydrosol, found::OilStaysInHydrosol, found::OilHardToPart,
    found::SteamBoundUnknown, found::SteamBoundPartial, found::SteamSetsThePace,
    found::CurveOnlyRises, found::MuchHeatLost, found::ReceiverSmall, found::GasIndoors,
    found::OpenFlame, found::GlassOverHeat, found::ElementCovered, found::StillSizeRules,
    found::ToxicOil, found::RegulatedSubstance, found::PlantHazard, found::OilSinks,
    found::OilNearWater, found::OilFreezes, found::OilAtFlashPoint, found::FlashPoint,
    found::WantsCohobation, found::HydrosolStorage, found::SteamScalds, found::OpenPath,
    found::SuckBack, found::StayWithIt, found::AfterHeatOff, found::RanDry, found::AirAndDistance,
    found::WetElectricity, found::NeatOil, found::LocalRules>;

/// One thing that a plan says beyond its numbers.
struct Finding {
  /// A finding whose row of the table isn't known yet.
  Finding(Level how_serious, Found what);
  Finding(const Finding& other);
  Finding(Finding&& other) noexcept;
  Finding& operator=(const Finding& other);
  Finding& operator=(Finding&& other) noexcept;
  ~Finding();

  Level level;               ///< one of the levels in the table
  Found what;                ///< with its numbers
  Shared<FindingKind> kind;  ///< row of the table of findings; an empty one in brief

  /// Stable; the key of the row in the table of findings.
  std::string_view code() const;
  /// Whether this kind of thing was found.
  template <class What>
  bool is() const {
    return std::holds_alternative<What>(what);
  }
};

/// The first finding of a kind; null if there is none.
template <class What>
const Finding* finding_of(const std::vector<Finding>& findings) {
  for (const Finding& finding : findings)
    if (finding.is<What>()) return &finding;
  return nullptr;
}

/// Whether one of the findings refuses the plan.
bool any_refuses(const std::vector<Finding>& findings);

}  // namespace firstdrop
