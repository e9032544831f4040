#include "outlook/member_sky.hpp"

#include <fmt/format.h>

#include <numbers>

#include "astro/phase.hpp"
#include "outlook/member_air.hpp"
#include "outlook/member_clouds.hpp"

namespace gloam::outlook {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kMeanMoonDistance_m = 384400e3;
constexpr double kLowestSun_deg = -18.0;
constexpr double kHighestSun_deg = 20.0;

SunPlace sun_place(const astro::BodyPosition& sun) {
    return {sun.azimuth, {sun.altitude.angle, sun.distance_m / kAstronomicalUnit_m}};
}

sky::MoonState moon_state(const astro::BodyPosition& sun, const astro::BodyPosition& moon) {
    return {moon.altitude.angle, turn(sun.azimuth, moon.azimuth), phase_angle(sun, moon),
            moon.distance_m / kMeanMoonDistance_m};
}

/// Mean light of the disc: that of the beam over its solid angle.
sky::Xyz disc_light(const sky::Air& air, double height_m, double zenith_rad, double distance_au) {
    sky::Spectrum beam = air.beam.transmission(height_m, zenith_rad);
    for (std::size_t b = 0; b < sky::kBands; ++b) {
        beam[b] *= air.bands->sun_w_m2_nm[b];
    }
    const double radius_rad = sky::kSunRadius_rad / distance_au;
    return air.bands->xyz(beam) * (1.0 / (kPi * radius_rad * radius_rad * distance_au * distance_au));
}

}  // namespace

SeenSky see_sky(const sky::Air& air, const sky::SkyPainter& painter, double viewer_height_m,
                const sky::CloudField& clouds, const SunPlace& sun, const sky::NightLights& night) {
    sky::Panorama panorama = painter.paint(clouds, sun.state);
    add_night(night, air, clouds, panorama);
    const double zenith_rad = kPi / 2.0 - sun.state.elevation.radians();
    const double seen_rad = air.beam.columns().apparent_zenith_rad(viewer_height_m, zenith_rad);
    return {viewer_height_m,
            sun,
            {Angle::radians(kPi / 2.0 - seen_rad)},
            disc_light(air, viewer_height_m, zenith_rad, sun.state.distance_au),
            clouds,
            std::move(panorama)};
}

MemberSkies::MemberSkies(const sky::SkyTables& tables, const weather::LayeredForecast& forecast,
                         const EventRequest& request, Member member, const sky::PanoramaGrid& grid)
    : forecast_(&forecast),
      request_(request),
      member_(member),
      air_(std::make_unique<sky::Air>(tables, atmosphere_of(member.draw, request))),
      painter_(*air_, request.observer.height.metres, grid) {}

Result<MemberSkies> MemberSkies::of(const sky::SkyTables& tables, const weather::LayeredForecast& forecast,
                                    const EventRequest& request, std::size_t index,
                                    const sky::PanoramaGrid& grid) {
    const auto members = members_of(forecast, request);
    if (index >= members.size()) {
        return fail(ErrorKind::kNotFound, fmt::format("there is no member {}", index + 1), "--member",
                    fmt::format("give 1 to {}", members.size()));
    }
    return MemberSkies(tables, forecast, request, members[index], grid);
}

Result<SeenSky> MemberSkies::at(Instant instant) const {
    const auto sun_position = position_of(astro::Body::kSun, request_.observer, instant);
    const SunPlace sun = sun_place(sun_position);
    const double elevation_deg = sun.state.elevation.degrees();
    if (elevation_deg < kLowestSun_deg || elevation_deg > kHighestSun_deg) {
        return fail(
            ErrorKind::kOutOfDomain,
            fmt::format("the sun stands at {:+.1f} deg at {}", elevation_deg, to_rfc3339_utc(instant)),
            "skies are worked out with the sun at -18 to +20 deg", "choose a time nearer the event");
    }
    return member_clouds(*forecast_, member_, request_.observer.at, sun.azimuth, instant)
        .map([&](const std::vector<sky::CloudLayer>& layers) {
            const auto moon_position = position_of(astro::Body::kMoon, request_.observer, instant);
            return see_sky(*air_, painter_, request_.observer.height.metres, sky::CloudField(layers), sun,
                           {moon_state(sun_position, moon_position), request_.town_zenith_cd_m2});
        });
}

}  // namespace gloam::outlook
