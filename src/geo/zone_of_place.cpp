#include "geo/zone_of_place.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <vector>

#include "geo/geodesic.hpp"
#include "geo/quoted.hpp"

namespace gloam::geo {
namespace {

constexpr double kFarthestTown_m = 150.0e3;
constexpr double kNearlyAsNearFactor = 1.5;
constexpr double kNearlyAsNear_m = 10.0e3;
constexpr double kEarthRadius_m = 6371.0e3;
constexpr const char* kHint = "give the time zone by its IANA name, e.g. Europe/Rome";

/// A row of the table; the texts point into the table's own.
struct Town {
    std::string_view name;
    std::string_view zone;
    LatLon at;
    double distance_m = 0.0;  ///< on a sphere: good to 0.5 %, enough to rank towns
};

/// Columns of the GeoNames dump (its readme.txt): 1 name, 4 latitude, 5 longitude, 17 zone, 18 date of
/// change.
constexpr std::size_t kColumns = 19;
using Fields = std::array<std::string_view, kColumns>;

std::optional<Fields> split_at_tabs(std::string_view line) {
    Fields fields;
    for (std::size_t i = 0; i < kColumns; ++i) {
        const std::size_t tab = line.find('\t');
        if ((tab == std::string_view::npos) != (i + 1 == kColumns)) {
            return std::nullopt;
        }
        fields[i] = line.substr(0, tab);
        line.remove_prefix(std::min(line.size(), fields[i].size() + 1));
    }
    return fields;
}

std::optional<double> parse_number(std::string_view field) {
    double value = 0.0;
    const char* end = field.data() + field.size();
    const auto [stop, error] = std::from_chars(field.data(), end, value);
    return error == std::errc{} && stop == end ? std::optional(value) : std::nullopt;
}

std::optional<Town> parse_town(std::string_view line) {
    const auto fields = split_at_tabs(line);
    if (!fields) {
        return std::nullopt;
    }
    const auto lat_deg = parse_number((*fields)[4]);
    const auto lon_deg = parse_number((*fields)[5]);
    if (!lat_deg || !lon_deg) {
        return std::nullopt;
    }
    const auto at = make_lat_lon(*lat_deg, *lon_deg);
    return at ? std::optional(Town{(*fields)[1], (*fields)[17], *at}) : std::nullopt;
}

/// Great-circle distance by the haversine, which keeps its digits when the points are close.
double sphere_distance_m(LatLon a, LatLon b) {
    const double half_lat = std::sin(Angle::degrees(b.lat_deg - a.lat_deg).radians() / 2.0);
    const double half_lon = std::sin(Angle::degrees(b.lon_deg - a.lon_deg).radians() / 2.0);
    const double cosines =
        std::cos(Angle::degrees(a.lat_deg).radians()) * std::cos(Angle::degrees(b.lat_deg).radians());
    const double haversine = half_lat * half_lat + cosines * half_lon * half_lon;
    return 2.0 * kEarthRadius_m * std::asin(std::min(1.0, std::sqrt(haversine)));
}

Result<std::vector<Town>> parse_towns(LatLon at, std::string_view text) {
    std::vector<Town> towns;
    for (std::size_t line_number = 1; !text.empty(); ++line_number) {
        const std::string_view line = text.substr(0, text.find('\n'));
        text.remove_prefix(std::min(text.size(), line.size() + 1));
        auto town = parse_town(line);
        if (!town) {
            return fail(ErrorKind::kUnreadable, "this is not a row of a GeoNames cities table",
                        fmt::format("cities table, line {}", line_number));
        }
        town->distance_m = sphere_distance_m(at, town->at);
        towns.push_back(*town);
    }
    return towns;
}

tl::unexpected<Error> torn_between(LatLon at, const Town& nearest, const Town& rival) {
    return fail(ErrorKind::kIncomplete,
                fmt::format("{} lies between {} ({}) and {} ({}), where clocks differ", to_text(at),
                            nearest.name, nearest.zone, rival.name, rival.zone),
                {}, kHint);
}

/// An error if a town nearly as near as `nearest` has clocks that show another time at `when`.
Result<void> check_neighbours(LatLon at, const Town& nearest, Duration offset, Instant when,
                              const std::vector<Town>& towns) {
    const double reach_m = kNearlyAsNearFactor * nearest.distance_m + kNearlyAsNear_m;
    std::string_view agreed = nearest.zone;
    for (const Town& town : towns) {
        if (town.distance_m > reach_m || town.zone == nearest.zone || town.zone == agreed) {
            continue;
        }
        const auto zone = Zone::named(town.zone);
        if (!zone) {
            return tl::unexpected(zone.error());
        }
        if (zone->offset_at(when) != offset) {
            return torn_between(at, nearest, town);
        }
        agreed = town.zone;
    }
    return {};
}

tl::unexpected<Error> too_far(LatLon at, const std::vector<Town>& towns, const Town* nearest) {
    const std::string town = towns.empty() ? "the table of towns is empty"
                                           : fmt::format("the nearest, {}, is {:.0f} km away", nearest->name,
                                                         nearest->distance_m / 1e3);
    return fail(ErrorKind::kNotFound,
                fmt::format("no town near {} tells its time zone: {}", to_text(at), town), {}, kHint);
}

}  // namespace

Result<ZoneGuess> zone_of_nearest_town(LatLon at, Instant when, std::string_view cities_text) {
    const auto towns = parse_towns(at, cities_text);
    if (!towns) {
        return tl::unexpected(towns.error());
    }
    const auto nearest = std::min_element(towns->begin(), towns->end(), [](const Town& a, const Town& b) {
        return a.distance_m < b.distance_m;
    });
    if (nearest == towns->end() || nearest->distance_m > kFarthestTown_m) {
        return too_far(at, *towns, nearest == towns->end() ? nullptr : &*nearest);
    }
    const auto zone = Zone::named(nearest->zone);
    if (!zone) {
        return tl::unexpected(zone.error());
    }
    if (const auto alone = check_neighbours(at, *nearest, zone->offset_at(when), when, *towns); !alone) {
        return tl::unexpected(alone.error());
    }
    return ZoneGuess{*zone, std::string(nearest->name), separation(at, nearest->at).distance_m};
}

}  // namespace gloam::geo
