#include <algorithm>
#include <cmath>

#include "base/check.hpp"
#include "geo/geodesic.hpp"
#include "weather/grid.hpp"

namespace gloam::weather {
namespace {

constexpr double kEdgeSlack = 1e-6;  // of a cell: decimal degrees are not exact on the grid's edge
constexpr double kPointReach_m = 25.0e3;

/// A lower index, its neighbour, and the share of the neighbour.
struct Between {
    std::size_t lower;
    std::size_t upper;
    double share;
};

std::optional<Between> within(double position, std::size_t count) {
    const double last = static_cast<double>(count - 1);
    if (!(position >= -kEdgeSlack && position <= last + kEdgeSlack)) {
        return std::nullopt;
    }
    const double inside = std::clamp(position, 0.0, last);
    const std::size_t lower = std::min(static_cast<std::size_t>(inside), count - 2);
    return Between{lower, lower + 1, inside - static_cast<double>(lower)};
}

/// Columns of a grid that is regular in longitude.
std::optional<Between> column_at(double first_lon_deg, double step_deg, std::size_t columns, bool wraps,
                                 double lon_deg) {
    const double off = lon_deg - first_lon_deg;
    const double turned = std::abs(off) < 360.0 ? off : std::fmod(off, 360.0);
    const double position = (turned < 0.0 ? turned + 360.0 : turned) / step_deg;
    if (!wraps) {
        const double round = 360.0 / step_deg;  // just west of the first column is almost once round
        return within(position > round - kEdgeSlack ? position - round : position, columns);
    }
    const double inside = std::min(position, static_cast<double>(columns));
    const std::size_t lower = std::min(static_cast<std::size_t>(inside), columns - 1);
    return Between{lower, (lower + 1) % columns, inside - static_cast<double>(lower)};
}

/// Whether the pole beyond the edge row is less than a row away: then the row stands for the cap.
bool in_polar_cap(bool wraps, double edge_lat_deg, double row_deg, double lat_deg) {
    return wraps && 90.0 - std::abs(edge_lat_deg) < row_deg && std::abs(lat_deg) > std::abs(edge_lat_deg) &&
           (lat_deg > 0.0) == (edge_lat_deg > 0.0);
}

std::optional<Between> row_at(const RegularGrid& grid, double lat_deg) {
    const double last = static_cast<double>(grid.rows - 1);
    const double position = (lat_deg - grid.first.lat_deg) / grid.lat_step_deg;
    const double last_lat_deg = grid.first.lat_deg + last * grid.lat_step_deg;
    const bool cap = in_polar_cap(grid.wraps, position < 0.0 ? grid.first.lat_deg : last_lat_deg,
                                  std::abs(grid.lat_step_deg), lat_deg);
    return within(cap ? std::clamp(position, 0.0, last) : position, grid.rows);
}

std::optional<Between> row_at(const GaussianGrid& grid, double lat_deg) {
    const auto& lats = grid.lats_deg;
    const std::size_t count = lats.size();
    const double row_deg = lats[0] - lats[1];
    for (const std::size_t edge : {std::size_t{0}, count - 1}) {
        if (in_polar_cap(grid.wraps, lats[edge], row_deg, lat_deg)) {
            return within(static_cast<double>(edge), count);
        }
    }
    const auto next = std::ranges::lower_bound(lats, lat_deg, std::greater<>());
    const auto upper = std::clamp<std::size_t>(static_cast<std::size_t>(next - lats.begin()), 1, count - 1);
    const double share = (lats[upper - 1] - lat_deg) / (lats[upper - 1] - lats[upper]);
    return within(static_cast<double>(upper - 1) + share, count);
}

std::optional<CellWeights> weights_of(const std::optional<Between>& row, const std::optional<Between>& column,
                                      std::size_t columns) {
    if (!column || !row) {
        return std::nullopt;
    }
    const std::size_t upper_row = row->lower * columns;
    const std::size_t lower_row = row->upper * columns;
    return CellWeights{{upper_row + column->lower, upper_row + column->upper, lower_row + column->lower,
                        lower_row + column->upper},
                       {(1.0 - row->share) * (1.0 - column->share), (1.0 - row->share) * column->share,
                        row->share * (1.0 - column->share), row->share * column->share}};
}

std::optional<CellWeights> weights_on(const RegularGrid& grid, geo::LatLon point) {
    return weights_of(
        row_at(grid, point.lat_deg),
        column_at(grid.first.lon_deg, grid.lon_step_deg, grid.columns, grid.wraps, point.lon_deg),
        grid.columns);
}

std::optional<CellWeights> weights_on(const GaussianGrid& grid, geo::LatLon point) {
    return weights_of(
        row_at(grid, point.lat_deg),
        column_at(grid.first_lon_deg, grid.lon_step_deg, grid.columns, grid.wraps, point.lon_deg),
        grid.columns);
}

std::optional<CellWeights> weights_on(const ProjectedGrid& grid, geo::LatLon point) {
    const PlanePoint at = grid.projection->plane_point(point);
    return weights_of(within((grid.first.y_m - at.y_m) / grid.step_y_m, grid.rows),
                      within((at.x_m - grid.first.x_m) / grid.step_x_m, grid.columns), grid.columns);
}

std::optional<CellWeights> weights_on(const PointGrid& grid, geo::LatLon point) {
    const bool near = geo::separation(grid.at, point).distance_m <= kPointReach_m;
    return near ? std::optional(CellWeights{{0, 0, 0, 0}, {1.0, 0.0, 0.0, 0.0}}) : std::nullopt;
}

}  // namespace

std::optional<CellWeights> weights_at(const Grid& grid, geo::LatLon point) {
    GLOAM_CHECK(is_point(grid) || (rows_of(grid) >= 2 && columns_of(grid) >= 2));
    return std::visit([point](const auto& of) { return weights_on(of, point); }, grid);
}

}  // namespace gloam::weather
