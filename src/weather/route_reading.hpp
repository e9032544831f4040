#pragma once

#include <array>

#include "weather/field.hpp"
#include "weather/layers.hpp"

namespace gloam::weather {

/// One way to come by layers: which fields are read for cover.
struct RouteReading {
    LayerRoute route;
    Quantity quantity;
    LevelKind level;
    TimeKind time;
};

/// In order of precedence: the first by which any step can be had serves the whole forecast.
inline constexpr std::array kRouteReadings{
    RouteReading{LayerRoute::kCoverOnLevels, Quantity::kCloudCover, LevelKind::kPressure, TimeKind::kInstant},
    RouteReading{LayerRoute::kCoverByLayer, Quantity::kCloudCover, LevelKind::kCloudLayer,
                 TimeKind::kInstant},
    RouteReading{LayerRoute::kHumidityOnLevels, Quantity::kRelativeHumidity, LevelKind::kPressure,
                 TimeKind::kInstant},
    RouteReading{LayerRoute::kAveragedLayers, Quantity::kCloudCover, LevelKind::kCloudLayer,
                 TimeKind::kAverage},
    RouteReading{LayerRoute::kTotalOnly, Quantity::kCloudCover, LevelKind::kWholeAtmosphere,
                 TimeKind::kInstant},
    RouteReading{LayerRoute::kTotalOnly, Quantity::kCloudCover, LevelKind::kWholeAtmosphere,
                 TimeKind::kAverage}};

/// Whether the field is one that this way reads for cover.
bool reads(const RouteReading& reading, const FieldHeader& field);

/// What the way reads, in words: "cloud cover on levels".
std::string_view name_of(const RouteReading& reading);

}  // namespace gloam::weather
