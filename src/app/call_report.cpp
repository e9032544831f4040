#include "app/call_report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "geo/quoted.hpp"

namespace gloam::app {
namespace {

Result<outlook::OutcomeClass> parse_class(const std::string& word) {
    using outlook::OutcomeClass;
    for (const auto outcome :
         {OutcomeClass::kSlight, OutcomeClass::kFair, OutcomeClass::kGood, OutcomeClass::kOutstanding}) {
        if (word == name_of(outcome)) {
            return outcome;
        }
    }
    return fail(ErrorKind::kBadInput, fmt::format("{} is no class", geo::quoted(word)), "--class",
                "give slight, fair, good or outstanding");
}

double starts_for_one(const EventInputs& inputs, const CallWishes& wishes) {
    const bool dawn = inputs.half_day.kind == astro::EventKind::kDawn;
    if (wishes.starts_for_one) {
        return *wishes.starts_for_one;
    }
    if (dawn && inputs.trip && inputs.trip->group.starts_for_one_dawn) {
        return *inputs.trip->group.starts_for_one_dawn;
    }
    if (dawn && inputs.config.starts_for_one) {
        return *inputs.config.starts_for_one;
    }
    return dawn ? decide::kStartsForOneDawn : decide::kStartsForOneDusk;
}

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
    const auto outcome =
        parse_class(wishes.outcome_class.value_or(inputs.config.outcome_class.value_or("good")));
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

std::string odds_in_words(double odds) {
    const long tenths = std::lround(odds * 10.0);
    if (tenths < 1) {
        return "fewer than 1 in 10";
    }
    if (tenths > 9) {
        return "more than 9 in 10";
    }
    return fmt::format("{} in 10", tenths);
}

std::string heading_of(astro::EventKind kind, CivilDate date) {
    constexpr std::array<const char*, 7> kDays{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
    constexpr std::array<const char*, 12> kMonths{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                  "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    const std::chrono::weekday weekday{std::chrono::sys_days(date)};
    return fmt::format("{} of {} {} {} {}", kind == astro::EventKind::kDawn ? "Dawn" : "Dusk",
                       kDays[weekday.c_encoding()], static_cast<unsigned>(date.day()),
                       kMonths[static_cast<unsigned>(date.month()) - 1], static_cast<int>(date.year()));
}

std::string source_line(const CallReport& report) {
    std::string run = to_rfc3339_utc(report.run_time).substr(0, 16);
    run[10] = ' ';
    return fmt::format("{}, run {} UTC, {:.0f} h old{}", report.source, run, report.age_h,
                       report.past ? " at the time (this event is past)" : "");
}

}  // namespace gloam::app
