#pragma once

#include <cmath>
#include <numbers>
#include <vector>

#include "geo/light_path_grid.hpp"
#include "outlook/section.hpp"

/// Sections made by hand: rays without refraction, layers of one cover.
namespace gloam::sheet::example {

inline constexpr double kCanvas_m = 9.0e3;
inline constexpr Instant kBest{std::chrono::seconds{1738130400}};  // 2025-01-29 06:00 UTC

inline outlook::SectionLayer layer(weather::Band band, double base_m, double top_m, double cover) {
    return {band, base_m, top_m, std::vector<double>(geo::LightPathGrid::kPoints, cover)};
}

/// Height of a straight line above the sphere, by the parabola.
inline double straight_height(double from_m, double elevation_deg, double along_m) {
    constexpr double kEarthRadius_m = 6371.0e3;
    return from_m + along_m * std::tan(elevation_deg * std::numbers::pi / 180.0) +
           along_m * along_m / (2.0 * kEarthRadius_m);
}

/// The ray to a cloud at kCanvas_m, `minutes` after the best; in the Earth's shadow if it meets the ground.
inline outlook::SectionRay ray(int minutes, double elevation_deg) {
    outlook::SectionRay result{
        kBest + std::chrono::minutes{minutes}, Angle::degrees(elevation_deg), {}, {}, 1.0, true};
    for (int km = 0; km <= 500; km += 5) {
        const double height_m = straight_height(kCanvas_m - 10.0, elevation_deg, km * 1e3);
        result.lit = result.lit && height_m >= 0.0;
        if (!result.lit || height_m > outlook::kSectionHeight_m) {
            break;
        }
        result.points.push_back({km * 1e3, height_m});
    }
    return result;
}

/// High cloud over nearly all the sky, little below it, and all three rays free.
inline outlook::Section open_dawn() {
    return {Azimuth::degrees(113.0),
            kBest,
            20.0,
            {layer(weather::Band::kLow, 1.0e3, 2.0e3, 0.2), layer(weather::Band::kMiddle, 4.0e3, 4.6e3, 0.08),
             layer(weather::Band::kHigh, kCanvas_m, 10.0e3, 0.9)},
            {ray(-5, -2.6), ray(0, -1.9), ray(5, -1.2)},
            "High cloud at 9.0 km over nearly all the sky, and the sun's rays reach it"};
}

/// The same with cloud from 200 to 300 km on the way of the best ray, free in one case of ten.
inline outlook::Section shut_dawn() {
    outlook::Section section = open_dawn();
    section.rays[1].meetings = {{200e3, 300e3, weather::Band::kMiddle, 0.1}};
    section.rays[1].free = 0.1;
    return section;
}

}  // namespace gloam::sheet::example
