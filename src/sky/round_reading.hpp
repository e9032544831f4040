#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <numbers>

#include "sky/air_palette.hpp"
#include "sky/cloud_lines.hpp"
#include "sky/vector_clones.hpp"

/// Reading tables of the light path all round the viewer, a whole row of directions at a time.
namespace gloam::sky {

/// Directions of the columns.
struct Compass {
    ByColumn cosine{};
    ByColumn sine{};
    ByColumn place{};  ///< sign(cosine) sqrt(|cosine|): where FreeLines' places lie evenly
    ByColumn near{};   ///< 1 within 60 deg of the sun, else 0
};

inline Compass make_compass() {
    Compass compass;
    for (std::size_t c = 0; c < kGridColumns; ++c) {
        const double azimuth = Angle::degrees(azimuth_deg(c)).radians();
        const double cosine = std::cos(azimuth);
        compass.cosine[c] = static_cast<float>(cosine);
        compass.sine[c] = static_cast<float>(std::sin(azimuth));
        compass.place[c] = static_cast<float>(std::copysign(std::sqrt(std::abs(cosine)), cosine));
        compass.near[c] = std::abs(azimuth) < std::numbers::pi / 3.0 - 1e-9 ? 1.0F : 0.0F;
    }
    return compass;
}

inline const Compass kCompass = make_compass();

/// Value of a table of lines at places (along, line): [point][line], linear both ways.
struct Bilinear {
    std::array<std::int32_t, kGridColumns> corner{};  ///< index of the lower point and line
    ByColumn up{};                                    ///< weight of the upper point
    ByColumn right{};                                 ///< weight of the upper line

    GLOAM_INLINE void set(std::size_t c, float point, float most_points, float line) {
        const float inside = std::clamp(point, 0.0F, most_points);
        const auto low = static_cast<std::int32_t>(std::min(inside, most_points - 1.0F));
        const float inside_line = std::clamp(line, 0.0F, static_cast<float>(geo::LightPathGrid::kLines - 1));
        const auto low_line = static_cast<std::int32_t>(
            std::min(inside_line, static_cast<float>(geo::LightPathGrid::kLines - 2)));
        corner[c] = low * static_cast<std::int32_t>(kLanes) + low_line;
        up[c] = inside - static_cast<float>(low);
        right[c] = inside_line - static_cast<float>(low_line);
    }

    /// First the look-ups, two neighbouring lines at once, then all arithmetic on vectors.
    GLOAM_INLINE ByColumn read(const float* table) const {
        std::array<float, 2 * kGridColumns> low;
        std::array<float, 2 * kGridColumns> high;
        std::array<float, 2 * kGridColumns> share;
        for (std::size_t c = 0; c < kGridColumns; ++c) {
            const float* at = table + corner[c];
            std::memcpy(&low[2 * c], at, 2 * sizeof(float));
            std::memcpy(&high[2 * c], at + kLanes, 2 * sizeof(float));
        }
        for (std::size_t c = 0; c < kGridColumns; ++c) {
            share[2 * c] = share[2 * c + 1] = up[c];
        }
        for (std::size_t i = 0; i < low.size(); ++i) {
            low[i] += share[i] * (high[i] - low[i]);
        }
        ByColumn values;
        for (std::size_t c = 0; c < kGridColumns; ++c) {
            values[c] = low[2 * c] + right[c] * (low[2 * c + 1] - low[2 * c]);
        }
        return values;
    }
};

GLOAM_INLINE float line_place(float aside_m) {
    return (aside_m - static_cast<float>(geo::LightPathGrid::kFirstAside_m)) /
           static_cast<float>(geo::LightPathGrid::kLineSpacing_m);
}

}  // namespace gloam::sky
