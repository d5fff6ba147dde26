#include "output/explain.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "model/model_parameters.hpp"
#include "model/parameters_at.hpp"
#include "model/plant_parameters.hpp"
#include "model/ranged_outputs.hpp"
#include "model/water_budget.hpp"
#include "model/worst_case.hpp"
#include "physics/condenser.hpp"
#include "physics/release.hpp"
#include "physics/run.hpp"
#include "physics/water.hpp"
#include "quantity/numbers_text.hpp"

namespace firstdrop {
namespace {

constexpr double as_ratio(Fraction f) {
  return f.si();
}

// Sources of the equations, as keys of the source table.
const char* const if97 = "iapws-r7-97";
const char* const sr1 = "iapws-sr1-86";
const char* const viscosity = "iapws-r12-08";
const char* const atmosphere = "iso-2533";
const char* const balance = "heat-balance";
const char* const release_form = "milojevic-2013";
const char* const flow_form = "resistances-in-series";
const char* const raoult = "raoult-dalton";
const char* const solubility = "banerjee-1984";
const char* const ergun = "ergun-1952";
const char* const condensing = "two-zone-condenser";

std::string symbol_of(const std::string& prefix, std::string key) {
  std::replace_if(
      key.begin(), key.end(), [](char c) { return c == '-' || c == '.'; }, '_');
  return prefix + "_" + key;
}

class Explanation {
 public:
  Explanation(const Plan& plan, const Tables& tables)
      : plan_(plan),
        recipe_(plan.recipe),
        still_(plan.recipe.still),
        tables_(tables),
        defaults_(tables.design_defaults),
        parameters_(model_parameters(plan.recipe, tables)) {}

  std::vector<Chapter> write() {
    place();
    charge();
    if (!plan_.run) return std::move(chapters_);
    fill_ = plan_.run->water.first_fill * parameters_.fill_density;
    const Run run(run_values_at(parameters_, SamplePoint::medians(), plan_.charge.mass, fill_));
    if (run.failure()) return std::move(chapters_);
    pot(*plan_.run, run);
    column(run);
    stop(*plan_.run, run);
    oil(*plan_.run, run);
    water(*plan_.run, run);
    worst(*plan_.run);
    steam(*plan_.run);
    coolant(*plan_.run);
    energy(*plan_.run);
    ranges(*plan_.run);
    return std::move(chapters_);
  }

 private:
  // --- the kinds of figures ----------------------------------------------------------------------

  void chapter(const char* title) { chapters_.push_back({title, {}}); }

  void add(ExplainedFigure figure) { chapters_.back().figures.push_back(std::move(figure)); }

  /// A figure from a table, with its range.
  template <class T, class Unit>
  void given(const std::string& symbol, const std::string& name, const Cited<T>& figure,
             Unit in_unit, const char* unit) {
    const Range<double> range{in_unit(figure.range.low), in_unit(figure.range.typical),
                              in_unit(figure.range.high)};
    ExplainedFigure e{symbol, name, {range.typical, unit}, std::nullopt, "", "", figure.evidence};
    if (range.low < range.high) e.range = range;
    add(std::move(e));
  }

  /// A value from the recipe, or its default.
  void asked(const std::string& symbol, const std::string& name, double value, const char* unit,
             const std::string& rule) {
    add({symbol, name, {value, unit}, std::nullopt, "", rule, {}});
  }

  /// A figure worked out by an equation from earlier figures.
  void worked(const std::string& symbol, const std::string& name, double value, const char* unit,
              const std::string& equation, const char* source) {
    add({symbol, name, {value, unit}, std::nullopt, equation, "", {"", {source}, Known::computed}});
  }

  /// A figure found by search or by a rule.
  void found(const std::string& symbol, const std::string& name, double value, const char* unit,
             const std::string& rule) {
    add({symbol, name, {value, unit}, std::nullopt, "", rule, {}});
  }

  bool takes_too_many_runs() const {
    return std::any_of(plan_.findings.begin(), plan_.findings.end(),
                       [](const Finding& finding) { return finding.is<found::TooManyRuns>(); });
  }

  bool hydro() const { return recipe_.method_used() == Method::hydro; }
  bool in_column() const { return recipe_.method_used() == Method::steam; }

  // --- chapters ----------------------------------------------------------------------------------

  void place() {
    chapter("The place");
    if (recipe_.site.pressure) {
      asked("p", "ambient pressure", in_kilopascals(plan_.ambient), "kPa", "site.pressure");
    } else {
      asked("h", "altitude", in_metres(recipe_.site.altitude.value_or(metres(0))), "m",
            recipe_.site.altitude ? "site.altitude" : "none given: sea level");
      worked("p", "ambient pressure", in_kilopascals(plan_.ambient), "kPa",
             "101.325 * (1 - 0.0065 * h / 288.15) ^ (9.80665 / (287.05287 * 0.0065))", atmosphere);
    }
    worked("T_boil", "boiling point of water", in_celsius(plan_.boiling), "°C",
           "saturation_temperature(p)", if97);
    worked("h_fg", "latent heat", in_kilojoules_per_kilogram(plan_.latent_heat), "kJ/kg",
           "latent_heat(T_boil)", sr1);
    asked("T_room", "room, and all that is cold at heat on", in_celsius(recipe_.site.room), "°C",
          "site.room, or 20 °C");
    asked("T_cool", "coolant at the start", in_celsius(parameters_.coolant), "°C",
          "site.coolant, or the room");
    worked("c_w", "mean heat capacity of water on its way to the boil",
           in_kilojoules_per_kilogram_kelvin(parameters_.water_heat), "kJ/(kg K)",
           "mean_specific_heat(T_room, T_boil)", sr1);
    worked("rho_w", "density of water as poured and as caught",
           in_grams_per_millilitre(parameters_.fill_density), "g/mL", "water_density(T_room)", sr1);
  }

