#include "sheet/sky_texture.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace gloam::sheet {
namespace {

constexpr double kFinest_m = 12.0;

/// Rounded heaps: high on both sides of the creases where noise passes zero; mean about 0.
double puff(double noise) {
    return 2.6 * std::abs(noise) - 0.7;
}

/// Which way rows and fibres run.
double rows_rad(std::uint64_t seed) {
    return std::numbers::pi * static_cast<double>(scrambled(seed ^ 0x57696E64U) >> 11U) * 0x1.0p-53;
}

}  // namespace

CloudForm form_of(sky::CloudClass kind) {
    switch (kind) {
        case sky::CloudClass::kLow:
            return {.patch_weight = 0.9,
                    .element_over_view_cell = 1.6,
                    .stretch = 1.3,
                    .bend = 0.35,
                    .puffs = 2,
                    .rough = 0.55,
                    .soft_edge = 0.22,
                    .shade = 0.45,
                    .relief = 0.8};
        case sky::CloudClass::kMiddle:
            return {.patch_weight = 1.3,
                    .element_over_view_cell = 1.5,
                    .stretch = 1.6,
                    .bend = 0.25,
                    .puffs = 2,
                    .rough = 0.58,
                    .soft_edge = 0.32,
                    .shade = 0.35,
                    .relief = 1.0};
        case sky::CloudClass::kHigh:
            break;
    }
    return {.patch_weight = 1.5,
            .element_over_view_cell = 0.8,
            .stretch = 3.2,
            .bend = 0.6,
            .puffs = 0,
            .rough = 0.58,
            .soft_edge = 0.95,
            .shade = 0.3,
            .relief = 0.8};
}

CloudTexture::CloudTexture(const sky::CloudLayer& layer, std::uint64_t seed)
    : form_(form_of(layer.kind)),
      patch_m_(1.3 * layer.optics.cell_m),
      element_m_(form_.element_over_view_cell * layer.optics.view_cell_m),
      cos_rows_(std::cos(rows_rad(seed))),
      sin_rows_(std::sin(rows_rad(seed))),
      patches_(scrambled(seed + 1)),
      bends_(scrambled(seed + 2)),
      elements_{Noise(scrambled(seed + 3)), Noise(scrambled(seed + 4))} {}

double CloudTexture::thickness(const PlanePoint& at, double finest_m) const {
    double along = at.east_m * cos_rows_ + at.north_m * sin_rows_;
    double across = at.north_m * cos_rows_ - at.east_m * sin_rows_;
    const double bend_m = 1.3 * form_.stretch * element_m_;
    const double wide_bend = bends_.at(along / bend_m, across / bend_m);
    const double fine_bend = bends_.at(3.1 * across / bend_m + 17.5, 2.3 * along / bend_m - 3.5);
    across += form_.bend * element_m_ * (wide_bend + 0.35 * fine_bend);
    along += form_.bend * element_m_ * fine_bend;
    double sum = form_.patch_weight * 1.4 * patches_.at(at.east_m / patch_m_, at.north_m / patch_m_);
    double weight = 1.0;
    double size_m = element_m_;
    for (int octave = 0; size_m > std::max(finest_m, kFinest_m); ++octave) {
        const double shown = std::min(1.0, size_m / std::max(finest_m, kFinest_m) - 1.0);
        // Every other octave is stretched less: fibres break.
        const double stretch = octave % 2 == 0 ? form_.stretch : std::sqrt(form_.stretch);
        const double noise =
            elements_[static_cast<std::size_t>(octave % 2)].at(along / (stretch * size_m), across / size_m);
        sum += weight * shown * (octave < form_.puffs ? puff(noise) : 1.4 * noise);
        weight *= form_.rough;
        size_m *= 0.5;
    }
    return sum;
}

}  // namespace gloam::sheet
