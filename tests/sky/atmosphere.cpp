#include "sky/atmosphere.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "air/standard_atmosphere.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

/// Mean over the sphere of a function of the scattering cosine; u^3 crowds the points at the forward peak.
template <class Function>
double sphere_mean(const Function& function) {
    constexpr int kPoints = 20000;
    double sum = 0.0;
    for (int i = 0; i < kPoints; ++i) {
        const double u = (i + 0.5) / kPoints;
        const double cosine = 1.0 - 2.0 * u * u * u;
        sum += function(cosine) * 3.0 * u * u / kPoints;
    }
    return sum;
}

class Profiles : public ::testing::TestWithParam<Species> {};

TEST_P(Profiles, HaveAVerticalColumnOfOne) {
    for (const double scale_m : {800.0, 1500.0, 2500.0}) {
        const air::Profile profile = profile_of(GetParam(), scale_m);
        double column = 0.0;
        for (double height_m = 5.0; height_m < air::kTopOfAir_m; height_m += 10.0) {
            column += profile(height_m) * 10.0;
        }
        EXPECT_NEAR(column, 1.0, 1e-4) << scale_m;
    }
}

TEST_P(Profiles, AreTheSameOneByOneAndTogether) {
    const air::Profile profile = profile_of(GetParam(), 1300.0);
    for (double height_m = 0.0; height_m < air::kTopOfAir_m; height_m += 1700.0) {
        EXPECT_DOUBLE_EQ(densities_per_m(height_m, 1300.0)[static_cast<std::size_t>(GetParam())],
                         profile(height_m));
    }
}

INSTANTIATE_TEST_SUITE_P(, Profiles,
                         ::testing::Values(Species::kRayleigh, Species::kOzone, Species::kAerosol,
                                           Species::kDust, Species::kSulphate),
                         [](const auto& species) { return "Species" + std::to_string(species.index); });

TEST(HenyeyGreenstein, HasAMeanOfOneOverTheSphere) {
    for (const double asymmetry : {-0.5, 0.0, 0.3, 0.7, 0.85}) {
        EXPECT_NEAR(sphere_mean([=](double c) { return henyey_greenstein(asymmetry, c); }), 1.0, 1e-5);
    }
}

TEST(HenyeyGreenstein, HasTheMeanCosineItIsNamedAfter) {
    for (const double asymmetry : {0.0, 0.65, 0.75}) {
        EXPECT_NEAR(sphere_mean([=](double c) { return c * henyey_greenstein(asymmetry, c); }), asymmetry,
                    1e-5);
    }
}

TEST(PhaseFunctions, OfEveryScattererHaveAMeanOfOne) {
    for (const Species species :
         {Species::kRayleigh, Species::kAerosol, Species::kDust, Species::kSulphate}) {
        EXPECT_NEAR(
            sphere_mean([=](double c) { return phase_functions(c)[static_cast<std::size_t>(species)]; }), 1.0,
            1e-5);
    }
}

TEST(PhaseTerms, AreTheMeansOfPhaseFunctionTimesLegendrePolynomial) {
    for (std::size_t l = 0; l < kDegrees; ++l) {
        for (std::size_t s = 0; s < kSpecies; ++s) {
            const double mean = sphere_mean(
                [=](double c) { return phase_functions(c)[s] * std::legendre(static_cast<unsigned>(l), c); });
            EXPECT_NEAR(phase_terms()[l][s], static_cast<double>(2 * l + 1) * mean, 1e-3) << l << " " << s;
        }
    }
}

TEST(PhaseFunctions, AirScattersBackAsMuchAsForward) {
    EXPECT_DOUBLE_EQ(phase_functions(0.6)[0], phase_functions(-0.6)[0]);
}

TEST(Optics, AmountsAreThoseOfTheAtmosphereAt550Nanometres) {
    Atmosphere atmosphere;
    atmosphere.aerosol_depth_550 = 0.2;
    atmosphere.dust_depth_550 = 0.3;
    atmosphere.sulphate_depth_550 = 0.05;
    const Optics optics = optics_of(atmosphere, test::tables().bands);
    constexpr std::size_t k550 = 8;  // the band of 540 to 560 nm
    EXPECT_DOUBLE_EQ(optics.depth[static_cast<std::size_t>(Species::kAerosol)][k550], 0.2);
    EXPECT_DOUBLE_EQ(optics.depth[static_cast<std::size_t>(Species::kDust)][k550], 0.3);
    EXPECT_DOUBLE_EQ(optics.depth[static_cast<std::size_t>(Species::kSulphate)][k550], 0.05);
}

TEST(Optics, NothingScattersMoreThanItTakesAway) {
    Atmosphere atmosphere;
    atmosphere.dust_depth_550 = 0.3;
    const Optics optics = optics_of(atmosphere, test::tables().bands);
    for (std::size_t s = 0; s < kSpecies; ++s) {
        for (std::size_t b = 0; b < kBands; ++b) {
            EXPECT_LE(optics.scattering[s][b], optics.depth[s][b]);
        }
    }
}

TEST(Optics, OzoneOnlyAbsorbs) {
    const Optics optics = optics_of(Atmosphere{}, test::tables().bands);
    EXPECT_EQ(optics.scattering[static_cast<std::size_t>(Species::kOzone)], Spectrum{});
}

}  // namespace
}  // namespace gloam::sky
