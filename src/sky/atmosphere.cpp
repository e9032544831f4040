#include "sky/atmosphere.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "air/standard_atmosphere.hpp"

namespace gloam::sky {
namespace {

constexpr std::size_t index_of(Species species) {
    return static_cast<std::size_t>(species);
}

/// Integral of a shape over the air, by Simpson's rule on 50 m steps.
template <class Shape>
double column_of(const Shape& shape) {
    constexpr int kSteps = 2000;
    constexpr double kStep_m = air::kTopOfAir_m / kSteps;
    double sum = 0.0;
    for (int i = 0; i < kSteps; ++i) {
        const double h = i * kStep_m;
        sum += kStep_m / 6.0 * (shape(h) + 4.0 * shape(h + kStep_m / 2.0) + shape(h + kStep_m));
    }
    return sum;
}

double rayleigh_shape(double height_m) {
    return air::standard_atmosphere(height_m).relative_density;
}

/// Maximum at 22 km, wider below than above, and a tropospheric tail.
double ozone_shape(double height_m) {
    const double width_m = height_m < 22.0e3 ? 8.0e3 : 7.0e3;
    const double t = (height_m - 22.0e3) / width_m;
    return std::exp(-0.5 * t * t) + 0.06 * std::exp(-height_m / 8.0e3);
}

/// A box from 1 to 5 km with edges 0.3 km soft.
double dust_shape(double height_m) {
    constexpr double kEdge_m = 300.0;
    return 0.5 * (std::tanh((height_m - 1.0e3) / kEdge_m) - std::tanh((height_m - 5.0e3) / kEdge_m));
}

double sulphate_shape(double height_m) {
    const double t = (height_m - 20.0e3) / 3.0e3;
    return std::exp(-0.5 * t * t);
}

struct ShapeColumns {
    double rayleigh_m = column_of(rayleigh_shape);
    double ozone_m = column_of(ozone_shape);
    double dust_m = column_of(dust_shape);
    double sulphate_m = column_of(sulphate_shape);
};

const ShapeColumns& shape_columns() {
    static const ShapeColumns kColumns;
    return kColumns;
}

double aerosol_density_per_m(double height_m, double scale_height_m) {
    const double column_m = scale_height_m * (1.0 - std::exp(-air::kTopOfAir_m / scale_height_m));
    return std::exp(-height_m / scale_height_m) / column_m;
}

/// Mineral dust absorbs blue: albedo 0.90 at 440 nm, 0.97 at 670 nm, linear between and constant beyond.
double dust_albedo(double wavelength_nm) {
    const double share = std::clamp((wavelength_nm - 440.0) / (670.0 - 440.0), 0.0, 1.0);
    return 0.90 + 0.07 * share;
}

constexpr double kAerosolAlbedo = 0.95;
constexpr double kDustAngstrom = 0.2;
constexpr double kAerosolAsymmetry = 0.70;
constexpr double kDustAsymmetry = 0.75;
constexpr double kSulphateAsymmetry = 0.65;
/// Rayleigh phase function with King factor. Source: Chandrasekhar 1950; g from Bucholtz 1995 at 550 nm.
constexpr double kRayleighDepolarisation = 0.0142;
/// One Dobson unit, molecules per m2.
constexpr double kDobsonUnit_m2 = 2.687e20;

/// One term of every phase function's Legendre series. Rayleigh's mu^2 is 1/3 + 2/3 P2; the moments of
/// Henyey-Greenstein are the powers of its asymmetry (Henyey and Greenstein 1941).
PerSpecies phase_term(std::size_t degree) {
    constexpr double kG = kRayleighDepolarisation;
    const double rayleigh = degree == 0 ? 1.0 : degree == 2 ? (1.0 - kG) / (2.0 * (1.0 + 2.0 * kG)) : 0.0;
    const auto forward = [degree](double asymmetry) {
        return static_cast<double>(2 * degree + 1) * std::pow(asymmetry, static_cast<double>(degree));
    };
    return {rayleigh, 0.0, forward(kAerosolAsymmetry), forward(kDustAsymmetry), forward(kSulphateAsymmetry)};
}

}  // namespace

PerSpecies densities_per_m(double height_m, double aerosol_scale_height_m) {
    const ShapeColumns& columns = shape_columns();
    return {rayleigh_shape(height_m) / columns.rayleigh_m, ozone_shape(height_m) / columns.ozone_m,
            aerosol_density_per_m(height_m, aerosol_scale_height_m), dust_shape(height_m) / columns.dust_m,
            sulphate_shape(height_m) / columns.sulphate_m};
}

air::Profile profile_of(Species species, double aerosol_scale_height_m) {
    const ShapeColumns& columns = shape_columns();
    switch (species) {
        case Species::kRayleigh:
            return [&columns](double h) { return rayleigh_shape(h) / columns.rayleigh_m; };
        case Species::kOzone:
            return [&columns](double h) { return ozone_shape(h) / columns.ozone_m; };
        case Species::kAerosol:
            return [aerosol_scale_height_m](double h) {
                return aerosol_density_per_m(h, aerosol_scale_height_m);
            };
        case Species::kDust:
            return [&columns](double h) { return dust_shape(h) / columns.dust_m; };
        case Species::kSulphate:
            break;
    }
    return [&columns](double h) { return sulphate_shape(h) / columns.sulphate_m; };
}

Optics optics_of(const Atmosphere& atmosphere, const Bands& bands) {
    Optics optics;
    for (std::size_t b = 0; b < kBands; ++b) {
        const double nm = bands.centre_nm[b];
        const auto power_law = [nm](double depth_550, double exponent) {
            return depth_550 * std::pow(nm / 550.0, -exponent);
        };
        PerSpecies depth{};
        PerSpecies albedo{};
        depth[index_of(Species::kRayleigh)] = bands.rayleigh_depth[b];
        albedo[index_of(Species::kRayleigh)] = 1.0;
        depth[index_of(Species::kOzone)] = bands.ozone_m2[b] * kDobsonUnit_m2 * atmosphere.ozone_du;
        depth[index_of(Species::kAerosol)] =
            power_law(atmosphere.aerosol_depth_550, atmosphere.aerosol_angstrom);
        albedo[index_of(Species::kAerosol)] = kAerosolAlbedo;
        depth[index_of(Species::kDust)] = power_law(atmosphere.dust_depth_550, kDustAngstrom);
        albedo[index_of(Species::kDust)] = dust_albedo(nm);
        depth[index_of(Species::kSulphate)] =
            power_law(atmosphere.sulphate_depth_550, atmosphere.sulphate_angstrom);
        albedo[index_of(Species::kSulphate)] = 1.0;
        for (std::size_t s = 0; s < kSpecies; ++s) {
            optics.depth[s][b] = depth[s];
            optics.scattering[s][b] = albedo[s] * depth[s];
        }
    }
    return optics;
}

double henyey_greenstein(double asymmetry, double cosine) {
    const double base = 1.0 + asymmetry * asymmetry - 2.0 * asymmetry * cosine;
    return (1.0 - asymmetry * asymmetry) / (base * std::sqrt(base));
}

PerSpecies phase_functions(double cosine) {
    constexpr double kG = kRayleighDepolarisation;
    const double rayleigh =
        3.0 / (4.0 * (1.0 + 2.0 * kG)) * ((1.0 + 3.0 * kG) + (1.0 - kG) * cosine * cosine);
    return {rayleigh, 0.0, henyey_greenstein(kAerosolAsymmetry, cosine),
            henyey_greenstein(kDustAsymmetry, cosine), henyey_greenstein(kSulphateAsymmetry, cosine)};
}

const std::array<PerSpecies, kDegrees>& phase_terms() {
    static const auto kTerms = [] {
        std::array<PerSpecies, kDegrees> terms{};
        for (std::size_t l = 0; l < kDegrees; ++l) {
            terms[l] = phase_term(l);
        }
        return terms;
    }();
    return kTerms;
}

}  // namespace gloam::sky
