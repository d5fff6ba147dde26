// Readers of plants and stills in JSON, for recipes and tables.
#pragma once

#include <array>

#include "firstdrop/tables/tables.hpp"
#include "json/json_reader.hpp"
#include "readers/fields.hpp"

namespace firstdrop {

inline constexpr std::array all_methods = {Method::steam, Method::water_and_steam, Method::hydro};
inline constexpr std::array all_states = {State::fresh, State::wilted, State::dried};
inline constexpr std::array all_cuts = {Cut::whole, Cut::chopped, Cut::crushed, Cut::ground};

/// Faults go to the value's context. If there are any, the result must not be used.
Plant plant_from(const json::Value& value, Form form, const Tables& tables);
Still still_from(const json::Value& value, Form form, const Tables& tables);

}  // namespace firstdrop
