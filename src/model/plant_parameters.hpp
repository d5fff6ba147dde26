/// @file
/// Which figure of a plant serves: its own, that of another of its states, cuts or methods
/// converted, or the default of its class. A figure that is not the plant's own says so.
#pragma once

#include <string>
#include <vector>

#include "firstdrop/tables/tables.hpp"
#include "physics/release.hpp"

namespace firstdrop {

/// A figure that serves.
template <class T>
struct Chosen {
  Cited<T> figure;           ///< with its range and evidence
  std::string default_used;  ///< what it is instead of the plant's own; empty for that
};

/// Of the charge as it lies in the column: the plant's own for this cut, its form's for this cut,
/// or either for another cut, scaled by the practice's densities relative to chopped. Throws
/// InputError when neither the plant nor its form has one.
Chosen<Density> bulk_density_of(const Plant& plant, State state, Cut cut, const Tables& tables);

/// Water per material as loaded: the plant's own or its form's. Throws InputError when neither
/// plant nor form has one.
Chosen<Fraction> moisture_of(const Plant& plant, State state, const Tables& tables);
/// The same, or none.
std::optional<Chosen<Fraction>> moisture_if_known(const Plant& plant, State state,
                                                  const Tables& tables);

/// Water that drained material of the plant's form holds in all, per dry matter; that of herb where
/// the form has no figure of its own.
Chosen<Fraction> hold_up_of(const Plant& plant, const Tables& tables);

/// An oil content by mass, and of what.
struct ChosenOilContent : Chosen<Fraction> {
  OilPer per = OilPer::as_received;                ///< what it is a share of
  Distilled distilled = Distilled::to_exhaustion;  ///< whose recovery then serves
};
/// The oil in this state. A content by volume is turned into one by mass with the oil's density. A
/// state without a figure takes that of another by its dry matter, less or plus the loss on
/// drying. A still's yield to a stated end becomes what that still would have got to exhaustion.
/// Throws InputError when no state has one, or the moisture of that other is not known.
ChosenOilContent oil_content_of(const Plant& plant, State state, const Tables& tables);

/// A still's yield to a stated end, as what that still would have got to exhaustion: over the share
/// that has come when such runs are stopped. The one place where this is done, since a plan
/// multiplies by the share that it releases itself.
Cited<Fraction> to_exhaustion(const Cited<Fraction>& yield, const DesignDefaults& defaults);

/// Share of such an oil content that a small still gets to exhaustion: the plant's own figure for
/// this method, else the design default. A still's own yield has it in it already: all of it.
Chosen<Fraction> recovery_of(const Plant& plant, Method method, Distilled distilled,
                             const Tables& tables);

/// Release figures that serve.
struct ChosenRelease {
  OilRelease release;             ///< as published
  Method method = Method::steam;  ///< that the figures are for
  std::string default_used;       ///< as Chosen::default_used
};
/// The key of the plant's release class for this cut: "seed" is crushed-seed or whole-seed.
std::string release_class_of(const Plant& plant, Cut cut);
/// Own figures for the method, else the class's for it, else the same for the nearest method.
/// Throws InputError when there are none.
ChosenRelease release_of(const Plant& plant, Method method, Cut cut, const Tables& tables);

/// The oil's main constituents by typical share, in the plant's order; they point into the library,
/// which must stay. Throws std::out_of_range for a liquid that is not in it.
std::vector<OilPart> oil_parts(const Plant& plant, const Tables& tables);

/// The constituents that do not count in a steam bound, and why: "linalool (no vapour pressure
/// equation)", "menthol (its equation holds from 99 to 215 °C)". Empty when all count. Throws
/// std::out_of_range for a liquid that is not in the library.
std::string codistillation_limit_left_out(const Plant& plant, const Tables& tables,
                                          const CodistillationLimit& bound);

/// Oil that the hydrosol keeps: as measured for this plant, else worked out.
Chosen<Density> hydrosol_oil_of(const Plant& plant, const Tables& tables);
/// The same without looking for a measured figure: what water could dissolve of the constituents
/// whose solubility is known, times the share of that which measured hydrosols hold; the rest of
/// the oil counts with the default for all plants. Throws std::out_of_range for a liquid that is
/// not in the library.
Chosen<Density> worked_out_hydrosol_oil(const Plant& plant, const Tables& tables);

}  // namespace firstdrop
