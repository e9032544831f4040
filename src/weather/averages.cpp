#include "weather/averages.hpp"

#include <algorithm>
#include <tuple>

#include "base/check.hpp"

namespace gloam::weather {
namespace {

constexpr double kLeastShare = 1.0 / 3.0;

double length_h(const RouteStep& step) {
    return hours_between(step.from, step.to);
}

/// The longest average that starts with `whole` and leaves enough of it; null if there is none.
const RouteStep* part_of(const RouteStep& whole, const std::vector<RouteStep>& steps) {
    const RouteStep* longest = nullptr;
    for (const RouteStep& step : steps) {
        const bool starts_alike = step.member == whole.member && step.from == whole.from;
        const double left_h = hours_between(step.to, whole.to);
        if (starts_alike && left_h > 0.0 && left_h >= kLeastShare * length_h(whole)) {
            longest = &step;  // in time order: each later one is longer
        }
    }
    return longest;
}

Field later_part(const Field& whole, const Field& earlier) {
    const double whole_h = hours_between(whole.from, whole.to);
    const double earlier_h = hours_between(earlier.from, earlier.to);
    Field part{static_cast<const FieldHeader&>(whole), {}, whole.present};
    part.from = earlier.to;
    part.values.resize(whole.values.size());
    std::ranges::transform(whole.values, earlier.values, part.values.begin(), [=](float a, float b) {
        const double sum = whole_h * static_cast<double>(a) - earlier_h * static_cast<double>(b);
        return static_cast<float>(std::clamp(sum / (whole_h - earlier_h), 0.0, 1.0));
    });
    if (part.present.empty()) {
        part.present = earlier.present;
    } else if (!earlier.present.empty()) {
        std::ranges::transform(part.present, earlier.present, part.present.begin(),
                               [](auto a, auto b) { return std::min(a, b); });
    }
    for (std::size_t cell = 0; cell < part.present.size(); ++cell) {
        part.values[cell] = part.present[cell] != 0 ? part.values[cell] : 0.0F;
    }
    return part;
}

}  // namespace

void take_off_earlier_parts(std::vector<RouteStep>& steps) {
    const std::vector<RouteStep> whole = steps;
    for (RouteStep& step : steps) {
        if (const RouteStep* part = part_of(step, whole)) {
            step.earlier = part->cover;
            step.from = part->to;
        }
    }
    // A part may start after the start of an average that follows.
    std::ranges::stable_sort(steps, [](const RouteStep& a, const RouteStep& b) {
        return std::tie(a.member, a.from, a.to) < std::tie(b.member, b.from, b.to);
    });
}

std::vector<Field> later_part(const RouteStep& step) {
    GLOAM_CHECK(step.earlier.size() == step.cover.size());
    std::vector<Field> parts;
    parts.reserve(step.cover.size());
    for (std::size_t i = 0; i < step.cover.size(); ++i) {
        parts.push_back(later_part(*step.cover[i], *step.earlier[i]));
    }
    return parts;
}

}  // namespace gloam::weather
