#pragma once

#include <algorithm>
#include <cmath>

#include "base/check.hpp"
#include "sky/columns.hpp"
#include "sky/vector_clones.hpp"

namespace gloam::sky {

/// The sun's apparent zenith angle at one height: ColumnTable::apparent_zenith_rad() for many questions at
/// one height, in single precision. The table must outlive it.
class SeenSun {
  public:
    SeenSun(const ColumnTable& columns, double height_m) {
        const auto at = columns.place(height_m, 0.0);
        GLOAM_CHECK(at.has_value());
        low_ = &columns.node(at->row, 0);
        high_ = &columns.node(at->row + 1, 0);
        share_ = static_cast<float>(at->row_share);
        edge_rad_ = static_cast<float>(columns.shadow_edge_rad(height_m));
        const double low_rad = columns.node_zenith_rad(at->row, 0);
        reach_rad_ =
            static_cast<float>(low_rad + at->row_share * (columns.node_zenith_rad(at->row + 1, 0) - low_rad));
    }

    GLOAM_INLINE float apparent_rad(float zenith_rad) const {
        const float lit_rad = std::min(zenith_rad, edge_rad_);
        const float place =
            std::sqrt(1.0F - lit_rad / reach_rad_) * static_cast<float>(ColumnTable::kNodes - 1);
        const auto node = std::min(static_cast<std::size_t>(place), ColumnTable::kNodes - 2);
        const float along = place - static_cast<float>(node);
        const auto between = [along](float a, float b) { return a + along * (b - a); };
        const float low = between(low_[node].refraction_rad, low_[node + 1].refraction_rad);
        const float high = between(high_[node].refraction_rad, high_[node + 1].refraction_rad);
        return lit_rad - (low + share_ * (high - low));
    }

  private:
    const ColumnTable::Node* low_;
    const ColumnTable::Node* high_;
    float share_;
    float edge_rad_;
    float reach_rad_;
};

}  // namespace gloam::sky
