#pragma once

#include <optional>
#include <vector>

#include "outlook/section.hpp"

namespace gloam::sheet {

/// Below this share of its light a ray is drawn as stopped.
inline constexpr double kMostlyBlocked = 0.5;

/// Share of the sunlight that is left on a ray at a distance up-sun, after all cloud between there and the
/// sun: within a stretch of cloud it falls evenly in logarithm. 0 in the Earth's shadow.
double light_left(const outlook::SectionRay& ray, double along_m);

/// Where sunlight that comes along the ray is mostly gone: how far up-sun, and in which cloud. None if it
/// arrives, or never came because of the Earth's shadow.
struct RayStop {
    double along_m = 0.0;
    weather::Band band = weather::Band::kLow;
};
std::optional<RayStop> stop_of(const outlook::SectionRay& ray);

}  // namespace gloam::sheet
