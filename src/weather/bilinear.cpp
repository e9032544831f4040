#include "weather/bilinear.hpp"

#include <algorithm>
#include <cmath>

#include "base/check.hpp"

namespace gloam::weather {
namespace {

constexpr double kEdgeSlack = 1e-6;  // of a cell: decimal degrees are not exact on the grid's edge

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

std::optional<Between> column_at(const RegularGrid& grid, double lon_deg) {
    const double turned = std::fmod(lon_deg - grid.first.lon_deg, 360.0);
    const double position = (turned < 0.0 ? turned + 360.0 : turned) / grid.lon_step_deg;
    if (!grid.wraps) {
        const double round = 360.0 / grid.lon_step_deg;  // just west of the first column is almost once round
        return within(position > round - kEdgeSlack ? position - round : position, grid.columns);
    }
    const double inside = std::min(position, static_cast<double>(grid.columns));
    const std::size_t lower = std::min(static_cast<std::size_t>(inside), grid.columns - 1);
    return Between{lower, (lower + 1) % grid.columns, inside - static_cast<double>(lower)};
}

/// Whether the pole beyond the edge row is less than a row away: then the row stands for the cap.
bool in_polar_cap(const RegularGrid& grid, double edge_lat_deg, double lat_deg) {
    return grid.wraps && 90.0 - std::abs(edge_lat_deg) < std::abs(grid.lat_step_deg) &&
           std::abs(lat_deg) > std::abs(edge_lat_deg) && (lat_deg > 0.0) == (edge_lat_deg > 0.0);
}

std::optional<Between> row_at(const RegularGrid& grid, double lat_deg) {
    const double last = static_cast<double>(grid.rows - 1);
    const double position = (lat_deg - grid.first.lat_deg) / grid.lat_step_deg;
    const double last_lat_deg = grid.first.lat_deg + last * grid.lat_step_deg;
    const bool cap = in_polar_cap(grid, position < 0.0 ? grid.first.lat_deg : last_lat_deg, lat_deg);
    return within(cap ? std::clamp(position, 0.0, last) : position, grid.rows);
}

}  // namespace

std::optional<CellWeights> weights_at(const RegularGrid& grid, geo::LatLon point) {
    GLOAM_CHECK(grid.rows >= 2 && grid.columns >= 2);
    const auto column = column_at(grid, point.lon_deg);
    const auto row = row_at(grid, point.lat_deg);
    if (!column || !row) {
        return std::nullopt;
    }
    const std::size_t upper_row = row->lower * grid.columns;
    const std::size_t lower_row = row->upper * grid.columns;
    return CellWeights{{upper_row + column->lower, upper_row + column->upper, lower_row + column->lower,
                        lower_row + column->upper},
                       {(1.0 - row->share) * (1.0 - column->share), (1.0 - row->share) * column->share,
                        row->share * (1.0 - column->share), row->share * column->share}};
}

}  // namespace gloam::weather
