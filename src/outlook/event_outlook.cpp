#include "outlook/event_outlook.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/parallel.hpp"
#include "outlook/member_air.hpp"
#include "outlook/members.hpp"
#include "outlook/missing.hpp"
#include "outlook/moving_clouds.hpp"
#include "sky/sky_mixer.hpp"
#include "weather/served_times.hpp"

namespace gloam::outlook {
namespace {

/// Moments that the forecast serves; refused if one that decides is not among them.
Result<std::vector<Moment>> served_moments(const weather::LayeredForecast& forecast,
                                           const EventRequest& request) {
    auto moments = moments_of(request.observer, request.half_day);
    if (!moments) {
        return moments;
    }
    for (const Moment& moment : *moments) {
        if (is_after(moment.sun.elevation) && !serves(forecast, moment.instant)) {
            auto refusal =
                sample_light_path(forecast, 0, request.observer.at, moment.azimuth, moment.instant, {});
            return tl::unexpected(refusal.error());
        }
    }
    std::erase_if(*moments, [&](const Moment& moment) { return !serves(forecast, moment.instant); });
    return moments;
}

/// Colour strength of one member at every moment.
Result<std::vector<sky::ColourStrength>> run_member(const sky::AirPalette& palette,
                                                    const weather::LayeredForecast& forecast,
                                                    const EventRequest& request, const Member& member,
                                                    const std::vector<Moment>& moments) {
    const auto clouds = MovingClouds::of(forecast, member, request.observer.at, moments);
    if (!clouds) {
        return tl::unexpected(clouds.error());
    }
    std::vector<sky::ColourStrength> strengths;
    strengths.reserve(moments.size());
    sky::MixedSky mixed;
    for (std::size_t i = 0; i < moments.size(); ++i) {
        const sky::SunState& sun = moments[i].sun;
        mix(sky::SkyPalette(palette, sun.elevation), sky::CloudLines(clouds->at(i)), sun.distance_au, mixed);
        strengths.push_back(colour_strength(mixed));
    }
    return strengths;
}

weather::Band band_of(sky::CloudClass kind) {
    return weather::kBands[static_cast<std::size_t>(kind)];
}

Result<MemberVerdict> judge_member(const sky::Air& air, const weather::LayeredForecast& forecast,
                                   const EventRequest& request, const Member& member,
                                   const MemberCourse& course, const std::vector<Moment>& moments) {
    const std::size_t moment = course.after.moment;
    return member_clouds(forecast, member, request.observer.at, moments[moment].azimuth,
                         moments[moment].instant)
        .map([&](const std::vector<sky::CloudLayer>& layers) {
            const sky::CloudField clouds(layers);
            MemberVerdict verdict{
                judge_light(moments, moment, air.beam, clouds, request.observer.height), {}, {}};
            verdict.canvas = band_of(clouds.layers()[verdict.light.canvas].kind);
            verdict.blocker = band_of(clouds.layers()[verdict.light.blocker].kind);
            return verdict;
        });
}

/// What look_out() keeps of a member.
struct SeenMember {
    MemberCourse course;
    MemberVerdict verdict;
};

Result<SeenMember> see_member(const sky::SkyTables& tables, const weather::LayeredForecast& forecast,
                              const EventRequest& request, const Member& member,
                              const std::vector<Moment>& moments) {
    const sky::Air air(tables, atmosphere_of(member.draw, request));
    auto strengths =
        run_member(sky::AirPalette(air, request.observer.height.metres), forecast, request, member, moments);
    if (!strengths) {
        return tl::unexpected(strengths.error());
    }
    MemberCourse course = read_course(moments, *std::move(strengths));
    return judge_member(air, forecast, request, member, course, moments)
        .map([&](const MemberVerdict& verdict) {
            return SeenMember{std::move(course), verdict};
        });
}

/// All members, side by side; the first error if any has one.
Result<std::vector<SeenMember>> see_members(const sky::SkyTables& tables,
                                            const weather::LayeredForecast& forecast,
                                            const EventRequest& request, const std::vector<Member>& members,
                                            const std::vector<Moment>& moments) {
    std::vector<std::optional<Result<SeenMember>>> seen(members.size());
    parallel_for(members.size(), [&](std::size_t i) {
        seen[i].emplace(see_member(tables, forecast, request, members[i], moments));
    });
    std::vector<SeenMember> all;
    all.reserve(seen.size());
    for (auto& one : seen) {
        if (!*one) {
            return tl::unexpected(one->error());
        }
        all.push_back(std::move(**one));
    }
    return all;
}

/// Indices of the stronger half of the members: those whose window is worth telling.
std::vector<std::size_t> stronger_half(const std::vector<MemberCourse>& courses) {
    std::vector<std::size_t> order(courses.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        order[i] = i;
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return courses[a].after.strength > courses[b].after.strength;
    });
    order.resize((order.size() + 1) / 2);
    return order;
}

Instant median_instant(const std::vector<Moment>& moments, const std::vector<std::size_t>& places) {
    std::vector<double> hours_in;
    hours_in.reserve(places.size());
    for (const std::size_t place : places) {
        hours_in.push_back(hours_between(moments.front().instant, moments[place].instant));
    }
    return moments.front().instant + hours(quantile(hours_in, 0.5));
}

/// The strongest moment of the sky away from the sun, if it is worth a turn of the head: slight at least, and
/// half of what is in front.
std::optional<std::size_t> opposite_moment(const std::vector<Moment>& moments, const MemberCourse& course) {
    std::optional<std::size_t> best;
    for (std::size_t i = 0; i < moments.size(); ++i) {
        const auto& here = course.strengths[i];
        const bool worth = is_after(moments[i].sun.elevation) &&
                           here.opposite >= class_limit(OutcomeClass::kSlight) &&
                           here.opposite >= 0.5 * here.facing;
        if (worth && (!best || here.opposite > course.strengths[*best].opposite)) {
            best = i;
        }
    }
    return best;
}

BestWindow window_of(const std::vector<Moment>& moments, const std::vector<MemberCourse>& courses) {
    std::vector<std::size_t> firsts;
    std::vector<std::size_t> lasts;
    std::vector<std::size_t> peaks;
    std::vector<std::size_t> opposites;
    std::vector<double> turns_deg;
    const auto chosen = stronger_half(courses);
    for (const std::size_t i : chosen) {
        const MemberCourse& course = courses[i];
        firsts.push_back(course.best.first);
        lasts.push_back(course.best.last);
        peaks.push_back(course.after.moment);
        turns_deg.push_back(course.strengths[course.after.moment].best_azimuth.degrees());
        if (const auto opposite = opposite_moment(moments, course)) {
            opposites.push_back(*opposite);
        }
    }
    BestWindow window{median_instant(moments, firsts), median_instant(moments, lasts), {}, std::nullopt};
    std::sort(peaks.begin(), peaks.end());
    const Moment& middle = moments[peaks[peaks.size() / 2]];
    window.azimuth = Azimuth::degrees(middle.azimuth.degrees() + quantile(turns_deg, 0.5));
    if (opposites.size() * 2 > chosen.size()) {
        window.opposite = median_instant(moments, opposites);
    }
    return window;
}

std::vector<double> each(const std::vector<MemberCourse>& courses, const auto& value) {
    std::vector<double> values;
    values.reserve(courses.size());
    for (const MemberCourse& course : courses) {
        values.push_back(value(course));
    }
    return values;
}

std::array<Odds, 3> odds_by_band(const std::vector<MemberCourse>& courses) {
    std::array<std::vector<double>, 3> strengths;
    for (std::size_t i = 0; i < courses.size(); ++i) {
        strengths[i % 3].push_back(courses[i].after.strength);
    }
    return {odds_of(strengths[0]), odds_of(strengths[1]), odds_of(strengths[2])};
}

}  // namespace

