#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "base/instant.hpp"
#include "geo/position.hpp"

namespace gloam::weather {

/// What a field measures. Values are kept in the unit named here.
enum class Quantity {
    kCloudCover,          ///< fraction of the area, 0..1
    kGeopotentialHeight,  ///< metres above mean sea level
};

/// Where in the column a field holds.
enum class LevelKind {
    kPressure,         ///< one pressure surface, `pressure_pa`
    kWholeAtmosphere,  ///< the total over the column
    kConvective,       ///< convective cloud only
    kBoundaryLayer,    ///< cloud within the boundary layer
};
struct Level {
    LevelKind kind = LevelKind::kPressure;
    double pressure_pa = 0.0;  ///< only for kPressure
};

/// How a value stands to its time span.
enum class TimeKind { kInstant, kAverage, kAccumulated, kMaximum, kMinimum };

/// A regular latitude-longitude grid, stored row by row from `first` (row 0), west to east or as the steps
/// say.
struct RegularGrid {
    geo::LatLon first;
    double lat_step_deg = 0.0;  ///< negative: north to south
    double lon_step_deg = 0.0;  ///< positive: eastward
    std::size_t rows = 0;
    std::size_t columns = 0;
    bool wraps = false;  ///< columns go once round the Earth
};

/// Where a field came from, for messages to people.
struct FieldOrigin {
    std::string file;
    int message = 0;  ///< counted from 1; 0 before the first message
    int field = 1;    ///< within the message, counted from 1
};

/// One horizontal field of one quantity at one level, time span and member.
struct Field {
    Quantity quantity = Quantity::kCloudCover;
    Level level;
    TimeKind time_kind = TimeKind::kInstant;
    Instant from;  ///< equals `to` for an instant
    Instant to;
    std::optional<int> member;  ///< absent: a single deterministic run
    RegularGrid grid;
    std::vector<float> values;          ///< row-major; masked cells hold 0 and count for nothing
    std::vector<std::uint8_t> present;  ///< 1 where there is a value; empty: everywhere
    FieldOrigin origin;
};

/// Whether two fields can be read cell by cell together (steps and corners within 1e-6 degrees).
bool same_grid(const RegularGrid& one, const RegularGrid& other);

/// "file.grib2, message 3".
std::string to_text(const FieldOrigin& origin);

/// What a field holds, in words: "cloud cover at 500 hPa".
std::string name_of(const Field& field);

/// Bilinear value at a point, in the unit of the quantity; absent outside the grid or where a needed cell is
/// missing. Wraps round the Earth where the grid does; within a row of a pole that has no row the nearest row
/// holds.
std::optional<double> value_at(const Field& field, geo::LatLon point);

}  // namespace gloam::weather
