// The words of the enumerations that belong to quantities and their sources.
#pragma once

#include "base/words.hpp"
#include "firstdrop/quantity/source.hpp"
#include "firstdrop/quantity/units.hpp"

namespace firstdrop {

template <>
inline constexpr auto words_of<Known> = std::to_array<Word<Known>>({
    {Known::measured, "measured", "by you, on this bench"},
    {Known::read, "read", "in the named source"},
    {Known::computed, "computed", "from figures of the named source"},
    {Known::common_practice, "common-practice", "a rule of the trade, no source"},
    {Known::from_memory, "from-memory", "remembered, not looked up"},
    {Known::default_value, "default", "nobody has measured it, so a default takes its place"},
    {Known::own_invention, "own-invention", "made up"},
});

template <>
inline constexpr auto words_of<Units> = std::to_array<Word<Units>>({
    {Units::metric, "metric", "g, kg, mL, L, °C"},
    {Units::us, "us", "oz, lb, fl oz, qt, gal, °F"},
});
template <>
inline constexpr const char* name_of_words<Units> = "units";

}  // namespace firstdrop
