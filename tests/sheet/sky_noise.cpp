#include "sheet/sky_noise.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace gloam::sheet {
namespace {

// First output of splitmix64 from state 0 (Vigna's own test value, from memory).
TEST(SkyNoise, ScramblesAsSplitmix) {
    EXPECT_EQ(scrambled(0x9E3779B97F4A7C15U), 0xE220A8397B1DCDAFU);
}

TEST(SkyNoise, StaysWithinOneWithMeanNoughtFarFromTheOriginToo) {
    const Noise noise(7);
    double sum = 0.0;
    int count = 0;
    for (double x = -1.0e6; x < -1.0e6 + 60.0; x += 0.37) {
        for (double y = 0.0; y < 60.0; y += 0.41) {
            const double value = noise.at(x, y);
            ASSERT_LE(std::abs(value), 1.0);
            sum += value;
            ++count;
        }
    }
    EXPECT_NEAR(sum / count, 0.0, 0.02);
}

TEST(SkyNoise, HasNoStepAcrossTheLinesOfItsGrid) {
    const Noise noise(7);
    for (double y = 0.05; y < 5.0; y += 0.3) {
        EXPECT_NEAR(noise.at(3.0 - 1e-9, y), noise.at(3.0 + 1e-9, y), 1e-7);
    }
}

TEST(SkyNoise, IsAnotherWithAnotherSeed) {
    EXPECT_NE(Noise(1).at(0.4, 0.3), Noise(2).at(0.4, 0.3));
}

}  // namespace
}  // namespace gloam::sheet
