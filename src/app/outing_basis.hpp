#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/event_inputs.hpp"
#include "decide/cautions.hpp"

namespace gloam::app {

/// Which look at an event an outing is decided in.
enum class OutingLook { kEvening, kMorning };

/// What was called of the same event before.
struct CalledBefore {
    std::int64_t call = 0;  ///< its number in the journal
    OutingLook look = OutingLook::kEvening;
    Instant made_at;
    std::string answer;  ///< in a word; the leader's own if the call was overruled
    double odds = 0.0;
};

/// A caution that the leader set aside, by its text: one that says anything else needs a reason of its own.
struct SetAside {
    std::string caution;
    std::string reason;
};

/// Everything a decision about an outing stands on besides the sampled sky: with the sample it makes the same
/// decision again, without the forecast's files, the journal or a clock.
struct OutingBasis {
    OutingLook look = OutingLook::kEvening;
    Instant now = {};
    std::optional<trip::Trip> trip = {};
    ResolvedPlace place;
    CivilDate date = {};
    astro::EventKind kind = astro::EventKind::kDawn;
    outlook::OutcomeClass outcome_class = outlook::OutcomeClass::kGood;
    double starts_for_one = 0.0;
    int starts_spent = 0;                  ///< early starts of the trip that the journal knows of
    bool looks_again = true;               ///< whether the leader will look again before the wake time
    std::optional<std::string> seen = {};  ///< the sign that the leader saw, by its word
    std::optional<CalledBefore> before = {};
    std::optional<Instant> home_at = {};       ///< when the group came home the evening before
    std::optional<Instant> driver_since = {};  ///< when the driver's day began
    std::string source = {};                   ///< of the forecast, in words
    Instant run_time = {};
    weather::NearSurface near = {};
    std::optional<decide::KnownWarnings> warnings = {};
    decide::CautionLimits limits = {};
    std::vector<SetAside> set_aside = {};
};

/// The basis as JSON, every number to the bit.
std::string to_json(const OutingBasis& basis);

/// The basis that to_json() was given. Error (kUnreadable): text of another kind or version.
Result<OutingBasis> parse_outing_basis(std::string_view json);

}  // namespace gloam::app
