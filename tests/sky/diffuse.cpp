#include "sky/diffuse.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstring>
#include <numbers>

#include "base/check.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

using Kind = DiffuseField::Kind;
using test::default_air;
using test::tables;
using test::zenith_rad;

constexpr double kDegree = std::numbers::pi / 180.0;

/// As coarse as it gets: for what does not depend on accuracy.
constexpr SolverSettings kCoarse{.orders = 3, .zeniths_per_hemisphere = 2, .azimuths = 2, .steps = 6};

bool same_bytes(const DiffuseField& a, const DiffuseField& b) {
    return std::memcmp(a.ln_values().data(), b.ln_values().data(), a.ln_values().size_bytes()) == 0 &&
           std::memcmp(a.moments().data(), b.moments().data(), a.moments().size_bytes()) == 0;
}

DiffuseField solve(const SolverSettings& settings, const Atmosphere& atmosphere = {}) {
    return solve_diffuse(tables().bands, tables().columns, atmosphere, settings);
}

TEST(DiffuseSolver, GivesTheSameBytesOnOneThreadAndOnMore) {
    SolverSettings one = kCoarse;
    one.threads = 1;
    SolverSettings two = kCoarse;
    two.threads = 2;
    EXPECT_TRUE(same_bytes(solve(one), solve(two)));
}

TEST(DiffuseSolver, GivesTheSameBytesTwice) {
    EXPECT_TRUE(same_bytes(solve(kCoarse), solve(kCoarse)));
}

TEST(DiffuseSolver, EveryOrderAddsLight) {
    SolverSettings fewer = kCoarse;
    fewer.orders = 2;
    const DiffuseField two = solve(fewer);
    const DiffuseField three = solve(kCoarse);
    for (std::size_t i = 0; i < two.ln_values().size(); ++i) {
        ASSERT_GE(three.ln_values()[i], two.ln_values()[i]);
    }
}

TEST(DiffuseSolver, BrighterGroundGivesBrighterSky) {
    Atmosphere snow;
    snow.ground_albedo = 0.8;
    const Spectrum over_grass = solve(kCoarse).at(Kind::kDown, 0.0, zenith_rad(5.0));
    const Spectrum over_snow = solve(kCoarse, snow).at(Kind::kDown, 0.0, zenith_rad(5.0));
    for (std::size_t b = 0; b < kBands; ++b) {
        EXPECT_GT(over_snow[b], over_grass[b]);
    }
}

TEST(DiffuseField, DimsAsTheSunSinks) {
    double before = default_air().bands->xyz(default_air().diffuse.at(Kind::kDown, 0.0, zenith_rad(10.0))).y;
    for (double elevation_deg = 9.5; elevation_deg >= -18.0; elevation_deg -= 0.5) {
        const double here =
            default_air().bands->xyz(default_air().diffuse.at(Kind::kDown, 0.0, zenith_rad(elevation_deg))).y;
        ASSERT_LT(here, before) << elevation_deg;
        before = here;
    }
}

/// What a field scatters at one step of a ray that rises 20 deg, 40 deg of azimuth from the sun.
struct Scattered {
    AirRay ray = cast_ray(0.0, std::sin(20.0 * kDegree), 4, default_air().optics, 1500.0);
    const AirStep& step = ray.steps[1];
    double azimuth_cosine = std::cos(40.0 * kDegree);

    FloatSpectrum per_m{};
    explicit Scattered(const DiffuseField& field) {
        FloatSpectrum series[kDegrees];
        field.scatter(step, DiffuseField::place(step.height_m, zenith_rad(1.0)), series);
        sum_of_orders(series, azimuth_cosines(azimuth_cosine), per_m);
    }
};

