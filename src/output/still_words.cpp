#include "firstdrop/output/still_words.hpp"

#include <fmt/core.h>

#include "quantity/range_text.hpp"

namespace firstdrop {
namespace {

const char* name_of(doubt::Part part) {
  switch (part) {
    case doubt::Part::pot:
      return "pot";
    case doubt::Part::column:
      return "column";
    case doubt::Part::head:
      break;
  }
  return "head";
}

/// A thickness, depth or width, as a ruler shows it.
std::string ruler_text(Length length, Units units) {
  if (units == Units::us) return fmt::format("{:.2g} in", in_metres(length) / 0.0254);
  const double millimetres = in_millimetres(length);
  return millimetres < 10.0 ? fmt::format("{:.2g} mm", millimetres)
                            : fmt::format("{:.0f} mm", millimetres);
}

struct DoubtWords {
  Units units;

  std::string operator()(const doubt::Wall& d) const {
    return fmt::format("A {} of {} would have walls {} thick.", name_of(d.part),
                       text(d.mass, units), ruler_text(d.wall, units));
  }
  std::string operator()(const doubt::HerbSpace& d) const {
    return fmt::format("A {} of {} holds about {} of fresh herb.",
                       d.on_grid ? "space over the grid" : "column", text(d.space, units),
                       text(d.herb, units));
  }
  std::string operator()(const doubt::HeadSurface& d) const {
    return fmt::format("A head with {} of surface stands on an opening of {}.",
                       text(d.surface, units), text_beside(d.opening, d.surface, units));
  }
  std::string operator()(const doubt::TimeToBoil& d) const {
    return d.boil ? fmt::format("A heater of {} boils {} of water in about {}.", text(d.power),
                                text(d.water, units), text(*d.boil))
                  : fmt::format("A heater of {} never boils {} of water in this pot.",
                                text(d.power), text(d.water, units));
  }
  std::string operator()(const doubt::CondenserHeat& d) const {
    return fmt::format(
        "A condenser with {} of surface condenses about {} of steam, and about {} "
        "comes.",
        text(d.surface, units), text(d.takes), text(d.comes));
  }
  std::string operator()(const doubt::CoolantWarms& d) const {
    return fmt::format("The heater warms {} of coolant by {:g} K in about {}.",
                       text(d.coolant, units), in_kelvins(d.warming), text(d.time));
  }
  std::string operator()(const doubt::WallFilm& d) const {
    return fmt::format("{} of water on the walls is a film {} thick.", text(d.water, units),
                       ruler_text(d.film, units));
  }
  std::string operator()(const doubt::WaterDepth& d) const {
    return fmt::format("{} of water covers the pot's base {} deep.", text(d.water, units),
                       ruler_text(d.depth, units));
  }
  std::string operator()(const doubt::TapFlow& d) const {
    return fmt::format("A tap that gives {} fills a bucket of {} in about {}.", text(d.flow, units),
                       text(d.bucket, units), text(d.time));
  }
};

struct DefaultWords {
  const std::string& name;
  Units units;

  template <class T>
  std::string operator()(const Range<T>& range) const {
    return name + ' ' +
           (is_one_text(range, units) ? text(range.typical, units) : span_text(range, units));
  }
  std::string operator()(const Range<Area>& range) const {
    return fmt::format("{} {} to {}", name, text_beside(range.low, range.high, units),
                       text(range.high, units));
  }
  std::string operator()(const Range<Length>& range) const {
    return name + ' ' + ruler_text(range.typical, units);
  }
};

}  // namespace

std::string doubt_text(const StillDoubt& doubt, Units units) {
  return std::visit(DoubtWords{units}, doubt);
}

std::string default_text(const DefaultFigure& figure, Units units) {
  return std::visit(DefaultWords{figure.name, units}, figure.range);
}

}  // namespace firstdrop
