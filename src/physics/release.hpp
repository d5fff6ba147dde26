/// @file
/// Oil over time: how fast it leaves the plant, how much of it steam can carry, and how much of it
/// water dissolves.
///
/// Times count from the first drop. Only what a docstring mentions is checked.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/tables/liquid.hpp"
#include "physics/water.hpp"
#include "quantity/equation.hpp"

namespace firstdrop {

namespace cited {
inline constexpr EquationSource release{"milojevic-2013", "release of oil over time"};
inline constexpr EquationSource flow_effect{"resistances-in-series",
                                            "how the flow of steam sets the pace of the release"};
inline constexpr EquationSource raoult{"raoult-dalton", "vapour pressures of oil over water"};
inline constexpr EquationSource solubility{"banerjee-1984", "what water dissolves of an oil"};
}  // namespace cited

/// One plant of a blend.
struct BlendPace {
  Fraction of_oil;    ///< its share of the recoverable oil; all shares sum to 1
  double pace = 1.0;  ///< its rates over those of the release, above zero
};

/// Release from the plant in two stages: R(t) = f (1 - exp(-k1 t)) + (1 - f) (1 - exp(-k2 t)), with
/// t from first drop. The fast (washed) fraction f lies on or near the surface and is washed off.
/// The rest has to diffuse out. With f = 0 the release is first order.
/// Source: form by S. Milojevic et al., Hem. Ind. 67 (2013) 843-859. In theirs the fast fraction
/// comes out instantly. Here it takes time, because that fits published curves better
/// (data/evidence/README.md).
///
/// For a blend of plants it is that of one of them. The others have their own pace.
struct Release {
  Fraction fast;   ///< f, 0 to 1
  Rate fast_rate;  ///< k1, above zero
  Rate slow_rate;  ///< k2, above zero
  /// The plants of a blend, at most 8; null for a single plant. Must outlive the release.
  const std::vector<BlendPace>* blend = nullptr;
};

/// The release that reaches one half after `half_life`. Its slow rate is `slow_rate` times its fast
/// rate, so `slow_rate` is a ratio.
/// Range: fast 0 to 1; slow_rate above 0, to 1; half-life above zero. Source: see Release.
Release release_of_half_life(Duration half_life, Fraction fast, Fraction slow_rate);
namespace equations {
/// How k_ref is found.
inline constexpr std::string_view rate_of_half_life =
    "the rate at which half has come after t_half: f / 100 * exp(-k_ref * t_half) + (1 - f / 100) "
    "* exp(-slow / 100 * k_ref * t_half) = 1/2";
}  // namespace equations

/// Progress of each stage: the integral of k dt. With constant heat it is k t. When the heat
/// changes, it is the sum over the intervals between changes.
struct ReleaseProgress {
  double fast = 0.0;  ///< of the fast stage, from 0
  double slow = 0.0;  ///< of the slow stage, from 0
};

/// Progress after `time` at constant rates.
/// Range: time >= 0. Source: see ReleaseProgress.
ReleaseProgress progress_after(const Release& release, Duration time);

/// Share of the oil released, from 0 towards 1. Each plant of a blend is as far as its pace.
/// Source: see Release.
Fraction released(const Release& release, const ReleaseProgress& progress);

/// Overload for `time` at constant rates.
/// Range: time >= 0. Source: see Release.
Fraction released(const Release& release, Duration time);
namespace equations {
inline constexpr Equation<Fraction> released{
    "R", "share released by the stop", shown_in::percent,
    "100 * (f / 100 * (1 - exp(-k_1 * t_run)) + (1 - f / 100) * (1 - exp(-k_2 * t_run)))",
    cited::release};
/// The right-hand side for a blend: plant 1 has the share o_1 of the oil and the pace a_1.
std::string released_by_blend_text(std::size_t plants);
}  // namespace equations

/// Time until `share` is released.
/// Range: share 0 to below 1, because releasing everything takes infinite time. Source: see
/// Release.
Duration time_to_release(const Release& release, Fraction share);

/// How the steam flow changes the rates. The resistances of the steam and the plant act in series.
/// B is the steam's resistance divided by the plant's at the reference flow. The rate is
/// k = k_ref (1 + B) / (1 + B q_ref / q).
struct FlowEffect {
  Fraction fast;   ///< B of the fast stage; at 0 the flow has no effect
  Fraction slow;   ///< B of the slow stage
  Rate reference;  ///< q_ref, kg steam per kg charge and unit time; above zero
};

/// The release at another steam flow per kilogram of charge.
/// Range: flow above zero, infinite without a charge. Source: see FlowEffect; films in series, as
/// in W. L. McCabe et al., Unit Operations of Chemical Engineering, from memory.
Release at_flow(const Release& at_reference, const FlowEffect& effect, Rate flow);
namespace equations {
inline constexpr Equation<Rate> fast_rate{
    "k_1", "rate of the fast stage in this run", shown_in::per_minute,
    "k_ref * (1 + B_1 / 100) / (1 + B_1 / 100 * q_ref / q)", cited::flow_effect};
inline constexpr Equation<Rate> slow_rate{
    "k_2", "rate of the slow stage in this run", shown_in::per_minute,
    "k_ref * slow / 100 * (1 + B_2 / 100) / (1 + B_2 / 100 * q_ref / q)", cited::flow_effect};
}  // namespace equations

/// A constituent of an oil and its share by mass.
struct OilPart {
  const Liquid* liquid = nullptr;  ///< not null; must outlive the part
  Fraction mass_share;             ///< of the oil
};
namespace equations {
/// Symbol of a figure of a constituent, e.g. s_linalool. The prefix is s for its share of the oil,
/// M for its molar mass, x for its share of the moles, p for its vapour pressure, and c for its
/// solubility.
std::string symbol_of(char prefix, const Liquid& liquid);
}  // namespace equations

/// Co-distillation limit: the point at which water and free oil boil together.
struct CodistillationLimit {
  Temperature boiling;         ///< common boiling point, below that of water alone
  Fraction oil_per_steam;      ///< the most oil that steam can carry, kg oil per kg steam
  Fraction share_covered;      ///< mass share of the oil with a usable vapour pressure
  std::vector<OilPart> parts;  ///< the parts with a usable vapour pressure
};

/// Solves P_water(T) + sum x_i P_i(T) = P for an ideal oil over water, and gives the mass ratio in
/// the vapour at that point. Shares that don't add up to 1 are scaled up, so the rest is assumed to
/// be like the given parts.
///
/// Nothing is extrapolated. A part is left out if it has no vapour-pressure equation, or if its
/// equation doesn't hold from the common boiling point up to that of water. None if no part is
/// left, or if water and oil would boil together below 1 °C.
/// Range: `ambient` as for saturation_temperature(), which throws RangeError.
/// Source: Raoult's law for the oil phase, Dalton's for the vapour; textbook examples are in
/// tests/reference/codistillation_test.cpp.
std::optional<CodistillationLimit> codistillation_limit(Pressure ambient,
                                                        const std::vector<OilPart>& parts);
namespace equations {
inline constexpr Equation<Pressure> water_pressure{
    "p_w", "vapour pressure of water at that temperature", shown_in::pascals,
    "saturation_pressure(T_mix)", cited::if97};
/// One for each part, named after it.
inline constexpr Equation<Fraction> mole_share{"x", "mole fraction", shown_in::ratio("mol/mol"), "",
                                               cited::raoult};
inline constexpr Equation<Pressure> both_pressures{
    "p_sum", "pressure of water and oil together, equal to the ambient pressure", shown_in::pascals,
    "", cited::raoult};
inline constexpr Equation<Fraction> oil_per_steam{
    "b", "most oil that a gram of steam can carry: the co-distillation limit",
    shown_in::ratio("g/g"), "", cited::raoult};
inline constexpr Equation<Mass> oil_carried{"O_most",
                                            "most oil that the steam can carry by the stop",
                                            shown_in::grams, "b * V * t_run", cited::raoult};
/// @{
/// The right-hand sides, for the parts with a usable vapour pressure.
std::string mole_share_text(const OilPart& part, const std::vector<OilPart>& parts);
std::string vapour_pressure_text(const Antoine& fit);
std::string both_pressures_text(const std::vector<OilPart>& parts);
std::string oil_per_steam_text(const std::vector<OilPart>& parts);
/// @}
}  // namespace equations

/// Share of each part in the moles of all, in the order of the parts. Mass shares that don't add up
/// to 1 are scaled up.
/// Range: mass shares and molar masses above zero. Source: definition.
std::vector<Fraction> mole_shares(const std::vector<OilPart>& parts);

/// How much of an oil water can dissolve.
struct OilSolubility {
  Density dissolved;       ///< mass of oil per volume of water, at saturation
  Fraction share_covered;  ///< mass share of the oil with a known solubility
};

/// The sum of x_i S_i: each constituent dissolves in proportion to its mole fraction x_i in the oil
/// and to the solubility S_i of the pure liquid. Parts without a solubility count as insoluble. If
/// the shares add up to less than 1, the rest is assumed to have the mean molar mass of the given
/// parts. None when no part has a solubility.
/// Range: shares from 0. Source: Raoult's law for the oil phase; form as S. Banerjee, Environ. Sci.
/// Technol. 18 (1984) 587-591, from memory.
std::optional<OilSolubility> oil_solubility(const std::vector<OilPart>& parts);
namespace equations {
inline constexpr Equation<Fraction> solubility_covered{
    "cov", "share of the oil with a known solubility", shown_in::percent, ""};
inline constexpr Equation<Density> oil_solubility{
    "c_sat", "what water could dissolve of those constituents", shown_in::milligrams_per_litre, "",
    cited::solubility};
/// @{
/// The right-hand sides, for all parts of the oil.
std::string solubility_covered_text(const std::vector<OilPart>& parts);
std::string oil_solubility_text(const std::vector<OilPart>& parts);
/// @}
}  // namespace equations

/// Oil vaporised after `time`: the oil that the plant has released, but never more than the steam
/// so far could carry. Released oil that the steam couldn't carry yet stays in the charge.
/// `codistillation_limit` is the most oil per time that steam can carry; none means no limit.
/// Range: time >= 0. Source: see Release and CodistillationLimit.
Mass oil_vaporised(Mass recoverable, const Release& release,
                   std::optional<MassFlow> codistillation_limit, Duration time);
namespace equations {
inline constexpr Equation<Mass> oil_vaporised{"m_vap", "oil vaporised by the stop", shown_in::grams,
                                              "m_rec * R / 100", cited::release};
/// With a known co-distillation limit.
inline constexpr Equation<Mass> oil_vaporised_within_limit{
    oil_vaporised.symbol, oil_vaporised.name, oil_vaporised.unit, "min(m_rec * R / 100, O_most)",
    oil_vaporised.source};
}  // namespace equations

/// Time until `share` of the recoverable oil is vaporised; the inverse of oil_vaporised().
/// Range: share 0 to below 1, the limit above zero. Source: see oil_vaporised().
Duration time_to_vaporise(Mass recoverable, const Release& release,
                          std::optional<MassFlow> codistillation_limit, Fraction share);

/// Time until which the co-distillation limit holds the oil back; zero when it never does.
/// Range: the limit above zero. Source: see oil_vaporised().
Duration held_back_until(Mass recoverable, const Release& release, MassFlow codistillation_limit);

/// The first time at which the next `step` releases no more than `least`; zero if no step ever
/// releases more.
/// Range: step and least above zero. Source: see Release; each step releases less than the one
/// before.
Duration time_of_gain(Mass recoverable, const Release& release, Duration step, Mass least);

/// Time at which the rate of release has fallen to `rate`; zero if it is never higher.
/// Range: rate zero or more; infinite at zero. Source: see Release; the rate of release only falls.
Duration time_of_rate(Mass recoverable, const Release& release, MassFlow rate);

}  // namespace firstdrop
