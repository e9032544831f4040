#include "sky/sky_palette.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "air/standard_atmosphere.hpp"
#include "sky/elementary.hpp"
#include "sky/vector_clones.hpp"

namespace gloam::sky {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr float kFaint = 1e-3F;

constexpr std::size_t kScatterers = AirPalette::kScatterers.size();

/// What of a row does not change from step to step.
struct RowSun {
    float start_m = 0.0F;  ///< r cos(chi) at the viewer
    BySide cosine{};       ///< between ray and sun
    std::array<std::array<float, kScatterers>, kGridSides> phase{};
};

/// Light of one step by side.
struct SideLight {
    std::array<BySide, 3> single;
    std::array<BySide, 3> diffuse;
};

/// Value of a table by node, linear between nodes.
GLOAM_INLINE FloatXyz at_node(const FloatXyz* nodes, float place) {
    const auto node = static_cast<std::size_t>(place);
    const float share = place - static_cast<float>(node);
    FloatXyz value;
    for (std::size_t i = 0; i < value.size(); ++i) {
        value[i] = nodes[node][i] + share * (nodes[node + 1][i] - nodes[node][i]);
    }
    return value;
}

constexpr auto kKept = AirPalette::kDiffuseSides;

/// What each kept side counts at every side: Lagrange's polynomials in the cosine of the azimuth.
std::array<BySide, kKept.size()> lagrange_shares() {
    const auto cosine = [](std::size_t side) {
        return std::cos(Angle::degrees(azimuth_deg(side)).radians());
    };
    std::array<BySide, kKept.size()> shares{};
    for (std::size_t k = 0; k < kKept.size(); ++k) {
        for (std::size_t side = 0; side < kGridSides; ++side) {
            double share = 1.0;
            for (std::size_t other = 0; other < kKept.size(); ++other) {
                if (other != k) {
                    share *=
                        (cosine(side) - cosine(kKept[other])) / (cosine(kKept[k]) - cosine(kKept[other]));
                }
            }
            shares[k][side] = static_cast<float>(share);
        }
    }
    return shares;
}

GLOAM_INLINE FloatXyz scattered(const AirPalette::StepColours* nodes,
                                const std::array<float, kScatterers>& phase, float place) {
    const auto node = static_cast<std::size_t>(place);
    const float share = place - static_cast<float>(node);
    FloatXyz light{};
    for (std::size_t k = 0; k < kScatterers; ++k) {
        const FloatXyz& low = nodes[node][k];
        const FloatXyz& high = nodes[node + 1][k];
        for (std::size_t i = 0; i < light.size(); ++i) {
            light[i] += phase[k] * (low[i] + share * (high[i] - low[i]));
        }
    }
    return light;
}

GLOAM_VECTOR_CLONES void light_of(const AirPalette::Step& step, const RowSun& sun,
                                  const std::array<BySide, kKept.size()>& shares, SideLight& light) {
    constexpr float kQuarterTurn = static_cast<float>(kPi / 2.0);
    const float last_sun = static_cast<float>(step.single.size() - 1) - 0.001F;
    constexpr float kLastDiffuse = static_cast<float>(AirPalette::kDiffuseNodes - 1) - 0.001F;
    constexpr float kFirst_rad = static_cast<float>(AirPalette::kFirstDiffuse_rad);
    constexpr float kPerStep = static_cast<float>(1.0 / AirPalette::kDiffuseStep_rad);
    const auto per_radius = static_cast<float>(1.0 / (air::kEarthRadius_m + step.height_m));
    const auto middle_m = static_cast<float>(step.middle_m);
    const auto per_reach = static_cast<float>(1.0 / step.reach_rad);
    BySide lit;
    BySide sun_place;
    BySide diffuse_place;
    for (std::size_t s = 0; s < lit.size(); ++s) {
        const float zenith_rad =
            kQuarterTurn - arc_sine((sun.start_m + middle_m * sun.cosine[s]) * per_radius);
        const float square = 1.0F - zenith_rad * per_reach;
        lit[s] = square > 0.0F ? 1.0F : 0.0F;
        sun_place[s] = std::min(
            std::sqrt(std::max(square, 0.0F)) * static_cast<float>(ColumnTable::kNodes - 1), last_sun);
        diffuse_place[s] = std::min(std::max((zenith_rad - kFirst_rad) * kPerStep, 0.0F), kLastDiffuse);
    }
    for (std::size_t s = 0; s < kGridSides; ++s) {
        const FloatXyz single = scattered(step.single.data(), sun.phase[s], sun_place[s]);
        const FloatXyz ln_diffuse = at_node(step.ln_diffuse.data(), diffuse_place[s]);
        for (std::size_t i = 0; i < 3; ++i) {
            light.single[i][s] = lit[s] * single[i];
            light.diffuse[i][s] = ln_diffuse[i];
        }
    }
    std::array<FloatXyz, kKept.size()> spread;
    for (std::size_t k = 0; k < kKept.size(); ++k) {
        const float place = diffuse_place[kKept[k]];
        const auto node = static_cast<std::size_t>(place);
        const float share = place - static_cast<float>(node);
        const FloatXyz& low = step.spread[node][k];
        const FloatXyz& high = step.spread[node + 1][k];
        for (std::size_t i = 0; i < low.size(); ++i) {
            spread[k][i] = low[i] + share * (high[i] - low[i]);
        }
    }
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t s = 0; s < lit.size(); ++s) {
            float share = 0.0F;
            for (std::size_t k = 0; k < kKept.size(); ++k) {
                share += shares[k][s] * spread[k][i];
            }
            light.diffuse[i][s] = std::max(share, 0.0F) * exponential(light.diffuse[i][s]);
        }
    }
}

