#pragma once

#include <string>
#include <vector>

#include "sheet/section_scene.hpp"

namespace gloam::sheet {

/// The layers as strokes, each in its tone.
void draw_clouds(Drawing& drawing, const SectionScene& scene);

/// The name of a layer and its base, e.g. "high cloud\nfrom 9.2 km", shorter on a narrow page; empty where
/// the drawing shows none of it.
std::string layer_label(const outlook::SectionLayer& layer, bool narrow);

/// The labels of the layers, at the left of the arch.
void label_clouds(Drawing& drawing, const SectionScene& scene);

}  // namespace gloam::sheet
