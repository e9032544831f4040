#include "app/call_wishes.hpp"

#include <fmt/format.h>

#include "decide/call.hpp"
#include "geo/quoted.hpp"

namespace gloam::app {

Result<outlook::OutcomeClass> class_wanted(const EventInputs& inputs, const CallWishes& wishes) {
    using outlook::OutcomeClass;
    const std::string word = wishes.outcome_class.value_or(inputs.config.outcome_class.value_or("good"));
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
    const trip::Group group = inputs.trip ? inputs.trip->group : trip::Group{};
    if (const auto own = dawn ? group.starts_for_one_dawn : group.starts_for_one_dusk) {
        return *own;
    }
    if (dawn && inputs.config.starts_for_one) {
        return *inputs.config.starts_for_one;
    }
    return dawn ? decide::kStartsForOneDawn : decide::kStartsForOneDusk;
}

}  // namespace gloam::app
