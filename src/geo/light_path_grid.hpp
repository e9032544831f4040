#pragma once

#include <array>
#include <cstddef>

namespace gloam::geo {

/// Sample points of the light path: five parallel lines towards the sun, 40 km apart, from 150 km behind the
/// viewer to 700 km in front, every 5 km. Along: towards the sun. Aside: to the right of it.
struct LightPathGrid {
    static constexpr std::size_t kLines = 5;
    static constexpr double kLineSpacing_m = 40.0e3;
    static constexpr double kFirstAside_m = -80.0e3;
    static constexpr std::size_t kPoints = 171;
    static constexpr double kStep_m = 5.0e3;
    static constexpr double kFirst_m = -150.0e3;

    /// One value a sample point, by line, then by point.
    using Values = std::array<std::array<float, kPoints>, kLines>;
};

}  // namespace gloam::geo
