#include "sky/columns.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "air/standard_atmosphere.hpp"
#include "base/check.hpp"
#include "base/parallel.hpp"

namespace gloam::sky {
namespace {

/// The table reaches this far beyond the shadow edge, so that the last of the disc has its place.
constexpr double kBeyondEdge_rad = 0.30 * std::numbers::pi / 180.0;
double true_zenith_rad(double height_m, double apparent_rad) {
    const auto zenith = air::trace_to_space(height_m, Angle::radians(apparent_rad), {}, {});
    GLOAM_CHECK(zenith.has_value());
    return zenith->radians();
}

/// The last traced ray that clears the ground: the analytic grazing angle, mended by the small error of the
/// tracing.
double last_clear_zenith_rad(double height_m) {
    const double analytic_rad = air::grazing_zenith(height_m).radians();
    double clear = analytic_rad - 1e-3;
    double blocked = analytic_rad + 1e-3;
    for (int i = 0; i < 30; ++i) {
        const double middle = 0.5 * (clear + blocked);
        (air::trace_to_space(height_m, Angle::radians(middle), {}, {}) ? clear : blocked) = middle;
    }
    return clear;
}

/// Apparent zenith angle whose ray leads to true zenith angle `target_rad`, by the secant method from
/// `guess_rad`.
double apparent_for(double height_m, double target_rad, double guess_rad, double grazing_rad) {
    double a = std::min(guess_rad, grazing_rad);
    double b = std::max(0.0, a - 1e-3);
    double at_a = true_zenith_rad(height_m, a) - target_rad;
    double at_b = true_zenith_rad(height_m, b) - target_rad;
    for (int i = 0; i < 30 && std::abs(at_a) > 1e-10 && at_a != at_b; ++i) {
        const double next = std::clamp(a - at_a * (a - b) / (at_a - at_b), 0.0, grazing_rad);
        b = a;
        at_b = at_a;
        a = next;
        at_a = true_zenith_rad(height_m, a) - target_rad;
    }
    return a;
}

/// d(apparent)/d(true) zenith angle by a difference that stays on the lit side.
double spread_at(double height_m, double apparent_rad, double grazing_rad) {
    constexpr double kHalf_rad = 5e-4;
    const double to = std::min(apparent_rad + kHalf_rad, grazing_rad);
    const double from = std::max(to - 2.0 * kHalf_rad, 0.0);
    return (to - from) / (true_zenith_rad(height_m, to) - true_zenith_rad(height_m, from));
}

std::vector<air::Profile> all_profiles() {
    std::vector<air::Profile> profiles;
    for (const auto species : {Species::kRayleigh, Species::kOzone, Species::kDust, Species::kSulphate}) {
        profiles.push_back(profile_of(species, 0.0));
    }
    for (const double scale_m : ColumnTable::kScaleHeights_m) {
        profiles.push_back(profile_of(Species::kAerosol, scale_m));
    }
    return profiles;
}

float log_column(double column) {
    return static_cast<float>(std::log(std::max(column, 1e-30)));
}

ColumnTable::Node trace_node(double height_m, double apparent_rad, double grazing_rad,
                             const std::vector<air::Profile>& profiles) {
    std::vector<double> columns(profiles.size());
    const auto zenith = air::trace_to_space(height_m, Angle::radians(apparent_rad), profiles, columns);
    GLOAM_CHECK(zenith.has_value());
    ColumnTable::Node node;
    node.refraction_rad = static_cast<float>(zenith->radians() - apparent_rad);
    node.spread = static_cast<float>(spread_at(height_m, apparent_rad, grazing_rad));
    node.ln_rayleigh = log_column(columns[0]);
    node.ln_ozone = log_column(columns[1]);
    node.ln_dust = log_column(columns[2]);
    node.ln_sulphate = log_column(columns[3]);
    for (std::size_t k = 0; k < node.ln_aerosol.size(); ++k) {
        node.ln_aerosol[k] = log_column(columns[4 + k]);
    }
    return node;
}

double row_of(double height_m) {
    const double share = std::clamp(height_m, 0.0, air::kTopOfAir_m) / air::kTopOfAir_m;
    return std::sqrt(share) * static_cast<double>(ColumnTable::kRows - 1);
}

/// Splits a fractional index into the lower index and the weight of the upper one.
std::pair<std::size_t, double> split(double index, std::size_t count) {
    const auto low = std::min(static_cast<std::size_t>(index), count - 2);
    return {low, index - static_cast<double>(low)};
}

}  // namespace

double ColumnTable::row_height_m(std::size_t row) {
    const double share = static_cast<double>(row) / static_cast<double>(kRows - 1);
    return air::kTopOfAir_m * share * share;
}

ColumnTable ColumnTable::trace() {
    ColumnTable table;
    table.nodes_.resize(kRows * kNodes);
    const auto profiles = all_profiles();
    parallel_for(kRows, [&](std::size_t row) {
        const double height_m = std::min(row_height_m(row), air::kTopOfAir_m - 1.0);
        const double grazing_rad = last_clear_zenith_rad(height_m);
        table.edge_rad_[row] = true_zenith_rad(height_m, grazing_rad);
        double refraction_rad = table.edge_rad_[row] - grazing_rad;
        for (std::size_t i = 0; i < kNodes; ++i) {
            const double target_rad = table.node_zenith_rad(row, i);
            const double apparent_rad =
                target_rad >= table.edge_rad_[row]
                    ? grazing_rad
                    : apparent_for(height_m, target_rad, target_rad - refraction_rad, grazing_rad);
            Node& node = table.nodes_[row * kNodes + i];
            node = trace_node(height_m, apparent_rad, grazing_rad, profiles);
            refraction_rad = static_cast<double>(node.refraction_rad);
        }
    });
    return table;
}

double ColumnTable::node_zenith_rad(std::size_t row, std::size_t node) const {
    const double v = static_cast<double>(node) / static_cast<double>(kNodes - 1);
    return (edge_rad_[row] + kBeyondEdge_rad) * (1.0 - v * v);
}

double ColumnTable::shadow_edge_rad(double height_m) const {
    const auto [row, share] = split(row_of(height_m), kRows);
    return edge_rad_[row] + share * (edge_rad_[row + 1] - edge_rad_[row]);
}

std::optional<ColumnPlace> ColumnTable::place(double height_m, double sun_zenith_rad) const {
    const auto [row, row_share] = split(row_of(height_m), kRows);
    const double edge_rad = edge_rad_[row] + row_share * (edge_rad_[row + 1] - edge_rad_[row]);
    const double square = 1.0 - sun_zenith_rad / (edge_rad + kBeyondEdge_rad);
    if (square <= 0.0) {
        return std::nullopt;
    }
    const auto [node, node_share] = split(std::sqrt(square) * static_cast<double>(kNodes - 1), kNodes);
    return ColumnPlace{row, node, row_share, node_share};
}

double ColumnTable::apparent_zenith_rad(double height_m, double sun_zenith_rad) const {
    const double lit_rad = std::min(sun_zenith_rad, shadow_edge_rad(height_m));
    const auto at = place(height_m, lit_rad);
    GLOAM_CHECK(at.has_value());
    const auto refraction = [&](std::size_t row) {
        const double low = static_cast<double>(node(row, at->node).refraction_rad);
        const double high = static_cast<double>(node(row, at->node + 1).refraction_rad);
        return low + at->node_share * (high - low);
    };
    const double low = refraction(at->row);
    return lit_rad - (low + at->row_share * (refraction(at->row + 1) - low));
}

PerSpecies ColumnTable::ln_columns(std::size_t row, std::size_t index, double node_share,
                                   double aerosol_scale_height_m) const {
    const Node& a = node(row, index);
    const Node& b = node(row, index + 1);
    const auto mix = [node_share](float low, float high) {
        return static_cast<double>(low) + node_share * (static_cast<double>(high) - static_cast<double>(low));
    };
    std::size_t k = 0;
    while (k + 2 < kScaleHeights_m.size() && aerosol_scale_height_m > kScaleHeights_m[k + 1]) {
        ++k;
    }
    const double inverse = 1.0 / aerosol_scale_height_m;
    const double first = 1.0 / kScaleHeights_m[k];
    const double share = (inverse - first) / (1.0 / kScaleHeights_m[k + 1] - first);
    const double low = mix(a.ln_aerosol[k], b.ln_aerosol[k]);
    const double high = mix(a.ln_aerosol[k + 1], b.ln_aerosol[k + 1]);
    return {mix(a.ln_rayleigh, b.ln_rayleigh), mix(a.ln_ozone, b.ln_ozone), low + share * (high - low),
            mix(a.ln_dust, b.ln_dust), mix(a.ln_sulphate, b.ln_sulphate)};
}

}  // namespace gloam::sky
