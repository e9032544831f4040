#include "sky/free_levels.hpp"

#include <algorithm>
#include <cmath>

#include "air/standard_atmosphere.hpp"
#include "sky/elementary.hpp"
#include "sky/round_reading.hpp"
#include "sky/vector_clones.hpp"

namespace gloam::sky {
namespace {

// As in SkyPainter.
constexpr double kOutside_m = 10.0;
constexpr double kInCloud_m = 30.0;
constexpr float kNear_m = 20.0e3F;

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
        if (layer.top_m <= viewer_m + kInCloud_m || clouds.is_clear(k)) {
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
    find_heights(viewer_m, shadow_height_m(columns, palette.sun_zenith_rad()), clouds);
    std::array<bool, kMost> needed{};
    for (std::size_t k = 0; k < layer_count_; ++k) {
        const CloudLayer& layer = clouds.layers()[layers_[k].index];
        needed[layers_[k].base_level = level_at(layer.base_m - kOutside_m)] = true;
        needed[layers_[k].middle_level = level_at(0.5 * (layer.base_m + layer.top_m))] = true;
        needed[layers_[k].top_level = level_at(layer.top_m + kOutside_m)] = true;
    }
    find_steps(palette, needed);
    const AirRay& lowest = palette.air().rows().front().ray;
    for (std::size_t i = 0; i < count_; ++i) {
        if (needed[i]) {
            const double height_m = lines_[i].height_m;
            const double path_m =
                path_to_radius_m(lowest.start_radius_m, lowest.cos_zenith,
                                 air::kEarthRadius_m + std::max(height_m, viewer_m + kInCloud_m), true);
            clouds.free_lines(columns, height_m, path_m * lowest.sin_zenith, palette.sun_zenith_rad(),
                              lines_[i]);
        }
    }
}

void FreeLevels::find_heights(double viewer_m, double shadow_m, const CloudLines& clouds) {
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
    constexpr double kStep_m = 1.5e3;
    for (double height_m = kStep_m; height_m < 14.0e3; height_m += kStep_m) {
        fill(height_m);
    }
    const double lit_m = std::min(shadow_m + 20.0e3, 96.0e3);
    for (double height_m = 14.0e3; height_m < lit_m; height_m += 3.0e3) {
        add(height_m);
    }
    add(lit_m);
    add(99.0e3);
    std::sort(heights_m.begin(), heights_m.begin() + static_cast<std::ptrdiff_t>(count));
    for (std::size_t i = 0; i < count; ++i) {
        if (count_ == 0 || heights_m[i] >= lines_[count_ - 1].height_m + 1.0) {
            lines_[count_++].height_m = heights_m[i];
        }
    }
}

void FreeLevels::find_steps(const SkyPalette& palette, std::array<bool, kMost>& needed) {
    for (std::size_t r = 0; r < kGridRows; ++r) {
        const AirRay& ray = palette.air().rows()[r].ray;
        for (std::size_t s = 0, level = 0; s < AirPalette::kSteps; ++s) {
            while (level + 2 < count_ && lines_[level + 1].height_m < ray.steps[s].height_m) {
                ++level;
            }
            level_below_[r][s] = level;
            if (palette.rows()[r].shines[s]) {
                needed[level] = needed[level + 1] = true;
            }
        }
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

/// ln of P on all lines at a place along the path.
GLOAM_INLINE ByLine line_values(const FreeLines& lines, float root) {
    const float place = std::clamp(lines.place_of(root), 0.0F, static_cast<float>(lines.places - 1));
    const auto low = std::min(static_cast<std::size_t>(place), lines.places - 2);
    const float share = place - static_cast<float>(low);
    ByLine values;
    for (std::size_t i = 0; i < kLanes; ++i) {
        values[i] = lines.ln_free[low][i] + share * (lines.ln_free[low + 1][i] - lines.ln_free[low][i]);
    }
    return values;
}

/// P at a distance within which ln P is a parabola along the path, and straight from line to line.
GLOAM_INLINE void read_near(const FreeLines& lines, float ground_m, ByColumn& free) {
    const float root = std::sqrt(ground_m);
    const ByLine behind = line_values(lines, -root);
    const ByLine here = line_values(lines, 0.0F);
    const ByLine ahead = line_values(lines, root);
    ByLine slope;
    ByLine bend;
    for (std::size_t i = 0; i < kLanes; ++i) {
        slope[i] = 0.5F * (ahead[i] - behind[i]);
        bend[i] = 0.5F * (ahead[i] + behind[i]) - here[i];
    }
    constexpr std::size_t kMiddle = geo::LightPathGrid::kLines / 2;
    const float out = ground_m / static_cast<float>(geo::LightPathGrid::kLineSpacing_m);
    const auto apart = [out](const ByLine& values, std::size_t line) {
        return out * (values[line] - values[kMiddle]);
    };
    constexpr std::size_t kLeft = kMiddle - 1;
    constexpr std::size_t kRight = kMiddle + 1;
    const float left[3] = {apart(here, kLeft), apart(slope, kLeft), apart(bend, kLeft)};
    const float right[3] = {apart(here, kRight), apart(slope, kRight), apart(bend, kRight)};
    for (std::size_t c = 0; c < kGridColumns; ++c) {
        const float t = kCompass.cosine[c];
        const float sine = kCompass.sine[c];
        const float ln = here[kMiddle] + t * (slope[kMiddle] + t * bend[kMiddle]) +
                         std::max(sine, 0.0F) * (right[0] + t * (right[1] + t * right[2])) +
                         std::max(-sine, 0.0F) * (left[0] + t * (left[1] + t * left[2]));
        free[c] = exponential(std::min(ln, 0.0F));
    }
}

GLOAM_VECTOR_CLONES void FreeLevels::read(std::size_t level, float ground_m, ByColumn& free) const {
    const FreeLines& lines = lines_[level];
    if (lines.all_free) {
        free.fill(1.0F);
        return;
    }
    if (ground_m < kNear_m) {
        read_near(lines, ground_m, free);
        return;
    }
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
