#pragma once

#include "sheet/section_scene.hpp"

namespace gloam::sheet {

/// The rays: warm and as thick as the light that is left, grey and broken where it is mostly gone; the cloud
/// they meet; and the light they bring to the underside of the cloud they come to.
void draw_rays(Drawing& drawing, const SectionScene& scene);

}  // namespace gloam::sheet
