#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "reference/montecarlo/medium.hpp"

namespace gloam::montecarlo {

/// A refracted ray from a point to the sun, for one apparent zenith angle.
struct SunRay {
    double apparent_zenith_rad = 0.0;
    double true_zenith_rad = 0.0;
    PerSpecies columns{};  ///< along the ray, over the vertical column
};

/// Largest apparent zenith angle from which the sun shines past the sphere, rad.
double grazing_zenith_rad(const Medium& medium, double height_km);

/// Follows the ray by Bouguer's law: n r sin(zenith) is constant along it. Columns and true zenith angle are
/// integrals over r - perigee = u^2, which takes away the singularity at the perigee. `apparent_zenith_rad`
/// up to grazing.
SunRay sun_ray(const Medium& medium, double height_km, double apparent_zenith_rad);

/// Transmission of the sunbeam to any point of a medium, mean over the sun's disc and thinned by refraction
/// (dz/dchi). The logarithm is linear between heights (in their root) and between distances from the
/// shadow's edge.
class SunBeam {
  public:
    explicit SunBeam(const Medium& medium);

    /// Where a point lies in the table.
    struct Place {
        std::size_t row, node;
        double row_share, node_share;
    };
    /// Nothing in the shadow. `true_zenith_rad` of the sun's centre, at the point's vertical.
    std::optional<Place> place(double height_km, double true_zenith_rad) const;
    double transmission(const Place& place, std::size_t band) const;
    sky::Spectrum transmission(const Place& place) const;

    /// Apparent zenith angle of the sun's centre; at the edge of the shadow, where it grazes.
    double apparent_zenith_rad(double height_km, double true_zenith_rad) const;

    const Medium& medium() const { return *medium_; }

  private:
    static constexpr std::size_t kRows = 80;
    static constexpr std::size_t kNodes = 240;

    double row_height_km(std::size_t row) const;
    double node_distance_rad(std::size_t node) const;
    void fill_row(std::size_t row);
    double ln_at(const Place& place, std::size_t band) const;

    const Medium* medium_;
    std::vector<double> edge_rad_;      ///< of the disc's last light, by row
    std::vector<float> ln_t_;           ///< [row][node][band]
    std::vector<double> apparent_rad_;  ///< [row][node], true minus apparent zenith angle
};

/// Irradiance of a level plane on the ground by the sun itself, W m-2 nm-1. `sun_elevation_deg` is true.
sky::Spectrum level_sun(const SunBeam& beam, double sun_elevation_deg);

}  // namespace gloam::montecarlo
