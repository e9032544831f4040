#pragma once

#include <string_view>

namespace gloam::decide {

/// What the evening may say.
enum class EveningAnswer {
    kOn,           ///< commit: alarms set, everyone sleeps
    kProvisional,  ///< an alarm for the leader alone, who looks again in the small hours
    kSleep,        ///< nobody sets an alarm
};

/// "on", "provisional" or "sleep".
std::string_view name_of(EveningAnswer answer);

/// What a second look costs and how much it may change. The defaults are starting rules, no source, in force
/// until 30 pairs of looks are logged.
struct SecondLook {
    bool possible = true;     ///< false: no newer forecast comes in time, or nobody will be awake to read it
    double steadiness = 8.0;  ///< phi: odds p in the evening become Beta(p phi, (1 - p) phi) by morning; > 0
    double bother = 0.03;     ///< w: what being forewarned for nothing costs the group, in good dawns
    double alarm = 0.02;      ///< k: what the leader's own short night costs, in good dawns
};

/// What each answer is worth, in good dawns, against sleeping on.
struct EveningWorth {
    double commit = 0.0;  ///< p - threshold
    double wait = 0.0;    ///< E[max(0, p2 - threshold)] - w - k; -infinity if no second look is possible
};

/// The mean of max(0, p2 - threshold) over the odds p2 that a second look may show. odds in [0, 1],
/// steadiness > 0. The mean over a Beta distribution in closed form, by the regularised incomplete beta
/// function (Abramowitz and Stegun 26.5).
double mean_gain(double odds, double threshold, double steadiness);

/// The worth of each answer at these odds, held against a threshold that may be infinite (no start left).
EveningWorth worth_of_evening(double odds, double threshold, const SecondLook& second);

/// The answer worth most; what is worth no more than sleeping on is sleep.
EveningAnswer evening_answer(const EveningWorth& worth);

/// Least odds for which waiting is worth more than sleeping on: where a forewarning begins. 1 if none are,
/// and the threshold itself if no second look is possible.
double forewarning_odds(double threshold, const SecondLook& second);

}  // namespace gloam::decide
