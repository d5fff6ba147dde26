// Which figure of a plant serves: its own, that of another of its states, cuts or methods
// converted, or the default of its class. A figure that is not the plant's own says so.
#pragma once

#include <string>
#include <vector>

#include "firstdrop/library.hpp"
#include "firstdrop/release.hpp"

namespace firstdrop {

template <class T>
struct Chosen {
  Cited<T> figure;
  std::string stand_in;  ///< what it is instead of the plant's own; empty for that
};

/// Of the charge as it lies in the column.
/// Throws InputError when neither the plant nor its form has one.
Chosen<Density> bulk_density_of(const Plant& plant, State state, Cut cut, const Library& library);

/// Water per material as loaded. Throws InputError when neither plant nor form has one.
Chosen<Fraction> moisture_of(const Plant& plant, State state, const Library& library);

/// Water that drained material of the plant's form holds in all, per dry matter; that of herb where
/// the form has no figure of its own.
Chosen<Fraction> hold_up_of(const Plant& plant, const Library& library);

/// By mass, and of what.
struct ChosenOilContent : Chosen<Fraction> {
  OilPer per = OilPer::as_loaded;
  OilAssay assay = OilAssay::laboratory;
};
/// A state without a figure takes that of another by its dry matter, less or plus the loss on
/// drying. Throws InputError when no state has one.
ChosenOilContent oil_content_of(const Plant& plant, State state, const Library& library);

/// What a small still gets of an oil content found that way.
Chosen<Fraction> recovery_of(const Plant& plant, Method method, OilAssay assay,
                             const Library& library);

struct ChosenRelease {
  OilRelease release;
  Method method = Method::steam;  ///< that the figures are for
  std::string stand_in;
};
/// The key of the plant's release class for this cut: "seed" is crushed-seed or whole-seed.
std::string release_class_of(const Plant& plant, Cut cut);
/// Own figures for the method, else the class's for it, else the same for the nearest method.
/// Throws InputError when there are none.
ChosenRelease release_of(const Plant& plant, Method method, Cut cut, const Library& library);

/// The oil's main constituents by typical share.
std::vector<OilPart> oil_parts(const Plant& plant, const Library& library);

/// The constituents that do not count in a steam bound, and why: "linalool (no vapour pressure
/// equation)", "menthol (its equation holds from 99 °C)". Empty when all count.
std::string steam_bound_left_out(const Plant& plant, const Library& library,
                                 const SteamBound& bound);

/// Oil that the hydrosol keeps: as measured for this plant, else worked out.
Chosen<Density> hydrosol_oil_of(const Plant& plant, const Library& library);
/// The same without looking for a measured figure: what water could dissolve of the constituents
/// whose solubility is known, times the share of that which measured hydrosols hold; the rest of
/// the oil counts with the default for all plants.
Chosen<Density> worked_out_hydrosol_oil(const Plant& plant, const Library& library);

}  // namespace firstdrop
