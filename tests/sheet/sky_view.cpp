#include "sheet/sky_view.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

namespace gloam::sheet {
namespace {

constexpr double kDegree = std::numbers::pi / 180.0;

TEST(SkyView, StripHasTheSunsAzimuthInTheMiddleAndTheLevelASixthUp) {
    const SkyView view = SkyView::strip(1440).value();
    EXPECT_EQ(view.height_px(), 360);
    const SkyDirection middle = view.direction_at(720.0, 300.0);
    EXPECT_NEAR(middle.azimuth_rad, 0.0, 1e-12);
    EXPECT_NEAR(middle.elevation_rad, 0.0, 1e-12);
}

TEST(SkyView, StripIsTheWholeCircleAnd90DegreesHigh) {
    const SkyView view = SkyView::strip(1440).value();
    EXPECT_NEAR(view.direction_at(1440.0, 0.0).azimuth_rad - view.direction_at(0.0, 0.0).azimuth_rad,
                360.0 * kDegree, 1e-12);
    EXPECT_NEAR(view.direction_at(0.0, 0.0).elevation_rad, 75.0 * kDegree, 1e-12);
    EXPECT_NEAR(view.direction_at(0.0, 360.0).elevation_rad, -15.0 * kDegree, 1e-12);
}

TEST(SkyView, LensHasTheLevelAThirdUpRightAcrossTheFrame) {
    const SkyView view = SkyView::lens(24.0, Angle{}, 1200).value();
    EXPECT_EQ(view.height_px(), 800);
    const double third_up = 800.0 * 2.0 / 3.0;
    for (const double x_px : {0.0, 300.0, 600.0, 1200.0}) {
        EXPECT_NEAR(view.direction_at(x_px, third_up).elevation_rad, 0.0, 1e-9) << x_px;
    }
}

/// Angle between two directions.
double between(const SkyDirection& a, const SkyDirection& b) {
    return std::acos(std::sin(a.elevation_rad) * std::sin(b.elevation_rad) +
                     std::cos(a.elevation_rad) * std::cos(b.elevation_rad) *
                         std::cos(a.azimuth_rad - b.azimuth_rad));
}

TEST(SkyView, LensOf24MillimetresCovers73Point7DegreesAcrossItsMiddle) {
    const SkyView view = SkyView::lens(24.0, Angle::degrees(30.0), 1200).value();
    EXPECT_NEAR(between(view.direction_at(0.0, 400.0), view.direction_at(1200.0, 400.0)) / kDegree, 73.74,
                0.01);
}

TEST(SkyView, LensLooksWhereItIsPointed) {
    const SkyView view = SkyView::lens(50.0, Angle::degrees(-40.0), 900).value();
    EXPECT_NEAR(view.direction_at(450.0, 300.0).azimuth_rad / kDegree, -40.0, 1e-9);
    EXPECT_GT(view.direction_at(451.0, 300.0).azimuth_rad, view.direction_at(450.0, 300.0).azimuth_rad);
}

class FocalLengthThatIsNone : public ::testing::TestWithParam<double> {};

TEST_P(FocalLengthThatIsNone, IsRefused) {
    const auto view = SkyView::lens(GetParam(), Angle{}, 900);
    ASSERT_FALSE(view);
    EXPECT_EQ(view.error().kind, ErrorKind::kBadInput);
    EXPECT_EQ(view.error().where, "--view");
}

INSTANTIATE_TEST_SUITE_P(, FocalLengthThatIsNone,
                         ::testing::Values(0.0, -24.0, 7.9, 1e9, std::numeric_limits<double>::quiet_NaN(),
                                           std::numeric_limits<double>::infinity()));

class WidthThatIsNone : public ::testing::TestWithParam<int> {};

TEST_P(WidthThatIsNone, IsRefused) {
    EXPECT_FALSE(SkyView::strip(GetParam()));
    EXPECT_FALSE(SkyView::lens(24.0, Angle{}, GetParam()));
}

INSTANTIATE_TEST_SUITE_P(, WidthThatIsNone, ::testing::Values(-1, 0, 1, 63, 8001, 100000));

}  // namespace
}  // namespace gloam::sheet
