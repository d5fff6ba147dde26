// The words of the enumerations that belong to what is learned.
#pragma once

#include "base/words.hpp"
#include "learning/water_run.hpp"

namespace firstdrop {

template <>
inline constexpr auto words_of<EntryOf> = std::to_array<Word<EntryOf>>({
    {EntryOf::boil, "boil", "when the water boiled"},
    {EntryOf::first_drop, "first-drop", "when the first drop fell"},
    {EntryOf::caught, "caught", "a level of the jug"},
    {EntryOf::left, "left", "water left in the pot"},
    {EntryOf::energy, "energy", "what an energy meter showed"},
});

}  // namespace firstdrop
