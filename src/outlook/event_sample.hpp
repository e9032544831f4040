#pragma once

#include <string>
#include <vector>

#include "outlook/event_request.hpp"
#include "outlook/moving_clouds.hpp"
#include "sky/atmosphere.hpp"
#include "weather/layers.hpp"

namespace gloam::outlook {

/// The sky states of one member over an event.
struct SampledMember {
    sky::Atmosphere atmosphere;
    double cloud_depth_factor = 1.0;  ///< on the optical depth of its cloud, already in the layers' optics
    MovingClouds clouds;
};

/// All that a forecast says of one event: what look_out() reads, and what a journal keeps so that a call can
/// be made again without the files it came from.
struct EventSample {
    HeightMsl viewer_height;
    std::vector<Moment> moments;  ///< that the forecast serves, in time order; not empty
    std::vector<SampledMember> members;
    /// Total cover alone: members put it low, in the middle and high in turn.
    bool bands_assumed = false;
    std::vector<std::string> missing;  ///< what the forecast does not say, in words
};

/// Samples the forecast along the light path, member by member. Members without a forecast of their own share
/// one model run, displaced (see neighbourhood()). Same bytes on any number of threads. Errors: no twilight
/// at this place and date; the forecast does not cover the light path or the hours.
Result<EventSample> sample_event(const weather::LayeredForecast& forecast, const EventRequest& request);

}  // namespace gloam::outlook
