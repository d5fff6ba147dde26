/// @file
/// A campaign: several recipes worked off on one bench, run after run, day after day.
#pragma once

#include <array>
#include <chrono>
#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <variant>
#include <vector>

#include "firstdrop/plan/plan.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"
#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/tables/tables.hpp"
#include "model/sampling.hpp"
#include "quantity/clock_time.hpp"

namespace firstdrop {

/// Cooling down, emptying, cleaning and filling again (common practice, no source).
inline constexpr Duration usual_between_runs = minutes(45);

/// When one can be at the bench, and what its freezer gives.
struct Bench {
  LocalDay first_day{};              ///< no run before
  std::optional<LocalDay> last_day;  ///< none: as long as it takes, within a year
  /// Sunday first, as std::chrono::weekday counts.
  std::array<bool, 7> weekdays{true, true, true, true, true, true, true};
  std::set<LocalDay> off;       ///< days on which nobody is there
  std::chrono::minutes from{};  ///< after midnight: no heat on before
  std::chrono::minutes to{};    ///< no heat on the still after; up to `from`: of the next day
  Duration between_runs = usual_between_runs;  ///< from heat off to heat on
  std::optional<Mass> ice_per_day;             ///< none: as much as it takes

  /// Whether a run may begin on this day; first and last day do not count here.
  bool is_open(LocalDay day) const;
  /// When heat may go on.
  LocalMinute opens(LocalDay day) const { return day + from; }
  /// When heat must be off, perhaps on the next day.
  LocalMinute closes(LocalDay day) const;
};

/// All of this is to be worked off.
struct HarvestOrder {
  Mass mass;  ///< above zero
};

/// A recipe and how much is wanted of it: a harvest to work off, or a product to get.
struct WorkOrder {
  Recipe recipe;     ///< of one batch
  std::string file;  ///< as the campaign names it; empty for a recipe that it spells out
  std::variant<HarvestOrder, HydrosolGoal, OilGoal> order;  ///< in all runs
  std::optional<Fraction> confidence;  ///< how often each run shall give its share of a product
};

/// What is to be done, and when somebody is there to do it.
struct Campaign {
  std::string title;            ///< may be empty
  Bench bench;                  ///< when and where
  std::vector<WorkOrder> work;  ///< in the order in which it is to be done
  Units units = Units::metric;  ///< of all recipes on this bench
};

/// Why some of the work cannot be done.
struct CampaignProblem {
  std::string code;  ///< refused, run-too-long, ice-short, days-run-out, too-many-runs
  std::string text;  ///< a sentence with the numbers and ways out
};

/// A run in its place on the clock.
struct CampaignRun {
  std::size_t work = 0;  ///< place in CampaignPlan::work
  int number = 0;        ///< in the campaign, from 1
  LocalMinute heat_on;   ///< on full five minutes
  LocalMinute stop;      ///< of the typical run
  LocalMinute done_by;   ///< nine runs in ten have ended: the next run is not counted on before
  /// The heat must be off, if nobody has seen the level (TimesPlan::latest, whole minutes down).
  LocalMinute heat_off_by;
};

/// Work of a campaign, with the plan of one of its runs.
struct CampaignWork {
  Plan plan;                ///< of each run: they are alike. `charge.runs` is how many there are
  int runs = 0;             ///< that it takes; 0 when refused
  int placed = 0;           ///< of them, on days of the bench
  std::optional<Mass> ice;  ///< expected in one run, in pieces as they are weighed out
  std::optional<Mass> ice_ready;          ///< to have ready for one run: enough for any heater
  std::vector<CampaignProblem> problems;  ///< empty when all runs have their place
  std::vector<CampaignProblem> cautions;  ///< of the bench, to mind: ice-ready-short

  /// Herb of the runs that have their place.
  Mass herb() const;
  /// @{
  /// Sum over the runs that have their place. Ranges are added as if all runs erred the same way,
  /// since they share what is not known of plant and still: no sum is wider. Zero where no run is
  /// planned.
  Range<Volume> hydrosol() const;
  Range<Volume> oil_volume() const;
  Range<Mass> oil() const;
  Range<Energy> plug() const;
  /// @}
};

/// What runs need beside their herb.
struct CampaignNeeds {
  std::optional<Mass> ice;        ///< expected
  std::optional<Mass> ice_ready;  ///< to have frozen: enough for any heater
  Volume pot_water;               ///< first fills
  Volume tap_water;               ///< run through condensers
  Energy plug;                    ///< or fuel

  /// Adds those of other runs.
  void add(const CampaignNeeds& other);
};

/// A day with runs.
struct CampaignDay {
  LocalDay day;  ///< on which the bench opens; a run may begin or end after midnight
  std::vector<CampaignRun> runs;  ///< in their order
  CampaignNeeds needs;            ///< of all of them; the ice when the bench opens
};

/// A campaign with its runs on their days.
struct CampaignPlan {
  Campaign campaign;               ///< what was asked for
  std::vector<CampaignWork> work;  ///< as in the campaign
  std::vector<CampaignDay> days;   ///< those with runs, in their order

  /// All of the work has its place. Otherwise nobody shall set out on it as it stands.
  bool may_be_run() const;
  /// How many have their place.
  int runs() const;
  /// What those need.
  CampaignNeeds needs() const;
};

/// How long one run of a plan keeps the bench, from the start of heating to heat off: the 90th
/// percentile of its stop, with the person late by the recipe's `limits.absence`. For planning
/// days, and no limit for the heat. The plan must have a run.
Duration done_by(const Plan& plan);

/// Plans every recipe for one run of it, finds how many runs the work takes, and puts them on the
/// bench one by one, in the order of the campaign: heat goes on only when the run before has ended
/// nine times in ten, and is cleared away; no run begins that may not end within the bench's hours
/// or whose ice the freezer of that day does not have. Starts are on full five minutes. Up to 1000
/// runs of each work, within 366 days; what finds no place is among the problems.
///
/// A harvest replaces the recipe's charge and is shared out evenly; a goal of a recipe that is an
/// amount is taken in proportion to the herb. A wanted product replaces the goal: for hydrosol as
/// many runs as the recipe makes them typically give it, for oil what make_plan() finds. The start
/// of a recipe is left out of account.
/// Throws InputError with the faults of all recipes that do not hold together, RangeError
/// past the year 9999.
CampaignPlan plan_campaign(const Campaign& campaign, const Tables& tables,
                           const Sampling& sampling = default_samples);

/// The plan of one run of the campaign, at its place: with it comes the run's own sheet.
/// Throws RangeError when there is no run of this number.
Plan run_of_campaign(const CampaignPlan& plan, int number);

}  // namespace firstdrop
