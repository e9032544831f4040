// Phase functions of cloud against published Mie values, and the cloud tracer against a slab that is known.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "reference/montecarlo/chandrasekhar.hpp"
#include "reference/montecarlo/cloud_diffuse.hpp"
#include "reference/montecarlo/cloud_tracer.hpp"
#include "reference/montecarlo/mie.hpp"
#include "sky/cloud_light.hpp"
#include "sky/scene.hpp"

namespace gloam::montecarlo {
namespace {

TEST(Mie, AgreesWithPublishedSpheres) {
    // Wiscombe 1979, NCAR/TN-140, and (the last) Bohren and Huffman 1983, appendix A; as quoted in the tests
    // of two open programs.
    struct Case {
        double x;
        std::complex<double> m;
        double extinction, scattering, asymmetry;
    };
    for (const Case& c :
         {Case{10.0, 0.75, 2.232265, 2.232265, 0.896473}, Case{1000.0, 0.75, 1.997908, 1.997908, 0.844944},
          Case{100.0, {1.33, 1e-5}, 2.101321, 2.096594, 0.868959}}) {
        const MieSphere sphere = mie_sphere(c.x, c.m, {});
        EXPECT_NEAR(sphere.extinction, c.extinction, 1e-6) << c.x;
        EXPECT_NEAR(sphere.scattering, c.scattering, 1e-6) << c.x;
        EXPECT_NEAR(sphere.asymmetry, c.asymmetry, 1e-6) << c.x;
    }
    const MieSphere glass = mie_sphere(2.0 * std::numbers::pi * 0.525 / 0.6328, 1.55, {});
    EXPECT_NEAR(glass.extinction, 3.10543, 1e-5);
}

TEST(Mie, ScattersIntoAllAnglesWhatItsSeriesSays) {
    constexpr int kCount = 4000;
    std::vector<double> cosines;
    for (int i = 0; i < kCount; ++i) {
        cosines.push_back(-1.0 + 2.0 * (i + 0.5) / kCount);
    }
    const MieSphere sphere = mie_sphere(10.0, 1.333, cosines);
    double sum = 0.0;
    for (const double intensity : sphere.intensity) {
        sum += 2.0 * intensity / kCount;
    }
    // Q = 2 / x^2 times the integral of (|S1|^2 + |S2|^2) / 2 over the cosine.
    EXPECT_NEAR(2.0 * sum / 100.0, sphere.scattering, 1e-4);
}

TEST(CloudPhases, AreNormalisedAndSampledAsTheyAre) {
    constexpr int kCount = 100000;
    for (const CloudPhase* phase : {&droplets(), &ice()}) {
        double mean = 0.0;
        double asymmetry = 0.0;
        double sampled = 0.0;
        for (int i = 0; i < kCount; ++i) {
            const double u = (i + 0.5) / kCount;
            const double cosine = 2.0 * u - 1.0;
            mean += phase->at(cosine) / kCount;
            asymmetry += phase->at(cosine) * cosine / kCount;
            sampled += phase->sampled_cosine(u) / kCount;
        }
        EXPECT_NEAR(mean, 1.0, 1e-3);
        EXPECT_NEAR(asymmetry, phase->asymmetry(), 1e-3);
        EXPECT_NEAR(sampled, phase->asymmetry(), 1e-4);
    }
}

TEST(CloudPhases, HaveTheAsymmetryOfCloud) {
    // Water cloud has 0.86 with its peak (Hansen and Travis 1974, from memory).
    const double uncut = droplets().peak_share() + (1.0 - droplets().peak_share()) * droplets().asymmetry();
    std::printf("droplets: asymmetry %.4f, %.4f without the peak, which holds %.3f\n", uncut,
                droplets().asymmetry(), droplets().peak_share());
    EXPECT_NEAR(uncut, 0.86, 0.01);
    EXPECT_NEAR(ice().asymmetry(), 0.78, 0.002);
}

TEST(CloudMap, HasTheCoverThatWasAskedFor) {
    for (const double cover : {0.0, 0.3, 1.0}) {
        const CloudMap map({.cover = cover, .scales_km = {0.3, 2.0, 15.0}}, 7);
        int cloudy = 0;
        constexpr int kSide = 1024;
        for (int i = 0; i < kSide; ++i) {
            for (int j = 0; j < kSide; ++j) {
                cloudy += map.cloudy((i - 100.5) * map.element_km(), (j + 0.5) * map.element_km()) ? 1 : 0;
            }
        }
        EXPECT_NEAR(cloudy / double{kSide * kSide}, cover, 1e-5);
    }
}

TEST(CloudTracer, LightsAFlatDeckFromBelowAsChandrasekharSays) {
    // No air but its bending: the deck is all that scatters. Isotropic, sun a degree under it, seen at right
    // angles to the sun.
    constexpr double kSun_deg = -1.5;
    Medium air = clear_air({}, test::tables().bands);
    for (sky::Spectrum& depth : air.depth) {
        depth.fill(0.0);
    }
    const SunBeam beam(air);
    const CloudPhase isotropic([](double) { return 1.0; }, 0.0);
    BrokenLayer deck;
    deck.phase = &isotropic;
    deck.edge_km = 60.0;
    const double zenith = (90.0 - kSun_deg) * std::numbers::pi / 180.0;
    const double sun_mu = -std::cos(beam.apparent_zenith_rad(deck.base_km, zenith));
    const double light = air.sun[8] * beam.transmission(beam.place(deck.base_km, zenith).value(), 8) * sun_mu;
    for (const double elevation_deg : {15.0, 40.0}) {
        const double sine = std::sin(elevation_deg * std::numbers::pi / 180.0);
        const double mu = std::sqrt(sine * sine + 2.0 * deck.base_km / air.radius_km);
        const double expected =
            light / std::numbers::pi * HFunction().reflected(mu, sun_mu, deck.optical_depth);
        const Figure seen =
            beam_lit_cloud(beam, deck, {0.0, kSun_deg, elevation_deg, 90.0}, {.paths_per_batch = 512})
                .figure([](const sky::Spectrum& s) { return s[8]; });
        EXPECT_NEAR(seen.value / expected, 1.0, 0.05) << elevation_deg;
        EXPECT_LT(seen.error / expected, 0.04) << elevation_deg;
    }
}

// Of src/sky: nothing in the rule was fitted.
TEST(DiffuseLight, UnderBrokenCloudIsWhatTheRuleOfTheSkyLeaves) {
    using enum sky::CloudClass;
    struct Case {
        sky::CloudClass kind;
        double base_km, top_km;
        CloudPattern pattern;
    };
    for (const Case& c :
         {Case{kLow, 1.0, 2.0, {}},
          Case{kLow, 1.0, 2.0, {.cover = 0.5, .element_km = 0.5, .scales_km = {0.5, 2.0}}},
          Case{kMiddle, 4.0, 4.6, {}}, Case{kMiddle, 4.0, 4.6, {.cover = 0.6}},
          Case{kMiddle, 4.0, 4.6, {.cover = 0.3, .scales_km = {0.3, 1.2, 5.0, 15.0}}},
          Case{kHigh, 9.0, 10.0, {.element_km = 0.6}},
          Case{kHigh, 9.0, 10.0, {.cover = 0.5, .element_km = 0.6, .scales_km = {2.0, 30.0}}}}) {
        const sky::CloudLayer layer = test::layer(c.kind, 1e3 * c.base_km, 1e3 * c.top_km, c.pattern.cover);
        const CloudPhase& phase = c.kind == kHigh ? ice() : droplets();
        for (const double ground_albedo : {0.15, 0.8}) {
            const Figure left =
                diffuse_left_under({c.base_km, c.top_km, layer.optics.optical_depth, &phase, c.pattern},
                                   ground_albedo, {.paths_per_batch = 512, .threads = 2});
            const double ratio = sky::diffuse_left({layer}, ground_albedo).front() / left.value;
            std::printf("%.0f km, cover %.1f, ground %.2f: %.3f left, noise %.3f, rule over that %.3f\n",
                        c.base_km, c.pattern.cover, ground_albedo, left.value, left.error, ratio);
            EXPECT_NEAR(ratio, 1.0, 0.12) << c.base_km << " " << c.pattern.cover;
        }
    }
}

TEST(CloudTracer, TakesNoLightThroughADeckThatNeverEnds) {
    const Medium air = clear_air({}, test::tables().bands);
    const SunBeam beam(air);
    BrokenLayer deck;
    deck.phase = &droplets();
    const View view{0.0, -1.5, 30.0, 0.0};
    const double closed = beam_lit_cloud(beam, deck, view, {.paths_per_batch = 16}).mean()[8];
    deck.edge_km = 60.0;
    const double open = beam_lit_cloud(beam, deck, view, {.paths_per_batch = 16}).mean()[8];
    EXPECT_LT(closed, 0.01 * open);
}

}  // namespace
}  // namespace gloam::montecarlo
