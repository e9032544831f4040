#pragma once

#include "geo/zone.hpp"
#include "outlook/section.hpp"
#include "sheet/arch.hpp"
#include "sheet/drawing.hpp"
#include "sheet/type_sizes.hpp"

namespace gloam::sheet {

/// What every part of a section's drawing needs to know.
struct SectionScene {
    const outlook::Section& section;
    geo::Zone zone;
    TypeSizes sizes;
    Arch arch;
};

/// Whether a ray is that of the moment which the section shows.
inline bool is_best(const outlook::SectionRay& ray, const SectionScene& scene) {
    return ray.instant == scene.section.moment;
}

}  // namespace gloam::sheet
