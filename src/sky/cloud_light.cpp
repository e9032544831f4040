#include "sky/cloud_light.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sky/atmosphere.hpp"

namespace gloam::sky {

namespace {

/// What a layer sends back evenly, whatever the direction.
double even_part(const CloudOptics& optics) {
    const double albedo = optics.diffuse_albedo();
    return std::min(0.885 * albedo * albedo, 0.28);
}

/// What it scatters forward.
double forward_part(const CloudView& view) {
    return 1.756 * henyey_greenstein(0.64, view.scattering_cosine) / (4.0 * (view.mu + 0.046));
}

/// (1/pi) integral of forward_part mu dOmega over the lower hemisphere, sun on the horizon.
double forward_returned() {
    constexpr int kElevations = 60;
    constexpr int kAzimuths = 48;
    constexpr double kPi = std::numbers::pi;
    double sum = 0.0;
    for (int i = 0; i < kElevations; ++i) {
        // mu = u^2 crowds at the horizon, where the factor is steep.
        const double u = (i + 0.5) / kElevations;
        const double mu = u * u;
        for (int j = 0; j < kAzimuths; ++j) {
            const double azimuth = kPi * (j + 0.5) / kAzimuths;
            const CloudView view{std::sqrt(1.0 - mu * mu) * std::cos(azimuth), mu};
            sum += forward_part(view) * mu * 2.0 * u / kElevations * 2.0 * kPi / kAzimuths;
        }
    }
    return sum / kPi;
}

}  // namespace

double lit_from_below(const CloudOptics& optics, const CloudView& view) {
    return even_part(optics) + forward_part(view);
}

double lit_fronts(const CloudOptics& optics, const CloudView& view) {
    return std::min(lit_from_below(optics, view), 1.0);
}

double lit_from_above(const CloudOptics& optics, const CloudView& view, double cover) {
    const double depth = optics.optical_depth;
    return 0.4 / (1.333 + (1.0 - optics.asymmetry) * depth) +
           0.15 * henyey_greenstein(0.5, view.scattering_cosine) *
               std::max(std::exp(-depth / 4.0), 1.0 - cover);
}

double front_area(const CloudLayer& layer, double cover) {
    return (layer.top_m - layer.base_m) / layer.optics.cell_m * -std::log1p(-std::min(cover, 0.9999));
}

double returned_from_below(const CloudOptics& optics) {
    static const double kForward = forward_returned();
    return even_part(optics) + kForward;
}

}  // namespace gloam::sky
