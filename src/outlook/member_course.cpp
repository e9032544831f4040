#include "outlook/member_course.hpp"

#include <algorithm>

#include "base/check.hpp"

namespace gloam::outlook {
namespace {

constexpr double kBestShare = 0.75;

using Phase = bool (*)(Angle);

std::optional<Peak> peak_of(std::span<const Moment> moments, std::span<const sky::ColourStrength> strengths,
                            Phase in_phase) {
    std::optional<Peak> peak;
    std::optional<std::size_t> first;
    std::size_t last = 0;
    for (std::size_t i = 0; i < moments.size(); ++i) {
        if (!in_phase(moments[i].sun.elevation)) {
            continue;
        }
        first = first.value_or(i);
        last = i;
        if (!peak || strengths[i].value > peak->strength) {
            peak = Peak{strengths[i].value, i, false};
        }
    }
    if (peak) {
        peak->at_edge = peak->moment == *first || peak->moment == last;
    }
    return peak;
}

Stretch stretch_around(std::span<const Moment> moments, std::span<const sky::ColourStrength> strengths,
                       const Peak& peak) {
    const auto good = [&](std::size_t i) {
        return is_after(moments[i].sun.elevation) && strengths[i].value >= kBestShare * peak.strength;
    };
    Stretch stretch{peak.moment, peak.moment};
    while (stretch.first > 0 && good(stretch.first - 1)) {
        --stretch.first;
    }
    while (stretch.last + 1 < moments.size() && good(stretch.last + 1)) {
        ++stretch.last;
    }
    return stretch;
}

}  // namespace

MemberCourse read_course(std::span<const Moment> moments, std::vector<sky::ColourStrength> strengths) {
    GLOAM_CHECK(moments.size() == strengths.size());
    MemberCourse course;
    const auto after = peak_of(moments, strengths, is_after);
    GLOAM_CHECK(after.has_value());
    course.after = *after;
    course.gold = peak_of(moments, strengths, is_gold);
    course.best = stretch_around(moments, strengths, course.after);
    course.strengths = std::move(strengths);
    return course;
}

double minutes_above(std::span<const Moment> moments, const MemberCourse& course, double limit) {
    double minutes = 0.0;
    for (std::size_t i = 0; i + 1 < moments.size(); ++i) {
        if (!is_after(moments[i].sun.elevation) || !is_after(moments[i + 1].sun.elevation)) {
            continue;
        }
        const double a = course.strengths[i].value - limit;
        const double b = course.strengths[i + 1].value - limit;
        const double high = std::max(a, b);
        const double low = std::min(a, b);
        const double share = low >= 0.0 ? 1.0 : high <= 0.0 ? 0.0 : high / (high - low);
        minutes += share * 60.0 * hours_between(moments[i].instant, moments[i + 1].instant);
    }
    return minutes;
}

}  // namespace gloam::outlook
