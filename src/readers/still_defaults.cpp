#include "readers/still_defaults.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "physics/heat_balance.hpp"

namespace firstdrop {
namespace {

/// A figure whose range follows from another by factors, with that one's evidence.
template <class T>
Cited<T> scaled(T base, const Cited<Fraction>& factor) {
  const Range<Fraction>& by = factor.range;
  return {{base * double(by.low), base * double(by.typical), base * double(by.high)},
          factor.evidence};
}

/// The diameter of a round vessel of this volume, `height` times as high as it is wide.
Cited<Length> diameter_of(const Cited<Volume>& volume, const Cited<Fraction>& height) {
  const double cube = volume.typical().si() * 4.0 / (std::numbers::pi * double(height.typical()));
  return {Range<Length>::exactly(Length::from_si(std::cbrt(cube))), height.evidence};
}

/// The mass of so much wall. Surfaces and walls are likely to be off by factors, so their lows,
/// medians and highs go together.
Cited<Mass> mass_of(const Range<Area>& surface, const Material& material) {
  const Range<Length>& wall = material.wall.range;
  const Density density = material.density.typical();
  Evidence evidence = material.wall.evidence;
  return {{surface.low * wall.low * density, surface.typical * wall.typical * density,
           surface.high * wall.high * density},
          std::move(evidence)};
}

Cited<Mass> mass_of(Area surface, const Material& material) {
  return mass_of(Range<Area>::exactly(surface), material);
}

/// Surface at the power 2/3 of a volume: of one side of a cube that holds it.
Area side_of_cube(Volume volume) {
  const double edge = std::cbrt(volume.si());
  return Area::from_si(edge * edge);
}

/// The condensing surface, from what is known of it; left out if nothing is.
Cited<Area> condensing_surface(const Condenser& condenser, const StillDefaults& defaults) {
  if (condenser.tube_length && condenser.tube_diameter) {
    const Area tube =
        condenser.tube_length->typical() * condenser.tube_diameter->typical() * std::numbers::pi;
    return scaled(tube, defaults.tube_cooled);
  }
  if (condenser.dome_diameter)
    return scaled(circle_area(condenser.dome_diameter->typical()), defaults.dome_surface);
  if (condenser.kind != CondenserKind::run_through && condenser.coolant)
    return scaled(side_of_cube(condenser.coolant->typical()), defaults.coil_surface);
  return {};
}

/// The lowest limit of the still's methods.
Cited<Fraction> fill_limit(const Still& still, const StillDefaults& defaults) {
  Cited<Fraction> least = defaults.fill_limit.at(still.methods.front());
  for (const Method method : still.methods) {
    const Cited<Fraction>& other = defaults.fill_limit.at(method);
    if (other.typical() < least.typical()) least = other;
  }
  return least;
}

void complete_words(Still& still) {
  if (still.title.empty()) still.title = "Own still";
  if (still.methods.empty())
    still.methods = {still.column ? Method::steam
                     : still.grid ? Method::water_and_steam
                                  : Method::hydro};
  if (still.column && still.column->material.empty()) still.column->material = still.pot.material;
  if (still.head.material.empty())
    still.head.material = still.column ? still.column->material : still.pot.material;
  if (still.condenser.wall.empty()) still.condenser.wall = still.pot.material;
}

/// Sets a figure that was left out.
template <class T, class Make>
void set(Cited<T>& figure, Make make) {
  if (is_given(figure)) return;
  figure = make();
  if (!is_given(figure)) return;
  figure.evidence.basis = "default: " + figure.evidence.basis;
  figure.evidence.known = Known::default_value;
}

}  // namespace

Cited<Mass> default_wall_hold_up(const Still& still, const Tables& tables) {
  const StillDefaults& defaults = tables.design_defaults.still;
  const Range<Area>& head = still.head.surface.range;
  const Range<Area>& condenser = still.condenser.surface.range;
  Range<Area> wet{head.low + condenser.low, head.typical + condenser.typical,
                  head.high + condenser.high};
  if (still.column) {
    const Area side =
        cylinder_side(still.column->volume.typical(), still.column->diameter.typical());
    wet = {wet.low + side, wet.typical + side, wet.high + side};
  }
  constexpr Density water = kilograms_per_cubic_metre(1000);
  const Range<Length>& film = defaults.wall_film.range;
  // Films and surfaces vary apart from each other, so the median surface serves.
  return {{wet.typical * film.low * water, wet.typical * film.typical * water,
           wet.typical * film.high * water},
          defaults.wall_film.evidence};
}

Still with_defaults(Still still, const Tables& tables) {
  const StillDefaults& defaults = tables.design_defaults.still;
  complete_words(still);
  Pot& pot = still.pot;
  const Material& pot_material = tables.materials.at(pot.material);
  set(pot.diameter, [&] { return diameter_of(pot.volume, defaults.pot_height); });
  const Area base = circle_area(pot.diameter.typical());
  set(pot.mass, [&] {
    return mass_of(cylinder_side(pot.volume.typical(), pot.diameter.typical()) + base,
                   pot_material);
  });
  set(pot.fill_limit, [&] { return fill_limit(still, defaults); });
  set(pot.minimum_water, [&]() -> Cited<Volume> {
    return {Range<Volume>::exactly(base * defaults.water_over_base.typical()),
            defaults.water_over_base.evidence};
  });
  Area below_head = base;
  if (still.column) {
    Column& column = *still.column;
    set(column.diameter, [&] { return diameter_of(column.volume, defaults.column_height); });
    below_head = circle_area(column.diameter.typical());
    set(column.mass, [&] {
      return mass_of(cylinder_side(column.volume.typical(), column.diameter.typical()) + below_head,
                     tables.materials.at(column.material));
    });
  }
  if (still.grid) set(still.grid->mass, [&] { return mass_of(base, pot_material); });
  Head& head = still.head;
  set(head.surface, [&] { return scaled(below_head, defaults.head_surface); });
  set(head.mass, [&] { return mass_of(head.surface.range, tables.materials.at(head.material)); });
  Condenser& condenser = still.condenser;
  const bool is_measured = condenser.tube_length || condenser.dome_diameter;
  if (is_measured && !is_given(condenser.surface)) {
    condenser.surface = condensing_surface(condenser, defaults);
    condenser.surface.evidence.known = Known::computed;
  }
  set(condenser.surface, [&] { return condensing_surface(condenser, defaults); });
  set(condenser.outlet, [&] { return defaults.outlet; });
  set(condenser.coolant_limit, [&] { return defaults.coolant_limit; });
  if (condenser.kind == CondenserKind::run_through) {
    if (!condenser.flow_limit) set(condenser.flow_limit.emplace(), [&] { return defaults.tap; });
  } else if (condenser.coolant && !condenser.ice_per_change) {
    set(condenser.ice_per_change.emplace(), [&]() -> Cited<Mass> {
      const bool bath = condenser.kind == CondenserKind::ice_bath;
      const Mass ice = bath ? condenser.coolant->typical() * defaults.ice.typical() : grams(0);
      return {Range<Mass>::exactly(ice), defaults.ice.evidence};
    });
  }
  set(still.wall_hold_up, [&] { return default_wall_hold_up(still, tables); });
  return still;
}

std::vector<DefaultFigure> default_figures(const Still& still) {
  std::vector<DefaultFigure> all;
  const auto add = [&](const char* name, const auto& figure) {
    if (figure.evidence.known == Known::default_value) all.push_back({name, figure.range});
  };
  const auto add_if_any = [&](const char* name, const auto& figure) {
    if (figure) add(name, *figure);
  };
  add("diameter of the pot", still.pot.diameter);
  add("mass of the pot", still.pot.mass);
  add("fill limit of the pot", still.pot.fill_limit);
  add("least water in the pot", still.pot.minimum_water);
  if (still.column) {
    add("diameter of the column", still.column->diameter);
    add("mass of the column", still.column->mass);
  }
  if (still.grid) add("mass of the grid", still.grid->mass);
  add("surface of the head", still.head.surface);
  add("mass of the head", still.head.mass);
  add("condensing surface", still.condenser.surface);
  add("warmest distillate", still.condenser.outlet);
  add("warmest coolant", still.condenser.coolant_limit);
  add_if_any("ice at one change", still.condenser.ice_per_change);
  add_if_any("flow of the tap", still.condenser.flow_limit);
  add("water on the walls", still.wall_hold_up);
  return all;
}

}  // namespace firstdrop
