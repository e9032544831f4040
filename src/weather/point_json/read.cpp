#include "weather/point_json/read.hpp"

#include <map>
#include <nlohmann/json.hpp>
#include <utility>

#include "weather/point_json/parse.hpp"
#include "weather/point_json/place.hpp"
#include "weather/point_json/time_fields.hpp"

namespace gloam::weather {
namespace {

using nlohmann::json;

bool is_locationforecast(const json& tree) {
    return tree.contains(json::json_pointer("/properties/meta")) &&
           tree.contains(json::json_pointer("/properties/timeseries"));
}

Result<PointGrid> grid_of(const JsonPlace& coordinates) {
    const auto list = elements(coordinates);
    if (!list) {
        return tl::unexpected(list.error());
    }
    if (list->size() < 2) {
        return damaged(coordinates, "longitude and latitude should stand here");
    }
    const auto lon_deg = number(list->at(0));
    const auto lat_deg = number(list->at(1));
    if (!lon_deg || !lat_deg) {
        return tl::unexpected(lon_deg ? lat_deg.error() : lon_deg.error());
    }
    const auto at = geo::make_lat_lon(*lat_deg, *lon_deg);
    return at ? Result<PointGrid>(PointGrid{*at}) : damaged(coordinates, at.error().message);
}

/// What the file says of all its times.
struct PointHead {
    PointGrid grid;
    JsonPlace units;
    Instant updated;
};

Result<PointHead> head_of(const JsonPlace& root, const JsonPlace& properties) {
    const auto grid = member(root, "geometry")
                          .and_then([](const JsonPlace& place) { return member(place, "coordinates"); })
                          .and_then(grid_of);
    if (!grid) {
        return tl::unexpected(grid.error());
    }
    const auto meta = member(properties, "meta");
    const auto units = meta.and_then([](const JsonPlace& place) { return member(place, "units"); });
    const auto updated =
        meta.and_then([](const JsonPlace& place) { return member(place, "updated_at"); }).and_then(instant);
    if (!units || !updated) {
        return tl::unexpected(units ? updated.error() : units.error());
    }
    return PointHead{*grid, *units, *updated};
}

/// One element of the series, the `number`th counted from 1.
Result<PointTime> time_of(const JsonPlace& place, const PointHead& head, int number) {
    const auto valid = member(place, "time").and_then(instant);
    const auto data = member(place, "data");
    if (!valid || !data) {
        return tl::unexpected(valid ? data.error() : valid.error());
    }
    return PointTime{*data, head.units, head.grid, *valid, {std::string(place.file), number, 1}};
}

/// The times of the series, which must rise.
Result<std::vector<PointTime>> times_of(const JsonPlace& series, const PointHead& head) {
    const auto list = elements(series);
    if (!list) {
        return tl::unexpected(list.error());
    }
    if (list->empty()) {
        return damaged(series, "the series holds no time");
    }
    std::vector<PointTime> times;
    for (const JsonPlace& place : *list) {
        auto time = time_of(place, head, static_cast<int>(times.size()) + 1);
        if (!time) {
            return tl::unexpected(time.error());
        }
        if (!times.empty() && time->valid <= times.back().valid) {
            return damaged(place, to_rfc3339_utc(time->valid) + " is not later than the time before it");
        }
        times.push_back(*std::move(time));
    }
    return times;
}

Result<Forecast> forecast_of(const std::vector<PointTime>& times, Instant updated) {
    Forecast forecast;
    forecast.source = "MET Norway Locationforecast 2.0";
    forecast.run_time = updated;
    std::map<std::string, FieldOrigin> unused;  // by key, with the time that had it first
    for (const PointTime& time : times) {
        auto told = fields_of(time);
        if (!told) {
            return tl::unexpected(told.error());
        }
        ++forecast.messages;
        forecast.clamped_values += told->clamped_values;
        for (Field& field : told->fields) {
            forecast.fields.push_back(std::move(field));
        }
        for (const std::string& key : told->unused) {
            unused.try_emplace(key, time.origin);
        }
    }
    for (const auto& [key, origin] : unused) {
        forecast.skipped.push_back({origin, key + " is not used, here and at every other time"});
    }
    return forecast;
}

}  // namespace

Result<Forecast> read_point_json(std::string_view text, std::string_view name) {
    const auto tree = parse_json(text, name);
    if (!tree) {
        return tl::unexpected(tree.error());
    }
    if (!is_locationforecast(*tree)) {
        return fail(
            ErrorKind::kUnsupported,
            "this JSON is no Locationforecast 2.0: it has no properties.meta and properties.timeseries",
            std::string(name),
            "give an answer of MET Norway's Locationforecast 2.0 (complete), or forecast files in GRIB");
    }
    const JsonPlace root{name, {}, &*tree};
    const auto properties = member(root, "properties").value();
    const auto head = head_of(root, properties);
    const auto times = head.and_then([&properties](const PointHead& of) {
        return times_of(member(properties, "timeseries").value(), of);
    });
    return times ? forecast_of(*times, head->updated) : tl::unexpected(times.error());
}

}  // namespace gloam::weather
