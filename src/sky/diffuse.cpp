#include "sky/diffuse.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "air/standard_atmosphere.hpp"
#include "base/check.hpp"
#include "sky/exponential.hpp"

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

DiffuseField DiffuseField::mixture(std::span<const DiffuseField* const> fields,
                                   std::span<const double> weights) {
    GLOAM_CHECK(fields.size() == weights.size());
    std::vector<float> ln(size(), 0.0F);
    for (std::size_t f = 0; f < fields.size(); ++f) {
        const auto weight = static_cast<float>(weights[f]);
        for (std::size_t i = 0; i < ln.size(); ++i) {
            ln[i] += weight * fields[f]->ln_[i];
        }
    }
    return DiffuseField(std::move(ln));
}

}  // namespace gloam::sky
