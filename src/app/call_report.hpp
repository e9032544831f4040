#pragma once

#include <optional>
#include <string>

#include "app/call_wishes.hpp"
#include "decide/call.hpp"
#include "outlook/event_outlook.hpp"

namespace gloam::app {

/// A call with everything it stands on: what the command line prints, in words or as JSON.
struct CallReport {
    ResolvedPlace place;
    CivilDate date;
    astro::EventKind kind = astro::EventKind::kDawn;
    decide::Call call;
    double starts_for_one = 0.0;
    outlook::OutcomeClass outcome_class = outlook::OutcomeClass::kGood;
    outlook::EventOutlook outlook;
    /// Sunrise or sunset over a level sea-level horizon, -50'; absent if there is none.
    std::optional<astro::Crossing> sun = std::nullopt;
    std::string source = {};
    Instant run_time = {};
    double age_h = 0.0;
    bool past = false;  ///< the event lies before now
    std::size_t messages = 0;
    std::vector<weather::SkippedMessage> skipped = {};
    std::size_t clamped_values = 0;
    std::size_t sentinel_values = 0;      ///< numbers that stood for "no value"
    std::vector<std::string> notes = {};  ///< what of the file was left out or taken otherwise, in words
    std::string trip = {};                ///< its name, if any
};

/// Looks out, decides, and gathers what a person needs to see.
Result<CallReport> make_call(const sky::SkyTables& tables, const EventInputs& inputs,
                             const CallWishes& wishes, Instant now);

/// One screen for a tired person.
std::string to_text(const CallReport& report);
/// The same, as JSON (docs/cli.md lists the fields).
std::string to_json(const CallReport& report);
/// The working: the course of every phase, the members, what the file held.
std::string to_explanation(const CallReport& report);

/// "NCEP GFS, run 2025-01-29 00:00 UTC, 6 h old".
std::string source_line(const CallReport& report);

}  // namespace gloam::app
