#include "weather/route_reading.hpp"

namespace gloam::weather {

bool reads(const RouteReading& reading, const FieldHeader& field) {
    const bool span = field.from < field.to;
    return field.quantity == reading.quantity && field.level.kind == reading.level &&
           field.time_kind == reading.time && span == (reading.time == TimeKind::kAverage) &&
           (reading.level != LevelKind::kCloudLayer || field.level.band);
}

std::string_view name_of(const RouteReading& reading) {
    switch (reading.route) {
        case LayerRoute::kCoverOnLevels:
            return "cloud cover on levels";
        case LayerRoute::kCoverByLayer:
            return "cover of low, middle and high cloud";
        case LayerRoute::kHumidityOnLevels:
            return "humidity on levels";
        case LayerRoute::kAveragedLayers:
            return "averages of low, middle and high cloud";
        case LayerRoute::kTotalOnly:
            break;
    }
    return reading.time == TimeKind::kAverage ? "averages of total cover" : "total cover";
}

}  // namespace gloam::weather
