/// @file
/// A campaign: several recipes on one bench, run after run and day after day.
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

/// Time to cool down, empty, clean and refill (common practice, no source).
inline constexpr Duration usual_between_runs = minutes(45);

/// When somebody is at the bench, and how much ice its freezer gives.
struct Bench {
  LocalDay first_day{};              ///< no run starts before this day
  std::optional<LocalDay> last_day;  ///< none: as many days as it takes, within 366
  /// Days of the week with somebody there; Sunday first, as std::chrono::weekday counts.
  std::array<bool, 7> weekdays{true, true, true, true, true, true, true};
  std::set<LocalDay> off;       ///< days on which nobody is there
  std::chrono::minutes from{};  ///< after midnight: heating starts no earlier
  /// After midnight: the heat must be off by then. If not later than `from`, it is on the next day.
  std::chrono::minutes to{};
  Duration between_runs = usual_between_runs;  ///< from heat off to the next start of heating
  std::optional<Mass> ice_per_day;             ///< none: unlimited

  /// Whether a run may begin on this day, by weekday and days off. Ignores first_day and last_day.
  bool is_open(LocalDay day) const;
  /// When heating may start.
  LocalMinute opens(LocalDay day) const { return day + from; }
  /// When the heat must be off; may be on the next day.
  LocalMinute closes(LocalDay day) const;
};

/// A harvest to use up in full.
struct HarvestOrder {
  Mass mass;  ///< above zero
};

/// A recipe and how much is wanted from it: a harvest to use up, or a product to get.
struct WorkOrder {
  Recipe recipe;     ///< of one batch
  std::string file;  ///< as the campaign names it; empty for a recipe that it spells out
  std::variant<HarvestOrder, HydrosolGoal, OilGoal> order;  ///< for all runs together
  std::optional<Fraction> confidence;  ///< how often each run must give its share of a product
};

/// The work to do, and when somebody is there to do it.
struct Campaign {
  std::string title;            ///< may be empty
  Bench bench;                  ///< when and where
  std::vector<WorkOrder> work;  ///< in the order in which it is done
  Units units = Units::metric;  ///< for all recipes on this bench
};

/// Why some of the work can't be done, or a caution about it.
struct CampaignProblem {
  std::string code;  ///< refused, run-too-long, ice-short, days-run-out, too-many-runs
  std::string text;  ///< sentences with the numbers and ways out
};

/// A run with its time.
struct CampaignRun {
  std::size_t work = 0;  ///< index in CampaignPlan::work
  int number = 0;        ///< in the campaign, from 1
  LocalMinute heat_on;   ///< start of heating, on a full five minutes
  LocalMinute stop;      ///< of the nominal run
  LocalMinute done_by;   ///< nine runs in ten have ended; the next run starts after it
  /// When the heat must be off if nobody has seen the level: TimesPlan::latest, in whole minutes
  /// rounded down.
  LocalMinute heat_off_by;
};

/// One entry of a campaign's work, with the plan of one of its runs.
struct CampaignWork {
  Plan plan;                ///< of each run, since all are alike; `charge.runs` is their number
  int runs = 0;             ///< number of runs that it takes; 0 when refused
  int placed = 0;           ///< number of runs that have a day
  std::optional<Mass> ice;  ///< expected in one run, in pieces as weighed out
  std::optional<Mass> ice_ready;          ///< to have ready for one run: enough for any heater
  std::vector<CampaignProblem> problems;  ///< empty when all runs have a day
  std::vector<CampaignProblem> cautions;  ///< about the bench: ice-ready-short

  /// Herb for the runs that have a day.
  Mass herb() const;
  /// @{
  /// Sum over the runs that have a day. Ranges are added with errors fully correlated, because the
  /// runs share what isn't known about the plant and still. No sum can be wider. Zero if no run is
  /// planned.
  Range<Volume> hydrosol() const;
  Range<Volume> oil_volume() const;
  Range<Mass> oil() const;
  Range<Energy> plug() const;
  /// @}
};

/// What runs need besides their herb.
struct CampaignNeeds {
  std::optional<Mass> ice;        ///< expected
  std::optional<Mass> ice_ready;  ///< to have frozen; enough for any heater
  Volume pot_water;               ///< first fills
  Volume tap_water;               ///< through the condensers
  Energy plug;                    ///< electricity or fuel

  /// Adds the needs of other runs.
  void add(const CampaignNeeds& other);
};

/// A day with runs.
struct CampaignDay {
  LocalDay day;  ///< on which the bench opens; a run may begin or end after midnight
  std::vector<CampaignRun> runs;  ///< in order of time
  CampaignNeeds needs;            ///< of all its runs; the ice is needed when the bench opens
};

/// A campaign with its runs on their days.
struct CampaignPlan {
  Campaign campaign;               ///< what was asked for
  std::vector<CampaignWork> work;  ///< as in the campaign
  std::vector<CampaignDay> days;   ///< days with runs, in order

  /// Whether all of the work has a day. If not, nobody may start the campaign as it stands.
  bool may_be_run() const;
  /// The number of runs that have a day.
  int runs() const;
  /// What those runs need.
  CampaignNeeds needs() const;
};

/// How long one run of a plan keeps the bench, from the start of heating to heat off. That is the
/// 90th percentile of its stop, or the nominal stop if later, plus the recipe's `limits.absence`.
/// It is for planning days and doesn't limit the heat. The plan must have a run.
Duration done_by(const Plan& plan);

/// Plans one run of each recipe, finds how many runs the work takes, and puts them on the bench in
/// the order of the campaign. Each run starts after the previous one's done_by() and
/// Bench::between_runs. A run must be done within the bench's hours, and that day's freezer must
/// have its ice. Starts are on full five minutes. Each entry of work may have up to 1000 runs,
/// within 366 days. Runs that don't fit are reported as problems.
///
/// A harvest replaces the recipe's charge and is split evenly. If the recipe's goal is an amount,
/// it is scaled in proportion to the herb. A wanted product replaces the goal. For hydrosol, the
/// number of runs follows from what the recipe's nominal run gives; for oil, it is what make_plan()
/// finds. The recipe's start is ignored.
/// Throws InputError with the faults of all inconsistent recipes, and RangeError past the year
/// 9999.
CampaignPlan plan_campaign(const Campaign& campaign, const Tables& tables,
                           const Sampling& sampling = default_samples);

/// The plan of one run of the campaign with its start time, from which its own sheet can be made.
/// Throws RangeError if there is no run with this number.
Plan run_of_campaign(const CampaignPlan& plan, int number);

}  // namespace firstdrop
