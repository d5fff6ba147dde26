/// @file
/// What one recipe puts into the model: which figure each uncertain input takes, with its range and
/// its evidence; and the values of a run at any point of those ranges.
///
/// Typical plan, worst credible case and every sample of the spread go through the same door: a
/// Point gives each input a place in its range, and PointValues turns it into numbers.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <unordered_map>
#include <vector>

#include "firstdrop/model/figures.hpp"
#include "firstdrop/model/point.hpp"
#include "firstdrop/physics/release.hpp"
#include "firstdrop/physics/run.hpp"
#include "firstdrop/physics/stop.hpp"
#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/quantity/source.hpp"
#include "firstdrop/readers/recipe.hpp"
#include "firstdrop/tables/library.hpp"

namespace firstdrop {

/// The point whose pot runs dry first: strongest heater, least loss, driest charge, most held and
/// vented, least filled. A point only: worst_values() is the bound.
Point worst_for_water();

/// How many times the heat that a figure of its heater says a run may have.
struct HeatMargin {
  double least = 1.0;  ///< 1 or less
  double most = 1.0;   ///< 1 or more
};

/// What goes into the model.
struct Inputs {
  Recipe recipe;  ///< as it was asked for

  // Fixed by the site.
  Pressure ambient;                 ///< given, or by altitude
  Temperature boiling;              ///< of water at that pressure
  SpecificEnergy latent_heat;       ///< at that temperature
  SpecificEnergy boiling_enthalpy;  ///< of the water there
  SpecificHeat water_heat;          ///< mean from room to boiling
  SpecificHeat distillate_heat;     ///< mean from the ice point to boiling
  Density fill_density;             ///< of water at room temperature
  Temperature poured;               ///< of what is poured into the pot
  Density pour_density;             ///< of water at that temperature
  Temperature coolant;              ///< as it comes or is filled in

  /// The figures that serve; uncertain, but for a few that are exact enough.
  Shared<Figures> figures;

  // Measured on the bench; beat heater efficiency. In the worst case they only add to it.
  std::optional<Range<VolumeFlow>> own_rate;     ///< of distillate
  Fraction own_rate_setting = fraction(1);       ///< of the heater, when that rate was taken
  std::optional<Range<Duration>> own_boil_time;  ///< from heat on
  Fraction own_boil_setting = fraction(1);       ///< of the heater, when that time was taken
  Mass own_boil_water;                           ///< in the pot when that time was taken

  double mains = 1.0;  ///< power drawn at the voltage that was measured, over the nameplate's
  /// By the mains, and by a dial that gives more than it says, of heaters at the 10th and 90th
  /// percentile of the tables' range.
  HeatMargin of_tables;
  HeatMargin of_reading;  ///< the same of the bench's own reading

  std::optional<SteamBound> bound;  ///< none where less than half of the oil is known well enough
};

/// Chooses the figures for a recipe, and checks it as far as a reader of files would have: amounts
/// that are to be above zero, parts of the still that the method needs, a state that the plant has,
/// a room of 0 to 50 °C, a coolant of 0 to 60 °C, water that is poured in at 0 °C to 1 K below
/// boiling; and what choose_figures() checks.
/// Throws InputError, its pointers those of a recipe's file, when the recipe does not hold
/// together, asks for what the tables cannot give, or when its own figures are not enough (a time
/// to boil without its water). Throws RangeError for an altitude out of range (see
/// standard_pressure()) and for a pressure at which water boils below 0 or above 130 °C.
Inputs gather_inputs(Recipe recipe, const Library& library);

/// Gathers the inputs of many recipes, and keeps what the next may have in common with those
/// before, since to find it takes longer than to plan with it: the figures of a plant in a still,
/// the water at the site, what steam can carry there. The same inputs as by gather_inputs(). Not
/// for two threads at once.
class InputShelf {
 public:
  /// The library must be the same, and stay, in all calls. Throws as gather_inputs() does.
  Inputs gather(Recipe recipe, const Library& library);

