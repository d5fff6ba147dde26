// The smallest tables that are whole, for tests of the readers: made-up figures, one entry each.
#pragma once

#include <algorithm>
#include <stdexcept>
#include <string>
#include <vector>

#include "firstdrop/base/error.hpp"
#include "firstdrop/readers/tables_json.hpp"

namespace small_tables {

inline std::string figure(const std::string& low, const std::string& typical,
                          const std::string& high, const std::string& unit) {
  return R"({"low": )" + low + R"(, "typical": )" + typical + R"(, "high": )" + high +
         R"(, "unit": ")" + unit +
         R"(", "basis": "made up", "source": "a-paper", "known": "read"})";
}
inline std::string exactly(const std::string& number, const std::string& unit) {
  return figure(number, number, number, unit);
}

/// The text with one part replaced; the part must be there.
inline std::string with(std::string text, const std::string& part, const std::string& instead) {
  const auto at = text.find(part);
  if (at == std::string::npos) throw std::logic_error("no such part: " + part);
  return text.replace(at, part.size(), instead);
}

inline const std::string sources =
    R"({"sources": 1, "entries": {"a-paper": {"citation": "A. Author, 1999, A paper, p. 1",)"
    R"( "link": "", "seen": "whole"}}})";

inline const std::string liquids =
    R"({"liquids": 1, "entries": {"linalool": {"name": "linalool", "cas": "78-70-6", "molar_mass": )" +
    exactly("154.25", "g/mol") +
    R"-(, "vapour_pressure": {"equation": "ln(P/Pa) = a - b/(T/K + c)", "a": 20.5,)-"
    R"( "b": "3266.765 K",)"
    R"( "c": "-68.039 K", "valid_from": "293 K", "valid_to": "429 K", "basis": "made up",)"
    R"( "source": "a-paper", "known": "computed"}}}})";

inline const std::string materials =
    R"({"materials": 1, "entries": {"steel": {"specific_heat": )" + exactly("0.5", "kJ/(kg K)") +
    R"(, "heat_loss": )" + figure("9", "11", "14", "W/(m2 K)") + R"(, "condensing": )" +
    figure("200", "400", "600", "W/(m2 K)") + R"(, "density": )" + exactly("7900", "kg/m3") +
    R"(, "wall": )" + figure("0.5", "1", "2", "mm") + "}}}";

inline std::string for_each(const std::vector<std::string>& keys, const std::string& value) {
  std::string text;
  for (const auto& key : keys) text += (text.empty() ? "{\"" : ", \"") + key + "\": " + value;
  return text + "}";
}

inline std::string still_defaults_text() {
  std::string text =
      R"({"fill_limit": )" + for_each({"steam", "water-and-steam", "hydro"}, exactly("70", "%"));
  for (const char* key : {"pot_height", "column_height"})
    text += ", \"" + std::string(key) + "\": " + exactly("100", "%");
  for (const char* key : {"head_surface", "coil_surface", "tube_cooled", "dome_surface"})
    text += ", \"" + std::string(key) + "\": " + figure("80", "90", "100", "%");
  return text + R"(, "water_over_base": )" + exactly("20", "mm") + R"(, "wall_film": )" +
         figure("0.05", "0.1", "0.2", "mm") + R"(, "outlet": )" + exactly("40", "°C") +
         R"(, "coolant_limit": )" + exactly("35", "°C") + R"(, "ice": )" + exactly("300", "g/L") +
         R"(, "tap": )" + figure("3", "5", "8", "L/min") + "}";
}

