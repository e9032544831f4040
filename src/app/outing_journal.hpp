#pragma once

#include <string>
#include <vector>

#include "app/call_wishes.hpp"
#include "app/outing_report.hpp"
#include "journal/journal.hpp"

namespace gloam::app {

/// What a person may set for one look at an outing.
struct OutingWishes {
    CallWishes call;
    OutingLook look = OutingLook::kEvening;
    std::string seen;     ///< a sign by its word; empty: nothing was seen
    std::string home_at;  ///< when the group came home the evening before, by the clock; empty: not known
    std::string driver_since;  ///< when the driver's day began, by the clock; empty: not known
    bool looks_again = true;
    std::string warnings_file;                ///< of the Common Alerting Protocol; empty: none
    std::vector<std::string> typed_warnings;  ///< as the leader typed them
};

/// The event of the inputs as the journal knows it. Error (kNotFound): its trip is not in the journal.
Result<journal::EventKey> event_key(const journal::Journal& journal, const EventInputs& inputs);

/// Gathers what a decision stands on, from the inputs, the wishes and what the journal knows of the event;
/// keeps in the journal what was typed anew.
Result<OutingBasis> gather_basis(journal::Journal& journal, const EventInputs& inputs,
                                 const OutingWishes& wishes, Instant now);

/// Records a decision with everything that makes it again, and returns its number.
Result<std::int64_t> record_outing(journal::Journal& journal, const EventInputs& inputs,
                                   const OutingReport& report, const outlook::EventSample& sample);

}  // namespace gloam::app
