#pragma once

#include "sheet/section_scene.hpp"

namespace gloam::sheet {

/// Depth of the ground below the ends of the arch, pixels: room for a line of small type.
double ground_depth(const TypeSizes& sizes);

/// The ground with its distances, the viewer on it, which way it goes, and how much heights are stretched.
void draw_ground(Drawing& drawing, const SectionScene& scene);

/// Thin lines of equal height, and the plumb line over the viewer.
void draw_guides(Drawing& drawing, const SectionScene& scene);

/// The kilometres of the lines of equal height, legible over cloud.
void label_guides(Drawing& drawing, const SectionScene& scene);

}  // namespace gloam::sheet
