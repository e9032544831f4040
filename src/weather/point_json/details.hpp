#pragma once

#include <string_view>

#include "weather/field.hpp"

namespace gloam::weather {

/// Where wind is told for.
inline constexpr Level kAt10m{.kind = LevelKind::kAboveGround, .height_m = 10.0};

/// One of the numbers that a Locationforecast tells for a time: where it stands, and what it is to us.
struct PointDetail {
    std::string_view part;  ///< of the time's data: "instant", "next_1_hours", "next_6_hours"
    std::string_view key;
    std::string_view unit;  ///< the only one that is read
    Quantity quantity;
    Level level;
    TimeKind time_kind;
    Duration span;        ///< that the value holds for, from the time onwards; zero for an instant
    double factor = 1.0;  ///< from `unit` to the unit of the quantity: value * factor + offset
    double offset = 0.0;
};

/// The detail of that name; null if it is not used. Wind, of speed and direction, is none of these.
const PointDetail* point_detail(std::string_view part, std::string_view key);

}  // namespace gloam::weather