  /// What follows from pressure and room temperature.
  struct Water {
    Pressure ambient;                 ///< of the two, the first
    Temperature room;                 ///< and the second
    Temperature boiling;              ///< as Inputs::boiling, and so on
    SpecificEnergy latent_heat;       ///< as in Inputs
    SpecificEnergy boiling_enthalpy;  ///< as in Inputs
    SpecificHeat water_heat;          ///< as in Inputs
    SpecificHeat distillate_heat;     ///< as in Inputs
    Density fill_density;             ///< as in Inputs
  };

 private:
  /// What figures are chosen by.
  struct Key {
    const Plant* plant = nullptr;  ///< where it stands, as the next
    const Still* still = nullptr;
    State state = State::fresh;
    Cut cut = Cut::chopped;
    Method method = Method::steam;
    std::optional<Density> bulk_density;  ///< the recipe's own, as the next
    std::optional<Fraction> oil_content;
    bool operator==(const Key& other) const = default;
  };
  struct Hash {
    std::size_t operator()(const Key& key) const;
  };
  struct Place {
    // Held, so that no other plant or still can come to stand where they are.
    Shared<Plant> plant;
    Shared<Still> still;
    Shared<Figures> figures;
    std::optional<Pressure> bound_at = {};
    std::optional<SteamBound> bound = {};  ///< at that pressure
  };
  using Places = std::unordered_map<Key, Place, Hash>;
  Place& place_for(const Recipe& recipe, const Library& library);

  Places places_;
  Places places_with_own_;  ///< whose recipe has figures of its own
  std::optional<Water> water_;
};

/// Which of the tables' figures a recipe's own ones beat, in words; empty when it has none.
std::vector<std::string> own_notes(const OwnFigures& own);

/// The keys of the sources of all figures that a plan of these inputs rests on.
std::set<std::string> sources_of(const Inputs& inputs, const Library& library);

/// Space for the charge: typical volume of column, grid space, or pot (hydro). The still must have
/// that part.
Volume charge_space(const Still& still, Method method);
/// Cross-section of the bed that steam passes: column (steam) or pot (water-and-steam).
Area bed_area(const Still& still, Method method);

/// Bulk density of the charge at this point; above zero.
Density bulk_density_at(const Inputs& inputs, const Point& point);
/// Overall heat transfer of the condensing wall at this point; above zero.
HeatTransfer condensing_at(const Inputs& inputs, const Point& point);

/// The most charge that fits at this point, in a still that is no larger than it may be.
Mass charge_capacity(const Inputs& inputs, const Practice& practice, const Point& point);

/// Oil in a charge at this point; never more than half of it.
Mass oil_in_charge(const Inputs& inputs, const Point& point, Mass charge);
/// What this still can get of it.
Mass oil_recoverable(const Inputs& inputs, const Point& point, Mass charge);

/// What tells the heat that gets into the pot.
enum class HeatFrom {
  bench,   ///< the bench's own figures, where it has some; else the tables
  tables,  ///< power and efficiency of the heater, whatever the bench has measured
};

/// The values of a run at one point of the ranges, for any charge and first fill: what does not
/// depend on these is worked out once. Values that a wide range would take where none can be (a
/// share above one, a film below zero) are held at the border. Keeps a reference to the inputs.
/// Throws nothing.
class PointValues {
 public:
  /// All inputs at this point.
  PointValues(const Inputs& inputs, const Point& point, HeatFrom heat = HeatFrom::bench);
  /// Moves to this point what decides of the heat: Input::heater, heat_loss and vent_share.
  void move_heat(const Point& point);
  /// Moves to this point what decides of the heat that the charge takes: Input::moisture and
  /// dry_specific_heat. Water and oil in the charge stay as they were.
  void move_charge(const Point& point);
  /// With this charge and this nominal first fill.
  RunValues of(Mass charge, Mass first_fill) const;
  /// Oil in a charge; see oil_in_charge().
  Mass oil_in(Mass charge) const { return charge * oil_share_; }
  /// What is in the pot for each kilogram that is poured.
  double filled() const { return filled_; }

