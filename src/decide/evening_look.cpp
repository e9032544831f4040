#include "decide/evening_look.hpp"

#include <algorithm>
#include <boost/math/special_functions/beta.hpp>
#include <limits>

namespace gloam::decide {

std::string_view name_of(EveningAnswer answer) {
    switch (answer) {
        case EveningAnswer::kOn:
            return "on";
        case EveningAnswer::kProvisional:
            return "provisional";
        case EveningAnswer::kSleep:
            break;
    }
    return "sleep";
}

double mean_gain(double odds, double threshold, double steadiness) {
    if (odds <= 0.0 || odds >= 1.0 || threshold <= 0.0) {
        return std::max(0.0, odds - threshold);
    }
    if (threshold >= 1.0) {
        return 0.0;
    }
    const double a = odds * steadiness;
    const double b = (1.0 - odds) * steadiness;
    return odds * boost::math::ibetac(a + 1.0, b, threshold) -
           threshold * boost::math::ibetac(a, b, threshold);
}

EveningWorth worth_of_evening(double odds, double threshold, const SecondLook& second) {
    EveningWorth worth{odds - threshold, -std::numeric_limits<double>::infinity()};
    if (second.possible) {
        worth.wait = mean_gain(odds, threshold, second.steadiness) - second.bother - second.alarm;
    }
    return worth;
}

EveningAnswer evening_answer(const EveningWorth& worth) {
    if (std::max(worth.commit, worth.wait) <= 0.0) {
        return EveningAnswer::kSleep;
    }
    return worth.commit >= worth.wait ? EveningAnswer::kOn : EveningAnswer::kProvisional;
}

double forewarning_odds(double threshold, const SecondLook& second) {
    if (!second.possible) {
        return std::min(threshold, 1.0);
    }
    const auto worth_waiting = [&](double odds) {
        return worth_of_evening(odds, threshold, second).wait > 0.0;
    };
    if (!worth_waiting(1.0)) {
        return 1.0;
    }
    double below = 0.0;  // mean_gain() grows with the odds: halve until a double cannot tell
    double above = 1.0;
    for (double middle = 0.5; below < middle && middle < above; middle = 0.5 * (below + above)) {
        (worth_waiting(middle) ? above : below) = middle;
    }
    return above;
}

}  // namespace gloam::decide
