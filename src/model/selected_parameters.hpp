/// @file
/// The parameters selected for a plant in a state and cut, run in a still by a method. They don't
/// change with the amounts in a recipe.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"
#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/tables/tables.hpp"
#include "physics/release.hpp"

namespace firstdrop {

/// The defaults that figures from measured runs of a still have replaced. The worst case allows for
/// both.
struct Replaced {
  Cited<Fraction> heater_efficiency;
  Cited<HeatTransfer> pot_film;
  Cited<HeatTransfer> column_film;
  Cited<HeatTransfer> head_film;
  Cited<Mass> wall_hold_up;
  Fraction run_to_run;  ///< standard deviation of the heat from run to run, relative
  Fraction most_room;   ///< DesignDefaults::most_heat_room
};

/// The parameters of a still, whatever is in it.
struct StillParameters {
  // Uncertain.
  Cited<Fraction> heater_efficiency;  ///< heat into the pot over power drawn
  Cited<Duration> stored_heat;        ///< into the pot after heat off, as a time at full heat
  Cited<HeatTransfer> pot_film;       ///< pot to room
  Cited<HeatTransfer> column_film;    ///< column to room; as `pot_film` unless by steam
  Cited<HeatTransfer> head_film;      ///< head to room
  Cited<Mass> wall_hold_up;           ///< water on walls
  Cited<Fraction> uncondensed_loss;   ///< share of the vapour that isn't caught
  Cited<Fraction> fill_error;         ///< relative, of the first fill
  Cited<HeatTransfer> condensing;     ///< overall, of the condensing wall
  std::optional<Replaced> replaced;   ///< none if no figure comes from measured runs

  // Exact enough not to be sampled.
  SpecificHeat pot_specific_heat;     ///< of its material
  SpecificHeat column_specific_heat;  ///< of its material; the pot's unless by steam
  SpecificHeat head_specific_heat;    ///< of its material
};
/// The still must have been checked.
StillParameters still_parameters(const Still& still, Method method, const Tables& tables);

/// The selected parameters, each with its range and evidence.
struct SelectedParameters : StillParameters {
  /// Whether anything is known of the oil; see has_oil_figures(). If not, the charge counts as
  /// having none, and no figure of the oil means anything.
  bool has_oil = true;

  // Uncertain, one parameter each.
  Cited<Density> bulk_density;            ///< of the charge as it lies
  Cited<Fraction> moisture;               ///< kg water per kg charge, as received
  Cited<Fraction> fresh_moisture;         ///< the same when just cut; as `moisture` if not known
  Cited<Fraction> oil_content;            ///< by mass, per `oil_per`
  OilPer oil_per = OilPer::as_received;   ///< what the content is a share of
  Cited<Fraction> recovery;               ///< share of that content that a small still gets
  Cited<Duration> half_life;              ///< of the release, see OilRelease
  Cited<Fraction> fast_share;             ///< of the oil, released in the fast stage
  Cited<Fraction> slow_rate;              ///< of the slow stage, over that of the fast stage
  Method release_method = Method::steam;  ///< for which the release was published
  Cited<Rate> reference_flow;    ///< at which the release holds, kg steam per kg charge and time
  Cited<Fraction> flow_on_fast;  ///< see FlowEffect; zero for herb in water
  Cited<Fraction> flow_on_slow;  ///< the same for the slow stage
  Cited<Density> hydrosol_oil;   ///< oil that stays in the hydrosol, per volume
  Cited<Fraction> mixing;        ///< of the receiver
  Cited<Density> oil_density;    ///< of the plant's oil
  Cited<SpecificHeat> dry_specific_heat;  ///< of the plant's dry matter
  Cited<Fraction> hold_up;                ///< kg water per kg dry matter, drained
  Cited<Fraction> film_hold_up;           ///< kg water per kg charge that is already wet

  // Exact enough not to be sampled.
  Release release;  ///< with the median half-life, fast share and slow rate, at the reference flow
  std::vector<BlendPace> blend_paces;  ///< see Release::blend; empty for a single plant
  Fraction as_fresh;  ///< kg fresh herb per kg as received; 1 for a plant only known dry
  Cited<SpecificVolume> customary_hydrosol;  ///< published, per kg as received
  std::vector<OilPart> oil_parts;            ///< of the plant's oil; they point into the tables

  // What converted figures were made from. The pointers point into the plant or the tables.
  const BulkDensity* scaled_bulk_density = nullptr;  ///< of another cut; null if for this cut
  const OilContent* oil_content_in_table = nullptr;  ///< null if the recipe has its own
  State oil_content_state = State::fresh;            ///< of `oil_content_in_table`
  std::optional<OilSolubility>
      oil_solubility;  ///< none if `hydrosol_oil` wasn't worked out from it

  /// What was used instead of the plant's own figures: class defaults, or figures of another cut,
  /// state or method.
  std::vector<std::string> defaults_used;
};

/// Selects the parameters for a recipe. The recipe's own bulk density and oil content replace the
/// tables' figures. Throws InputError if the tables have no figure (see plant_parameters.hpp). Also
/// throws it, with every fault, for a still or plant made in code. Faults are figures that are out
/// of bounds or out of order, and materials and liquids that the tables don't have.
SelectedParameters select_parameters(const Recipe& recipe, const Tables& tables);

}  // namespace firstdrop
