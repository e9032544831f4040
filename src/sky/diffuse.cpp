#include "sky/diffuse.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "air/standard_atmosphere.hpp"
#include "base/check.hpp"
#include "sky/exponential.hpp"
#include "sky/vector_clones.hpp"

namespace gloam::sky {
namespace {

/// Coarse by day, 0.6 deg through twilight, coarse again in the night.
constexpr std::size_t kDayNodes = 13;
constexpr std::size_t kTwilightNodes = 34;
constexpr std::size_t kNightNodes = 6;
constexpr double kTwilightFirst_deg = 88.0;
constexpr double kTwilightStep_deg = 0.6;

constexpr auto make_nodes() {
    std::array<double, kDayNodes + kTwilightNodes + kNightNodes> nodes{0,  15, 30, 45, 55, 63, 70,
                                                                       75, 79, 82, 84, 86, 87};
    for (std::size_t i = 0; i < kTwilightNodes; ++i) {
        nodes[kDayNodes + i] = kTwilightFirst_deg + kTwilightStep_deg * static_cast<double>(i);
    }
    constexpr std::array<double, kNightNodes> kNight{109.0, 110.5, 112.0, 114.0, 116.0, 118.0};
    for (std::size_t i = 0; i < kNightNodes; ++i) {
        nodes[kDayNodes + kTwilightNodes + i] = kNight[i];
    }
    return nodes;
}
constexpr auto kNodes_deg = make_nodes();

/// What 1 is stored as.
constexpr double kUnit = 32767.0;

}  // namespace

std::span<const double> DiffuseField::zenith_nodes_deg() {
    return kNodes_deg;
}

double DiffuseField::row_height_m(std::size_t row) {
    const double share = static_cast<double>(row) / static_cast<double>(kRows - 1);
    return air::kTopOfAir_m * share * share;
}

DiffuseField::Place DiffuseField::place(double height_m, double sun_zenith_rad) {
    const double share = std::clamp(height_m, 0.0, air::kTopOfAir_m) / air::kTopOfAir_m;
    const double row = std::sqrt(share) * static_cast<double>(kRows - 1);
    const auto low_row = std::min(static_cast<std::size_t>(row), kRows - 2);
    const double zenith_deg =
        std::clamp(sun_zenith_rad * 180.0 / std::numbers::pi, kNodes_deg.front(), kNodes_deg.back());
    const auto above = std::upper_bound(kNodes_deg.begin(), kNodes_deg.end() - 1, zenith_deg);
    const auto node = static_cast<std::size_t>(above - kNodes_deg.begin()) - 1;
    const double node_share = (zenith_deg - kNodes_deg[node]) / (kNodes_deg[node + 1] - kNodes_deg[node]);
    return {low_row, node, static_cast<float>(row - static_cast<double>(low_row)),
            static_cast<float>(node_share)};
}

float& DiffuseField::ln_value(Kind kind, std::size_t row, std::size_t node, std::size_t band) {
    return ln_[((static_cast<std::size_t>(kind) * kRows + row) * kNodes_deg.size() + node) * kBands + band];
}

void DiffuseField::ln_at(Kind kind, const Place& at, FloatSpectrum& ln_value) const {
    const float* lower =
        &ln_[((static_cast<std::size_t>(kind) * kRows + at.row) * kNodes_deg.size() + at.node) * kBands];
    const float* upper = lower + kNodes_deg.size() * kBands;
    for (std::size_t b = 0; b < kBands; ++b) {
        const float low = lower[b] + at.node_share * (lower[b + kBands] - lower[b]);
        const float high = upper[b] + at.node_share * (upper[b + kBands] - upper[b]);
        ln_value[b] = low + at.row_share * (high - low);
    }
}

Spectrum DiffuseField::at(Kind kind, double height_m, double sun_zenith_rad) const {
    FloatSpectrum value;
    ln_at(kind, place(height_m, sun_zenith_rad), value);
    exponentiate(value);
    Spectrum result{};
    std::copy(std::begin(value), std::end(value), result.begin());
    return result;
}

void DiffuseField::set_moment(std::size_t row, std::size_t node, std::size_t harmonic, std::size_t band,
                              double value) {
    moments_[((row * kNodes_deg.size() + node) * kMoments + harmonic - 1) * kBands + band] =
        static_cast<std::int16_t>(std::lround(kUnit * std::clamp(value, -1.0, 1.0)));
}

GLOAM_VECTOR_CLONES void DiffuseField::scatter(const AirStep& step, const Place& at,
                                               FloatSpectrum (&series)[kDegrees]) const {
    constexpr std::size_t kNode = kMoments * kBands;
    const std::size_t low = at.row * kNodes_deg.size() + at.node;
    const std::size_t high = low + kNodes_deg.size();
    const std::array corners{std::pair{low, (1.0F - at.row_share) * (1.0F - at.node_share)},
                             std::pair{low + 1, (1.0F - at.row_share) * at.node_share},
                             std::pair{high, at.row_share * (1.0F - at.node_share)},
                             std::pair{high + 1, at.row_share * at.node_share}};
    float moments[kNode] = {};
    for (const auto& [place, share] : corners) {
        if (share == 0.0F) {
            continue;  // it may lie beyond the last
        }
        for (std::size_t i = 0; i < kNode; ++i) {
            moments[i] += share * static_cast<float>(moments_[place * kNode + i]);
        }
    }
    std::fill(&series[0][0], &series[0][0] + kDegrees * kBands, 0.0F);
    std::copy(std::begin(step.scattering_per_m[0]), std::end(step.scattering_per_m[0]),
              std::begin(series[0]));
    for (std::size_t degree = 1; degree < kDegrees; ++degree) {
        for (std::size_t order = 0; order <= degree; ++order) {
            const std::size_t which = harmonic(degree, order);
            const float unit = step.harmonics[which] * static_cast<float>(1.0 / kUnit);
            for (std::size_t b = 0; b < kBands; ++b) {
                series[order][b] +=
                    unit * step.scattering_per_m[degree][b] * moments[(which - 1) * kBands + b];
            }
        }
    }
    FloatSpectrum mean;
    ln_at(Kind::kMean, at, mean);
    exponentiate(mean);
    for (FloatSpectrum& order : series) {
        for (std::size_t b = 0; b < kBands; ++b) {
            order[b] *= mean[b];
        }
    }
}

void sum_of_orders(const FloatSpectrum (&series)[kDegrees], const std::array<float, kDegrees>& cosines,
                   FloatSpectrum& sum) {
    for (std::size_t b = 0; b < kBands; ++b) {
        float value = 0.0F;
        for (std::size_t m = 0; m < kDegrees; ++m) {
            value += cosines[m] * series[m][b];
        }
        sum[b] = std::max(value, 0.0F);
    }
}

GLOAM_VECTOR_CLONES DiffuseField DiffuseField::mixture(std::span<const DiffuseField* const> fields,
                                                       std::span<const double> weights) {
    GLOAM_CHECK(fields.size() == weights.size());
    constexpr std::size_t kPlace = kMoments * kBands;
    constexpr auto kMost = static_cast<float>(kUnit);
    DiffuseField mixed;
    std::fill(mixed.ln_.begin(), mixed.ln_.end(), 0.0F);
    for (std::size_t f = 0; f < fields.size(); ++f) {
        if (weights[f] == 0.0) {
            continue;  // most are: a forecast's air holds no dust, and the ground no snow
        }
        for (std::size_t i = 0; i < mixed.ln_.size(); ++i) {
            mixed.ln_[i] += static_cast<float>(weights[f]) * fields[f]->ln_[i];
        }
    }
    for (std::size_t place = 0; place < places(); ++place) {
        float sums[kPlace] = {};
        for (std::size_t f = 0; f < fields.size(); ++f) {
            if (weights[f] == 0.0) {
                continue;
            }
            const std::int16_t* from = &fields[f]->moments_[place * kPlace];
            for (std::size_t i = 0; i < kPlace; ++i) {
                sums[i] += static_cast<float>(weights[f]) * static_cast<float>(from[i]);
            }
        }
        for (std::size_t i = 0; i < kPlace; ++i) {
            mixed.moments_[place * kPlace + i] =
                static_cast<std::int16_t>(std::clamp(sums[i], -kMost, kMost));
        }
    }
    return mixed;
}

}  // namespace gloam::sky