  void charge() {
    const ChargePlan& c = plan_.charge;
    chapter("The charge");
    if (hydro()) {
      given("V_pot", "pot", still_.pot.volume, in_millilitres, "mL");
      given("fill_max", "share of the pot that may be filled", still_.pot.fill_limit, in_percent,
            "%");
      given("w_herb", "water per charge around it", defaults_.hydro_water.at(recipe_.state),
            in_litres_per_kilogram, "L/kg");
      given("rho_p", "density of the pieces", defaults_.particle_density, in_grams_per_litre,
            "g/L");
      worked("m_fits", "charge that has room in the pot",
             in_grams(charge_capacity(parameters_, defaults_, SamplePoint::medians())), "g",
             "1000 * V_pot / 1000 * fill_max / 100 / (w_herb + 1000 / rho_p)", balance);
    } else {
      add_space();
      given("head", "head space left free", defaults_.head_space, in_percent, "%");
      bulk_density();
      worked("m_fits", "charge that fits",
             in_grams(charge_capacity(parameters_, defaults_, SamplePoint::medians())), "g",
             "V_space / 1000 * (1 - head / 100) * rho_b", balance);
      const auto fits_at = [&](double p) {
        return in_grams(charge_capacity(parameters_, defaults_,
                                        SamplePoint::medians().set(Parameter::bulk_density, p)));
      };
      chapters_.back().figures.back().range =
          Range<double>{fits_at(0.1), fits_at(0.5), fits_at(0.9)};
    }
    if (recipe_.charge) {
      asked("m_all", "the harvest", in_grams(*recipe_.charge), "g", "charge");
      found("n", "runs", c.runs, "",
            c.rest > grams(0) ? "full runs; what is left over is too little for one more"
                              : "the fewest even runs that each fit, with water to spare");
      if (takes_too_many_runs()) {
        found("m", "charge of one run", in_grams(c.mass), "g",
              "as much as one run holds; the harvest takes too many of them");
      } else if (c.rest > grams(0)) {
        found("m", "charge of one run", in_grams(c.mass), "g",
              "what fits, down to the mark of a kitchen scale");
        worked("m_runs", "charge of all runs", in_grams(c.harvest), "g", "m * n", balance);
        worked("m_over", "charge left over", in_grams(c.rest), "g", "m_all - m_runs", balance);
      } else if (c.mass > grams(0)) {
        worked("m", "charge of one run", in_grams(c.mass), "g", "m_all / n", balance);
      } else {
        found("m", "charge of one run", 0, "g", "not settled, see why the plan is refused");
      }
    } else {
      found("n", "runs", c.runs, "", "one, or as many as the goal needs");
      found("m", "charge of one run", in_grams(c.mass), "g",
            "what fits, down to the mark of a kitchen scale; less where the pot's water or an oil "
            "goal asks for less");
      worked("m_all", "charge of all runs", in_grams(c.harvest), "g", "m * n", balance);
    }
    if (c.most > c.mass) {
      found("m_most", "the most charge for the same water and stop", in_grams(c.most), "g",
            "the pot still keeps its reserve in the worst credible case");
    }
    given("x", "moisture of the charge", parameters_.selected->moisture, in_percent, "%");
    worked("m_dry", "dry matter", in_grams(c.dry_matter), "g", "m * (1 - x / 100)", balance);
    if (c.as_fresh != c.mass) {
      given("x_cut", "moisture of the herb as it was cut", parameters_.selected->fresh_moisture,
            in_percent, "%");
      worked("m_fresh", "the same herb as it was cut", in_grams(c.as_fresh), "g",
             "m_dry / (1 - x_cut / 100)", balance);
    } else {
      worked("m_fresh", "the same herb as it was cut, or as it is known", in_grams(c.as_fresh), "g",
             "m", balance);
    }
    if (hydro()) {
      worked("V_charge", "room that the pieces take", in_millilitres(c.volume), "mL",
             "m / rho_p * 1000", balance);
    } else {
      worked("V_charge", "room that the charge takes", in_millilitres(c.volume), "mL",
             "m / rho_b * 1000", balance);
      worked("fill", "fill", in_percent(c.fill), "%", "V_charge / V_space * 100", balance);
    }
  }

  // The bulk density itself. Where it is scaled from another cut, that cut's bulk density and the
  // factors for scaling.
  void bulk_density() {
    const Chosen<Density> chosen =
        bulk_density_of(recipe_.plant, recipe_.state, recipe_.cut, tables_);
    const auto other = scaled_from(chosen);
    if (recipe_.own.bulk_density || !other) {
      given("rho_b", "bulk density of the charge", parameters_.selected->bulk_density,
            in_grams_per_litre, "g/L");
      return;
    }
    given("rho_other", "bulk density of " + to_string(other->cut) + " material", other->density,
          in_grams_per_litre, "g/L");
    given("k_other", "that cut's density relative to chopped", defaults_.cut_density.at(other->cut),
          as_ratio, "g/g");
    given("k_cut", "this cut's density relative to chopped", defaults_.cut_density.at(recipe_.cut),
          as_ratio, "g/g");
    const Range<Density>& range = parameters_.selected->bulk_density.range;
    worked("rho_b", "bulk density of the charge", in_grams_per_litre(range.typical), "g/L",
           "rho_other / k_other * k_cut", balance);
    chapters_.back().figures.back().range =
        Range<double>{in_grams_per_litre(range.low), in_grams_per_litre(range.typical),
                      in_grams_per_litre(range.high)};
  }

  // The bulk density that was scaled: the first one of the plant's state, otherwise the first one
  // of the plant's form.
  std::optional<BulkDensity> scaled_from(const Chosen<Density>& chosen) const {
    if (chosen.default_used.find("scaled to") == std::string::npos) return std::nullopt;
    const auto own = recipe_.plant->states.find(recipe_.state);
    if (own != recipe_.plant->states.end() && !own->second.bulk_density.empty()) {
      return own->second.bulk_density.front();
    }
    return tables_.forms.at(*recipe_.plant->form).states.at(recipe_.state).bulk_density.front();
  }

  void add_space() {
    if (in_column()) {
      given("V_space", "column", still_.column->volume, in_millilitres, "mL");
    } else {
      given("V_space", "space above the grid", still_.grid->space, in_millilitres, "mL");
    }
  }

  void pot(const RunPlan& plan, const Run& run) {
    const RunValues& v = run.values();
    const Material& material = tables_.materials.at(still_.pot.material);
    chapter("The pot comes to the boil");
    found("V_fill", "water to pour in", in_millilitres(plan.water.pour), "mL",
          recipe_.water ? "water"
          : hydro()     ? "the least that keeps the worst credible case above the reserve (see "
                          "there), or w_herb times the charge if that is more, up to the mark of a "
                          "jug; the pot's room at most"
                        : "the least that keeps the worst credible case above the reserve (see "
                          "there), up to the mark of a jug; the pot's or grid's room at most");
    const bool warm = recipe_.water_temperature.has_value();
    if (warm) {
      asked("T_pour", "its temperature", in_celsius(parameters_.poured), "°C", "water_temperature");
      worked("rho_pour", "its density", in_grams_per_millilitre(parameters_.pour_density), "g/mL",
             "water_density(T_pour)", sr1);
    }
    worked("M_fill", "its mass", in_grams(v.first_fill), "g",
           warm ? "V_fill * rho_pour" : "V_fill * rho_w", balance);
    given("P", "rated power of the heater", still_.heater.power, in_watts, "W");
    asked("s", "setting", in_percent(recipe_.setting), "%", "setting, or 100 %");
    heat(v);
    if (!hydro()) given("V_pot", "pot", still_.pot.volume, in_millilitres, "mL");
    given("d_pot", "its diameter", still_.pot.diameter, in_metres, "m");
    given("u_pot", "heat loss of the pot's surface", parameters_.selected->pot_film,
          in_watts_per_square_metre_kelvin, "W/(m2 K)");
    std::string surface = "4e-6 * V_pot / d_pot";
    if (in_column()) {
      given("d_col", "diameter of the column", still_.column->diameter, in_metres, "m");
      surface += " + max(pi / 4 * (d_pot ^ 2 - d_col ^ 2), 0)";
    }
    worked("U_pot", "loss of the pot per kelvin", in_watts_per_kelvin(v.pot_loss), "W/K",
           "u_pot * (" + surface + ")", balance);
    worked("L_pot", "loss of the pot at the boil", in_watts(v.pot_loss * (v.boiling - v.room)), "W",
           "U_pot * (T_boil - T_room)", balance);
    given("c_dry", "heat capacity of dry plant matter", parameters_.selected->dry_specific_heat,
          in_kilojoules_per_kilogram_kelvin, "kJ/(kg K)");
    worked(
        "C_charge", "heat capacity of the charge",
        in_kilojoules_per_kelvin(
            plan_.charge.dry_matter * parameters_.selected->dry_specific_heat.typical() +
            plan_.charge.mass * parameters_.selected->moisture.typical() * parameters_.water_heat),
        "kJ/K", "(m_dry * c_dry + m * x / 100 * c_w) / 1000", balance);
    given("m_pot", "empty pot", still_.pot.mass, in_kilograms, "kg");
    given("c_pot", "heat capacity of its material", material.specific_heat,
          in_kilojoules_per_kilogram_kelvin, "kJ/(kg K)");
    std::string capacity = "M_fill / 1000 * c_w + m_pot * c_pot";
    if (recipe_.method_used() != Method::steam && still_.grid) {
      given("m_grid", "grid and basket", still_.grid->mass, in_kilograms, "kg");
      capacity += " + m_grid * c_pot";
    }
    if (hydro()) capacity += " + C_charge";
    worked("C_pot", "heat capacity of what warms in the pot",
           in_kilojoules_per_kelvin(v.first_fill * v.water_heat + v.pot_capacity), "kJ/K", capacity,
           balance);
    std::string net = "Q_warm";
    if (warm) {
      worked("T_start", "pot and water, mixed, at heat on", in_celsius(run.pot_temperature({})),
             "°C", "T_room + (T_pour - T_room) * M_fill / 1000 * c_w / C_pot", balance);
      net = "(Q_warm - U_pot * (T_start - T_room))";
    }
    worked("t_boil", "time to the boil", in_minutes(run.boil()), "min",
           "C_pot * 1000 / U_pot / 60 * ln(" + net + " / (Q_warm - L_pot))", balance);
    worked("S", "steam made in the pot", in_grams_per_minute(run.steam_made()), "g/min",
           "(Q_boil - L_pot) * 60 / h_fg", balance);
  }

