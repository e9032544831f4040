#pragma once

#include "sheet/section_scene.hpp"

namespace gloam::sheet {

/// What becomes of the best ray, in a few words where it happens: the cloud lit from below, no cloud there to
/// light, or where the light stops.
void note_arrival(Drawing& drawing, const SectionScene& scene);

}  // namespace gloam::sheet
