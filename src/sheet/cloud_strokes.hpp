#pragma once

#include <vector>

#include "outlook/section.hpp"
#include "sheet/arch.hpp"

namespace gloam::sheet {

/// Cover of a layer at a distance along the light path, between its points; 0 beyond its ends.
double cover_at(const outlook::SectionLayer& layer, double along_m);

/// A layer as level strokes between its base and top, as an engraver would: every place of an even pattern
/// has a threshold of its own and bears a stroke where the cover is above it, so the share of places with a
/// stroke is the cover. `unit_px` sets length and distance of the strokes.
std::vector<Stroke> cloud_strokes(const outlook::SectionLayer& layer, const Arch& arch, double unit_px);

/// Thickness of the strokes for the same unit.
double stroke_width(double unit_px);

}  // namespace gloam::sheet
