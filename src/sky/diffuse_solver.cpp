// Successive orders of scattering in two coordinates, height and solar zenith angle.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "air/standard_atmosphere.hpp"
#include "base/parallel.hpp"
#include "sky/air_ray.hpp"
#include "sky/diffuse.hpp"
#include "sky/exponential.hpp"

namespace gloam::sky {
namespace {

constexpr double kPi = std::numbers::pi;
using Kind = DiffuseField::Kind;

struct GaussNode {
    double position;  ///< in (0, 1)
    double weight;
};

/// Gauss-Legendre nodes on (0, 1) by Newton's method on the Legendre polynomial.
std::vector<GaussNode> gauss_nodes(int count) {
    std::vector<GaussNode> nodes;
    for (int i = 0; i < count; ++i) {
        double x = std::cos(kPi * (i + 0.75) / (count + 0.5));
        double derivative = 1.0;
        for (int iteration = 0; iteration < 20; ++iteration) {
            double p = 1.0;
            double previous = 0.0;
            for (int k = 1; k <= count; ++k) {
                const double before = previous;
                previous = p;
                p = ((2 * k - 1) * x * previous - (k - 1) * before) / k;
            }
            derivative = count * (x * p - previous) / (x * x - 1.0);
            x -= p / derivative;
        }
        nodes.push_back({0.5 * (1.0 + x), 1.0 / ((1.0 - x * x) * derivative * derivative)});
    }
    return nodes;
}

/// A ray of the angular grid, with the solid angle of its zenith ring.
struct GridRay {
    AirRay ray;
    double solid_angle;
};

class Solver {
  public:
    Solver(const Bands& bands, const ColumnTable& columns, const Atmosphere& atmosphere,
           const SolverSettings& settings)
        : bands_(bands),
          optics_(optics_of(atmosphere, bands)),
          beam_(columns, optics_, atmosphere.aerosol_scale_height_m),
          atmosphere_(atmosphere),
          settings_(settings),
          rays_(DiffuseField::kRows) {
        parallel_for(
            rays_.size(), [&](std::size_t row) { rays_[row] = rays_from(DiffuseField::row_height_m(row)); },
            settings.threads);
    }

    DiffuseField solve() const {
        const std::size_t nodes = DiffuseField::zenith_nodes_deg().size();
        std::vector<Spectrum> total(DiffuseField::kFields * DiffuseField::kRows * nodes);
        DiffuseField previous;
        for (int order = 1; order <= settings_.orders; ++order) {
            DiffuseField current;
            const auto solve_row = [&](std::size_t row) {
                for (std::size_t node = 0; node < nodes; ++node) {
                    const auto moments = moments_at(row, node, order == 1 ? nullptr : &previous);
                    for (std::size_t kind = 0; kind < DiffuseField::kFields; ++kind) {
                        Spectrum& sum = total[(kind * DiffuseField::kRows + row) * nodes + node];
                        for (std::size_t b = 0; b < kBands; ++b) {
                            sum[b] += moments[kind][b];
                            current.ln_value(static_cast<Kind>(kind), row, node, b) =
                                log_of(moments[kind][b]);
                        }
                    }
                }
            };
            parallel_for(DiffuseField::kRows, solve_row, settings_.threads);
            previous = std::move(current);
        }
        return store(total);
    }

  private:
    using Moments = std::array<Spectrum, DiffuseField::kFields>;

    static float log_of(double value) { return static_cast<float>(std::log(std::max(value, 1e-34))); }

    static DiffuseField store(const std::vector<Spectrum>& total) {
        DiffuseField field;
        const std::size_t nodes = DiffuseField::zenith_nodes_deg().size();
        for (std::size_t i = 0; i < total.size(); ++i) {
            const auto kind = static_cast<Kind>(i / (DiffuseField::kRows * nodes));
            const std::size_t row = i / nodes % DiffuseField::kRows;
            for (std::size_t b = 0; b < kBands; ++b) {
                field.ln_value(kind, row, i % nodes, b) = log_of(total[i][b]);
            }
        }
        return field;
    }

    std::vector<GridRay> rays_from(double height_m) const {
        std::vector<GridRay> rays;
        for (const double side : {1.0, -1.0}) {
            for (const GaussNode& node : gauss_nodes(settings_.zeniths_per_hemisphere)) {
                const double elevation = side * kPi / 2.0 * node.position * node.position;
                const double ring = 2.0 * kPi * std::cos(elevation) * kPi * node.position * node.weight;
                rays.push_back({cast_ray(height_m, std::sin(elevation), settings_.steps, optics_,
                                         atmosphere_.aerosol_scale_height_m),
                                ring});
            }
        }
        return rays;
    }