  void heat(const RunValues& v) {
    const bool measured = parameters_.own_boil_time || parameters_.own_rate;
    if (recipe_.own.mains) {
      asked("k_mains", "power drawn by the measured mains, over the nameplate's",
            parameters_.mains * 100.0, "%", "own.mains, over site.mains and squared");
    }
    if (!measured) {
      given("eta", "share of the power that reaches the pot",
            parameters_.selected->heater_efficiency, in_percent, "%");
      const std::string drawn = "P * s / 100" + by_mains() + " * eta / 100";
      worked("Q_warm", "heat into the pot while it warms", in_watts(v.heat_warming), "W", drawn,
             balance);
      worked("Q_boil", "heat into the pot while it boils", in_watts(v.heat_boiling), "W", drawn,
             balance);
      return;
    }
    const auto then = [&](Fraction setting) {
      return setting == recipe_.setting
                 ? std::string()
                 : fmt::format(", in proportion from the setting of {} then", text(setting));
    };
    const std::string by_time =
        fmt::format("measured: what brings own.boil_water to the boil in own.boil_time ({}){}",
                    recipe_.own.boil_time ? text(*recipe_.own.boil_time) : "",
                    then(parameters_.own_boil_setting));
    const std::string by_rate = fmt::format(
        "measured: what gives own.distillate_rate ({}) with the losses below{}",
        recipe_.own.distillate_rate ? text(*recipe_.own.distillate_rate, Units::metric) : "",
        then(parameters_.own_rate_setting));
    found("Q_warm", "heat into the pot while it warms", in_watts(v.heat_warming), "W",
          parameters_.own_boil_time ? by_time : by_rate);
    found("Q_boil", "heat into the pot while it boils", in_watts(v.heat_boiling), "W",
          parameters_.own_rate ? by_rate : by_time);
  }

  std::string by_mains() const { return recipe_.own.mains ? " * k_mains / 100" : ""; }

  void column(const Run& run) {
    const RunValues& v = run.values();
    const Material& head = tables_.materials.at(still_.head.material);
    chapter("Steam heats what is above, then the first drop comes");
    given("u_head", "heat loss of lid and vapour path", parameters_.selected->head_film,
          in_watts_per_square_metre_kelvin, "W/(m2 K)");
    given("A_head", "their surface", still_.head.surface, in_square_metres, "m2");
    given("m_head", "their mass", still_.head.mass, in_kilograms, "kg");
    given("c_head", "heat capacity of their material", head.specific_heat,
          in_kilojoules_per_kilogram_kelvin, "kJ/(kg K)");
    std::string loss = "u_head * A_head";
    std::string capacity = "m_head * c_head";
    if (in_column()) {
      const Material& material = tables_.materials.at(still_.column->material);
      given("u_col", "heat loss of the column's wall", parameters_.selected->column_film,
            in_watts_per_square_metre_kelvin, "W/(m2 K)");
      given("m_col", "empty column", still_.column->mass, in_kilograms, "kg");
      given("c_col", "heat capacity of its material", material.specific_heat,
            in_kilojoules_per_kilogram_kelvin, "kJ/(kg K)");
      loss += " + u_col * 4e-6 * V_space / d_col";
      capacity += " + m_col * c_col";
    }
    if (!hydro()) capacity += " + C_charge";
    worked("U_col", "loss above the pot per kelvin", in_watts_per_kelvin(v.column_loss), "W/K",
           loss, balance);
    worked("L_col", "that at steam heat", in_watts(v.column_loss * (v.boiling - v.room)), "W",
           "U_col * (T_boil - T_room)", balance);
    worked("C_col", "heat capacity of what steam heats",
           in_kilojoules_per_kelvin(v.column_capacity), "kJ/K", capacity, balance);
    worked("t_steam", "time from the boil to the first drop",
           in_minutes(run.first_drop() - run.boil()), "min",
           "C_col * 1000 / U_col / 60 * ln((Q_boil - L_pot) / (Q_boil - L_pot - L_col))", balance);
    worked("L", "heat lost to the room",
           in_watts((v.pot_loss + v.column_loss) * (v.boiling - v.room)), "W", "L_pot + L_col",
           balance);
    worked("t_drop", "first drop", in_minutes(run.first_drop()), "min", "t_boil + t_steam",
           balance);
    worked("V", "vapour to the condenser", in_grams_per_minute(run.vapour()), "g/min",
           "(Q_boil - L_pot - L_col) * 60 / h_fg", balance);
    given("vent", "vapour that the condenser does not catch",
          parameters_.selected->uncondensed_loss, in_percent, "%");
    worked("D", "distillate", in_millilitres_per_minute(run.distillate_rate()), "mL/min",
           "V * (1 - vent / 100) / rho_w", balance);
  }

  void stop(const RunPlan& plan, const Run& run) {
    chapter("The stop");
    const Duration end = stop_time(run, plan.stop);
    std::string equation;
    if (plan.stop.hydrosol) {
      found("V_stop", "level in the receiver to stop at", in_millilitres(*plan.stop.hydrosol), "mL",
            stop_words(plan.stop_criterion));
      equation = "t_drop + V_stop / D";
    }
    if (plan.stop.clock) {
      asked("t_clock", "longest time", in_minutes(*plan.stop.clock), "min",
            "goal.time or limits.time");
      equation = equation.empty() ? "t_clock" : "min(t_clock, " + equation + ")";
    }
    worked("t_stop", "planned stop, from heat on", in_minutes(end), "min", equation, balance);
    if (const auto& cut = recipe_.plant->usual_cut; cut && cut->time) {
      given("t_usual", "what published runs take, from the first drop", *cut->time, in_minutes,
            "min");
    }
    worked("t_run", "distilling, from first drop to stop",
           in_minutes(std::max(end - run.first_drop(), seconds(0))), "min",
           "max(t_stop - t_drop, 0)", balance);
    worked("V_h", "hydrosol", in_millilitres(run.hydrosol_at(end)), "mL", "D * t_run", balance);
    if (plan.receiver_changes.empty()) return;
    asked("V_rec", "what one receiver holds", in_millilitres(*recipe_.receiver), "mL", "receiver");
    for (std::size_t i = 0; i < plan.receiver_changes.size(); ++i) {
      const ReceiverChange& change = plan.receiver_changes[i];
      worked(fmt::format("V_full_{}", i + 1), "hydrosol when the receiver is full",
             in_millilitres(change.caught), "mL", fmt::format("{} * V_rec", i + 1), balance);
      worked(fmt::format("t_full_{}", i + 1), "receiver full, from heat on", in_minutes(change.at),
             "min", fmt::format("t_drop + V_full_{} / D", i + 1), balance);
    }
  }

