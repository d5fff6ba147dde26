/// @file
/// Figures that don't belong to a single plant or still: materials, heaters, condensing walls and
/// the rules of thumb of the trade.
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
  std::string key;                    ///< key that stills refer to it by
  Cited<SpecificHeat> specific_heat;  ///< from room temperature to that of steam
  /// Convection and radiation from its outside at steam temperature.
  Cited<HeatTransfer> heat_loss;
  /// Overall coefficient, from low-pressure steam through the wall to still water.
  Cited<HeatTransfer> condensing;
  Cited<Density> density;  ///< of the material itself
  Cited<Length> wall;      ///< how thick vessels of it usually are
};

/// What a still has where its owner hasn't measured it; see with_defaults().
struct StillDefaults {
  std::map<Method, Cited<Fraction>> fill_limit;  ///< of the pot
  Cited<Fraction> pot_height;                    ///< over its diameter; one value
  Cited<Fraction> column_height;                 ///< over its diameter; one value
  Cited<Length> water_over_base;                 ///< depth that must stay in the pot; one value
  Cited<Fraction> head_surface;                  ///< over the cross-section below the head
  Cited<Length> wall_film;                       ///< of water on column, head and condenser
  Cited<Fraction> coil_surface;      ///< condensing surface over coolant volume to the power of 2/3
  Cited<Fraction> tube_cooled;       ///< share of a condenser's tube that lies in the coolant
  Cited<Fraction> dome_surface;      ///< of a condensing dome, over its cross-section
  Cited<Temperature> outlet;         ///< warmest distillate; one value
  Cited<Temperature> coolant_limit;  ///< warmest coolant; one value
  Cited<Density> ice;                ///< mass of ice at one change, over the volume of an ice bath
  Cited<VolumeFlow> tap;             ///< most that a tap gives
};

/// Limits beyond which a figure of a still is more likely a slip than true.
struct PlausibleStill {
  Length least_wall, most_wall;              ///< of pot, column and head, from their mass
  Fraction least_space, most_space;          ///< for the charge, over the pot's volume
  Fraction least_head, most_head;            ///< its surface over the cross-section below it
  Duration least_boil, most_boil;            ///< of a pot filled to half of its fill limit
  Fraction least_condenser, most_condenser;  ///< heat it condenses over heat that comes
  TemperatureDifference drop;                ///< from steam to coolant, for these two
  Duration least_warming, most_warming;      ///< of the coolant, by `warming`
  TemperatureDifference warming;
  Length least_film, most_film;    ///< of water on the walls
  Length least_depth, most_depth;  ///< of the minimum water over the pot's base
  VolumeFlow least_tap, most_tap;
  Evidence evidence;
};

/// How exactly a person reads a run's figures. Standard deviations.
struct ReadingErrors {
  Duration clock;
  Fraction jug;        ///< of each reading, relative
  Volume least_jug;    ///< of each reading, if that is more
  Fraction jug_marks;  ///< common to all readings of one jug, relative
  Fraction meter;      ///< of an energy meter, relative
  Fraction fill;       ///< of the water that is poured in, relative
  Mass scale;          ///< of the scale for amounts up to `scale_to`
  Mass scale_to;
  Mass large_scale;  ///< of the scale for larger amounts, up to `large_scale_to`
  Mass large_scale_to;
  Mass farm_scale;  ///< of the scale for still larger amounts
  Evidence evidence;

  /// Of the scale that people weigh this much on.
  Mass of_scale(Mass weighed) const {
    if (weighed <= scale_to) return scale;
    return weighed <= large_scale_to ? large_scale : farm_scale;
  }
};

/// How many runs and receivers a plan may have.
struct RunCounts {
  int most_runs = 0;       ///< a harvest that takes more is refused
  int many_runs = 0;       ///< a harvest that takes more gets a caution
  int most_receivers = 0;  ///< changes of the receiver; with more, none is planned
  Evidence evidence;
};

