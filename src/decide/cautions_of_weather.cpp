// Thunder, wind, cold and heat, fog, as the forecast has them near the ground; and what it does not have.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "decide/caution_parts.hpp"

namespace gloam::decide {
namespace {

using trip::PlaceTag;
using weather::NearSurface;

constexpr double kZero_k = 273.15;
/// Rain from here wets: a tenth of a millimetre.
constexpr double kWet_kg_m2 = 0.1;

Caution mind(Hazard hazard, std::string text, const KnownWeather& weather, std::string ask) {
    return {hazard, CautionKind::kMind, std::move(text), weather.source, std::move(ask), ""};
}

bool rains(const NearSurface& near) {
    return near.precipitation_kg_m2.value_or(0.0) >= kWet_kg_m2 ||
           near.precipitation_rate_kg_m2_s.value_or(0.0) > 0.0;
}

void add_lightning(const OutingFacts& facts, const KnownWeather& weather, std::vector<Caution>& cautions) {
    if (weather.near.thunder.value_or(0.0) >= facts.limits.thunder ||
        weather.near.cape_j_kg.value_or(0.0) >= facts.limits.cape_j_kg) {
        cautions.push_back(
            mind(Hazard::kLightning,
                 "Thunder is possible. Under 30 s from flash to bang: tripods down, off heights, shore "
                 "and lone trees, into a car or a house, until 30 min after the last.",
                 weather, "weather service"));
    }
}

void add_wind(const OutingFacts& facts, const KnownWeather& weather, std::vector<Caution>& cautions) {
    const double gust_m_s =
        std::max(weather.near.gust_m_s.value_or(0.0), weather.near.wind_m_s.value_or(0.0));
    const bool edge = has_tag(facts, PlaceTag::kCliff) && gust_m_s > facts.limits.gust_at_edge_m_s;
    const bool quay = (has_tag(facts, PlaceTag::kQuay) || has_tag(facts, PlaceTag::kCoast)) &&
                      gust_m_s > facts.limits.gust_on_quay_m_s;
    if (edge || quay) {
        cautions.push_back(
            mind(Hazard::kWind,
                 fmt::format("Wind up to {:.0f} m/s. Weight tripods down, a hand on each; away from "
                             "edges and dead trees.",
                             gust_m_s),
                 weather, ""));
    }
}

void add_cold_and_heat(const OutingFacts& facts, const KnownWeather& weather,
                       std::vector<Caution>& cautions) {
    const NearSurface& near = weather.near;
    if (near.least_temperature_k) {
        const double felt_c = feels_like_c(*near.least_temperature_k - kZero_k, near.wind_m_s.value_or(0.0));
        const bool wet = rains(near) && felt_c < facts.limits.wet_cold_c;
        if (felt_c < facts.limits.feels_cold_c || wet) {
            cautions.push_back(
                mind(Hazard::kColdAndHeat,
                     fmt::format("Feels like {:.0f} C{}. Standing is colder than walking: spare gloves, a "
                                 "hot drink, a way to warm a guest.",
                                 felt_c, wet ? ", and wet" : ""),
                     weather, ""));
        }
    }
    if (near.most_temperature_k && *near.most_temperature_k - kZero_k > facts.limits.heat_c) {
        cautions.push_back(
            mind(Hazard::kColdAndHeat,
                 fmt::format("{:.0f} C. Water, shade, a slower walk.", *near.most_temperature_k - kZero_k),
                 weather, ""));
    }
}

void add_fog(const OutingFacts& facts, const KnownWeather& weather, std::vector<Caution>& cautions) {
    if (weather.near.visibility_m && *weather.near.visibility_m < facts.limits.fog_m) {
        cautions.push_back(
            mind(Hazard::kFog,
                 fmt::format("Fog, {:.0f} m. No start to a shore, cliff or hill in it; agree on a whistle. "
                             "Sea fog comes suddenly.",
                             *weather.near.visibility_m),
                 weather, ""));
    }
}

std::vector<std::string_view> absent_from(const NearSurface& near) {
    std::vector<std::string_view> absent;
    const auto name_if = [&](bool gone, std::string_view word) {
        if (gone) {
            absent.push_back(word);
        }
    };
    name_if(!near.gust_m_s && !near.wind_m_s, "wind");
    name_if(!near.least_temperature_k, "temperature");
    name_if(!near.precipitation_kg_m2 && !near.precipitation_rate_kg_m2_s, "rain");
    name_if(!near.visibility_m, "visibility");
    name_if(!near.thunder && !near.cape_j_kg, "thunder");
    return absent;
}

/// What nobody told, so that silence is not read as clear.
Caution unknown(const OutingFacts& facts) {
    const bool stale = facts.weather && facts.weather->age_h > facts.limits.stale_h;
    const auto absent = absent_from(facts.weather && !stale ? facts.weather->near : NearSurface{});
    std::string text = absent.empty() ? ""
                                      : fmt::format("Not known here: {}{}. ", fmt::join(absent, ", "),
                                                    stale ? " (the forecast is too old)" : "");
    text +=
        "Never known here: lightning as it strikes, swell, ice, snow, surge, smoke, rockfall, roads tonight, "
        "crowds, "
        "how fit anyone is.";
    return {Hazard::kUnknown,
            CautionKind::kNote,
            std::move(text),
            kBuiltIn,
            "local authorities, licensed guides",
            ""};
}

}  // namespace

void add_weather_cautions(const OutingFacts& facts, std::vector<Caution>& cautions) {
    if (facts.weather && facts.weather->age_h <= facts.limits.stale_h) {
        add_lightning(facts, *facts.weather, cautions);
        add_wind(facts, *facts.weather, cautions);
        add_cold_and_heat(facts, *facts.weather, cautions);
        add_fog(facts, *facts.weather, cautions);
    }
    if (facts.weather && facts.weather->age_h > facts.limits.stale_h) {
        cautions.push_back(
            {Hazard::kUnknown, CautionKind::kMind,
             fmt::format("The forecast is {:.0f} h old: fetch a newer run.", facts.weather->age_h),
             facts.weather->source});
    }
    cautions.push_back(unknown(facts));
    for (const std::string& words : loosened(facts.limits)) {
        cautions.push_back({Hazard::kUnknown, CautionKind::kNote, "Loosened by leader: " + words + ".",
                            "your settings", "", ""});
    }
}

}  // namespace gloam::decide
