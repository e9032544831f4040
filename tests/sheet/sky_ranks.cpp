#include "sheet/sky_ranks.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace gloam::sheet {
namespace {

constexpr double kDegree = std::numbers::pi / 180.0;

std::vector<RankSample> samples_of(double (*value)(const SkyDirection&)) {
    std::vector<RankSample> samples;
    for (const LatticePoint& point : sky_lattice()) {
        samples.push_back({point.direction, value(point.direction), point.solid_angle});
    }
    return samples;
}

/// Looks random, and grows ten times as large behind as in front.
double uneven(const SkyDirection& direction) {
    const double noise =
        0.5 + 0.5 * std::sin(9.1e3 * direction.azimuth_rad + 7.3e3 * direction.elevation_rad);
    return noise * (1.0 + 9.0 * std::abs(direction.azimuth_rad) / std::numbers::pi);
}

TEST(SkyLattice, CoversTheHalfSphereEvenlyByItsWeights) {
    double all = 0.0;
    double low = 0.0;  // below 30 deg: half of the half sphere
    for (const LatticePoint& point : sky_lattice()) {
        all += point.solid_angle;
        low += point.direction.elevation_rad < 30.0 * kDegree ? point.solid_angle : 0.0;
    }
    EXPECT_NEAR(low / all, 0.5, 0.01);
}

TEST(LocalRanks, LeaveTheWantedShareInEveryNeighbourhood) {
    const auto samples = samples_of(uneven);
    const LocalRanks ranks(samples);
    for (double middle_deg = -180.0; middle_deg < 180.0; middle_deg += 30.0) {
        double above = 0.0;
        double all = 0.0;
        for (const RankSample& sample : samples) {
            const double off_deg = std::remainder(sample.direction.azimuth_rad / kDegree - middle_deg, 360.0);
            if (std::abs(off_deg) < 15.0 && sample.direction.elevation_rad < 30.0 * kDegree) {
                all += sample.weight;
                above += ranks.rank(sample.direction, sample.value) > 0.7 ? sample.weight : 0.0;
            }
        }
        EXPECT_NEAR(above / all, 0.3, 0.03) << middle_deg;
    }
}

TEST(LocalRanks, RiseWithTheValueFromNoughtToOne) {
    const LocalRanks ranks(samples_of(uneven));
    const SkyDirection direction{0.5, 0.3};
    EXPECT_EQ(ranks.rank(direction, -1.0), 0.0);
    EXPECT_EQ(ranks.rank(direction, 100.0), 1.0);
    double before = 0.0;
    for (double value = 0.0; value < 3.0; value += 0.1) {
        EXPECT_GE(ranks.rank(direction, value), before);
        before = ranks.rank(direction, value);
    }
}

TEST(Neighbours, ShareADirectionBetweenThem) {
    for (const double elevation_deg : {0.0, 1.0, 44.0, 90.0}) {
        for (const double azimuth_deg : {-180.0, -3.0, 0.0, 179.9, 180.0}) {
            const Neighbours near = neighbours_of({azimuth_deg * kDegree, elevation_deg * kDegree});
            double sum = 0.0;
            for (std::size_t i = 0; i < near.places.size(); ++i) {
                EXPECT_LT(near.places[i], neighbourhood_count());
                EXPECT_GE(near.shares[i], 0.0);
                sum += near.shares[i];
            }
            EXPECT_NEAR(sum, 1.0, 1e-12);
        }
    }
}

TEST(LocalMean, OfAConstantIsTheConstant) {
    const LocalMean mean(samples_of([](const SkyDirection&) { return 0.3; }));
    EXPECT_NEAR(mean.at({1.0, 0.2}), 0.3, 1e-12);
}

TEST(ShareCorrection, LeavesNoneAndAllAsTheyAre) {
    std::vector<ShareCorrection::Point> points;
    for (const LatticePoint& point : sky_lattice()) {
        points.push_back({neighbours_of(point.direction), point.solid_angle, 0.6, 0.2, 0.25});
    }
    ShareCorrection correction;
    correction.improve(points);
    EXPECT_EQ(correction.corrected(0.0, {0.1, 0.2}), 0.0);
    EXPECT_EQ(correction.corrected(1.0, {0.1, 0.2}), 1.0);
    EXPECT_GT(correction.corrected(0.2, {0.1, 0.2}), 0.3);
}

}  // namespace
}  // namespace gloam::sheet
