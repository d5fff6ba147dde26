#include "model/sample_point.hpp"

namespace firstdrop {

SamplePoint SamplePoint::medians() {
  SamplePoint point;
  point.at_.fill(0.5);
  return point;
}

SamplePoint& SamplePoint::set(Parameter input, double p) {
  at_[static_cast<std::size_t>(input)] = p;
  return *this;
}

}  // namespace firstdrop
