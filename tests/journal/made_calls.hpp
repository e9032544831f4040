#pragma once

#include <string>

#include "journal/journal.hpp"
#include "support/full_trip.hpp"
#include "trip/trip_toml.hpp"

namespace gloam::journal::test {

/// An instant of the trip that the tests invent.
inline Instant instant(const char* text) {
    return parse_rfc3339(text).value();
}

inline const Instant kDuringTrip = instant("2025-01-28T20:00:00Z");

/// Every field of it is set.
inline trip::Trip full_trip() {
    return trip::parse_trip(gloam::test::kFullTrip, "full.toml").value();
}

inline EventKey dawn_at_salt_steps() {
    return {"Invented week", "Salt Steps", parse_civil_date("2025-01-29").value(), astro::EventKind::kDawn};
}

/// A call of which every field is set; all of it is invented.
inline CallRecord invented_call() {
    CallRecord call;
    call.head = {dawn_at_salt_steps(), Look::kEvening, kDuringTrip, "provisional", 0.4, 0.25, std::nullopt};
    call.runs = {{"aa11", "one model", instant("2025-01-28T12:00:00Z")},
                 {"bb22", "another model", instant("2025-01-28T06:00:00Z")}};
    call.inputs = "{\"class\":\"good\"}";
    call.model_version = "0.1.0";
    call.tables_hash = "cc33";
    call.states = {std::byte{0}, std::byte{255}, std::byte{7}, std::byte{0}};
    call.output = "Provisional. Odds 4 in 10.\n";
    return call;
}

}  // namespace gloam::journal::test
