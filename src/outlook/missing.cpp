#include "outlook/missing.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "weather/served_times.hpp"

namespace gloam::outlook {
namespace {

using weather::LayerRoute;

/// "6 h", or "1 to 6 h" where the spans read over the event are not all as long.
std::string spans_in_words(const weather::LayeredMember& member, std::span<const Moment> moments) {
    std::vector<double> spans_h;
    std::ranges::transform(moments, std::back_inserter(spans_h),
                           [&member](const Moment& moment) { return span_hours_at(member, moment.instant); });
    const auto [shortest, longest] = std::ranges::minmax(spans_h);
    return shortest == longest ? fmt::format("{:g} h", longest)
                               : fmt::format("{:g} to {:g} h", shortest, longest);
}

void name_missing_cloud(const weather::LayeredForecast& forecast, std::span<const Moment> moments,
                        std::vector<std::string>& missing) {
    const weather::LayeredMember& first = forecast.members.front();
    if (forecast.route == LayerRoute::kTotalOnly) {
        missing.emplace_back(
            "cloud by layer (a third of the members each puts the total low, in the middle, high)");
    }
    if (forecast.route == LayerRoute::kHumidityOnLevels) {
        missing.emplace_back("cloud cover itself (worked out from humidity)");
    }
    if (is_average(first.steps.front())) {
        missing.push_back(
            fmt::format("the cloud at the minute (averages over {} taken)", spans_in_words(first, moments)));
    } else if (first.steps.size() == 1) {
        missing.emplace_back("other hours (one time step, held for 90 min each way)");
    }
    if (is_point(forecast.grid)) {
        missing.emplace_back(
            "the light path (a forecast for one point: up-sun half the members take no cloud, half a bank)");
    }
    if (forecast.members.size() == 1) {
        missing.emplace_back("an ensemble (one run, displaced as far as runs err)");
    }
    if (forecast.usual_heights) {
        missing.emplace_back("heights of cloud (usual heights of each layer taken)");
    }
    if (forecast.heights_from_standard_atmosphere) {
        missing.emplace_back("heights of the levels (standard atmosphere taken)");
    }
}

}  // namespace

std::vector<std::string> missing_in(const weather::LayeredForecast& forecast, std::span<const Moment> moments,
                                    double ozone_du) {
    std::vector<std::string> missing;
    name_missing_cloud(forecast, moments, missing);
    missing.emplace_back("aerosol (usual haze assumed, spread over members)");
    missing.push_back(fmt::format("ozone ({:.0f} DU, usual here at this time of the year, taken)", ozone_du));
    if (moments.back().sun.elevation.degrees() < 3.0 && moments.front().sun.elevation.degrees() < 3.0) {
        missing.emplace_back("the sun above 3 deg (not reached, or outside the hours of the file)");
    }
    return missing;
}

}  // namespace gloam::outlook
