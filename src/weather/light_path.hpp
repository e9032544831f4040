#pragma once

#include <array>
#include <vector>

#include "base/instant.hpp"
#include "base/kinds.hpp"
#include "weather/layers.hpp"

namespace gloam::weather {

/// Sample points of the light path: five parallel lines towards the sun, 40 km apart, from 150 km behind the
/// viewer to 700 km in front, every 5 km.
struct LightPathGrid {
    static constexpr std::size_t kLines = 5;
    static constexpr double kLineSpacing_m = 40.0e3;
    static constexpr double kFirstAside_m = -80.0e3;  ///< left of the direction to the sun
    static constexpr double kFirst_m = -150.0e3;
    static constexpr double kStep_m = 5.0e3;
    static constexpr std::size_t kPoints = 171;
};

/// Cover of one layer along the five lines, and one base and top for the whole path (cover-weighted).
struct LightPathLayer {
    std::array<std::array<float, LightPathGrid::kPoints>, LightPathGrid::kLines> cover{};  ///< fraction 0..1
    double base_m = 0.0;  ///< above mean sea level
    double top_m = 0.0;
    double base_spread_m =
        0.0;  ///< half-width of what is not known about base and top together (half a slab, or 700 m)
};

/// A displacement of the forecast as a whole, for neighbourhood members.
struct Displacement {
    double along_m = 0.0;  ///< towards the sun
    double aside_m = 0.0;  ///< to the right of it
    Duration later{0};     ///< read the forecast this much later
};

/// Cloud by layer along the light path of `viewer` towards `sun` at `instant`. Linear in time between steps;
/// outside the steps (or with one step) a step serves +-90 min, beyond that it is an error, as are points
/// outside the grid. `Displacement::later` is clamped to the span of the steps.
Result<std::array<LightPathLayer, 3>> sample_light_path(const LayeredForecast& forecast,
                                                        std::size_t member_index, geo::LatLon viewer,
                                                        Azimuth sun, Instant instant,
                                                        const Displacement& displacement);

}  // namespace gloam::weather
