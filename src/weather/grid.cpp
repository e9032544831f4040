#include "weather/grid.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gloam::weather {
namespace {

template <class... Cases>
struct ByKind : Cases... {
    using Cases::operator()...;
};

constexpr double kSlack_deg = 1e-6;
constexpr double kSlack_m = 1.0;

bool near_deg(double a, double b) {
    return std::abs(a - b) < kSlack_deg;
}

bool near_m(double a, double b) {
    return std::abs(a - b) < kSlack_m;
}

bool same(const RegularGrid& one, const RegularGrid& other) {
    return one.rows == other.rows && one.columns == other.columns && one.wraps == other.wraps &&
           near_deg(one.first.lat_deg, other.first.lat_deg) &&
           near_deg(one.first.lon_deg, other.first.lon_deg) &&
           near_deg(one.lat_step_deg, other.lat_step_deg) && near_deg(one.lon_step_deg, other.lon_step_deg);
}

bool same(const GaussianGrid& one, const GaussianGrid& other) {
    return std::ranges::equal(one.lats_deg, other.lats_deg, near_deg) && one.columns == other.columns &&
           one.wraps == other.wraps && near_deg(one.first_lon_deg, other.first_lon_deg) &&
           near_deg(one.lon_step_deg, other.lon_step_deg);
}

bool same(const ProjectedGrid& one, const ProjectedGrid& other) {
    return one.rows == other.rows && one.columns == other.columns &&
           one.projection->same_as(*other.projection) && near_m(one.first.x_m, other.first.x_m) &&
           near_m(one.first.y_m, other.first.y_m) && near_m(one.step_x_m, other.step_x_m) &&
           near_m(one.step_y_m, other.step_y_m);
}

bool same(const PointGrid& one, const PointGrid& other) {
    return near_deg(one.at.lat_deg, other.at.lat_deg) && near_deg(one.at.lon_deg, other.at.lon_deg);
}

}  // namespace

std::size_t rows_of(const Grid& grid) {
    return std::visit(
        ByKind{[](const GaussianGrid& of) { return of.lats_deg.size(); },
               [](const PointGrid&) { return std::size_t{1}; }, [](const auto& of) { return of.rows; }},
        grid);
}

std::size_t columns_of(const Grid& grid) {
    return std::visit(
        ByKind{[](const PointGrid&) { return std::size_t{1}; }, [](const auto& of) { return of.columns; }},
        grid);
}

std::size_t cells_of(const Grid& grid) {
    return rows_of(grid) * columns_of(grid);
}

bool same_grid(const Grid& one, const Grid& other) {
    return std::visit(
        [&other](const auto& of) {
            const auto* alike = std::get_if<std::decay_t<decltype(of)>>(&other);
            return alike && same(of, *alike);
        },
        one);
}

std::string to_text(const Grid& grid) {
    const std::string size = fmt::format("{} x {}", columns_of(grid), rows_of(grid));
    return std::visit(ByKind{[&size](const RegularGrid& of) {
                                 return std::abs(std::abs(of.lat_step_deg) - of.lon_step_deg) < 1e-4
                                            ? fmt::format("{:.4g} deg, {}", of.lon_step_deg, size)
                                            : fmt::format("{:.4g} by {:.4g} deg, {}", of.lon_step_deg,
                                                          std::abs(of.lat_step_deg), size);
                             },
                             [&size](const GaussianGrid& of) {
                                 return fmt::format("Gaussian, {:.4g} deg, {}", of.lon_step_deg, size);
                             },
                             [&size](const ProjectedGrid& of) {
                                 return fmt::format("{}, {:.4g} km, {}", of.projection->name(),
                                                    of.step_x_m / 1e3, size);
                             },
                             [](const PointGrid& of) { return "one column at " + geo::to_text(of.at); }},
                      grid);
}

geo::LatLon centre_of(const Grid& grid) {
    const auto middle = [](std::size_t count) { return static_cast<double>(count / 2); };
    return std::visit(ByKind{[&](const RegularGrid& of) {
                                 return geo::LatLon{of.first.lat_deg + middle(of.rows) * of.lat_step_deg,
                                                    of.first.lon_deg + middle(of.columns) * of.lon_step_deg};
                             },
                             [&](const GaussianGrid& of) {
                                 return geo::LatLon{of.lats_deg[of.lats_deg.size() / 2],
                                                    of.first_lon_deg + middle(of.columns) * of.lon_step_deg};
                             },
                             [&](const ProjectedGrid& of) {
                                 return of.projection->place({of.first.x_m + middle(of.columns) * of.step_x_m,
                                                              of.first.y_m - middle(of.rows) * of.step_y_m});
                             },
                             [](const PointGrid& of) { return of.at; }},
                      grid);
}

bool is_point(const Grid& grid) {
    return std::holds_alternative<PointGrid>(grid);
}

}  // namespace gloam::weather