    /// Mean radiance and fluxes of one order at a node. `previous` is the order before; null for the first
    /// order.
    Moments moments_at(std::size_t row, std::size_t node, const DiffuseField* previous) const {
        const double zenith_rad = DiffuseField::zenith_nodes_deg()[node] * kPi / 180.0;
        Moments moments{};
        for (const auto& [ray, solid_angle] : rays_[row]) {
            for (int a = 0; a < settings_.azimuths; ++a) {
                const SunAlongRay sun = sun_along(ray, zenith_rad, kPi * (a + 0.5) / settings_.azimuths);
                const Spectrum radiance =
                    previous ? radiance_of_order(ray, sun, *previous) : first_order(ray, sun);
                const double weight = solid_angle / settings_.azimuths;
                const auto flux = static_cast<std::size_t>(ray.cos_zenith > 0.0 ? Kind::kDown : Kind::kUp);
                for (std::size_t b = 0; b < kBands; ++b) {
                    moments[0][b] += radiance[b] * weight / (4.0 * kPi);
                    moments[flux][b] += radiance[b] * weight * std::abs(ray.cos_zenith);
                }
            }
        }
        return moments;
    }

    Spectrum first_order(const AirRay& ray, const SunAlongRay& sun) const {
        const PerSpecies phase = phase_functions(sun.cosine);
        Spectrum radiance{};
        for (const AirStep& step : ray.steps) {
            const auto at = beam_.columns().place(
                step.height_m, sun.zenith_rad(step.middle_m, air::kEarthRadius_m + step.height_m));
            if (!at) {
                continue;
            }
            FloatSpectrum t;
            beam_.ln_transmission(*at, t);
            exponentiate(t);
            for (std::size_t b = 0; b < kBands; ++b) {
                double scattering_per_m = 0.0;
                for (std::size_t s = 0; s < kSpecies; ++s) {
                    scattering_per_m += step.density[s] * phase[s] * optics_.scattering[s][b];
                }
                radiance[b] += scattering_per_m * bands_.sun_w_m2_nm[b] / (4.0 * kPi) *
                               (step.to_m - step.from_m) * static_cast<double>(t[b] * step.transmission[b]);
            }
        }
        if (ray.meets_ground) {
            const double zenith_rad = sun.zenith_rad(ray.length_m, air::kEarthRadius_m);
            const Spectrum t = beam_.transmission(0.0, zenith_rad);
            Spectrum flux{};
            for (std::size_t b = 0; b < kBands; ++b) {
                flux[b] = bands_.sun_w_m2_nm[b] * t[b] * std::max(0.0, std::cos(zenith_rad));
            }
            add_ground(ray, flux, radiance);
        }
        return radiance;
    }

    Spectrum radiance_of_order(const AirRay& ray, const SunAlongRay& sun,
                               const DiffuseField& previous) const {
        Spectrum radiance{};
        for (const AirStep& step : ray.steps) {
            FloatSpectrum mean;
            previous.ln_at(
                Kind::kMean,
                DiffuseField::place(step.height_m,
                                    sun.zenith_rad(step.middle_m, air::kEarthRadius_m + step.height_m)),
                mean);
            exponentiate(mean);
            for (std::size_t b = 0; b < kBands; ++b) {
                double scattering_per_m = 0.0;
                for (std::size_t s = 0; s < kSpecies; ++s) {
                    scattering_per_m += step.density[s] * optics_.scattering[s][b];
                }
                radiance[b] += scattering_per_m * (step.to_m - step.from_m) *
                               static_cast<double>(mean[b] * step.transmission[b]);
            }
        }
        if (ray.meets_ground) {
            const double zenith_rad = sun.zenith_rad(ray.length_m, air::kEarthRadius_m);
            add_ground(ray, previous.at(Kind::kDown, 0.0, zenith_rad), radiance);
        }
        return radiance;
    }

    void add_ground(const AirRay& ray, const Spectrum& flux, Spectrum& radiance) const {
        for (std::size_t b = 0; b < kBands; ++b) {
            radiance[b] +=
                static_cast<double>(ray.end_transmission[b]) * atmosphere_.ground_albedo / kPi * flux[b];
        }
    }

    const Bands& bands_;
    Optics optics_;
    BeamTable beam_;
    Atmosphere atmosphere_;
    SolverSettings settings_;
    std::vector<std::vector<GridRay>> rays_;
};

}  // namespace

DiffuseField solve_diffuse(const Bands& bands, const ColumnTable& columns, const Atmosphere& atmosphere,
                           const SolverSettings& settings) {
    return Solver(bands, columns, atmosphere, settings).solve();
}

}  // namespace gloam::sky
