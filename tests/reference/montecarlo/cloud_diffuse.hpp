#pragma once

#include "reference/montecarlo/cloud_tracer.hpp"

namespace gloam::montecarlo {

/// Level light under a layer that is evenly bright from above, over that light: how broken cloud dims a
/// diffuse sky. Flat layer without an edge over flat Lambertian ground; light goes between them as often as
/// it likes, and air takes no part.
Figure diffuse_left_under(const BrokenLayer& layer, double ground_albedo, const Effort& effort);

}  // namespace gloam::montecarlo
