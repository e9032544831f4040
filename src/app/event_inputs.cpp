#include "app/event_inputs.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "app/journal_file.hpp"
#include "app/text_file.hpp"
#include "geo/quoted.hpp"
#include "geo/zone_of_place.hpp"
#include "trip/trip_toml.hpp"

namespace gloam::app {
namespace {

namespace fs = std::filesystem;

Result<Config> read_config(const EventWords& words, const Surroundings& surroundings) {
    const bool asked = !words.config_file.empty();
    if (!asked && !surroundings.config_home) {
        return Config{};
    }
    const fs::path file =
        asked ? fs::path(words.config_file) : *surroundings.config_home / "gloam" / "config.toml";
    std::error_code error;
    if (!asked && !fs::exists(file, error)) {
        return Config{};
    }
    return read_text_file(file).and_then([&](const std::string& text) { return parse_config(text, file); });
}

Result<std::optional<trip::Trip>> read_trip(const EventWords& words, const Config& config,
                                            const Surroundings& surroundings) {
    const fs::path file = words.trip.empty() ? config.trip.value_or(fs::path()) : fs::path(words.trip);
    if (file.empty()) {
        return std::nullopt;
    }
    std::error_code error;
    const bool is_file = words.trip.empty() || fs::exists(file, error);
    auto trip = is_file ? read_text_file(file).and_then(
                              [&](const std::string& text) { return trip::parse_trip(text, file.string()); })
                        : trip_of_journal(words.trip, words.journal, surroundings);
    return std::move(trip).map([](trip::Trip found) { return std::optional(std::move(found)); });
}

/// A place before its zone is known.
struct FoundPlace {
    std::string name;
    geo::LatLon at;
    std::optional<HeightMsl> height;
    std::optional<std::string> zone;
    sky::Ground ground = sky::Ground::kLand;
    double town_zenith_cd_m2 = 0.0;
};

Result<FoundPlace> find_place(const std::string& word, const std::optional<trip::Trip>& trip) {
    if (trip) {
        std::vector<std::string> names;
        for (const trip::Place& place : trip->places) {
            if (place.name == word) {
                return FoundPlace{place.name,   place.at,
                                  place.height, place.zone ? place.zone : trip->zone,
                                  place.ground, place.town_zenith_cd_m2};
            }
            names.push_back(place.name);
        }
        if (word.find(',') == std::string::npos) {
            return fail(ErrorKind::kNotFound, fmt::format("the trip has no place {}", geo::quoted(word)),
                        "--place",
                        fmt::format("its places: {}; or give lat,lon[,height_m]", fmt::join(names, ", ")));
        }
    }
    const auto parsed = geo::parse_position(word);
    if (!parsed) {
        Error error = parsed.error();
        error.where = "--place";
        if (!trip) {
            error.hint += "; a name needs --trip FILE";
        }
        return tl::unexpected(error);
    }
    return FoundPlace{geo::to_text(parsed->at), parsed->at, parsed->height, trip ? trip->zone : std::nullopt};
}

Result<geo::Zone> zone_of(const FoundPlace& place, CivilDate date, const EventWords& words,
                          const Surroundings& surroundings, std::vector<std::string>& notes) {
    if (!words.zone.empty()) {
        return geo::Zone::named(words.zone);
    }
    if (place.zone) {
        return geo::Zone::named(*place.zone);
    }
    const auto cities = read_text_file(surroundings.cities);
    if (!cities) {
        return fail(ErrorKind::kNotFound, "no time zone was given and the table of towns is not there",
                    surroundings.cities.string(), "give --zone, e.g. --zone Europe/Rome");
    }
    const Instant noon = std::chrono::sys_days(date) + std::chrono::hours(12);
    const auto guess = geo::zone_of_nearest_town(place.at, noon, *cities);
    if (!guess) {
        return tl::unexpected(guess.error());
    }
    notes.push_back(fmt::format("zone taken from {}, {:.0f} km", guess->town, guess->distance_m / 1e3));
    return guess->zone;
}

Result<ResolvedPlace> resolve_place(CivilDate date, const EventWords& words,
                                    const std::optional<trip::Trip>& trip, const Surroundings& surroundings) {
    const auto found = find_place(words.place, trip);
    if (!found) {
        return tl::unexpected(found.error());
    }
    std::vector<std::string> notes;
    const auto zone = zone_of(*found, date, words, surroundings, notes);
    if (!zone) {
        return tl::unexpected(zone.error());
    }
    if (!found->height) {
        notes.emplace_back("height not given: sea level taken");
    }
    return ResolvedPlace{found->name,   {found->at, found->height.value_or(HeightMsl{0.0})},
                         *zone,         std::move(notes),
                         found->ground, found->town_zenith_cd_m2};
}

Result<astro::EventKind> parse_event(const std::string& word) {
    if (word == "dawn") {
        return astro::EventKind::kDawn;
    }
    if (word == "dusk") {
        return astro::EventKind::kDusk;
    }
    return fail(ErrorKind::kBadInput, fmt::format("{} is no event", geo::quoted(word)), "--event",
                "give dawn or dusk");
}

/// What of the forecast a call stands on: cloud and what places it, and the weather near the ground, about
/// the hours of the event, as far round the place as the light path reaches, 700 km and the displacements of
/// members.
weather::Wanted wanted_for(const std::vector<outlook::Moment>& moments, geo::LatLon place) {
    using weather::Quantity;
    constexpr double kReach_m = 2.5e6;
    weather::Wanted wanted;
    wanted.span = {moments.front().instant, moments.back().instant};
    wanted.quantities = {Quantity::kCloudCover,
                         Quantity::kRelativeHumidity,
                         Quantity::kGeopotentialHeight,
                         Quantity::kPressure,
                         Quantity::kTemperature,
                         Quantity::kWindEast,
                         Quantity::kWindNorth,
                         Quantity::kGust,
                         Quantity::kVisibility,
                         Quantity::kPrecipitation,
                         Quantity::kPrecipitationRate,
                         Quantity::kCape,
                         Quantity::kThunder};
    wanted.round = {place, kReach_m};
    return wanted;
}

Result<weather::Forecast> read_files(const std::vector<std::string>& names, const weather::Wanted& wanted) {
    const std::vector<fs::path> files(names.begin(), names.end());
    auto forecast = weather::read_forecast(files, wanted);
    if (forecast && forecast->fields.empty() && forecast->passed_over.fields > 0) {
        return fail(ErrorKind::kOutOfDomain,
                    fmt::format("the forecast holds from {} to {} and does not serve {} to {}",
                                to_rfc3339_utc(forecast->passed_over.first),
                                to_rfc3339_utc(forecast->passed_over.last), to_rfc3339_utc(wanted.span->from),
                                to_rfc3339_utc(wanted.span->to)),
                    names.front(), "add a forecast step near that time");
    }
    return forecast;
}

}  // namespace

Result<EventInputs> gather_inputs(const EventWords& words, const Surroundings& surroundings) {
    const auto date = parse_civil_date(words.date);
    const auto kind = parse_event(words.event);
    const auto config = read_config(words, surroundings);
    if (!date) {
        return tl::unexpected(date.error());
    }
    if (!kind) {
        return tl::unexpected(kind.error());
    }
    if (!config) {
        return tl::unexpected(config.error());
    }
    const auto trip = read_trip(words, *config, surroundings);
    if (!trip) {
        return tl::unexpected(trip.error());
    }
    auto place = resolve_place(*date, words, *trip, surroundings);
    if (!place) {
        return tl::unexpected(place.error());
    }
    if (words.config_file.empty() && !surroundings.config_home) {
        place->notes.emplace_back("no settings read: neither XDG_CONFIG_HOME nor HOME is set");
    }
    const auto half_day = astro::half_day_of(place->observer, place->zone, *date, *kind);
    if (!half_day) {
        return tl::unexpected(half_day.error());
    }
    const auto moments = outlook::moments_of(place->observer, *half_day);
    if (!moments) {
        return tl::unexpected(moments.error());
    }
    auto forecast = read_files(words.forecast_files, wanted_for(*moments, place->observer.at));
    if (!forecast) {
        return tl::unexpected(forecast.error());
    }
    auto layers = weather::layers_of(*forecast);
    if (!layers) {
        return tl::unexpected(layers.error());
    }
    return EventInputs{
        *std::move(place),  *date,   *half_day, *moments, words.forecast_files, std::move(*forecast),
        std::move(*layers), *config, *trip};
}

}  // namespace gloam::app
