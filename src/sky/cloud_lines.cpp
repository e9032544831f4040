#include "sky/cloud_lines.hpp"

#include <algorithm>
#include <cmath>

#include "air/standard_atmosphere.hpp"
#include "base/check.hpp"
#include "sky/elementary.hpp"
#include "sky/seen_sun.hpp"
#include "sky/vector_clones.hpp"

namespace gloam::sky {
namespace {

using Grid = geo::LightPathGrid;

/// As in CloudField: ln(1 - 1) would spoil the mean over a passage that has a gap in it.
constexpr float kFullCover = 0.9999F;
constexpr float kQuarterTurn = 1.57079633F;

/// Value of a table over the points of the path, at a place along it; beyond the ends it goes on as it went.
GLOAM_INLINE ByLine at_place(const ByLine* points, float along_m) {
    const float place = (along_m - static_cast<float>(Grid::kFirst_m)) / static_cast<float>(Grid::kStep_m);
    const float inside = std::clamp(place, 0.0F, static_cast<float>(Grid::kPoints - 2));
    const auto low = static_cast<std::size_t>(inside);
    const float share = place - static_cast<float>(low);
    ByLine value;
    for (std::size_t i = 0; i < kLanes; ++i) {
        value[i] = points[low][i] + share * (points[low + 1][i] - points[low][i]);
    }
    return value;
}

/// Sums of ln(1 - cover) along all lines of the path from the first point.
GLOAM_VECTOR_CLONES void sum_lines(const Grid::Values& cover, std::array<ByLine, Grid::kPoints>& integral) {
    Grid::Values half_steps;
    for (std::size_t line = 0; line < Grid::kLines; ++line) {
        for (std::size_t i = 0; i < Grid::kPoints; ++i) {
            half_steps[line][i] = 0.5F * static_cast<float>(Grid::kStep_m) *
                                  logarithm(1.0F - std::min(cover[line][i], kFullCover));
        }
    }
    ByLine sum{};
    integral[0] = sum;
    for (std::size_t i = 1; i < Grid::kPoints; ++i) {
        for (std::size_t line = 0; line < Grid::kLines; ++line) {
            sum[line] += half_steps[line][i - 1] + half_steps[line][i];
        }
        integral[i] = sum;
    }
}

/// Rays to the sun from `n` places at one height.
template <std::size_t n>
struct Rays {
    double height_m;
    float radius_m;  ///< effective
    std::array<float, n> along_m;
    std::array<float, n> sin_depression;
    std::array<float, n> cos_depression;
};

template <std::size_t n, class Along>
GLOAM_INLINE Rays<n> rays_from(const ColumnTable& columns, double height_m, double sun_zenith_rad,
                               const Along& along_m) {
    Rays<n> rays;
    rays.height_m = height_m;
    rays.radius_m = static_cast<float>(SunRay(height_m, 0.0).effective_radius_m);
    std::array<float, n> zenith_rad;
    for (std::size_t i = 0; i < n; ++i) {
        rays.along_m[i] = along_m(i);
        zenith_rad[i] =
            static_cast<float>(sun_zenith_rad) - rays.along_m[i] / static_cast<float>(air::kEarthRadius_m);
    }
    std::array<float, n> apparent_rad;
    SeenSun(columns, height_m).apparent_rad(zenith_rad, apparent_rad);
    for (std::size_t i = 0; i < n; ++i) {
        rays.sin_depression[i] = sine(apparent_rad[i] - kQuarterTurn);
        rays.cos_depression[i] = std::sqrt(1.0F - rays.sin_depression[i] * rays.sin_depression[i]);
    }
    return rays;
}

/// Adds ln of P through one layer: CloudField::sun_free(), whose comments hold here. Tells whether any ray
/// passes the layer.
template <std::size_t n>
GLOAM_INLINE bool add_layer(const Rays<n>& rays, const CloudLayer& layer, const ByLine* integral,
                            ByLine* ln_free) {
    const auto under_top_m = static_cast<float>(rays.height_m - layer.top_m);
    const auto under_base_m = static_cast<float>(rays.height_m - layer.base_m);
    const float per_cell = 1.0F / static_cast<float>(layer.optics.cell_m);
    // The two passages of each ray: down to the base (or all the way below the top), and up again.
    std::array<std::array<float, n>, 2> from_m;
    std::array<std::array<float, n>, 2> to_m;
    std::array<std::array<float, n>, 2> weight;
    for (std::size_t i = 0; i < n; ++i) {
        const float tangent_m = rays.radius_m * rays.sin_depression[i];
        const float square = tangent_m * tangent_m;
        const float base_square = square - 2.0F * rays.radius_m * under_base_m;
        const float below_top_m = std::sqrt(std::max(square - 2.0F * rays.radius_m * under_top_m, 0.0F));
        const float below_base_m = std::sqrt(std::max(base_square, 0.0F));
        const float out_m = tangent_m + below_top_m;
        const float turn_m = tangent_m + below_base_m;
        const bool through = base_square > 0.0F;
        const float starts[2] = {tangent_m - below_top_m, turn_m};
        const float ends[2] = {through ? tangent_m - below_base_m : out_m, through ? out_m : turn_m};
        for (std::size_t p = 0; p < 2; ++p) {
            const float start_m = std::max(starts[p], 0.0F);
            const float length_m = ends[p] - start_m;
            const float ground_m = std::max(length_m * rays.cos_depression[i], 1.0F);
            from_m[p][i] = rays.along_m[i] + start_m * rays.cos_depression[i];
            to_m[p][i] = from_m[p][i] + ground_m;
            weight[p][i] = length_m > 0.0F ? std::max(1.0F, length_m * per_cell) / ground_m : 0.0F;
        }
    }
    bool passed = false;
    for (std::size_t p = 0; p < 2; ++p) {
        for (std::size_t i = 0; i < n; ++i) {
            if (weight[p][i] > 0.0F) {
                passed = true;
                const ByLine low = at_place(integral, from_m[p][i]);
                const ByLine high = at_place(integral, to_m[p][i]);
                for (std::size_t lane = 0; lane < kLanes; ++lane) {
                    ln_free[i][lane] += weight[p][i] * (high[lane] - low[lane]);
                }
            }
        }
    }
    return passed;
}

/// The layers of a sky with their sums.
struct Layers {
    const std::vector<CloudLayer>& layers;
    const std::array<bool, kMostLayers>& is_clear;
    const std::array<std::array<ByLine, Grid::kPoints>, kMostLayers>& integral;
};

/// ln of P from `n` places at a height. Tells whether any ray passes cloud.
template <std::size_t n, class Along>
GLOAM_INLINE bool find_ln_free(const Layers& sky, const ColumnTable& columns, double height_m,
                               double sun_zenith_rad, const Along& along_m, ByLine* ln_free) {
    const Rays<n> rays = rays_from<n>(columns, height_m, sun_zenith_rad, along_m);
    std::fill(ln_free, ln_free + n, ByLine{});
    bool passed = false;
    for (std::size_t k = 0; k < sky.layers.size(); ++k) {
        if (!sky.is_clear[k]) {
            passed = add_layer(rays, sky.layers[k], sky.integral[k].data(), ln_free) || passed;
        }
    }
    return passed;
}

GLOAM_VECTOR_CLONES void fill_free_lines(const Layers& sky, const ColumnTable& columns, double sun_zenith_rad,
                                         FreeLines& lines) {
    const auto along_m = [&lines](std::size_t i) { return lines.along_m(i); };
    const double height_m = lines.height_m;
    constexpr std::size_t kMost = FreeLines::kMostPlaces;
    ByLine* ln_free = lines.ln_free.data();
    bool passed = false;
    if (lines.places == 8) {
        passed = find_ln_free<8>(sky, columns, height_m, sun_zenith_rad, along_m, ln_free);
    } else if (lines.places == 16) {
        passed = find_ln_free<16>(sky, columns, height_m, sun_zenith_rad, along_m, ln_free);
    } else {
        passed = find_ln_free<kMost>(sky, columns, height_m, sun_zenith_rad, along_m, ln_free);
    }
    lines.all_free = !passed;
}

}  // namespace

CloudLines::CloudLines(std::vector<CloudLayer> layers) : layers_(std::move(layers)) {
    GLOAM_CHECK(layers_.size() <= kMostLayers);
    for (std::size_t k = 0; k < layers_.size(); ++k) {
        GLOAM_CHECK(layers_[k].top_m > layers_[k].base_m);
        const Grid::Values& cover = layers_[k].cover;
        is_clear_[k] = std::ranges::all_of(cover, [](const auto& line) {
            return std::ranges::all_of(line, [](float f) { return f <= 0.0F; });
        });
        sum_lines(cover, integral_[k]);
        for (std::size_t i = 0; i < Grid::kPoints; ++i) {
            for (std::size_t line = 0; line < Grid::kLines; ++line) {
                cover_[k][i][line] = cover[line][i];
            }
        }
    }
}

void CloudLines::free_lines(const ColumnTable& columns, double height_m, double reach_m,
                            double sun_zenith_rad, FreeLines& lines) const {
    lines.height_m = height_m;
    lines.reach_m = static_cast<float>(reach_m);
    lines.places = reach_m < 30.0e3 ? 8 : reach_m < 100.0e3 ? 16 : FreeLines::kMostPlaces;
    lines.all_free =
        std::all_of(is_clear_.begin(), is_clear_.begin() + static_cast<std::ptrdiff_t>(layers_.size()),
                    [](bool clear) { return clear; });
    if (lines.all_free) {
        return;
    }
    fill_free_lines({layers_, is_clear_, integral_}, columns, sun_zenith_rad, lines);
}

}  // namespace gloam::sky
