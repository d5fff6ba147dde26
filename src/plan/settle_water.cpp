#include <algorithm>
#include <utility>

#include "base/root.hpp"
#include "physics/stop.hpp"
#include "plan/settle.hpp"

namespace firstdrop {
namespace {

Mass margin(const Planning& p, Mass charge, Mass fill, const Stop& stop) {
  return p.water.worst_margin(charge, fill, stop, p.lateness());
}

// The largest charge that may be loaded instead. How much herb fits is the least certain figure.
// So water and stop should hold for as much as fits at the P90 of the bulk density, unless the
// recipe fixes the charge and leaves the water to the planner. By the clock, more water would
// mean less hydrosol. A charge that lies in the water needs its own amount of water.
Mass may_be_loaded(const Planning& p, const ChargeChoice& charge, const Stop& stop) {
  const bool sized = std::holds_alternative<OilGoal>(p.recipe.goal);
  if (p.hydro() || stop.clock || (sized && !p.recipe.charge)) return charge.charge;
  const SamplePoint loosely = SamplePoint::medians().set(Parameter::bulk_density, 0.9);
  const Mass fits = p.neat_down(charge_capacity(p.parameters, p.defaults, loosely));
  const Mass asked = p.recipe.charge && !p.recipe.water ? *p.recipe.charge / charge.runs : fits;
  return std::max(std::min(asked, fits), charge.charge);
}

// The largest such charge for which this fill lasts.
Mass most_for(const Planning& p, const ChargeChoice& charge, const Stop& stop, Mass fill) {
  return std::max(charge.charge, p.neat_down(largest(
                                     charge.charge, may_be_loaded(p, charge, stop),
                                     [&](Mass more) { return margin(p, more, fill, stop).si(); })));
}

// A run with no goal ends early enough for its water to last, if that is worth a run.
std::optional<WaterChoice> ended_early(const Planning& p, Mass charge, WaterChoice choice) {
  if (!std::holds_alternative<HarvestGoal>(p.recipe.goal)) return std::nullopt;
  const Volume most =
      p.water.most_hydrosol(charge, choice.fill, p.recipe.limits.time, p.lateness());
  if (most < p.defaults.least_run.typical()) return std::nullopt;
  choice.stop.hydrosol = most;
  choice.rule = StopRule::reserve;
  return choice;
}

found::StopAsked asked(const Planning& p, const StopChoice& stop) {
  if (stop.rule != StopRule::oil_share || !stop.stop.hydrosol) return {std::nullopt, stop.stop};
  return {std::get<OilShareGoal>(p.recipe.goal).share, stop.stop};
}

WaterChoice judge_own_water(const Planning& p, const ChargeChoice& charge, const StopChoice& stop,
                            Volume room, WaterChoice choice) {
  const Volume poured = *p.recipe.water;
  choice.fill = p.water.poured_mass(poured);
  if (poured > room) {
    const bool grid = p.recipe.method_used() == Method::water_and_steam;
    choice.refusal.emplace(Level::refuse, found::PotOverfull{poured, room, grid});
    return choice;
  }
  const Mass spare = margin(p, charge.charge, choice.fill, stop.stop);
  if (spare >= grams(0)) {
    choice.most_charge = most_for(p, charge, stop.stop, choice.fill);
    return choice;
  }
  if (auto early = ended_early(p, charge.charge, choice)) return *std::move(early);
  const Volume reserve = p.water.as_volume(p.water.reserve(charge.charge, choice.fill));
  choice.refusal.emplace(Level::refuse, found::ReserveReached{poured, asked(p, stop),
                                                              p.water.as_volume(spare) + reserve,
                                                              reserve, p.recipe.limits.absence});
  choice.refused_but_described = true;
  return choice;
}

// How much earlier a usual heater reaches the level than the strongest one could have used up the
// pot's water. Below zero, the heat would have to go off before the stop (RunPlan's give_up).
Duration in_time_by(const Planning& p, Mass charge, Mass fill, const Stop& stop) {
  // The bound holds by any run of the worst case. This one doesn't depend on the recipe's absence.
  const Duration after_heat = longest_after_heat(p.parameters);
  const Run worst = p.water.worst_case(charge).run(fill, stop, Limits{}.absence + after_heat);
  const Mass left = element_in_water(p.still) ? p.water.reserve(charge, fill) : grams(0);
  const Duration used =
      p.water.worst_time_until(left, charge, fill, worst, seconds(0)) - after_heat;
  return used - stop_time(p.nominal.of(charge, fill), stop);
}

// As much more water as it takes for that, or as there is room for.
Mass enough_in_time(const Planning& p, Mass charge, const Stop& stop, Mass least, Mass most) {
  if (!stop.hydrosol || stop.clock || least >= most) return least;
  const auto in_time = [&](Mass fill) { return in_time_by(p, charge, fill, stop); };
  if (in_time(least) >= seconds(0)) return least;
  if (in_time(most) < seconds(0)) return most;
  return most -
         largest(grams(0), most - least, [&](Mass less) { return in_time(most - less).si(); });
}

// The least fill that lasts, for the charge and as far as there is room also for the largest
// allowed one.
WaterChoice with_least_fill(const Planning& p, const ChargeChoice& charge, const Stop& stop,
                            Volume room, Mass least, WaterChoice choice) {
  choice.most_charge = may_be_loaded(p, charge, stop);
  if (choice.most_charge > charge.charge) {
    const Mass to_a_mark = std::max(least, p.water.poured_mass(p.neat_down(room)));
    const auto more = p.water.least_fill(choice.most_charge, stop, p.lateness());
    if (more && *more <= to_a_mark) {
      least = *more;
    } else {
      least = to_a_mark;
      choice.most_charge = most_for(p, charge, stop, least);
    }
  }
  least = enough_in_time(p, std::max(choice.most_charge, charge.charge), stop, least,
                         p.water.poured_mass(p.neat_down(room)));
  Volume fill = p.water.poured_volume(least);
  if (p.hydro()) {
    fill = std::max(fill, charge.charge * p.defaults.hydro_water.at(p.recipe.state).typical());
  }
  if (p.neat_up(fill) <= room) {
    fill = p.neat_up(fill);
  } else {
    fill = p.neat_down(room) >= p.water.poured_volume(least) ? p.neat_down(room) : room;
  }
  choice.fill = p.water.poured_mass(fill);
  return choice;
}

}  // namespace

WaterChoice choose_water(const Planning& p, const ChargeChoice& charge, const StopChoice& stop) {
  const Volume room = p.water.room(charge.charge);
  WaterChoice choice;
  choice.stop = stop.stop;
  choice.rule = stop.rule;
  if (p.recipe.water) return judge_own_water(p, charge, stop, room, std::move(choice));
  if (const auto least = p.water.least_fill(charge.charge, stop.stop, p.lateness()))
    return with_least_fill(p, charge, stop.stop, room, *least, std::move(choice));
  choice.fill = p.water.poured_mass(room);
  if (auto early = ended_early(p, charge.charge, choice)) return *std::move(early);
  const Volume most =
      p.water.most_hydrosol(charge.charge, choice.fill, p.recipe.limits.time, p.lateness());
  choice.fill = grams(0);
  choice.refusal.emplace(
      Level::refuse, found::TargetExceedsPot{asked(p, stop), room, most, p.recipe.limits.absence});
  return choice;
}

std::optional<Mass> lighter_charge(const Planning& p, Mass charge, const Stop& stop) {
  const Mass fits = p.neat_down(largest(grams(0), charge, [&](Mass lighter) {
    return margin(p, lighter, p.water.poured_mass(p.water.room(lighter)), stop).si();
  }));
  if (fits <= grams(0) || fits >= charge) return std::nullopt;
  return fits;
}

}  // namespace firstdrop
