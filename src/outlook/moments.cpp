#include "outlook/moments.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace gloam::outlook {
namespace {

std::vector<TrueAltitude> altitudes_of_interest() {
    std::vector<TrueAltitude> all;
    for (int quarter = -36; quarter <= 40; ++quarter) {
        const double elevation_deg = quarter / 4.0;
        const bool fine = elevation_deg >= -6.5 && elevation_deg <= 3.0;
        if (fine || quarter % 2 == 0) {
            all.push_back({Angle::degrees(elevation_deg)});
        }
    }
    return all;
}

Error no_twilight(const astro::HalfDay& half_day) {
    const bool high = half_day.lowest.angle.degrees() > -0.5;
    return {ErrorKind::kNotFound,
            high ? fmt::format("the sun stays up: it sinks no lower than {:+.1f} deg",
                               half_day.lowest.angle.degrees())
                 : fmt::format("the sun stays down: it climbs no higher than {:+.1f} deg",
                               half_day.highest.angle.degrees()),
            high ? "no twilight at this place and date" : "no twilight colour at this place and date",
            "choose another date, or another place"};
}

}  // namespace

bool is_after(Angle sun_elevation) {
    return sun_elevation.degrees() > -6.01 && sun_elevation.degrees() < -0.49;
}

bool is_gold(Angle sun_elevation) {
    return sun_elevation.degrees() >= -0.49 && sun_elevation.degrees() < 3.01;
}

Result<std::vector<Moment>> moments_of(const astro::Observer& observer, const astro::HalfDay& half_day) {
    const auto altitudes = altitudes_of_interest();
    const auto outcomes = astro::sun_crossings(observer, half_day, altitudes);
    // It changes by less than .02 % in a half day.
    const double distance_m = position_of(astro::Body::kSun, observer, half_day.span.begin).distance_m;
    std::vector<Moment> moments;
    bool any_after = false;
    for (std::size_t i = 0; i < altitudes.size(); ++i) {
        if (const auto* crossing = std::get_if<astro::Crossing>(&outcomes[i])) {
            const Angle elevation = altitudes[i].angle;
            moments.push_back(
                {crossing->instant, crossing->azimuth, {elevation, distance_m / kAstronomicalUnit_m}});
            any_after = any_after || is_after(elevation);
        }
    }
    if (!any_after) {
        return tl::unexpected(no_twilight(half_day));
    }
    std::sort(moments.begin(), moments.end(),
              [](const Moment& a, const Moment& b) { return a.instant < b.instant; });
    return moments;
}

}  // namespace gloam::outlook
