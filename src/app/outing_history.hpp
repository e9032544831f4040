#pragma once

#include <optional>

#include "app/outing_basis.hpp"
#include "journal/journal.hpp"

namespace gloam::app {

/// The answer of a call that holds: the leader's own if it was overruled.
std::string answer_that_holds(const journal::StoredCall& call);

/// What the journal knows of an event before a new look.
struct EventHistory {
    std::optional<CalledBefore> before;             ///< the last yes or no
    std::optional<decide::KnownWarnings> warnings;  ///< of the last look
    std::optional<std::string> seen;                ///< the last sign that the leader saw
    std::vector<SetAside> set_aside;
    int starts_spent =
        0;  ///< dawns of the trip before this date for which the last word at some place was yes
};

/// Errors: those of the journal.
Result<EventHistory> history_of(const journal::Journal& journal, const journal::EventKey& event);

}  // namespace gloam::app
