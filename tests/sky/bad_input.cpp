// The far ends of what can be asked of the sky, and a step beyond: light stays finite and not negative, or
// the number is refused where it comes in.
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "base/check.hpp"
#include "sky/colour_strength.hpp"
#include "sky/night.hpp"
#include "sky/ozone.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

using test::default_air;
using test::high_layer;
using test::layer;
using test::low_layer;
using test::middle_layer;
using test::sun_at;

/// No sky is brighter than the sun's own disc.
constexpr double kBrightest_cd_m2 = 2e9;

bool is_light(const Xyz& light) {
    return light.x >= 0.0 && light.y >= 0.0 && light.z >= 0.0 && light.x < kBrightest_cd_m2 &&
           light.y < kBrightest_cd_m2 && light.z < kBrightest_cd_m2;
}

void expect_a_sky(const Panorama& panorama) {
    for (const PanoramaCell& cell : panorama.cells) {
        double share = 0.0;
        for (std::size_t i = 0; i < cell.count; ++i) {
            ASSERT_TRUE(is_light(cell.patches[i].light));
            share += cell.patches[i].share;
        }
        ASSERT_NEAR(share, 1.0, 1e-12);
    }
}

Panorama sky_of(const Air& air, const std::vector<CloudLayer>& layers, double sun_deg,
                double viewer_height_m = 0.0) {
    const CloudField clouds(layers);
    Panorama panorama =
        SkyPainter(air, viewer_height_m, PanoramaGrid::standard()).paint(clouds, sun_at(sun_deg));
    add_night({}, air, clouds, panorama);
    return panorama;
}

std::vector<CloudLayer> some_cloud() {
    return {low_layer(0.3), middle_layer(0.5, 120.0), high_layer(0.8, 250.0)};
}

struct ExtremeAir {
    const char* name;
    Atmosphere atmosphere;
};

class AirAtItsEnds : public ::testing::TestWithParam<ExtremeAir> {};

TEST_P(AirAtItsEnds, StillMakesASky) {
    const Air air(test::tables(), GetParam().atmosphere);
    for (const double sun_deg : {-18.0, -6.0, -1.0, 5.0}) {
        expect_a_sky(sky_of(air, some_cloud(), sun_deg));
    }
}

Atmosphere with(double Atmosphere::*amount, double value) {
    Atmosphere atmosphere;
    atmosphere.*amount = value;
    return atmosphere;
}

INSTANTIATE_TEST_SUITE_P(
    , AirAtItsEnds,
    ::testing::Values(ExtremeAir{"NoAerosol", with(&Atmosphere::aerosol_depth_550, 0.0)},
                      ExtremeAir{"SmokeOfAFire", with(&Atmosphere::aerosol_depth_550, 5.0)},
                      ExtremeAir{"NoOzone", with(&Atmosphere::ozone_du, 0.0)},
                      ExtremeAir{"OzoneOf600Du", with(&Atmosphere::ozone_du, 600.0)},
                      ExtremeAir{"BlackGround", with(&Atmosphere::ground_albedo, 0.0)},
                      ExtremeAir{"WhiteGround", with(&Atmosphere::ground_albedo, 1.0)},
                      ExtremeAir{"AerosolOnTheGround", with(&Atmosphere::aerosol_scale_height_m, 100.0)},
                      ExtremeAir{"AerosolToTheStratosphere", with(&Atmosphere::aerosol_scale_height_m, 1e4)}),
    [](const auto& air) { return std::string(air.param.name); });

class SunAt : public ::testing::TestWithParam<double> {};

TEST_P(SunAt, MakesASky) {
    expect_a_sky(sky_of(default_air(), some_cloud(), GetParam()));
}

INSTANTIATE_TEST_SUITE_P(, SunAt, ::testing::Values(90.0, 0.0, -12.0, -18.0, -60.0, -90.0),
                         [](const auto& sun) {
                             return (sun.param < 0.0 ? "Minus" : "") +
                                    std::to_string(static_cast<int>(std::abs(sun.param)));
                         });

class ViewerHeight : public ::testing::TestWithParam<double> {};

TEST_P(ViewerHeight, HasASky) {
    for (const double sun_deg : {-12.0, -1.0, 5.0}) {
        expect_a_sky(sky_of(default_air(), some_cloud(), sun_deg, GetParam()));
    }
}

