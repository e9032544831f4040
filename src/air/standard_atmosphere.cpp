#include "air/standard_atmosphere.hpp"

#include <array>
#include <cmath>

namespace gloam::air {
namespace {

// Constants of the standard, section 1.
constexpr double kGravity_m_s2 = 9.80665;
constexpr double kGasConstant_j_kmol_k = 8314.32;
constexpr double kMolarMass_kg_kmol = 28.9644;
constexpr double kGeopotentialRadius_m = 6356.766e3;
constexpr double kHydrostatic_k_m = kGravity_m_s2 * kMolarMass_kg_kmol / kGasConstant_j_kmol_k;
constexpr double kSeaLevelTemperature_k = 288.15;
constexpr double kSeaLevelPressure_pa = 101325.0;

struct Layer {
    double base_m;         ///< geopotential
    double lapse_k_m;      ///< temperature gradient
    double temperature_k;  ///< at the base
    double pressure_pa;    ///< at the base
};

double pressure_ratio(const Layer& layer, double temperature_k, double rise_m) {
    if (layer.lapse_k_m == 0.0) {
        return std::exp(-kHydrostatic_k_m * rise_m / layer.temperature_k);
    }
    return std::pow(layer.temperature_k / temperature_k, kHydrostatic_k_m / layer.lapse_k_m);
}

/// Table 4 of the standard: geopotential base heights and lapse rates; bases are filled upwards.
std::array<Layer, 7> make_layers() {
    std::array<Layer, 7> layers{{{0.0, -6.5e-3, kSeaLevelTemperature_k, kSeaLevelPressure_pa},
                                 {11.0e3, 0.0, 0, 0},
                                 {20.0e3, 1.0e-3, 0, 0},
                                 {32.0e3, 2.8e-3, 0, 0},
                                 {47.0e3, 0.0, 0, 0},
                                 {51.0e3, -2.8e-3, 0, 0},
                                 {71.0e3, -2.0e-3, 0, 0}}};
    for (std::size_t i = 1; i < layers.size(); ++i) {
        const Layer& below = layers[i - 1];
        const double rise_m = layers[i].base_m - below.base_m;
        layers[i].temperature_k = below.temperature_k + below.lapse_k_m * rise_m;
        layers[i].pressure_pa = below.pressure_pa * pressure_ratio(below, layers[i].temperature_k, rise_m);
    }
    return layers;
}

const std::array<Layer, 7>& layers() {
    static const std::array<Layer, 7> kLayers = make_layers();
    return kLayers;
}

}  // namespace

AirState standard_atmosphere(double height_m) {
    const double shrink = kGeopotentialRadius_m / (kGeopotentialRadius_m + height_m);
    const double geopotential_m = height_m * shrink;
    const auto& all = layers();
    std::size_t i = all.size() - 1;
    while (i > 0 && geopotential_m < all[i].base_m) {
        --i;
    }
    const Layer& layer = all[i];
    const double rise_m = geopotential_m - layer.base_m;
    AirState state;
    state.temperature_k = layer.temperature_k + layer.lapse_k_m * rise_m;
    state.pressure_pa = layer.pressure_pa * pressure_ratio(layer, state.temperature_k, rise_m);
    state.relative_density =
        state.pressure_pa / kSeaLevelPressure_pa * kSeaLevelTemperature_k / state.temperature_k;
    state.relative_density_gradient_per_m = -state.relative_density * shrink * shrink *
                                            (kHydrostatic_k_m + layer.lapse_k_m) / state.temperature_k;
    return state;
}

double pressure_altitude_m(double pressure_pa) {
    const auto& all = layers();
    std::size_t i = all.size() - 1;
    while (i > 0 && pressure_pa > all[i].pressure_pa) {
        --i;
    }
    const Layer& layer = all[i];
    const double ratio = pressure_pa / layer.pressure_pa;
    const double rise_m = layer.lapse_k_m == 0.0
                              ? -std::log(ratio) * layer.temperature_k / kHydrostatic_k_m
                              : layer.temperature_k / layer.lapse_k_m *
                                    (std::pow(ratio, -layer.lapse_k_m / kHydrostatic_k_m) - 1.0);
    const double geopotential_m = layer.base_m + rise_m;
    return geopotential_m * kGeopotentialRadius_m / (kGeopotentialRadius_m - geopotential_m);
}

}  // namespace gloam::air
