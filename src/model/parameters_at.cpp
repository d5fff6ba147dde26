#include "firstdrop/model/parameters_at.hpp"

#include <algorithm>

#include "firstdrop/physics/basis.hpp"
#include "firstdrop/physics/charge.hpp"
#include "firstdrop/physics/heat.hpp"
#include "firstdrop/physics/heated_body.hpp"
#include "model/share_at.hpp"

namespace firstdrop {
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

// Heat into the pot by the tables, at this place of the heater's range.
Power heat_by_tables_at(const Inputs& inputs, double place) {
  const Recipe& recipe = inputs.recipe;
  const Fraction efficiency = share_at(inputs.figures->heater_efficiency, place, fraction(1));
  return heat_into_pot(positive_at(recipe.still->heater.power, place), recipe.setting, efficiency) *
         inputs.mains;
}

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
  v.heat_warming = heat_by_tables_at(inputs, heater_place);
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

Range<Power> heat_by_tables(const Inputs& inputs) {
  return {heat_by_tables_at(inputs, 0.0), heat_by_tables_at(inputs, 0.5),
          heat_by_tables_at(inputs, 1.0)};
}

}  // namespace firstdrop
