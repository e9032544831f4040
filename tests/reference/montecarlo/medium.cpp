#include "reference/montecarlo/medium.hpp"

#include <algorithm>
#include <cmath>

namespace gloam::montecarlo {
namespace {

constexpr std::size_t kIntervals = 4000;
constexpr double kTopOfAir_km = 100.0;
constexpr double kAerosolScaleHeight_km = 1.5;
/// Molecules per m2 in one Dobson unit.
constexpr double kDobsonUnit_m2 = 2.687e20;

double bell(double height_km, double centre_km, double width_km) {
    const double t = (height_km - centre_km) / width_km;
    return std::exp(-0.5 * t * t);
}

double ozone_shape(double height_km) {
    return bell(height_km, 22.0, height_km < 22.0 ? 8.0 : 7.0) + 0.06 * std::exp(-height_km / 8.0);
}

/// Optical depth by a power law, the share `albedo` of which scatters.
void set_power_law(Medium& medium, std::size_t species, const sky::Bands& bands, double depth_550,
                   double exponent, double albedo) {
    for (std::size_t b = 0; b < sky::kBands; ++b) {
        medium.depth[species][b] = depth_550 * std::pow(bands.centre_nm[b] / 550.0, -exponent);
        medium.scattering[species][b] = albedo * medium.depth[species][b];
    }
}

}  // namespace

Profiles::Profiles(double top_km, const std::array<std::function<double(double)>, kSpecies>& shapes)
    : top_km_(top_km), nodes_(kIntervals + 1) {
    const double interval_km = top_km / static_cast<double>(kIntervals);
    for (std::size_t s = 0; s < kSpecies; ++s) {
        double column = 0.0;
        for (std::size_t i = 0; i <= kIntervals; ++i) {
            nodes_[i][s] = shapes[s](static_cast<double>(i) * interval_km);
            column += nodes_[i][s] * interval_km * (i == 0 || i == kIntervals ? 0.5 : 1.0);
        }
        for (PerSpecies& node : nodes_) {
            node[s] /= column;
        }
    }
}

PerSpecies Profiles::at(double height_km) const {
    if (height_km > top_km_) {
        return {};
    }
    const double place = std::max(0.0, height_km) / top_km_ * static_cast<double>(kIntervals);
    const std::size_t i = std::min(static_cast<std::size_t>(place), kIntervals - 1);
    const double share = place - static_cast<double>(i);
    PerSpecies density;
    for (std::size_t s = 0; s < kSpecies; ++s) {
        density[s] = nodes_[i][s] + share * (nodes_[i + 1][s] - nodes_[i][s]);
    }
    return density;
}

double relative_air_density(double height_km) {
    struct Layer {
        double base_km, lapse_k_per_km;  // geopotential
    };
    constexpr std::array<Layer, 7> kLayers{
        {{0.0, -6.5}, {11.0, 0.0}, {20.0, 1.0}, {32.0, 2.8}, {47.0, 0.0}, {51.0, -2.8}, {71.0, -2.0}}};
    constexpr double kGravityOverGas_k_per_km = 34.163195;
    constexpr double kPolarRadius_km = 6356.766;
    const double height = kPolarRadius_km * height_km / (kPolarRadius_km + height_km);
    double temperature_k = 288.15;
    double ln_pressure = 0.0;
    for (std::size_t i = 0; i < kLayers.size(); ++i) {
        const double top = i + 1 < kLayers.size() ? std::min(height, kLayers[i + 1].base_km) : height;
        const double climb_km = top - kLayers[i].base_km;
        if (climb_km <= 0.0) {
            break;
        }
        const double lapse = kLayers[i].lapse_k_per_km;
        const double warmer_k = temperature_k + lapse * climb_km;
        ln_pressure -= lapse == 0.0 ? kGravityOverGas_k_per_km * climb_km / temperature_k
                                    : kGravityOverGas_k_per_km / lapse * std::log(warmer_k / temperature_k);
        temperature_k = warmer_k;
    }
    return std::exp(ln_pressure) * 288.15 / temperature_k;
}

Medium clear_air(const Amounts& amounts, const sky::Bands& bands) {
    Medium medium{Profiles(kTopOfAir_km, {relative_air_density, ozone_shape,
                                          [](double h) { return std::exp(-h / kAerosolScaleHeight_km); },
                                          [](double h) { return bell(h, 20.0, 3.0); }})};
    medium.phase[kAir] = {Phase::Kind::kRayleigh, 0.0142};
    medium.phase[kAerosol] = {Phase::Kind::kHenyeyGreenstein, 0.70};
    medium.phase[kSulphate] = {Phase::Kind::kHenyeyGreenstein, 0.65};
    medium.depth[kAir] = bands.rayleigh_depth;
    medium.scattering[kAir] = bands.rayleigh_depth;
    for (std::size_t b = 0; b < sky::kBands; ++b) {
        medium.depth[kOzone][b] = bands.ozone_m2[b] * kDobsonUnit_m2 * amounts.ozone_du;
    }
    set_power_law(medium, kAerosol, bands, amounts.aerosol_depth_550, 1.3, 0.95);
    set_power_law(medium, kSulphate, bands, 0.004, 1.6, 1.0);
    medium.sun = bands.sun_w_m2_nm;
    return medium;
}

Medium over_higher_ground(const Medium& air, double ground_km, double ground_albedo) {
    const auto shape = [&](std::size_t species) {
        return [&air, ground_km, species](double h) { return air.profiles.at(ground_km + h)[species]; };
    };
    Medium raised = air;
    raised.profiles = Profiles(air.profiles.top_km() - ground_km, {shape(0), shape(1), shape(2), shape(3)});
    raised.radius_km += ground_km;
    raised.refractivity = air.refractive_index(ground_km) - 1.0;
    raised.ground_albedo = ground_albedo;
    for (std::size_t s = 0; s < kSpecies; ++s) {
        // Densities at one place, over columns: what part of the column is left.
        const double left = air.profiles.at(ground_km)[s] / raised.profiles.at(0.0)[s];
        for (std::size_t b = 0; b < sky::kBands; ++b) {
            raised.depth[s][b] *= left;
            raised.scattering[s][b] *= left;
        }
    }
    return raised;
}

}  // namespace gloam::montecarlo
