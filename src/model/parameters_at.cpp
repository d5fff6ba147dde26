#include "model/parameters_at.hpp"

#include <algorithm>

#include "model/empty_still.hpp"
#include "model/share_at.hpp"
#include "physics/basis.hpp"
#include "physics/charge.hpp"
#include "physics/heat_balance.hpp"

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

Density bulk_density_at(const ModelParameters& parameters, const SamplePoint& point) {
  return positive_at(parameters.selected->bulk_density, point[Parameter::bulk_density]);
}

HeatTransfer condensing_at(const ModelParameters& parameters, const SamplePoint& point) {
  return positive_at(parameters.selected->condensing, point[Parameter::condensing]);
}

Mass charge_capacity(const ModelParameters& parameters, const DesignDefaults& defaults,
                     const SamplePoint& point) {
  const Recipe& recipe = parameters.recipe;
  const Volume space = least_of(space_for_charge(recipe.still, recipe.method_used()));
  if (recipe.method_used() == Method::hydro) {
    return capacity_in_water(space * least_of(recipe.still->pot.fill_limit),
                             defaults.hydro_water.at(recipe.state).typical(),
                             defaults.particle_density.typical());
  }
  return capacity(space, defaults.head_space.typical(), bulk_density_at(parameters, point));
}

namespace {

// Oil per mass of charge, on the as-received basis.
Fraction oil_share_at(const ModelParameters& parameters, const SamplePoint& point) {
  const Fraction content =
      share_at(parameters.selected->oil_content, point[Parameter::oil_content], fraction(0.5));
  if (parameters.selected->oil_per == OilPer::as_received) return content;
  const Fraction moisture =
      share_at(parameters.selected->moisture, point[Parameter::moisture], most_moisture);
  return per_as_received(content, moisture);
}

Fraction recovery_at(const ModelParameters& parameters, const SamplePoint& point) {
  return share_at(parameters.selected->recovery, point[Parameter::recovery], fraction(1));
}

/// The lower or the higher of two figures at a quantile, whichever lies further from the medians.
template <class T>
T outer_at(const Cited<T>& figure, const Cited<T>& other, double quantile) {
  const T one = positive_at(figure, quantile);
  const T two = positive_at(other, quantile);
  return quantile < 0.5 ? std::min(one, two) : std::max(one, two);
}

/// Water on the walls. For the worst case, measured walls hold no less than the defaults do.
Mass wall_hold_up_at(const SelectedParameters& selected, double quantile, HeatFrom from) {
  const Mass measured = std::max(selected.wall_hold_up.range.at(quantile), grams(0));
  if (from != HeatFrom::tables || !selected.replaced) return measured;
  return outer_at(selected.wall_hold_up, selected.replaced->wall_hold_up, quantile);
}

// Kilograms of water in the pot per kilogram of nominal first fill. The median is 1, and a misread
// jug moves it either way.
double filled_at(const ModelParameters& parameters, const SamplePoint& point) {
  const double misread = parameters.selected->fill_error.range.most();
  return 1.0 + misread * (1.0 - 2.0 * point[Parameter::fill_error]);
}

}  // namespace

Mass oil_in_charge(const ModelParameters& parameters, const SamplePoint& point, Mass charge) {
  return charge * oil_share_at(parameters, point);
}

Mass oil_recoverable(const ModelParameters& parameters, const SamplePoint& point, Mass charge) {
  return oil_in_charge(parameters, point, charge) * recovery_at(parameters, point);
}

ParametersAt::ParametersAt(const ModelParameters& parameters, const SamplePoint& point,
                           HeatFrom heat)
    : parameters_(&parameters), heat_(heat) {
  const Recipe& recipe = parameters.recipe;
  const SelectedParameters& selected = parameters.selected;
  filled_ = filled_at(parameters, point);

  RunValues& v = unloaded_;
  v.boiling = parameters.boiling;
  v.latent_heat = parameters.latent_heat;
  v.room = recipe.site.room;
  v.fill_excess = parameters.poured - recipe.site.room;
  v.water_heat = parameters.water_heat;
  v.distillate_density = parameters.fill_density;

  move_capacities(point);
  hold_up_ = positive_at(selected.hold_up, point[Parameter::hold_up]);
  film_hold_up_ = share_at(selected.film_hold_up, point[Parameter::film_hold_up], fraction(5));
  v.hold_up = wall_hold_up_at(selected, point[Parameter::wall_hold_up], heat);
  move_heat(point);

  oil_share_ = oil_share_at(parameters, point);
  recovery_ = recovery_at(parameters, point);
  // The half-life holds for the median fast share. Another share is released at the same rates.
  const double slower =
      positive_at(selected.half_life, point[Parameter::half_life]) / selected.half_life.typical();
  v.release = {share_at(selected.fast_share, point[Parameter::fast_share], fraction(1)),
               selected.release.fast_rate / slower, selected.release.slow_rate / slower,
               selected.blend_paces.empty() ? nullptr : &selected.blend_paces};
  const auto effect = [&](const Cited<Fraction>& figure) {
    return std::max(figure.range.at(point[Parameter::flow_effect]), fraction(0));
  };
  v.flow_effect = {effect(selected.flow_on_fast), effect(selected.flow_on_slow),
                   selected.reference_flow.typical()};
  if (parameters.codistillation) v.oil_per_steam = parameters.codistillation->oil_per_steam;
  v.hydrosol_oil =
      std::max(selected.hydrosol_oil.range.at(point[Parameter::hydrosol_oil]), grams_per_litre(0));
  v.mixing = share_at(selected.mixing, point[Parameter::mixing], fraction(1));
}

