#include "sheet/ray_light.hpp"

#include <gtest/gtest.h>

#include "sheet/example.hpp"

namespace gloam::sheet {
namespace {

using weather::Band;

outlook::SectionRay through(std::vector<outlook::SectionMeeting> meetings) {
    outlook::SectionRay ray = example::ray(0, -1.9);
    ray.meetings = std::move(meetings);
    return ray;
}

TEST(RayLight, AFreeRayKeepsItsLight) {
    EXPECT_DOUBLE_EQ(light_left(through({}), 0.0), 1.0);
    EXPECT_FALSE(stop_of(through({})));
}

TEST(RayLight, CloudTakesLightOnTheSideAwayFromTheSun) {
    const auto ray = through({{100e3, 200e3, Band::kLow, 0.25}});
    EXPECT_DOUBLE_EQ(light_left(ray, 250e3), 1.0);
    EXPECT_DOUBLE_EQ(light_left(ray, 150e3), 0.5);
    EXPECT_DOUBLE_EQ(light_left(ray, 50e3), 0.25);
}

TEST(RayLight, AllMeetingsCount) {
    const auto ray = through({{100e3, 200e3, Band::kLow, 0.8}, {300e3, 400e3, Band::kHigh, 0.5}});
    EXPECT_NEAR(light_left(ray, 0.0), 0.4, 1e-12);
    EXPECT_NEAR(light_left(ray, 250e3), 0.5, 1e-12);
}

TEST(RayLight, StopsWhereHalfIsGone) {
    const auto ray = through({{100e3, 200e3, Band::kLow, 0.25}});
    ASSERT_TRUE(stop_of(ray));
    EXPECT_NEAR(stop_of(ray)->along_m, 150e3, 1.0);
    EXPECT_EQ(stop_of(ray)->band, Band::kLow);
}

TEST(RayLight, StopsInTheCloudThatTakesTheRest) {
    const auto ray = through({{100e3, 200e3, Band::kMiddle, 0.25}, {300e3, 400e3, Band::kHigh, 0.7}});
    ASSERT_TRUE(stop_of(ray));
    EXPECT_EQ(stop_of(ray)->band, Band::kMiddle);
    EXPECT_GT(stop_of(ray)->along_m, 150e3);
}

TEST(RayLight, OpaqueCloudStopsAtItsSunwardEdge) {
    const auto ray = through({{100e3, 200e3, Band::kLow, 0.0}});
    EXPECT_EQ(light_left(ray, 0.0), 0.0);
    ASSERT_TRUE(stop_of(ray));
    EXPECT_NEAR(stop_of(ray)->along_m, 200e3, 1.0);
}

TEST(RayLight, AMeetingWithoutLengthCounts) {
    const auto ray = through({{100e3, 100e3, Band::kLow, 0.3}});
    EXPECT_DOUBLE_EQ(light_left(ray, 0.0), 0.3);
    EXPECT_DOUBLE_EQ(light_left(ray, 150e3), 1.0);
}

TEST(RayLight, NoneInTheEarthsShadow) {
    const auto ray = example::ray(-10, -4.0);
    ASSERT_FALSE(ray.lit);
    EXPECT_EQ(light_left(ray, 0.0), 0.0);
    EXPECT_FALSE(stop_of(ray));
}

}  // namespace
}  // namespace gloam::sheet
