/// @file
/// Which figures serve for a plant in a state and cut, run in a still by a method: what of the
/// inputs does not change with the numbers of a recipe.
#pragma once

#include <string>
#include <vector>

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"
#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/tables/tables.hpp"
#include "physics/release.hpp"

namespace firstdrop {

/// The figures that serve, each with its range and evidence.
struct SelectedParameters {
  // Uncertain, one each.
  Cited<Density> bulk_density;            ///< of the charge as it lies
  Cited<Fraction> moisture;               ///< kg water per kg as loaded
  Cited<Fraction> fresh_moisture;         ///< the same as it was cut, where that is known
  Cited<Fraction> oil_content;            ///< by mass, per `oil_per`
  OilPer oil_per = OilPer::as_received;   ///< what the content is a share of
  Cited<Fraction> recovery;               ///< of that content, by this way of running a small still
  Cited<Duration> half_life;              ///< of the release, see OilRelease
  Cited<Fraction> fast_share;             ///< of it, in the fast stage
  Cited<Fraction> slow_rate;              ///< of the slow stage, over that of the fast one
  Method release_method = Method::steam;  ///< that those three were published for
  Cited<Rate> reference_flow;             ///< at which they hold, kg steam per kg charge
  Cited<Fraction> flow_on_fast;           ///< see FlowEffect; zero for herb in water
  Cited<Fraction> flow_on_slow;           ///< the same of the slow stage
  Cited<Density> hydrosol_oil;            ///< that the hydrosol keeps, per volume
  Cited<Fraction> mixing;                 ///< of the receiver
  Cited<Density> oil_density;             ///< of the plant's oil
  Cited<Fraction> heater_efficiency;      ///< heat in the pot over that drawn
  Cited<Duration> stored_heat;            ///< in the pot after heat off, as a time of full heat
  Cited<HeatTransfer> pot_film;           ///< pot to room
  Cited<HeatTransfer> column_film;        ///< column to room; that of the pot, but for steam
  Cited<HeatTransfer> head_film;          ///< head to room
  Cited<SpecificHeat> dry_specific_heat;  ///< of the plant's dry matter
  Cited<Fraction> hold_up;                ///< kg water per kg dry matter, drained
  Cited<Fraction> film_hold_up;           ///< kg water per kg charge that already is wet
  Cited<Mass> wall_hold_up;               ///< water on walls
  Cited<Fraction> uncondensed_loss;       ///< of the vapour, not caught
  Cited<Fraction> fill_error;             ///< of the first fill
  Cited<HeatTransfer> condensing;         ///< overall, of the condensing wall

  // Exact enough.
  Release release;  ///< with the typical half-life, fast share and slow rate, at the reference flow
  Fraction as_fresh;  ///< kg fresh herb that one kg as loaded was; 1 where the
                      ///< plant is known as dry material alone
  Cited<SpecificVolume> customary_hydrosol;  ///< published, per kg as loaded
  SpecificHeat pot_specific_heat;            ///< of its material
  SpecificHeat column_specific_heat;         ///< of its material; that of the pot, but for steam
  SpecificHeat head_specific_heat;           ///< of its material
  std::vector<OilPart> oil_parts;            ///< of the plant's oil; liquids of the library

  std::vector<std::string>
      defaults_used;  ///< where a figure of another cut, state or method serves
};

/// The figures for a recipe, with its own bulk density and oil content in the place of the tables'.
/// Throws InputError when the tables have none (see plant_figures.hpp), and with all that is
/// missing in a still or plant made in code: figures that are not above zero where they must be or
/// not in order, materials and liquids that the library does not have.
SelectedParameters select_parameters(const Recipe& recipe, const Tables& tables);

}  // namespace firstdrop
