/// @file
/// Figures that belong to no single plant or still: materials, heaters, condensing walls, and the
/// planning rules of the trade.
#pragma once

#include <map>
#include <string>

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"
#include "firstdrop/tables/plant.hpp"
#include "firstdrop/tables/still.hpp"

namespace firstdrop {

/// What a vessel or a condenser is made of.
struct Material {
  std::string key;                    ///< by which stills name it
  Cited<SpecificHeat> specific_heat;  ///< at room temperature to steam heat
  Cited<HeatTransfer> heat_loss;      ///< convection and radiation from its outside at steam heat
  Cited<HeatTransfer> condensing;  ///< overall, low-pressure steam through the wall to still water
};

/// Figures of the trade and defaults, each with its source. The maps have all of their keys.
struct DesignDefaults {
  std::map<HeaterKind, Cited<Fraction>> heater_efficiency;  ///< heat in the pot over that drawn
  /// Heat that still gets into the pot after heat off, as the time in which the heater gave it.
  std::map<HeaterKind, Cited<Duration>> stored_heat;
  std::map<Cut, Cited<Length>> particle_size;  ///< six times volume over surface
  std::map<Cut, Cited<Fraction>> cut_density;  ///< bulk density relative to chopped
  std::map<Method, Cited<Fraction>> recovery;  ///< of oil found to exhaustion, by a small still
  Cited<Fraction> fast_share;                  ///< of the oil, released in the fast stage
  Cited<Fraction> slow_rate;                   ///< of the slow stage, over that of the fast one
  Cited<Fraction> flow_on_fast;  ///< resistance of the steam over that of the plant, fast stage
  Cited<Fraction> flow_on_slow;  ///< the same of the slow stage
  Cited<Fraction> stated_end;    ///< share of what a still gets that has come when it is stopped
  Cited<Fraction> drying_retention;       ///< oil kept on drying, per dry matter
  Cited<Density> hydrosol_oil;            ///< of any plant, where nothing better is known
  Cited<Fraction> hydrosol_saturation;    ///< measured hydrosol oil over what could dissolve
  Cited<Fraction> mixing;                 ///< of a receiver, see RunValues::mixing
  Cited<Density> particle_density;        ///< of the plant tissue itself
  Cited<SpecificHeat> dry_specific_heat;  ///< of plant dry matter
  Cited<Fraction> hold_up;                ///< kg water per kg dry matter, drained
  Cited<Fraction> film_hold_up;           ///< kg water per kg charge that already is wet
  Cited<Fraction> head_space;             ///< share of the column left free
  Cited<Fraction> uncondensed_loss;       ///< of the vapour, not caught by the condenser
  Cited<Fraction> reserve_share;          ///< of the first fill
  Cited<Fraction> fill_error;             ///< of the first fill, reading a jug
  Cited<Fraction> grid_clearance;         ///< share of the water space below a grid
  /// Power drawn over that of the nameplate, by the mains: the least and the most.
  Cited<Fraction> mains;
  Cited<Fraction> dial_error;         ///< more heat than the heater's dial says
  Cited<Fraction> own_accuracy;       ///< of a figure measured on the bench
  Cited<Fraction> own_heat_accuracy;  ///< of the next run's heat, told by one reading
  Cited<Fraction> own_oil_accuracy;   ///< of an oil content measured on the bench
  Cited<Fraction> oil_gain;           ///< per quarter hour; a run made for oil stops below it
  /// Of the recoverable oil, that a run without a goal may leave in the charge: for the customary
  /// amount of hydrosol, and for an hour of running.
  Cited<Fraction> oil_left_per_hydrosol;
  Cited<Fraction> oil_left_per_hour;             ///< see above
  Cited<SpecificVolume> hydrosol_per_fresh;      ///< L hydrosol per kg herb as fresh, published
  Cited<SpecificVolume> hydrosol_per_dry_fruit;  ///< the same of seeds and other dry material
  Cited<Rate> steam_per_charge;  ///< kg steam per kg charge and hour, published; half-lives
                                 ///< without a flow of their own hold at its typical
  std::map<State, Cited<SpecificVolume>> hydro_water;  ///< L water per kg charge in the pot
  Cited<SpecificVolume> hydro_wetting;                 ///< L free water per kg charge, to the end
  Cited<TemperatureDifference> approach;               ///< distillate above coolant, at least
  Cited<HeatTransfer> bath_loss;                       ///< coolant vessel to the room
  Cited<Fraction> circuit_share;  ///< of a circuit's rating, that a heater may draw for hours
  Cited<Power> socket_for_hours;  ///< that a household socket should carry for hours
  Cited<Power> least_circuit;     ///< that the smallest common circuit carries for hours
  Cited<Volume> still_reported;   ///< above it some country wants a still reported
};

}  // namespace firstdrop