void find_shining(SkyPalette::Row& row) {
    constexpr std::size_t kY = 1;
    ByColumn whole = row.diffuse_until.back()[kY];
    for (const ColumnXyz& step : row.single) {
        for (std::size_t c = 0; c < kGridColumns; ++c) {
            whole[c] += step[kY][c];
        }
    }
    for (std::size_t s = 0; s < AirPalette::kSteps; ++s) {
        for (std::size_t c = 0; c < kGridSides; ++c) {
            row.shines[s] = row.shines[s] || row.single[s][kY][c] > kFaint * whole[c];
        }
    }
}

}  // namespace

SkyPalette::SkyPalette(const AirPalette& palette, Angle sun_elevation)
    : palette_(&palette), sun_zenith_rad_(kPi / 2.0 - sun_elevation.radians()), rows_(kGridRows) {
    for (std::size_t r = 0; r < kGridRows; ++r) {
        fill(palette.rows()[r], rows_[r]);
    }
}

void SkyPalette::fill(const AirPalette::Row& from, Row& row) const {
    RowSun sun;
    for (std::size_t side = 0; side < kGridSides; ++side) {
        const SunAlongRay along =
            sun_along(from.ray, sun_zenith_rad_, Angle::degrees(azimuth_deg(side)).radians());
        sun.start_m = static_cast<float>(along.start_m);
        sun.cosine[side] = static_cast<float>(along.cosine);
        const PerSpecies phases = phase_functions(along.cosine);
        for (std::size_t k = 0; k < kScatterers; ++k) {
            sun.phase[side][k] =
                static_cast<float>(phases[static_cast<std::size_t>(AirPalette::kScatterers[k])]);
        }
    }
    row.cosine = sun.cosine;
    static const auto kShares = lagrange_shares();
    std::array<BySide, 3> until{};
    SideLight light{};
    for (std::size_t s = 0; s < AirPalette::kSteps; ++s) {
        light_of(from.steps[s], sun, kShares, light);
        for (std::size_t i = 0; i < 3; ++i) {
            row.single[s][i] = columns_of(light.single[i]);
            for (std::size_t side = 0; side < kGridSides; ++side) {
                until[i][side] += light.diffuse[i][side];
            }
            row.diffuse_until[s + 1][i] = columns_of(until[i]);
        }
    }
    find_shining(row);
}

}  // namespace gloam::sky