/// The design defaults (rules of thumb of the trade) and the defaults for all plants, each with its
/// source. Every map has an entry for each value of its key type.
struct DesignDefaults {
  std::map<HeaterKind, Cited<Fraction>> heater_efficiency;  ///< heat into the pot over power drawn
  /// Heat that still gets into the pot after the heater is off. It is given as the time in which
  /// the heater supplied that heat before.
  std::map<HeaterKind, Cited<Duration>> stored_heat;
  std::map<Cut, Cited<Length>> particle_size;  ///< six times volume over surface
  std::map<Cut, Cited<Fraction>> cut_density;  ///< bulk density relative to chopped
  /// Share that a small still gets of the oil found by distillation to exhaustion.
  std::map<Method, Cited<Fraction>> recovery;
  Cited<Fraction> fast_share;  ///< fast fraction: share of the oil released in the fast stage
  Cited<Fraction> slow_rate;   ///< release rate of the slow stage over that of the fast one
  /// Resistance of the steam over that of the plant, in the fast stage.
  Cited<Fraction> flow_on_fast;
  Cited<Fraction> flow_on_slow;  ///< the same in the slow stage
  /// Share of the recoverable oil that has come when people stop a run.
  Cited<Fraction> stated_end;
  Cited<Fraction> drying_retention;       ///< share of the oil that drying keeps, per dry matter
  Cited<Density> hydrosol_oil;            ///< of any plant, used if nothing better is known
  Cited<Fraction> hydrosol_saturation;    ///< measured oil in hydrosols over what could dissolve
  Cited<Fraction> mixing;                 ///< how well the receiver mixes; see RunValues::mixing
  Cited<Density> particle_density;        ///< of the plant tissue itself
  Cited<SpecificHeat> dry_specific_heat;  ///< of plant dry matter
  Cited<Fraction> hold_up;                ///< kg water per kg dry matter, drained
  Cited<Fraction> film_hold_up;           ///< kg water per kg charge that is already wet
  Cited<Fraction> head_space;             ///< share of the column left free
  Cited<Fraction> uncondensed_loss;       ///< share of the vapour that the condenser does not catch
  Cited<Fraction> reserve_share;          ///< share of the first fill that must stay in the pot
  Cited<Fraction> fill_error;      ///< error of the first fill, read on a jug, as a share of it
  Cited<Fraction> grid_clearance;  ///< share of the water space below a grid to leave free
  /// Power drawn over nameplate power, as the mains voltage varies. Low and high are the least and
  /// the most.
  Cited<Fraction> mains;
  Cited<Fraction> dial_error;  ///< extra heat beyond what the heater's dial says, as a share of it
  Cited<Fraction> own_accuracy;       ///< relative uncertainty of a figure measured on the bench
  Cited<Fraction> own_heat_accuracy;  ///< the same, of the next run's heat from one reading
  Cited<Fraction> run_to_run_heat;    ///< standard deviation of the heat from run to run, relative
  /// The strongest heat that a plan allows for, over the usual heat of a still that is known from
  /// many runs: at least by this much, in logarithms, or as much as without those runs.
  Cited<Fraction> most_heat_room;
  Cited<Fraction> own_oil_accuracy;  ///< the same, of an oil content measured on the bench
  Cited<Fraction> between_plants;    ///< standard deviation of ln oil content in plants of a form
  /// Share of the recoverable oil per quarter hour. A run made for oil stops when less comes.
  Cited<Fraction> oil_gain;
  /// Share of the recoverable oil that a run without a goal may leave in the charge, for each
  /// customary amount of hydrosol that it draws.
  Cited<Fraction> oil_left_per_hydrosol;
  Cited<Fraction> oil_left_per_hour;         ///< the same, for each hour after the first drop
  Cited<SpecificVolume> hydrosol_per_fresh;  ///< published L hydrosol per kg herb, counted as fresh
  Cited<SpecificVolume> hydrosol_per_dry_fruit;  ///< the same per kg seed or other dry material
  Cited<Rate> steam_per_charge;  ///< published kg steam per kg charge and hour; half-lives without
                                 ///< a steam flow of their own are taken to hold at its median
  std::map<State, Cited<SpecificVolume>> hydro_water;  ///< L water per kg charge in the pot (hydro)
  /// L free water per kg charge that must be left at the end (hydro).
  Cited<SpecificVolume> hydro_wetting;
  /// The distillate is at least this much warmer than the coolant.
  Cited<TemperatureDifference> approach;
  Cited<HeatTransfer> bath_loss;  ///< heat loss of the coolant vessel to the room
  Cited<Fraction> circuit_share;  ///< share of a circuit's rating that a heater may draw for hours
  Cited<Power> socket_for_hours;  ///< the most that a household socket should carry for hours
  Cited<Power> least_circuit;     ///< the most that the smallest common circuit carries for hours
  Cited<Volume> still_reported;   ///< pot size above which a still must be reported in Germany

  // When a plan says something, and where it stops planning.
  RunCounts counts;                  ///< how many runs and receivers a plan may have
  Cited<Fraction> least_last_run;    ///< a remainder smaller than this share of a full run is left
  Cited<Volume> least_run;           ///< hydrosol that makes a run worth heating the still for
  Cited<Duration> longest_run;       ///< from the start of heating; a longer run is refused
  Cited<Duration> tiring_run;        ///< from the start of heating; a longer run gets a caution
  Cited<Duration> long_distilling;   ///< from the first drop, after which real yields may fall
  Cited<Fraction> least_fill;        ///< share of the space that a charge should fill
  Cited<Fraction> lifting_pressure;  ///< pressure drop of the bed over its weight per area
  Cited<Fraction> low_chance;        ///< a lower chance of the goal gets a caution
  Cited<Fraction> little_oil;        ///< of the recoverable oil, over when the water ends the run
  Cited<Fraction> thin_hydrosol;     ///< hydrosol drawn over the most that published runs draw
  Cited<Fraction> much_dissolved;    ///< dissolved oil over the oil vaporised
  Cited<Volume> hard_to_collect;     ///< less separated oil than this is hard to collect
  Cited<Fraction> much_heat_lost;    ///< heat lost to the room over the heat into the pot
  Cited<Duration> ice_interval;      ///< ice more often than this gets a caution
  Cited<Duration> least_ice_interval;             ///< ice more often than this is refused
  Cited<Duration> ice_before_stop;                ///< how long before the stop its ice goes in
  Cited<TemperatureDifference> least_difference;  ///< coolant closer to boiling condenses nothing
  Cited<TemperatureDifference> near_freezing;     ///< coolant above the oil's melting point
  Cited<Length> clear_of_flame;                   ///< distance to keep free around a burner

  // About stills that people describe.
  StillDefaults still;       ///< what a still has where its owner hasn't measured it
  ReadingErrors readings;    ///< how exactly people read a run's figures
  PlausibleStill plausible;  ///< beyond these limits a figure of a still is likely a slip
};

}  // namespace firstdrop
