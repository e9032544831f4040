#pragma once

#include <array>

#include "base/instant.hpp"
#include "base/kinds.hpp"
#include "geo/light_path_grid.hpp"
#include "weather/layers.hpp"

namespace gloam::weather {

using geo::LightPathGrid;

/// Cover of one layer along the five lines, and one base and top for the whole path (cover-weighted).
struct LightPathLayer {
    LightPathGrid::Values cover{};  ///< fraction 0..1
    double base_m = 0.0;  ///< above mean sea level; the band's usual height where the whole path is clear
    double top_m = 0.0;   ///< above mean sea level
    double base_spread_m = 0.0;  ///< half-width of what is not known about base and top together: half a slab
                                 ///< (150 m at least), more where heights are those of the standard
                                 ///< atmosphere, or 700 m where the layer is unknown or clear
};

/// A displacement of the forecast as a whole, for neighbourhood members: the cloud is moved, the viewer is
/// not. The drift serves a forecast for one point alone, and says how fast its cloud comes along.
struct Displacement {
    double along_m = 0.0;  ///< the cloud is moved towards the sun by this much
    double aside_m = 0.0;  ///< and to the right of it by this much
    Duration later{0};     ///< the forecast is read this much later
    double drift_along_m_s =
        15.0;  ///< cloud up-sun comes over the viewer at this speed, or has left him (< 0)
    double drift_aside_m_s = 15.0;  ///< the same for cloud to the right; neither is 0
};

/// Cloud by layer along the light path of `viewer` towards `sun` at `instant`, by Band. `member_index` is a
/// place in `forecast.members`.
///
/// Bilinear between cells, linear in time between steps. Outside the steps (or with one step) a step serves
/// +-90 min; `Displacement::later` is clamped to the span of the steps. Points by spherical formulas, within
/// 2 km (see `PathFrame`).
///
/// A forecast for one point knows no cloud but that overhead. There time stands for space: cloud keeps its
/// form and drifts past (G. I. Taylor 1938, Proc. R. Soc. A 164, 476, from memory), so that what stands
/// up-sun by a distance is overhead later by distance / drift; held within the span of the steps. Cloud aside
/// has a drift of its own: with one for both, every member would have its fronts lie at 45 degrees to the
/// path.
///
/// Error: kOutOfDomain if `instant` is not served or the grid does not hold the
/// viewer or the whole path; kIncomplete if a column on the path is missing. Takes well under a millisecond;
/// safe from any number of threads.
Result<std::array<LightPathLayer, 3>> sample_light_path(const LayeredForecast& forecast,
                                                        std::size_t member_index, geo::LatLon viewer,
                                                        Azimuth sun, Instant instant,
                                                        const Displacement& displacement);

}  // namespace gloam::weather
