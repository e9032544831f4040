#include "sheet/ray_light.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace gloam::sheet {
namespace {

/// Share of a stretch that light from the sun has behind it when it reaches a distance.
double share_passed(const outlook::SectionMeeting& meeting, double along_m) {
    const double length_m = meeting.to_m - meeting.from_m;
    if (!(length_m > 0.0)) {
        return along_m < meeting.to_m ? 1.0 : 0.0;
    }
    return std::clamp((meeting.to_m - along_m) / length_m, 0.0, 1.0);
}

}  // namespace

double light_left(const outlook::SectionRay& ray, double along_m) {
    double left = ray.lit ? 1.0 : 0.0;
    for (const outlook::SectionMeeting& meeting : ray.meetings) {
        left *= std::pow(meeting.free, share_passed(meeting, along_m));
    }
    return left;
}

std::optional<RayStop> stop_of(const outlook::SectionRay& ray) {
    if (!ray.lit) {
        return std::nullopt;
    }
    std::vector<outlook::SectionMeeting> sunwards_first(ray.meetings.rbegin(), ray.meetings.rend());
    for (const outlook::SectionMeeting& meeting : sunwards_first) {
        if (light_left(ray, meeting.from_m) >= kMostlyBlocked) {
            continue;
        }
        double dark_m = meeting.from_m;
        double bright_m = meeting.to_m;
        for (int halving = 0; halving < 40; ++halving) {
            const double middle_m = std::midpoint(dark_m, bright_m);
            (light_left(ray, middle_m) < kMostlyBlocked ? dark_m : bright_m) = middle_m;
        }
        return RayStop{bright_m, meeting.band};
    }
    return std::nullopt;
}

}  // namespace gloam::sheet
