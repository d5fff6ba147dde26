/// @file
/// Oil against time: how it leaves the plant, what steam can carry, and where it ends up.
///
/// Times count from the first drop. Nothing is checked but what is said to be.
#pragma once

#include <optional>
#include <vector>

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/tables/liquid.hpp"

namespace firstdrop {

/// Release from the plant in two stages: R(t) = f (1 - exp(-k1 t)) + (1 - f) (1 - exp(-k2 t)), t
/// from first drop. The fast share lies on or near the surface and is washed off; the rest has to
/// diffuse out. f = 0 is first order. Form by S. Milojevic et al., Hem. Ind. 67 (2013) 843-859. In
/// theirs the fast share comes out instantly. Here it takes time, because that fits published
/// curves better (data/evidence/README.md).
struct Release {
  Fraction fast;   ///< f, 0 to 1
  Rate fast_rate;  ///< k1, above zero
  Rate slow_rate;  ///< k2, above zero
};

/// The release that reaches one half after `half_life`. Its slow rate is `slow_rate` times its fast
/// rate.
/// Range: fast 0 to 1; slow_rate above 0, to 1; half-life above zero. Source: see Release.
Release release_of_half_life(Duration half_life, Fraction fast, Fraction slow_rate);

/// How far each stage has come: the integral of k dt. With constant heat k t; where heat changes,
/// the sum over the stretches between changes.
struct ReleaseProgress {
  double fast = 0.0;  ///< of the fast stage, from 0
  double slow = 0.0;  ///< of the slow stage, from 0
};

/// After `time` at constant rates.
/// Range: time >= 0. Source: see ReleaseProgress.
ReleaseProgress progress_after(const Release& release, Duration time);

/// Share released, from 0 towards 1.
/// Range: fast 0 to 1. Source: see Release.
Fraction released(Fraction fast, const ReleaseProgress& progress);

/// The same after `time` at constant rates.
/// Range: time >= 0. Source: see Release.
Fraction released(const Release& release, Duration time);

/// Time until `share` is released.
/// Range: share 0 to below 1: releasing everything takes infinite time. Source: see Release.
Duration time_to_release(const Release& release, Fraction share);

/// How steam flow changes the rates. The steam and the plant resist in series. B is the steam's
/// resistance divided by the plant's at the reference flow: k = k_ref (1 + B) / (1 + B q_ref / q).
struct FlowEffect {
  Fraction fast;   ///< B of the fast stage; 0: the flow does not matter
  Fraction slow;   ///< B of the slow stage
  Rate reference;  ///< q_ref, kg steam per kg charge and unit time; above zero
};

/// The release at another steam flow per kilogram of charge.
/// Range: flow above zero; pass infinity when there is no charge. Source: see FlowEffect; films in
/// series, as in W. L. McCabe et al., Unit Operations of Chemical Engineering, from memory.
Release at_flow(const Release& at_reference, const FlowEffect& effect, Rate flow);

/// A part of an oil, by mass.
struct OilPart {
  const Liquid* liquid = nullptr;  ///< must be set, and stay as long as the part is used
  Fraction mass_share;             ///< of the oil
};

/// Where steam and free oil boil together.
struct CodistillationLimit {
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
std::optional<CodistillationLimit> codistillation_limit(Pressure ambient,
                                                        const std::vector<OilPart>& parts);

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
/// can have carried. Released oil that steam could not take yet waits in the charge.
/// `codistillation_limit` is the most oil per time that steam can carry; none: it does not count.
/// Range: time >= 0. Source: see Release and CodistillationLimit.
Mass oil_vaporised(Mass recoverable, const Release& release,
                   std::optional<MassFlow> codistillation_limit, Duration time);

/// Time until `share` of the recoverable oil is vaporised; undoes oil_vaporised().
/// Range: share 0 to below 1, the bound above zero. Source: see oil_vaporised().
Duration time_to_vaporise(Mass recoverable, const Release& release,
                          std::optional<MassFlow> codistillation_limit, Fraction share);

/// Until when the steam bound holds the oil back; zero when it never does.
/// Range: the bound above zero. Source: see oil_vaporised().
Duration held_back_until(Mass recoverable, const Release& release, MassFlow codistillation_limit);

/// The first time from which a `step` releases no more than `least`; zero if none ever releases
/// more. Range: step and least above zero. Source: see Release; each step releases less than the
/// one before.
Duration time_of_gain(Mass recoverable, const Release& release, Duration step, Mass least);

/// When the rate of release has fallen to `rate`; zero if it is never higher.
/// Range: rate from zero; infinite at zero. Source: see Release; the rate only falls.
Duration time_of_rate(Mass recoverable, const Release& release, MassFlow rate);

}  // namespace firstdrop
