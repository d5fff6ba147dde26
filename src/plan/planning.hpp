// What planning one recipe starts from, and the questions that several of its steps ask.
#pragma once

#include <optional>

#include "firstdrop/model/uncertainty.hpp"
#include "firstdrop/tables/tables.hpp"
#include "model/model_parameters.hpp"
#include "model/outcomes.hpp"
#include "model/parameters_at.hpp"
#include "model/water_budget.hpp"
#include "physics/run.hpp"
#include "quantity/numbers_text.hpp"

namespace firstdrop {

/// Nominal runs of one recipe. The last charge is cached, because searches ask for it with many
/// different fills.
class NominalRuns {
 public:
  /// Keeps a reference to the parameters.
  explicit NominalRuns(const ModelParameters& parameters);
  /// The nominal run of this charge and fill; without filling error.
  Run of(Mass charge, Mass fill) const;
  /// The values of the run with the weakest heater and the highest heat loss.
  RunValues weakest(Mass charge, Mass fill) const;

 private:
  ParametersAt at_medians_;
  mutable std::optional<Run> cached_;
  mutable Mass charge_;
};

/// What planning one recipe starts from. It stays the same from the first step to the last.
struct Planning {
  /// Keeps references to the parameters and tables.
  Planning(const ModelParameters& of_recipe, const Tables& all_tables, const Sampling& how_sampled,
           Detail how_much);

  const ModelParameters& parameters;
  const Tables& tables;
  const Recipe& recipe;
  const Still& still;
  const DesignDefaults& defaults;
  WaterBudget water;
  NominalRuns nominal;
  Sampling sampling;
  Detail detail;

  bool brief() const { return detail == Detail::brief; }
  bool hydro() const { return recipe.method_used() == Method::hydro; }
  /// How long the pot may keep boiling after the planned stop.
  Duration lateness() const;

  // To a mark of the bench's scale and jug.
  template <class Quantity>
  Quantity neat_down(Quantity quantity) const {
    return firstdrop::neat_down(quantity, recipe.units);
  }
  template <class Quantity>
  Quantity neat_up(Quantity quantity) const {
    return firstdrop::neat_up(quantity, recipe.units);
  }
};

/// The recipe's water, or else as much as there is room for beside the charge.
Mass fill_to_judge_by(const Planning& p, Mass charge);

/// Whether the pot has an element in it, which must stay covered. Another pot may boil down further
/// if something goes wrong.
bool element_in_water(const Still& still);

/// The same herb as freshly cut.
Mass as_fresh(const Planning& p, Mass charge);

/// Hydrosol that the goal asks for from this much charge in all; none where it asks for something
/// else.
std::optional<Volume> hydrosol_asked(const Planning& p, Mass charge);

/// Oil that an oil goal asks for in all.
Mass oil_asked(const Planning& p, const OilGoal& goal);

/// When a run with no other goal ends: the oil still in the charge isn't worth more water and time.
/// If nothing is known of the oil, it ends with as much hydrosol as is customary.
/// But not before there is enough hydrosol to be worth a run.
Duration default_end(const Planning& p, const Run& run, Mass charge);

/// The level in the receiver at which this much oil of this charge has separated; none when it
/// never does.
std::optional<Volume> level_of_oil(const Planning& p, Mass charge, Mass oil);

/// The upper-bound heater case for the condenser. The worst case for the pot's water has more heat.
Run upper_heater_run(const Planning& p, Mass charge, Mass fill);

}  // namespace firstdrop