/// A field of light 1 (W m-2 sr-1 nm-1 in the mean) everywhere, with the moments of a direction.
DiffuseField field_from(const Harmonics& direction) {
    DiffuseField field;
    for (std::size_t row = 0; row < DiffuseField::kRows; ++row) {
        for (std::size_t node = 0; node < DiffuseField::zenith_nodes_deg().size(); ++node) {
            for (std::size_t b = 0; b < kBands; ++b) {
                field.ln_value(Kind::kMean, row, node, b) = 0.0F;
                for (std::size_t k = 1; k < kHarmonics; ++k) {
                    field.set_moment(row, node, k, b, static_cast<double>(direction[k]));
                }
            }
        }
    }
    return field;
}

TEST(DiffuseField, ScattersEvenLightByAllThatScatters) {
    const Scattered found(field_from({}));
    for (std::size_t b = 0; b < kBands; ++b) {
        EXPECT_FLOAT_EQ(found.per_m[b], found.step.scattering_per_m[0][b]);
    }
}

TEST(DiffuseField, ScattersABeamByTheFirstTermsOfThePhaseFunctions) {
    constexpr double kSource = 0.3;  // cosine of its zenith angle
    const Scattered found(field_from(zenith_harmonics(kSource)));
    const double view = found.step.cos_zenith;
    const double cosine =
        kSource * view + std::sqrt((1.0 - kSource * kSource) * (1.0 - view * view)) * found.azimuth_cosine;
    for (std::size_t b = 0; b < kBands; ++b) {
        double expected = 0.0;
        for (std::size_t l = 0; l < kDegrees; ++l) {
            expected += static_cast<double>(found.step.scattering_per_m[l][b]) *
                        std::legendre(static_cast<unsigned>(l), cosine);
        }
        EXPECT_NEAR(static_cast<double>(found.per_m[b]) / expected, 1.0, 1e-3);
    }
}

TEST(DiffuseField, NeverScattersLessThanNothing) {
    // Moments that no light has: the series swings far below zero.
    Harmonics impossible{};
    impossible.fill(-1.0F);
    const Scattered found(field_from(impossible));
    for (const float value : found.per_m) {
        EXPECT_GE(value, 0.0F);
    }
}

TEST(DiffuseField, KeepsMomentsWithinWhatLightCanHave) {
    DiffuseField field;
    field.set_moment(0, 0, 1, 0, 7.0);
    field.set_moment(0, 0, 2, 0, -7.0);
    EXPECT_EQ(field.moments()[0], 32767);
    EXPECT_EQ(field.moments()[kBands], -32767);
}

TEST(DiffuseField, StoresWhatItIsGiven) {
    DiffuseField field;
    field.ln_value(Kind::kUp, 7, 20, 3) = -1.25F;
    const double zenith = DiffuseField::zenith_nodes_deg()[20] * std::acos(-1.0) / 180.0;
    EXPECT_NEAR(field.at(Kind::kUp, DiffuseField::row_height_m(7), zenith)[3], std::exp(-1.25), 1e-4);
}

TEST(DiffuseField, OutsideItsAxesIsWhatItIsAtTheirEnds) {
    const DiffuseField& field = default_air().diffuse;
    EXPECT_EQ(field.at(Kind::kMean, 3e5, 1.0), field.at(Kind::kMean, 1e5, 1.0));
    EXPECT_EQ(field.at(Kind::kMean, -50.0, 1.0), field.at(Kind::kMean, 0.0, 1.0));
    EXPECT_EQ(field.at(Kind::kMean, 0.0, 3.0), field.at(Kind::kMean, 0.0, zenith_rad(-28.0)));
}

TEST(DiffuseField, MixtureWithOneWeightIsThatField) {
    const DiffuseField& first = tables().nodes[0].field;
    const DiffuseField& second = tables().nodes[1].field;
    const std::array<const DiffuseField*, 2> fields{&first, &second};
    EXPECT_TRUE(same_bytes(DiffuseField::mixture(fields, std::array{0.0, 1.0}), second));
}

TEST(DiffuseField, MixtureWantsAWeightForEveryField) {
    const std::array<const DiffuseField*, 1> fields{&tables().nodes[0].field};
    EXPECT_THROW(DiffuseField::mixture(fields, std::array{0.5, 0.5}), InternalError);
}

}  // namespace
}  // namespace gloam::sky
