#pragma once

#include <array>
#include <span>
#include <string>
#include <vector>

#include "reference/montecarlo/estimate.hpp"
#include "sky/colour.hpp"

namespace gloam::montecarlo {

/// A direction in which skies are compared.
struct Direction {
    const char* name;
    double elevation_deg;
    double azimuth_deg;  ///< from the sun
};
inline constexpr std::array<Direction, 8> kDirections{{{"zenith", 90.0, 0.0},
                                                       {"sun side 2.5", 2.5, 0.0},
                                                       {"sun side 5", 5.0, 0.0},
                                                       {"sun side 15", 15.0, 0.0},
                                                       {"sun side 30", 30.0, 0.0},
                                                       {"across 10", 10.0, 90.0},
                                                       {"away 5", 5.0, 180.0},
                                                       {"away 15", 15.0, 180.0}}};
/// True elevations of the sun at which skies are compared.
inline constexpr std::array<double, 10> kSuns_deg{10.0, 5.0, 2.0, 0.0, -1.0, -2.0, -3.0, -4.0, -5.0, -6.0};

/// Clear light from one direction, or on a level plane.
struct Light {
    double sun_deg = 0.0;
    std::string where;
    Figure amount;  ///< cd m-2 or lx; without error if it is not an estimate
    sky::Chromaticity colour;
};

/// The clear sky by Monte Carlo in every one of `directions` for every one of `suns_deg`. `again` other than
/// exact: as a solver would have it that simplifies. `thrift` divides the number of paths.
std::vector<Light> monte_carlo_sky(double aerosol_depth_550, const Again& again,
                                   std::span<const double> suns_deg, std::span<const Direction> directions,
                                   int thrift, unsigned threads);
/// The same by src/sky.
std::vector<Light> fast_sky(double aerosol_depth_550, std::span<const double> suns_deg,
                            std::span<const Direction> directions);

/// Light on a level plane on the ground, sun and sky.
std::vector<Light> monte_carlo_level(double aerosol_depth_550, std::span<const double> suns_deg,
                                     unsigned threads);
std::vector<Light> fast_level(double aerosol_depth_550, std::span<const double> suns_deg);

/// How far a list of lights is from the Monte Carlo's of the same places.
struct Distance {
    double median_percent = 0.0;  ///< of |ratio - 1|
    double worst_percent = 0.0;
    std::string worst_where;
    double median_colour = 0.0;  ///< of the larger of |dx| and |dy|
    double worst_colour = 0.0;
    std::string worst_colour_where;
};
Distance distance(std::span<const Light> monte_carlo, std::span<const Light> other);

}  // namespace gloam::montecarlo
