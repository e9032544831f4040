#include <cmath>
#include <numbers>

#include "astro/crossing.hpp"
#include "astro/monotone.hpp"
#include "astro/track.hpp"

namespace gloam::astro {
namespace {

constexpr double kTurn = 2.0 * std::numbers::pi;

/// Mean turn of the Earth under the sun, radians an hour.
constexpr double kHourAngleRate_rad_h = kTurn / 24.0;

/// The true solar day differs from 24 h by half a minute at most.
constexpr Duration kDoubt = std::chrono::minutes(2);

/// Which passage of the meridian; its value is the sun's hour angle there, radians.
enum class Meridian { kNoon, kMidnight };

double in_half_turns(double angle_rad) {
    return std::remainder(angle_rad, kTurn);
}

/// The sun's hour angle at a longitude less that of the wanted passage, radians, -pi to pi, over time.
Curve past_meridian(const Track& sun, double lon_deg, Meridian meridian) {
    const double meridian_rad =
        Angle::degrees(lon_deg).radians() - (meridian == Meridian::kNoon ? 0.0 : std::numbers::pi);
    return [&sun, meridian_rad](Instant instant) {
        const Vec3 place = sun.place_at(instant);
        return in_half_turns(meridian_rad - std::atan2(place.y, place.x));
    };
}

/// The passage nearest to `guess`: the first millisecond past the meridian.
Instant passage_near(const Curve& past, Instant guess) {
    const Instant near = guess - hours(past(guess) / kHourAngleRate_rad_h);
    return passage(past, near - kDoubt, near + kDoubt);
}

}  // namespace

Result<HalfDay> half_day_of(const Observer& observer, const geo::Zone& zone, CivilDate date, EventKind kind) {
    const auto day = zone.span_of(date);
    if (!day) {
        return tl::unexpected(day.error());
    }
    const Duration reach = std::chrono::hours(25);
    const Instant middle = day->begin + (day->end - day->begin) / 2;
    const Track sun(Body::kSun, {middle - reach, middle + reach});
    const Station station(observer);
    const double lon_deg = observer.at.lon_deg;
    const Instant noon = passage_near(past_meridian(sun, lon_deg, Meridian::kNoon), middle);
    const Duration half = std::chrono::hours(kind == EventKind::kDawn ? -12 : 12);
    const Instant midnight = passage_near(past_meridian(sun, lon_deg, Meridian::kMidnight), noon + half);
    return HalfDay{.kind = kind,
                   .span = kind == EventKind::kDawn ? geo::InstantSpan{midnight, noon}
                                                    : geo::InstantSpan{noon, midnight},
                   .lowest = sun.seen_from(station, midnight).altitude,
                   .highest = sun.seen_from(station, noon).altitude};
}

}  // namespace gloam::astro
