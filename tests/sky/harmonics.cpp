#include "sky/harmonics.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace gloam::sky {
namespace {

/// A direction by the cosine of its zenith angle, and its azimuth.
struct Direction {
    double cosine;
    double azimuth_rad;
};

double cosine_between(const Direction& a, const Direction& b) {
    const double sines = std::sqrt((1.0 - a.cosine * a.cosine) * (1.0 - b.cosine * b.cosine));
    return a.cosine * b.cosine + sines * std::cos(a.azimuth_rad - b.azimuth_rad);
}

TEST(Harmonics, OfTwoDirectionsGiveTheLegendrePolynomialOfTheAngleBetween) {
    constexpr Direction kSun{-0.1, 0.0};
    for (const Direction& view : {Direction{0.9, 0.3}, {0.05, 1.1}, {-0.6, 2.9}, {1.0, 0.0}, {-1.0, 0.7}}) {
        const Harmonics a = zenith_harmonics(kSun.cosine);
        const Harmonics b = zenith_harmonics(view.cosine);
        const auto cosines = azimuth_cosines(std::cos(view.azimuth_rad));
        for (std::size_t l = 0; l < kDegrees; ++l) {
            float sum = 0.0F;
            for (std::size_t m = 0; m <= l; ++m) {
                sum += a[harmonic(l, m)] * b[harmonic(l, m)] * cosines[m];
            }
            EXPECT_NEAR(sum, std::legendre(static_cast<unsigned>(l), cosine_between(kSun, view)), 1e-6) << l;
        }
    }
}

TEST(Harmonics, OfTheZenithHaveNoAzimuth) {
    const Harmonics zenith = zenith_harmonics(1.0);
    for (std::size_t l = 0; l < kDegrees; ++l) {
        EXPECT_FLOAT_EQ(zenith[harmonic(l, 0)], 1.0F);
        for (std::size_t m = 1; m <= l; ++m) {
            EXPECT_FLOAT_EQ(zenith[harmonic(l, m)], 0.0F);
        }
    }
}

TEST(AzimuthCosines, AreThoseOfTheMultiples) {
    for (const double azimuth_rad : {0.0, 0.4, 1.6, 3.14159}) {
        const auto cosines = azimuth_cosines(std::cos(azimuth_rad));
        for (std::size_t m = 0; m < kDegrees; ++m) {
            EXPECT_NEAR(cosines[m], std::cos(static_cast<double>(m) * azimuth_rad), 1e-6);
        }
    }
}

}  // namespace
}  // namespace gloam::sky
