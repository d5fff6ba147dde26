#include "plan/cautions.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>
#include <vector>

#include "model/parameter_sources.hpp"
#include "physics/charge.hpp"
#include "readers/plant_parameters.hpp"

namespace firstdrop {
namespace {

constexpr Acceleration gravity = metres_per_second_squared(9.80665);

template <class T>
bool contains(const std::vector<T>& all, T one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

// Findings in the order in which they are found, and the sources of the guidance that they follow.
struct Cautions {
  std::vector<Finding> findings;
  std::set<std::string> sources;

  void note(Found what) { findings.emplace_back(Level::note, std::move(what)); }
  void caution(Found what) { findings.emplace_back(Level::caution, std::move(what)); }
  void use(const Evidence& evidence) {
    sources.insert(evidence.sources.begin(), evidence.sources.end());
  }
};

// --- the charge ----------------------------------------------------------------------------------

// Several runs: a caution if they take days, otherwise a note.
void several_runs(const Planning& p, const Plan& plan, Cautions& to) {
  const ChargePlan& charge = plan.charge;
  if (charge.runs <= 1) return;
  const bool many = charge.runs > p.defaults.counts.many_runs;
  if (!many && p.brief()) return;
  found::SeveralRuns several{
      charge.harvest, charge.mass / charge.fill, charge.mass, charge.runs, {}};
  if (plan.run) {
    several.in_all = {plan.run->uncertainty.hydrosol.typical * double(charge.runs),
                      plan.run->times.stop * double(charge.runs)};
  }
  to.findings.emplace_back(many ? Level::caution : Level::note, several);
}

void caution_about_charge(const Planning& p, const ChargePlan& charge, Cautions& to) {
  if (p.hydro()) return;
  if (p.recipe.cut == Cut::ground) to.caution(found::GroundChannels{});
  const Fraction least = p.defaults.least_fill.typical();
  if (charge.fill < least) {
    to.caution(found::ColumnNearlyEmpty{charge.harvest, charge.mass / charge.fill, charge.mass,
                                        charge.fill, least});
  }
}

void note_charge(const Planning& p, const ChargePlan& charge, Cautions& to) {
  if (charge.rest > grams(0)) {
    to.note(found::ChargeLeftOver{charge.harvest + charge.rest, charge.rest,
                                  charge.most >= charge.mass + charge.rest / charge.runs});
  }
  if (p.hydro() || p.recipe.own.bulk_density) return;
  const auto fits_at = [&](double quantile) {
    return charge_capacity(p.parameters, p.defaults,
                           SamplePoint::medians().set(Parameter::bulk_density, quantile));
  };
  const Mass fits = fits_at(0.1);
  if (charge.mass > fits * 1.0001) {
    to.note(found::BulkDensityGuess{fits, fits_at(0.9), p.recipe.method_used() == Method::steam});
  }
}

// --- the figures ---------------------------------------------------------------------------------

void caution_about_figures(const Planning& p, Cautions& to) {
  if (!p.parameters.selected->has_oil) return;
  // Over a grid the charge meets steam as it does in a column. In water everything is different.
  const bool borrowed = (p.parameters.selected->release_method == Method::hydro) != p.hydro();
  if (borrowed) to.caution(found::MethodWithoutFigures{p.recipe.method_used()});
}

void note_figures(const Planning& p, Cautions& to) {
  const Plant& plant = p.recipe.plant;
  if (auto own = replaced_figures(p.recipe.own); !own.empty())
    to.note(found::OwnFiguresUsed{std::move(own)});
  if (!p.parameters.selected->has_oil) to.note(found::OilUnknown{plant.name});
  if (!plant.note.empty()) to.note(found::PlantNote{plant.note});
  if (const auto& best = plant.best_method; best && best->method != p.recipe.method_used()) {
    to.note(found::MethodNotUsual{best->method, best->why});
    to.use(best->evidence);
  }
  const auto& defaults_used = p.parameters.selected->defaults_used;
  if (!defaults_used.empty()) to.note(found::DefaultFigures{defaults_used});
  if (auto figures = default_figures(p.still); !figures.empty())
    to.note(found::StillDefaultsUsed{std::move(figures)});
}

// --- the run -------------------------------------------------------------------------------------

void caution_about_goal(const Planning& p, const RunPlan& run, Cautions& to) {
  const Recipe& recipe = p.recipe;
  const auto* time = std::get_if<TimeGoal>(&recipe.goal);
  if (run.stop_criterion == StopRule::time && !time) {
    to.caution(found::TimeLimitFirst{*recipe.limits.time, run.uncertainty.hydrosol.typical});
  }
  if (time && *run.stop.clock < time->time)
    to.caution(found::TimeLimitBelowGoal{*run.stop.clock, time->time});
}

// The end of the pot's water: a caution if little of the oil has come over, otherwise a note.
void water_ends_run(const Planning& p, const RunPlan& run, Cautions& to) {
  if (run.stop_criterion != StopRule::reserve) return;
  const bool has_oil = p.parameters.selected->has_oil;
  const bool early = has_oil && run.nominal.oil_over < p.defaults.little_oil.typical();
  if (!early && p.brief()) return;
  found::WaterEndsRun ends{{}, run.more.hydrosol, run.more.oil};
  if (has_oil) ends.oil_over = run.uncertainty.oil_share.typical;
  to.findings.emplace_back(early ? Level::caution : Level::note, ends);
}

void caution_about_outcome(const Planning& p, const RunPlan& run, Cautions& to) {
  if (run.stop_criterion == StopRule::cooling) to.caution(found::CoolantEndsRun{run.times.stop});
  const auto& chance = run.uncertainty.chance_of_goal;
  const Fraction low = p.defaults.low_chance.typical();
  if (chance && *chance < low) to.caution(found::GoalUncertain{*chance, low});
  if (run.uncertainty.first_drop.high > run.times.stop)
    to.caution(found::MayGiveNothing{run.uncertainty.first_drop.high});
  if (run.stop.hydrosol && !run.stops_by_clock() && run.times.give_up < run.times.stop)
    to.caution(found::MayEndEarly{*run.stop.hydrosol, run.times.give_up, run.times.stop});
  if (run.times.stop > p.defaults.tiring_run.typical()) to.caution(found::LongRun{run.times.stop});
}

Pressure bed_weight(const Planning& p, Mass charge) {
  return charge * gravity / bed_area(p.still, p.recipe.method_used());
}

void caution_about_bed(const Planning& p, Mass charge, const RunPlan& run, Cautions& to) {
  if (p.hydro() && p.recipe.water) {
    const Volume covered = charge * p.defaults.hydro_water.at(p.recipe.state).range.low;
    if (run.water.first_fill < covered)
      to.caution(found::ChargeNotCovered{run.water.first_fill, charge, covered});
  }
  if (!run.rates.bed_pressure_drop) return;
  const Pressure weight = bed_weight(p, charge);
  const Pressure most = weight * p.defaults.lifting_pressure.typical();
  if (*run.rates.bed_pressure_drop > most)
    to.caution(found::BedBlocks{*run.rates.bed_pressure_drop, weight, most});
}

void caution_about_receiver(const Planning& p, const RunPlan& run, Cautions& to) {
  const std::vector<Volume> ends = p.recipe.fraction_ends();
  if (run.receiver_changes.size() < ends.size()) {
    const std::size_t reached = run.receiver_changes.size();
    to.caution(found::FractionEmpty{reached + 2, ends[reached], run.water.distilled});
  }
  const auto& receiver = p.recipe.receiver_volume;
  if (!receiver || !run.receiver_changes.empty()) return;
  const int most = p.defaults.counts.most_receivers;
  const double full = std::ceil(run.water.distilled / *receiver - 1e-9) - 1.0;
  if (full <= most) return;
  to.caution(found::ReceiverSmall{*receiver, full, *receiver / run.rates.distillate, most});
}

// When others stop, from the literature. The plan's own stop is given beside it.
void note_usual_stop(const Planning& p, const RunPlan& run, Cautions& to) {
  const auto& usual = p.recipe.plant->usual_cut;
  if (!usual) return;
  found::UsualStop stop{usual->sign, {}, run.times.stop - run.times.first_drop};
  if (usual->time) stop.published = usual->time->range;
  to.note(std::move(stop));
  to.use(usual->evidence);
}

// More hydrosol than some multiple of the high end of published runs.
void note_strength(const Planning& p, const ChargePlan& charge, const RunPlan& run, Cautions& to) {
  const Volume drawn = run.uncertainty.hydrosol.typical;
  const Range<SpecificVolume>& published = p.parameters.selected->customary_hydrosol.range;
  const Fraction thin = p.defaults.thin_hydrosol.typical();
  if (drawn <= charge.mass * published.high * thin) return;
  std::optional<State> converted;
  if (charge.as_fresh != charge.mass) converted = p.recipe.state;
  to.note(found::HydrosolThin{drawn, charge.mass, published, converted, published.high * thin,
                              p.parameters.selected->has_oil});
}

// How much of the oil can be collected.
void note_separation(const Planning& p, const Uncertainty& s, Cautions& to) {
  const Mass vaporised = s.oil_vaporised.typical;
  const Mass dissolved = s.oil_dissolved.typical;
  const Fraction much = p.defaults.much_dissolved.typical();
  if (vaporised > grams(0) && dissolved > vaporised * much) {
    to.note(found::OilStaysInHydrosol{vaporised, dissolved, s.hydrosol.typical, much});
  }
  if (s.oil_volume.typical < p.defaults.hard_to_collect.typical())
    to.note(found::OilHardToPart{s.oil_volume.typical});
}

// What sets the pace of the oil.
void note_pace(const Planning& p, const RunPlan& run, Cautions& to) {
  if (!run.codistillation_limit_known) to.note(found::SteamBoundUnknown{});
  if (const auto& limit = p.parameters.codistillation) {
    std::string left_out = codistillation_limit_left_out(p.recipe.plant, p.tables, *limit);
    if (!left_out.empty())
      to.note(found::SteamBoundPartial{fraction(limit->share_covered), std::move(left_out)});
  }
  if (run.codistillation_limit_until)
    to.note(found::SteamSetsThePace{*run.codistillation_limit_until});
  const Cited<Duration>& long_distilling = p.defaults.long_distilling;
  if (run.times.stop - run.times.first_drop > long_distilling.typical()) {
    to.note(found::CurveOnlyRises{});
    to.use(long_distilling.evidence);
  }
}

void note_run(const Planning& p, const ChargePlan& charge, const RunPlan& run, Cautions& to) {
  if (p.hydro()) to.note(found::HydroScorch{});
  note_usual_stop(p, run, to);
  if (run.water.uncondensed > litres(0))
    to.note(found::VapourInTheRoom{run.uncertainty.uncondensed});
  note_strength(p, charge, run, to);
  if (!p.parameters.selected->has_oil) {
    // Nothing is known of the oil, so nothing is said of it.
  } else if (run.uncertainty.oil_volume.high < a_drop_of_oil) {
    to.note(found::OilAllInHydrosol{run.uncertainty.oil_vaporised.typical});
  } else {
    note_separation(p, run.uncertainty, to);
    note_pace(p, run, to);
  }
  if (run.rates.heat_lost > run.rates.heat_into_pot * p.defaults.much_heat_lost.typical())
    to.note(found::MuchHeatLost{run.rates.heat_lost, run.rates.heat_into_pot});
}

// --- the still -----------------------------------------------------------------------------------

void caution_about_still(const Planning& p, Cautions& to) {
  const std::vector<StillDoubt>& doubts = p.parameters.still_doubts;
  if (!doubts.empty()) to.caution(found::StillDoubtful{doubts});
}

void caution_about_gas(const Planning& p, Cautions& to) {
  if (p.still.heater.kind == HeaterKind::gas_burner && p.recipe.site.place == Place::indoors)
    to.caution(found::GasIndoors{});
}

void note_still(const Planning& p, Cautions& to) {
  const HeaterKind heater = p.still.heater.kind;
  if (heater == HeaterKind::gas_burner) {
    found::OpenFlame flame{{}, p.defaults.clear_of_flame.typical()};
    if (const auto& flash = p.recipe.plant->flash_point) flame.flash_point = flash->range.low;
    to.note(flame);
  }
  if (p.still.pot.material == "glass" && heater != HeaterKind::immersed_element)
    to.note(found::GlassOverHeat{});
  if (heater == HeaterKind::immersed_element)
    to.note(found::ElementCovered{p.still.pot.minimum_water.typical()});
}

// What the heater's socket must carry.
void judge_circuit(const Planning& p, Cautions& to) {
  if (p.still.heater.kind == HeaterKind::gas_burner) return;
  // A heater that is turned down switches on and off, so it still draws its full power.
  const Power draws = p.still.heater.power.range.most();
  const DesignDefaults& d = p.defaults;
  if (const auto circuit = p.recipe.site.circuit()) {
    const Fraction share = d.circuit_share.typical();
    const Power bears = circuit->most() * share;
    if (draws > circuit->most()) {
      to.findings.emplace_back(Level::refuse, found::CircuitOverloaded{draws, *circuit});
    } else if (draws > bears) {
      to.caution(found::CircuitNearLimit{draws, *circuit, share, bears});
      to.use(d.circuit_share.evidence);
    }
  } else if (draws > d.socket_for_hours.typical()) {
    to.caution(found::SocketNearLimit{draws, d.socket_for_hours.typical()});
    to.use(d.socket_for_hours.evidence);
  } else if (draws > d.least_circuit.typical() && !p.brief()) {
    to.note(found::CircuitUnknown{draws, d.least_circuit.typical()});
    to.use(d.least_circuit.evidence);
  }
}

// --- the oil -------------------------------------------------------------------------------------

std::optional<Temperature> warm_distillate(const Planning& p, const Plan& plan) {
  const auto& flash = p.recipe.plant->flash_point;
  if (!flash || !plan.run || !plan.run->cooling.distillate) return std::nullopt;
  if (*plan.run->cooling.distillate < flash->range.low) return std::nullopt;
  return plan.run->cooling.distillate;
}

void caution_about_oil(const Planning& p, const Plan& plan,
                       std::optional<Temperature> coldest_coolant, Cautions& to) {
  const Plant& plant = p.recipe.plant;
  const Temperature coldest = coldest_coolant.value_or(p.parameters.coolant);
  const bool separates = plan.run && plan.run->uncertainty.oil_volume.high >= a_drop_of_oil;
  if (plant.oil_freezes && separates &&
      coldest < plant.oil_freezes->range.high + p.defaults.near_freezing.typical()) {
    to.caution(found::OilFreezes{plant.oil_freezes->range.typical, coldest,
                                 p.still.condenser.kind != CondenserKind::run_through});
  }
  if (const auto warm = warm_distillate(p, plan))
    to.caution(found::OilAtFlashPoint{*warm, plant.flash_point->range.low});
}

// The plant's hazards, and what they mean for people and for food.
void note_hazards(const Plant& plant, Cautions& to) {
  found::ToxicOil toxic;
  found::RegulatedSubstance regulated;
  for (const Hazard& hazard : plant.hazards) {
    if (std::any_of(hazard.harms.begin(), hazard.harms.end(), is_grave))
      toxic.hazards.push_back(hazard);
    for (const HarmfulSubstance substance : hazard.substances) {
      if (regulated_in_food(substance) && !contains(regulated.substances, substance))
        regulated.substances.push_back(substance);
    }
  }
  toxic.in_pregnancy =
      std::any_of(plant.hazards.begin(), plant.hazards.end(),
                  [](const Hazard& hazard) { return contains(hazard.at_risk, AtRisk::pregnancy); });
  toxic.has_oil = has_oil_figures(plant);
  if (!toxic.hazards.empty()) to.note(std::move(toxic));
  if (!regulated.substances.empty()) to.note(std::move(regulated));
  for (const Hazard& hazard : plant.hazards) {
    to.note(found::PlantHazard{hazard});
    to.use(hazard.evidence);
  }
}

void note_oil(const Planning& p, const Plan& plan, Cautions& to) {
  const Plant& plant = p.recipe.plant;
  note_hazards(plant, to);
  if (p.parameters.selected->has_oil) {
    const OilPlace place = oil_place(plant);
    if (place == OilPlace::sinks) to.note(found::OilSinks{});
    if (place == OilPlace::near_water) to.note(found::OilNearWater{});
  }
  const bool fire_is_said =
      std::any_of(plant.hazards.begin(), plant.hazards.end(),
                  [](const Hazard& hazard) { return contains(hazard.harms, Harm::fire); });
  if (plant.flash_point && !fire_is_said && !warm_distillate(p, plan))
    to.note(found::FlashPoint{plant.flash_point->range.low});
  if (plant.wants_cohobation) {
    found::WantsCohobation wants;
    if (plan.run && plan.run->uncertainty.oil_vaporised.typical > grams(0)) {
      wants.oil = {plan.run->uncertainty.oil_dissolved.typical,
                   plan.run->uncertainty.oil_vaporised.typical};
    }
    to.note(wants);
  }
  to.note(found::HydrosolStorage{});
  const Volume pot = p.still.pot.volume.typical();
  const Cited<Volume>& reported = p.defaults.still_reported;
  if (pot > reported.typical()) {
    to.note(found::StillSizeRules{pot, reported.typical()});
    to.use(reported.evidence);
  }
}

void note_every_run(const Planning& p, Cautions& to) {
  to.note(found::SteamScalds{});
  to.note(found::OpenPath{});
  to.note(found::SuckBack{});
  to.note(found::StayWithIt{});
  to.note(found::AfterHeatOff{});
  to.note(found::RanDry{});
  to.note(found::AirAndDistance{});
  if (p.still.heater.kind != HeaterKind::gas_burner) to.note(found::WetElectricity{});
  if (p.parameters.selected->has_oil) to.note(found::NeatOil{});
  to.note(found::LocalRules{});
}

// --- all of it -----------------------------------------------------------------------------------

// Gives each finding its row of the table, and uses the row's guidance.
void guide(const Tables& tables, std::vector<Finding>& findings, std::set<std::string>& sources) {
  for (Finding& finding : findings) {
    const auto kind = tables.findings.find(std::string(finding.code()));
    if (kind == tables.findings.end()) continue;
    finding.kind = kind->second;
    if (const auto& guidance = finding.kind->guidance)
      sources.insert(guidance->evidence.sources.begin(), guidance->evidence.sources.end());
  }
}

}  // namespace

void add_cautions(Plan& plan, const Planning& p, std::optional<Temperature> coldest_coolant) {
  const bool refused = any_refuses(plan.findings);
  // A refused run needs no findings about its course and yields.
  const RunPlan* const run = plan.run && !refused ? &*plan.run : nullptr;
  Cautions cautions;
  several_runs(p, plan, cautions);
  if (!p.brief()) note_charge(p, plan.charge, cautions);
  caution_about_charge(p, plan.charge, cautions);
  caution_about_figures(p, cautions);
  if (!p.brief()) note_figures(p, cautions);
  if (run != nullptr) {
    caution_about_goal(p, *run, cautions);
    water_ends_run(p, *run, cautions);
    caution_about_outcome(p, *run, cautions);
    caution_about_bed(p, plan.charge.mass, *run, cautions);
    if (!p.brief()) note_run(p, plan.charge, *run, cautions);
    caution_about_receiver(p, *run, cautions);
  }
  caution_about_still(p, cautions);
  caution_about_gas(p, cautions);
  if (!p.brief()) note_still(p, cautions);
  judge_circuit(p, cautions);
  caution_about_oil(p, plan, coldest_coolant, cautions);
  if (!p.brief()) {
    note_oil(p, plan, cautions);
    note_every_run(p, cautions);
  }
  plan.findings.insert(plan.findings.end(), std::make_move_iterator(cautions.findings.begin()),
                       std::make_move_iterator(cautions.findings.end()));
  if (p.brief()) return;
  plan.sources.merge(cautions.sources);
  guide(p.tables, plan.findings, plan.sources);
}

}  // namespace firstdrop
