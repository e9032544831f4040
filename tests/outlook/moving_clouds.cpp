#include "outlook/moving_clouds.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <vector>

#include "outlook/member_air.hpp"
#include "sky/sky_mixer.hpp"
#include "support/equator_dawn.hpp"
#include "weather/forecast.hpp"

namespace gloam::outlook {
namespace {

/// A real dawn on the Ionian coast.
struct RealDawn {
    weather::LayeredForecast forecast;
    EventRequest request;
    std::vector<Moment> moments;
};

const RealDawn& real_dawn() {
    static const RealDawn kDawn = [] {
        const std::vector<std::filesystem::path> files{
            GLOAM_SOURCE_DIR "/data/weather/gfs-global-1deg-2025012900-f006-tcdc-profile.grib2"};
        const auto read = weather::read_forecast(files).value();
        RealDawn dawn;
        dawn.forecast = weather::layers_of(read).value();
        const astro::Observer observer{{37.07, 15.29}, HeightMsl{0.0}};
        dawn.request.observer = observer;
        dawn.request.half_day =
            astro::half_day_of(observer, geo::Zone::named("Europe/Rome").value(),
                               parse_civil_date("2025-01-29").value(), astro::EventKind::kDawn)
                .value();
        dawn.request.run_time = read.run_time;
        dawn.moments = moments_of(observer, dawn.request.half_day).value();
        return dawn;
    }();
    return kDawn;
}

std::vector<sky::CloudLayer> read_at(const Member& member, std::size_t moment) {
    const RealDawn& dawn = real_dawn();
    return member_clouds(dawn.forecast, member, dawn.request.observer.at, dawn.moments[moment].azimuth,
                         dawn.moments[moment].instant)
        .value();
}

MovingClouds moving(const Member& member) {
    const RealDawn& dawn = real_dawn();
    return moving_clouds(dawn.forecast, member, dawn.request.observer.at, dawn.moments).value();
}

Member member(std::size_t index) {
    return members_of(real_dawn().forecast, real_dawn().request)[index];
}

TEST(MovingClouds, AreTheForecastsOwnAtEveryFourthMomentAndTheLast) {
    const MovingClouds clouds = moving(member(3));
    for (const std::size_t moment : {std::size_t{0}, std::size_t{8}, real_dawn().moments.size() - 1}) {
        EXPECT_EQ(clouds.at(real_dawn().moments[moment].instant)[2].cover,
                  read_at(member(3), moment)[2].cover);
        EXPECT_EQ(clouds.at(real_dawn().moments[moment].instant)[1].base_m,
                  read_at(member(3), moment)[1].base_m);
    }
}

TEST(MovingClouds, GoStraightBetween) {
    const MovingClouds clouds = moving(member(3));
    const auto& moments = real_dawn().moments;
    const double share = hours_between(moments[8].instant, moments[9].instant) /
                         hours_between(moments[8].instant, moments[12].instant);
    const auto cover = [&](std::size_t moment) {
        return static_cast<double>(clouds.at(real_dawn().moments[moment].instant)[0].cover[1][60]);
    };
    EXPECT_NEAR(cover(9), cover(8) + share * (cover(12) - cover(8)), 1e-6);
}

TEST(MovingClouds, ChangeNoStrengthByHalfAPoint) {
    const RealDawn& dawn = real_dawn();
    double worst = 0.0;
    for (const std::size_t index : {0U, 7U, 19U}) {
        const Member one = member(index);
        const MovingClouds clouds = moving(one);
        const sky::Air air(synthetic::tables(), atmosphere_of(one.draw, dawn.request));
        const sky::AirPalette palette(air, 0.0);
        for (std::size_t i = 2; i < dawn.moments.size(); i += 4) {
            const sky::SkyPalette sun(palette, dawn.moments[i].sun.elevation);
            const auto strength = [&](std::vector<sky::CloudLayer> layers) {
                sky::MixedSky mixed;
                mix(sun, sky::CloudLines(std::move(layers)), 1.0, mixed);
                return colour_strength(mixed).value;
            };
            const double change =
                std::abs(strength(clouds.at(dawn.moments[i].instant)) - strength(read_at(one, i)));
            ASSERT_TRUE(std::isfinite(change));
            worst = std::max(worst, change);
        }
    }
    std::printf("moving clouds: strength changed by at most %.3f\n", worst);
    EXPECT_LT(worst, 0.5);
}

TEST(MovingClouds, OutsideTheForecastsHoursAreRefused) {
    RealDawn later = real_dawn();
    for (Moment& moment : later.moments) {
        moment.instant += hours(48.0);
    }
    const auto refused = moving_clouds(later.forecast, member(0), later.request.observer.at, later.moments);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::kOutOfDomain);
}

}  // namespace
}  // namespace gloam::outlook
