#include "astro/station.hpp"

#include <erfa.h>
#include <erfam.h>

#include <cmath>

#include "base/check.hpp"

namespace gloam::astro {
namespace {

constexpr double kSunRadius_m = 695.7e6;          // IAU 2015 resolution B3, nominal
constexpr double kMoonRadius_m = 1737.4e3;        // IAU 2015 working group on cartographic coordinates, mean
constexpr double kEarthTurn_rad_s = 7.292115e-5;  // IERS Conventions 2010, nominal

Vec3 geocentric_station(const Observer& observer) {
    double xyz[3];
    const int status = eraGd2gc(ERFA_WGS84, Angle::degrees(observer.at.lon_deg).radians(),
                                Angle::degrees(observer.at.lat_deg).radians(), observer.height.metres, xyz);
    GLOAM_CHECK(status == 0);
    return {xyz[0], xyz[1], xyz[2]};
}

}  // namespace

Station::Station(const Observer& observer) : place_m_(geocentric_station(observer)) {
    const double lat = Angle::degrees(observer.at.lat_deg).radians();
    const double lon = Angle::degrees(observer.at.lon_deg).radians();
    east_ = {-std::sin(lon), std::cos(lon), 0.0};
    north_ = {-std::sin(lat) * std::cos(lon), -std::sin(lat) * std::sin(lon), std::cos(lat)};
    up_ = {std::cos(lat) * std::cos(lon), std::cos(lat) * std::sin(lon), std::sin(lat)};
}

BodyPosition Station::look_at(Body body, Vec3 place_m) const {
    // Light shows the body relative to where the turning Earth carried the station one light time ago.
    const double light_time_s = length(place_m) / ERFA_CMPS;
    const Vec3 velocity_m_s = kEarthTurn_rad_s * Vec3{-place_m_.y, place_m_.x, 0.0};
    const Vec3 line = place_m - place_m_ + light_time_s * velocity_m_s;
    const double east = dot(line, east_);
    const double north = dot(line, north_);
    const double up = dot(line, up_);
    const double distance_m = length(place_m - place_m_);
    return {.azimuth = Azimuth::radians(std::atan2(east, north)),
            .altitude = {Angle::radians(std::atan2(up, std::hypot(east, north)))},
            .distance_m = distance_m,
            .semidiameter =
                Angle::radians(std::asin((body == Body::kSun ? kSunRadius_m : kMoonRadius_m) / distance_m))};
}

}  // namespace gloam::astro
