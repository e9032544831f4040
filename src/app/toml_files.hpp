#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "base/instant.hpp"
#include "base/kinds.hpp"
#include "geo/position.hpp"
#include "sky/ground.hpp"

namespace gloam::app {

/// A named place of a trip.
struct TripPlace {
    std::string name;
    geo::LatLon at;
    std::optional<HeightMsl> height;
    std::optional<std::string> zone;  ///< IANA; the trip's if absent
    sky::Ground ground = sky::Ground::kLand;
    double town_zenith_cd_m2 = 0.0;  ///< what the lights of towns add to a clear night's zenith
};

/// A trip as its TOML file tells it.
struct Trip {
    std::string name;
    std::optional<std::string> zone;  ///< IANA
    std::optional<CivilDate> start;
    std::optional<CivilDate> end;
    std::optional<TripPlace> base;  ///< where the group sleeps
    std::optional<int> group_size;
    std::optional<double>
        starts_for_one;  ///< early starts for nothing that the group would trade for one good dawn
    std::vector<TripPlace> places;
};

/// Parses a trip file: [trip] name, zone, start, end; [base] name, lat, lon; [group] size, starts_for_one;
/// [[place]] name, lat, lon, height_m, zone, ground, town_glow_mcd_m2. An unknown key, a wrong type or a
/// missing name or coordinate is an error that names table, key and line. `where` names the file in errors.
Result<Trip> parse_trip(std::string_view toml, std::string_view where);

/// What a person set once and for all: `trip` (path, relative to the config file), `class`, `starts_for_one`.
struct Config {
    std::optional<std::filesystem::path> trip;
    std::optional<std::string> outcome_class;
    std::optional<double> starts_for_one;
};
Result<Config> parse_config(std::string_view toml, const std::filesystem::path& file);

}  // namespace gloam::app
