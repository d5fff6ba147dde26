// The words of the enumerations that recipes hold.
#pragma once

#include "base/words.hpp"
#include "firstdrop/readers/recipe.hpp"

namespace firstdrop {

template <>
inline constexpr auto words_of<Place> = std::to_array<Word<Place>>({
    {Place::indoors, "indoors", "in a room, which must be ventilated"},
    {Place::outdoors, "outdoors", "in the open air"},
});

}  // namespace firstdrop
