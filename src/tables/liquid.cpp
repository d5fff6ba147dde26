#include "firstdrop/tables/liquid.hpp"

#include <fmt/core.h>

#include <cmath>

#include "firstdrop/base/error.hpp"

namespace firstdrop {

Pressure vapour_pressure(const Liquid& liquid, Temperature temperature) {
  if (!liquid.vapour_pressure) {
    throw RangeError(fmt::format("no vapour pressure equation is known here for {}", liquid.name));
  }
  const Antoine& fit = *liquid.vapour_pressure;
  // Negated so that NaN is refused, too.
  if (!(temperature >= fit.valid_from && temperature <= fit.valid_to)) {
    throw RangeError(fmt::format(
        "temperature {:.7g} °C is outside {:.7g} to {:.7g} °C, the range of the vapour pressure "
        "equation (Antoine) of {}",
        in_celsius(temperature), in_celsius(fit.valid_from), in_celsius(fit.valid_to),
        liquid.name));
  }
  return pascals(std::exp(fit.a - fit.b.si() / (temperature.kelvin() + fit.c.si())));
}

}  // namespace firstdrop
