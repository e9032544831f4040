#include "sheet/arch.hpp"

#include <gtest/gtest.h>

#include "sheet/example.hpp"

namespace gloam::sheet {
namespace {

constexpr Box kBox{100.0, 50.0, 1000.0, 400.0};

TEST(Arch, FillsItsBox) {
    const Arch arch(kBox);
    EXPECT_NEAR(arch.at(-Arch::kBehind_m, 0.0).x, 100.0, 1e-9);
    EXPECT_NEAR(arch.at(-Arch::kBehind_m, 0.0).y, 450.0, 1e-9);
    EXPECT_NEAR(arch.at(Arch::kAhead_m, 0.0).x, 1100.0, 1e-9);
    EXPECT_NEAR(arch.at(Arch::kAhead_m, 0.0).y, 450.0, 1e-9);
    EXPECT_NEAR(arch.at(210.0e3, Arch::kTop_m).y, 50.0, 1e-9);
}

TEST(Arch, StraightLightIsStraight) {
    const Arch arch(kBox);
    for (const double elevation_deg : {-3.0, -1.0, 0.0, 2.0}) {
        const auto at = [&](double along_m) {
            return arch.at(along_m, example::straight_height(9.0e3, elevation_deg, along_m));
        };
        const Point near = at(0.0);
        const Point far = at(500.0e3);
        for (const double share : {0.1, 0.5, 0.8}) {
            const Point between = at(share * 500.0e3);
            EXPECT_NEAR(between.y, std::lerp(near.y, far.y, share), 1e-9) << elevation_deg << " " << share;
        }
    }
}

TEST(Arch, TheGroundDropsAsTheSphereDoes) {
    const Arch arch(kBox);
    const double drop_px = arch.at(410.0e3, 0.0).y - arch.at(210.0e3, 0.0).y;
    EXPECT_NEAR(drop_px / arch.px_per_height_m(), 200.0e3 * 200.0e3 / (2.0 * 6371.0e3), 1e-6);
}

TEST(Arch, StretchIsTheRatioOfTheTwoScales) {
    const Arch arch(kBox);
    const double across = arch.at(101.0e3, 0.0).x - arch.at(100.0e3, 0.0).x;
    const double up = arch.at(100.0e3, 0.0).y - arch.at(100.0e3, 1.0e3).y;
    EXPECT_NEAR(arch.stretch(), up / across, 1e-9);
    EXPECT_NEAR(arch.px_per_m(), across / 1.0e3, 1e-12);
}

TEST(Arch, ALineOfOneHeightKeepsIt) {
    const Arch arch(kBox);
    const std::vector<Point> ground = arch.line_at(0.0);
    const std::vector<Point> line = arch.line_at(10.0e3);
    ASSERT_EQ(line.size(), ground.size());
    for (std::size_t i = 0; i < line.size(); ++i) {
        EXPECT_NEAR(ground[i].y - line[i].y, 10.0e3 * arch.px_per_height_m(), 1e-9);
    }
}

}  // namespace
}  // namespace gloam::sheet
