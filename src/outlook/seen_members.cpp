#include "outlook/seen_members.hpp"

#include <algorithm>
#include <tuple>

#include "base/parallel.hpp"
#include "sky/sky_mixer.hpp"

namespace gloam::outlook {
namespace {

/// A member of an event, and where it is to be kept.
struct Look {
    const EventSample* event;
    const SampledMember* member;
    SeenMember* seen;

    double viewer_m() const { return event->viewer_height.metres; }
    /// By this order members that share an air stand together, and among them those that share its palette.
    friend bool operator<(const Look& a, const Look& b) {
        return std::tuple(a.member->atmosphere, a.viewer_m()) <
               std::tuple(b.member->atmosphere, b.viewer_m());
    }
};

/// A moment of a member.
struct Glance {
    Angle sun;
    const Look* look;
    std::size_t moment;
};

/// Parts `items` where neighbours differ in `what`.
template <class T, class What>
std::vector<std::span<const T>> parted(std::span<const T> items, const What& what) {
    std::vector<std::span<const T>> parts;
    for (std::size_t begin = 0, end = 0; begin < items.size(); begin = end) {
        while (end < items.size() && what(items[end]) == what(items[begin])) {
            ++end;
        }
        parts.push_back(items.subspan(begin, end - begin));
    }
    return parts;
}

/// All moments of the members, by the sun's elevation.
std::vector<Glance> glances_of(std::span<const Look> looks) {
    std::vector<Glance> glances;
    for (const Look& look : looks) {
        const auto& moments = look.event->moments;
        for (std::size_t i = 0; i < moments.size(); ++i) {
            glances.push_back({moments[i].sun.elevation, &look, i});
        }
    }
    std::ranges::stable_sort(glances, {}, &Glance::sun);
    return glances;
}

weather::Band band_of(sky::CloudClass kind) {
    return weather::kBands[static_cast<std::size_t>(kind)];
}

MemberVerdict judge_member(const sky::Air& air, const EventSample& event, const SampledMember& member,
                           const MemberCourse& course) {
    const std::size_t moment = course.after.moment;
    const sky::CloudField clouds(member.clouds.at(event.moments[moment].instant));
    const LightVerdict light = judge_light(event.moments, moment, air.beam, clouds, event.viewer_height);
    return {light, band_of(clouds.layers()[light.canvas].kind), band_of(clouds.layers()[light.blocker].kind)};
}

/// Members under one air and at one height.
void see_from_one_height(const sky::Air& air, std::span<const Look> looks) {
    const sky::AirPalette palette(air, looks.front().viewer_m());
    for (const Look& look : looks) {
        look.seen->course.strengths.resize(look.event->moments.size());
    }
    const auto glances = glances_of(looks);
    sky::MixedSky mixed;
    for (const auto together : parted(std::span(glances), [](const Glance& glance) { return glance.sun; })) {
        const sky::SkyPalette light(palette, together.front().sun);
        for (const auto& [sun, look, i] : together) {
            const Moment& moment = look->event->moments[i];
            mix(light, sky::CloudLines(look->member->clouds.at(moment.instant)), moment.sun.distance_au,
                mixed);
            look->seen->course.strengths[i] = colour_strength(mixed);
        }
    }
    for (const Look& look : looks) {
        SeenMember& seen = *look.seen;
        seen.course = read_course(look.event->moments, std::move(seen.course.strengths));
        seen.verdict = judge_member(air, *look.event, *look.member, seen.course);
    }
}

}  // namespace

std::vector<std::vector<SeenMember>> see_members(const sky::SkyTables& tables,
                                                 std::span<const EventSample> events) {
    std::vector<std::vector<SeenMember>> seen;
    std::vector<Look> looks;
    for (const EventSample& event : events) {
        seen.emplace_back(event.members.size());
        for (std::size_t i = 0; i < event.members.size(); ++i) {
            looks.push_back({&event, &event.members[i], &seen.back()[i]});
        }
    }
    std::ranges::stable_sort(looks, std::less());
    const auto airs =
        parted(std::span<const Look>(looks), [](const Look& look) { return look.member->atmosphere; });
    parallel_for(airs.size(), [&](std::size_t i) {
        const sky::Air air(tables, airs[i].front().member->atmosphere);
        for (const auto at_one_height : parted(airs[i], [](const Look& look) { return look.viewer_m(); })) {
            see_from_one_height(air, at_one_height);
        }
    });
    return seen;
}

}  // namespace gloam::outlook
