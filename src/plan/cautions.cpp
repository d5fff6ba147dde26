#include "plan/cautions.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "base/text_layout.hpp"
#include "model/parameter_sources.hpp"
#include "model/parameters_at.hpp"
#include "model/plant_parameters.hpp"
#include "physics/charge.hpp"
#include "plan/make_finding.hpp"
#include "quantity/numbers_text.hpp"

namespace firstdrop {
namespace {

// The thresholds below are common practice, no source, unless a source is named.
// Steam lifts a bed when the pressure drop equals the bed's weight per area. Half of that gets a
// caution.
constexpr Fraction lifting = percent(50);
constexpr Acceleration gravity = metres_per_second_squared(9.80665);
// More runs than this take days (common practice).
constexpr int many_runs = 4;
// Hydrosol counts as thin above this multiple of the highest published figure.
constexpr double far_beyond = 2.0;
constexpr Fraction much_dissolved = percent(30);  // of the oil vaporised
constexpr Volume hard_to_part = millilitres(0.5);
constexpr Duration long_run = minutes(120);
constexpr Fraction poor_odds = percent(45);
constexpr Fraction little_oil = percent(40);    // of the oil that can be had
constexpr Fraction nearly_empty = percent(15);  // of the column
constexpr Duration tiring = hours(4);
constexpr Length clear_of_flame = metres(1);
constexpr TemperatureDifference near_freezing = kelvins(5);

template <class T>
bool contains(const std::vector<T>& all, T one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

// The grave harms that a plant's oil can do, from the tags of its hazards.
class GraveHarms {
 public:
  explicit GraveHarms(const Plant& plant) {
    for (const Hazard& hazard : plant.hazards) add(hazard);
    for (const auto& [route, harms] : by_route_)
      for (const Harm harm : harms) unrouted_.erase(harm);
  }

  std::string warning() const {
    std::string words = fmt::format("This oil can cause {}. ", causes());
    if (!at_risk_.empty()) {
      std::vector<std::string> groups;
      for (const AtRisk group : at_risk_) groups.emplace_back(in_words(group));
      words += fmt::format("Most at risk: {}. ", in_a_row(groups, "and"));
    }
    if (by_route_.contains(Route::breathed) || harms_.contains(Harm::seizures)) {
      words += "Open a window. Keep infants, pets and anyone with epilepsy out of the room. ";
    }
    return words +
           "Lock the bottle away. If someone swallows it, call a poison centre at once; don't make "
           "them vomit.";
  }

 private:
  using Harms = std::set<Harm>;

  void add(const Hazard& hazard) {
    Harms grave;
    for (const Harm harm : hazard.harms)
      if (is_grave(harm)) grave.insert(harm);
    if (grave.empty()) return;
    harms_.insert(grave.begin(), grave.end());
    at_risk_.insert(hazard.at_risk.begin(), hazard.at_risk.end());
    if (hazard.routes.empty()) unrouted_.insert(grave.begin(), grave.end());
    for (const Route route : hazard.routes) by_route_[route].insert(grave.begin(), grave.end());
  }

  // "seizures or coma if swallowed, and seizures if breathed or put on the skin".
  std::string causes() const {
    std::vector<std::string> clauses;
    if (!unrouted_.empty()) clauses.push_back(listed(unrouted_));
    std::set<Harms> said;
    for (const auto& [first, harms] : by_route_) {
      if (!said.insert(harms).second) continue;
      std::vector<std::string> routes;
      for (const auto& [route, same] : by_route_)
        if (same == harms) routes.emplace_back(in_words(route));
      clauses.push_back(fmt::format("{} if {}", listed(harms), in_a_row(routes, "or")));
    }
    return joined(clauses, ", and ");
  }

  static std::string listed(const Harms& harms) {
    std::vector<std::string> words;
    for (const Harm harm : harms) {
      words.push_back(harm == Harm::poisoning ? "serious poisoning" : to_string(harm));
    }
    return in_a_row(words, "or");
  }

  static const char* in_words(Route route) {
    switch (route) {
      case Route::swallowed:
        return "swallowed";
      case Route::breathed:
        return "breathed";
      case Route::on_skin:
        return "put on the skin";
      case Route::in_eyes:
        break;
    }
    return "splashed into the eyes";
  }

  static const char* in_words(AtRisk group) {
    switch (group) {
      case AtRisk::infants:
        return "infants";
      case AtRisk::children:
        return "children";
      case AtRisk::pregnancy:
        return "pregnant women";
      case AtRisk::epilepsy:
        return "people with epilepsy";
      case AtRisk::allergic:
        return "people with allergies";
      case AtRisk::pets:
        break;
    }
    return "pets";
  }

  Harms harms_;                      // all grave harms
  Harms unrouted_;                   // those without a route
  std::map<Route, Harms> by_route_;  // the others, by route
  std::set<AtRisk> at_risk_;
};

class Cautions {
 public:
  Cautions(Plan& plan, const ModelParameters& parameters, const Tables& tables,
           std::optional<Temperature> coldest_coolant, Detail detail)
      : detail_(detail),
        plan_(plan),
        parameters_(parameters),
        tables_(tables),
        defaults_(tables.design_defaults),
        coldest_coolant_(coldest_coolant) {}

  void add_all() {
    about_charge();
    about_figures();
    if (plan_.run && !refused()) {
      about_run(*plan_.run);
      about_receiver(*plan_.run);
    }
    about_still();
    about_circuit();
    about_oil();
    if (brief()) return;
    of_every_run();
    for (Finding& finding : plan_.findings) guide(finding);
  }

 private:
  bool brief() const { return detail_ == Detail::brief; }

  // A refused run needs no findings about its course and yields.
  bool refused() const {
    return std::any_of(plan_.findings.begin(), plan_.findings.end(),
                       [](const Finding& finding) { return finding.level == Level::refuse; });
  }

  // `words` is the text, or a function that makes it. It isn't called where nobody will read the
  // text.
  template <class Words>
  void add(Level level, FindingCode code, const Words& words,
           const std::optional<Amount>& value = {}, const std::optional<Amount>& limit = {}) {
    if (brief() && level == Level::note) return;
    if (plan_.findings.empty()) plan_.findings.reserve(4);  // there are seldom more in brief
    plan_.findings.push_back(finding_with_words(detail_, level, code, words, value, limit));
  }
  template <class Words>
  void note(FindingCode code, const Words& words) {
    add(Level::note, code, words);
  }

  // In the units of the recipe.
  template <class Quantity>
  std::string text(Quantity quantity) const {
    return firstdrop::text(quantity, parameters_.recipe.units);
  }

  // Adds the reason, and the body whose guidance it follows, from the table of findings.
  void guide(Finding& finding) {
    const auto kind = tables_.findings.find(finding.code);
    if (kind == tables_.findings.end()) return;
    finding.standing = kind->second.standing;
    finding.danger = kind->second.danger;
    finding.brief = kind->second.brief;
    const auto& guidance = kind->second.guidance;
    if (!guidance) return;
    finding.reason = guidance->reason;
    finding.follows = guidance->follows;
    use(guidance->evidence);
  }

  void of_every_run() {
    const bool gas = parameters_.recipe.still->heater.kind == HeaterKind::gas_burner;
    static constexpr std::array<FindingCode, 10> codes = {
        "steam-scalds", "open-path",        "suck-back",       "stay-with-it", "after-heat-off",
        "ran-dry",      "air-and-distance", "wet-electricity", "neat-oil",     "local-rules"};
    for (const FindingCode code : codes) {
      if (gas && code.text() == "wet-electricity") continue;
      const auto kind = tables_.findings.find(std::string(code.text()));
      if (kind != tables_.findings.end()) note(code, kind->second.what_to_do);
    }
  }

  void about_charge() {
    const Recipe& recipe = parameters_.recipe;
    const ChargePlan& charge = plan_.charge;
    const bool in_water = recipe.method_used() == Method::hydro;
    if (charge.runs > 1) {
      const auto all = [&] {
        std::string words = fmt::format(
            "{}The harvest of {} takes {} runs of {} each. All amounts are for one run.",
            other_unit(charge.harvest, charge.mass / charge.fill, recipe.units),
            text(charge.harvest), charge.runs, text(charge.mass));
        if (plan_.run) {
          words += fmt::format(" All of them: {} of hydrosol, {} with the heat on.",
                               text(plan_.run->uncertainty.hydrosol.typical * double(charge.runs)),
                               text(plan_.run->times.stop * double(charge.runs)));
        }
        return words;
      };
      add(charge.runs > many_runs ? Level::caution : Level::note, "several-runs", all);
    }
    if (charge.rest > grams(0)) {
      note("charge-left-over", [&] {
        return fmt::format(
            "{} is {} more than fills the still, too little for a run of its own.{} Keep the rest "
            "for the next batch, or freeze it. Never press the charge down to make it fit.",
            text(charge.harvest + charge.rest), text(charge.rest),
            charge.most >= charge.mass + charge.rest / charge.runs
                ? " Add it if it goes in loosely."
                : "");
      });
    }
    if (recipe.cut == Cut::ground && !in_water) {
      add(Level::caution, "ground-channels",
          "Ground material packs tight: steam breaks a channel through it or blows it into the "
          "vapour path and may block it. Use a coarser cut, or the charge in water.");
    }
    if (!in_water && charge.fill < nearly_empty) {
      add(
          Level::caution, "column-nearly-empty",
          [&] {
            return fmt::format(
                "{}{} fill only {} of the space: nearly all that comes over is plain water. Take "
                "more herb or a smaller still.",
                other_unit(charge.harvest, charge.mass / charge.fill, recipe.units),
                text(charge.mass), text(charge.fill));
          },
          Amount{in_percent(charge.fill), "%"}, Amount{in_percent(nearly_empty), "%"});
    }
    if (!in_water && !brief()) {
      const SamplePoint loosest = SamplePoint::medians().set(Parameter::bulk_density, 0.1);
      const Mass fits = charge_capacity(parameters_, defaults_, loosest);
      if (charge.mass > fits * 1.0001 && !recipe.own.bulk_density) {
        note("bulk-density-guess", [&] {
          return fmt::format(
              "How much herb fits is the weakest figure here: from {} to {}. Weigh what "
              "fills the {} once and put it into the recipe's own.bulk_density. Never "
              "press the charge down to make it fit.",
              text(fits),
              text(charge_capacity(parameters_, defaults_,
                                   SamplePoint::medians().set(Parameter::bulk_density, 0.9))),
              recipe.method_used() == Method::steam ? "column" : "space over the grid");
        });
      }
    }
  }

  void about_figures() {
    if (const auto own = replaced_figures(parameters_.recipe.own); !brief() && !own.empty()) {
      note("own-figures", [&] {
        return fmt::format("Your own figures, used instead of those of the tables: {}.",
                           joined(own, ", "));
      });
    }
    // Over a grid the charge meets steam as it does in a column. In water everything is different.
    const bool borrowed = (parameters_.selected->release_method == Method::hydro) !=
                          (parameters_.recipe.method_used() == Method::hydro);
    if (borrowed) {
      add(Level::caution, "method-without-figures", [&] {
        return fmt::format(
            "There are no published figures for running this plant {}: take the oil as a "
            "guess.",
            in_words(parameters_.recipe.method_used()));
      });
    }
    if (!parameters_.recipe.plant->note.empty()) note("plant-note", parameters_.recipe.plant->note);
    if (brief()) return;
    about_method();
    if (!parameters_.selected->defaults_used.empty()) {
      note("default-figures", [&] {
        return fmt::format("No figure of its own, so another stands in: {}.",
                           joined(parameters_.selected->defaults_used, ", "));
      });
    }
  }

  void about_method() {
    const auto& best = parameters_.recipe.plant->best_method;
    if (!best || best->method == parameters_.recipe.method_used()) return;
    note("method-not-usual", [&] {
      return fmt::format("The way found best for this plant is {}. {}", in_words(best->method),
                         best->why);
    });
    use(best->evidence);
  }

  void use(const Evidence& evidence) {
    if (brief()) return;
    plan_.sources.insert(evidence.sources.begin(), evidence.sources.end());
  }

  // When others stop, from the literature. The plan's own stop is given beside it.
  void about_usual_cut(const RunPlan& run) {
    const auto& cut = parameters_.recipe.plant->usual_cut;
    if (!cut) return;
    std::string words = cut->sign + " (That is how others stop, and never a reason to stop later";
    if (cut->time) {
      const Range<Duration>& time = cut->time->range;
      words +=
          fmt::format("; published runs take {} to {}, this plan stops {} after its first drop",
                      text(time.low), text(time.high), text(run.times.stop - run.times.first_drop));
    }
    note("usual-cut", [&] { return words + ".)"; });
    use(cut->evidence);
  }

  void about_run(const RunPlan& run) {
    const Recipe& recipe = parameters_.recipe;
    if (run.stop_criterion == StopRule::time && !std::holds_alternative<TimeGoal>(recipe.goal)) {
      add(Level::caution, "time-limit-first", [&] {
        return fmt::format("The time limit of {} ends the run first, with {} of hydrosol.",
                           text(*recipe.limits.time), text(run.uncertainty.hydrosol.typical));
      });
    }
    const auto* time = std::get_if<TimeGoal>(&recipe.goal);
    if (time && *run.stop.clock < time->time) {
      add(Level::caution, "time-limit-first", [&] {
        return fmt::format("The time limit of {} ends the run before the {} that are its goal.",
                           text(*run.stop.clock), text(time->time));
      });
    }
    if (run.stop_criterion == StopRule::reserve) {
      const bool early = run.nominal.oil_over < little_oil;
      add(early ? Level::caution : Level::note, "water-ends-run", [&] {
        return fmt::format(
            "The pot's water ends this run with {} of the oil over: another quarter hour "
            "would bring {} of hydrosol and {} oil, but with the heater at its strongest, "
            "and you late, there would be no water for it.",
            text(run.uncertainty.oil_share.typical), text(run.more.hydrosol),
            run.more.oil < grams(0.005) ? "no more" : text(run.more.oil) + " of");
      });
    }
    if (run.stop_criterion == StopRule::cooling) {
      add(Level::caution, "coolant-ends-run", [&] {
        return fmt::format(
            "The coolant gets too warm at {} and ends this run. With ice it could go on.",
            text(run.times.stop));
      });
    }
    if (run.uncertainty.chance_of_goal && *run.uncertainty.chance_of_goal < poor_odds) {
      add(
          Level::caution, "goal-uncertain",
          [&] {
            return fmt::format(
                "The chance to meet the goal is only {}. Ask for less, or allow more herb, water "
                "or time.",
                text(*run.uncertainty.chance_of_goal));
          },
          Amount{in_percent(*run.uncertainty.chance_of_goal), "%"},
          Amount{in_percent(poor_odds), "%"});
    }
    if (run.uncertainty.first_drop.high > run.times.stop) {
      add(Level::caution, "may-give-nothing", [&] {
        return fmt::format(
            "With a weak heater the first drop comes as late as {}, after this stop. Allow "
            "more time.",
            text(run.uncertainty.first_drop.high));
      });
    }
    if (run.times.stop > tiring) {
      add(Level::caution, "long-run", [&] {
        return fmt::format(
            "This run needs someone beside it for {}. More heat, less hydrosol or a smaller "
            "charge shortens it.",
            text(run.times.stop));
      });
    }
    if (recipe.method_used() == Method::hydro) {
      note("hydro-scorch",
           "Herb in water foams up at first and scorches at the bottom when the water gets low. "
           "Stir, "
           "close, then heat; turn down when it foams, and watch the level. Turned down, the run "
           "takes "
           "longer, but the limits stay as they are.");
    }
    if (recipe.method_used() == Method::hydro && recipe.water) {
      const Volume covered = plan_.charge.mass * defaults_.hydro_water.at(recipe.state).range.low;
      if (run.water.first_fill < covered) {
        add(
            Level::caution, "charge-not-covered",
            [&] {
              return fmt::format(
                  "{} of water is little for {} of charge: published runs use at least {}.",
                  text(run.water.first_fill), text(plan_.charge.mass), text(covered));
            },
            Amount{in_millilitres(run.water.first_fill), "mL"},
            Amount{in_millilitres(covered), "mL"});
      }
    }
    const Pressure blocking = bed_weight() * lifting;
    if (run.rates.bed_pressure_drop && *run.rates.bed_pressure_drop > blocking) {
      add(
          Level::caution, "bed-blocks",
          [&] {
            return fmt::format(
                "Steam needs {} to pass this bed, which weighs {}: it may lift, channel or "
                "block. Pack "
                "looser, cut coarser, or heat less.",
                text(*run.rates.bed_pressure_drop), text(bed_weight()));
          },
          Amount{in_pascals(*run.rates.bed_pressure_drop), "Pa"},
          Amount{in_pascals(blocking), "Pa"});
    }
    if (brief()) return;  // only notes follow
    about_usual_cut(run);
    if (run.water.uncondensed > litres(0)) {
      const Range<Volume>& uncondensed = run.uncertainty.uncondensed;
      note("vapour-in-the-room", [&] {
        return fmt::format(
            "About {} of the water ({} to {}) leaves as vapour that the condenser does "
            "not catch: air the room. If more shows at the outlet: heat off first.",
            text(uncondensed.typical), text(uncondensed.low), text(uncondensed.high));
      });
    }
    about_strength(run);
    about_oil_of_run(run);
    if (run.rates.heat_lost > run.rates.heat_into_pot * 0.5) {
      note("much-heat-lost", [&] {
        return fmt::format(
            "{} of the {} that reach the pot are lost to the room. Lagging pot and column "
            "would bring more steam.",
            text(run.rates.heat_lost), text(run.rates.heat_into_pot));
      });
    }
  }

  Pressure bed_weight() const {
    return plan_.charge.mass * gravity /
           bed_area(parameters_.recipe.still, parameters_.recipe.method_used());
  }

  // For more hydrosol than far_beyond times the high end of published runs.
  void about_strength(const RunPlan& run) {
    const Volume drawn = run.uncertainty.hydrosol.typical;
    const Range<SpecificVolume>& customary = parameters_.selected->customary_hydrosol.range;
    const Mass charge = plan_.charge.mass;
    if (drawn <= charge * customary.high * far_beyond) return;
    add(
        Level::note, "hydrosol-thin",
        [&] {
          const std::string converted =
              plan_.charge.as_fresh == charge
                  ? std::string()
                  : ", converted from fresh to " + to_string(parameters_.recipe.state) + " herb";
          return fmt::format(
              "{} from {} is {}, far more than published hydrosols have ({} to {}{}). Most of the "
              "oil comes early, so later hydrosol is weaker. For a strong one, stop at {} ({}) or "
              "load more herb.",
              text(drawn), text(charge), text(drawn / charge), text(customary.low),
              text(customary.high), converted, text(charge * customary.high), text(customary.high));
        },
        Amount{in_litres_per_kilogram(drawn / charge), "L/kg"},
        Amount{in_litres_per_kilogram(customary.high * far_beyond), "L/kg"});
  }

  void about_oil_of_run(const RunPlan& run) {
    const Uncertainty& s = run.uncertainty;
    const Mass over = s.oil_vaporised.typical;
    const Mass lost = s.oil_dissolved.typical;
    if (s.oil_volume.high < a_drop_of_oil) {
      note("oil-all-in-hydrosol", [&] {
        return fmt::format("All the oil that comes over ({}) stays in the hydrosol; none parts.",
                           text(over));
      });
      return;
    }
    if (over > grams(0) && lost > over * much_dissolved) {
      add(
          Level::note, "oil-stays-in-hydrosol",
          [&] {
            return fmt::format(
                "Of {} of oil that come over, about {} stay dissolved in {} of hydrosol: a "
                "fragrant hydrosol, little oil on it. Less hydrosol or more herb leaves more.",
                text(over), text(lost), text(s.hydrosol.typical));
          },
          Amount{100.0 * (lost / over), "%"}, Amount{in_percent(much_dissolved), "%"});
    }
    if (s.oil_volume.typical < hard_to_part) {
      note("oil-hard-to-part", [&] {
        return s.oil_volume.typical < a_drop_of_oil
                   ? std::string("Hardly any oil parts, a film at most: keep it in the hydrosol.")
                   : fmt::format(
                         "About {} of oil is a film or a few drops: use a narrow receiver or a "
                         "pipette, or keep it in the hydrosol.",
                         text(s.oil_volume.typical));
      });
    }
    if (!run.codistillation_limit_known) {
      note("steam-bound-unknown",
           "How much of this oil steam can carry is not known here (too few vapour pressures), so "
           "its pace is that of the plant alone.");
    }
    if (parameters_.codistillation) {
      const std::string left_out = codistillation_limit_left_out(parameters_.recipe.plant, tables_,
                                                                 *parameters_.codistillation);
      if (!left_out.empty()) {
        note(
            "steam-bound-partial",
            fmt::format("What steam can carry is worked out from {:.0f} % of this oil and taken to "
                        "hold for the rest: {}.",
                        in_percent(parameters_.codistillation->share_covered), left_out));
      }
    }
    if (run.codistillation_limit_until) {
      note("steam-sets-the-pace", [&] {
        return fmt::format(
            "Until {} steam is full of oil vapour and sets the pace; after that the "
            "plant does.",
            text(*run.codistillation_limit_until));
      });
    }
    if (run.times.stop - run.times.first_drop > long_run) {
      note("curve-only-rises",
           "The oil curve cannot fall, but real yields can: in one study lemongrass and palmarosa "
           "gave 25 to 40 % less after 240 min than at 20 to 160 min.");
      plan_.sources.insert("cannon-2013");
    }
  }

  void about_receiver(const RunPlan& run) {
    const auto& receiver = parameters_.recipe.receiver;
    if (!receiver || !run.receiver_changes.empty()) return;
    const double full = std::ceil(run.water.distilled / *receiver - 1e-9) - 1.0;
    if (full <= most_receiver_changes) return;
    add(
        Level::caution, "receiver-small",
        [&] {
          return fmt::format(
              "A receiver of {} is full {:.0f} times, every {:.1f} min: use a larger one.",
              text(*receiver), full, in_minutes(*receiver / run.rates.distillate));
        },
        Amount{full, "times"}, Amount{double(most_receiver_changes), "times"});
  }

  void about_still() {
    const Recipe& recipe = parameters_.recipe;
    const Still& still = recipe.still;
    if (still.heater.kind == HeaterKind::gas_burner) {
      if (recipe.site.place == Place::indoors) {
        add(Level::caution, "gas-indoors",
            "Gas burns indoors and can make carbon monoxide: run it outdoors (site.place), or only "
            "with a burner made for indoors, under a hood that leads outside, with a carbon "
            "monoxide alarm in the room. If it sounds or heads ache: flame off, everyone out.");
      }
      const auto& flash = recipe.plant->flash_point;
      note("open-flame", [&] {
        return fmt::format(
            "A flame burns under the still{}: receiver well away from it and lower, a "
            "screen between, {} clear all round, hose and regulator tried for leaks.",
            flash ? ", and this oil takes fire from about " + text(flash->typical())
                  : std::string(),
            text(clear_of_flame));
      });
    }
    if (still.pot.material == "glass" && still.heater.kind != HeaterKind::immersed_element) {
      note(
          "glass-over-heat",
          "Glass stands over heat: borosilicate only, looked over for stars, cracks and scratches, "
          "on a plate as wide as its base or a gauze, never dry, no cold water on it. Wear eye "
          "protection.");
    }
    if (still.heater.kind == HeaterKind::immersed_element) {
      note("element-covered", [&] {
        return fmt::format("The element must stay under water: never below {}.",
                           text(still.pot.minimum_water.typical()));
      });
    }
  }

  // What the heater's socket must carry.
  void about_circuit() {
    const Recipe& recipe = parameters_.recipe;
    if (recipe.still->heater.kind == HeaterKind::gas_burner) return;
    // A heater that is turned down switches on and off, so it still draws its full power.
    const Power draws = recipe.still->heater.power.range.most();
    const Amount value{in_watts(draws), "W"};
    if (const auto circuit = recipe.site.circuit()) {
      const Power bears = circuit->most() * defaults_.circuit_share.typical();
      const auto of_circuit = [&] {
        return fmt::format("{:.0f} V and {:.0f} A, {}", in_volts(circuit->mains),
                           in_amperes(circuit->breaker), text(circuit->most()));
      };
      if (draws > circuit->most()) {
        add(
            Level::refuse, "circuit-overloaded",
            [&] {
              return fmt::format("The heater draws {}, more than the circuit has ({}).",
                                 text(draws), of_circuit());
            },
            value, Amount{in_watts(circuit->most()), "W"});
      } else if (draws > bears) {
        add(
            Level::caution, "circuit-near-limit",
            [&] {
              return fmt::format(
                  "The heater draws {}, more than {} of the circuit ({}): nothing else on "
                  "it, straight into the wall, and feel plug and socket now and then.",
                  text(draws), text(defaults_.circuit_share.typical()), of_circuit());
            },
            value, Amount{in_watts(bears), "W"});
        use(defaults_.circuit_share.evidence);
      }
      return;
    }
    const Power socket = defaults_.socket_for_hours.typical();
    const Power least = defaults_.least_circuit.typical();
    if (draws > socket) {
      add(
          Level::caution, "circuit-near-limit",
          [&] {
            return fmt::format(
                "The heater draws {}, more than a household socket should carry for hours "
                "({}): nothing else on its circuit, straight into the wall, and feel plug "
                "and socket now and then. Say your circuit in site.mains and site.circuit.",
                text(draws), text(socket));
          },
          value, Amount{in_watts(socket), "W"});
      use(defaults_.socket_for_hours.evidence);
    } else if (draws > least) {
      add(
          Level::note, "circuit-check",
          [&] {
            return fmt::format(
                "The heater draws {}; the smallest common household circuit (120 V, 15 A) "
                "carries {} for hours. Look at the breaker, and say your circuit in "
                "site.mains and site.circuit.",
                text(draws), text(least));
          },
          value, Amount{in_watts(least), "W"});
      use(defaults_.least_circuit.evidence);
    }
  }

  void about_oil() {
    const Plant& plant = parameters_.recipe.plant;
    about_poisons(plant);
    if (!brief()) {
      about_food_law(plant);
      about_hazards(plant);
    }
    const OilPlace place = oil_place(plant);
    if (place == OilPlace::sinks) {
      note("oil-sinks",
           "This oil is heavier than water: it gathers at the bottom of the receiver.");
    } else if (place == OilPlace::near_water) {
      note("oil-near-water",
           "This oil is about as heavy as water: it may float, sink or hang in it. Look at both "
           "ends "
           "of the receiver and give it time to part.");
    }
    const Temperature coldest = coldest_coolant_.value_or(parameters_.coolant);
    const bool parts = plan_.run && plan_.run->uncertainty.oil_volume.high >= a_drop_of_oil;
    if (plant.oil_freezes && parts && coldest < plant.oil_freezes->range.high + near_freezing) {
      const Condenser& condenser = parameters_.recipe.still->condenser;
      add(Level::caution, "oil-freezes", [&] {
        return fmt::format(
            "This oil can set solid near {}, and the coolant is as cold as {}: it may block "
            "the condenser. Keep the coolant warmer{}, and watch that distillate keeps "
            "coming.",
            text(plant.oil_freezes->range.typical), text(coldest),
            condenser.kind == CondenserKind::run_through ? "" : ", with water instead of ice");
      });
    }
    about_fire(plant);
    if (brief()) return;  // only notes follow
    if (plant.wants_cohobation) {
      std::string words = "Much of this oil stays in the first water";
      if (plan_.run && plan_.run->uncertainty.oil_vaporised.typical > grams(0)) {
        words += fmt::format(" ({} of the {} that come over)",
                             text(plan_.run->uncertainty.oil_dissolved.typical),
                             text(plan_.run->uncertainty.oil_vaporised.typical));
      }
      note("wants-cohobation", [&] {
        return words +
               ". To win it, that water goes back into the cold pot for "
               "another run; this plan ends with the first water.";
      });
    }
    note("hydrosol-storage",
         "Hydrosol spoils: clean, hot-rinsed bottles filled to the neck and dated, at 5 °C (41 °F) "
         "or below "
         "and dark. Use it within weeks or preserve it; away with it when cloudy, stringy or sour. "
         "Never in eyes, on wounds or on infants.");
    about_size();
  }

  void about_hazards(const Plant& plant) {
    for (const Hazard& hazard : plant.hazards) {
      note("plant-hazard", hazard.text);
      plan_.findings.back().follows = hazard.evidence.basis;
      use(hazard.evidence);
    }
  }

  void about_poisons(const Plant& plant) {
    const bool grave =
        std::any_of(plant.hazards.begin(), plant.hazards.end(), [](const Hazard& hazard) {
          return std::any_of(hazard.harms.begin(), hazard.harms.end(), is_grave);
        });
    if (grave) note("toxic-oil", [&] { return GraveHarms(plant).warning(); });
  }

  // Says what may be sold as food. It doesn't say whether anything is safe to swallow.
  void about_food_law(const Plant& plant) {
    std::set<std::string> regulated;
    for (const Hazard& hazard : plant.hazards) {
      for (const HarmfulSubstance substance : hazard.substances)
        if (regulated_in_food(substance)) regulated.insert(to_string(substance));
    }
    if (regulated.empty()) return;
    note("regulated-substance", [&] {
      return fmt::format(
          "This oil holds {}. European law forbids adding {} to food as such, and limits how much "
          "some foods may hold. If you sell oil or hydrosol as food or flavouring, ask the food "
          "authority first.",
          in_a_row({regulated.begin(), regulated.end()}, "and"),
          regulated.size() == 1 ? "this substance" : "these substances");
    });
  }

  void about_fire(const Plant& plant) {
    if (!plant.flash_point) return;
    const Temperature flash = plant.flash_point->typical();
    const bool said =
        std::any_of(plant.hazards.begin(), plant.hazards.end(),
                    [](const Hazard& hazard) { return contains(hazard.harms, Harm::fire); });
    if (plan_.run && plan_.run->cooling.distillate && *plan_.run->cooling.distillate >= flash) {
      const Temperature warm = *plan_.run->cooling.distillate;
      add(
          Level::caution, "oil-at-flash-point",
          [&] {
            return fmt::format(
                "The distillate may leave at {}, and the oil takes fire from about {}: "
                "colder coolant, and no flame, glowing coil or bare switch near outlet and "
                "receiver.",
                text(warm), text(flash));
          },
          Amount{in_celsius(warm), "°C"}, Amount{in_celsius(flash), "°C"});
    } else if (!said) {
      note("flash-point", [&] {
        return fmt::format(
            "The oil's flash point is about {}: keep flames and sparks "
            "away from the receiver.",
            text(flash));
      });
    }
  }

  void about_size() {
    const Volume pot = parameters_.recipe.still->pot.volume.typical();
    const Volume reported = defaults_.still_reported.typical();
    if (pot <= reported) return;
    add(
        Level::note, "still-size-rules",
        [&] {
          return fmt::format(
              "The pot holds {}. Germany wants every still above {} reported, the USA look at "
              "those above a gallon, and other places have other rules: ask customs or the "
              "excise office. No alcohol in the still.",
              text(pot), text(reported));
        },
        Amount{in_litres(pot), "L"}, Amount{in_litres(reported), "L"});
    use(defaults_.still_reported.evidence);
  }

  Detail detail_;
  Plan& plan_;
  const ModelParameters& parameters_;
  const Tables& tables_;
  const DesignDefaults& defaults_;
  std::optional<Temperature> coldest_coolant_;
};

}  // namespace

void add_cautions(Plan& plan, const ModelParameters& parameters, const Tables& tables,
                  std::optional<Temperature> coldest_coolant, Detail detail) {
  Cautions(plan, parameters, tables, coldest_coolant, detail).add_all();
}

}  // namespace firstdrop
