#include "weather/grib/map_grid.hpp"

#include <cmath>
#include <limits>
#include <optional>

#include "weather/projection.hpp"

namespace gloam::weather {
namespace {

using Trouble = tl::unexpected<std::string>;
using Grids = tl::expected<GribGrid, std::string>;

constexpr double kWidestMap_m = 1.0e8;  // a polar map of the whole Earth but a cap of 15 degrees
constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

/// No Earth is smaller or larger: this finds axes that are told in kilometres, zero or not at all.
bool possible_axis(std::optional<double> axis_m) {
    return axis_m && *axis_m > 6.3e6 && *axis_m < 6.4e6;  // false for NaN
}

/// The decoder knows the axes behind every number of GRIB code table 3.2, and what the flag of edition 1
/// stands for: a sphere of 6367.47 km, or the ellipsoid of IAU 1965.
std::optional<EarthShape> earth_of(const GribHandle& handle) {
    if (handle.integer("earthIsOblate").value_or(0) == 0) {
        const auto radius_m = handle.real("radius");
        return possible_axis(radius_m) ? std::optional(EarthShape{*radius_m, 0.0}) : std::nullopt;
    }
    const auto major_m = handle.real("earthMajorAxisInMetres");
    const auto minor_m = handle.real("earthMinorAxisInMetres");
    if (!possible_axis(major_m) || !possible_axis(minor_m)) {
        return std::nullopt;
    }
    return EarthShape{*major_m, (*major_m - *minor_m) / *major_m};
}

/// Where the values begin on the Earth, and the steps on the map.
struct Start {
    geo::LatLon first;
    double step_x_m;
    double step_y_m;
};

tl::expected<Start, std::string> start_of(const GribHandle& handle) {
    const auto lat = handle.real("latitudeOfFirstGridPointInDegrees");
    const auto lon = handle.real("longitudeOfFirstGridPointInDegrees");
    const auto step_x = handle.real("DxInMetres");
    const auto step_y = handle.real("DyInMetres");
    if (!step_x || !step_y || !(*step_x > 0.0) || !(*step_y > 0.0)) {
        return Trouble("the steps of the grid are no lengths");
    }
    const auto first = geo::make_lat_lon(lat.value_or(kNone), lon.value_or(kNone));
    if (!first) {
        return Trouble("the first point of the grid is no place on Earth");
    }
    return Start{*first, *step_x, *step_y};
}

/// Beyond the cut of a cone a map no longer leads back, and far out (the pole opposite to that of a polar map
/// lies at infinity) numbers run out of digits.
bool leads_back(const Projection& projection, PlanePoint point) {
    if (!(std::hypot(point.x_m, point.y_m) < kWidestMap_m)) {
        return false;
    }
    const PlanePoint again = projection.plane_point(projection.place(point));
    return std::hypot(again.x_m - point.x_m, again.y_m - point.y_m) < 1.0;
}

bool fits(const ProjectedGrid& grid) {
    const double right_m = grid.first.x_m + static_cast<double>(grid.columns - 1) * grid.step_x_m;
    const double bottom_m = grid.first.y_m - static_cast<double>(grid.rows - 1) * grid.step_y_m;
    const Projection& projection = *grid.projection;
    return leads_back(projection, grid.first) && leads_back(projection, {right_m, grid.first.y_m}) &&
           leads_back(projection, {grid.first.x_m, bottom_m}) && leads_back(projection, {right_m, bottom_m});
}

Grids grid_on(const ProjectionResult& projection, const Start& start, const ScanOrder& order) {
    if (!projection) {
        return Trouble(projection.error());
    }
    PlanePoint first = (*projection)->plane_point(start.first);
    if (order.westward) {
        first.x_m -= static_cast<double>(order.columns - 1) * start.step_x_m;
    }
    if (order.northward) {
        first.y_m += static_cast<double>(order.rows - 1) * start.step_y_m;
    }
    ProjectedGrid grid{.projection = *projection,
                       .first = first,
                       .step_x_m = start.step_x_m,
                       .step_y_m = start.step_y_m,
                       .rows = order.rows,
                       .columns = order.columns};
    if (!fits(grid)) {
        return Trouble("the grid does not fit on its map");
    }
    return GribGrid{std::move(grid), order};
}

}  // namespace

Grids lambert_grid_of(const GribHandle& handle, const ScanOrder& order) {
    const auto earth = earth_of(handle);
    const auto start = start_of(handle);
    const auto parallel_1 = handle.real("Latin1InDegrees");
    const auto parallel_2 = handle.real("Latin2InDegrees");
    const auto meridian = handle.real("LoVInDegrees");
    if (!start) {
        return Trouble(start.error());
    }
    if (!earth || !parallel_1 || !parallel_2 || !meridian) {
        return Trouble("the header does not describe the Lambert map of its grid");
    }
    // The steps are taken where the map is true to scale. LaD may name another latitude, but centres and
    // decoders pass over it.
    return grid_on(lambert({*earth, *parallel_1, *parallel_2, *meridian}), *start, order);
}

Grids polar_grid_of(const GribHandle& handle, const ScanOrder& order) {
    const auto earth = earth_of(handle);
    const auto start = start_of(handle);
    const auto true_lat = handle.real("LaDInDegrees");  // 60 in edition 1, which does not say it
    const auto meridian = handle.real("orientationOfTheGridInDegrees");
    const auto south = handle.integer("southPoleOnProjectionPlane");
    if (!start) {
        return Trouble(start.error());
    }
    if (!earth || !true_lat || !meridian || !south) {
        return Trouble("the header does not describe the polar stereographic map of its grid");
    }
    return grid_on(polar_stereographic({*earth, *south != 0, *true_lat, *meridian}), *start, order);
}

}  // namespace gloam::weather
