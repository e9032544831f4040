#include "sky/air_palette.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "air/standard_atmosphere.hpp"
#include "sky/exponential.hpp"
#include "sky/vector_clones.hpp"

namespace gloam::sky {
namespace {

constexpr double kPi = std::numbers::pi;

/// What turns band values into tristimulus values.
struct Weights {
    FloatSpectrum x, y, z;
};

Weights weights_of(const Bands& bands) {
    Weights weights{};
    for (std::size_t b = 0; b < kBands; ++b) {
        Spectrum one{};
        one[b] = 1.0;
        const Xyz xyz = bands.xyz(one);
        weights.x[b] = static_cast<float>(xyz.x);
        weights.y[b] = static_cast<float>(xyz.y);
        weights.z[b] = static_cast<float>(xyz.z);
    }
    return weights;
}

Weights times(Weights weights, const FloatSpectrum& factor) {
    for (std::size_t b = 0; b < kBands; ++b) {
        weights.x[b] *= factor[b];
        weights.y[b] *= factor[b];
        weights.z[b] *= factor[b];
    }
    return weights;
}

GLOAM_INLINE FloatXyz sum(const Weights& weights, const FloatSpectrum& light) {
    FloatXyz xyz{};
    for (std::size_t b = 0; b < kBands; ++b) {
        xyz[0] += weights.x[b] * light[b];
        xyz[1] += weights.y[b] * light[b];
        xyz[2] += weights.z[b] * light[b];
    }
    return xyz;
}

GLOAM_INLINE FloatXyz logarithms(const FloatXyz& xyz) {
    constexpr float kLeast = 1e-36F;
    FloatXyz result;
    for (std::size_t i = 0; i < xyz.size(); ++i) {
        result[i] = logarithm(std::max(xyz[i], kLeast));
    }
    return result;
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

double diffuse_zenith_rad(std::size_t node) {
    return AirPalette::kFirstDiffuse_rad + AirPalette::kDiffuseStep_rad * static_cast<double>(node);
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
        fill_fluxes(row);
        rows_.push_back(std::move(row));
    }
    fill_beams();
}

GLOAM_VECTOR_CLONES void AirPalette::fill_steps(Row& row) const {
    const Weights eye = weights_of(*air_->bands);
    FloatSpectrum sunlight;
    for (std::size_t b = 0; b < kBands; ++b) {
        sunlight[b] = static_cast<float>(air_->bands->sun_w_m2_nm[b] / (4.0 * kPi));
    }
    const Weights sun = times(eye, sunlight);
    for (const AirStep& from : row.ray.steps) {
        Step step{from.middle_m, from.height_m, 0.0, {}, {}};
        const auto length_m = static_cast<float>(from.to_m - from.from_m);
        std::array<Weights, kScatterers.size()> scattered;
        FloatSpectrum all{};
        for (std::size_t k = 0; k < kScatterers.size(); ++k) {
            const auto species = static_cast<std::size_t>(kScatterers[k]);
            FloatSpectrum factor;
            for (std::size_t b = 0; b < kBands; ++b) {
                factor[b] = static_cast<float>(from.density[species] * air_->optics.scattering[species][b]) *
                            from.transmission[b] * length_m;
                all[b] += factor[b];
            }
            scattered[k] = times(sun, factor);
        }
        const Weights diffuse = times(eye, all);
        const RowPlace at = row_place(from.height_m, ColumnTable::kRows);
        const ColumnTable& columns = air_->beam.columns();
        const double low_rad = columns.node_zenith_rad(at.low, 0);
        step.reach_rad = low_rad + at.share * (columns.node_zenith_rad(at.low + 1, 0) - low_rad);
        for (std::size_t node = 0; node < kSunNodes; ++node) {
            FloatSpectrum light;
            air_->beam.ln_transmission({at.low, node, at.share, 0.0}, light);
            exponentiate(light);
            StepColours& colours = step.single.emplace_back();
            for (std::size_t k = 0; k < kScatterers.size(); ++k) {
                colours[k] = sum(scattered[k], light);
            }
        }
        for (std::size_t node = 0; node < kDiffuseNodes; ++node) {
            FloatSpectrum light;
            air_->diffuse.ln_at(DiffuseField::Kind::kMean,
                                DiffuseField::place(from.height_m, diffuse_zenith_rad(node)), light);
            exponentiate(light);
            step.ln_diffuse.push_back(logarithms(sum(diffuse, light)));
        }
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
        const double radius_m = air::kEarthRadius_m + ColumnTable::row_height_m(height);
        std::vector<Weights> through;
        for (const Row& row : rows_) {
            FloatSpectrum air_between;
            row.ray.transmission_at(path_to_radius_m(row.ray.start_radius_m, row.ray.cos_zenith,
                                                     std::max(radius_m, row.ray.start_radius_m), true),
                                    air_between);
            through.push_back(times(sun, air_between));
        }
        // From the lit end: in the dark, where nothing is left to weigh the air by, its last word holds.
        for (std::size_t node = kSunNodes; node-- > 0;) {
            FloatSpectrum light;
            air_->beam.ln_transmission({height, node, 0.0, 0.0}, light);
            exponentiate(light);
            const std::size_t place = height * kSunNodes + node;
            const FloatXyz bare = sum(sun, light);
            const bool dark = bare[1] < 1e-25F;
            ln_beam_[place] = logarithms(bare);
            for (std::size_t r = 0; r < rows_.size(); ++r) {
                const FloatXyz seen = logarithms(sum(through[r], light));
                for (std::size_t i = 0; i < seen.size(); ++i) {
                    rows_[r].ln_air[place][i] =
                        dark ? rows_[r].ln_air[place + 1][i] : seen[i] - ln_beam_[place][i];
                }
            }
        }
    }
}

GLOAM_VECTOR_CLONES void AirPalette::fill_fluxes(Row& row) const {
    const Weights eye = weights_of(*air_->bands);
    for (std::size_t height = 0; height < kFluxRows; ++height) {
        const double height_m = DiffuseField::row_height_m(height);
        FloatSpectrum factor;
        row.ray.transmission_at(
            path_to_radius_m(row.ray.start_radius_m, row.ray.cos_zenith,
                             std::max(air::kEarthRadius_m + height_m, row.ray.start_radius_m), true),
            factor);
        for (float& value : factor) {
            value /= static_cast<float>(kPi);
        }
        const Weights through = times(eye, factor);
        for (std::size_t node = 0; node < kDiffuseNodes; ++node) {
            const auto at = DiffuseField::place(height_m, diffuse_zenith_rad(node));
            FloatSpectrum light;
            air_->diffuse.ln_at(DiffuseField::Kind::kDown, at, light);
            exponentiate(light);
            row.ln_down.push_back(logarithms(sum(through, light)));
            air_->diffuse.ln_at(DiffuseField::Kind::kUp, at, light);
            exponentiate(light);
            row.ln_up.push_back(logarithms(sum(through, light)));
        }
    }
}

}  // namespace gloam::sky
