#include "app/call_report.hpp"

#include <algorithm>

#include "app/event_words.hpp"

namespace gloam::app {
namespace {

decide::Chances chances_of(const outlook::EventOutlook& outlook, outlook::OutcomeClass outcome) {
    decide::Chances chances{outlook.odds.of(outcome), std::nullopt};
    if (outlook.odds_by_assumed_band) {
        chances.by_reading.emplace();
        std::transform(outlook.odds_by_assumed_band->begin(), outlook.odds_by_assumed_band->end(),
                       chances.by_reading->begin(),
                       [&](const outlook::Odds& odds) { return odds.of(outcome); });
    }
    return chances;
}

}  // namespace

Result<CallReport> make_call(const sky::SkyTables& tables, const EventInputs& inputs,
                             const CallWishes& wishes, Instant now) {
    const auto outcome = class_wanted(inputs, wishes);
    if (!outcome) {
        return tl::unexpected(outcome.error());
    }
    const double starts = starts_for_one(inputs, wishes);
    const auto threshold = decide::threshold_for(starts);
    if (!threshold) {
        return tl::unexpected(threshold.error());
    }
    const auto sample = outlook::sample_event(inputs.layers, inputs.request());
    if (!sample) {
        return tl::unexpected(sample.error());
    }
    CallReport report{inputs.place, inputs.date, inputs.half_day.kind,     {},
                      starts,       *outcome,    look_out(tables, *sample)};
    report.call = decide::decide(chances_of(report.outlook, *outcome), *threshold);
    const auto rise =
        astro::sun_crossing(inputs.place.observer, inputs.half_day, astro::standard_rise_altitude());
    if (const auto* crossing = std::get_if<astro::Crossing>(&rise)) {
        report.sun = *crossing;
    }
    report.source = inputs.forecast.source;
    report.run_time = inputs.forecast.run_time;
    report.past = report.outlook.moments.back().instant < now;
    const Instant as_of = wishes.as_of.value_or(report.past ? report.outlook.window.from : now);
    report.age_h = hours_between(report.run_time, as_of);
    report.messages = inputs.forecast.messages;
    report.skipped = inputs.forecast.skipped;
    report.clamped_values = inputs.forecast.clamped_values;
    report.sentinel_values = inputs.forecast.sentinel_values;
    report.notes = inputs.forecast.notes;
    report.notes.insert(report.notes.end(), inputs.layers.notes.begin(), inputs.layers.notes.end());
    report.trip = inputs.trip ? inputs.trip->name : "";
    return report;
}

std::string source_line(const CallReport& report) {
    return run_in_words(report.source, report.run_time, report.age_h) +
           (report.past ? " at the time (this event is past)" : "");
}

}  // namespace gloam::app
