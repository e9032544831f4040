#pragma once

#include "reference/montecarlo/random.hpp"
#include "reference/montecarlo/sun_leg.hpp"

namespace gloam::montecarlo {

/// How light that comes from another scattering is scattered again: by the phase functions, or by the first
/// terms of their Legendre series. Anything but the phase functions is a question: what would a solver say
/// that knows no more than so many moments of diffuse light? The sun's own light is always scattered exactly.
struct Again {
    static constexpr int kExact = -1;
    int near_viewer = kExact;  ///< highest degree where a path meets its first matter; 0: isotropic
    int deeper = kExact;       ///< everywhere else
};

struct TracerSettings {
    int most_orders = 1000;  ///< scatterings and reflections that a path may have
    Again again{};
    /// Share of collisions that is put where the sun shines, and of new directions that is drawn from a broad
    /// lobe about the sunlit horizon; the rest follows the matter. Both help in twilight. In thick matter,
    /// where light is scattered many times, they make weights run wild.
    double lit_share = 0.5;
    double sunward_share = 0.4;
};

/// A viewer and where he looks. Azimuth from the sun.
struct View {
    double height_km = 0.0;
    double sun_elevation_deg = 0.0;  ///< true
    double elevation_deg = 0.0;
    double azimuth_deg = 0.0;
};

/// Follows one path backward from the viewer; at each meeting with matter or ground, the sunlight scattered
/// there towards the path is added (W m-2 sr-1 nm-1). All bands share the path: it is made by one of a few
/// bands in turn, and weighed by the mean density with which any of these would have made it (balance
/// heuristic: Veach and Guibas 1995). `u_first` in (0, 1) places the first collision, so that paths can be
/// spread evenly.
class Tracer {
  public:
    Tracer(const SunBeam& beam, const TracerSettings& settings) : beam_(&beam), settings_(settings) {}

    void add_radiance(const View& view, Stream& random, double u_first, sky::Spectrum& sum) const;
    /// The same for the irradiance of a level plane at the viewer that looks up, without the sun itself
    /// (W m-2 nm-1); the directions of `view` are not used.
    void add_irradiance(const View& view, Stream& random, double u_first, sky::Spectrum& sum) const;

  private:
    const SunBeam* beam_;
    TracerSettings settings_;
};

}  // namespace gloam::montecarlo
