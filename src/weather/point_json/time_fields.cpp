#include "weather/point_json/time_fields.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>
#include <utility>

#include "weather/point_json/details.hpp"

namespace gloam::weather {
namespace {

constexpr const char* kWindSpeed = "wind_speed";
constexpr const char* kWindDirection = "wind_from_direction";

/// The details of a part of a time, by key.
using Details = std::map<std::string, JsonPlace>;

/// The number at `place`, whose unit the head of the file must tell as the expected one.
Result<double> number_in(std::string_view unit, const std::string& key, const JsonPlace& place,
                         const JsonPlace& units) {
    const auto unit_place = member(units, key);
    const auto found = unit_place.and_then(text);
    if (!found) {
        return tl::unexpected(found.error());
    }
    if (*found != unit) {
        return damaged(*unit_place, fmt::format("the unit is '{}' where '{}' is expected", *found, unit));
    }
    return number(place);
}

/// A field without its values, for the instant of `time`.
FieldHeader header_of(Quantity quantity, const Level& level, const PointTime& time) {
    FieldHeader header;
    header.quantity = quantity;
    header.level = level;
    header.from = time.valid;
    header.to = time.valid;
    header.grid = time.grid;
    header.origin = time.origin;
    return header;
}

/// Adds the field of a value in the unit of its quantity, which stood at `place`.
Result<void> add(TimeFields& told, FieldHeader&& header, double value, const JsonPlace& place) {
    const QuantityFacts& facts = facts_of(header.quantity);
    if (value < facts.least || value > facts.most) {
        return damaged(place, impossible_value(header.quantity, value));
    }
    const double kept = std::clamp(value, facts.floor, facts.ceiling);
    told.clamped_values += kept != value ? 1U : 0U;
    told.fields.push_back({std::move(header), {static_cast<float>(kept)}, {}});
    return {};
}

Result<void> add_detail(TimeFields& told, const PointTime& time, const PointDetail& detail,
                        const JsonPlace& place) {
    const auto value = number_in(detail.unit, std::string(detail.key), place, time.units);
    if (!value) {
        return tl::unexpected(value.error());
    }
    FieldHeader header = header_of(detail.quantity, detail.level, time);
    header.time_kind = detail.time_kind;
    header.to += detail.span;
    return add(told, std::move(header), *value * detail.factor + detail.offset, place);
}

/// Speed and the direction that the wind comes from, clockwise from north, as the two parts of where it goes.
Result<void> add_wind(TimeFields& told, const PointTime& time, const Details& details) {
    const JsonPlace& speed_place = details.at(kWindSpeed);
    const JsonPlace& from_place = details.at(kWindDirection);
    const auto speed_m_s = number_in("m/s", kWindSpeed, speed_place, time.units);
    const auto from_deg = number_in("degrees", kWindDirection, from_place, time.units);
    if (!speed_m_s || !from_deg) {
        return tl::unexpected(speed_m_s ? from_deg.error() : speed_m_s.error());
    }
    if (*speed_m_s < 0.0) {
        return damaged(speed_place, fmt::format("a wind of {:.6g} m/s is impossible", *speed_m_s));
    }
    if (*from_deg < 0.0 || *from_deg > 360.0) {
        return damaged(from_place, fmt::format("a wind from {:.6g} degrees is impossible", *from_deg));
    }
    const double from_rad = *from_deg * std::numbers::pi / 180.0;
    auto east = add(told, header_of(Quantity::kWindEast, kAt10m, time), -*speed_m_s * std::sin(from_rad),
                    speed_place);
    return east ? add(told, header_of(Quantity::kWindNorth, kAt10m, time), -*speed_m_s * std::cos(from_rad),
                      speed_place)
                : east;
}

/// Whether the next hour alone tells what this detail tells of the next six.
bool is_told_by_the_hour(const PointDetail& detail, const JsonPlace& data) {
    const nlohmann::json::json_pointer hourly("/next_1_hours/details/" + std::string(detail.key));
    return detail.part == "next_6_hours" && data.value->contains(hourly);
}

/// Adds the fields of one part of a time ("instant", "next_1_hours", ...).
Result<void> add_part(TimeFields& told, const PointTime& time, std::string_view part,
                      const Details& details) {
    const bool wind = part == "instant" && details.contains(kWindSpeed) && details.contains(kWindDirection);
    for (const auto& [key, place] : details) {
        const PointDetail* detail = point_detail(part, key);
        if (detail == nullptr) {
            if (!wind || (key != kWindSpeed && key != kWindDirection)) {
                told.unused.insert(key);
            }
        } else if (!is_told_by_the_hour(*detail, time.data)) {
            if (auto added = add_detail(told, time, *detail, place); !added) {
                return added;
            }
        }
    }
    return wind ? add_wind(told, time, details) : Result<void>();
}

}  // namespace

Result<TimeFields> fields_of(const PointTime& time) {
    const auto parts = members(time.data);
    if (!parts) {
        return tl::unexpected(parts.error());
    }
    if (const auto needed = member(time.data, "instant"); !needed) {
        return tl::unexpected(needed.error());
    }
    TimeFields told;
    for (const auto& [part, place] : *parts) {
        const auto in_part = members(place);
        if (!in_part) {
            return tl::unexpected(in_part.error());
        }
        if (!in_part->contains("details")) {  // a symbol alone
            continue;
        }
        const auto details = members(in_part->at("details"));
        if (!details) {
            return tl::unexpected(details.error());
        }
        if (auto added = add_part(told, time, part, *details); !added) {
            return tl::unexpected(added.error());
        }
    }
    return told;
}

}  // namespace gloam::weather
