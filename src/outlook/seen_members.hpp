#pragma once

#include <span>
#include <vector>

#include "outlook/event_sample.hpp"
#include "outlook/member_course.hpp"
#include "outlook/reason.hpp"
#include "sky/sky_tables.hpp"

namespace gloam::outlook {

/// What is kept of a member of an event.
struct SeenMember {
    MemberCourse course;
    MemberVerdict verdict;
};

/// Looks at every member of every event, side by side; by event, the members in their order. Clear air is
/// most of the cost of a sky, so members of all events that have one air share it; at one viewer's height its
/// palette; at one sun elevation its light. A thread keeps one air, palette and light at a time. Same bytes
/// on any number of threads.
std::vector<std::vector<SeenMember>> see_members(const sky::SkyTables& tables,
                                                 std::span<const EventSample> events);

}  // namespace gloam::outlook
