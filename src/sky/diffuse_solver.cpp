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
/// Less light than this is as good as none (W m-2 sr-1 nm-1 or W m-2 nm-1).
constexpr double kLeast = 1e-34;

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

/// A ray of the angular grid, with the solid angle of its zenith ring and its harmonics where it starts.
struct GridRay {
    AirRay ray;
    double solid_angle;
    Harmonics harmonics;
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
        std::vector<Light> total(DiffuseField::places());
        DiffuseField previous;
        for (int order = 1; order <= settings_.orders; ++order) {
            DiffuseField current;
            const auto solve_row = [&](std::size_t row) {
                for (std::size_t node = 0; node < nodes; ++node) {
                    const Light light = light_at(row, node, order == 1 ? nullptr : &previous);
                    store(light, row, node, current);
                    total[row * nodes + node] += light;
                }
            };
            parallel_for(DiffuseField::kRows, solve_row, settings_.threads);
            previous = std::move(current);
        }
        DiffuseField field;
        for (std::size_t i = 0; i < total.size(); ++i) {
            store(total[i], i / nodes, i % nodes, field);
        }
        return field;
    }

  private:
    /// The diffuse light at a point: mean over the sphere of light times each harmonic, flux down and up.
    struct Light {
        std::array<Spectrum, kHarmonics> moments{};
        Spectrum down{};
        Spectrum up{};

        void operator+=(const Light& other) {
            for (std::size_t k = 0; k < kHarmonics; ++k) {
                add(other.moments[k], 1.0, moments[k]);
            }
            add(other.down, 1.0, down);
            add(other.up, 1.0, up);
        }
    };

    static void add(const Spectrum& light, double weight, Spectrum& sum) {
        for (std::size_t b = 0; b < kBands; ++b) {
            sum[b] += weight * light[b];
        }
    }

    static float log_of(double value) { return static_cast<float>(std::log(std::max(value, kLeast))); }

    void store(const Light& light, std::size_t row, std::size_t node, DiffuseField& field) const {
        for (std::size_t b = 0; b < kBands; ++b) {
            const double mean = light.moments[0][b];
            field.ln_value(Kind::kMean, row, node, b) = log_of(mean);
            field.ln_value(Kind::kDown, row, node, b) = log_of(light.down[b]);
            field.ln_value(Kind::kUp, row, node, b) = log_of(light.up[b]);
            for (std::size_t k = 1; k <= harmonic(settings_.degree, settings_.degree); ++k) {
                field.set_moment(row, node, k, b, light.moments[k][b] / std::max(mean, kLeast));
            }
        }
    }

    std::vector<GridRay> rays_from(double height_m) const {
        std::vector<GridRay> rays;
        for (const double side : {1.0, -1.0}) {
            for (const GaussNode& node : gauss_nodes(settings_.zeniths_per_hemisphere)) {
                const double elevation = side * kPi / 2.0 * node.position * node.position;
                const double ring = 2.0 * kPi * std::cos(elevation) * kPi * node.position * node.weight;
                rays.push_back({cast_ray(height_m, std::sin(elevation), settings_.steps, optics_,
                                         atmosphere_.aerosol_scale_height_m),
                                ring, zenith_harmonics(std::sin(elevation))});
            }
        }
        return rays;
    }

    /// Light of one order at a node. `previous` is the order before; null for the first order.
    Light light_at(std::size_t row, std::size_t node, const DiffuseField* previous) const {
        const double zenith_rad = DiffuseField::zenith_nodes_deg()[node] * kPi / 180.0;
        Light light;
        for (const auto& [ray, solid_angle, harmonics] : rays_[row]) {
            for (int a = 0; a < settings_.azimuths; ++a) {
                const double azimuth_rad = kPi * (a + 0.5) / settings_.azimuths;
                const SunAlongRay sun = sun_along(ray, zenith_rad, azimuth_rad);
                const Spectrum radiance =
                    previous ? radiance_of_order(ray, sun, *previous) : first_order(ray, sun);
                const double weight = solid_angle / settings_.azimuths;
                add(radiance, weight * std::abs(ray.cos_zenith),
                    ray.cos_zenith > 0.0 ? light.down : light.up);
                const auto cosines = azimuth_cosines(std::cos(azimuth_rad));
                for (std::size_t degree = 0; degree < kDegrees; ++degree) {
                    for (std::size_t m = 0; m <= degree; ++m) {
                        const std::size_t k = harmonic(degree, m);
                        const auto value = static_cast<double>(harmonics[k] * cosines[m]);
                        add(radiance, weight / (4.0 * kPi) * value, light.moments[k]);
                    }
                }
            }
        }
        return light;
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
            const double zenith_rad = sun.zenith_rad(step.middle_m, air::kEarthRadius_m + step.height_m);
            FloatSpectrum series[kDegrees];
            previous.scatter(step, DiffuseField::place(step.height_m, zenith_rad), series);
            FloatSpectrum scattered;
            sum_of_orders(series, azimuth_cosines(sun.azimuth_cosine(step.cos_zenith, zenith_rad)),
                          scattered);
            for (std::size_t b = 0; b < kBands; ++b) {
                radiance[b] +=
                    (step.to_m - step.from_m) * static_cast<double>(scattered[b] * step.transmission[b]);
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
