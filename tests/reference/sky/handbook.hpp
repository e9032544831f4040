#pragma once

#include <cmath>
#include <stdexcept>

#include "reference/astro/reference_file.hpp"

namespace gloam::test {

/// Clear level illuminance by the polynomial of the Explanatory Supplement to the Astronomical Almanac, seen
/// through four open programs that quote it, lx. It does not state its aerosol. `file` is
/// illuminance_sun_polynomial_coefficients.csv.
inline double handbook_lx(const ReferenceFile& file, double altitude_deg) {
    for (std::size_t row = 0; row < file.size(); ++row) {
        if (altitude_deg >= file.number(row, "alt_lo_deg") &&
            altitude_deg <= file.number(row, "alt_hi_deg")) {
            const double x = altitude_deg / 90.0;
            return std::pow(10.0, file.number(row, "l0") +
                                      x * (file.number(row, "l1") +
                                           x * (file.number(row, "l2") + x * file.number(row, "l3"))));
        }
    }
    throw std::runtime_error("outside the handbook");
}

}  // namespace gloam::test
