#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "geo/quoted.hpp"
#include "trip/gpx.hpp"

namespace gloam::trip {
namespace {

template <class Named>
Named* find(std::vector<Named>& all, std::string_view name) {
    const auto found = std::ranges::find(all, name, &Named::name);
    return found == all.end() ? nullptr : &*found;
}

/// Moves what bears the name, or adds it.
template <class Named>
void put(std::vector<Named>& all, const std::string& name, const GpxPoint& point, std::size_t& added,
         std::size_t& moved) {
    Named* known = find(all, name);
    ++(known ? moved : added);
    if (!known) {
        known = &all.emplace_back();
        known->name = name;
    }
    known->at = point.at;
    known->height = point.height ? point.height : known->height;
}

/// The place and the stand of "PLACE / STAND", where the trip has the place.
std::pair<Place*, std::string> stand_of(Trip& trip, const GpxPoint& point) {
    constexpr std::string_view kBetween = " / ";
    const std::size_t at = point.name.find(kBetween);
    if (point.type != "stand" || at == std::string::npos) {
        return {nullptr, {}};
    }
    return {find(trip.places, point.name.substr(0, at)), point.name.substr(at + kBetween.size())};
}

/// Names for points in order: their own, told apart where two of the file bear the same; "point 3" where
/// there is none.
std::vector<std::string> names_of(const std::vector<GpxPoint>& points) {
    std::vector<std::string> names;
    std::size_t nameless = 0;
    std::map<std::string, std::size_t> seen;
    for (const GpxPoint& point : points) {
        std::string name = point.name.empty() ? fmt::format("point {}", ++nameless) : point.name;
        const std::size_t count = ++seen[name];
        names.push_back(count == 1 ? name : fmt::format("{} ({})", name, count));
    }
    return names;
}

bool is_walk(const GpxLine& line) {
    return line.length_m <= kLongestWalk_m &&
           std::max(line.climb_m.value_or(0.0), line.descent_m.value_or(0.0)) <= kHighestWalk_m;
}

void put_walk(Place& place, const GpxLine& line) {
    AccessLeg walk;
    walk.name = line.name.empty() ? std::nullopt : std::optional(line.name);
    walk.distance_m = line.length_m;
    walk.climb_m = line.climb_m;
    walk.descent_m = line.descent_m;
    const auto known = std::ranges::find_if(place.access, [&](const AccessLeg& leg) {
        return leg.kind == LegKind::kWalk && leg.name == walk.name;
    });
    if (known == place.access.end()) {
        place.access.push_back(std::move(walk));
        return;
    }
    known->distance_m = walk.distance_m;
    known->climb_m = walk.climb_m;
    known->descent_m = walk.descent_m;
}

}  // namespace

Result<GpxMerge> add_gpx(Trip& trip, const Gpx& gpx, const std::optional<std::string>& place) {
    Place* const target = place ? find(trip.places, *place) : nullptr;
    if (place && !target) {
        return fail(ErrorKind::kNotFound, fmt::format("the trip has no place {}", geo::quoted(*place)),
                    "--place", "import the place first, or choose one of the trip's");
    }
    if (target && !std::ranges::all_of(gpx.lines, is_walk)) {
        return fail(ErrorKind::kBadInput, "a track or route is longer or higher than any walk", "--place",
                    fmt::format("leave out what is over {:.0f} km or {:.0f} m of climb", kLongestWalk_m / 1e3,
                                kHighestWalk_m));
    }
    GpxMerge merge;
    const std::vector<std::string> names = names_of(gpx.points);
    for (std::size_t i = 0; i < names.size(); ++i) {
        const GpxPoint& point = gpx.points[i];
        const auto [stand_place, stand] = stand_of(trip, point);
        if (target) {
            put(target->stands, names[i], point, merge.stands_new, merge.stands_moved);
        } else if (stand_place) {
            put(stand_place->stands, stand, point, merge.stands_new, merge.stands_moved);
        } else {
            put(trip.places, names[i], point, merge.places_new, merge.places_moved);
        }
    }
    for (const GpxLine& line : gpx.lines) {
        if (target) {
            put_walk(*target, line);
        }
    }
    (target ? merge.walks : merge.lines_unused) = gpx.lines.size();
    if (gpx.points.empty() && merge.walks == 0) {
        return fail(ErrorKind::kBadInput, "the file holds no waypoints", "",
                    gpx.lines.empty() ? "give a file with waypoints or a track"
                                      : "its tracks are no places: give --place to make them walks to it");
    }
    return merge;
}

}  // namespace gloam::trip
