#pragma once

#include <span>
#include <vector>

#include "outlook/member_clouds.hpp"
#include "outlook/moments.hpp"

namespace gloam::outlook {

/// The cloud of one member over an event: read from the forecast every fourth moment (a degree of sun; two
/// outside -6.5 to +3 deg), straight between. That the light path turns between two readings changes strength
/// by less than half a point (tests/outlook/moving_clouds.cpp).
class MovingClouds {
  public:
    /// Errors: those of member_clouds().
    static Result<MovingClouds> of(const weather::LayeredForecast& forecast, const Member& member,
                                   geo::LatLon viewer, std::span<const Moment> moments);

    /// At a moment of those given.
    std::vector<sky::CloudLayer> at(std::size_t moment) const;

  private:
    struct Reading {
        std::size_t moment = 0;
        std::vector<sky::CloudLayer> layers;
    };
    explicit MovingClouds(std::span<const Moment> moments) : moments_(moments) {}

    std::span<const Moment> moments_;
    std::vector<Reading> readings_;  ///< the first and the last moment are among them
};

}  // namespace gloam::outlook
