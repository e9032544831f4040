#include "weather/level_heights.hpp"

#include <algorithm>
#include <cmath>

#include "air/standard_atmosphere.hpp"

namespace gloam::weather {
namespace {

constexpr double kSeaLevelPressure_pa = 101325.0;
constexpr double kLeastLimit_pa = 100.0;
constexpr double kGeopotentialRadius_m = 6356.766e3;  // U.S. Standard Atmosphere, 1976

double geometric_m(double geopotential_m) {
    return kGeopotentialRadius_m * geopotential_m / (kGeopotentialRadius_m - geopotential_m);
}

double deviation_m(const Field* heights, std::size_t cell) {
    if (heights == nullptr || !has_value(*heights, cell)) {
        return 0.0;
    }
    return geometric_m(static_cast<double>(heights->values[cell])) -
           air::pressure_altitude_m(heights->level.pressure_pa);
}

PressureSurface surface_at(double pressure_pa, std::span<const Field* const> heights) {
    PressureSurface surface{.standard_m = air::pressure_altitude_m(pressure_pa)};
    if (heights.empty()) {
        return surface;
    }
    const auto above = std::ranges::find_if(
        heights, [pressure_pa](const Field* field) { return field->level.pressure_pa <= pressure_pa; });
    surface.above = above == heights.end() ? heights.back() : *above;
    surface.below = above == heights.begin() ? heights.front() : *std::prev(above);
    const double span = std::log(surface.below->level.pressure_pa / surface.above->level.pressure_pa);
    surface.share_above = span > 0.0 ? std::log(surface.below->level.pressure_pa / pressure_pa) / span : 0.0;
    return surface;
}

double height_on(const PressureSurface& surface, std::size_t cell) {
    const double below = deviation_m(surface.below, cell);
    const double above = surface.share_above > 0.0 ? deviation_m(surface.above, cell) : below;
    return surface.standard_m + below + surface.share_above * (above - below);
}

}  // namespace

std::vector<double> slab_limits_pa(std::span<const double> levels_pa) {
    std::vector<double> limits;
    limits.reserve(levels_pa.size() + 1);
    const double lowest = levels_pa.front();
    const double highest = levels_pa.back();
    limits.push_back(std::max(lowest, 0.5 * (lowest + kSeaLevelPressure_pa)));
    for (std::size_t i = 1; i < levels_pa.size(); ++i) {
        limits.push_back(0.5 * (levels_pa[i - 1] + levels_pa[i]));
    }
    limits.push_back(std::max({2.0 * highest - limits.back(), 0.5 * highest, kLeastLimit_pa}));
    return limits;
}

LevelHeights::LevelHeights(std::span<const double> pressures_pa, std::span<const Field* const> heights) {
    for (const double pressure_pa : pressures_pa) {
        surfaces_.push_back(surface_at(pressure_pa, heights));
    }
}

double LevelHeights::height_m(std::size_t pressure, std::size_t cell) const {
    return height_on(surfaces_[pressure], cell);
}

double height_of_pressure_m(double pressure_pa, std::span<const Field* const> heights, std::size_t cell) {
    return height_on(surface_at(pressure_pa, heights), cell);
}

}  // namespace gloam::weather
