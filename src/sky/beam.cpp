#include "sky/beam.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sky/exponential.hpp"
#include "sky/vector_clones.hpp"

namespace gloam::sky {
namespace {

constexpr float kDark = -87.0F;

/// Chebyshev nodes of the disc's vertical coordinate; with weights sin^2 they average over a uniform disc.
constexpr int kDiscNodes = 5;

struct DiscNode {
    double offset_rad;
    double weight;
};

std::array<DiscNode, kDiscNodes> disc_nodes() {
    std::array<DiscNode, kDiscNodes> nodes{};
    for (int i = 0; i < kDiscNodes; ++i) {
        const double angle = (i + 1) * std::numbers::pi / (kDiscNodes + 1);
        const double sine = std::sin(angle);
        nodes[static_cast<std::size_t>(i)] = {kSunRadius_rad * std::cos(angle), sine * sine / 3.0};
    }
    return nodes;
}

}  // namespace

BeamTable::BeamTable(const ColumnTable& columns, const Optics& optics, double aerosol_scale_height_m)
    : columns_(&columns), ln_t_(ColumnTable::kRows * ColumnTable::kNodes * kBands, kDark) {
    for (std::size_t row = 0; row < ColumnTable::kRows; ++row) {
        for (std::size_t node = 0; node < ColumnTable::kNodes; ++node) {
            fill_node(row, node, optics, aerosol_scale_height_m);
        }
    }
}

GLOAM_VECTOR_CLONES void BeamTable::fill_node(std::size_t row, std::size_t node, const Optics& optics,
                                              double aerosol_scale_height_m) {
    static const auto kDisc = disc_nodes();
    const double centre_rad = columns_->node_zenith_rad(row, node);
    const double edge_rad = columns_->edge_rad_[row];
    Spectrum sum{};
    for (const DiscNode& part : kDisc) {
        const double zenith_rad = std::max(centre_rad + part.offset_rad, 0.0);
        if (zenith_rad > edge_rad) {
            continue;
        }
        const auto at = columns_->place(ColumnTable::row_height_m(row), zenith_rad);
        const auto ln_n = columns_->ln_columns(row, at->node, at->node_share, aerosol_scale_height_m);
        const double spread_low = static_cast<double>(columns_->node(row, at->node).spread);
        const double spread_high = static_cast<double>(columns_->node(row, at->node + 1).spread);
        const double spread = spread_low + at->node_share * (spread_high - spread_low);
        FloatSpectrum minus_depth{};
        for (std::size_t s = 0; s < kSpecies; ++s) {
            const double n = std::exp(ln_n[s]);
            for (std::size_t b = 0; b < kBands; ++b) {
                minus_depth[b] -= static_cast<float>(n * optics.depth[s][b]);
            }
        }
        exponentiate(minus_depth);
        for (std::size_t b = 0; b < kBands; ++b) {
            sum[b] += part.weight * spread * static_cast<double>(minus_depth[b]);
        }
    }
    float* target = &ln_t_[(row * ColumnTable::kNodes + node) * kBands];
    for (std::size_t b = 0; b < kBands; ++b) {
        target[b] = sum[b] > 1e-37 ? static_cast<float>(std::log(sum[b])) : kDark;
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