Result<EventOutlook> look_out(const sky::SkyTables& tables, const weather::LayeredForecast& forecast,
                              const EventRequest& request) {
    const auto moments = served_moments(forecast, request);
    if (!moments) {
        return tl::unexpected(moments.error());
    }
    const auto members = members_of(forecast, request);
    auto seen = see_members(tables, forecast, request, members, *moments);
    if (!seen) {
        return tl::unexpected(seen.error());
    }
    std::vector<MemberCourse> courses;
    std::vector<MemberVerdict> verdicts;
    for (SeenMember& one : *seen) {
        courses.push_back(std::move(one.course));
        verdicts.push_back(one.verdict);
    }
    EventOutlook outlook;
    const auto after = each(courses, [](const MemberCourse& course) { return course.after.strength; });
    outlook.odds = odds_of(after);
    outlook.after = spread_of(after);
    if (courses.front().gold) {
        outlook.gold =
            spread_of(each(courses, [](const MemberCourse& course) { return course.gold->strength; }));
    }
    outlook.minutes_good = spread_of(each(courses, [&](const MemberCourse& course) {
        return minutes_above(*moments, course, class_limit(OutcomeClass::kGood));
    }));
    outlook.window = window_of(*moments, courses);
    outlook.reasons = reasons_of(verdicts, (*moments)[courses.front().after.moment].azimuth);
    if (forecast.route == weather::LayerRoute::kTotalOnly) {
        outlook.odds_by_assumed_band = odds_by_band(courses);
    }
    outlook.missing = missing_in(forecast, *moments, atmosphere_of(members.front().draw, request).ozone_du);
    outlook.moments = *moments;
    outlook.members = courses;
    return outlook;
}

}  // namespace gloam::outlook
