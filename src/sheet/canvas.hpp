#pragma once

#include "outlook/section.hpp"

namespace gloam::sheet {

/// How far either way of the viewer cloud is called overhead.
inline constexpr double kOverhead_m = 60.0e3;

/// Mean cover of a layer overhead.
double cover_overhead(const outlook::SectionLayer& layer);

/// Whether there is cloud overhead worth lighting: middle or high, and more than hardly any.
bool has_canvas(const outlook::Section& section);

/// The layer that a ray comes to: its base is just above the ray's end. Null if there is none, or hardly any
/// of it overhead.
const outlook::SectionLayer* canvas_of(const outlook::Section& section, const outlook::SectionRay& ray);

}  // namespace gloam::sheet
