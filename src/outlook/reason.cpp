#include "outlook/reason.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <tuple>

#include "geo/position.hpp"
#include "outlook/odds.hpp"

namespace gloam::outlook {
namespace {

using Group = std::vector<const LightVerdict*>;

/// Members are alike if the same thing happened through the same layers.
std::tuple<Verdict, weather::Band, weather::Band> key_of(const MemberVerdict& member) {
    switch (member.light.verdict) {
        case Verdict::kOpen:
        case Verdict::kHidden:
            return {member.light.verdict, member.canvas, weather::Band::kLow};
        case Verdict::kShut:
            return {member.light.verdict, member.canvas, member.blocker};
        case Verdict::kNoCanvas:
            break;
    }
    return {Verdict::kNoCanvas, weather::Band::kHigh, weather::Band::kLow};
}

double median_of(const Group& group, double LightVerdict::*value) {
    std::vector<double> values;
    for (const LightVerdict* light : group) {
        values.push_back(light->*value);
    }
    return quantile(values, 0.5);
}

std::string capitalised(std::string_view text) {
    std::string result(text);
    result[0] = static_cast<char>(result[0] - 'a' + 'A');
    return result;
}

/// Distances are told to 10 km; the ground behind the viewer is "overhead".
std::string stretch_in_words(const Reason& reason) {
    const auto tens = [](double metres) { return static_cast<int>(std::lround(metres / 10.0e3)) * 10; };
    const int from = tens(std::max(0.0, reason.blocked_from_m));
    const int to = std::max(from + 10, tens(reason.blocked_to_m));
    return fmt::format("{} to {} km to the {}", from, to, geo::compass_point(reason.towards_sun));
}

std::string amount_in_words(double cover) {
    if (cover >= 0.875) {
        return "over nearly all the sky";
    }
    if (cover >= 0.6) {
        return "over most of the sky";
    }
    if (cover >= 0.4) {
        return "over half the sky";
    }
    return "over part of the sky";
}

}  // namespace

std::vector<Reason> reasons_of(std::span<const MemberVerdict> verdicts, Azimuth towards_sun) {
    std::map<std::tuple<Verdict, weather::Band, weather::Band>, Group> groups;
    for (const MemberVerdict& member : verdicts) {
        groups[key_of(member)].push_back(&member.light);
    }
    std::vector<Reason> reasons;
    for (const auto& [key, group] : groups) {
        if (group.size() * 10 < verdicts.size()) {
            continue;
        }
        Reason reason;
        std::tie(reason.verdict, reason.canvas, reason.blocker) = key;
        reason.canvas_cover = median_of(group, &LightVerdict::canvas_cover);
        reason.canvas_base_m = median_of(group, &LightVerdict::canvas_base_m);
        reason.reach_m = median_of(group, &LightVerdict::reach_m);
        reason.blocked_from_m = median_of(group, &LightVerdict::blocked_from_m);
        reason.blocked_to_m = median_of(group, &LightVerdict::blocked_to_m);
        reason.towards_sun = towards_sun;
        reason.members = static_cast<int>(group.size());
        reason.of = static_cast<int>(verdicts.size());
        reasons.push_back(reason);
    }
    std::stable_sort(reasons.begin(), reasons.end(),
                     [](const Reason& a, const Reason& b) { return a.members > b.members; });
    return reasons;
}

std::string to_text(const Reason& reason) {
    const auto canvas = weather::name_of(reason.canvas);
    switch (reason.verdict) {
        case Verdict::kOpen:
            return fmt::format(
                "{} cloud at {:.1f} km {}, and the sun's rays reach it: open for {:.0f} km to the {}",
                capitalised(canvas), reason.canvas_base_m / 1e3, amount_in_words(reason.canvas_cover),
                std::round(reason.reach_m / 10.0e3) * 10.0, geo::compass_point(reason.towards_sun));
        case Verdict::kShut:
            if (reason.blocker == reason.canvas) {
                return fmt::format("{} cloud at {:.1f} km {}, but more of it {} shuts off its light",
                                   capitalised(canvas), reason.canvas_base_m / 1e3,
                                   amount_in_words(reason.canvas_cover), stretch_in_words(reason));
            }
            return fmt::format("{} cloud {} keeps the light from the {} cloud at {:.1f} km",
                               capitalised(weather::name_of(reason.blocker)), stretch_in_words(reason),
                               canvas, reason.canvas_base_m / 1e3);
        case Verdict::kHidden:
            return fmt::format(
                "{} cloud covers {:.0f} % of the sky overhead and, seen aslant, hides what is above it",
                capitalised(canvas), 100.0 * reason.canvas_cover);
        case Verdict::kNoCanvas:
            break;
    }
    return "Next to no middle or high cloud that could catch the light: a clear twilight at best";
}

}  // namespace gloam::outlook
