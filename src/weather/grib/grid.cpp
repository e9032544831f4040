#include "weather/grib/grid.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "weather/grib/corner_grid.hpp"
#include "weather/grib/map_grid.hpp"

namespace gloam::weather {
namespace {

using Trouble = tl::unexpected<std::string>;

/// A kind of grid by the decoder's name: the words for it, and how it is read (not at all: null).
struct GridKind {
    const char* type;
    const char* words;
    tl::expected<GribGrid, std::string> (*read)(const GribHandle& handle, const ScanOrder& order);
};

constexpr auto kKinds = std::to_array<GridKind>({
    {"regular_ll", "a regular latitude-longitude grid", regular_grid_of},
    {"regular_gg", "a regular Gaussian grid", gaussian_grid_of},
    {"lambert", "a grid on a Lambert map", lambert_grid_of},
    {"polar_stereographic", "a grid on a polar stereographic map", polar_grid_of},
    {"reduced_gg", "a reduced Gaussian grid", nullptr},
    {"reduced_ll", "a reduced latitude-longitude grid", nullptr},
    {"rotated_ll", "a rotated latitude-longitude grid", nullptr},
    {"rotated_gg", "a rotated Gaussian grid", nullptr},
    {"unstructured_grid", "an unstructured grid (of triangles, say)", nullptr},
    {"triangular_grid", "a grid of triangles", nullptr},
    {"mercator", "a grid on a Mercator map", nullptr},
    {"sh", "a sum of spherical harmonics", nullptr},
});

std::variant<GridKind, NotUsed> kind_of(const GribHandle& handle) {
    const std::string type = handle.text("gridType").value_or("unknown");
    const auto* kind = std::ranges::find(kKinds, type, &GridKind::type);
    if (kind != kKinds.end() && kind->read != nullptr) {
        return *kind;
    }
    return NotUsed{fmt::format("{} is not used: ask for the field on a regular latitude-longitude grid",
                               kind != kKinds.end() ? kind->words : fmt::format("a grid of type {}", type))};
}

ScanOrder scan_order(const GribHandle& handle, long rows, long columns) {
    const auto flag = [&handle](const char* key) { return handle.integer(key).value_or(0) != 0; };
    return {.westward = flag("iScansNegatively"),
            .northward = flag("jScansPositively"),
            .by_column = flag("jPointsAreConsecutive"),
            .back_and_forth = flag("alternativeRowScanning"),
            .rows = static_cast<std::size_t>(rows),
            .columns = static_cast<std::size_t>(columns)};
}

/// The size of the grid, checked, and its order.
tl::expected<std::variant<ScanOrder, NotUsed>, std::string> order_of(const GribHandle& handle) {
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
    return scan_order(handle, *rows, *columns);
}

}  // namespace

tl::expected<std::variant<GribGrid, NotUsed>, std::string> grid_of(const GribHandle& handle) {
    const auto kind = kind_of(handle);
    if (const auto* not_used = std::get_if<NotUsed>(&kind)) {
        return *not_used;
    }
    const auto order = order_of(handle);
    if (!order) {
        return Trouble(order.error());
    }
    if (const auto* not_used = std::get_if<NotUsed>(&*order)) {
        return *not_used;
    }
    return std::get<GridKind>(kind).read(handle, std::get<ScanOrder>(*order));
}

}  // namespace gloam::weather
