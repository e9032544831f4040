#pragma once

#include <vector>

#include "outlook/members.hpp"
#include "sky/cloud_field.hpp"

namespace gloam::outlook {

/// The cloud of one member along the light path of `viewer` towards the sun at `azimuth`, from low to high.
/// Errors: those of weather::sample_light_path().
Result<std::vector<sky::CloudLayer>> member_clouds(const weather::LayeredForecast& forecast,
                                                   const Member& member, geo::LatLon viewer, Azimuth azimuth,
                                                   Instant instant);

}  // namespace gloam::outlook
