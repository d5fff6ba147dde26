// The words of the enumerations that belong to a run.
#pragma once

#include "base/words.hpp"
#include "firstdrop/physics/course.hpp"

namespace firstdrop {

template <>
inline constexpr auto words_of<Phase> = std::to_array<Word<Phase>>({
    {Phase::warming, "warming", "until the pot boils"},
    {Phase::steaming, "steaming", "from then until the first drop"},
    {Phase::running, "running", "from the first drop on"},
});

template <>
inline constexpr auto words_of<StopRule> = std::to_array<Word<StopRule>>({
    {StopRule::hydrosol, "hydrosol", "the wanted hydrosol is in the receiver"},
    {StopRule::oil, "oil", "the wanted oil is in the receiver"},
    {StopRule::oil_share, "oil_share", "the wanted share of the oil has come over"},
    {StopRule::time, "time", "the wanted time, or the longest time allowed, is over"},
    {StopRule::oil_left, "oil_left", "the oil still in the charge isn't worth more water and time"},
    {StopRule::customary, "customary",
     "the receiver holds as much hydrosol as people usually take; nothing is known of the oil"},
    {StopRule::reserve, "reserve", "the pot is down to the water that must stay in it"},
    {StopRule::cooling, "cooling", "the coolant gets too warm"},
});

}  // namespace firstdrop
