/// @file
/// Oil against time: how it leaves the plant, what steam can carry, and where it ends up.
///
/// Times count from the first drop. Nothing is checked but what is said to be.
#pragma once

#include <optional>
#include <vector>

#include "firstdrop/liquid.hpp"
#include "firstdrop/quantity.hpp"

namespace firstdrop {

/// Release from the plant: R(t) = 1 - (1 - f) exp(-k t), t from first drop.
/// Form by S. Milojevic et al., Hem. Ind. 67 (2013) 843-859: washing plus diffusion for water
/// distillation, plain first order (f = 0) for steam.
struct Release {
  Fraction washed;  ///< f, released at once, 0 to below 1
  Rate rate;        ///< k > 0
};

/// k from the time that half of the unwashed oil takes: ln 2 / half-time.
/// Range: half-time above zero. Source: first order release, see Release.
Rate rate_of_half_time(Duration half_time);

/// Share released after `time`: from `washed` towards 1.
/// Range: time >= 0. Source: see Release.
Fraction released(const Release& release, Duration time);

/// Time until `share` is released; zero when it is washed off at once.
/// Range: share 0 to below 1: all of it takes for ever. Source: see Release.
Duration time_to_release(const Release& release, Fraction share);

/// A part of an oil, by mass.
struct OilPart {
  const Liquid* liquid = nullptr;  ///< must be set, and stay as long as the part is used
  Fraction mass_share;             ///< of the oil
};

/// Where steam and free oil boil together.
struct SteamBound {
  Temperature boiling;         ///< of the two liquids, below that of water alone
  Fraction oil_per_steam;      ///< kg oil per kg steam: the most that steam can carry
  Fraction share_covered;      ///< mass share of the oil whose vapour pressure is known here
  std::vector<OilPart> parts;  ///< those that count
};

/// P_water(T) + sum x_i P_i(T) = P for an ideal oil over water, and the mass ratio in the vapour.
/// Parts that do not add up to 1 are scaled up: the rest is taken to be like them.
/// Parts without a vapour-pressure equation, or whose equation does not hold from the common
/// boiling point up to that of water, are left out: nothing is extrapolated. None when nothing is
/// left, and where the two would boil below 1 °C.
/// Range: `ambient` that of saturation_temperature(), which throws RangeError.
/// Source: Raoult's law for the oil phase, Dalton's for the vapour; textbook examples are in
/// tests/reference/codistillation_test.cpp.
std::optional<SteamBound> steam_bound(Pressure ambient, const std::vector<OilPart>& parts);

/// What water can dissolve of an oil.
struct OilSolubility {
  Density dissolved;       ///< mass of oil per volume of water, at saturation
  Fraction share_covered;  ///< mass share of the oil whose solubility is known here
};

/// The sum of x_i S_i: each constituent dissolves by its mole share of the oil and the solubility
/// of the pure liquid. Parts without a solubility count as insoluble. Shares that do not add up to
/// 1 leave a rest, taken to weigh the same per mole as the others. None when no part has a
/// solubility.
/// Range: shares from 0. Source: Raoult's law for the oil phase; form as S. Banerjee, Environ. Sci.
/// Technol. 18 (1984) 587-591, from memory.
std::optional<OilSolubility> oil_solubility(const std::vector<OilPart>& parts);

/// Oil vaporised after `time`: what the plant has released, but never more than the steam so far
/// can have carried. Released oil that steam could not take yet waits in the charge. `steam_bound`
/// is the most oil per time that steam can carry; none: it does not count.
/// Range: time >= 0. Source: see Release and SteamBound.
Mass oil_vaporised(Mass recoverable, const Release& release, std::optional<MassFlow> steam_bound,
                   Duration time);

/// Time until `share` of the recoverable oil is vaporised; undoes oil_vaporised().
/// Range: share 0 to below 1, the bound above zero. Source: see oil_vaporised().
Duration time_to_vaporise(Mass recoverable, const Release& release,
                          std::optional<MassFlow> steam_bound, Fraction share);

/// Of the oil vaporised, the part that stays dissolved in this much hydrosol: as much as it can
/// hold, or all there is. The rest parts in the receiver; neither is ever below zero.
/// Range: none of the three below zero. Source: balance of the oil.
Mass oil_dissolved(Mass vaporised, Density solubility, Volume hydrosol);

}  // namespace firstdrop
