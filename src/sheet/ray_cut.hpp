#pragma once

#include <vector>

#include "outlook/section.hpp"

namespace gloam::sheet {

/// Height of a ray at a distance, between its points; beyond its ends, that of the nearest. It needs a point.
double height_at(const outlook::SectionRay& ray, double along_m);

/// The points of a ray between two distances, ends included; empty if it has none there.
std::vector<outlook::SectionPoint> cut(const outlook::SectionRay& ray, double from_m, double to_m);

}  // namespace gloam::sheet
