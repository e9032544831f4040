#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>

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

    /// In steps, so that all but the look-ups runs on vectors.
    template <std::size_t n>
    GLOAM_INLINE void apparent_rad(const std::array<float, n>& zenith_rad,
                                   std::array<float, n>& apparent_rad) const {
        std::array<std::int32_t, n> node;
        std::array<float, n> along;
        for (std::size_t i = 0; i < n; ++i) {
            apparent_rad[i] = std::min(zenith_rad[i], edge_rad_);
            const float place =
                std::sqrt(1.0F - apparent_rad[i] / reach_rad_) * static_cast<float>(ColumnTable::kNodes - 1);
            node[i] = std::min(static_cast<std::int32_t>(place), kLastNode);
            along[i] = place - static_cast<float>(node[i]);
        }
        std::array<std::array<float, n>, 4> refraction_rad;
        for (std::size_t i = 0; i < n; ++i) {
            refraction_rad[0][i] = low_[node[i]].refraction_rad;
            refraction_rad[1][i] = low_[node[i] + 1].refraction_rad;
            refraction_rad[2][i] = high_[node[i]].refraction_rad;
            refraction_rad[3][i] = high_[node[i] + 1].refraction_rad;
        }
        for (std::size_t i = 0; i < n; ++i) {
            const auto between = [&](const auto& from, const auto& to) {
                return from[i] + along[i] * (to[i] - from[i]);
            };
            const float low = between(refraction_rad[0], refraction_rad[1]);
            const float high = between(refraction_rad[2], refraction_rad[3]);
            apparent_rad[i] -= low + share_ * (high - low);
        }
    }

  private:
    static constexpr auto kLastNode = static_cast<std::int32_t>(ColumnTable::kNodes - 2);

    const ColumnTable::Node* low_;
    const ColumnTable::Node* high_;
    float share_;
    float edge_rad_;
    float reach_rad_;
};

}  // namespace gloam::sky
