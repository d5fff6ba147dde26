// The sample points against another library's Halton sequence.
#include <gsl/gsl_qrng.h>

#include <array>
#include <cstdint>

#include "catch.hpp"
#include "model/sampling.hpp"

using namespace firstdrop;

TEST_CASE("the sequence is Halton's", "[sampling]") {
  // GNU Scientific Library 2.7, gsl_qrng_halton: the primes in order, from index 1 on.
  constexpr std::array<unsigned, 17> primes = {2,  3,  5,  7,  11, 13, 17, 19, 23,
                                               29, 31, 37, 41, 43, 47, 53, 59};
  gsl_qrng* theirs = gsl_qrng_alloc(gsl_qrng_halton, primes.size());
  for (std::uint64_t n = 1; n <= 5000; ++n) {
    std::array<double, primes.size()> point{};
    gsl_qrng_get(theirs, point.data());
    for (std::size_t i = 0; i < primes.size(); ++i) {
      CHECK_THAT(radical_inverse(n, primes[i]), WithinAbs(point[i], 1e-14));
    }
  }
  gsl_qrng_free(theirs);
}
