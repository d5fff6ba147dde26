// Collects the elements of a drawing in SVG, one per line.
#pragma once

#include <string>
#include <vector>

#include "output/drawing.hpp"

namespace firstdrop {

enum class Anchor { start, middle, end };

/// A number as SVG has it here, with one decimal at most.
std::string svg_number(double x);

class SvgCanvas {
 public:
  void line(Spot a, Spot b, const std::string& look);
  /// Draws nothing for fewer than two spots.
  void polyline(const std::vector<Spot>& spots, const std::string& look);
  void polygon(const std::vector<Spot>& spots, const std::string& look);
  void dot(Spot at, const std::string& colour);
  void words(Spot at, const std::string& text, Anchor anchor = Anchor::start,
             const std::string& look = "");
  /// Words on a white background, `baseline` below the top of the frame.
  void label(const Frame& frame, double baseline, const std::string& text,
             const std::string& look = "");
  /// A polygon filled with slanting lines.
  void hatched(const std::vector<Spot>& polygon, bool rising);

  const std::string& text() const { return out_; }

 private:
  void add(const std::string& element) { out_ += element + "\n"; }

  std::string out_;
};

}  // namespace firstdrop