inline std::string design_defaults_text() {
  const std::string share = figure("10", "20", "30", "%");
  const std::string volume = figure("1", "2", "3", "L/kg");
  const std::vector<std::string> cuts = {"whole", "chopped", "crushed", "ground"};
  std::string text =
      R"({"design_defaults": 1, "heater_efficiency": )" +
      for_each(
          {"electric-plate", "induction-plate", "immersed-element", "gas-burner", "heating-mantle"},
          share) +
      R"(, "stored_heat": )" +
      for_each(
          {"electric-plate", "induction-plate", "immersed-element", "gas-burner", "heating-mantle"},
          figure("10", "20", "30", "s")) +
      R"(, "mains": )" + exactly("100", "%") + R"(, "dial_error": )" + exactly("0", "%") +
      R"(, "particle_size": )" + for_each(cuts, figure("1", "2", "3", "mm")) +
      R"(, "cut_density": )" + for_each(cuts, share) + R"(, "recovery": )" +
      for_each({"steam", "water-and-steam", "hydro"}, share) + R"(, "hydro_water": )" +
      for_each({"fresh", "wilted", "dried"}, volume) + R"(, "hydrosol_per_fresh": )" + volume +
      R"(, "hydrosol_per_dry_fruit": )" + volume + R"(, "hydro_wetting": )" + volume +
      R"(, "particle_density": )" + exactly("900", "g/L") + R"(, "dry_specific_heat": )" +
      exactly("1.5", "kJ/(kg K)") + R"(, "steam_per_charge": )" + figure("1", "2", "4", "1/h") +
      R"(, "approach": )" + exactly("5", "K") + R"(, "bath_loss": )" + exactly("10", "W/(m2 K)") +
      R"(, "circuit_share": )" + exactly("80", "%") + R"(, "socket_for_hours": )" +
      exactly("2.3", "kW") + R"(, "least_circuit": )" + exactly("1.44", "kW") +
      R"(, "still_reported": )" + exactly("2", "L");
  for (const char* key : {"stated_end",
                          "drying_retention",
                          "hydrosol_saturation",
                          "hold_up",
                          "film_hold_up",
                          "head_space",
                          "uncondensed_loss",
                          "reserve_share",
                          "fill_error",
                          "grid_clearance",
                          "own_accuracy",
                          "own_heat_accuracy",
                          "most_heat_room",
                          "own_oil_accuracy",
                          "between_plants",
                          "run_to_run_heat",
                          "oil_gain",
                          "fast_share",
                          "slow_rate",
                          "flow_on_fast",
                          "flow_on_slow",
                          "oil_left_per_hydrosol",
                          "oil_left_per_hour",
                          "mixing"})
    text += ", \"" + std::string(key) + "\": " + share;
  text += R"(, "hydrosol_oil": )" + figure("200", "300", "500", "mg/L");
  text +=
      R"(, "counts": {"most_runs": 24, "many_runs": 4, "most_receivers": 24, "basis": "made up",)"
      R"( "source": "a-paper", "known": "common-practice"})";
  for (const char* key : {"least_last_run", "least_fill", "lifting_pressure", "low_chance",
                          "little_oil", "thin_hydrosol", "much_dissolved", "much_heat_lost"})
    text += ", \"" + std::string(key) + "\": " + exactly("30", "%");
  for (const char* key : {"longest_run", "tiring_run", "long_distilling", "ice_interval",
                          "least_ice_interval", "ice_before_stop"})
    text += ", \"" + std::string(key) + "\": " + exactly("5", "min");
  for (const char* key : {"least_run", "hard_to_collect"})
    text += ", \"" + std::string(key) + "\": " + exactly("50", "mL");
  for (const char* key : {"least_difference", "near_freezing"})
    text += ", \"" + std::string(key) + "\": " + exactly("1", "K");
  text += R"(, "clear_of_flame": )" + exactly("1", "m");
  text += R"(, "still": )" + still_defaults_text();
  text += R"(, "readings": {"clock": "1 min", "jug": "1 %", "least_jug": "1 mL",)"
          R"( "jug_marks": "1 %", "meter": "1 %", "fill": "1 %", "scale": "1 g",)"
          R"( "scale_to": "1 kg", "large_scale": "1 g", "large_scale_to": "1 kg",)"
          R"( "farm_scale": "1 g", "basis": "made up", "source": "a-paper",)"
          R"( "known": "common-practice"})";
  text += R"(, "plausible": {"least_wall": "0.1 mm", "most_wall": "9 mm", "least_space": "1 %",)"
          R"( "most_space": "900 %", "least_head": "1 %", "most_head": "900 %",)"
          R"( "least_boil": "1 min", "most_boil": "10 h", "least_condenser": "1 %",)"
          R"( "most_condenser": "9000 %", "drop": "50 K", "least_warming": "1 min",)"
          R"( "most_warming": "10 h", "warming": "20 K", "least_film": "0.01 mm",)"
          R"( "most_film": "9 mm", "least_depth": "1 mm", "most_depth": "900 mm",)"
          R"( "least_tap": "0.1 L/min", "most_tap": "90 L/min", "basis": "made up",)"
          R"( "source": "a-paper", "known": "common-practice"})";
  return text + "}";
}
inline const std::string design_defaults = design_defaults_text();

inline const std::string forms =
    R"({"forms": 1, "entries": {"leafy-herb": {"states": {"dried": {"moisture": )" +
    figure("8", "11", "13", "%") + R"(, "bulk_density": {"chopped": )" +
    figure("70", "100", "150", "g/L") + "}}}}}}";

inline const std::string release_classes =
    R"({"release_classes": 1, "entries": {"surface-glands": {"note": "Herbs.", "release": {"hydro": )"
    R"({"half_life": )" +
    figure("15", "25", "50", "min") + "}}}}}";