  const char* stop_words(StopRule rule) const {
    switch (rule) {
      case StopRule::hydrosol:
        return std::holds_alternative<RatioGoal>(recipe_.goal)
                   ? "goal.ratio times m_fresh, up to the mark of a jug"
                   : "goal.hydrosol, shared out over the runs";
      case StopRule::oil:
        return "the level at which the oil wanted has parted, aimed so that the median reaches it";
      case StopRule::oil_share:
        return "the level at which the share wanted is vaporised, up to the mark of a jug";
      case StopRule::time:
        return "not reached: the time ends the run first";
      case StopRule::oil_left:
        return "where the share of the recoverable oil that is still in the charge has fallen to "
               "oil_left_per_hydrosol (design_defaults.json) for each customary amount of hydrosol "
               "that "
               "is drawn, and oil_left_per_hour for each hour; up to the mark of a jug";
      case StopRule::reserve:
        return "where the worst credible case reaches its reserve";
      case StopRule::cooling:
        break;
    }
    return "where the coolant is too warm";
  }

  // --- the oil -----------------------------------------------------------------------------------

  void oil(const RunPlan& plan, const Run& run) {
    const RunValues& v = run.values();
    const Duration end = stop_time(run, plan.stop);
    const bool dry = parameters_.selected->oil_per == OilPer::dry_matter;
    chapter("The oil");
    oil_content(dry);
    const Mass in_charge = oil_in_charge(parameters_, SamplePoint::medians(), plan_.charge.mass);
    worked("m_oil", "oil in the charge", in_grams(in_charge), "g",
           dry ? "m_dry * w / 100" : "m * w / 100", balance);
    given("r", "share of it that this still can get", parameters_.selected->recovery, in_percent,
          "%");
    worked("m_rec", "oil that can come", in_grams(v.oil_recoverable), "g", "m_oil * r / 100",
           balance);
    release(run, end);
    const bool by_parts = constituents();
    std::string vaporised = "m_rec * R / 100";
    if (parameters_.codistillation) {
      steam_carries(run, end);
      vaporised = "min(" + vaporised + ", O_most)";
    }
    const OilBalance oil = run.oil_at(end);
    if (end > run.first_drop()) {
      worked("m_vap", "oil vaporised by the stop", in_grams(oil.vaporised), "g", vaporised,
             release_form);
    } else {
      found("m_vap", "oil vaporised by the stop", in_grams(oil.vaporised), "g",
            "none comes over before the first drop");
    }
    dissolved(by_parts);
    const Duration saturated = std::min(run.saturated_until(), std::max(end, run.first_drop()));
    found("t_sat", "distilling until what comes over no longer saturates its own water",
          in_minutes(saturated - run.first_drop()), "min",
          "where the oil coming over in a litre has fallen to c_h, or the stop");
    worked("V_sat", "hydrosol by then", in_millilitres(run.hydrosol_at(saturated)), "mL",
           "D * t_sat", balance);
    const Mass vaporised_then = run.oil_vaporised_at(saturated);
    found("m_sat", "oil vaporised by then", in_grams(vaporised_then), "g", "as m_vap, after t_sat");
    const Mass as_it_comes =
        v.hydrosol_oil * run.hydrosol_at(saturated) + oil.vaporised - vaporised_then;
    worked("m_come", "oil that would dissolve if none mixed with later water",
           in_grams(as_it_comes), "g", "c_h * V_sat / 1e6 + m_vap - m_sat", balance);
    given("mix", "share of oil and water that stay mixed in the receiver",
          parameters_.selected->mixing, in_percent, "%");
    worked("m_diss", "oil that stays in the hydrosol", in_grams(oil.vaporised - oil.separated), "g",
           "min(m_vap, (1 - mix / 100) * m_come + mix / 100 * min(m_vap, c_h * V_h / 1e6))",
           balance);
    worked("m_part", "oil that parts in the receiver", in_grams(oil.separated), "g",
           "m_vap - m_diss", balance);
    if (!oil_density_said_) {
      given("rho_oil", "density of the oil", parameters_.selected->oil_density,
            in_grams_per_millilitre, "g/mL");
    }
    if (recipe_.plant->flash_point) {
      given("T_flash", "its flash point", *recipe_.plant->flash_point, in_celsius, "°C");
    }
    worked("V_oil", "its volume (the page has the median over all ranges, p_vol below)",
           in_millilitres(oil.separated / parameters_.selected->oil_density.typical()), "mL",
           "m_part / rho_oil", balance);
    if (plan.codistillation_limit_until) {
      found("t_bound", "until then steam sets the pace, not the plant",
            in_minutes(*plan.codistillation_limit_until), "min",
            "while m_rec times the share released is more than b * V times the time since first "
            "drop");
    }
    worked("V_more", "hydrosol of a quarter hour more", in_millilitres(plan.more.hydrosol), "mL",
           "D * (max(t_stop + 15 - t_drop, 0) - t_run)", balance);
    found("m_more", "oil in the receiver by a quarter hour more", in_grams(plan.more.oil), "g",
          "oil parted a quarter hour after the stop, by the same equations, less that at the stop");
  }

  void release(const Run& run, Duration end) {
    const Release& at_reference = run.values().release;
    given("t_half", "time that half of it takes", parameters_.selected->half_life, in_minutes,
          "min");
    given("f", "share of it that comes in the fast stage", parameters_.selected->fast_share,
          in_percent, "%");
    given("slow", "rate of the slow stage, of that of the fast one",
          parameters_.selected->slow_rate, in_percent, "%");
    found("k_ref", "rate of the fast stage at the flow q_ref", at_reference.fast_rate.si() * 60.0,
          "1/min",
          "so that half is over after t_half: f / 100 * exp(-k_ref * t_half) + (1 - f / 100) * "
          "exp(-slow / 100 * k_ref * t_half) = 1/2");
    worked("q", "steam that passes the charge", in_per_hour(run.steam_per_charge()), "kg/(h kg)",
           "V * 60 / m", balance);
    given("q_ref", "the same in published runs", parameters_.selected->reference_flow, in_per_hour,
          "kg/(h kg)");
    given("B_1", "resistance of the steam over the plant's at q_ref, fast stage",
          parameters_.selected->flow_on_fast, in_percent, "%");
    given("B_2", "the same of the slow stage", parameters_.selected->flow_on_slow, in_percent, "%");
    worked("k_1", "rate of the fast stage here", run.release().fast_rate.si() * 60.0, "1/min",
           "k_ref * (1 + B_1 / 100) / (1 + B_1 / 100 * q_ref / q)", flow_form);
    worked("k_2", "rate of the slow stage here", run.release().slow_rate.si() * 60.0, "1/min",
           "k_ref * slow / 100 * (1 + B_2 / 100) / (1 + B_2 / 100 * q_ref / q)", flow_form);
    worked("R", "share released by the stop",
           in_percent(released(run.release(), std::max(end - run.first_drop(), seconds(0)))), "%",
           "100 * (f / 100 * (1 - exp(-k_1 * t_run)) + (1 - f / 100) * (1 - exp(-k_2 * t_run)))",
           release_form);
  }

  void given_stated_end() {
    given("e_run", "share of what a still can get that has come when it is stopped",
          defaults_.stated_end, in_percent, "%");
  }

