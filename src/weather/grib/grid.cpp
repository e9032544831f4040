#include "weather/grib/grid.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>

namespace gloam::weather {
namespace {

using Trouble = tl::unexpected<std::string>;

struct Corners {
    double first_lat_deg;
    double first_lon_deg;
    double last_lat_deg;
    double last_lon_deg;
};

std::optional<Corners> corners_of(const GribHandle& handle) {
    const auto first_lat = handle.real("latitudeOfFirstGridPointInDegrees");
    const auto first_lon = handle.real("longitudeOfFirstGridPointInDegrees");
    const auto last_lat = handle.real("latitudeOfLastGridPointInDegrees");
    const auto last_lon = handle.real("longitudeOfLastGridPointInDegrees");
    if (!first_lat || !first_lon || !last_lat || !last_lon) {
        return std::nullopt;
    }
    const Corners corners{*first_lat, *first_lon, *last_lat, *last_lon};
    const auto possible = [](double lat, double lon) {
        return std::abs(lat) <= 90.0 + 1e-6 && std::abs(lon) <= 720.0;  // false for NaN
    };
    const bool good = possible(corners.first_lat_deg, corners.first_lon_deg) &&
                      possible(corners.last_lat_deg, corners.last_lon_deg);
    return good ? std::optional(corners) : std::nullopt;
}

double wrapped(double lon_deg, double from_deg) {
    const double turned = std::fmod(lon_deg - from_deg, 360.0);
    const double positive = turned < 0.0 ? turned + 360.0 : turned;
    return from_deg + (positive >= 360.0 ? 0.0 : positive);
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

/// Header increments are often rounded; more than half a cell (or 1 % of the way) is no rounding.
bool agrees(double span_deg, std::size_t steps, std::optional<double> increment_deg) {
    if (!increment_deg) {
        return true;
    }
    const double expected = static_cast<double>(steps) * *increment_deg;
    return std::abs(span_deg - expected) <= std::max(0.5 * *increment_deg, 0.01 * span_deg);
}

bool flag(const GribHandle& handle, const char* key) {
    return handle.integer(key).value_or(0) != 0;
}

ScanOrder scan_order(const GribHandle& handle, std::size_t rows, std::size_t columns) {
    return {.westward = flag(handle, "iScansNegatively"),
            .northward = flag(handle, "jScansPositively"),
            .by_column = flag(handle, "jPointsAreConsecutive"),
            .back_and_forth = flag(handle, "alternativeRowScanning"),
            .rows = rows,
            .columns = columns};
}

std::optional<double> increment_of(const GribHandle& handle, const char* given, const char* key) {
    const auto increment = flag(handle, given) ? handle.real(key) : std::nullopt;
    return increment && *increment > 0.0 ? increment : std::nullopt;
}

tl::expected<RegularGrid, std::string> grid_from(const GribHandle& handle, const Corners& corners,
                                                 const ScanOrder& order) {
    const double north = order.northward ? corners.last_lat_deg : corners.first_lat_deg;
    const double south = order.northward ? corners.first_lat_deg : corners.last_lat_deg;
    const double west = order.westward ? corners.last_lon_deg : corners.first_lon_deg;
    const double east = order.westward ? corners.first_lon_deg : corners.last_lon_deg;
    const std::size_t row_steps = order.rows - 1;
    const std::size_t column_steps = order.columns - 1;
    const auto lat_increment =
        increment_of(handle, "jDirectionIncrementGiven", "jDirectionIncrementInDegrees");
    const auto lon_increment =
        increment_of(handle, "iDirectionIncrementGiven", "iDirectionIncrementInDegrees");
    const double height = north - south;
    const double width = eastward_span_deg(
        west, east,
        lon_increment ? std::optional(*lon_increment * static_cast<double>(column_steps)) : std::nullopt);
    if (height <= 0.0 || !agrees(height, row_steps, lat_increment) ||
        !agrees(width, column_steps, lon_increment)) {
        return Trouble(
            "the grid header contradicts itself: corners, increments and scanning flags do not agree");
    }
    RegularGrid grid{.first = {std::min(north, 90.0), wrapped(west, -180.0)},
                     .lat_step_deg = -height / static_cast<double>(row_steps),
                     .lon_step_deg = width / static_cast<double>(column_steps),
                     .rows = order.rows,
                     .columns = order.columns};
    const double round = grid.lon_step_deg * static_cast<double>(grid.columns);
    grid.wraps = std::abs(round - 360.0) < 0.1 * grid.lon_step_deg;
    if (grid.wraps) {
        grid.lon_step_deg = 360.0 / static_cast<double>(grid.columns);
    }
    return grid;
}

}  // namespace

std::size_t ScanOrder::place_of(std::size_t row, std::size_t column) const {
    const std::size_t i = westward ? columns - 1 - column : column;
    const std::size_t j = northward ? rows - 1 - row : row;
    const std::size_t line = by_column ? i : j;
    const std::size_t length = by_column ? rows : columns;
    const std::size_t along = by_column ? j : i;
    const bool reversed = back_and_forth && line % 2 == 1;
    return line * length + (reversed ? length - 1 - along : along);
}

tl::expected<std::variant<GribGrid, NotUsed>, std::string> grid_of(const GribHandle& handle) {
    const std::string type = handle.text("gridType").value_or("unknown");
    if (type != "regular_ll") {
        return NotUsed{fmt::format("grid type {} is not used", type)};
    }
    const auto columns = handle.integer("Ni");
    const auto rows = handle.integer("Nj");
    const auto points = handle.integer("numberOfDataPoints");
    if (!columns || !rows || !points || *columns < 1 || *rows < 1) {
        return Trouble("the grid header does not say how many points there are");
    }
    const auto most = static_cast<long>(kMostPoints);
    if (*columns > most || *rows > most / *columns) {
        return Trouble(
            fmt::format("a grid of {} x {} points is more than this program reads", *columns, *rows));
    }
    if (*columns * *rows != *points) {
        return Trouble(
            fmt::format("the grid header claims {} x {} points and {} in all", *columns, *rows, *points));
    }
    if (*columns < 2 || *rows < 2) {
        return NotUsed{"a grid of a single row or column is not used"};
    }
    const auto corners = corners_of(handle);
    if (!corners) {
        return Trouble("the corners of the grid are no places on Earth");
    }
    const ScanOrder order =
        scan_order(handle, static_cast<std::size_t>(*rows), static_cast<std::size_t>(*columns));
    return grid_from(handle, *corners, order).map([&order](const RegularGrid& grid) {
        return std::variant<GribGrid, NotUsed>(GribGrid{grid, order});
    });
}

}  // namespace gloam::weather
