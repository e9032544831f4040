#include "weather/grib/corner_grid.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

namespace gloam::weather {
namespace {

using Trouble = tl::unexpected<std::string>;
using Grids = tl::expected<GribGrid, std::string>;

constexpr double kMostCellsApart = 1.5;   // of corners and increments; more is no slip of counting
constexpr long kMostGaussianRows = 4000;  // from the equator to a pole: steps of 0.0225 degrees
constexpr const char* kContradiction =
    "the grid header contradicts itself: corners, increments and scanning flags do not agree";

struct Corners {
    geo::LatLon first;
    geo::LatLon last;
};

double wrapped(double lon_deg, double from_deg) {
    const double turned = std::fmod(lon_deg - from_deg, 360.0);
    const double positive = turned < 0.0 ? turned + 360.0 : turned;
    return from_deg + (positive >= 360.0 ? 0.0 : positive);
}

std::optional<geo::LatLon> corner(std::optional<double> lat_deg, std::optional<double> lon_deg) {
    const bool possible =
        lat_deg && lon_deg && std::abs(*lat_deg) <= 90.0 + 1e-6 && std::abs(*lon_deg) <= 720.0;  // no NaN
    return possible ? std::optional(geo::LatLon{*lat_deg, wrapped(*lon_deg, -180.0)}) : std::nullopt;
}

tl::expected<Corners, std::string> corners_of(const GribHandle& handle) {
    const auto first = corner(handle.real("latitudeOfFirstGridPointInDegrees"),
                              handle.real("longitudeOfFirstGridPointInDegrees"));
    const auto last = corner(handle.real("latitudeOfLastGridPointInDegrees"),
                             handle.real("longitudeOfLastGridPointInDegrees"));
    if (!first || !last) {
        return Trouble("the corners of the grid are no places on Earth");
    }
    return Corners{*first, *last};
}

/// Degrees in which the header counts, and to which its numbers are cut or rounded (edition 2: where it does
/// not set a basic angle of its own, which hardly anyone does).
double unit_deg(const GribHandle& handle) {
    return handle.integer("edition").value_or(2) == 1 ? 1e-3 : 1e-6;
}

/// An increment of the header, degrees, if it gives one.
std::optional<double> increment_of(const GribHandle& handle, const char* given, const char* key) {
    const bool there = handle.integer(given).value_or(0) != 0;
    const auto increment = there ? handle.real(key) : std::nullopt;
    return increment && *increment > 0.0 ? increment : std::nullopt;
}

/// Degrees from the first row to the last, or from the first column to the last, all positive.
struct Span {
    double used_deg;
    double by_corners_deg;
    double by_increments_deg;  ///< differs from by_corners_deg by more than rounding explains, or equals it
};

/// What to make of a way across the grid. Corners are trusted as a rule, for an increment is rounded and the
/// error grows with every step. But where the two are one whole cell apart, the last corner was put a step
/// too far or too near by whoever cut the grid out, and the increments are right. Absent if the two cannot
/// describe the same grid.
std::optional<Span> span_of(double corners_deg, std::size_t steps, std::optional<double> increment_deg,
                            double rounding_deg) {
    if (!(corners_deg > 0.0)) {
        return std::nullopt;
    }
    const double told = increment_deg ? static_cast<double>(steps) * *increment_deg : corners_deg;
    const double apart = std::abs(corners_deg - told);
    if (apart <= static_cast<double>(steps + 1) * rounding_deg) {
        return Span{corners_deg, corners_deg, corners_deg};
    }
    const double cells = apart / *increment_deg;
    if (!(cells <= kMostCellsApart)) {
        return std::nullopt;
    }
    return Span{std::abs(cells - 1.0) < 0.05 ? told : corners_deg, corners_deg, told};
}

/// Degrees from the western to the eastern edge. Once round the Earth and no way at all look alike from the
/// corners: the increment, where there is one, decides.
double eastward_span_deg(double west_deg, double east_deg, std::optional<double> expected_deg) {
    const double span = wrapped(east_deg, west_deg) - west_deg;
    const double more = span + 360.0;
    if (!expected_deg) {
        return span > 0.0 ? span : more;
    }
    return std::abs(more - *expected_deg) < std::abs(span - *expected_deg) ? more : span;
}

/// Columns of a grid that is regular in longitude.
struct Columns {
    double west_deg;
    double step_deg;
    bool wraps;
    Span span;
};

std::optional<Columns> columns_of(const GribHandle& handle, const Corners& corners, const ScanOrder& order) {
    const std::size_t steps = order.columns - 1;
    const auto increment = increment_of(handle, "iDirectionIncrementGiven", "iDirectionIncrementInDegrees");
    const double first_deg = corners.first.lon_deg;
    const double last_deg = corners.last.lon_deg;
    const double width =
        eastward_span_deg(order.westward ? last_deg : first_deg, order.westward ? first_deg : last_deg,
                          increment ? std::optional(*increment * static_cast<double>(steps)) : std::nullopt);
    const auto span = span_of(width, steps, increment, unit_deg(handle));
    if (!span || span->used_deg > 360.0 + 1e-3) {
        return std::nullopt;
    }
    const double step = span->used_deg / static_cast<double>(steps);
    const double count = static_cast<double>(order.columns);
    const bool wraps = std::abs(step * count - 360.0) < 0.1 * step;
    return Columns{wrapped(order.westward ? first_deg - span->used_deg : first_deg, -180.0),
                   wraps ? 360.0 / count : step, wraps, *span};
}

std::optional<std::string> doubt_of(const Corners& corners, const ScanOrder& order, const Span& height,
                                    const Span& width) {
    const double apart = std::max(std::abs(height.by_corners_deg - height.by_increments_deg),
                                  std::abs(width.by_corners_deg - width.by_increments_deg));
    if (apart == 0.0) {
        return std::nullopt;
    }
    const double up = order.northward ? height.by_increments_deg : -height.by_increments_deg;
    const double east = order.westward ? -width.by_increments_deg : width.by_increments_deg;
    const geo::LatLon last{corners.first.lat_deg + up, wrapped(corners.first.lon_deg + east, -180.0)};
    return fmt::format(
        "the header places the last corner at {}, its increments at {}: positions may be off by up to {:.4g} "
        "deg",
        geo::to_text(corners.last), geo::to_text(last), apart);
}

struct Edges {
    double north_deg;
    double south_deg;
};

std::string doubt_of_rows(Edges by_header, Edges rows, double apart_deg) {
    return fmt::format(
        "the header places the rows from {:.4g} to {:.4g} deg north, the Gaussian rows next to it lie from "
        "{:.4g} to "
        "{:.4g}: positions may be off by up to {:.4g} deg",
        by_header.north_deg, by_header.south_deg, rows.north_deg, rows.south_deg, apart_deg);
}

/// Rows of a Gaussian grid: all its latitudes, or as many as the message has from the one nearest to its
/// northern edge.
std::vector<double> rows_from(const std::vector<double>& lats_deg, double north_deg, std::size_t rows) {
    const auto nearest = std::ranges::min_element(
        lats_deg, {}, [north_deg](double lat_deg) { return std::abs(lat_deg - north_deg); });
    const auto first = std::min(nearest - lats_deg.begin(), std::ssize(lats_deg) - static_cast<long>(rows));
    return {lats_deg.begin() + first, lats_deg.begin() + first + static_cast<long>(rows)};
}

}  // namespace

Grids regular_grid_of(const GribHandle& handle, const ScanOrder& order) {
    const auto corners = corners_of(handle);
    if (!corners) {
        return Trouble(corners.error());
    }
    const double upward = corners->last.lat_deg - corners->first.lat_deg;
    const auto height = span_of(
        order.northward ? upward : -upward, order.rows - 1,
        increment_of(handle, "jDirectionIncrementGiven", "jDirectionIncrementInDegrees"), unit_deg(handle));
    const auto columns = columns_of(handle, *corners, order);
    if (!height || !columns) {
        return Trouble(kContradiction);
    }
    const double north = corners->first.lat_deg + (order.northward ? height->used_deg : 0.0);
    if (north > 90.0 + 1e-6 || north - height->used_deg < -90.0 - 1e-6) {
        return Trouble(kContradiction);
    }
    const RegularGrid grid{.first = {std::min(north, 90.0), columns->west_deg},
                           .lat_step_deg = -height->used_deg / static_cast<double>(order.rows - 1),
                           .lon_step_deg = columns->step_deg,
                           .rows = order.rows,
                           .columns = order.columns,
                           .wraps = columns->wraps};
    return GribGrid{grid, order, doubt_of(*corners, order, *height, columns->span)};
}

Grids gaussian_grid_of(const GribHandle& handle, const ScanOrder& order) {
    const auto corners = corners_of(handle);
    if (!corners) {
        return Trouble(corners.error());
    }
    const long half = handle.integer("N").value_or(0);
    if (half < 1 || half > kMostGaussianRows || order.rows > 2 * static_cast<std::size_t>(half)) {
        return Trouble(
            fmt::format("no Gaussian grid that this program reads has N = {} and {} rows", half, order.rows));
    }
    const auto columns = columns_of(handle, *corners, order);
    const double north = order.northward ? corners->last.lat_deg : corners->first.lat_deg;
    const double south = order.northward ? corners->first.lat_deg : corners->last.lat_deg;
    const double height = north - south;
    auto rows = rows_from(gaussian_latitudes_deg(half), north, order.rows);
    const double apart = std::max(std::abs(rows.front() - north), std::abs(rows.back() - south));
    const double row_deg = 90.0 / static_cast<double>(half);
    if (!columns || height <= 0.0 || apart > kMostCellsApart * row_deg) {
        return Trouble(kContradiction);
    }
    auto doubt = apart > 0.05 * row_deg  // headers round to a thousandth of a degree
                     ? std::optional(doubt_of_rows({north, south}, {rows.front(), rows.back()}, apart))
                     : doubt_of(*corners, order, {height, height, height}, columns->span);
    GaussianGrid grid{.lats_deg = std::move(rows),
                      .first_lon_deg = columns->west_deg,
                      .lon_step_deg = columns->step_deg,
                      .columns = order.columns,
                      .wraps = columns->wraps};
    return GribGrid{std::move(grid), order, std::move(doubt)};
}

}  // namespace gloam::weather