  // The oil content in the table, and the steps from there to the basis of the charge.
  void oil_content(bool dry) {
    const char* const name =
        dry ? "oil content of the dry matter" : "oil content of the charge as loaded";
    const auto& states = recipe_.plant->states;
    const auto in_table = [](const auto& state) { return state.second.oil_content.has_value(); };
    const auto own = states.find(recipe_.state);
    const auto found_in = own != states.end() && in_table(*own)
                              ? own
                              : std::find_if(states.begin(), states.end(), in_table);
    const Range<Fraction>& range = parameters_.selected->oil_content.range;
    const auto converted = [&](const std::string& equation) {
      worked("w", name, in_percent(range.typical), "%", equation, balance);
      chapters_.back().figures.back().range =
          Range<double>{in_percent(range.low), in_percent(range.typical), in_percent(range.high)};
    };
    if (recipe_.own.oil_content) {
      asked("w_own", "oil of a full run here, of the charge", in_percent(*recipe_.own.oil_content),
            "%", "measured on this bench");
      given_stated_end();
      converted("w_own / (e_run / 100)");
      return;
    }
    if (found_in == states.end()) {
      given("w", name, parameters_.selected->oil_content, in_percent, "%");
      return;
    }
    const auto& [state, of_state] = *found_in;
    const OilContent& content = *of_state.oil_content;
    const bool converts = state != recipe_.state;
    const bool to_end = content.distilled == Distilled::to_stated_end;
    if (content.by_mass && !converts && !to_end) {
      given("w", name, parameters_.selected->oil_content, in_percent, "%");
      return;
    }
    std::string equation = "w_table";
    if (content.by_mass) {
      given("w_table", "oil content in the table, " + to_string(state), *content.by_mass,
            in_percent, "%");
    } else {
      given(
          "w_table", "oil content in the table, by volume, " + to_string(state), *content.by_volume,
          [](SpecificVolume v) { return in_litres_per_kilogram(v) * 100.0; }, "mL/100 g");
      given("rho_oil", "density of the oil", parameters_.selected->oil_density,
            in_grams_per_millilitre, "g/mL");
      equation += " * rho_oil";
    }
    if (to_end) {
      given_stated_end();
      equation += " / (e_run / 100)";
    }
    if (converts && content.per == OilPer::as_received) {
      given("x_table", "moisture of " + to_string(state) + " material",
            moisture_of(recipe_.plant, state, tables_).figure, in_percent, "%");
      equation += " / (1 - x_table / 100)";
    }
    const bool loses = recipe_.state == State::dried && state != State::dried;
    const bool had_lost = state == State::dried && recipe_.state != State::dried;
    if (loses || had_lost) {
      given("kept", "oil that drying keeps", defaults_.drying_retention, in_percent, "%");
      equation += loses ? " * kept / 100" : " / (kept / 100)";
    }
    converted(equation);
    oil_density_said_ = !content.by_mass;
  }

  // The constituents of the oil, if anything below needs them.
  bool constituents() {
    const bool solubility_needed =
        !recipe_.plant->hydrosol_oil && oil_solubility(oil_parts(recipe_.plant, tables_));
    if (!parameters_.codistillation && !solubility_needed) return false;
    for (const Constituent& constituent : recipe_.plant->constituents) {
      const Liquid& liquid = tables_.liquids.at(constituent.liquid);
      given(symbol_of("s", liquid.key), liquid.name + " in the oil", constituent.share, in_percent,
            "%");
      given(symbol_of("M", liquid.key), "its molar mass", liquid.molar_mass, in_grams_per_mole,
            "g/mol");
    }
    return solubility_needed;
  }

  void steam_carries(const Run& run, Duration end) {
    const CodistillationLimit& bound = *parameters_.codistillation;
    std::string moles;
    for (const OilPart& part : bound.parts) {
      const std::string n =
          symbol_of("s", part.liquid->key) + " / " + symbol_of("M", part.liquid->key);
      moles += (moles.empty() ? "" : " + ") + n;
    }
    double all_moles = 0.0;
    for (const OilPart& part : bound.parts) {
      all_moles += double(part.mass_share) / part.liquid->molar_mass.typical().si();
    }
    found("cov_bound", "share of the oil whose vapour pressure is known here",
          in_percent(bound.share_covered), "%", "sum of their shares, above");
    found("T_mix", "oil and water boil together at", in_celsius(bound.boiling), "°C",
          fmt::format("where their vapour pressures, worked out next, sum to p; from {:.0f} % of "
                      "the oil, the rest taken to be like it{}",
                      in_percent(bound.share_covered), left_out(bound)));
    worked("p_w", "vapour pressure of water there", in_pascals(saturation_pressure(bound.boiling)),
           "Pa", "saturation_pressure(T_mix)", if97);
    std::string sum = "p_w";
    std::string carried;
    for (const OilPart& part : bound.parts) {
      const Liquid& liquid = *part.liquid;
      const Antoine& fit = *liquid.vapour_pressure;
      const std::string mole = symbol_of("x", liquid.key);
      const std::string pure = symbol_of("p", liquid.key);
      worked(mole, liquid.name + ", share of the moles",
             double(part.mass_share) / liquid.molar_mass.typical().si() / all_moles, "mol/mol",
             symbol_of("s", liquid.key) + " / " + symbol_of("M", liquid.key) + " / (" + moles + ")",
             raoult);
      add({pure,
           fmt::format("its vapour pressure when pure (fit holds from {:.0f} to {:.0f} °C)",
                       in_celsius(fit.valid_from), in_celsius(fit.valid_to)),
           {in_pascals(vapour_pressure(liquid, bound.boiling)), "Pa"},
           std::nullopt,
           fmt::format("exp({} - {} / (T_mix + 273.15 + {}))", fit.a, fit.b.si(), fit.c.si()),
           "",
           fit.evidence});
      sum += " + " + mole + " * " + pure;
      carried +=
          (carried.empty() ? "" : " + ") + mole + " * " + pure + " * " + symbol_of("M", liquid.key);
    }
    worked("p_sum", "pressure of both together, the ambient one", in_pascals(plan_.ambient), "Pa",
           sum, raoult);
    worked("b", "the most oil that a gram of steam carries", as_ratio(bound.oil_per_steam), "g/g",
           "(" + carried + ") / (p_w * 18.015268)", raoult);
    worked(
        "O_most", "the most that the steam until the stop can carry",
        in_grams(run.vapour() * bound.oil_per_steam * std::max(end - run.first_drop(), seconds(0))),
        "g", "b * V * t_run", raoult);
  }

  // Why part of the oil doesn't count towards what steam can carry.
  std::string left_out(const CodistillationLimit& bound) const {
    const std::string words = codistillation_limit_left_out(recipe_.plant, tables_, bound);
    return words.empty() ? "" : "; left out: " + words;
  }

  void dissolved(bool by_parts) {
    if (!by_parts) {
      given("c_h", "oil that the hydrosol holds", parameters_.selected->hydrosol_oil,
            in_milligrams_per_litre, "mg/L");
      return;
    }
    std::string moles;
    std::string shares;
    std::string covered;
    std::string sum;
    for (const Constituent& constituent : recipe_.plant->constituents) {
      const Liquid& liquid = tables_.liquids.at(constituent.liquid);
      const std::string s = symbol_of("s", liquid.key);
      const std::string n = s + " / " + symbol_of("M", liquid.key);
      moles += (moles.empty() ? "" : " + ") + n;
      shares += (shares.empty() ? "" : " + ") + s;
      if (!liquid.water_solubility) continue;
      covered += (covered.empty() ? "" : " + ") + s;
      const std::string c = symbol_of("c", liquid.key);
      given(c, "what water dissolves of pure " + liquid.name, *liquid.water_solubility,
            in_milligrams_per_litre, "mg/L");
      sum += (sum.empty() ? "" : " + ") + n + " * " + c;
    }
    const auto dissolves = oil_solubility(oil_parts(recipe_.plant, tables_));
    worked("cov", "share of the oil whose solubility is known",
           in_percent(dissolves->share_covered), "%", covered, balance);
    worked("c_sat", "what water could dissolve of that",
           in_milligrams_per_litre(dissolves->dissolved), "mg/L",
           "(" + sum + ") / ((" + moles + ") / min((" + shares + ") / 100, 1))", solubility);
    given("sat", "share of it that measured hydrosols hold", defaults_.hydrosol_saturation,
          as_ratio, "g/g");
    given("c_any", "oil in the hydrosol of any plant", defaults_.hydrosol_oil,
          in_milligrams_per_litre, "mg/L");
    worked("c_h", "oil that the hydrosol holds",
           in_milligrams_per_litre(parameters_.selected->hydrosol_oil.typical()), "mg/L",
           "c_sat * sat + c_any * (1 - cov / 100)", solubility);
  }

  // --- the water ---------------------------------------------------------------------------------

