// The words of the enumerations that belong to a plan.
#pragma once

#include "base/words.hpp"
#include "firstdrop/plan/plan.hpp"

namespace firstdrop {

template <>
inline constexpr auto words_of<Verdict> = std::to_array<Word<Verdict>>({
    {Verdict::go, "go", "it can be run"},
    {Verdict::caution, "caution", "it can be run; read the findings first"},
    {Verdict::refused, "refused", "it must not or can't be run as written"},
});

}  // namespace firstdrop
