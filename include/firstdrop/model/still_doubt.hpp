/// @file
/// Figures of a still that are more likely a slip than true.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "firstdrop/quantity/quantity.hpp"
#include "firstdrop/tables/still.hpp"

namespace firstdrop {

struct Tables;

/// What a figure would mean if it were true, by which a person can tell.
namespace doubt {
enum class Part { pot, column, head };
/// A part of this mass would have walls this thick.
struct Wall {
  Part part = Part::pot;
  Mass mass;
  Length wall;
};
/// A column or grid of this volume holds so much fresh herb.
struct HerbSpace {
  bool on_grid = false;
  Volume space;
  Mass herb;
};
/// A head with this surface on an opening of this size.
struct HeadSurface {
  Area surface;
  Area opening;
};
/// A heater of this power brings so much water to the boil in this time.
struct TimeToBoil {
  Power power;
  Volume water;
  std::optional<Duration> boil;  ///< none: never
};
/// A condenser of this surface takes up so much heat, of what comes.
struct CondenserHeat {
  Area surface;
  Power takes;
  Power comes;
};
/// So much coolant warms by this difference in this time.
struct CoolantWarms {
  Volume coolant;
  TemperatureDifference warming;
  Duration time;
};
/// So much water on the walls is a film this thick.
struct WallFilm {
  Mass water;
  Length film;
};
/// The minimum water covers the pot's base this deep.
struct WaterDepth {
  Volume water;
  Length depth;
};
/// A tap of this flow fills a bucket in this time.
struct TapFlow {
  VolumeFlow flow;
  Volume bucket;
  Duration time;
};
}  // namespace doubt

using StillDoubt = std::variant<doubt::Wall, doubt::HerbSpace, doubt::HeadSurface,
                                doubt::TimeToBoil, doubt::CondenserHeat, doubt::CoolantWarms,
                                doubt::WallFilm, doubt::WaterDepth, doubt::TapFlow>;

/// Whether both are about the same figure of a still.
bool is_of_same_figure(const StillDoubt& one, const StillDoubt& other);

/// The figures beyond the limits of DesignDefaults::plausible, in the order of a still's file. Most
/// slips by a factor of ten are among them. The still must have all its figures, as read_still()
/// gives it.
std::vector<StillDoubt> doubts_about(const Still& still, const Tables& tables);

}  // namespace firstdrop