void ParametersAt::move_capacities(const SamplePoint& point) {
  const SelectedParameters& selected = parameters_->selected;
  const Still& still = parameters_->recipe.still;
  const Method method = parameters_->recipe.method_used();
  moisture_ = share_at(selected.moisture, point[Parameter::moisture], most_moisture);
  // The masses of the still have no parameter of their own: they are scaled or weighed, so their
  // ranges hardly count. Taking them at the quantile of the herb's heat capacity makes all
  // capacities least or most together, which is the safe side at either end.
  const double quantile = point[Parameter::dry_specific_heat];
  dry_heat_ = positive_at(selected.dry_specific_heat, quantile);
  const StillCapacities empty = still_capacities(still, method, selected, quantile);
  unloaded_.pot_capacity = empty.pot;
  unloaded_.column_capacity = empty.head;
  of_column_ = empty.column;
}

Power heat_at(const ModelParameters& parameters, const Cited<Fraction>& efficiency,
              double quantile) {
  const Recipe& recipe = parameters.recipe;
  return heat_into_pot(positive_at(recipe.still->heater.power, quantile), recipe.setting,
                       share_at(efficiency, quantile, fraction(1))) *
         parameters.mains;
}

Power heat_by_tables_at(const ModelParameters& parameters, double quantile) {
  return heat_at(parameters, parameters.selected->heater_efficiency, quantile);
}

void ParametersAt::move_heat(const SamplePoint& point) {
  const ModelParameters& parameters = *parameters_;
  const Recipe& recipe = parameters.recipe;
  const SelectedParameters& selected = parameters.selected;
  const Still& still = recipe.still;
  RunValues& v = unloaded_;

  // The head's surface has no parameter of its own, because it occurs only multiplied by the head's
  // film. Taking both at the same quantile makes the range of the loss widest, which is the safe
  // side at either end.
  const double loss_quantile = point[Parameter::heat_loss];
  const bool bounds = heat_ == HeatFrom::tables && selected.replaced;
  const auto film = [&](const Cited<HeatTransfer>& figure, Cited<HeatTransfer> Replaced::*before) {
    return bounds ? outer_at(figure, (*selected.replaced).*before, loss_quantile)
                  : positive_at(figure, loss_quantile);
  };
  const StillLosses losses = still_losses(still, recipe.method_used(),
                                          {film(selected.pot_film, &Replaced::pot_film),
                                           film(selected.column_film, &Replaced::column_film),
                                           film(selected.head_film, &Replaced::head_film),
                                           positive_at(still.head.surface, loss_quantile)});
  v.pot_loss = losses.pot;
  v.column_loss = losses.column;
  v.uncondensed_loss =
      share_at(selected.uncondensed_loss, point[Parameter::uncondensed_loss], fraction(0.5));

  const double heater_quantile = point[Parameter::heater];
  v.heat_warming = heat_by_tables_at(parameters, heater_quantile);
  if (bounds) {
    const Power before = heat_at(parameters, selected.replaced->heater_efficiency, heater_quantile);
    v.heat_warming =
        heater_quantile < 0.5 ? std::min(v.heat_warming, before) : std::max(v.heat_warming, before);
  }
  v.heat_boiling = v.heat_warming;
  if (heat_ == HeatFrom::tables) return;
  if (parameters.own_boil_time) boil_time_ = parameters.own_boil_time->at(1.0 - heater_quantile);
  if (parameters.own_rate) {
    const MassFlow vapour = parameters.own_rate->at(heater_quantile) * parameters.fill_density /
                            (1.0 - v.uncondensed_loss);
    const Power then = vapour * parameters.latent_heat +
                       (v.pot_loss + v.column_loss) * (parameters.boiling - recipe.site.room);
    v.heat_boiling = then * double(recipe.setting / parameters.own_rate_setting);
    v.heat_warming = v.heat_boiling;
  }
}

RunValues ParametersAt::of(Mass charge, Mass first_fill) const {
  const ModelParameters& parameters = *parameters_;
  const HeatCapacity of_charge =
      charge_heat_capacity(charge, moisture_, dry_heat_, parameters.water_heat);
  const Mass held = water_held(charge, moisture_, hold_up_, film_hold_up_);
  RunValues v = unloaded_;
  v.first_fill = first_fill * filled_;
  if (parameters.recipe.method_used() == Method::hydro) {
    v.pot_capacity += of_charge;
    v.soaked = held;
  } else {
    v.column_capacity = of_charge + v.column_capacity + of_column_;
    v.hold_up += held;
  }
  if (parameters.own_boil_time && heat_ == HeatFrom::bench) {
    const HeatCapacity water = parameters.own_boil_water * parameters.water_heat;
    const HeatedBody pot{water + v.pot_capacity, v.pot_loss, v.room, watts(0)};
    const Temperature start = v.room + v.fill_excess * double(water / pot.capacity);
    v.heat_warming = heat_for_time(pot, start, parameters.boiling, boil_time_) *
                     double(parameters.recipe.setting / parameters.own_boil_setting);
    if (!parameters.own_rate) v.heat_boiling = v.heat_warming;
  }
  v.charge = charge;
  v.oil_recoverable = charge * oil_share_ * recovery_;
  return v;
}

RunValues run_values_at(const ModelParameters& parameters, const SamplePoint& point, Mass charge,
                        Mass first_fill) {
  return ParametersAt(parameters, point).of(charge, first_fill);
}

bool measured_heat(const ModelParameters& parameters) {
  return parameters.own_boil_time || parameters.own_rate;
}

Range<Power> heat_by_tables(const ModelParameters& parameters) {
  return {heat_by_tables_at(parameters, 0.0), heat_by_tables_at(parameters, 0.5),
          heat_by_tables_at(parameters, 1.0)};
}

}  // namespace firstdrop
