#include "weather/grid_window.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "base/check.hpp"
#include "geo/geodesic.hpp"

namespace gloam::weather {
namespace {

// Smallest radius of curvature of WGS 84, a (1 - e^2), along the meridian at the equator. On a sphere of that
// radius with the same latitudes and longitudes every way is shorter than on the ellipsoid, so that a circle
// of the ellipsoid lies within that of the sphere.
constexpr double kLeastRadius_m = 6335439.0;
constexpr double kDegrees = 180.0 / std::numbers::pi;
constexpr int kRimPoints = 360;  // a circle bulges from a polygon of these by 4e-5 of its radius

/// Latitudes and longitudes that a circle reaches.
struct Reach {
    double south_deg;
    double north_deg;
    double sideways_deg;  ///< east and west of the centre; infinite where the circle holds a pole
};

/// Source: the tangent meridian of a small circle, sin(dlon) = sin(r) / cos(lat) (Napier's rule).
Reach reach_of(geo::LatLon centre, double radius_m) {
    const double radius_deg = radius_m / kLeastRadius_m * kDegrees;
    const Reach reach{centre.lat_deg - radius_deg, centre.lat_deg + radius_deg,
                      std::numeric_limits<double>::infinity()};
    if (reach.south_deg <= -90.0 || reach.north_deg >= 90.0) {
        return reach;
    }
    const double sine = std::sin(radius_deg / kDegrees) / std::cos(centre.lat_deg / kDegrees);
    return {reach.south_deg, reach.north_deg, std::asin(std::min(sine, 1.0)) * kDegrees};
}

/// A run of rows or columns.
struct Run {
    std::size_t first;
    std::size_t count;
};

/// The cells about positions from `least` to `most`, two at least, of `count` there are.
Run run_about(double least, double most, std::size_t count) {
    const double last = static_cast<double>(count - 1);
    const double lower = std::clamp(std::floor(least), 0.0, last - 1.0);
    const double upper = std::clamp(std::floor(most) + 1.0, lower + 1.0, last);
    return {static_cast<std::size_t>(lower), static_cast<std::size_t>(upper - lower) + 1};
}

GridWindow window_of(Run rows, Run columns) {
    return {rows.first, rows.count, columns.first, columns.count};
}

/// Columns of a grid that is regular in longitude, within `sideways_deg` of the centre.
Run columns_about(double first_lon_deg, double step_deg, std::size_t columns, bool wraps, double lon_deg,
                  double sideways_deg) {
    const double turned = std::fmod(lon_deg - first_lon_deg, 360.0);
    const double centre = (turned < 0.0 ? turned + 360.0 : turned) / step_deg;
    const double sideways = sideways_deg / step_deg;
    const double round = 360.0 / step_deg;
    const double last = static_cast<double>(columns - 1);
    if (!wraps) {
        const bool both_sides = centre + sideways >= round || centre - sideways <= last - round;
        return both_sides ? Run{0, columns} : run_about(centre - sideways, centre + sideways, columns);
    }
    const double lower = std::floor(centre - sideways);
    const double count = std::floor(centre + sideways) + 2.0 - lower;
    if (!(count < static_cast<double>(columns))) {
        return {0, columns};
    }
    const double first = lower < 0.0 ? lower + static_cast<double>(columns) : lower;
    return {static_cast<std::size_t>(first) % columns, static_cast<std::size_t>(count)};
}

/// Beyond the outermost row the whole row counts, for it stands for the cap.
double sideways_on(const Reach& reach, double north_deg, double south_deg, bool wraps) {
    const bool over_cap = wraps && (reach.north_deg > north_deg || reach.south_deg < south_deg);
    return over_cap ? std::numeric_limits<double>::infinity() : reach.sideways_deg;
}

GridWindow window_on(const RegularGrid& grid, geo::LatLon centre, double radius_m) {
    const Reach reach = reach_of(centre, radius_m);
    const auto position = [&grid](double lat_deg) {
        return (lat_deg - grid.first.lat_deg) / grid.lat_step_deg;
    };
    const auto [least, most] = std::minmax({position(reach.south_deg), position(reach.north_deg)});
    const double last_lat = grid.first.lat_deg + static_cast<double>(grid.rows - 1) * grid.lat_step_deg;
    const double sideways = sideways_on(reach, std::max(grid.first.lat_deg, last_lat),
                                        std::min(grid.first.lat_deg, last_lat), grid.wraps);
    return window_of(run_about(least, most, grid.rows),
                     columns_about(grid.first.lon_deg, grid.lon_step_deg, grid.columns, grid.wraps,
                                   centre.lon_deg, sideways));
}

GridWindow window_on(const GaussianGrid& grid, geo::LatLon centre, double radius_m) {
    const Reach reach = reach_of(centre, radius_m);
    const auto& lats = grid.lats_deg;
    const auto rows_above = [&lats](double lat_deg) {
        return static_cast<double>(std::ranges::lower_bound(lats, lat_deg, std::greater<>()) - lats.begin());
    };
    const double sideways = sideways_on(reach, lats.front(), lats.back(), grid.wraps);
    return window_of(run_about(rows_above(reach.north_deg) - 1.0, rows_above(reach.south_deg), lats.size()),
                     columns_about(grid.first_lon_deg, grid.lon_step_deg, grid.columns, grid.wraps,
                                   centre.lon_deg, sideways));
}

/// Smallest upright rectangle on a map.
struct Box {
    PlanePoint least;
    PlanePoint most;
};

/// The rim of a circle on the map; absent where it jumps (over the cut of a cone) or runs off to infinity.
std::optional<Box> box_of_rim(const Projection& projection, geo::LatLon centre, double radius_m) {
    PlanePoint before = projection.plane_point(geo::travel(centre, Azimuth::degrees(0.0), radius_m).at);
    Box box{before, before};
    for (int i = 1; i <= kRimPoints; ++i) {
        const Azimuth towards = Azimuth::degrees(360.0 * i / kRimPoints);
        const PlanePoint point = projection.plane_point(geo::travel(centre, towards, radius_m).at);
        if (!(std::hypot(point.x_m - before.x_m, point.y_m - before.y_m) <= 0.1 * radius_m)) {
            return std::nullopt;
        }
        box.least = {std::min(box.least.x_m, point.x_m), std::min(box.least.y_m, point.y_m)};
        box.most = {std::max(box.most.x_m, point.x_m), std::max(box.most.y_m, point.y_m)};
        before = point;
    }
    return box;
}

GridWindow window_on(const ProjectedGrid& grid, geo::LatLon centre, double radius_m) {
    const bool holds_pole = std::isinf(reach_of(centre, radius_m).sideways_deg);
    const auto box = holds_pole ? std::nullopt : box_of_rim(*grid.projection, centre, radius_m);
    if (!box) {
        return {0, grid.rows, 0, grid.columns};
    }
    const double bulge_m = 1e-4 * radius_m;  // more than twice what the polygon leaves out
    const auto row = [&grid](double y_m) { return (grid.first.y_m - y_m) / grid.step_y_m; };
    const auto column = [&grid](double x_m) { return (x_m - grid.first.x_m) / grid.step_x_m; };
    return window_of(
        run_about(row(box->most.y_m + bulge_m), row(box->least.y_m - bulge_m), grid.rows),
        run_about(column(box->least.x_m - bulge_m), column(box->most.x_m + bulge_m), grid.columns));
}

GridWindow window_on(const PointGrid& /*grid*/, geo::LatLon /*centre*/, double /*radius_m*/) {
    return {0, 1, 0, 1};
}

double east_of(double lon_deg, double degrees) {
    const auto place = geo::make_lat_lon(0.0, std::remainder(lon_deg + degrees, 360.0));
    GLOAM_CHECK(place.has_value());
    return place->lon_deg;
}

Grid crop(RegularGrid grid, const GridWindow& window) {
    grid.first.lat_deg += static_cast<double>(window.first_row) * grid.lat_step_deg;
    grid.first.lon_deg =
        east_of(grid.first.lon_deg, static_cast<double>(window.first_column) * grid.lon_step_deg);
    grid.wraps = grid.wraps && window.columns == grid.columns;
    grid.rows = window.rows;
    grid.columns = window.columns;
    return grid;
}

Grid crop(GaussianGrid grid, const GridWindow& window) {
    const auto first = grid.lats_deg.begin() + static_cast<std::ptrdiff_t>(window.first_row);
    grid.lats_deg = std::vector<double>(first, first + static_cast<std::ptrdiff_t>(window.rows));
    grid.first_lon_deg =
        east_of(grid.first_lon_deg, static_cast<double>(window.first_column) * grid.lon_step_deg);
    grid.wraps = grid.wraps && window.columns == grid.columns;
    grid.columns = window.columns;
    return grid;
}

Grid crop(ProjectedGrid grid, const GridWindow& window) {
    grid.first.x_m += static_cast<double>(window.first_column) * grid.step_x_m;
    grid.first.y_m -= static_cast<double>(window.first_row) * grid.step_y_m;
    grid.rows = window.rows;
    grid.columns = window.columns;
    return grid;
}

Grid crop(const PointGrid& grid, const GridWindow& /*window*/) {
    return grid;
}

}  // namespace

std::optional<GridWindow> window_round(const Grid& grid, geo::LatLon centre, double radius_m) {
    GLOAM_CHECK(radius_m >= 0.0);
    if (!weights_at(grid, centre)) {
        return std::nullopt;
    }
    return std::visit([&](const auto& of) { return window_on(of, centre, radius_m); }, grid);
}

Grid cropped(const Grid& grid, const GridWindow& window) {
    return std::visit([&window](const auto& of) { return crop(of, window); }, grid);
}

std::size_t cell_of_whole(const Grid& whole, const GridWindow& window, std::size_t cell) {
    const std::size_t columns = columns_of(whole);
    const std::size_t row = window.first_row + cell / window.columns;
    const std::size_t column = (window.first_column + cell % window.columns) % columns;
    return row * columns + column;
}

}  // namespace gloam::weather
