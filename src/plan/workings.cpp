#include "plan/workings.hpp"

#include "model/parameters_at.hpp"

namespace firstdrop {

std::shared_ptr<const Workings> workings_of(const ModelParameters& parameters,
                                            const DesignDefaults& defaults,
                                            const std::optional<RunWorkings>& runs) {
  const auto fits_at = [&](double quantile) {
    return charge_capacity(parameters, defaults,
                           SamplePoint::medians().set(Parameter::bulk_density, quantile));
  };
  return std::make_shared<const Workings>(
      Workings{parameters, {fits_at(0.1), fits_at(0.5), fits_at(0.9)}, runs});
}

}  // namespace firstdrop