/// The fields of a plant, without the braces.
inline const std::string plant_fields =
    R"("name": "Hedge herb", "latin": "Herba saepis", "part": "tops", "form": "leafy-herb",)"
    R"( "release_class": "surface-glands", "states": {"fresh": {"moisture": )" +
    figure("60", "70", "80", "%") + R"(, "bulk_density": {"chopped": )" +
    figure("120", "160", "200", "g/L") + R"(}, "oil_content": {"figure": )" +
    figure("0.5", "0.8", "1", "%") +
    R"(, "per": "as-received", "distilled": "to-stated-end"}}, "dried": {"moisture": )" +
    figure("8", "10", "12", "%") + R"(, "bulk_density": {"whole": )" +
    figure("60", "80", "100", "g/L") + R"(, "crushed": )" + figure("90", "110", "130", "g/L") +
    R"(}}}, "release": {"steam": {"half_life": )" + figure("8", "12", "20", "min") +
    R"(}}, "oil_density": )" + figure("0.88", "0.885", "0.89", "g/mL") +
    R"(, "constituents": {"linalool": )" + figure("25", "35", "45", "%") +
    R"(}, "hydrosol_oil": )" + figure("300", "500", "800", "mg/L") +
    R"(, "wants_cohobation": true, "hazards": [{"harms": [], "text": "It smells.", "basis": "made up",)"
    R"( "known": "common-practice"}])";
inline const std::string plants =
    R"({"plants": 1, "entries": {"hedge-herb": {)" + plant_fields + "}}}";

/// The fields of a still, without the braces.
inline const std::string still_fields =
    R"("title": "Test still", "about": "For tests.", "methods": ["steam", "hydro"],)"
    R"( "pot": {"material": "steel", "volume": )" +
    exactly("3", "L") + R"(, "diameter": )" + exactly("180", "mm") + R"(, "mass": )" +
    exactly("0.9", "kg") + R"(, "fill_limit": )" + exactly("70", "%") + R"(, "minimum_water": )" +
    exactly("0.3", "L") + R"(}, "column": {"material": "steel", "volume": )" + exactly("2", "L") +
    R"(, "diameter": )" + exactly("110", "mm") + R"(, "mass": )" + exactly("0.6", "kg") +
    R"(}, "head": {"material": "steel", "mass": )" + exactly("0.4", "kg") + R"(, "surface": )" +
    exactly("0.05", "m2") + R"(}, "heater": {"kind": "electric-plate", "power": )" +
    figure("0.95", "1", "1.05", "kW") +
    R"(}, "condenser": {"kind": "reservoir", "wall": "steel", "surface": )" +
    exactly("0.06", "m2") + R"(, "outlet": )" + exactly("30", "°C") + R"(, "coolant_limit": )" +
    exactly("40", "°C") + R"(, "coolant": )" + exactly("10", "L") + R"(, "ice_per_change": )" +
    exactly("2", "kg") + R"(}, "wall_hold_up": )" + exactly("20", "g");
inline const std::string stills = R"({"stills": 1, "entries": {"bench": {)" + still_fields + "}}}";

inline const std::string findings =
    R"({"findings": 1, "entries": {"steam-escapes": {"level": ["refuse"], "meaning": "Too little )"
    R"(surface.", "do": "Heat less.", "guidance": {"reason": "Steam scalds.", "follows": "A body", )"
    R"("basis": "made up", "source": "a-paper", "known": "read"}}, "open-path": )"
    R"({"level": ["note"], "meaning": "Always.", "do": "Keep it open.", )"
    R"("standing": true, "danger": false, "brief": "Open."}}})";

inline firstdrop::TableTexts texts() {
  return {sources,         liquids, materials, design_defaults, forms,
          release_classes, plants,  stills,    findings};
}
inline const firstdrop::Tables& tables() {
  static const firstdrop::Tables whole = firstdrop::read_tables(texts());
  return whole;
}

/// The faults that reading throws; none if it throws nothing.
template <class Read>
std::vector<firstdrop::Fault> faults_of(Read read) {
  try {
    read();
  } catch (const firstdrop::InputError& error) {
    return error.faults();
  }
  return {};
}

/// The one fault at this place, else an empty one.
inline firstdrop::Fault at(const std::vector<firstdrop::Fault>& faults,
                           const std::string& pointer) {
  const auto here = [&](const firstdrop::Fault& fault) { return fault.pointer == pointer; };
  if (std::count_if(faults.begin(), faults.end(), here) != 1) return {};
  return *std::find_if(faults.begin(), faults.end(), here);
}

}  // namespace small_tables
