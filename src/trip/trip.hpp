#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/instant.hpp"
#include "base/kinds.hpp"
#include "geo/position.hpp"
#include "sky/ground.hpp"

namespace gloam::trip {

/// A time on the wall clock: minutes since its 00:00, 0 to 1439.
using ClockTime = std::chrono::minutes;

/// A civil date and a time on the wall clock, in the zone of the place that it belongs to.
struct LocalMoment {
    CivilDate date;
    ClockTime time{};
};

/// What a person wrote down, and when.
struct DatedNote {
    std::string text;
    CivilDate date;
};

/// A spot of a place where tripods go.
struct Stand {
    std::string name;
    geo::LatLon at;
    std::optional<HeightMsl> height;
    std::optional<Azimuth> view;  ///< which way it looks
    std::optional<int> tripods;   ///< how many it holds
};

/// Something with an outline against the light.
struct Subject {
    std::string name;
    geo::LatLon at;
    std::optional<HeightMsl> base;
    std::optional<HeightMsl> top;  ///< above `base` where both are known
    std::optional<double> width_m;
};

/// The water in front of a place.
enum class Water { kNone, kStill, kRiver, kSea };

/// Directions that the wind comes from, from `from` clockwise to `to`.
struct WindSector {
    Azimuth from;
    Azimuth to;
};

enum class LegKind { kDrive, kWalk };

/// No walk of a trip is longer, or climbs or descends more, than this.
inline constexpr double kLongestWalk_m = 1e5;
inline constexpr double kHighestWalk_m = 9e3;

/// One part of the way from the base to a place. A drive has its minutes; a walk its minutes, which then are
/// the slowest walker's by day, or its distance.
struct AccessLeg {
    LegKind kind = LegKind::kWalk;
    std::optional<std::string> name;
    std::optional<double> minutes;
    std::optional<double> distance_m;
    std::optional<double> climb_m;    ///< on the way out
    std::optional<double> descent_m;  ///< on the way out
    bool never_in_the_dark = false;   ///< the leader marked a hazard of it so
    std::optional<CivilDate> last_walked;
};

/// What may bar the way to a place. Open from `opens` to `closes`, past midnight where `closes` is the
/// earlier; always open where neither is known.
struct Gate {
    std::string name;
    std::optional<ClockTime> opens;
    std::optional<ClockTime> closes;
};

/// What about a place calls for a caution.
enum class PlaceTag {
    kCoast,           ///< waves, wet rock
    kCliff,           ///< an edge or an overhang
    kQuay,            ///< tripods in the wind
    kIce,             ///< a frozen lake, a glacier
    kRiver,           ///< rises after the rain
    kMud,             ///< mud, quicksand
    kValley,          ///< fog, cold air
    kRoad,            ///< parked or standing on a verge
    kRailway,         ///< a line nearby
    kQuarry,          ///< workings
    kFiringRange,     ///< firing times
    kLivestock,       ///< animals in the field
    kWildlifeSeason,  ///< breeding, moulting, haul-out or roosting
    kProtected,       ///< a protected site or monument
};

/// A named place of a trip: where it lies, how one gets there, and what the leader knows about it.
struct Place {
    std::string name;
    geo::LatLon at;
    std::optional<HeightMsl> height;
    std::optional<std::string> zone;  ///< IANA; the trip's if absent
    sky::Ground ground = sky::Ground::kLand;
    double town_zenith_cd_m2 = 0.0;  ///< what the lights of towns add to a clear night's zenith
    std::optional<Water> water;
    std::vector<WindSector> sheltered;  ///< winds that leave the water calm
    std::optional<DatedNote> permission;
    std::optional<std::string> phone_cover;  ///< in the leader's words, e.g. "at the car park only"
    std::vector<PlaceTag> tags;
    std::vector<Stand> stands;
    std::vector<Subject> subjects;
    std::vector<AccessLeg> access;  ///< in the order of the way out
    std::vector<Gate> gates;
    std::vector<DatedNote> notes;          ///< the leader's own cautions
    std::vector<LocalMoment> tide_closes;  ///< when the tide closes the way, typed by the leader
};

enum class Finder { kUnknown, kOptical, kElectronic };

/// Somebody who is led. What is stored here is deleted after the trip.
struct Guest {
    std::string name;
    std::optional<double> starts_for_one_dawn;  ///< the group's if absent
    std::optional<double> starts_for_one_dusk;
    bool opted_out = false;  ///< not to be woken
    Finder finder = Finder::kUnknown;
    std::optional<double> longest_lens_mm;  ///< focal length
    bool needs_thought = false;             ///< the leader's mark: a leg of the way needs thought
    bool drone = false;
};

/// The group as a whole.
struct Group {
    std::optional<int> size;
    std::optional<int> minimum_party;           ///< fewer do not go
    std::optional<double> starts_for_one_dawn;  ///< early starts for nothing that it would trade for one
                                                ///< good dawn
    std::optional<double> starts_for_one_dusk;  ///< the same, dusks for nothing for one good dusk
    std::optional<int> starts_left;             ///< early starts that it stands on the whole trip
    std::optional<double> slowest_kmh;          ///< the slowest walker on level ground
    std::vector<Guest> guests;
};

/// The rules that the driver is held to, as the leader typed them.
struct Driver {
    std::optional<double> least_rest_h;    ///< between two days of work
    std::optional<double> longest_span_h;  ///< from the first start to the last finish of a day
};

/// When the house serves breakfast, and until when on the evening before that may be changed.
struct Kitchen {
    std::optional<ClockTime> breakfast;
    std::optional<ClockTime> latest_change;
};

/// The links of the way from bed to stand, where the leader sets them.
struct Chain {
    std::optional<double> colour_before_sun_min;  ///< colour may begin this long before sunrise
    std::optional<double> settle_min;             ///< from the stand to the first frame
    std::optional<double> dark_factor;            ///< a walk in the dark takes this many times as long
    std::optional<double> load_min;               ///< from the door into the cars
    std::optional<double> wake_to_door_min;
    std::optional<double> look_before_wake_min;  ///< the leader's own look before the others wake
};

/// A run of days with a group, as the leader tells it. What is absent is not known.
struct Trip {
    std::string name;
    std::optional<std::string> zone;  ///< IANA
    std::optional<CivilDate> start;
    std::optional<CivilDate> end;  ///< the last day
    std::optional<bool> paid;      ///< the group pays, which landowners' rules may ask for
    std::optional<std::string> emergency_number;
    std::optional<std::string> plan_holder;  ///< who at the base holds the plan
    std::optional<Place> base;               ///< where the group sleeps
    Group group;
    Driver driver;
    Kitchen kitchen;
    Chain chain;
    std::vector<Place> places;  ///< each name once
};

/// Parses "06:40", of 00:00 to 23:59. Error (kBadInput): anything else.
Result<ClockTime> parse_clock_time(std::string_view text);

using gloam::to_text;

/// "06:40".
std::string to_text(ClockTime time);

/// "2025-01-29 06:40".
std::string to_text(const LocalMoment& moment);

/// Parses "2025-01-29 06:40". Error (kBadInput): anything else.
Result<LocalMoment> parse_local_moment(std::string_view text);

}  // namespace gloam::trip
