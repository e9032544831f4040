#pragma once

#include <optional>
#include <string>

#include "app/event_inputs.hpp"

namespace gloam::app {

/// What a person may set for one call.
struct CallWishes {
    std::optional<std::string> outcome_class =
        {};                                     ///< "slight" to "outstanding"; else the config's, else good
    std::optional<double> starts_for_one = {};  ///< else the trip's, else (for a dawn) the config's, else 2
                                                ///< for a dawn and 6 for a dusk
    std::optional<Instant> as_of = {};  ///< age of the data is counted to here; else to now, or to an event
                                        ///< that is past
};

/// The class that is wanted. Error (kBadInput): no class by that name.
Result<outlook::OutcomeClass> class_wanted(const EventInputs& inputs, const CallWishes& wishes);

/// Early starts for nothing (at a dusk, ways out) that would be given for one of that class.
double starts_for_one(const EventInputs& inputs, const CallWishes& wishes);

}  // namespace gloam::app