 private:
  const Inputs* inputs_;
  HeatFrom heat_;
  RunValues unloaded_;
  double filled_ = 1.0;
  HeatCapacity of_column_;
  Fraction moisture_;
  SpecificHeat dry_heat_;
  Fraction hold_up_;
  Fraction film_hold_up_;
  Fraction oil_share_;
  Fraction recovery_;
  Duration boil_time_;  ///< as measured; of inputs that have one
};

/// The values of a single such run.
RunValues values_at(const Inputs& inputs, const Point& point, Mass charge, Mass first_fill);

/// Whether the bench's own figures tell the heat that gets into the pot.
bool measured_heat(const Inputs& inputs);

/// For so long the pot still boils at full heat, at most, when the heat is off: what the heater has
/// stored, as a time of the heat that it gave.
Duration longest_after_heat(const Inputs& inputs);
/// For so long the pot may go on boiling past the planned stop: the person's lateness
/// (limits.absence), and then what the heater has stored.
Duration longest_lateness(const Inputs& inputs);

/// The worst credible case for the pot's water, for any first fill and stop of one charge and any
/// time for which it boils past that stop: a bound over all points. That of worst_for_water(), with
/// so much gone from the pot at once that no whole run with any heater has less left when it is
/// stopped and has boiled so long past that. The heat is the most that tables *or* the bench's own
/// figures allow: one reading may raise the worst case and never lowers it.
class WorstCase {
 public:
  /// Works out what does not change with fill, stop and absence. Keeps a reference to the inputs.
  WorstCase(const Inputs& inputs, Mass charge);
  /// The same for another charge, which takes less than a new one.
  void reload(Mass charge);
  /// The run with this nominal first fill, ended by this stop and boiling so long past it. It may
  /// have a failure.
  Run run(Mass first_fill, const Stop& stop, Duration lateness) const;
  /// The same with nothing gone at once.
  Run hottest(Mass first_fill) const;

 private:
  /// Of the slowest runs, which wait longest for a level.
  struct SlowRun {
    Boiling boiling;
    VolumeFlow distillate;
  };

  // In hydro only the walls catch condensate, so little that all of it is taken.
  bool bounded() const { return inputs_->recipe.method != Method::hydro; }
  Run load(Mass charge);
  void load_slow(PointValues slow, Mass charge, double vent, double mains);
  Mass most_condensed(const Stop& stop, Duration lateness, const Run& hottest) const;
  Mass lost_at_worst(Volume level, Duration lateness, const Run& hottest, Mass most) const;

  const Inputs* inputs_;
  PointValues at_worst_;                     ///< by the tables' heat
  std::optional<PointValues> own_at_worst_;  ///< by the bench's own, where it has some
  HeatCapacity column_capacity_;
  Conductance column_loss_;
  std::array<SlowRun, 12> slow_;
  std::size_t slow_runs_ = 0;
  bool never_ends_ = false;  ///< a weak heater never brings a drop
  Run hottest_;              ///< the last member: load() works out the others, too
};

/// The values of a single such run of WorstCase.
RunValues worst_values(const Inputs& inputs, Mass charge, Mass first_fill, const Stop& stop,
                       Duration lateness);

/// The values of the run that asks most of the condenser, at nominal mains: steam at the outlet and
/// warm coolant are seen, and end the run; how low the pot is nobody sees. A bound over all points,
/// by the tables' heat and by the bench's own, with the most vapour, the earliest first drop and
/// the most vapour in all, whether it ends by a level or by the clock.
RunValues hottest_values(const Inputs& inputs, Mass charge, Mass first_fill);
/// The opposite: least vapour, latest first drop, least vapour in all. With such a heater there may
/// be no run at all.
RunValues coolest_values(const Inputs& inputs, Mass charge, Mass first_fill);

/// The heat that the heater can give to the pot at the recipe's setting, by its nameplate and the
/// tables: the bounds of its range, and its middle.
Range<Power> heat_by_tables(const Inputs& inputs);

}  // namespace firstdrop
