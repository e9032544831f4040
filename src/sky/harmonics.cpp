#include "sky/harmonics.hpp"

#include <algorithm>
#include <cmath>

namespace gloam::sky {
namespace {

/// What Schmidt multiplies the associated Legendre function by: sqrt(2 (l-m)! / (l+m)!), and 1 for m = 0.
double schmidt(std::size_t degree, std::size_t order) {
    double square = order == 0 ? 1.0 : 2.0;
    for (std::size_t k = degree - order + 1; k <= degree + order; ++k) {
        square /= static_cast<double>(k);
    }
    return std::sqrt(square);
}

}  // namespace

Harmonics zenith_harmonics(double cosine) {
    const double sine = std::sqrt(std::max(0.0, 1.0 - cosine * cosine));
    Harmonics values{};
    double highest = 1.0;  // of order m and degree m
    for (std::size_t m = 0; m < kDegrees; ++m) {
        double before = 0.0;
        double here = highest;
        for (std::size_t l = m; l < kDegrees; ++l) {
            values[harmonic(l, m)] = static_cast<float>(schmidt(l, m) * here);
            const double next =
                (static_cast<double>(2 * l + 1) * cosine * here - static_cast<double>(l + m) * before) /
                static_cast<double>(l + 1 - m);
            before = here;
            here = next;
        }
        highest *= static_cast<double>(2 * m + 1) * sine;
    }
    return values;
}

std::array<float, kDegrees> azimuth_cosines(double cosine) {
    std::array<float, kDegrees> values{1.0F, static_cast<float>(cosine)};
    for (std::size_t m = 2; m < kDegrees; ++m) {
        values[m] = 2.0F * values[1] * values[m - 1] - values[m - 2];
    }
    return values;
}

}  // namespace gloam::sky
