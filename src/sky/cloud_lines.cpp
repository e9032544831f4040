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

/// ln(1 - cover) of a line of the path and its sums from the first point.
GLOAM_VECTOR_CLONES void sum_line(const std::array<float, Grid::kPoints>& cover, std::size_t line,
                                  std::array<ByLine, Grid::kPoints>& integral) {
    std::array<float, Grid::kPoints> ln_clear;
    for (std::size_t i = 0; i < Grid::kPoints; ++i) {
        ln_clear[i] = logarithm(1.0F - std::min(cover[i], kFullCover));
    }
    float sum = 0.0F;
    integral[0][line] = 0.0F;
    for (std::size_t i = 1; i < Grid::kPoints; ++i) {
        sum += 0.5F * static_cast<float>(Grid::kStep_m) * (ln_clear[i - 1] + ln_clear[i]);
        integral[i][line] = sum;
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
    const SeenSun sun(columns, height_m);
    for (std::size_t i = 0; i < n; ++i) {
        rays.along_m[i] = along_m(i);
        const float zenith_rad =
            static_cast<float>(sun_zenith_rad) - rays.along_m[i] / static_cast<float>(air::kEarthRadius_m);
        rays.sin_depression[i] = sine(sun.apparent_rad(zenith_rad) - kQuarterTurn);
        rays.cos_depression[i] = std::sqrt(1.0F - rays.sin_depression[i] * rays.sin_depression[i]);
    }
    return rays;
}

/// Adds ln of P through one layer: CloudField::sun_free(), whose comments hold here.
template <std::size_t n>
GLOAM_INLINE void add_layer(const Rays<n>& rays, const CloudLayer& layer, const ByLine* integral,
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
    for (std::size_t p = 0; p < 2; ++p) {
        for (std::size_t i = 0; i < n; ++i) {
            if (weight[p][i] > 0.0F) {
                const ByLine low = at_place(integral, from_m[p][i]);
                const ByLine high = at_place(integral, to_m[p][i]);
                for (std::size_t lane = 0; lane < kLanes; ++lane) {
                    ln_free[i][lane] += weight[p][i] * (high[lane] - low[lane]);
                }
            }
        }
    }
}

/// The layers of a sky with their sums.
struct Layers {
    const std::vector<CloudLayer>& layers;
    const std::array<std::array<ByLine, Grid::kPoints>, kMostLayers>& integral;
};

/// ln of P from `n` places at a height.
template <std::size_t n, class Along>
GLOAM_INLINE void find_ln_free(const Layers& sky, const ColumnTable& columns, double height_m,
                               double sun_zenith_rad, const Along& along_m, ByLine* ln_free) {
    const Rays<n> rays = rays_from<n>(columns, height_m, sun_zenith_rad, along_m);
    std::fill(ln_free, ln_free + n, ByLine{});
    for (std::size_t k = 0; k < sky.layers.size(); ++k) {
        add_layer(rays, sky.layers[k], sky.integral[k].data(), ln_free);
    }
}

GLOAM_VECTOR_CLONES void fill_free_lines(const Layers& sky, const ColumnTable& columns, double sun_zenith_rad,
                                         FreeLines& lines) {
    const auto along_m = [&lines](std::size_t i) { return lines.along_m(i); };
    ByLine* ln_free = lines.ln_free.data();
    if (lines.places == 8) {
        find_ln_free<8>(sky, columns, lines.height_m, sun_zenith_rad, along_m, ln_free);
    } else if (lines.places == 16) {
        find_ln_free<16>(sky, columns, lines.height_m, sun_zenith_rad, along_m, ln_free);
    } else {
        find_ln_free<FreeLines::kMostPlaces>(sky, columns, lines.height_m, sun_zenith_rad, along_m, ln_free);
    }
}

}  // namespace

CloudLines::CloudLines(std::vector<CloudLayer> layers) : layers_(std::move(layers)) {
    GLOAM_CHECK(layers_.size() <= kMostLayers);
    for (std::size_t k = 0; k < layers_.size(); ++k) {
        GLOAM_CHECK(layers_[k].top_m > layers_[k].base_m);
        for (std::size_t line = 0; line < Grid::kLines; ++line) {
            const auto& cover = layers_[k].cover[line];
            sum_line(cover, line, integral_[k]);
            for (std::size_t i = 0; i < Grid::kPoints; ++i) {
                cover_[k][i][line] = cover[i];
            }
        }
    }
}

void CloudLines::free_lines(const ColumnTable& columns, double height_m, double reach_m,
                            double sun_zenith_rad, FreeLines& lines) const {
    lines.height_m = height_m;
    lines.reach_m = static_cast<float>(reach_m);
    lines.places = reach_m < 30.0e3 ? 8 : reach_m < 100.0e3 ? 16 : FreeLines::kMostPlaces;
    fill_free_lines({layers_, integral_}, columns, sun_zenith_rad, lines);
}

float CloudLines::mean_free(const ColumnTable& columns, double height_m, double sun_zenith_rad) const {
    // Nine places; the rest of the sixteen fill vector registers.
    constexpr std::size_t kPlaces = 9;
    const auto along_m = [](std::size_t i) {
        return -100.0e3F + 50.0e3F * static_cast<float>(i < kPlaces ? i : kPlaces);
    };
    std::array<ByLine, 16> ln_free;
    find_ln_free<16>({layers_, integral_}, columns, height_m, sun_zenith_rad, along_m, ln_free.data());
    float sum = 0.0F;
    for (std::size_t i = 0; i < kPlaces; ++i) {
        sum += exponential(ln_free[i][Grid::kLines / 2]);
    }
    return sum / static_cast<float>(kPlaces);
}

}  // namespace gloam::sky
