#pragma once

#include <string>

#include "sheet/section_scene.hpp"

namespace gloam::sheet {

/// Clock, sun's elevation and what arrives, e.g. "06:38, best\nsun −2.9°\n86 % gets through"; on a narrow
/// page clock and elevation alone.
std::string ray_label(const outlook::SectionRay& ray, const SectionScene& scene);

/// The labels of the rays, beyond their ends; of those in the Earth's shadow, in the ground that shades them.
void label_rays(Drawing& drawing, const SectionScene& scene);

}  // namespace gloam::sheet