  void water(const RunPlan& plan, const Run& run) {
    const RunValues& v = run.values();
    const Duration end = stop_time(run, plan.stop);
    const WaterBalance w = run.water_at(end);
    const Mass by_charge =
        hydro() ? v.soaked : v.hold_up - parameters_.selected->wall_hold_up.typical();
    chapter("The pot's water");
    given("hold", "water that dry matter holds", parameters_.selected->hold_up, as_ratio, "g/g");
    given("film", "water that clings to a wet charge", parameters_.selected->film_hold_up, as_ratio,
          "g/g");
    worked("m_soak", "water that the charge can take up", in_grams(by_charge), "g",
           "max(m_dry * hold - m * x / 100, m * film)", balance);
    given("m_wall", "water that clings to the walls", parameters_.selected->wall_hold_up, in_grams,
          "g");
    worked("m_cond", "steam condensed above the pot by the stop",
           in_grams(run.condensed_until(end)), "g",
           "S * min(max(t_stop - t_boil, 0), t_steam) + (S - V) * t_run", balance);
    worked("m_held", "water held by charge and walls", in_grams(w.held), "g",
           hydro() ? "m_soak + min(m_cond, m_wall)" : "min(m_cond, m_soak + m_wall)", balance);
    worked("m_vent", "vapour lost to the room", in_grams(w.uncondensed), "g",
           "V * vent / 100 * t_run", balance);
    worked("V_held", "that as volume", in_millilitres(plan.water.held), "mL", "m_held / rho_w",
           balance);
    worked("V_vent", "vapour lost, as water", in_millilitres(plan.water.uncondensed), "mL",
           "m_vent / rho_w", balance);
    worked("V_left", "left in the pot at the stop", in_millilitres(plan.water.left_at_stop), "mL",
           "(M_fill - m_held - m_vent) / rho_w - V_h", balance);
    if (hydro()) {
      worked("fill", "pot with its charge", in_percent(plan.water.pot_fill), "%",
             "(V_fill + V_charge) / V_pot * 100", balance);
    } else {
      worked("fill_pot", "pot filled to", in_percent(plan.water.pot_fill), "%",
             "V_fill / V_pot * 100", balance);
    }
    given("reserve_share", "share of the first fill that must stay", defaults_.reserve_share,
          in_percent, "%");
    given("V_min", "least water that the pot must have", still_.pot.minimum_water, in_millilitres,
          "mL");
    std::string reserve = "max(V_fill * reserve_share / 100, V_min";
    if (hydro()) {
      given("wet", "water that must stay around the charge", defaults_.hydro_wetting,
            in_litres_per_kilogram, "L/kg");
      reserve += ", wet * m";
    }
    worked("V_res", "the reserve", in_millilitres(plan.water.reserve), "mL", reserve + ")",
           balance);
    time_to("t_res", "reserve reached, if the heat stays on", plan.times.reserve, run,
            plan.water.reserve * parameters_.fill_density, "V_res * rho_w");
    time_to("t_dry", "pot dry, if the heat stays on", plan.times.dry, run, grams(0), "0");
    worked("t_alone", "from the stop to the reserve",
           in_minutes(plan.times.reserve - plan.times.stop), "min", "t_res - t_stop", balance);
    worked("t_alone_dry", "from the stop to the dry pot",
           in_minutes(plan.times.dry - plan.times.stop), "min", "t_dry - t_stop", balance);
    found("m_rest", "what the balance of water does not account for", in_grams(plan.mass_residual),
          "g", "rounding only");
    found("E_rest", "what the balance of heat does not account for",
          in_kilojoules(plan.energy_residual), "kJ", "rounding only");
  }

  // From the first drop on, the pot loses all the steam it makes until charge and walls hold all
  // they can. After that it loses only what goes to the condenser.
  void time_to(const char* symbol, const char* name, Duration time, const Run& run, Mass left,
               const std::string& left_words) {
    const RunValues& v = run.values();
    const Mass caught = std::min(run.steam_made() * (run.first_drop() - run.boil()), v.hold_up);
    const std::string caught_words =
        hydro() ? "m_soak + min(S * t_steam, m_wall)" : "min(S * t_steam, m_soak + m_wall)";
    const Mass spare_mass = v.first_fill - v.soaked - left;
    if (spare_mass <= caught) {
      found(symbol, name, in_minutes(time), "min",
            spare_mass <= grams(0)
                ? "there is no more water than that from the start"
                : "comes before the first drop, while steam still wets charge and walls");
      return;
    }
    const std::string spare = "(M_fill - (" + caught_words + ") - " + left_words + ")";
    std::string equation = "t_drop + " + spare + " / V";
    if (v.hold_up > caught && run.steam_made() > run.vapour()) {
      const std::string fills = "(m_soak + m_wall - (" + caught_words + ")) / (S - V)";
      equation = "t_drop + max(" + spare + " / S, " + fills + " + (" + spare + " - S * " + fills +
                 ") / V)";
    }
    worked(symbol, name, in_minutes(time), "min", equation, balance);
  }

  void worst(const RunPlan& plan) {
    const Run run(worst_values(parameters_, plan_.charge.mass, fill_, plan.stop,
                               longest_lateness(parameters_)));
    if (run.failure()) return;
    const RunValues& v = run.values();
    chapter("The worst credible case for the pot's water");
    const char* const ends =
        "as above, with every figure at that end of its range which empties the pot sooner, as far "
        "beyond the 10th or 90th percentile as that is from the median";
    found("M_w", "least that was poured in", in_grams(v.first_fill), "g", ends);
    found(
        "m_held_w", "water that charge and walls hold at worst", in_grams(v.soaked), "g",
        "so much that no heater leaves less in the pot: a weak one has time to soak the charge, a "
        "strong one boils off more while you are late, and none does both");
    found("Q_w", "most heat into the pot", in_watts(v.heat_boiling), "W", ends);
    found("U_w", "least loss of pot and column per kelvin",
          in_watts_per_kelvin(v.pot_loss + v.column_loss), "W/K", ends);
    worked("V_w", "most vapour", in_grams_per_minute(run.vapour()), "g/min",
           "(Q_w - U_w * (T_boil - T_room)) * 60 / h_fg", balance);
    found("vent_w", "most vapour that the condenser does not catch", in_percent(v.uncondensed_loss),
          "%", ends);
    worked("D_w", "distillate of the strongest heater",
           in_millilitres_per_minute(plan.rates.distillate_most), "mL/min",
           "V_w * (1 - vent_w / 100) / rho_w", balance);
    found("t_drop_w", "earliest first drop", in_minutes(run.first_drop()), "min", ends);
    found("t_early", "earliest stop", in_minutes(plan.times.earliest_stop), "min",
          "the level, or the clock, with the strongest heater and the least vented");
    found("t_stop_w", "stop", in_minutes(plan.times.stop_worst), "min",
          "the same level in the receiver, or the clock, with these figures");
    asked("late", "lateness allowed for", in_minutes(recipe_.limits.absence), "min",
          "limits.absence, or 15 min");
    given("t_store", "for so long the pot boils on after heat off",
          parameters_.selected->stored_heat, in_minutes, "min");
    found("t_store_w", "the longest of it", in_minutes(longest_after_heat(parameters_)), "min",
          ends);
    const Duration late = plan.times.stop_worst + longest_lateness(parameters_);
    worked("V_left_w", "left when you come late; must not be below the reserve",
           in_millilitres(run.water_at(late).left / parameters_.fill_density), "mL",
           "(M_w - m_held_w - V_w * max(t_stop_w + late + t_store_w - t_drop_w, 0)) / rho_w",
           balance);
    const auto worst_time = [&](const char* symbol, const char* name, Duration time, Mass left,
                                const std::string& equation) {
      if (std::abs((run.time_until_left(left) - time) / time) > 1e-9) {
        found(
            symbol, name, in_minutes(time), "min",
            "the same with all that charge and walls can come to hold by then, which is more than "
            "by the stop");
      } else if (v.first_fill - v.soaked > left) {
        worked(symbol, name, in_minutes(time), "min", equation, balance);
      } else {
        found(symbol, name, in_minutes(time), "min",
              "there may be no more water than that from the start");
      }
    };
    worst_time("t_res_w", "reserve reached at worst", plan.times.reserve_worst,
               plan.water.reserve * parameters_.fill_density,
               "t_drop_w + (M_w - m_held_w - V_res * rho_w) / V_w");
    worst_time("t_dry_w", "dry at worst", plan.times.dry_worst, grams(0),
               "t_drop_w + (M_w - m_held_w) / V_w");
    worked("t_late", "heat off by then, where nobody has seen the level",
           in_minutes(plan.times.latest), "min",
           "max(min(t_res_w - t_store_w, t_stop_w + late), 0)", balance);
    worked("V_absence", "part of the fill that covers lateness and stored heat",
           in_millilitres(plan.water.absence), "mL", "V_w * (late + t_store_w) / rho_w", balance);
    worked("V_after", "hydrosol that still comes after heat off",
           in_millilitres(plan.water.after_heat_off), "mL", "D * t_store", balance);
    found("V_never", "heat off before this is in the receiver",
          in_millilitres(plan.water.never_beyond), "mL",
          "the level at which the worst case, at any heat, still keeps its reserve when the heater "
          "has given what it stored; down to the mark of a jug");
  }

