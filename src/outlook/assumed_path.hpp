#pragma once

#include "outlook/cloud_layers.hpp"

namespace gloam::outlook {

/// What a member takes the light path to be beyond where the forecast tells it. A forecast for one point
/// tells nothing of cloud up-sun but what may drift by; the colour of a sky is decided there.
enum class AssumedPath {
    kAsForecast,  ///< what the forecast says, or lets drift by
    kOpen,        ///< no cloud
    kShut,        ///< a bank from low to high
};

/// The layers with the path assumed from `believed_m` up-sun on, on all lines.
PathLayers assume(PathLayers layers, AssumedPath path, double believed_m);

}  // namespace gloam::outlook
