#include "weather/warning.hpp"

#include <algorithm>
#include <cmath>

#include "geo/geodesic.hpp"

namespace gloam::weather {
namespace {

/// Degrees east of `from`, -180 to 180.
double east_of_deg(double lon_deg, double from_deg) {
    return std::remainder(lon_deg - from_deg, 360.0);
}

/// Crossings of the meridian northward of the place, odd inside; in the plane of latitude and longitude, in
/// which the protocol's outlines are straight.
bool is_inside(const std::vector<geo::LatLon>& ring, geo::LatLon place) {
    bool inside = false;
    for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
        const double a_deg = east_of_deg(ring[i].lon_deg, place.lon_deg);
        const double b_deg = east_of_deg(ring[i + 1].lon_deg, place.lon_deg);
        if ((a_deg > 0.0) == (b_deg > 0.0) || std::abs(a_deg - b_deg) > 180.0) {
            continue;
        }
        const double share = a_deg / (a_deg - b_deg);
        const double crossing_deg = ring[i].lat_deg + share * (ring[i + 1].lat_deg - ring[i].lat_deg);
        if (crossing_deg == place.lat_deg) {
            return true;
        }
        inside ^= crossing_deg > place.lat_deg;
    }
    return inside || std::ranges::any_of(ring, [&](geo::LatLon corner) {
               return corner.lat_deg == place.lat_deg && east_of_deg(corner.lon_deg, place.lon_deg) == 0.0;
           });
}

bool may_hold_in(const WarnedArea& area, geo::LatLon place) {
    return (area.polygons.empty() && area.circles.empty()) ||
           std::ranges::any_of(area.polygons, [&](const auto& ring) { return is_inside(ring, place); }) ||
           std::ranges::any_of(area.circles, [&](const WarnedArea::Circle& circle) {
               return geo::separation(circle.centre, place).distance_m <= circle.radius_m;
           });
}

}  // namespace

bool may_hold_at(const Warning& warning, geo::LatLon place) {
    return warning.areas.empty() || std::ranges::any_of(warning.areas, [&](const WarnedArea& area) {
               return may_hold_in(area, place);
           });
}

bool may_hold_during(const Warning& warning, Instant from, Instant to) {
    return (!warning.onset || *warning.onset <= to) && (!warning.expires || *warning.expires >= from);
}

}  // namespace gloam::weather
