#pragma once

#include <cstddef>
#include <set>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "weather/field.hpp"
#include "weather/point_json/place.hpp"

namespace gloam::weather {

/// One time of the series, and what the head of the file says of all of them.
struct PointTime {
    JsonPlace data;
    JsonPlace units;
    PointGrid grid;
    Instant valid;
    FieldOrigin origin;
};

/// What one time tells.
struct TimeFields {
    std::vector<Field> fields;
    std::size_t clamped_values = 0;
    std::set<std::string> unused;  ///< keys of details that are not used here
};

/// The fields of one time. Error (kUnreadable, naming the place) for a value, a unit or a structure that
/// cannot be.
Result<TimeFields> fields_of(const PointTime& time);

}  // namespace gloam::weather
