/// @file
/// Selects the figure to use for a plant. It is the plant's own, a converted figure of another of
/// its states, cuts or methods, or the default of its class. A figure that isn't the plant's own
/// says so.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "firstdrop/tables/tables.hpp"
#include "physics/release.hpp"
#include "quantity/equation.hpp"

namespace firstdrop {

/// A selected figure.
template <class T>
struct Chosen {
  Cited<T> figure;           ///< with its range and evidence
  std::string default_used;  ///< what it is, if not the plant's own; otherwise empty
};

/// A bulk density, and the figure of another cut that it was scaled from.
struct ChosenBulkDensity : Chosen<Density> {
  const BulkDensity* scaled = nullptr;  ///< in the plant or the tables; null if for this cut
};
/// Bulk density of the charge as it lies in the column. It is the plant's own for this cut, or its
/// form's for this cut, or either for another cut. A figure for another cut is scaled by the design
/// defaults' densities relative to chopped. Throws InputError if neither the plant nor its form has
/// one.
ChosenBulkDensity bulk_density_of(const Plant& plant, State state, Cut cut, const Tables& tables);
namespace equations {
/// Of a figure for another cut.
inline constexpr Equation<Density> scaled_bulk_density{"rho_b", "bulk density of the charge",
                                                       shown_in::grams_per_litre,
                                                       "rho_other / k_other * k_cut"};
}  // namespace equations

/// Mass of water per mass of material, as received: the plant's own or its form's. Throws
/// InputError if neither the plant nor its form has one.
Chosen<Fraction> moisture_of(const Plant& plant, State state, const Tables& tables);
/// As moisture_of(), but none if neither the plant nor its form has one.
std::optional<Chosen<Fraction>> moisture_if_known(const Plant& plant, State state,
                                                  const Tables& tables);

/// Hydrosol that published runs collect per mass of material, as received.
struct ChosenCustomaryHydrosol {
  Cited<SpecificVolume> figure;
  Fraction as_fresh = fraction(1);  ///< kg fresh herb per kg as received; 1 if only known dry
};
/// That of fresh herb, for the fresh herb that the material was; or that of dry fruit for a plant
/// whose fresh moisture isn't known. Throws as moisture_of() does.
ChosenCustomaryHydrosol customary_hydrosol_of(const Plant& plant, State state,
                                              const Tables& tables);

/// All water that drained material of the plant's form holds, per mass of dry matter. A form
/// without a figure of its own takes that of herb, and `default_used` then stays empty.
Chosen<Fraction> hold_up_of(const Plant& plant, const Tables& tables);

/// The steps from an oil content in the table to one of another state, by mass and to exhaustion.
struct OilContentSteps {
  bool from_volume = false;         ///< times the density of the oil
  bool to_exhaustion = false;       ///< over the share that has come at a stated end
  bool to_dry_matter = false;       ///< over the dry share of the material
  bool less_drying_loss = false;    ///< times the share that drying keeps
  bool before_drying_loss = false;  ///< over the share that drying keeps
  /// Whether there is a step at all.
  bool any() const {
    return from_volume || to_exhaustion || to_dry_matter || less_drying_loss || before_drying_loss;
  }
};
/// The steps that oil_content_of() takes from a figure for the state `from`.
OilContentSteps oil_content_steps(const OilContent& content, State from, State to);
namespace equations {
inline constexpr Equation<Fraction> oil_of_dry_matter_share{"w", "oil content of the dry matter",
                                                            shown_in::percent, ""};
inline constexpr Equation<Fraction> oil_as_received_share{
    "w", "oil content of the charge as received", shown_in::percent, ""};
/// The right-hand side of both, from the figure in the table.
std::string oil_content_text(const OilContentSteps& steps);
/// The right-hand side of both, from the recipe's own figure.
inline constexpr std::string_view own_oil_content = "w_own / (e_run / 100)";
/// The same, from one by volume.
inline constexpr std::string_view own_oil_content_by_volume = "w_own * rho_oil / (e_run / 100)";
}  // namespace equations

/// An oil content by mass, and what it is a share of.
struct ChosenOilContent : Chosen<Fraction> {
  OilPer per = OilPer::as_received;                ///< what it is a share of
  Distilled distilled = Distilled::to_exhaustion;  ///< which recovery applies
  const OilContent* in_table = nullptr;            ///< the figure it was made from, in the plant
  State in_table_for = State::fresh;               ///< the state of that figure
};
/// Oil content in this state. A content by volume is converted to one by mass with the oil's
/// density. A state without a figure takes that of another state, converted by dry matter and by
/// the loss on drying. A still's yield to a stated end is converted to what that still would have
/// got to exhaustion. Throws InputError if no state has a figure, or if the moisture of that other
/// state isn't known.
ChosenOilContent oil_content_of(const Plant& plant, State state, const Tables& tables);

/// The same per mass as received, with the median moisture. Throws as oil_content_of() does.
Cited<Fraction> oil_content_as_received(const Plant& plant, State state, const Tables& tables);

/// Converts a still's yield to a stated end to what that still would have got to exhaustion. It
/// divides by the share that has come over when such runs are stopped. This must happen nowhere
/// else, because a plan multiplies by the share that it releases itself.
Cited<Fraction> to_exhaustion(const Cited<Fraction>& yield, const DesignDefaults& defaults);

/// Share of such an oil content that a small still gets to exhaustion: the plant's own figure for
/// this method, otherwise the design default. A still's own yield already includes its recovery, so
/// the share is 1.
Chosen<Fraction> recovery_of(const Plant& plant, Method method, Distilled distilled,
                             const Tables& tables);

/// The selected release figures.
struct ChosenRelease {
  OilRelease release;             ///< as published
  Method method = Method::steam;  ///< for which they were published
  std::string default_used;       ///< as Chosen::default_used
};
/// Key of the plant's release class for this cut. The class "seed" becomes crushed-seed or
/// whole-seed.
std::string release_class_of(const Plant& plant, Cut cut);
/// The release for this method: the plant's own figures, otherwise those of its class, otherwise
/// either for the nearest method. Throws InputError if there are none.
ChosenRelease release_of(const Plant& plant, Method method, Cut cut, const Tables& tables);

/// Each plant's share of the recoverable oil of a blend, in the order of its plants. Needs oil
/// figures of at least one of them. Throws as oil_content_of() does.
std::vector<Fraction> oil_shares(const Plant& blend, State state, Method method,
                                 const Tables& tables);

/// The oil's main constituents with their median shares, in the plant's order. They point into the
/// tables, which must outlive them. Throws std::out_of_range for a liquid that isn't in the tables.
std::vector<OilPart> oil_parts(const Plant& plant, const Tables& tables);

/// The constituents that a co-distillation limit leaves out, and why: "linalool (no vapour pressure
/// equation)", "menthol (its equation holds from 99 to 215 °C)". Empty if it leaves out none.
/// Throws std::out_of_range for a liquid that isn't in the tables.
std::string codistillation_limit_left_out(const Plant& plant, const Tables& tables,
                                          const CodistillationLimit& bound);

/// Oil that stays in the hydrosol, per volume.
struct ChosenHydrosolOil : Chosen<Density> {
  std::optional<OilSolubility> solubility;  ///< none if it wasn't worked out from solubilities
};
/// Oil that stays in the hydrosol: as measured for this plant, otherwise worked out.
ChosenHydrosolOil hydrosol_oil_of(const Plant& plant, const Tables& tables);
/// As hydrosol_oil_of(), but never a measured figure. It takes what water could dissolve of the
/// constituents with a known solubility, times the share of this that measured hydrosols hold. The
/// rest of the oil counts with the default for all plants. Throws std::out_of_range for a liquid
/// that isn't in the tables.
ChosenHydrosolOil worked_out_hydrosol_oil(const Plant& plant, const Tables& tables);
namespace equations {
inline constexpr Equation<Density> hydrosol_oil{
    "c_h", "oil that the hydrosol can dissolve", shown_in::milligrams_per_litre,
    "c_sat * sat + c_any * (1 - cov / 100)", cited::solubility};
}  // namespace equations

}  // namespace firstdrop
