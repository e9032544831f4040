#pragma once

#include <memory>
#include <string>

#include "base/error.hpp"
#include "weather/grid.hpp"

namespace gloam::weather {

/// Shape of the Earth that a forecast was computed on: an ellipsoid of revolution, or a sphere. Latitudes and
/// longitudes on it are taken as those of WGS 84, as the centres do that make and use such forecasts.
struct EarthShape {
    double equatorial_radius_m = 0.0;
    double flattening = 0.0;  ///< 0: a sphere

    bool operator==(const EarthShape&) const = default;
};

/// What makes up a Lambert conformal conic map.
struct LambertMap {
    EarthShape earth;
    double parallel_1_deg = 0.0;  ///< the map is true to scale on these two, which may be one
    double parallel_2_deg = 0.0;
    double meridian_deg = 0.0;  ///< runs straight up the map, x = 0

    bool operator==(const LambertMap&) const = default;
};

/// What makes up a polar stereographic map.
struct PolarMap {
    EarthShape earth;
    bool about_south = false;
    double true_lat_deg = 0.0;  ///< the map is true to scale there; its sign does not count
    double meridian_deg = 0.0;  ///< along it latitude rises with y, x = 0

    bool operator==(const PolarMap&) const = default;
};

using ProjectionResult = tl::expected<std::shared_ptr<const Projection>, std::string>;

/// The map as a projection; error in words if there is no such map (NaN included). Beyond the far side of a
/// Lambert cone, and at the pole opposite to the centre of a polar map, plane points are of no use: enormous,
/// or on the other side of the cut. Accuracy: 10 nm (GeographicLib's own figure). Source: Karney,
/// GeographicLib 2.1, LambertConformalConic and PolarStereographic, after Snyder 1987, Map Projections, USGS
/// PP 1395.
ProjectionResult lambert(const LambertMap& map);
ProjectionResult polar_stereographic(const PolarMap& map);

}  // namespace gloam::weather
