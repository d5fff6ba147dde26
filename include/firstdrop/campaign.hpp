// A campaign: several recipes worked off on one bench, run after run, day after day.
#pragma once

#include <array>
#include <chrono>
#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <variant>
#include <vector>

#include "firstdrop/clock_time.hpp"
#include "firstdrop/library.hpp"
#include "firstdrop/plan.hpp"
#include "firstdrop/quantity.hpp"
#include "firstdrop/recipe.hpp"
#include "firstdrop/sampling.hpp"
#include "firstdrop/source.hpp"

namespace firstdrop {

/// Cooling down, emptying, cleaning and filling again (common practice, no source).
inline constexpr Duration usual_between_runs = minutes(45);

/// When one can be at the bench, and what its freezer gives.
struct Bench {
  LocalDay first_day{};
  std::optional<LocalDay> last_day;
  /// Sunday first, as std::chrono::weekday counts.
  std::array<bool, 7> weekdays{true, true, true, true, true, true, true};
  std::set<LocalDay> off;
  std::chrono::minutes from{};  ///< after midnight: no heat on before
  std::chrono::minutes to{};    ///< no heat on the still after; up to `from`: of the next day
  Duration between_runs = usual_between_runs;  ///< from heat off to heat on
  std::optional<Mass> ice_per_day;             ///< none: as much as it takes

  bool is_open(LocalDay day) const;
  LocalMinute opens(LocalDay day) const { return day + from; }
  LocalMinute closes(LocalDay day) const;
};

/// All of this is to be worked off.
struct HarvestOrder {
  Mass mass;
};

/// A recipe and how much is wanted of it: a harvest to work off, or a product to get.
struct WorkOrder {
  Recipe recipe;
  std::string file;  ///< as the campaign names it; empty for a recipe that it spells out
  std::variant<HarvestOrder, HydrosolGoal, OilGoal> order;
  std::optional<Fraction> confidence;  ///< how often each run shall give its share of a product
};

struct Campaign {
  std::string title;
  Bench bench;
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
  LocalMinute heat_on;
  LocalMinute stop;    ///< of the typical run
  LocalMinute latest;  ///< latest credible heat off: the next run is not counted on before
};

/// Work of a campaign, with the plan of one of its runs.
struct CampaignWork {
  Plan plan;                ///< of each run: they are alike. `charge.runs` is how many there are
  int runs = 0;             ///< that it takes; 0 when refused
  int placed = 0;           ///< of them, on days of the bench
  std::optional<Mass> ice;  ///< to have ready for one run
  std::vector<CampaignProblem> problems;

  // Of the runs that have their place. Ranges are added as if all runs erred the same way, since
  // they share what is not known of plant and still: no sum is wider.
  Mass herb() const;
  Range<Volume> hydrosol() const;
  Range<Volume> oil_volume() const;
  Range<Mass> oil() const;
  Range<Energy> plug() const;
};

/// What runs need beside their herb.
struct CampaignNeeds {
  std::optional<Mass> ice;  ///< to have frozen
  Volume pot_water;
  Volume tap_water;  ///< run through condensers
  Energy plug;       ///< or fuel

  void add(const CampaignNeeds& other);
};

struct CampaignDay {
  LocalDay day;  ///< on which the bench opens; a run may begin or end after midnight
  std::vector<CampaignRun> runs;
  CampaignNeeds needs;  ///< of all of them; the ice when the bench opens
};

struct CampaignPlan {
  Campaign campaign;
  std::vector<CampaignWork> work;  ///< as in the campaign
  std::vector<CampaignDay> days;   ///< those with runs, in their order

  /// All of the work has its place. Otherwise nobody shall set out on it as it stands.
  bool may_be_run() const;
  int runs() const;
  CampaignNeeds needs() const;
};

/// What one run of a plan may take at most, heat on to heat off: the 90th percentile of its stop,
/// with the person late by the recipe's `limits.absence`.
Duration latest_end(const Plan& plan);

/// Plans every recipe for one run of it, finds how many runs the work takes, and puts them on the
/// bench one by one, in the order of the campaign: heat goes on only when the run before has ended
/// even at its latest, and is cleared away; no run begins that may not end within the bench's hours
/// or whose ice the freezer of that day does not have. Starts are on full five minutes.
///
/// A harvest replaces the recipe's charge and is shared out evenly; a goal of a recipe that is an
/// amount is taken in proportion to the herb. A wanted product replaces the goal: for hydrosol as
/// many runs as the recipe makes them typically give it, for oil what make_plan() finds. The start
/// of a recipe is left out of account.
/// Throws InputError when a recipe does not hold together (see gather_inputs).
CampaignPlan plan_campaign(const Campaign& campaign, const Library& library,
                           const Sampling& sampling = default_samples);

/// The plan of one run of the campaign, at its place: with it comes the run's own sheet.
/// Throws RangeError when there is no run of this number.
Plan run_of_campaign(const CampaignPlan& plan, int number);

}  // namespace firstdrop
