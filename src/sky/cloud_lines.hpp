#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include "sky/cloud_field.hpp"
#include "sky/columns.hpp"

namespace gloam::sky {

/// Places for the five lines of the light path, side by side in one vector register; the rest is unused.
inline constexpr std::size_t kLanes = 8;
using ByLine = std::array<float, kLanes>;

/// Layers that a sky can have.
inline constexpr std::size_t kMostLayers = 3;

/// ln of the probability that the ray to the sun is free, for one height, by place along the path and line.
struct FreeLines {
    static constexpr std::size_t kMostPlaces = 24;

    double height_m = 0.0;
    float reach_m = 0.0F;  ///< of the last place either way
    std::size_t places = 0;
    bool all_free = false;                    ///< no ray meets a layer that has cloud
    std::array<ByLine, kMostPlaces> ln_free;  ///< unless all are free

    /// Places crowd overhead: they lie at reach t |t|, t even from -1 to 1. `root` is sign(x) sqrt(|x|).
    float place_of(float root) const { return middle() * (1.0F + root / std::sqrt(reach_m)); }
    float along_m(std::size_t place) const {
        const float t = static_cast<float>(place) / middle() - 1.0F;
        return reach_m * t * std::abs(t);
    }

  private:
    float middle() const { return 0.5F * static_cast<float>(places - 1); }
};

/// The cloud of one moment made ready for many questions: CloudField's answers, all lines at once, from sums
/// of ln(1 - cover) along each line. Single precision: probabilities within 0.2 % of CloudField's.
class CloudLines {
  public:
    /// Layers in the order of CloudField, at most kMostLayers.
    explicit CloudLines(std::vector<CloudLayer> layers);

    const std::vector<CloudLayer>& layers() const { return layers_; }

    /// Fills `lines` with ln of P at `height_m` for places within `reach_m` along the path, the sun at
    /// `sun_zenith_rad` (true) over the viewer.
    void free_lines(const ColumnTable& columns, double height_m, double reach_m, double sun_zenith_rad,
                    FreeLines& lines) const;

    /// No cloud anywhere in a layer.
    bool is_clear(std::size_t layer) const { return is_clear_[layer]; }
    /// Cover of a layer by point of the path and line.
    const std::array<ByLine, geo::LightPathGrid::kPoints>& cover(std::size_t layer) const {
        return cover_[layer];
    }

  private:
    using Table = std::array<ByLine, geo::LightPathGrid::kPoints>;

    std::vector<CloudLayer> layers_;
    std::array<bool, kMostLayers> is_clear_{};
    std::array<Table, kMostLayers> cover_{};
    std::array<Table, kMostLayers> integral_{};  ///< of ln(1 - cover) from the first point, metres
};

}  // namespace gloam::sky
