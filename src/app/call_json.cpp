// The call as JSON: the same struct that the words are made from.
#include <cmath>
#include <nlohmann/json.hpp>

#include "app/call_report.hpp"

namespace gloam::app {
namespace {

using nlohmann::ordered_json;

/// Numbers are rounded once, here, to what they are known to: to one part in `parts`.
double rounded(double value, double parts) {
    return std::round(value * parts) / parts;
}

double to_hundredth(double value) {
    return rounded(value, 100.0);
}
double to_tenth(double value) {
    return rounded(value, 10.0);
}

ordered_json spread_json(const outlook::Spread& spread) {
    return {
        {"median", to_tenth(spread.median)}, {"p10", to_tenth(spread.p10)}, {"p90", to_tenth(spread.p90)}};
}

ordered_json odds_json(const outlook::Odds& odds) {
    return {{"slight", to_hundredth(odds.slight)},
            {"fair", to_hundredth(odds.fair)},
            {"good", to_hundredth(odds.good)},
            {"outstanding", to_hundredth(odds.outstanding)}};
}

ordered_json window_json(const CallReport& report) {
    const auto& window = report.outlook.window;
    const auto& zone = report.place.zone;
    return {{"from", zone.to_rfc3339(window.from)},
            {"to", zone.to_rfc3339(window.to)},
            {"azimuth_deg", rounded(window.azimuth.degrees(), 1.0)},
            {"opposite", window.opposite ? ordered_json(zone.to_rfc3339(*window.opposite)) : ordered_json()}};
}

ordered_json sun_json(const CallReport& report) {
    if (!report.sun) {
        return {{"time", nullptr}, {"azimuth_deg", nullptr}};
    }
    return {{"time", report.place.zone.to_rfc3339(report.sun->instant)},
            {"azimuth_deg", to_tenth(report.sun->azimuth.degrees())}};
}

ordered_json reasons_json(const CallReport& report) {
    ordered_json all = ordered_json::array();
    for (const auto& reason : report.outlook.reasons) {
        all.push_back({{"text", to_text(reason)}, {"members", reason.members}, {"of", reason.of}});
    }
    return all;
}

}  // namespace

std::string to_json(const CallReport& report) {
    const auto& observer = report.place.observer;
    ordered_json skipped = ordered_json::array();
    for (const auto& message : report.skipped) {
        skipped.push_back(
            {{"file", message.origin.file}, {"message", message.origin.message}, {"reason", message.reason}});
    }
    const ordered_json json{
        {"call", name_of(report.call.decision)},
        {"threshold", rounded(report.call.threshold, 1e4)},
        {"class", name_of(report.outcome_class)},
        {"starts_for_one", report.starts_for_one},
        {"odds", odds_json(report.outlook.odds)},
        {"strength",
         {{"after", spread_json(report.outlook.after)},
          {"gold", report.outlook.gold ? spread_json(*report.outlook.gold) : ordered_json()}}},
        {"minutes_good", spread_json(report.outlook.minutes_good)},
        {"window", window_json(report)},
        {"sun", sun_json(report)},
        {"members", report.outlook.members.size()},
        {"run",
         {{"source", report.source},
          {"time", to_rfc3339_utc(report.run_time)},
          {"age_h", to_tenth(report.age_h)}}},
        {"missing", report.outlook.missing},
        {"reasons", reasons_json(report)},
        {"cautions", {"not checked: weather warnings, tide, waves, road, access, darkness on the path"}},
        {"place",
         {{"name", report.place.name},
          {"lat", observer.at.lat_deg},
          {"lon", observer.at.lon_deg},
          {"height_m", observer.height.metres},
          {"zone", report.place.zone.name()},
          {"notes", report.place.notes}}},
        {"event",
         {{"kind", report.kind == astro::EventKind::kDawn ? "dawn" : "dusk"},
          {"date", gloam::to_text(report.date)}}},
        {"file",
         {{"messages", report.messages},
          {"clamped_values", report.clamped_values},
          {"masked_numbers", report.sentinel_values},
          {"notes", report.notes},
          {"not_used", skipped}}}};
    // A file name may hold any bytes: what is no UTF-8 is replaced rather than refused.
    return json.dump(2, ' ', false, ordered_json::error_handler_t::replace) + '\n';
}

}  // namespace gloam::app
