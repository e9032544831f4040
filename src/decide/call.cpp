#include "decide/call.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace gloam::decide {

std::string_view name_of(Decision decision) {
    switch (decision) {
        case Decision::kGo:
            return "go";
        case Decision::kStay:
            return "stay";
        case Decision::kLookAgain:
            break;
    }
    return "look_again";
}

Result<double> threshold_for(double starts_for_one) {
    if (!(starts_for_one >= 0.0 && starts_for_one <= 100.0)) {
        return fail(
            ErrorKind::kBadInput,
            fmt::format("{} early starts for one good dawn cannot be used", starts_for_one), "starts_for_one",
            "give a number from 0 to 100: how many starts for nothing would you trade for one good dawn?");
    }
    return 1.0 / (starts_for_one + 1.0);
}

Call decide(const Chances& chances, double threshold) {
    const auto answer = [threshold](double odds) {
        return odds > threshold ? Decision::kGo : Decision::kStay;
    };
    Call call{answer(chances.odds), chances.odds, threshold};
    if (chances.by_reading && !std::all_of(chances.by_reading->begin(), chances.by_reading->end(),
                                           [&](double odds) { return answer(odds) == call.decision; })) {
        call.decision = Decision::kLookAgain;
    }
    return call;
}

}  // namespace gloam::decide
