#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/error.hpp"
#include "base/kinds.hpp"

namespace gloam::geo {

/// A point on the WGS 84 ellipsoid, degrees; latitude in [-90, 90], longitude in [-180, 180), east positive.
struct LatLon {
    double lat_deg = 0.0;
    double lon_deg = 0.0;
};

/// Checks and normalises: longitudes up to +-360 are wrapped into [-180, 180). NaN, infinities, latitudes
/// beyond the poles and longitudes beyond a full turn are refused (kBadInput).
Result<LatLon> make_lat_lon(double lat_deg, double lon_deg);

/// A point and, where it was given, its height.
struct ParsedPosition {
    LatLon at;
    std::optional<HeightMsl> height;
};

/// Parses "lat,lon[,height_m]" in decimal degrees and metres, e.g. "37.07,15.29" or "-43.5,172.6,120". Spaces
/// round a number and a leading '+' are allowed; anything else is refused (kBadInput), so are heights outside
/// -500 to 9000 m, where nobody stands.
Result<ParsedPosition> parse_position(std::string_view text);

/// Degrees to four decimals (11 m) with hemisphere letters, e.g. "37.0700 N 15.2900 E".
std::string to_text(LatLon point);

/// The nearest of the sixteen compass points in words, e.g. "east-south-east".
std::string_view compass_point(Azimuth azimuth);

}  // namespace gloam::geo