INSTANTIATE_TEST_SUITE_P(, ViewerHeight, ::testing::Values(-430.0, 5000.0, 9000.0), [](const auto& height) {
    return (height.param < 0.0 ? "Below" : "") + std::to_string(static_cast<int>(std::abs(height.param)));
});

struct OddCloud {
    const char* name;
    std::vector<CloudLayer> layers;
};

class CloudOutOfOrder : public ::testing::TestWithParam<OddCloud> {};

TEST_P(CloudOutOfOrder, StillMakesASky) {
    for (const double sun_deg : {-12.0, -1.5, 5.0}) {
        expect_a_sky(sky_of(default_air(), GetParam().layers, sun_deg));
    }
}

INSTANTIATE_TEST_SUITE_P(
    , CloudOutOfOrder,
    ::testing::Values(OddCloud{"HighBelowLow", {high_layer(0.5), low_layer(0.5)}},
                      OddCloud{"Overlapping",
                               {layer(CloudClass::kLow, 500.0, 6000.0, 0.5),
                                layer(CloudClass::kMiddle, 3000.0, 9000.0, 0.5)}},
                      OddCloud{"TwiceTheSame", {middle_layer(0.5), middle_layer(0.5)}},
                      OddCloud{"OnTheGround", {layer(CloudClass::kLow, 0.0, 300.0, 0.9)}},
                      OddCloud{"AMetreThick", {layer(CloudClass::kHigh, 9000.0, 9001.0, 0.5)}},
                      OddCloud{"CoverNothing", {low_layer(0.0), middle_layer(0.0), high_layer(0.0)}},
                      OddCloud{"CoverWhole", {low_layer(1.0), middle_layer(1.0), high_layer(1.0)}}),
    [](const auto& cloud) { return std::string(cloud.param.name); });

TEST(CloudLayer, WithItsTopUnderItsBaseIsAFault) {
    EXPECT_THROW(CloudField({layer(CloudClass::kLow, 2000.0, 1000.0, 0.5)}), InternalError);
}

struct OddMoon {
    const char* name;
    double elevation_deg, phase_deg, distance_ratio;
};

class MoonAtItsEnds : public ::testing::TestWithParam<OddMoon> {};

TEST_P(MoonAtItsEnds, LightsASky) {
    const OddMoon& moon = GetParam();
    const NightLights lights{MoonState{Angle::degrees(moon.elevation_deg), Angle::degrees(-170.0),
                                       Angle::degrees(moon.phase_deg), moon.distance_ratio},
                             0.1};
    const CloudField clouds(some_cloud());
    Panorama panorama = SkyPainter(default_air(), 0.0, PanoramaGrid::standard()).paint(clouds, sun_at(-18.0));
    add_night(lights, default_air(), clouds, panorama);
    expect_a_sky(panorama);
}

INSTANTIATE_TEST_SUITE_P(, MoonAtItsEnds,
                         ::testing::Values(OddMoon{"New", 30.0, 180.0, 1.0}, OddMoon{"Full", 30.0, 0.0, 1.0},
                                           OddMoon{"AtTheZenith", 90.0, 0.0, 0.9},
                                           OddMoon{"OnTheHorizon", 0.0, 10.0, 1.0},
                                           OddMoon{"BelowTheHorizon", -40.0, 10.0, 1.0},
                                           OddMoon{"AtTheNadir", -90.0, 0.0, 1.1}),
                         [](const auto& moon) { return std::string(moon.param.name); });

TEST(UsualOzone, IsAnAmountThatAirCanHoldEverywhereAndAlways) {
    for (int latitude_deg = -90; latitude_deg <= 90; latitude_deg += 5) {
        for (int longitude_deg = -180; longitude_deg <= 180; longitude_deg += 10) {
            for (int day = 1; day <= 366; day += 5) {
                const double du =
                    usual_ozone_du(Angle::degrees(latitude_deg), Angle::degrees(longitude_deg), day);
                ASSERT_GE(du, 200.0) << latitude_deg << " " << longitude_deg << " " << day;
                ASSERT_LE(du, 450.0) << latitude_deg << " " << longitude_deg << " " << day;
            }
        }
    }
}

}  // namespace
}  // namespace gloam::sky
