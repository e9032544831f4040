#pragma once

#include <span>
#include <vector>

#include "outlook/member_clouds.hpp"
#include "outlook/moments.hpp"

namespace gloam::outlook {

/// Cloud along the light path at one instant, from low to high.
struct CloudReading {
    Instant instant;
    std::vector<sky::CloudLayer> layers;
};

/// The cloud of one member over an event: readings in time order, straight between them.
struct MovingClouds {
    std::vector<CloudReading> readings;

    /// At an instant from the first reading to the last.
    std::vector<sky::CloudLayer> at(Instant instant) const;
};

/// Reads a member's cloud from the forecast at the first and the last moment and every fourth between (a
/// degree of sun; two outside -6.5 to +3 deg). That the light path turns between two readings changes
/// strength by less than half a point (tests/outlook/moving_clouds.cpp). Errors: those of member_clouds().
Result<MovingClouds> moving_clouds(const weather::LayeredForecast& forecast, const Member& member,
                                   geo::LatLon viewer, std::span<const Moment> moments);

}  // namespace gloam::outlook
