#include "sky/beam.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sky/exponential.hpp"
#include "sky/vector_clones.hpp"

namespace gloam::sky {
namespace {

constexpr float kDark = -87.0F;
constexpr float kLeastLight = 1e-37F;

/// Chebyshev nodes of the disc's vertical coordinate; with weights sin^2 they average over a uniform disc.
constexpr std::size_t kDiscNodes = 5;

struct DiscNode {
    double offset_rad;
    double weight;
};

std::array<DiscNode, kDiscNodes> disc_nodes() {
    std::array<DiscNode, kDiscNodes> nodes{};
    for (std::size_t i = 0; i < kDiscNodes; ++i) {
        const double angle = static_cast<double>(i + 1) * std::numbers::pi / (kDiscNodes + 1);
        const double sine = std::sin(angle);
        nodes[i] = {kSunRadius_rad * std::cos(angle), sine * sine / 3.0};
    }
    return nodes;
}

}  // namespace

BeamTable::BeamTable(const ColumnTable& columns, const Optics& optics, double aerosol_scale_height_m)
    : columns_(&columns), ln_t_(ColumnTable::kRows * ColumnTable::kNodes * kBands, kDark) {
    Depths depths;
    for (std::size_t s = 0; s < kSpecies; ++s) {
        std::copy(optics.depth[s].begin(), optics.depth[s].end(), std::begin(depths[s]));
    }
    for (std::size_t row = 0; row < ColumnTable::kRows; ++row) {
        for (std::size_t node = 0; node < ColumnTable::kNodes; ++node) {
            fill_node(row, node, depths, aerosol_scale_height_m);
        }
    }
}

GLOAM_VECTOR_CLONES void BeamTable::fill_node(std::size_t row, std::size_t node, const Depths& depths,
                                              double aerosol_scale_height_m) {
    static const auto kDisc = disc_nodes();
    const double centre_rad = columns_->node_zenith_rad(row, node);
    const double edge_rad = columns_->edge_rad_[row];
    const double reach_rad = columns_->node_zenith_rad(row, 0);
    float column[kDiscNodes * kSpecies]{};
    float weight[kDiscNodes]{};
    for (std::size_t i = 0; i < kDiscNodes; ++i) {
        const double zenith_rad = std::max(centre_rad + kDisc[i].offset_rad, 0.0);
        if (zenith_rad > edge_rad) {
            continue;
        }
        const double place =
            std::sqrt(1.0 - zenith_rad / reach_rad) * static_cast<double>(ColumnTable::kNodes - 1);
        const std::size_t low = std::min(static_cast<std::size_t>(place), ColumnTable::kNodes - 2);
        const double share = place - static_cast<double>(low);
        const auto ln_n = columns_->ln_columns(row, low, share, aerosol_scale_height_m);
        std::copy(ln_n.begin(), ln_n.end(), &column[i * kSpecies]);
        const double spread_low = static_cast<double>(columns_->node(row, low).spread);
        const double spread_high = static_cast<double>(columns_->node(row, low + 1).spread);
        weight[i] = static_cast<float>(kDisc[i].weight * (spread_low + share * (spread_high - spread_low)));
    }
    exponentiate(column);
    FloatSpectrum sum{};
    for (std::size_t i = 0; i < kDiscNodes; ++i) {
        FloatSpectrum light{};
        for (std::size_t s = 0; s < kSpecies; ++s) {
            for (std::size_t b = 0; b < kBands; ++b) {
                light[b] -= column[i * kSpecies + s] * depths[s][b];
            }
        }
        exponentiate(light);
        for (std::size_t b = 0; b < kBands; ++b) {
            sum[b] += weight[i] * light[b];
        }
    }
    float* target = &ln_t_[(row * ColumnTable::kNodes + node) * kBands];
    for (std::size_t b = 0; b < kBands; ++b) {
        const float ln = logarithm(std::max(sum[b], kLeastLight));
        target[b] = sum[b] > kLeastLight ? ln : kDark;
    }
}

void BeamTable::ln_transmission(const ColumnPlace& place, FloatSpectrum& ln_t) const {
    const float* lower = &ln_t_[(place.row * ColumnTable::kNodes + place.node) * kBands];
    const float* upper = lower + ColumnTable::kNodes * kBands;
    const auto up = static_cast<float>(place.row_share);
    const auto along = static_cast<float>(place.node_share);
    for (std::size_t b = 0; b < kBands; ++b) {
        const float low = lower[b] + along * (lower[b + kBands] - lower[b]);
        const float high = upper[b] + along * (upper[b + kBands] - upper[b]);
        ln_t[b] = low + up * (high - low);
    }
}

Spectrum BeamTable::transmission(double height_m, double sun_zenith_rad) const {
    Spectrum result{};
    const auto at = columns_->place(height_m, sun_zenith_rad);
    if (!at) {
        return result;
    }
    FloatSpectrum t;
    ln_transmission(*at, t);
    exponentiate(t);
    for (std::size_t b = 0; b < kBands; ++b) {
        result[b] = static_cast<double>(t[b]);
    }
    return result;
}

}  // namespace gloam::sky
