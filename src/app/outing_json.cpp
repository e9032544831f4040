// A decision as JSON: the same struct that the words are made from.
#include <cmath>
#include <nlohmann/json.hpp>

#include "app/outing_report.hpp"

namespace gloam::app {
namespace {

using nlohmann::ordered_json;

double to_thousandth(double value) {
    return std::round(value * 1000.0) / 1000.0;
}

/// What is infinite, such as a threshold with no start left, is null.
ordered_json number(double value) {
    return std::isfinite(value) ? ordered_json(to_thousandth(value)) : ordered_json();
}

ordered_json times_json(const OutingReport& report) {
    const auto at = [&](Instant instant) { return report.basis.place.zone.to_rfc3339(instant); };
    const decide::TimeChain& chain = report.chain;
    ordered_json out = ordered_json::array();
    for (const auto* way : {&chain.out, &chain.back}) {
        for (const decide::TimedLeg& leg : *way) {
            out.push_back({{"name", leg.name},
                           {"way", way == &chain.out ? "out" : "back"},
                           {"from", at(leg.from)},
                           {"to", at(leg.to)},
                           {"dark", leg.dark}});
        }
    }
    return {{"look", at(chain.look)},
            {"call", at(chain.wake)},
            {"doors", at(chain.doors)},
            {"leave", at(chain.leave)},
            {"stand", at(chain.stand)},
            {"first_colour", at(chain.first_colour)},
            {"window_from", at(report.outlook.window.from)},
            {"window_to", at(report.outlook.window.to)},
            {"sun", report.sun ? ordered_json(at(report.sun->instant)) : ordered_json()},
            {"leave_stand", at(chain.leave_stand)},
            {"at_base", at(chain.at_base)},
            {"legs", out}};
}

ordered_json cautions_json(const OutingReport& report) {
    ordered_json all = ordered_json::array();
    for (const decide::Caution& caution : report.cautions) {
        all.push_back(
            {{"kind", name_of(caution.kind)},
             {"about", name_of(caution.hazard)},
             {"text", caution.text},
             {"source", caution.source},
             {"ask", caution.ask},
             {"set_aside_because",
              caution.set_aside_because.empty() ? ordered_json() : ordered_json(caution.set_aside_because)}});
    }
    return all;
}

}  // namespace

std::string to_json(const OutingReport& report, std::int64_t call) {
    const OutingBasis& basis = report.basis;
    ordered_json reasons = ordered_json::array();
    for (const auto& reason : report.outlook.reasons) {
        reasons.push_back({{"text", to_text(reason)}, {"members", reason.members}, {"of", reason.of}});
    }
    const ordered_json json{
        {"call", call},
        {"cautions", cautions_json(report)},
        {"answer", report.answer},
        {"look", basis.look == OutingLook::kEvening ? "evening" : "morning"},
        {"place", basis.place.name},
        {"date", gloam::to_text(basis.date)},
        {"event", basis.kind == astro::EventKind::kDawn ? "dawn" : "dusk"},
        {"class", name_of(basis.outcome_class)},
        {"odds", number(report.odds)},
        {"forecast_odds", number(report.forecast_odds)},
        {"threshold", number(report.threshold)},
        {"cost_of_a_start", number(report.cost)},
        {"starts_left", report.starts_left ? ordered_json(*report.starts_left) : ordered_json()},
        {"mornings_ahead", report.mornings_ahead},
        {"look_again",
         report.look_again ? ordered_json(basis.place.zone.to_rfc3339(*report.look_again)) : ordered_json()},
        {"called", report.party.called},
        {"asleep", report.party.asleep},
        {"times", times_json(report)},
        {"reasons", reasons},
        {"missing", report.outlook.missing},
        {"run",
         {{"source", basis.source},
          {"time", to_rfc3339_utc(basis.run_time)},
          {"age_h", number(report.age_h)}}}};
    return json.dump(2) + "\n";
}

}  // namespace gloam::app
