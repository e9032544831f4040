#include "astro/geocentric.hpp"

#include <erfa.h>
#include <erfam.h>

#include <cmath>

#include "astro/time_scales.hpp"

namespace gloam::astro {
namespace {

/// Place and velocity relative to the Earth's centre, au and au a day, axes of the GCRS.
struct Motion {
    Vec3 place_au;
    Vec3 velocity_au_day;
};

Vec3 to_vec3(const double (&p)[3]) {
    return {p[0], p[1], p[2]};
}

Motion motion_of_sun(JulianDate tt) {
    double from_sun[2][3];
    double from_barycentre[2][3];
    // The status only tells that the date lies outside 1900 to 2100, where the errors begin to grow.
    eraEpv00(tt.midnight, tt.day_part, from_sun, from_barycentre);
    return {-1.0 * to_vec3(from_sun[0]), -1.0 * to_vec3(from_sun[1])};
}

Motion motion_of_moon(JulianDate tt) {
    double from_earth[2][3];
    eraMoon98(tt.midnight, tt.day_part, from_earth);
    return {to_vec3(from_earth[0]), to_vec3(from_earth[1])};
}

/// Light time and aberration together show a body where it stood relative to the Earth one light time ago, to
/// the square of v/c, 0.002" (Explanatory Supplement to the Astronomical Almanac, planetary aberration).
Vec3 as_light_shows_it(const Motion& motion) {
    constexpr double kLightDaysPerAu = ERFA_AULT / ERFA_DAYSEC;
    return motion.place_au - length(motion.place_au) * kLightDaysPerAu * motion.velocity_au_day;
}

/// From the axes of the GCRS to the celestial intermediate frame of date.
Vec3 of_date(Vec3 celestial, JulianDate tt) {
    double nutation_longitude = 0.0;
    double nutation_obliquity = 0.0;
    eraNut00b(tt.midnight, tt.day_part, &nutation_longitude, &nutation_obliquity);
    double obliquity = 0.0;
    double bias[3][3];
    double precession[3][3];
    double bias_precession[3][3];
    double nutation[3][3];
    double all[3][3];
    eraPn06(tt.midnight, tt.day_part, nutation_longitude, nutation_obliquity, &obliquity, bias, precession,
            bias_precession, nutation, all);
    double pole_x = 0.0;
    double pole_y = 0.0;
    eraBpn2xy(all, &pole_x, &pole_y);
    double to_intermediate[3][3];
    eraC2ixys(pole_x, pole_y, eraS06(tt.midnight, tt.day_part, pole_x, pole_y), to_intermediate);
    double from[3] = {celestial.x, celestial.y, celestial.z};
    double to[3];
    eraRxp(to_intermediate, from, to);
    return to_vec3(to);
}

}  // namespace

Vec3 geocentric_place(Body body, Instant instant) {
    const JulianDate tt = terrestrial_time(instant);
    const Motion motion = body == Body::kSun ? motion_of_sun(tt) : motion_of_moon(tt);
    return ERFA_DAU * of_date(as_light_shows_it(motion), tt);
}

double earth_rotation_rad(Instant instant) {
    const JulianDate ut1 = universal_time(instant);
    return eraEra00(ut1.midnight, ut1.day_part);
}

Vec3 to_earth_frame(Vec3 celestial, Instant instant) {
    const double turn = earth_rotation_rad(instant);
    const double c = std::cos(turn);
    const double s = std::sin(turn);
    return {c * celestial.x + s * celestial.y, c * celestial.y - s * celestial.x, celestial.z};
}

}  // namespace gloam::astro
