#pragma once

#include <array>
#include <cstddef>

#include "sky/cloud_lines.hpp"
#include "sky/sky_palette.hpp"

namespace gloam::sky {

/// A layer as a viewer sees it.
struct SeenLayer {
    std::size_t index = 0;  ///< in CloudLines
    double base_m = 0.0;    ///< not below the viewer
    double middle_m = 0.0;
    std::size_t base_level = 0;  ///< in FreeLevels: just below the base, in the middle, just above the top
    std::size_t middle_level = 0;
    std::size_t top_level = 0;
};

/// The layers that stand above a viewer, and P at the heights that matter to him: close to every layer,
/// between them, and in the air above the Earth's shadow.
class FreeLevels {
  public:
    static constexpr std::size_t kMost = 56;

    FreeLevels(const SkyPalette& palette, const CloudLines& clouds);

    const std::array<SeenLayer, kMostLayers>& layers() const { return layers_; }
    std::size_t layer_count() const { return layer_count_; }
    /// Rising.
    std::size_t count() const { return count_; }
    double height_m(std::size_t level) const { return lines_[level].height_m; }
    /// The level below a step of a row's rays, or the last but one. P is known there and at the next level if
    /// the step shines.
    std::size_t level_below(std::size_t row, std::size_t step) const { return level_below_[row][step]; }
    /// P at a level round the viewer at one distance: a level of a layer, or one beside a step that shines.
    void read(std::size_t level, float ground_m, ByColumn& free) const;

  private:
    void find_layers(double viewer_m, const CloudLines& clouds);
    /// Fills in the heights of all levels; `shadow_m` is that of the Earth's shadow over the viewer.
    void find_heights(double viewer_m, double shadow_m, const CloudLines& clouds);
    std::size_t level_at(double height_m) const;
    void find_steps(const SkyPalette& palette, std::array<bool, kMost>& needed);

    std::array<SeenLayer, kMostLayers> layers_;
    std::size_t layer_count_ = 0;
    std::array<FreeLines, kMost> lines_;
    std::size_t count_ = 0;
    std::array<std::array<std::size_t, AirPalette::kSteps>, kGridRows> level_below_;
};

}  // namespace gloam::sky
