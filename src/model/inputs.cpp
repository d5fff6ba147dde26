#include "firstdrop/model/inputs.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "firstdrop/base/error.hpp"
#include "firstdrop/model/plant_figures.hpp"
#include "firstdrop/physics/basis.hpp"
#include "firstdrop/physics/charge.hpp"
#include "firstdrop/physics/heat.hpp"
#include "firstdrop/physics/heated_body.hpp"
#include "firstdrop/physics/water.hpp"
#include "firstdrop/quantity/least_amounts.hpp"

namespace firstdrop {
namespace {

// Wider than any moisture or share can be in a charge that still is plant.
constexpr Fraction most_moisture = fraction(0.97);

template <class T>
Range<T> within(T value, const Cited<Fraction>& accuracy) {
  const double share = accuracy.range.typical;
  return {value * (1.0 - share), value, value * (1.0 + share)};
}

Fraction share_at(const Cited<Fraction>& figure, double p, Fraction most) {
  return std::clamp(figure.range.at(p), fraction(0), most);
}

// What the recipe reader sees to for files, for callers of the library.
void check_amounts(const Recipe& recipe) {
  const auto must = [](bool holds, const char* pointer, const char* wanted) {
    if (!holds) throw InputError(Fault{"", pointer, "an amount out of range", wanted, "", 0, 0});
  };
  // What is not a number, or has no end, is no amount either.
  const auto reach = [&](const auto& amount, const auto& least, const char* pointer) {
    if (!(amount >= least.amount && std::isfinite(amount.si())))
      must(false, pointer, (std::string(least.words) + " or more").c_str());
  };
  const auto reach_if = [&](const auto& amount, const auto& least, const char* pointer) {
    if (amount) reach(*amount, least, pointer);
  };
  reach_if(recipe.charge, least::herb, "/charge");
  const Still& still = recipe.still;
  must(recipe.method != Method::steam || still.column, "/still", "a column, for steam");
  must(recipe.method != Method::water_and_steam || still.grid, "/still", "a grid");
  const bool tap = still.condenser.kind == CondenserKind::run_through;
  must(tap ? still.condenser.flow_limit.has_value() : still.condenser.coolant.has_value(),
       "/still/condenser", "flow_limit for a tap, coolant for a bath or reservoir");
  must(recipe.plant->states.contains(recipe.state), "/state", "a state of the plant");
  reach_if(recipe.water, least::water, "/water");
  reach_if(recipe.receiver, least::receiver, "/receiver");
  reach_if(recipe.own.bulk_density, least::bulk_density, "/own/bulk_density");
  reach_if(recipe.own.oil_content, least::oil_content, "/own/oil_content");
  must(recipe.own.oil_content.value_or(fraction(0)) < fraction(1), "/own/oil_content",
       "below 100 %");
  reach_if(recipe.own.distillate_rate, least::distillate, "/own/distillate_rate");
  reach_if(recipe.own.boil_time, least::run_time, "/own/boil_time");
  reach_if(recipe.own.boil_water, least::water, "/own/boil_water");
  const auto setting = [&](Fraction share, const char* pointer) {
    must(share >= least::setting.amount && share <= fraction(1), pointer, "1 to 100 %");
  };
  setting(recipe.own.setting.value_or(fraction(1)), "/own/setting");
  setting(recipe.own.boil_setting.value_or(fraction(1)), "/own/boil_setting");
  setting(recipe.setting, "/setting");
  reach_if(recipe.limits.time, least::run_time, "/limits/time");
  must(recipe.limits.absence >= seconds(0) && std::isfinite(recipe.limits.absence.si()),
       "/limits/absence", "0 or more");
  const Temperature coolant = recipe.site.coolant.value_or(celsius(0));
  must(coolant >= celsius(0) && coolant <= celsius(60), "/site/coolant", "0 to 60 °C");
  const bool uncertain_goal = !std::holds_alternative<TimeGoal>(recipe.goal) &&
                              !std::holds_alternative<HarvestGoal>(recipe.goal);
  must(!recipe.confidence || uncertain_goal, "/goal/confidence",
       "only beside hydrosol, ratio, oil or oil_share");
  must(
      !recipe.confidence || (*recipe.confidence >= percent(1) && *recipe.confidence <= percent(99)),
      "/goal/confidence", "1 to 99 %");
  if (const auto* hydrosol = std::get_if<HydrosolGoal>(&recipe.goal)) {
    reach(hydrosol->volume, least::water, "/goal/hydrosol");
  } else if (const auto* ratio = std::get_if<RatioGoal>(&recipe.goal)) {
    reach(ratio->hydrosol_per_fresh, least::ratio, "/goal/ratio");
  } else if (const auto* share = std::get_if<OilShareGoal>(&recipe.goal)) {
    must(share->share >= least::oil_share.amount && share->share < fraction(1), "/goal/oil_share",
         "from 1 % and below 100 %: the last of the oil takes for ever");
  } else if (const auto* time = std::get_if<TimeGoal>(&recipe.goal)) {
    reach(time->time, least::run_time, "/goal/time");
  } else if (const auto* oil = std::get_if<OilGoal>(&recipe.goal)) {
    if (const auto* mass = std::get_if<Mass>(&oil->amount))
      reach(*mass, least::oil_mass, "/goal/oil");
    else
      reach(std::get<Volume>(oil->amount), least::oil_volume, "/goal/oil");
  }
}

}  // namespace

Point worst_for_water() {
  Point point = Point::typical();
  point.set(Input::heater, 1).set(Input::heat_loss, 0).set(Input::moisture, 0);
  point.set(Input::dry_specific_heat, 0).set(Input::hold_up, 1).set(Input::film_hold_up, 1);
  point.set(Input::wall_hold_up, 1).set(Input::vent_share, 1).set(Input::fill_error, 1);
  return point;
}

namespace {

InputShelf::Water water_at(Pressure ambient, Temperature room) {
  InputShelf::Water water;
  water.ambient = ambient;
  water.room = room;
  water.boiling = saturation_temperature(ambient);
  water.latent_heat = latent_heat(water.boiling);
  water.boiling_enthalpy = saturated_liquid_enthalpy(water.boiling);
  water.water_heat = mean_liquid_specific_heat(room, water.boiling);
  water.distillate_heat = mean_liquid_specific_heat(celsius(0.01), water.boiling);
  water.fill_density = liquid_density(room);
  return water;
}

// With less than half of the oil known, what steam can carry of the rest is anyone's guess.
std::optional<SteamBound> trusted_bound(Pressure ambient, const Figures& figures) {
  auto bound = steam_bound(ambient, figures.oil_parts);
  if (bound && bound->share_covered < fraction(0.5)) bound.reset();
  return bound;
}

}  // namespace

Inputs gather_inputs(Recipe recipe, const Library& library) {
  return InputShelf().gather(std::move(recipe), library);
}

std::size_t InputShelf::Hash::operator()(const Key& key) const {
  const std::size_t way =
      (static_cast<std::size_t>(key.state) * 4 + static_cast<std::size_t>(key.cut)) * 3 +
      static_cast<std::size_t>(key.method);
  const std::hash<const void*> of_place;
  const std::hash<double> of_number;
  std::size_t hash = (of_place(key.plant) * 31 + of_place(key.still)) * 37 + way;
  if (key.bulk_density) hash = hash * 41 + of_number(key.bulk_density->si());
  if (key.oil_content) hash = hash * 43 + of_number(key.oil_content->si());
  return hash;
}

InputShelf::Place& InputShelf::place_for(const Recipe& recipe, const Library& library) {
  // All plants in most ways that they are run, at some kilobytes each. A bench's own figures mostly
  // stay the same; where they change with every recipe they shall not push the others out.
  constexpr std::size_t most_places = 1024;
  constexpr std::size_t most_with_own = 64;
  const OwnFigures& own = recipe.own;
  const bool has_own = own.bulk_density || own.oil_content;
  Places& places = has_own ? places_with_own_ : places_;
  const Key key{&*recipe.plant, &*recipe.still,   recipe.state,   recipe.cut,
                recipe.method,  own.bulk_density, own.oil_content};
  auto found = places.find(key);
  if (found == places.end()) {
    Place place{recipe.plant, recipe.still, choose_figures(recipe, library)};
    if (places.size() == (has_own ? most_with_own : most_places)) places.clear();
    found = places.emplace(key, std::move(place)).first;
  }
  Place& place = found->second;
  if (place.bound_at != water_->ambient) {
    place.bound = trusted_bound(water_->ambient, place.figures);
    place.bound_at = water_->ambient;
  }
  return place;
}

namespace {

// The strongest heat of a run is that of a whole run that may occur in one of 200 or more, not of
// every term at its end: the strongest heater of its range, or one at its 90th percentile with the
// mains at its highest, or such a one with a dial that gives more than it says.
//
//     Q_most  = max(Q(1), Q(0.9) * mains_most, Q(0.9) * dial)
//     Q_least = min(Q(0), Q(0.1) * mains_least)
//
// Mains voltage is within 10 % of nominal (IEC 60038) or what was measured, and power goes as its
// square; a burner has none. No dial gives more than the heater has, and a reading at the same
// setting tells what the dial gives.
void set_heat_margins(Inputs& inputs, const Practice& practice) {
  const Recipe& recipe = inputs.recipe;
  HeatMargin mains;
  if (recipe.own.mains) {
    constexpr const char* pointer = "/own/mains";
    if (!recipe.site.circuit) {
      throw InputError(Fault{"", pointer, "a measured voltage without the rated one",
                             "site.mains, the voltage on the heater's nameplate, and site.circuit",
                             "", 0, 0});
    }
    // Farther off it is the voltage of another socket (common practice, no source).
    const double share = *recipe.own.mains / recipe.site.circuit->mains;
    if (!(share >= 0.85 && share <= 1.15)) {
      throw InputError(Fault{"", pointer, fmt::format("{:.0f} % of site.mains", share * 100.0),
                             "a voltage within 15 % of site.mains, that of the heater's nameplate",
                             "", 0, 0});
    }
    inputs.mains = share * share;
    const double accuracy = practice.own_accuracy.range.typical;
    mains = {1.0 - accuracy, 1.0 + accuracy};
  } else if (recipe.still->heater.kind != HeaterKind::gas_burner) {
    mains = {practice.mains.range.low, practice.mains.range.high};
  }
  const double dial =
      std::min(1.0 + double(practice.dial_error.range.typical), 1.0 / double(recipe.setting));
  const bool rate_here = !inputs.own_rate || inputs.own_rate_setting == recipe.setting;
  const bool time_here = !inputs.own_boil_time || inputs.own_boil_setting == recipe.setting;

  inputs.of_tables = {mains.least, std::max(mains.most, dial)};
  inputs.of_reading = {mains.least, std::max(mains.most, rate_here && time_here ? 1.0 : dial)};
}

}  // namespace

Inputs InputShelf::gather(Recipe asked, const Library& library) {
  const Practice& practice = library.practice;
  Inputs inputs;
  inputs.recipe = std::move(asked);
  const Recipe& recipe = inputs.recipe;
  check_amounts(recipe);
  if (!(recipe.site.room >= celsius(0) && recipe.site.room <= celsius(50))) {
    throw InputError(Fault{"", "/site/room", "a room where no run can start",
                           "0 to 50 °C, so that the water is liquid", "", 0, 0});
  }
  const Length altitude = recipe.site.altitude.value_or(metres(0));
  inputs.ambient = recipe.site.pressure ? *recipe.site.pressure : standard_pressure(altitude);
  if (!water_ || water_->ambient != inputs.ambient || water_->room != recipe.site.room) {
    water_ = water_at(inputs.ambient, recipe.site.room);
  }
  inputs.boiling = water_->boiling;
  inputs.latent_heat = water_->latent_heat;
  inputs.boiling_enthalpy = water_->boiling_enthalpy;
  inputs.water_heat = water_->water_heat;
  inputs.distillate_heat = water_->distillate_heat;
  inputs.fill_density = water_->fill_density;
  inputs.poured = recipe.water_temperature.value_or(recipe.site.room);
  if (recipe.water_temperature) {
    // Closer to boiling there is nothing left to warm, and no time to boil.
    const Temperature most = inputs.boiling - kelvins(1);
    if (!(inputs.poured >= celsius(0) && inputs.poured <= most)) {
      throw InputError(Fault{
          "", "/water_temperature", fmt::format("{:.4g} °C", in_celsius(inputs.poured)),
          fmt::format("0 to {:.1f} °C, which is 1 K below the boil at this site", in_celsius(most)),
          "", 0, 0});
    }
  }
  inputs.pour_density =
      recipe.water_temperature ? liquid_density(inputs.poured) : inputs.fill_density;
  inputs.coolant = recipe.site.coolant.value_or(recipe.site.room);
  const Place& place = place_for(recipe, library);
  inputs.figures = place.figures;
  inputs.bound = place.bound;

  inputs.own_rate_setting = recipe.own.setting.value_or(recipe.setting);
  inputs.own_boil_setting = recipe.own.boil_setting.value_or(inputs.own_rate_setting);
  if (recipe.own.distillate_rate) {
    inputs.own_rate = within(*recipe.own.distillate_rate, practice.own_heat_accuracy);
  }
  if (recipe.own.boil_time) {
    const auto& water = recipe.own.boil_water ? recipe.own.boil_water : recipe.water;
    if (!water) {
      throw InputError(Fault{"", "/own/boil_time", "a time to boil, but not of how much water",
                             "own.boil_water (or water) beside it",
                             "add \"boil_water\": \"1.5 L\" with what was in the pot", 0, 0});
    }
    inputs.own_boil_time = within(*recipe.own.boil_time, practice.own_heat_accuracy);
    inputs.own_boil_water = *water * inputs.pour_density;
  }
  set_heat_margins(inputs, practice);
  return inputs;
}

std::vector<std::string> own_notes(const OwnFigures& own) {
  std::vector<std::string> notes;
  if (own.bulk_density) notes.emplace_back("bulk density");
  if (own.oil_content) notes.emplace_back("oil content");
  if (own.distillate_rate) notes.emplace_back("distillate rate");
  if (own.boil_time) notes.emplace_back("time to boil");
  if (own.mains) notes.emplace_back("mains voltage");
  return notes;
}

std::set<std::string> sources_of(const Inputs& inputs, const Library& library) {
  const Recipe& recipe = inputs.recipe;
  const Figures& figures = inputs.figures;
  std::set<std::string> sources;
  const auto note = [&](const Evidence& evidence) {
    sources.insert(evidence.sources.begin(), evidence.sources.end());
  };
  note(figures.bulk_density.evidence);
  note(figures.moisture.evidence);
  note(figures.fresh_moisture.evidence);
  note(figures.oil_content.evidence);
  note(figures.recovery.evidence);
  note(figures.half_life.evidence);
  note(figures.fast_share.evidence);
  note(figures.slow_rate.evidence);
  note(figures.reference_flow.evidence);
  note(figures.flow_on_fast.evidence);
  note(figures.flow_on_slow.evidence);
  note(figures.mixing.evidence);
  note(figures.hydrosol_oil.evidence);
  note(figures.oil_density.evidence);
  if (const auto& cut = recipe.plant->usual_cut; cut && cut->time) note(cut->time->evidence);
  if (recipe.plant->flash_point) note(recipe.plant->flash_point->evidence);
  note(figures.heater_efficiency.evidence);
  note(figures.stored_heat.evidence);
  note(figures.pot_film.evidence);
  note(figures.column_film.evidence);
  note(figures.head_film.evidence);
  note(figures.dry_specific_heat.evidence);
  note(figures.hold_up.evidence);
  note(figures.film_hold_up.evidence);
  note(figures.wall_hold_up.evidence);
  note(figures.vent_share.evidence);
  note(figures.fill_error.evidence);
  note(figures.condensing.evidence);
  const auto note_material = [&](const std::string& key) {
    note(library.materials.at(key).specific_heat.evidence);
  };
  note_material(recipe.still->pot.material);
  note_material(recipe.still->head.material);
  if (recipe.method == Method::steam) note_material(recipe.still->column->material);
  const Still& still = recipe.still;
  note(still.pot.volume.evidence);
  note(still.pot.fill_limit.evidence);
  note(still.pot.minimum_water.evidence);
  note(still.heater.power.evidence);
  note(still.condenser.surface.evidence);
  note(still.condenser.coolant_limit.evidence);
  const Practice& practice = library.practice;
  note(practice.particle_density.evidence);
  note(practice.reserve_share.evidence);
  note(practice.approach.evidence);
  if (still.condenser.kind != CondenserKind::run_through) note(practice.bath_loss.evidence);
  if (std::holds_alternative<HarvestGoal>(recipe.goal)) {
    note(practice.oil_left_per_hydrosol.evidence);
    note(practice.oil_left_per_hour.evidence);
    note(figures.customary_hydrosol.evidence);
  }
  if (std::holds_alternative<OilGoal>(recipe.goal)) note(practice.oil_gain.evidence);
  switch (recipe.method) {
    case Method::hydro:
      note(practice.hydro_water.at(recipe.state).evidence);
      note(practice.hydro_wetting.evidence);
      note(figures.customary_hydrosol.evidence);
      break;
    case Method::water_and_steam:
      note(practice.grid_clearance.evidence);
      [[fallthrough]];
    case Method::steam:
      note(practice.head_space.evidence);
      note(practice.particle_size.at(recipe.cut).evidence);
      break;
  }
  if (inputs.bound) {
    for (const OilPart& part : inputs.bound->parts) note(part.liquid->vapour_pressure->evidence);
  }
  // The shares and molar masses count for the bound and for what dissolves.
  if (inputs.bound || !recipe.plant->hydrosol_oil) {
    for (const Constituent& constituent : recipe.plant->constituents) {
      note(constituent.share.evidence);
      note(library.liquids.at(constituent.liquid).molar_mass.evidence);
    }
  }
  return sources;
}

namespace {

const Cited<Volume>& space_for_charge(const Still& still, Method method) {
  switch (method) {
    case Method::steam:
      return still.column->volume;
    case Method::water_and_steam:
      return still.grid->space;
    case Method::hydro:
      break;
  }
  return still.pot.volume;
}

}  // namespace

Volume charge_space(const Still& still, Method method) {
  return space_for_charge(still, method).typical();
}

Area bed_area(const Still& still, Method method) {
  return circle_area(method == Method::steam ? still.column->diameter.typical()
                                             : still.pot.diameter.typical());
}

Density bulk_density_at(const Inputs& inputs, const Point& point) {
  return positive_at(inputs.figures->bulk_density, point[Input::bulk_density]);
}

HeatTransfer condensing_at(const Inputs& inputs, const Point& point) {
  return positive_at(inputs.figures->condensing, point[Input::condensing]);
}

Mass charge_capacity(const Inputs& inputs, const Practice& practice, const Point& point) {
  const Recipe& recipe = inputs.recipe;
  const Volume space = least_of(space_for_charge(recipe.still, recipe.method));
  if (recipe.method == Method::hydro) {
    return capacity_in_water(space * least_of(recipe.still->pot.fill_limit),
                             practice.hydro_water.at(recipe.state).typical(),
                             practice.particle_density.typical());
  }
  return capacity(space, practice.head_space.typical(), bulk_density_at(inputs, point));
}

namespace {

// Of what is loaded.
Fraction oil_share_at(const Inputs& inputs, const Point& point) {
  const Fraction content =
      share_at(inputs.figures->oil_content, point[Input::oil_content], fraction(0.5));
  if (inputs.figures->oil_per == OilPer::as_loaded) return content;
  const Fraction moisture =
      share_at(inputs.figures->moisture, point[Input::moisture], most_moisture);
  return per_loaded(content, moisture);
}

Fraction recovery_at(const Inputs& inputs, const Point& point) {
  return share_at(inputs.figures->recovery, point[Input::recovery], fraction(1));
}

// What is in the pot for each kilogram that is poured. The nominal fill is the middle; a jug
// misread either way moves it.
double filled_at(const Inputs& inputs, const Point& point) {
  const double misread = inputs.figures->fill_error.range.most();
  return 1.0 + misread * (1.0 - 2.0 * point[Input::fill_error]);
}

}  // namespace

Mass oil_in_charge(const Inputs& inputs, const Point& point, Mass charge) {
  return charge * oil_share_at(inputs, point);
}

Mass oil_recoverable(const Inputs& inputs, const Point& point, Mass charge) {
  return oil_in_charge(inputs, point, charge) * recovery_at(inputs, point);
}

PointValues::PointValues(const Inputs& inputs, const Point& point, HeatFrom heat)
    : inputs_(&inputs), heat_(heat) {
  const Recipe& recipe = inputs.recipe;
  const Figures& figures = inputs.figures;
  const Still& still = recipe.still;
  filled_ = filled_at(inputs, point);

  RunValues& v = unloaded_;
  v.boiling = inputs.boiling;
  v.latent_heat = inputs.latent_heat;
  v.room = recipe.site.room;
  v.fill_excess = inputs.poured - recipe.site.room;
  v.water_heat = inputs.water_heat;
  v.distillate_density = inputs.fill_density;

  v.pot_capacity = still.pot.mass.typical() * figures.pot_specific_heat;
  v.column_capacity = still.head.mass.typical() * figures.head_specific_heat;
  if (recipe.method == Method::steam) {
    of_column_ = still.column->mass.typical() * figures.column_specific_heat;
  } else if (still.grid) {
    // Grid and basket hang in the pot.
    v.pot_capacity += still.grid->mass.typical() * figures.pot_specific_heat;
  }
  move_charge(point);
  hold_up_ = positive_at(figures.hold_up, point[Input::hold_up]);
  film_hold_up_ = share_at(figures.film_hold_up, point[Input::film_hold_up], fraction(5));
  v.hold_up = std::max(figures.wall_hold_up.range.at(point[Input::wall_hold_up]), grams(0));
  move_heat(point);

  oil_share_ = oil_share_at(inputs, point);
  recovery_ = recovery_at(inputs, point);
  // The half-life is that of the typical fast share; another share is released at the same rates.
  const double slower =
      positive_at(figures.half_life, point[Input::half_life]) / figures.half_life.typical();
  v.release = {share_at(figures.fast_share, point[Input::fast_share], fraction(1)),
               figures.release.fast_rate / slower, figures.release.slow_rate / slower};
  const auto effect = [&](const Cited<Fraction>& figure) {
    return std::max(figure.range.at(point[Input::flow_effect]), fraction(0));
  };
  v.flow_effect = {effect(figures.flow_on_fast), effect(figures.flow_on_slow),
                   figures.reference_flow.typical()};
  if (inputs.bound) v.oil_per_steam = inputs.bound->oil_per_steam;
  v.hydrosol_oil =
      std::max(figures.hydrosol_oil.range.at(point[Input::hydrosol_oil]), grams_per_litre(0));
  v.mixing = share_at(figures.mixing, point[Input::mixing], fraction(1));
}

void PointValues::move_charge(const Point& point) {
  const Figures& figures = inputs_->figures;
  moisture_ = share_at(figures.moisture, point[Input::moisture], most_moisture);
  dry_heat_ = positive_at(figures.dry_specific_heat, point[Input::dry_specific_heat]);
}

namespace {

// Heat into the pot by the tables, at this place of the heater's range.
Power tables_heat(const Inputs& inputs, double place) {
  const Recipe& recipe = inputs.recipe;
  const Fraction efficiency = share_at(inputs.figures->heater_efficiency, place, fraction(1));
  return heat_into_pot(positive_at(recipe.still->heater.power, place), recipe.setting, efficiency) *
         inputs.mains;
}

}  // namespace

void PointValues::move_heat(const Point& point) {
  const Inputs& inputs = *inputs_;
  const Recipe& recipe = inputs.recipe;
  const Figures& figures = inputs.figures;
  const Still& still = recipe.still;
  RunValues& v = unloaded_;

  // The head's surface has no input of its own: it is met only as a factor of its film, so that
  // both at one place makes the range of the loss the widest, which is the safe side at either end.
  const double loss_place = point[Input::heat_loss];
  const Area head_surface = positive_at(still.head.surface, loss_place);
  const HeatTransfer pot_film = positive_at(figures.pot_film, loss_place);
  const HeatTransfer head_film = positive_at(figures.head_film, loss_place);
  const Volume pot_volume = still.pot.volume.typical();
  const Length pot_diameter = still.pot.diameter.typical();
  if (recipe.method == Method::steam) {
    const Length diameter = still.column->diameter.typical();
    v.pot_loss = pot_loss(pot_film, pot_volume, pot_diameter, circle_area(diameter));
    v.column_loss = column_loss(positive_at(figures.column_film, loss_place),
                                still.column->volume.typical(), diameter, head_film, head_surface);
  } else {
    v.pot_loss = pot_loss(pot_film, pot_volume, pot_diameter, circle_area(pot_diameter));
    v.column_loss = head_film * head_surface;
  }
  v.vent_share = share_at(figures.vent_share, point[Input::vent_share], fraction(0.5));

  const double heater_place = point[Input::heater];
  v.heat_warming = tables_heat(inputs, heater_place);
  v.heat_boiling = v.heat_warming;
  if (heat_ == HeatFrom::tables) return;
  if (inputs.own_boil_time) boil_time_ = inputs.own_boil_time->at(1.0 - heater_place);
  if (inputs.own_rate) {
    const MassFlow vapour =
        inputs.own_rate->at(heater_place) * inputs.fill_density / (1.0 - v.vent_share);
    const Power then = vapour * inputs.latent_heat +
                       (v.pot_loss + v.column_loss) * (inputs.boiling - recipe.site.room);
    v.heat_boiling = then * double(recipe.setting / inputs.own_rate_setting);
    v.heat_warming = v.heat_boiling;
  }
}

RunValues PointValues::of(Mass charge, Mass first_fill) const {
  const Inputs& inputs = *inputs_;
  const HeatCapacity of_charge =
      charge_heat_capacity(charge, moisture_, dry_heat_, inputs.water_heat);
  const Mass held = water_held(charge, moisture_, hold_up_, film_hold_up_);
  RunValues v = unloaded_;
  v.first_fill = first_fill * filled_;
  if (inputs.recipe.method == Method::hydro) {
    v.pot_capacity += of_charge;
    v.soaked = held;
  } else {
    v.column_capacity = of_charge + v.column_capacity + of_column_;
    v.hold_up += held;
  }
  if (inputs.own_boil_time && heat_ == HeatFrom::bench) {
    const HeatCapacity water = inputs.own_boil_water * inputs.water_heat;
    const HeatedBody pot{water + v.pot_capacity, v.pot_loss, v.room, watts(0)};
    const Temperature start = v.room + v.fill_excess * double(water / pot.capacity);
    v.heat_warming = heat_for_time(pot, start, inputs.boiling, boil_time_) *
                     double(inputs.recipe.setting / inputs.own_boil_setting);
    if (!inputs.own_rate) v.heat_boiling = v.heat_warming;
  }
  v.charge = charge;
  v.oil_recoverable = charge * oil_share_ * recovery_;
  return v;
}

RunValues values_at(const Inputs& inputs, const Point& point, Mass charge, Mass first_fill) {
  return PointValues(inputs, point).of(charge, first_fill);
}

bool measured_heat(const Inputs& inputs) {
  return inputs.own_boil_time || inputs.own_rate;
}

namespace {

// For a run of which only is asked what the fill does not change: how long steam takes to heat
// column and charge, how much of it there is then, how much condenses.
constexpr Mass any_fill = kilograms(1);

// What a measured time or rate means in watts rises with the losses and the heat capacity that go
// with it, against the rest of an extreme case. What it may come to, over the corners of those.
struct Meanings {
  Range<Power> warming;  // low and high only, as all of these
  Range<MassFlow> vapour;
  Range<Duration> steaming;
  int runs = 0;     // corners that come to a first drop
  int corners = 0;  // all of them
};

template <class T>
void widen(Range<T>& range, T value, bool first) {
  range.low = first ? value : std::min(range.low, value);
  range.high = first ? value : std::max(range.high, value);
}

// A place in the heater's range, and how many times the heat that this means.
struct HeatCase {
  double place;
  double times;
};
// Which mains and which dial a bound is for.
enum class Mains { nominal, at_worst };
// The end of its range, and the percentile next to it by other mains or another dial.
std::array<HeatCase, 2> strongest(double mains) {
  return {HeatCase{1.0, 1.0}, {0.9, mains}};
}
std::array<HeatCase, 2> weakest(double mains) {
  return {HeatCase{0.0, 1.0}, {0.1, mains}};
}

void heat_by(RunValues& v, double factor) {
  v.heat_warming = v.heat_warming * factor;
  v.heat_boiling = v.heat_boiling * factor;
}

// Of the corners around these values, which are those of `point` but for the heater.
Meanings meanings(PointValues values, Point point, Mass charge,
                  const std::array<HeatCase, 2>& heats) {
  Meanings m;
  for (const HeatCase& heat : heats) {
    point.set(Input::heater, heat.place);
    for (const double loss : {0.0, 1.0}) {
      values.move_heat(point.set(Input::heat_loss, loss));
      for (const double moisture : {0.0, 1.0}) {
        for (const double dry_heat : {0.0, 1.0}) {
          point.set(Input::moisture, moisture).set(Input::dry_specific_heat, dry_heat);
          values.move_charge(point);
          RunValues v = values.of(charge, any_fill);
          heat_by(v, heat.times);
          widen(m.warming, v.heat_warming, m.corners == 0);
          ++m.corners;
          const Boiling boiling = boiling_of(v);
          if (boiling.failure) continue;
          widen(m.vapour, boiling.vapour, m.runs == 0);
          widen(m.steaming, boiling.steaming, m.runs == 0);
          ++m.runs;
        }
      }
    }
  }
  return m;
}

// Heat that makes so much vapour of these values.
Power heat_for_vapour(const RunValues& v, MassFlow vapour) {
  return vapour * v.latent_heat + (v.pot_loss + v.column_loss) * (v.boiling - v.room);
}

// Makes the column so light, or so heavy, that steam takes `steaming` to heat it.
void steam_within(RunValues& v, Duration steaming) {
  const Boiling boiling = boiling_of(v);
  if (boiling.failure) return;
  v.column_capacity = v.column_capacity * double(steaming / boiling.steaming);
}

// Water and pot as warm at heat on as they can be, or as cold: the pot may have been warmed by the
// water, or the water have cooled, before the heat goes on.
void start_over_room(RunValues& v, TemperatureDifference excess) {
  v.fill_excess = excess;
  v.pot_excess = excess;
}

// The most heat that tables or bench allow, of the values at worst_for_water(): the pot boils as
// early as by either, gives as much vapour, and steam heats the column as soon.
//
//     Q_warm = max(tables, bench),  V = max(tables, bench),  t_steam = min(tables, bench)
RunValues hottest_of(const Inputs& inputs, const PointValues& tables,
                     const std::optional<PointValues>& own, Mass charge, Mass fill, Mains mains) {
  const bool nominal = mains == Mains::nominal;
  const double more_than_tables = nominal ? 1.0 : inputs.of_tables.most;
  const double more_than_reading = nominal ? 1.0 : inputs.of_reading.most;
  // The driest charge and the least fill drip first, and run longest by the clock. With most vented
  // a level in the receiver takes most vapour, and a measured rate means most.
  RunValues v = tables.of(charge, fill);
  for (const HeatCase& heat : strongest(more_than_tables)) {
    v.heat_warming = std::max(v.heat_warming, tables_heat(inputs, heat.place) * heat.times);
  }
  v.heat_boiling = v.heat_warming;
  start_over_room(v, std::max(v.fill_excess, kelvins(0)));
  if (!own) return v;
  const Meanings m = meanings(*own, worst_for_water(), charge, strongest(more_than_reading));
  v.heat_warming = std::max(v.heat_warming, m.warming.high);
  if (m.runs == 0) return v;
  const Boiling boiling = boiling_of(v);
  const bool by_both = !boiling.failure;
  v.heat_boiling =
      heat_for_vapour(v, by_both ? std::max(boiling.vapour, m.vapour.high) : m.vapour.high);
  steam_within(v, by_both ? std::min(boiling.steaming, m.steaming.low) : m.steaming.low);
  return v;
}

// Water that charge and walls hold at worst. That dry material soaks up most of all, is driest of
// all and meets walls that hold most of all does not occur in one run of 200; each by itself may.
// So with each a share s of the way from typical to its bound, those are credible together whose
// squares add up to no more than 1: for figures that vary by themselves and normally, all that
// occurs in one of 200 or more. Of that set, with moisture m, hold-up H, charge c and walls W,
//
//     held = c * ((1 - m) * H - m) + W
//          <= held_typical + sqrt(d_m^2 + d_H^2 + d_W^2) + c * dm * dH / 2,
//
// where d_i is what one of them adds at its bound, dm and dH are the ways to it, as s_m * s_H is at
// most 1/2. Where a film is more, it is F * c + W with F and W in the same way.
Mass held_at_worst(const Inputs& inputs, Mass charge) {
  const Figures& figures = *inputs.figures;
  const Fraction moisture = share_at(figures.moisture, 0.5, most_moisture);
  // As far as it may be from typical, below zero, too; by factors a share s of the way is no more
  // than s times the slope at its start.
  const Range<Fraction>& moist = figures.moisture.range;
  const Fraction driest = moist.by_ratio
                              ? moisture * (1.0 - std::log(double(moisture / moist.least())))
                              : moist.least();
  const Fraction hold_up = positive_at(figures.hold_up, 0.5);
  const Fraction most_hold_up = positive_at(figures.hold_up, 1.0);
  const Fraction film = share_at(figures.film_hold_up, 0.5, fraction(5));
  const Fraction most_film = share_at(figures.film_hold_up, 1.0, fraction(5));
  const Mass walls = std::max(figures.wall_hold_up.typical(), grams(0));
  const Mass most_walls = std::max(figures.wall_hold_up.range.most(), grams(0));

  const auto soaked = [&](Fraction m, Fraction h) {
    return dry_matter(charge, m) * h - charge * m;
  };
  const Mass typical = soaked(moisture, hold_up);
  const double by_moisture = (soaked(driest, hold_up) - typical).si();
  const double by_hold_up = (soaked(moisture, most_hold_up) - typical).si();
  const double by_film = (charge * (most_film - film)).si();
  const double by_walls = (most_walls - walls).si();
  const Mass by_both = charge * double(moisture - driest) * double(most_hold_up - hold_up);
  const Mass dry =
      typical + by_both / 2.0 + Mass::from_si(std::hypot(by_moisture, by_hold_up, by_walls));
  const Mass wet = charge * film + Mass::from_si(std::hypot(by_film, by_walls));
  const Mass at_all_ends =
      water_held(charge, share_at(figures.moisture, 0.0, most_moisture), most_hold_up, most_film);
  return std::min(walls + std::max(dry, wet), at_all_ends + most_walls);
}

std::optional<PointValues> own_values(const Inputs& inputs, const Point& point) {
  if (!measured_heat(inputs)) return std::nullopt;
  return PointValues(inputs, point);
}

}  // namespace

Duration longest_after_heat(const Inputs& inputs) {
  return std::max(inputs.figures->stored_heat.range.most(), seconds(0));
}

Duration longest_lateness(const Inputs& inputs) {
  return inputs.recipe.limits.absence + longest_after_heat(inputs);
}

WorstCase::WorstCase(const Inputs& inputs, Mass charge)
    : inputs_(&inputs),
      at_worst_(inputs, worst_for_water(), HeatFrom::tables),
      own_at_worst_(own_values(inputs, worst_for_water())),
      hottest_(load(charge)) {}

void WorstCase::reload(Mass charge) {
  hottest_ = load(charge);
}

Run WorstCase::load(Mass charge) {
  column_capacity_ = HeatCapacity();
  column_loss_ = Conductance();
  slow_runs_ = 0;
  never_ends_ = false;
  RunValues at_worst =
      hottest_of(*inputs_, at_worst_, own_at_worst_, charge, any_fill, Mains::at_worst);
  const Mass held = held_at_worst(*inputs_, charge);
  if (bounded()) {
    at_worst.hold_up = held;
  } else {
    at_worst.soaked = std::max(held - at_worst.hold_up, grams(0));
  }
  Run hottest(at_worst);
  if (!bounded()) return hottest;
  // A level is waited for longest with the weakest heater, and where most is vented; but behind a
  // measured rate of what is caught there is least steam, and longest steaming, where nothing is.
  load_slow(at_worst_, charge, 1, inputs_->of_tables.least);
  if (!own_at_worst_) return hottest;
  load_slow(*own_at_worst_, charge, 1, inputs_->of_reading.least);
  if (inputs_->own_rate) load_slow(*own_at_worst_, charge, 0, inputs_->of_reading.least);
  return hottest;
}

void WorstCase::load_slow(PointValues slow, Mass charge, double vent, double mains) {
  // Most is condensed where there is most to heat and to lose.
  Point heavy = worst_for_water();
  heavy.set(Input::moisture, 1).set(Input::dry_specific_heat, 1);
  heavy.set(Input::vent_share, vent);
  slow.move_charge(heavy);
  for (const HeatCase& heat : weakest(mains)) {
    heavy.set(Input::heater, heat.place);
    for (const double loss : {0.0, 1.0}) {
      slow.move_heat(heavy.set(Input::heat_loss, loss));
      RunValues v = slow.of(charge, any_fill);
      heat_by(v, heat.times);
      column_capacity_ = std::max(column_capacity_, v.column_capacity);
      column_loss_ = std::max(column_loss_, v.column_loss);
      const Boiling boiling = boiling_of(v);
      if (boiling.failure) {
        never_ends_ = true;
        continue;
      }
      slow_[slow_runs_++] = {boiling, boiling.vapour * (1.0 - v.vent_share) / v.distillate_density};
    }
  }
}

// The most that can condense in column and charge at any point of the ranges, by when the run is
// stopped and has boiled so long past that. `hottest` is the run with the earliest boiling.
Mass WorstCase::most_condensed(const Stop& stop, Duration lateness, const Run& hottest) const {
  Mass most = kilograms(1e9);
  if (stop.hydrosol) {
    if (never_ends_) return most;
    most = grams(0);
    for (std::size_t i = 0; i < slow_runs_; ++i) {
      const SlowRun& slow = slow_[i];
      const Boiling& boiling = slow.boiling;
      const Duration running = *stop.hydrosol / slow.distillate + lateness;
      most = std::max(
          most, boiling.steam * boiling.steaming + (boiling.steam - boiling.vapour) * running);
    }
  }
  if (stop.clock) {
    // By the clock: column and charge heated through, and the full loss from the first boiling on.
    const RunValues& v = hottest.values();
    const TemperatureDifference rise = v.boiling - v.room;
    const Duration hot = std::max(*stop.clock + lateness - hottest.boil(), seconds(0));
    most = std::min(most, (column_capacity_ * rise + column_loss_ * rise * hot) / v.latent_heat);
  }
  return most;
}

// What a run with the strongest heater must have lost to charge and walls for no run with any
// heater to have less water left, when each is stopped by this level and boils so long past it.
// `most` is the most that charge and walls can have taken up by then.
//
// A heater that makes the vapour D is at the level after it has made M = level * density /
// (1 - vent_share), however strong it is. Past that it boils off D * lateness, and what has
// condensed is, with the heat capacity and the loss of column and charge at their most,
//
//     E = capacity * rise / latent_heat,  C = loss * rise / latent_heat,
//     E * (1 + D / C) * ln(1 + C / D) + C * (M / D + lateness)  <=  a + b / D,
//     a = E + C * lateness,  b = C * (E / 2 + M),  as ln(1 + x) <= x * (2 + x) / (2 * (1 + x)).
//
// So a weak heater has the time to fill the charge and a strong one boils off most while the person
// is late, and no heater does both: what is gone beyond M is at most
//
//     D * lateness + min(most, a + b / D),
//
// which rises with D until a + b / D = most, and is convex from there on. It is most at that D or
// at the strongest heater's.
Mass WorstCase::lost_at_worst(Volume level, Duration lateness, const Run& hottest,
                              Mass most) const {
  const RunValues& v = hottest.values();
  const TemperatureDifference rise = v.boiling - v.room;
  const Mass heated = column_capacity_ * rise / v.latent_heat;
  const MassFlow lost = column_loss_ * rise / v.latent_heat;
  const Mass vapour = level * v.distillate_density / (1.0 - v.vent_share);
  const Mass a = heated + lost * lateness;
  const Mass b = heated / 2.0 + vapour;  // in times of `lost`
  const MassFlow strongest = hottest.vapour();
  const Mass at_strongest = std::min(most, a + b * double(lost / strongest));
  if (most <= a) return at_strongest;
  const MassFlow fills = std::min(strongest, lost * double(b / (most - a)));
  return std::max(at_strongest, most - (strongest - fills) * lateness);
}

Run WorstCase::hottest(Mass first_fill) const {
  Run run = hottest_;
  run.refill(first_fill * at_worst_.filled());
  return run;
}

Run WorstCase::run(Mass first_fill, const Stop& stop, Duration lateness) const {
  Run run = hottest(first_fill);
  Mass lost = run.values().hold_up;
  if (bounded() && !run.failure()) {
    lost = std::min(lost, most_condensed(stop, lateness, run));
    if (stop.hydrosol) {
      // Where a clock ends this run before the level, other runs may lose what it has not boiled
      // off.
      const Duration end = std::max(stop_time(run, stop) + lateness, run.first_drop());
      const Duration left_out = run.time_of_hydrosol(*stop.hydrosol) + lateness - end;
      lost = std::min(lost,
                      lost_at_worst(*stop.hydrosol, lateness, run, lost) + run.vapour() * left_out);
    }
  }
  run.soak_at_once(lost);
  return run;
}

RunValues worst_values(const Inputs& inputs, Mass charge, Mass first_fill, const Stop& stop,
                       Duration lateness) {
  return WorstCase(inputs, charge).run(first_fill, stop, lateness).values();
}

RunValues hottest_values(const Inputs& inputs, Mass charge, Mass first_fill) {
  const Point point = worst_for_water();
  return hottest_of(inputs, PointValues(inputs, point, HeatFrom::tables), own_values(inputs, point),
                    charge, first_fill, Mains::nominal);
}

RunValues coolest_values(const Inputs& inputs, Mass charge, Mass first_fill) {
  Point point = Point::typical();
  point.set(Input::heater, 0).set(Input::heat_loss, 1).set(Input::vent_share, 0);
  point.set(Input::moisture, 1).set(Input::dry_specific_heat, 1).set(Input::fill_error, 0);
  RunValues v = PointValues(inputs, point, HeatFrom::tables).of(charge, first_fill);
  start_over_room(v, std::min(v.fill_excess, kelvins(0)));
  const auto own = own_values(inputs, point);
  if (!own) return v;
  const Meanings m = meanings(*own, point, charge, weakest(1.0));
  v.heat_warming = std::min(v.heat_warming, m.warming.low);
  const Boiling boiling = boiling_of(v);
  if (boiling.failure || m.runs < m.corners) {
    v.heat_boiling = watts(0);
    return v;
  }
  v.heat_boiling = heat_for_vapour(v, std::min(boiling.vapour, m.vapour.low));
  steam_within(v, std::max(boiling.steaming, m.steaming.high));
  return v;
}

Range<Power> heat_by_tables(const Inputs& inputs) {
  return {tables_heat(inputs, 0.0), tables_heat(inputs, 0.5), tables_heat(inputs, 1.0)};
}

}  // namespace firstdrop
