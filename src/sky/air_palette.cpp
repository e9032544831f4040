#include "sky/air_palette.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numbers>

#include "air/standard_atmosphere.hpp"
#include "sky/exponential.hpp"
#include "sky/vector_clones.hpp"

namespace gloam::sky {
namespace {

constexpr double kPi = std::numbers::pi;

/// What turns band values into `n` outputs. Outputs lie side by side, so that a sum over bands runs on
/// vectors and still adds in the order of the bands.
template <std::size_t n>
using WideWeights = std::array<std::array<float, n>, kBands>;
/// Into X, Y and Z.
using Weights = WideWeights<FloatXyz{}.size()>;

Weights weights_of(const Bands& bands) {
    Weights weights{};
    for (std::size_t b = 0; b < kBands; ++b) {
        Spectrum one{};
        one[b] = 1.0;
        const Xyz xyz = bands.xyz(one);
        weights[b] = {static_cast<float>(xyz.x), static_cast<float>(xyz.y), static_cast<float>(xyz.z)};
    }
    return weights;
}

Weights times(Weights weights, const FloatSpectrum& factor) {
    for (std::size_t b = 0; b < kBands; ++b) {
        for (float& weight : weights[b]) {
            weight *= factor[b];
        }
    }
    return weights;
}

/// `count` weights as one.
template <std::size_t count>
WideWeights<4 * count> joined(const std::array<Weights, count>& parts) {
    WideWeights<4 * count> all;
    for (std::size_t b = 0; b < kBands; ++b) {
        for (std::size_t k = 0; k < count; ++k) {
            std::copy(parts[k][b].begin(), parts[k][b].end(), all[b].begin() + 4 * k);
        }
    }
    return all;
}

constexpr float kLeast = 1e-36F;

/// The compiler is told which way to go: left alone it takes the bands for lanes and turns every sum over.
template <std::size_t n>
GLOAM_INLINE std::array<float, n> sum(const WideWeights<n>& weights, const FloatSpectrum& light) {
    using Four [[gnu::vector_size(4 * sizeof(float))]] = float;
    using Lanes = std::array<Four, n / 4>;
    Lanes sums{};
    for (std::size_t b = 0; b < kBands; ++b) {
        const auto lanes = std::bit_cast<Lanes>(weights[b]);
        for (std::size_t i = 0; i < lanes.size(); ++i) {
            sums[i] += lanes[i] * light[b];
        }
    }
    return std::bit_cast<std::array<float, n>>(sums);
}

template <std::size_t n>
GLOAM_INLINE std::array<float, n> logarithms(const std::array<float, n>& values) {
    std::array<float, n> result;
    for (std::size_t i = 0; i < n; ++i) {
        result[i] = logarithm(std::max(values[i], kLeast));
    }
    return result;
}

GLOAM_INLINE FloatXyz between(const FloatXyz& low, const FloatXyz& high, float share) {
    FloatXyz value;
    for (std::size_t i = 0; i < value.size(); ++i) {
        value[i] = low[i] + share * (high[i] - low[i]);
    }
    return value;
}

/// A place between two rows of a table whose rows stand at 100 km (i / (rows - 1))^2.
struct RowPlace {
    std::size_t low = 0;
    double share = 0.0;
};
RowPlace row_place(double height_m, std::size_t rows) {
    const double place = std::sqrt(std::clamp(height_m, 0.0, air::kTopOfAir_m) / air::kTopOfAir_m) *
                         static_cast<double>(rows - 1);
    const auto low = std::min(static_cast<std::size_t>(place), rows - 2);
    return {low, place - static_cast<double>(low)};
}

/// Weights by row for light at a height that comes through the air in front of it.
WideWeights<4 * kGridRows> through_air(const std::vector<AirPalette::Row>& rows, double height_m,
                                       const Weights& weights) {
    std::array<Weights, kGridRows> through;
    for (std::size_t r = 0; r < kGridRows; ++r) {
        const AirRay& ray = rows[r].ray;
        const double radius_m = std::max(air::kEarthRadius_m + height_m, ray.start_radius_m);
        FloatSpectrum air_between;
        ray.transmission_at(path_to_radius_m(ray.start_radius_m, ray.cos_zenith, radius_m, true),
                            air_between);
        through[r] = times(weights, air_between);
    }
    return joined(through);
}

/// Nodes that the sun, no more than 20 deg up over the viewer, can have at a step `central_rad` further on.
std::size_t sun_nodes(double reach_rad, double central_rad) {
    constexpr double kLeast_rad = 70.0 * kPi / 180.0;
    const double v = std::sqrt(std::max(0.0, 1.0 - (kLeast_rad - central_rad) / reach_rad));
    return std::min(static_cast<std::size_t>(v * static_cast<double>(ColumnTable::kNodes - 1)) + 2,
                    AirPalette::kSunNodes);
}

/// cos(order * azimuth) of the kept sides.
std::array<std::array<float, kDegrees>, AirPalette::kDiffuseSides.size()> kept_cosines() {
    std::array<std::array<float, kDegrees>, AirPalette::kDiffuseSides.size()> cosines;
    for (std::size_t i = 0; i < cosines.size(); ++i) {
        cosines[i] = azimuth_cosines(std::cos(azimuth_deg(AirPalette::kDiffuseSides[i]) * kPi / 180.0));
    }
    return cosines;
}

double diffuse_zenith_rad(std::size_t node) {
    return AirPalette::kFirstDiffuse_rad + AirPalette::kDiffuseStep_rad * static_cast<double>(node);
}

/// Light on the kept sides over its mean over the azimuths, from its series over the orders.
GLOAM_INLINE AirPalette::Spread spread_of(const std::array<FloatXyz, kDegrees>& series) {
    static const auto kCosines = kept_cosines();
    // No light that is nowhere less than nothing swings higher over its mean (Fejer, from memory).
    constexpr auto kMost = static_cast<float>(kDegrees);
    AirPalette::Spread spread;
    for (std::size_t side = 0; side < spread.size(); ++side) {
        for (std::size_t i = 0; i < series[0].size(); ++i) {
            float light = 0.0F;
            for (std::size_t order = 0; order < kDegrees; ++order) {
                light += kCosines[side][order] * series[order][i];
            }
            spread[side][i] = std::clamp(light / std::max(series[0][i], kLeast), 0.0F, kMost);
        }
    }
    return spread;
}

/// Worked out where the field is stored, and between as the field would be read.
GLOAM_VECTOR_CLONES void fill_diffuse(const DiffuseField& field, const AirStep& from, const Weights& eye,
                                      AirPalette::Step& step) {
    FloatSpectrum factor;
    for (std::size_t b = 0; b < kBands; ++b) {
        factor[b] = from.transmission[b] * static_cast<float>(from.to_m - from.from_m);
    }
    const Weights weights = times(eye, factor);
    const std::size_t nodes = DiffuseField::zenith_nodes_deg().size();
    std::vector<FloatXyz> ln_mean(nodes);
    std::vector<AirPalette::Spread> spread(nodes);
    DiffuseField::Place at = DiffuseField::place(from.height_m, AirPalette::kFirstDiffuse_rad);
    at.node_share = 0.0F;
    for (; at.node < nodes; ++at.node) {
        FloatSpectrum series[kDegrees];
        field.scatter(from, at, series);
        std::array<FloatXyz, kDegrees> colours;
        for (std::size_t order = 0; order < kDegrees; ++order) {
            colours[order] = sum(weights, series[order]);
        }
        ln_mean[at.node] = logarithms(colours[0]);
        spread[at.node] = spread_of(colours);
    }
    step.ln_diffuse.reserve(AirPalette::kDiffuseNodes);
    step.spread.reserve(AirPalette::kDiffuseNodes);
    for (std::size_t node = 0; node < AirPalette::kDiffuseNodes; ++node) {
        at = DiffuseField::place(from.height_m, diffuse_zenith_rad(node));
        step.ln_diffuse.push_back(between(ln_mean[at.node], ln_mean[at.node + 1], at.node_share));
        AirPalette::Spread& sides = step.spread.emplace_back();
        for (std::size_t side = 0; side < sides.size(); ++side) {
            sides[side] = between(spread[at.node][side], spread[at.node + 1][side], at.node_share);
        }
    }
}

}  // namespace

AirPalette::AirPalette(const Air& air, double viewer_height_m)
    : air_(&air), viewer_height_m_(viewer_height_m) {
    for (const Angle elevation : PanoramaGrid::standard().elevations) {
        Row row{elevation,
                cast_ray(viewer_height_m, std::sin(elevation.radians()), static_cast<int>(kSteps), air.optics,
                         air.atmosphere.aerosol_scale_height_m),
                {},
                {},
                {},
                {}};
        fill_steps(row);
        rows_.push_back(std::move(row));
    }
    fill_beams();
    fill_fluxes();
}

GLOAM_VECTOR_CLONES void AirPalette::fill_steps(Row& row) const {
    const Weights eye = weights_of(*air_->bands);
    FloatSpectrum sunlight;
    for (std::size_t b = 0; b < kBands; ++b) {
        sunlight[b] = static_cast<float>(air_->bands->sun_w_m2_nm[b] / (4.0 * kPi));
    }
    const Weights sun = times(eye, sunlight);
    for (const AirStep& from : row.ray.steps) {
        Step step{from.middle_m, from.height_m, 0.0, {}, {}, {}};
        const auto length_m = static_cast<float>(from.to_m - from.from_m);
        std::array<Weights, kScatterers.size()> scattered;
        for (std::size_t k = 0; k < kScatterers.size(); ++k) {
            const auto species = static_cast<std::size_t>(kScatterers[k]);
            FloatSpectrum factor;
            for (std::size_t b = 0; b < kBands; ++b) {
                factor[b] = static_cast<float>(from.density[species] * air_->optics.scattering[species][b]) *
                            from.transmission[b] * length_m;
            }
            scattered[k] = times(sun, factor);
        }
        const auto single = joined(scattered);
        const RowPlace at = row_place(from.height_m, ColumnTable::kRows);
        const ColumnTable& columns = air_->beam.columns();
        const double low_rad = columns.node_zenith_rad(at.low, 0);
        step.reach_rad = low_rad + at.share * (columns.node_zenith_rad(at.low + 1, 0) - low_rad);
        const double central_rad =
            std::asin(from.middle_m * row.ray.sin_zenith / (air::kEarthRadius_m + from.height_m));
        for (std::size_t node = 0; node < sun_nodes(step.reach_rad, central_rad); ++node) {
            FloatSpectrum light;
            air_->beam.ln_transmission({at.low, node, at.share, 0.0}, light);
            exponentiate(light);
            step.single.push_back(std::bit_cast<StepColours>(sum(single, light)));
        }
        fill_diffuse(air_->diffuse, from, eye, step);
        row.steps.push_back(std::move(step));
    }
}

GLOAM_VECTOR_CLONES void AirPalette::fill_beams() {
    const Weights eye = weights_of(*air_->bands);
    FloatSpectrum sunlight;
    for (std::size_t b = 0; b < kBands; ++b) {
        sunlight[b] = static_cast<float>(air_->bands->sun_w_m2_nm[b] / kPi);
    }
    const Weights sun = times(eye, sunlight);
    ln_beam_.resize(kBeamRows * kSunNodes);
    for (Row& row : rows_) {
        row.ln_air.resize(ln_beam_.size());
    }
    for (std::size_t height = 0; height < kBeamRows; ++height) {
        const auto through = through_air(rows_, ColumnTable::row_height_m(height), sun);
        // From the lit end: in the dark, where nothing is left to weigh the air by, its last word holds.
        for (std::size_t node = kSunNodes; node-- > 0;) {
            FloatSpectrum light;
            air_->beam.ln_transmission({height, node, 0.0, 0.0}, light);
            exponentiate(light);
            const std::size_t place = height * kSunNodes + node;
            const FloatXyz bare = sum(sun, light);
            const bool dark = bare[1] < 1e-25F;
            ln_beam_[place] = logarithms(bare);
            const auto seen = logarithms(sum(through, light));
            for (std::size_t r = 0; r < kGridRows; ++r) {
                for (std::size_t i = 0; i < bare.size(); ++i) {
                    rows_[r].ln_air[place][i] =
                        dark ? rows_[r].ln_air[place + 1][i] : seen[4 * r + i] - ln_beam_[place][i];
                }
            }
        }
    }
}

GLOAM_VECTOR_CLONES void AirPalette::fill_fluxes() {
    FloatSpectrum one_over_pi;
    std::fill(std::begin(one_over_pi), std::end(one_over_pi), static_cast<float>(1.0 / kPi));
    const Weights per_pi = times(weights_of(*air_->bands), one_over_pi);
    for (std::size_t height = 0; height < kFluxRows; ++height) {
        const double height_m = DiffuseField::row_height_m(height);
        const auto through = through_air(rows_, height_m, per_pi);
        for (std::size_t node = 0; node < kDiffuseNodes; ++node) {
            const auto at = DiffuseField::place(height_m, diffuse_zenith_rad(node));
            for (const auto& [kind, ln_flux] : {std::pair(DiffuseField::Kind::kDown, &Row::ln_down),
                                                {DiffuseField::Kind::kUp, &Row::ln_up}}) {
                FloatSpectrum light;
                air_->diffuse.ln_at(kind, at, light);
                exponentiate(light);
                const auto seen =
                    std::bit_cast<std::array<FloatXyz, kGridRows>>(logarithms(sum(through, light)));
                for (std::size_t r = 0; r < kGridRows; ++r) {
                    (rows_[r].*ln_flux).push_back(seen[r]);
                }
            }
        }
    }
}

}  // namespace gloam::sky