  // --- steam, coolant, energy --------------------------------------------------------------------

  void steam(const RunPlan& plan) {
    if (!plan.rates.steam_velocity || !plan.rates.bed_pressure_drop) return;
    chapter("Steam through the charge");
    if (!in_column()) {
      worked("A_bed", "cross-section of the bed",
             in_square_metres(bed_area(still_, recipe_.method_used())), "m2", "pi / 4 * d_pot ^ 2",
             balance);
    } else {
      worked("A_bed", "cross-section of the bed",
             in_square_metres(bed_area(still_, recipe_.method_used())), "m2", "pi / 4 * d_col ^ 2",
             balance);
    }
    const Density rho = saturated_vapour_density(parameters_.boiling);
    worked("rho_s", "density of steam", rho.si(), "kg/m3", "steam_density(T_boil)", sr1);
    worked("mu_s", "viscosity of steam", saturated_vapour_viscosity(parameters_.boiling).si(),
           "Pa s", "steam_viscosity(T_boil)", viscosity);
    worked("v", "steam velocity, as if the bed were empty",
           in_centimetres_per_second(*plan.rates.steam_velocity), "cm/s",
           "S / 60 / 1000 / rho_s / A_bed * 100", balance);
    given("rho_p", "density of the pieces", defaults_.particle_density, in_grams_per_litre, "g/L");
    worked(
        "e", "share of the bed that is free",
        1.0 - parameters_.selected->bulk_density.typical() / defaults_.particle_density.typical(),
        "m3/m3", "1 - rho_b / rho_p", balance);
    given("d_p", "size of the pieces, six times volume over surface",
          defaults_.particle_size.at(recipe_.cut), in_millimetres, "mm");
    worked("p_bed", "pressure drop of the bed", in_pascals(*plan.rates.bed_pressure_drop), "Pa",
           "(150 * mu_s * (1 - e) ^ 2 / e ^ 3 * v / 100 / (d_p / 1000) ^ 2 + 1.75 * rho_s * (1 - "
           "e) / e ^ 3 * (v / 100) ^ 2 / (d_p / 1000)) * m / rho_b / 1000 / A_bed",
           ergun);
  }

  void coolant(const RunPlan& plan) {
    const Condenser& condenser = still_.condenser;
    const CoolingPlan& c = plan.cooling;
    chapter("The coolant");
    given("T_out", "distillate leaves at", condenser.outlet, in_celsius, "°C");
    given("T_max", "warmest coolant allowed", condenser.coolant_limit, in_celsius, "°C");
    worked("Q_c", "heat to take away", in_watts(c.duty), "W",
           "V / 60 * (h_fg + mean_specific_heat(T_out, T_boil) * (T_boil - T_out))", condensing);
    if (condenser.kind == CondenserKind::run_through && !c.flow) {
      found("F", "coolant flow", 0, "L/min", "not worked out: the coolant cannot do it at all");
    } else if (c.flow) {
      worked("F", "coolant flow", in_litres_per_minute(*c.flow), "L/min",
             "Q_c / (mean_specific_heat(0.01, 40) * (T_max - T_cool)) * 60 / rho_w / 1000",
             condensing);
      found("F_hot", "coolant flow at the hottest plate", in_litres_per_minute(*c.flow_most),
            "L/min", "the same with the most heat into the pot and the least loss");
      worked("V_cool", "coolant in all", in_litres(*c.coolant_used), "L", "F * t_run", condensing);
    } else {
      given("V_bath", "filling of the coolant vessel", *condenser.coolant, in_litres, "L");
      given("u_bath", "heat loss of its surface", defaults_.bath_loss,
            in_watts_per_square_metre_kelvin, "W/(m2 K)");
      bath(c);
    }
    given("U_c", "heat transfer of the condensing wall", parameters_.selected->condensing,
          in_watts_per_square_metre_kelvin, "W/(m2 K)");
    given("A_c", "condensing surface there is", condenser.surface, in_square_metres, "m2");
    if (c.surface_needed <= square_metres(0)) return;
    found("A_need", "surface needed", in_square_metres(c.surface_needed), "m2",
          "heat over U_c and the logarithmic mean temperature difference, condensing and cooling "
          "zone apart, at the warmest coolant of the run");
    if (c.distillate) {
      given("dT_app", "distillate above its coolant, at least", defaults_.approach, in_kelvins,
            "K");
      found("T_dist", "distillate leaves no warmer than", in_celsius(*c.distillate), "°C",
            "T_out, or dT_app above the warmest coolant where it leaves; never above boiling");
    }
  }

  void bath(const CoolingPlan& c) {
    worked(
        "A_bath", "surface of a vessel as high as wide, without its base",
        5.0 * std::numbers::pi / 4.0 *
            std::pow(4.0 * still_.condenser.coolant->typical().si() / std::numbers::pi, 2.0 / 3.0),
        "m2", "5 * pi / 4 * (4 * V_bath / 1000 / pi) ^ (2 / 3)", balance);
    if (c.reservoir_end) {
      const double end = in_celsius(*c.reservoir_end);
      if (!c.ice && !c.reservoir_limit) {
        worked("T_end", "coolant at the stop", end, "°C",
               "T_room + Q_c / (u_bath * A_bath) + (T_cool - T_room - Q_c / (u_bath * A_bath)) * "
               "exp(-u_bath * A_bath * t_run * 60 / (V_bath * 1000 * rho_w * "
               "mean_specific_heat(0.01, 40)))",
               balance);
      } else {
        found("T_end", "coolant at the stop", end, "°C",
              "warms by Q_c less the loss of its surface, from ice change to ice change");
      }
    }
    if (c.reservoir_limit) {
      found("t_max", "coolant first at its limit", in_minutes(*c.reservoir_limit), "min",
            "warms by Q_c less the loss of its surface");
    }
    if (c.ice) {
      given("m_ice", "ice of one change at most", *still_.condenser.ice_per_change, in_kilograms,
            "kg");
      if (c.first_ice) {
        found("M_first", "of it in the bath at first drop", in_kilograms(*c.first_ice), "kg",
              "ice_per_change of the still, as far as the bath holds it");
      }
      for (std::size_t i = 0; i < c.ice_changes.size(); ++i) {
        found(fmt::format("t_ice_{}", i + 1), "ice change, from heat on",
              in_minutes(c.ice_changes[i].at), "min",
              "the coolant is at its limit, or will be by the end of the lateness without it");
        found(fmt::format("m_ice_{}", i + 1), "ice of that change",
              in_kilograms(c.ice_changes[i].ice), "kg",
              "what a change takes; the last, what the run still needs");
      }
      found("M_ice", "ice in all", in_kilograms(*c.ice), "kg",
            fmt::format("goes in, for as much water at its limit out, whenever the coolant reaches "
                        "its limit; a kilogram takes up {} kJ and then warms; the last change as "
                        "much as the run still needs",
                        in_kilojoules_per_kilogram(ice_melting_heat)));
      sources({sr1, "iapws-r10-06"});
    }
    if (c.ice_ready) {
      found(
          "M_ready", "ice to have ready", in_kilograms(*c.ice_ready), "kg",
          "what the coolant takes with the strongest or the weakest heater, whichever is more, in "
          "whole pieces as they are weighed out");
    }
  }

