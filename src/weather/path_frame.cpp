#include "weather/path_frame.hpp"

#include <algorithm>
#include <cmath>

namespace gloam::weather {
namespace {

constexpr double kEquatorRadius_m = 6378137.0;       // WGS 84
constexpr double kEccentricity2 = 6.69437999014e-3;  // WGS 84, first eccentricity squared

/// Radius of curvature of the ellipsoid in one direction (Euler): 1/R = cos2(az)/M + sin2(az)/N.
double curvature_radius_m(double lat_rad, double azimuth_rad) {
    const double w2 = 1.0 - kEccentricity2 * std::pow(std::sin(lat_rad), 2);
    const double across_m = kEquatorRadius_m / std::sqrt(w2);
    const double meridian_m = across_m * (1.0 - kEccentricity2) / w2;
    return 1.0 /
           (std::pow(std::cos(azimuth_rad), 2) / meridian_m + std::pow(std::sin(azimuth_rad), 2) / across_m);
}

}  // namespace

PathFrame::PathFrame(geo::LatLon viewer, Azimuth sun) {
    const double lat = Angle::degrees(viewer.lat_deg).radians();
    const double lon = Angle::degrees(viewer.lon_deg).radians();
    const double azimuth = sun.radians();
    const Vector north{-std::sin(lat) * std::cos(lon), -std::sin(lat) * std::sin(lon), std::cos(lat)};
    const Vector east{-std::sin(lon), std::cos(lon), 0.0};
    radius_m_ = curvature_radius_m(lat, azimuth);
    up_ = {std::cos(lat) * std::cos(lon), std::cos(lat) * std::sin(lon), std::sin(lat)};
    for (std::size_t i = 0; i < 3; ++i) {
        ahead_[i] = std::cos(azimuth) * north[i] + std::sin(azimuth) * east[i];
        right_[i] = std::cos(azimuth) * east[i] - std::sin(azimuth) * north[i];
    }
}

PathFrame::Turn PathFrame::turn(double distance_m) const {
    const double turn_rad = distance_m / radius_m_;
    return {std::cos(turn_rad), std::sin(turn_rad)};
}

geo::LatLon PathFrame::point(const Turn& along, const Turn& aside) const {
    const double up_part = aside.cosine * along.cosine;
    const double ahead_part = aside.cosine * along.sine;
    const double right_part = aside.sine;
    Vector at{};
    for (std::size_t i = 0; i < 3; ++i) {
        at[i] = up_part * up_[i] + ahead_part * ahead_[i] + right_part * right_[i];
    }
    const double lon_deg = Angle::radians(std::atan2(at[1], at[0])).degrees();
    return {Angle::radians(std::asin(std::clamp(at[2], -1.0, 1.0))).degrees(),
            lon_deg >= 180.0 ? -180.0 : lon_deg};
}

}  // namespace gloam::weather
