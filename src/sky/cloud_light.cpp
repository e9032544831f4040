#include "sky/cloud_light.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sky/atmosphere.hpp"

namespace gloam::sky {

namespace {

/// What a layer sends back evenly, whatever the direction.
double even_part(const CloudOptics& optics, const LightFromBelow& c) {
    const double albedo = optics.diffuse_albedo();
    return std::min(c.even * albedo * albedo, c.most_even);
}

/// What it scatters forward and back.
double lobes(const CloudView& view, const LightFromBelow& c) {
    return (c.forward * henyey_greenstein(c.forward_asymmetry, view.scattering_cosine) +
            c.backward * henyey_greenstein(c.backward_asymmetry, view.scattering_cosine)) /
           (4.0 * (view.mu + c.blur));
}

/// (1/pi) integral of lobes() mu dOmega over the lower hemisphere, sun on the horizon.
double lobes_returned() {
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
            sum += lobes(view, kLightFromBelow) * mu * 2.0 * u / kElevations * 2.0 * kPi / kAzimuths;
        }
    }
    return sum / kPi;
}

}  // namespace

double lit_from_below(const CloudOptics& optics, const CloudView& view, const LightFromBelow& constants) {
    return even_part(optics, constants) + lobes(view, constants);
}

double lit_fronts(const CloudOptics& optics, const CloudView& view) {
    return std::min(lit_from_below(optics, view), 1.0);
}

double lit_from_above(const CloudOptics& optics, const CloudView& view, double open,
                      const LightFromAbove& constants) {
    const double depth = (1.0 - optics.asymmetry) * optics.optical_depth;
    const double seen = open + (1.0 - open) * std::exp(-depth / view.mu);
    return constants.even / (4.0 / 3.0 + depth) +
           constants.skin * henyey_greenstein(constants.skin_asymmetry, view.scattering_cosine) /
               (4.0 * view.mu) * seen;
}

double front_area(const CloudLayer& layer, double cover) {
    return (layer.top_m - layer.base_m) / layer.optics.cell_m * -std::log1p(-std::min(cover, 0.9999));
}

SunEntry sun_entry(double thickness_m, double sin_depression, double effective_radius_m) {
    // A ray to a sun below the level sinks this far before it is level; what lies higher in the layer is not
    // reached from the base.
    const double tangent_m = effective_radius_m * sin_depression;
    SunEntry entry;
    if (sin_depression > 0.0) {
        const double sinks_m = 0.5 * sin_depression * tangent_m;
        entry.by_base = std::min(1.0, sinks_m / thickness_m);
        entry.base_m = 0.5 * std::min(thickness_m, sinks_m) / sin_depression;
    }
    entry.top_m = tangent_m + std::sqrt(tangent_m * tangent_m + effective_radius_m * thickness_m);
    return entry;
}

std::vector<double> diffuse_left(const std::vector<CloudLayer>& layers, double ground_albedo) {
    std::vector<double> left(layers.size() + 1, 1.0);
    for (std::size_t k = layers.size(); k-- > 0;) {
        const double returned = cover_around(layers[k]) * layers[k].optics.diffuse_albedo();
        left[k] = left[k + 1] * (1.0 - returned) / (1.0 - ground_albedo * returned);
    }
    return left;
}

double returned_from_below(const CloudOptics& optics) {
    static const double kLobes = lobes_returned();
    return even_part(optics, kLightFromBelow) + kLobes;
}

}  // namespace gloam::sky