  void energy(const RunPlan& plan) {
    chapter("Energy and cost");
    const bool gas = still_.heater.kind == HeaterKind::gas_burner;
    worked("E", gas ? "energy of the gas" : "energy from the socket",
           in_kilowatt_hours(plan.energy.plug), "kWh",
           "P / 1000 * s / 100" + by_mains() + " * t_stop / 60", balance);
    if (plan.energy.energy_cost) {
      asked("price_e", "price of energy", *recipe_.prices.energy_per_kwh, "per kWh",
            "prices.energy_per_kwh");
      worked("cost_e", "cost of energy", *plan.energy.energy_cost, currency(), "E * price_e",
             balance);
    }
    if (plan.energy.plant_cost) {
      asked("price_m", "price of the plant material", *recipe_.prices.plant_per_kg, "per kg",
            "prices.plant_per_kg");
      worked("cost_m", "cost of the charge", *plan.energy.plant_cost, currency(),
             "m / 1000 * price_m", balance);
    }
  }
  const char* currency() const { return recipe_.prices.currency.c_str(); }

  // --- ranges ------------------------------------------------------------------------------------

  template <class T, class Unit>
  void ranged(const char* symbol, const char* name, const Range<T>& range, Unit in_unit,
              const char* unit) {
    const Range<double> numbers{in_unit(range.low), in_unit(range.typical), in_unit(range.high)};
    add({symbol,
         name,
         {numbers.typical, unit},
         numbers,
         "",
         "median, 10th and 90th percentile over the samples",
         {}});
  }

  void ranges(const RunPlan& plan) {
    const Uncertainty& s = plan.uncertainty;
    chapter("Ranges");
    found("N", "samples", s.samples, "",
          "quasi-random, of the ranges of all figures above at once: each sample is a run worked "
          "out as above; a median need not be the run of typical figures");
    for_each_range(
        s, [&](const char*, const char* symbol, const char* name, const auto& range, auto in_unit,
               const char* unit) { ranged(symbol, name, range, in_unit, unit); });
    ranged("p_h", "hydrosol", s.hydrosol, in_millilitres, "mL");
    worked("p_h_per_kg", "hydrosol per charge",
           in_litres(s.hydrosol.typical) / in_kilograms(plan_.charge.mass), "L/kg", "p_h / m",
           balance);
    worked("p_h_fresh", "hydrosol per charge as fresh herb",
           in_litres(s.hydrosol.typical) / in_kilograms(plan_.charge.as_fresh), "L/kg",
           "p_h / m_fresh", balance);
    if (plan_.charge.runs > 1) {
      worked("p_h_all", "hydrosol of all runs",
             in_millilitres(s.hydrosol.typical) * plan_.charge.runs, "mL", "p_h * n", balance);
      worked("t_all", "all runs, with the heat on", in_minutes(plan.times.stop) * plan_.charge.runs,
             "min", "t_stop * n", balance);
    }
    ranged("p_conc", "oil in the hydrosol", s.dissolved_oil, in_milligrams_per_litre, "mg/L");
    ranged("p_oil", "oil in the charge", s.oil_in_charge, in_grams, "g");
    ranged("p_vap", "oil vaporised", s.oil_vaporised, in_grams, "g");
    ranged("p_diss", "oil dissolved", s.oil_dissolved, in_grams, "g");
    ranged("p_part", "oil parted", s.oil_in_receiver, in_grams, "g");
    ranged("p_rho", "density of the oil", s.oil_density, in_grams_per_millilitre, "g/mL");
    ranged("p_vol", "its volume", s.oil_volume, in_millilitres, "mL");
    ranged("p_share", "vaporised share of the oil in the charge", s.oil_share, in_percent, "%");
    if (s.chance_of_goal) {
      found("chance", "chance to meet the goal", in_percent(*s.chance_of_goal), "%",
            "share of the samples that meet it");
    }
    if (recipe_.confidence) {
      asked("conf", "how often it shall be met", in_percent(*recipe_.confidence), "%",
            "goal.confidence; charge, water and stop are sized for it");
      if (plan.allow) {
        found("t_allow", "by then the stop has come so often", in_minutes(*plan.allow), "min",
              "over the samples, without a time limit");
      }
    }
    chapter("Where the spread comes from");
    sensitivities("oil", "oil", s.oil_from);
    sensitivities("time", "time", s.time_from);
    sensitivities("alone", "time from the stop to the reserve", s.reserve_from);
  }

  void sensitivities(const std::string& symbol, const std::string& outcome,
                     const Sensitivities& sensitivities) {
    for (const Sensitivity& one : sensitivities) {
      found("s_" + symbol + "_" + to_string(one.parameter),
            outcome + ": " + in_words(one.parameter), in_percent(one.share), "%",
            "share of the variance that would go if it were known: correlation ratio over the "
            "samples, in sixteen classes of the input, less what chance would give; the ends "
            "beyond 5 and 95 % moved there");
    }
  }

  void sources(std::vector<std::string> keys) {
    chapters_.back().figures.back().evidence.sources = std::move(keys);
  }

  const Plan& plan_;
  const Recipe& recipe_;
  const Still& still_;
  const Tables& tables_;
  const DesignDefaults& defaults_;
  ModelParameters parameters_;
  Mass fill_;
  bool oil_density_said_ = false;
  std::vector<Chapter> chapters_;
};

}  // namespace

std::vector<Chapter> explain(const Plan& plan, const Tables& tables) {
  return Explanation(plan, tables).write();
}

const std::vector<PropertyFunction>& property_functions() {
  static const std::vector<PropertyFunction> functions = {
      {"saturation_temperature", "boiling point of water in °C at a pressure in kPa", if97},
      {"saturation_pressure", "vapour pressure of water in Pa at °C", if97},
      {"latent_heat", "of water in kJ/kg at °C", sr1},
      {"mean_specific_heat", "of water in kJ/(kg K) between two temperatures in °C", sr1},
      {"water_density", "in g/mL at °C", sr1},
      {"steam_density", "of saturated steam in kg/m3 at °C", sr1},
      {"steam_viscosity", "of saturated steam in Pa s at °C", viscosity},
  };
  return functions;
}

const std::vector<CitedEquation>& cited_equations() {
  static const std::vector<CitedEquation> equations = {
      {"boiling point and vapour pressure of water", if97},
      {"latent heat, heat capacity and density of water and steam", sr1},
      {"viscosity of steam", viscosity},
      {"heat that melts ice", "iapws-r10-06"},
      {"air pressure by altitude", atmosphere},
      {"balances of mass and heat, and their closed forms", balance},
      {"release of oil against time", release_form},
      {"how the flow of steam sets the pace of the release", flow_form},
      {"vapour pressures of oil over water", raoult},
      {"what water dissolves of an oil", solubility},
      {"pressure drop of the bed", ergun},
      {"heat and surface of the condenser", condensing},
  };
  return equations;
}

}  // namespace firstdrop
