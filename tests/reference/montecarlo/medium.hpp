#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <vector>

#include "reference/montecarlo/phase.hpp"
#include "sky/spectrum.hpp"

namespace gloam::montecarlo {

/// What light meets: air molecules, ozone, aerosol, stratospheric sulphate. A test may put other matter in
/// their places.
inline constexpr std::size_t kSpecies = 4;
using PerSpecies = std::array<double, kSpecies>;
inline constexpr std::size_t kAir = 0;
inline constexpr std::size_t kOzone = 1;
inline constexpr std::size_t kAerosol = 2;
inline constexpr std::size_t kSulphate = 3;

/// Vertical profiles on equally spaced heights, linear between, each of column 1 by the trapezium rule.
class Profiles {
  public:
    /// `shapes` give any multiple of the density at a height in km.
    Profiles(double top_km, const std::array<std::function<double(double)>, kSpecies>& shapes);

    double top_km() const { return top_km_; }
    /// Densities per km; zero above the top, those of the ground below it.
    PerSpecies at(double height_km) const;

  private:
    double top_km_;
    std::vector<PerSpecies> nodes_;
};

/// A sphere with matter around it, and the sunlight that falls on it.
struct Medium {
    Profiles profiles;
    double radius_km = 6371.0;
    double refractivity = 2.77e-4;  ///< n - 1 at the ground; follows the density of species kAir
    double sun_radius_deg = 0.267;
    double ground_albedo = 0.15;
    /// A step along a ray climbs or falls by at most this, and this share of its height.
    double step_km = 0.4;
    double step_growth = 0.08;
    std::array<Phase, kSpecies> phase{};
    std::array<sky::Spectrum, kSpecies> depth{};       ///< vertical optical depth
    std::array<sky::Spectrum, kSpecies> scattering{};  ///< the part of it that scatters
    sky::Spectrum sun{};                               ///< irradiance above the air

    double top_radius_km() const { return radius_km + profiles.top_km(); }
    double refractive_index(double height_km) const {
        return 1.0 + refractivity * profiles.at(height_km)[kAir] / profiles.at(0.0)[kAir];
    }
};

/// What the clear air may hold more or less of.
struct Amounts {
    double ozone_du = 320.0;
    double aerosol_depth_550 = 0.10;
};

/// Clear air over ground of albedo 0.15: the atmosphere that docs/sky.md section 1 describes in words,
/// written anew. Of `bands` it takes the sun, the ozone cross-section and the Rayleigh depth.
Medium clear_air(const Amounts& amounts, const sky::Bands& bands);

/// The same air over ground that lies higher, all else being equal: what is above a deck of cloud that has no
/// end, the deck being the ground.
Medium over_higher_ground(const Medium& air, double ground_km, double ground_albedo);

/// Density of the US Standard Atmosphere 1976 over that at sea level; from 86 to 100 km with the lapse rate
/// below. Source: NOAA/NASA/USAF 1976, table 4 (constants from memory).
double relative_air_density(double height_km);

}  // namespace gloam::montecarlo
