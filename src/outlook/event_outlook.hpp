#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "outlook/event_sample.hpp"
#include "outlook/member_course.hpp"
#include "outlook/odds.hpp"
#include "outlook/reason.hpp"
#include "sky/sky_tables.hpp"

namespace gloam::outlook {

/// When and where to look.
struct BestWindow {
    Instant from;
    Instant to;
    Azimuth azimuth;                  ///< middle of the most coloured part of the sky
    std::optional<Instant> opposite;  ///< when the sky away from the sun is worth a turn of the head
};

/// What the members make of an event.
struct EventOutlook {
    std::vector<Moment> moments;
    std::vector<MemberCourse> members;
    Odds odds;
    Spread after;                ///< colour strength, sun -6 to -0.5 deg
    std::optional<Spread> gold;  ///< sun -0.5 to +3 deg
    Spread minutes_good;         ///< minutes at class good or better
    BestWindow window;
    std::vector<Reason> reasons;
    /// Total cover alone: the odds if all of it lay low, in the middle, high.
    std::optional<std::array<Odds, 3>> odds_by_assumed_band;
    std::vector<std::string> missing;  ///< what the forecast does not say, in words
};

/// Computes the sky of every event, member by member, moment by moment, and reads everything off it: the
/// sun's light alone, since moon and stars change strength only where the sun is below -6 deg. Events that
/// are asked for together share what they have in common (see_members()); each is what it would be alone.
/// Same bytes on any number of threads.
std::vector<EventOutlook> look_out(const sky::SkyTables& tables, std::span<const EventSample> samples);
/// One event alone.
EventOutlook look_out(const sky::SkyTables& tables, const EventSample& sample);

}  // namespace gloam::outlook
