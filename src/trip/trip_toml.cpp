#include "trip/trip_toml.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "geo/quoted.hpp"
#include "sky/night.hpp"
#include "trip/toml_table.hpp"
#include "trip/words.hpp"

namespace gloam::trip {
namespace {

/// What a number may be, and what is said of another.
struct Bounds {
    double least;
    double most;
    const char* fault;
    const char* hint;
};

constexpr Bounds kHeight_m{-500.0, 9000.0, "is no height on Earth", "give metres above sea level"};
constexpr Bounds kBearing_deg{0.0, 360.0, "is no bearing", "give degrees from true north, 0 to 360"};
constexpr Bounds kWidth_m{0.0, 1e5, "is no width", "give metres"};
constexpr Bounds kMinutes{0.0, 1440.0, "is no span of a day", "give minutes, 0 to 1440"};
constexpr Bounds kHours{0.0, 24.0, "is no span of a day", "give hours, 0 to 24"};
constexpr Bounds kWay_m{0.0, kLongestWalk_m, "is no length of a walk", "give metres, 0 to 100000"};
constexpr Bounds kClimb_m{0.0, kHighestWalk_m, "is no climb of a walk", "give metres, 0 to 9000"};
constexpr Bounds kStarts{0.0, 100.0, "is no number of early starts", "give 0 to 100"};
constexpr Bounds kPeople{0.0, 1000.0, "is no number of people", "give 0 to 1000"};
constexpr Bounds kTripods{1.0, 1000.0, "is no number of tripods", "give 1 to 1000"};
constexpr Bounds kWalk_kmh{0.5, 10.0, "is no walker's speed", "give km/h, 0.5 to 10"};
constexpr Bounds kLens_mm{1.0, 5000.0, "is no focal length", "give millimetres, 1 to 5000"};
constexpr Bounds kFactor{1.0, 10.0, "is no factor of a walk in the dark", "give 1 to 10"};

/// A number of T within bounds; absent if the key is.
template <class T>
std::optional<T> within(TomlTable& table, std::string_view key, const Bounds& bounds) {
    const auto number = table.get<T>(key);
    const auto value = static_cast<double>(number.value_or(T{}));
    if (number && !(value >= bounds.least && value <= bounds.most)) {
        table.complain(key, bounds.fault, bounds.hint);
        return std::nullopt;
    }
    return number;
}

std::optional<double> number(TomlTable& table, std::string_view key, const Bounds& bounds) {
    return within<double>(table, key, bounds);
}

std::optional<int> count(TomlTable& table, std::string_view key, const Bounds& bounds) {
    const auto found = within<std::int64_t>(table, key, bounds);
    return found ? std::optional(static_cast<int>(*found)) : std::nullopt;
}

std::optional<HeightMsl> height(TomlTable& table, std::string_view key) {
    const auto metres = number(table, key, kHeight_m);
    return metres ? std::optional(HeightMsl{*metres}) : std::nullopt;
}

std::optional<Azimuth> bearing(TomlTable& table, std::string_view key) {
    const auto degrees = number(table, key, kBearing_deg);
    return degrees ? std::optional(Azimuth::degrees(*degrees)) : std::nullopt;
}

template <class Kind>
std::string choice() {
    std::vector<std::string_view> all;
    for (const auto& each : words_of(Kind{})) {
        all.push_back(each.word);
    }
    return fmt::format("give one of {}", fmt::join(all, ", "));
}

/// A value by its word; absent if the key is.
template <class Kind>
std::optional<Kind> kind(TomlTable& table, std::string_view key, std::string_view fault) {
    const auto text = table.get<std::string>(key);
    const auto found = text ? from_word<Kind>(*text) : std::nullopt;
    if (text && !found) {
        table.complain(key, fault, choice<Kind>());
    }
    return found;
}

/// A text that must be there and say something.
std::string words(TomlTable& table, std::string_view key) {
    auto text = table.need<std::string>(key);
    if (text.empty()) {
        table.complain(key, "is empty", "say something");
    }
    return text;
}

geo::LatLon position(TomlTable& table) {
    const auto lat_deg = table.need<double>("lat");
    const auto lon_deg = table.need<double>("lon");
    const auto at = geo::make_lat_lon(lat_deg, lon_deg);
    if (!at) {
        table.complain(at.error());
    }
    return at.value_or(geo::LatLon{});
}

/// Tells if two of a list bear one name.
template <class Named>
void need_own_names(const std::vector<Named>& all, std::string_view key, TomlTable& table) {
    std::vector<std::string> names;
    for (const Named& each : all) {
        names.push_back(each.name);
    }
    std::ranges::sort(names);
    const auto twice = std::ranges::adjacent_find(names);
    if (twice != names.end()) {
        table.complain(key, fmt::format("holds the name {} twice", geo::quoted(*twice)),
                       "give each a name of its own");
    }
}

DatedNote note_from(TomlTable& table) {
    return {words(table, "text"), table.need<CivilDate>("date")};
}

Stand stand_from(TomlTable& table) {
    return {words(table, "name"), position(table), height(table, "height_m"), bearing(table, "view_deg"),
            count(table, "tripods", kTripods)};
}

Subject subject_from(TomlTable& table) {
    Subject subject{words(table, "name"), position(table), height(table, "base_height_m"),
                    height(table, "top_height_m"), number(table, "width_m", kWidth_m)};
    if (subject.base && subject.top && !(*subject.top > *subject.base)) {
        table.complain("top_height_m", "is not above base_height_m", "give both in metres above sea level");
    }
    return subject;
}

WindSector sector_from(TomlTable& table) {
    const auto limit = [&](std::string_view key) {
        table.need<double>(key);
        return bearing(table, key).value_or(Azimuth());
    };
    const Azimuth from = limit("from_deg");
    return {from, limit("to_deg")};
}

AccessLeg leg_from(TomlTable& table) {
    AccessLeg leg;
    table.need<std::string>("kind");
    leg.kind = kind<LegKind>(table, "kind", "is no part of a way").value_or(LegKind::kWalk);
    leg.name = table.get<std::string>("name");
    leg.minutes = number(table, "minutes", kMinutes);
    leg.distance_m = number(table, "distance_m", kWay_m);
    leg.climb_m = number(table, "climb_m", kClimb_m);
    leg.descent_m = number(table, "descent_m", kClimb_m);
    leg.never_in_the_dark = table.get<bool>("never_in_the_dark").value_or(false);
    leg.last_walked = table.get<CivilDate>("last_walked");
    if (!leg.minutes && !(leg.kind == LegKind::kWalk && leg.distance_m)) {
        table.complain("minutes", "is missing", "add minutes, or for a walk distance_m and climb_m");
    }
    return leg;
}

Gate gate_from(TomlTable& table) {
    Gate gate{words(table, "name"), table.get<ClockTime>("opens"), table.get<ClockTime>("closes")};
    if (gate.opens.has_value() != gate.closes.has_value()) {
        table.complain(gate.opens ? "closes" : "opens", "is missing",
                       "give both opens and closes, or neither for a gate that is always open");
    }
    if (gate.opens && gate.opens == gate.closes) {
        table.complain("closes", "is the time at which it opens", "leave both out if it is always open");
    }
    return gate;
}

std::vector<PlaceTag> tags_from(TomlTable& table) {
    std::vector<PlaceTag> tags;
    for (const std::string& word : table.list<std::string>("tags")) {
        if (const auto tag = from_word<PlaceTag>(word)) {
            tags.push_back(*tag);
        } else {
            table.complain("tags", fmt::format("holds {}, which is no tag", geo::quoted(word)),
                           choice<PlaceTag>());
        }
    }
    std::ranges::sort(tags);
    if (std::ranges::adjacent_find(tags) != tags.end()) {
        table.complain("tags", "holds a tag twice", "once is enough");
    }
    return tags;
}

/// Absent: no town.
double town_glow_from(TomlTable& table) {
    const auto checked =
        sky::town_zenith_luminance(1e-3 * table.get<double>("town_glow_mcd_m2").value_or(0.0));
    if (!checked) {
        table.complain("town_glow_mcd_m2", "is no light of a town",
                       "give 0 to 100 mcd m-2 at the zenith: 0.2 in a village, 10 in a great city");
    }
    return checked.value_or(0.0);
}

/// One of each table of a list.
template <class Read>
auto each_of(std::vector<TomlTable> tables, Read read) {
    std::vector<decltype(read(tables.front()))> all;
    for (TomlTable& table : tables) {
        all.push_back(read(table));
    }
    return all;
}

void read_surroundings(TomlTable& table, Place& place) {
    place.ground = kind<sky::Ground>(table, "ground", "is no ground").value_or(sky::Ground::kLand);
    place.town_zenith_cd_m2 = town_glow_from(table);
    place.water = kind<Water>(table, "water", "is no water");
    place.sheltered = each_of(table.tables("sheltered", {"from_deg", "to_deg"}), sector_from);
    place.stands =
        each_of(table.tables("stand", {"name", "lat", "lon", "height_m", "view_deg", "tripods"}), stand_from);
    need_own_names(place.stands, "stand", table);
    place.subjects =
        each_of(table.tables("subject", {"name", "lat", "lon", "base_height_m", "top_height_m", "width_m"}),
                subject_from);
    need_own_names(place.subjects, "subject", table);
}

void read_access(TomlTable& table, Place& place) {
    place.access = each_of(table.tables("access", {"kind", "name", "minutes", "distance_m", "climb_m",
                                                   "descent_m", "never_in_the_dark", "last_walked"}),
                           leg_from);
    place.gates = each_of(table.tables("gate", {"name", "opens", "closes"}), gate_from);
    if (auto permission = table.table("permission", {"text", "date"})) {
        place.permission = note_from(*permission);
    }
    place.phone_cover = table.get<std::string>("phone_cover");
    place.tags = tags_from(table);
    place.notes = each_of(table.tables("note", {"text", "date"}), note_from);
    place.tide_closes = table.list<LocalMoment>("tide_closes");
}

TomlKeys place_keys() {
    return {"name",        "lat",       "lon",   "height_m",   "zone",   "ground", "town_glow_mcd_m2",
            "water",       "sheltered", "stand", "subject",    "access", "gate",   "permission",
            "phone_cover", "tags",      "note",  "tide_closes"};
}

Place place_from(TomlTable& table) {
    Place place;
    place.name = words(table, "name");
    place.at = position(table);
    place.height = height(table, "height_m");
    place.zone = table.get<std::string>("zone");
    read_surroundings(table, place);
    read_access(table, place);
    return place;
}

void read_trip_table(TomlTable& table, Trip& trip) {
    trip.name = words(table, "name");
    trip.zone = table.get<std::string>("zone");
    trip.start = table.get<CivilDate>("start");
    trip.end = table.get<CivilDate>("end");
    trip.paid = table.get<bool>("paid");
    trip.emergency_number = table.get<std::string>("emergency_number");
    trip.plan_holder = table.get<std::string>("plan_holder");
    if (trip.start && trip.end && *trip.end < *trip.start) {
        table.complain("end", "is before start", "give the first day and the last");
    }
}

Guest guest_from(TomlTable& table) {
    Guest guest;
    guest.name = words(table, "name");
    guest.starts_for_one_dawn = number(table, "starts_for_one", kStarts);
    guest.starts_for_one_dusk = number(table, "starts_for_one_dusk", kStarts);
    guest.opted_out = table.get<bool>("opted_out").value_or(false);
    guest.finder = kind<Finder>(table, "finder", "is no finder").value_or(Finder::kUnknown);
    guest.longest_lens_mm = number(table, "longest_lens_mm", kLens_mm);
    guest.needs_thought = table.get<bool>("needs_thought").value_or(false);
    guest.drone = table.get<bool>("drone").value_or(false);
    return guest;
}

void read_group(TomlTable& table, Group& group) {
    group.size = count(table, "size", kPeople);
    group.minimum_party = count(table, "minimum_party", kPeople);
    group.starts_for_one_dawn = number(table, "starts_for_one", kStarts);
    group.starts_for_one_dusk = number(table, "starts_for_one_dusk", kStarts);
    group.starts_left = count(table, "starts_left", kStarts);
    group.slowest_kmh = number(table, "slowest_kmh", kWalk_kmh);
    group.guests =
        each_of(table.tables("guest", {"name", "starts_for_one", "starts_for_one_dusk", "opted_out", "finder",
                                       "longest_lens_mm", "needs_thought", "drone"}),
                guest_from);
    need_own_names(group.guests, "guest", table);
}

void read_chain(TomlTable& table, Chain& chain) {
    chain.colour_before_sun_min = number(table, "colour_before_sun_min", kMinutes);
    chain.settle_min = number(table, "settle_min", kMinutes);
    chain.dark_factor = number(table, "dark_factor", kFactor);
    chain.load_min = number(table, "load_min", kMinutes);
    chain.wake_to_door_min = number(table, "wake_to_door_min", kMinutes);
    chain.look_before_wake_min = number(table, "look_before_wake_min", kMinutes);
}

void read_people(TomlTable& top, Trip& trip) {
    if (auto group = top.table("group", {"size", "minimum_party", "starts_for_one", "starts_for_one_dusk",
                                         "starts_left", "slowest_kmh", "guest"})) {
        read_group(*group, trip.group);
    }
    if (auto driver = top.table("driver", {"least_rest_h", "longest_span_h"})) {
        trip.driver = {number(*driver, "least_rest_h", kHours), number(*driver, "longest_span_h", kHours)};
    }
    if (auto kitchen = top.table("kitchen", {"breakfast", "latest_change"})) {
        trip.kitchen = {kitchen->get<ClockTime>("breakfast"), kitchen->get<ClockTime>("latest_change")};
    }
    if (auto chain = top.table("chain", {"colour_before_sun_min", "settle_min", "dark_factor", "load_min",
                                         "wake_to_door_min", "look_before_wake_min"})) {
        read_chain(*chain, trip.chain);
    }
}

}  // namespace

Result<Trip> parse_trip(std::string_view text, std::string_view where) {
    auto file = parse_toml(text, where);
    if (!file) {
        return tl::unexpected(file.error());
    }
    TomlTable top(*file, {"trip", "base", "group", "driver", "kitchen", "chain", "place"});
    Trip trip;
    if (auto table =
            top.table("trip", {"name", "zone", "start", "end", "paid", "emergency_number", "plan_holder"})) {
        read_trip_table(*table, trip);
    } else if (!file->error) {
        return fail(ErrorKind::kBadInput, "there is no [trip] table", std::string(where),
                    "begin the file with [trip] and name = \"...\"");
    }
    if (auto base = top.table("base", place_keys())) {
        trip.base = place_from(*base);
    }
    read_people(top, trip);
    trip.places = each_of(top.tables("place", place_keys()), place_from);
    need_own_names(trip.places, "place", top);
    if (file->error) {
        return tl::unexpected(*std::move(file->error));
    }
    return trip;
}

}  // namespace gloam::trip
