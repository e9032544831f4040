#include "sky/free_levels.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "air/standard_atmosphere.hpp"
#include "sky/elementary.hpp"
#include "sky/round_reading.hpp"
#include "sky/vector_clones.hpp"

namespace gloam::sky {
namespace {

constexpr double kPi = std::numbers::pi;
// As in SkyPainter.
constexpr double kOutside_m = 10.0;
constexpr double kInCloud_m = 30.0;

/// Height above the sea, over the viewer's place, at which the sun's last light passes.
double shadow_height_m(const ColumnTable& columns, double sun_zenith_rad) {
    double height_m = 0.0;
    while (height_m < air::kTopOfAir_m && columns.shadow_edge_rad(height_m) < sun_zenith_rad) {
        height_m += 1.0e3;
    }
    return height_m;
}

}  // namespace

void FreeLevels::find_layers(double viewer_m, const CloudLines& clouds) {
    for (std::size_t k = 0; k < clouds.layers().size(); ++k) {
        const CloudLayer& layer = clouds.layers()[k];
        if (layer.top_m <= viewer_m + kInCloud_m) {
            continue;
        }
        SeenLayer& seen = layers_[layer_count_++];
        seen.index = k;
        seen.base_m = std::max(layer.base_m, viewer_m + kInCloud_m);
        seen.middle_m = 0.5 * (seen.base_m + layer.top_m);
    }
}

FreeLevels::FreeLevels(const SkyPalette& palette, const CloudLines& clouds) {
    const ColumnTable& columns = palette.air().air().beam.columns();
    const double viewer_m = palette.air().viewer_height_m();
    find_layers(viewer_m, clouds);
    std::array<double, kMost> heights_m{};
    std::size_t count = 0;
    const auto add = [&](double height_m) { heights_m[count++] = height_m; };
    for (std::size_t k = 0; k < layer_count_; ++k) {
        const CloudLayer& layer = clouds.layers()[layers_[k].index];
        add(layer.base_m - kOutside_m);
        add(0.5 * (layer.base_m + layer.top_m));
        add(layer.top_m + kOutside_m);
    }
    // With the sun low its rays graze layers far off: P changes between them too. After sunset it changes in
    // the air just above the Earth's shadow, wherever that stands.
    const std::size_t hugging = count;
    const auto fill = [&](double height_m) {
        const auto near = [height_m](double other_m) { return std::abs(other_m - height_m) < 0.3e3; };
        if (std::none_of(heights_m.begin(), heights_m.begin() + static_cast<std::ptrdiff_t>(hugging), near)) {
            add(height_m);
        }
    };
    add(viewer_m + 1.0);
    const double sun_deg = 90.0 - palette.sun_zenith_rad() * 180.0 / kPi;
    const double step_m = sun_deg < 3.0 ? 1.5e3 : 4.0e3;
    for (double height_m = step_m; height_m < 14.0e3; height_m += step_m) {
        fill(height_m);
    }
    const double shadow_m = std::min(shadow_height_m(columns, palette.sun_zenith_rad()) + 20.0e3, 96.0e3);
    for (double height_m = 14.0e3; height_m < shadow_m; height_m += 3.0e3) {
        add(height_m);
    }
    add(shadow_m);
    add(99.0e3);
    std::sort(heights_m.begin(), heights_m.begin() + static_cast<std::ptrdiff_t>(count));
    const AirPalette::Row& lowest = palette.air().rows().front();
    for (std::size_t i = 0; i < count; ++i) {
        if (count_ > 0 && heights_m[i] < lines_[count_ - 1].height_m + 1.0) {
            continue;
        }
        const double path_m =
            path_to_radius_m(lowest.ray.start_radius_m, lowest.ray.cos_zenith,
                             air::kEarthRadius_m + std::max(heights_m[i], viewer_m + kInCloud_m), true);
        clouds.free_lines(columns, heights_m[i], path_m * lowest.ray.sin_zenith, palette.sun_zenith_rad(),
                          lines_[count_++]);
    }
    for (std::size_t k = 0; k < layer_count_; ++k) {
        const CloudLayer& layer = clouds.layers()[layers_[k].index];
        layers_[k].base_level = level_at(layer.base_m - kOutside_m);
        layers_[k].middle_level = level_at(0.5 * (layer.base_m + layer.top_m));
        layers_[k].top_level = level_at(layer.top_m + kOutside_m);
    }
}

std::size_t FreeLevels::level_at(double height_m) const {
    std::size_t best = 0;
    for (std::size_t i = 1; i < count_; ++i) {
        if (std::abs(lines_[i].height_m - height_m) < std::abs(lines_[best].height_m - height_m)) {
            best = i;
        }
    }
    return best;
}

GLOAM_VECTOR_CLONES void FreeLevels::read(std::size_t level, float ground_m, ByColumn& free) const {
    const FreeLines& lines = lines_[level];
    const float root = std::sqrt(ground_m);
    const float middle = lines.place_of(0.0F);
    const float stretch = lines.place_of(root) - middle;
    const auto most = static_cast<float>(lines.places - 1);
    Bilinear at;
    for (std::size_t c = 0; c < kGridColumns; ++c) {
        at.set(c, middle + stretch * kCompass.place[c], most, line_place(ground_m * kCompass.sine[c]));
    }
    free = at.read(lines.ln_free.front().data());
    for (float& value : free) {
        value = exponential(value);
    }
}

}  // namespace gloam::sky
