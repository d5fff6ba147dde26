// Which figures serve for a plant in a state and cut, run in a still by a method: what of the
// inputs does not change with the numbers of a recipe.
#pragma once

#include <string>
#include <vector>

#include "firstdrop/library.hpp"
#include "firstdrop/quantity.hpp"
#include "firstdrop/recipe.hpp"
#include "firstdrop/release.hpp"
#include "firstdrop/source.hpp"

namespace firstdrop {

struct Figures {
  // Uncertain, one each.
  Cited<Density> bulk_density;
  Cited<Fraction> moisture;
  Cited<Fraction> oil_content;  ///< by mass, per `oil_per`
  OilPer oil_per = OilPer::as_loaded;
  Cited<Fraction> recovery;
  Cited<Duration> half_time;
  Cited<Fraction> washed_share;
  Method release_method = Method::steam;  ///< that those two were published for
  Cited<Rate> published_steam;            ///< flow of such runs, kg steam per kg charge
  Cited<Density> hydrosol_oil;
  Cited<Density> oil_density;
  Cited<Fraction> heater_efficiency;
  Cited<HeatTransfer> pot_film;
  Cited<HeatTransfer> column_film;
  Cited<HeatTransfer> head_film;
  Cited<SpecificHeat> dry_specific_heat;
  Cited<Fraction> hold_up;
  Cited<Fraction> film_hold_up;
  Cited<Mass> wall_hold_up;
  Cited<Fraction> vent_share;
  Cited<Fraction> fill_error;
  Cited<HeatTransfer> condensing;

  // Exact enough.
  SpecificHeat pot_specific_heat;
  SpecificHeat column_specific_heat;
  SpecificHeat head_specific_heat;
  std::vector<OilPart> oil_parts;  ///< of the plant's oil; liquids of the library

  std::vector<std::string> stand_ins;  ///< where a figure of another cut, state or method serves
};

/// The figures for a recipe, with its own bulk density and oil content in the place of the tables'.
/// Throws InputError when the tables have none (see plant_figures.hpp).
Figures choose_figures(const Recipe& recipe, const Library& library);

}  // namespace firstdrop
