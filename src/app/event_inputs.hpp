#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "app/config.hpp"
#include "astro/crossing.hpp"
#include "geo/zone.hpp"
#include "outlook/event_outlook.hpp"
#include "trip/trip.hpp"
#include "weather/forecast.hpp"

namespace gloam::app {

/// Where the program finds what it did not bring along, and the time of day; read from the process once, in
/// main.
struct Surroundings {
    std::optional<std::filesystem::path>
        config_home;  ///< $XDG_CONFIG_HOME, else $HOME/.config; absent if neither is set
    std::optional<std::filesystem::path>
        data_home;  ///< $XDG_DATA_HOME, else $HOME/.local/share; absent if neither is set
    std::filesystem::path cities =
        "/usr/share/libtimezonemap/ui/cities15000.txt";  ///< GeoNames, CC BY 4.0 (Debian:
                                                         ///< libtimezonemap-data)
    Instant now;
};

/// What a person typed to name an event and its forecast.
struct EventWords {
    std::string place;  ///< "lat,lon[,height_m]" or a name from the trip
    std::string date;   ///< "2025-01-29"
    std::string event;  ///< "dawn" or "dusk"
    std::vector<std::string> forecast_files;
    std::string trip;         ///< a trip file, or a trip of the journal; empty: the config's, if any
    std::string journal;      ///< empty: the usual one
    std::string config_file;  ///< empty: the usual one, if it exists
    std::string zone;         ///< IANA; empty: the place's, the trip's, or the nearest town's
};

/// A place with everything that was found out about it.
struct ResolvedPlace {
    std::string name;  ///< as the trip calls it, or its coordinates
    astro::Observer observer;
    geo::Zone zone;
    std::vector<std::string> notes;  ///< what was assumed, e.g. "zone taken from NAME, n km"
    sky::Ground ground = sky::Ground::kLand;
    double town_zenith_cd_m2 = 0.0;
};

/// An event, its forecast and the settings that apply to it.
struct EventInputs {
    ResolvedPlace place;
    CivilDate date;
    astro::HalfDay half_day;
    std::vector<outlook::Moment> moments;  ///< of the event, in time order; not empty
    std::vector<std::string> forecast_files;
    weather::Forecast forecast;
    weather::LayeredForecast layers;
    Config config;
    std::optional<trip::Trip> trip;

    outlook::EventRequest request() const {
        return {place.observer, half_day, forecast.run_time, place.ground, place.town_zenith_cd_m2};
    }
};

/// Reads and resolves everything that an event needs. Errors name what was typed or the file, and the remedy.
Result<EventInputs> gather_inputs(const EventWords& words, const Surroundings& surroundings);

}  // namespace gloam::app
