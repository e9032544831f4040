// Interpolated columns against rays traced anew.
#include "sky/columns.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstdio>
#include <random>
#include <vector>

#include "air/ray.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

using test::tables;

constexpr double kDegree_rad = 0.017453292519943295;
constexpr unsigned kSeed = 20240601;

PerSpecies interpolated(const ColumnPlace& at, double scale_height_m) {
    const ColumnTable& columns = tables().columns;
    const PerSpecies low = columns.ln_columns(at.row, at.node, at.node_share, scale_height_m);
    const PerSpecies high = columns.ln_columns(at.row + 1, at.node, at.node_share, scale_height_m);
    PerSpecies result{};
    for (std::size_t s = 0; s < kSpecies; ++s) {
        result[s] = std::exp(low[s] + at.row_share * (high[s] - low[s]));
    }
    return result;
}

std::vector<air::Profile> profiles(double scale_height_m) {
    std::vector<air::Profile> all;
    for (std::size_t s = 0; s < kSpecies; ++s) {
        all.push_back(profile_of(static_cast<Species>(s), scale_height_m));
    }
    return all;
}

struct Error {
    double mean = 0.0;
    double worst = 0.0;
};

/// Relative errors of the columns at random places below 20 km, the sun anywhere between `highest_deg` above
/// the last 0.02 deg of the shadow edge and there.
std::array<Error, kSpecies> errors_at_random_places(double scale_height_m, double highest_deg, int count) {
    std::mt19937 random(kSeed);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    const auto all = profiles(scale_height_m);
    std::array<Error, kSpecies> errors{};
    for (int i = 0; i < count; ++i) {
        const double height_m = 20.0e3 * unit(random);
        const double last_rad = air::grazing_zenith(height_m).radians() - 0.02 * kDegree_rad;
        const double apparent_rad = last_rad - highest_deg * kDegree_rad * unit(random);
        PerSpecies traced{};
        const auto zenith = air::trace_to_space(height_m, Angle::radians(apparent_rad), all, traced);
        const auto at = tables().columns.place(height_m, zenith->radians());
        const PerSpecies ours = interpolated(*at, scale_height_m);
        for (std::size_t s = 0; s < kSpecies; ++s) {
            const double error = std::abs(ours[s] / traced[s] - 1.0);
            errors[s].mean += error / count;
            errors[s].worst = std::max(errors[s].worst, error);
        }
    }
    return errors;
}

void report(const char* name, const Error& error) {
    std::printf("%s column between nodes: mean error %.4f %%, max %.3f %%, seed %u\n", name,
                100.0 * error.mean, 100.0 * error.worst, kSeed);
}

TEST(Columns, OfAirAndOzoneBetweenNodesAreThoseOfATracedRay) {
    const auto errors = errors_at_random_places(1500.0, 90.0, 3000);
    report("air", errors[0]);
    report("ozone", errors[1]);
    EXPECT_LT(errors[0].mean, 0.001);
    EXPECT_LT(errors[1].mean, 0.001);
    EXPECT_LT(errors[0].worst, 0.003);
    EXPECT_LT(errors[1].worst, 0.003);
}

TEST(Columns, OfAerosolBetweenNodesAreThoseOfATracedRay) {
    const auto errors = errors_at_random_places(1500.0, 90.0, 3000);
    report("aerosol", errors[2]);
    EXPECT_LT(errors[2].mean, 0.004);
    EXPECT_LT(errors[2].worst, 0.01);
}

TEST(Columns, BesideTheShadowEdgeAreThoseOfATracedRay) {
    const auto errors = errors_at_random_places(1500.0, 2.0, 3000);
    report("air, last 2 deg", errors[0]);
    report("aerosol, last 2 deg", errors[2]);
    EXPECT_LT(errors[0].worst, 0.005);
    EXPECT_LT(errors[2].worst, 0.03);
}

TEST(Columns, OfAerosolBetweenScaleHeightsAreThoseOfATracedRay) {
    Error all;
    for (const double scale_height_m : {950.0, 1300.0, 1750.0, 2250.0}) {
        const Error error = errors_at_random_places(scale_height_m, 10.0, 1000)[2];
        all = {std::max(all.mean, error.mean), std::max(all.worst, error.worst)};
    }
    report("aerosol between scale heights", all);
    EXPECT_LT(all.mean, 0.01);
    EXPECT_LT(all.worst, 0.05);
}

TEST(Columns, EdgeOfTheShadowLiesWhereTheLastTracedRayEnds) {
    for (const double height_m : {0.0, 1000.0, 4000.0, 9000.0, 20000.0}) {
        const double last_rad = air::grazing_zenith(height_m).radians() - 1e-5;
        const auto zenith = air::trace_to_space(height_m, Angle::radians(last_rad), {}, {});
        EXPECT_NEAR(tables().columns.shadow_edge_rad(height_m) / kDegree_rad, zenith->degrees(), 0.02)
            << height_m;
    }
}

TEST(Columns, ApparentZenithAngleUndoesTheTrace) {
    for (const double height_m : {0.0, 1500.0, 4000.0, 9000.0}) {
        for (const double apparent_deg : {0.0, 30.0, 80.0, 88.0, 89.9}) {
            const auto zenith = air::trace_to_space(height_m, Angle::degrees(apparent_deg), {}, {});
            EXPECT_NEAR(tables().columns.apparent_zenith_rad(height_m, zenith->radians()) / kDegree_rad,
                        apparent_deg, 0.005)
                << height_m;
        }
    }
}

TEST(Columns, BelowTheEdgeOfTheDiscThereIsNoPlace) {
    const ColumnTable& columns = tables().columns;
    const double edge_rad = columns.shadow_edge_rad(4000.0);
    EXPECT_TRUE(columns.place(4000.0, edge_rad + 0.29 * kDegree_rad));
    EXPECT_FALSE(columns.place(4000.0, edge_rad + 0.31 * kDegree_rad));
}

TEST(Columns, HeightsOutsideTheAirAreThoseOfItsEnds) {
    const ColumnTable& columns = tables().columns;
    EXPECT_EQ(columns.place(-300.0, 1.0)->row_share, columns.place(0.0, 1.0)->row_share);
    EXPECT_EQ(columns.place(2e5, 1.0)->row_share, columns.place(1e5, 1.0)->row_share);
}

}  // namespace
}  // namespace gloam::sky
