#include "outlook/event_outlook.hpp"

#include <algorithm>
#include <cmath>
#include <memory>

#include "base/parallel.hpp"
#include "outlook/cloud_scene.hpp"
#include "outlook/members.hpp"
#include "outlook/missing.hpp"
#include "weather/served_times.hpp"

namespace gloam::outlook {
namespace {

/// A member with its air made ready.
struct ReadyMember {
    Member member;
    std::unique_ptr<sky::Air> air;
    std::unique_ptr<sky::SkyPainter> painter;
};

std::vector<ReadyMember> make_ready(const sky::SkyTables& tables, const weather::LayeredForecast& forecast,
                                    const EventRequest& request) {
    std::vector<ReadyMember> ready;
    for (const Member& member : members_of(forecast, request)) {
        ready.push_back({member, nullptr, nullptr});
    }
    parallel_for(ready.size(), [&](std::size_t i) {
        ready[i].air = std::make_unique<sky::Air>(tables, atmosphere_of(ready[i].member.draw, request));
        ready[i].painter = std::make_unique<sky::SkyPainter>(*ready[i].air, request.observer.height.metres,
                                                             sky::PanoramaGrid::standard());
    });
    return ready;
}

Result<sky::CloudField> clouds_at(const weather::LayeredForecast& forecast, const EventRequest& request,
                                  const Member& member, const Moment& moment) {
    return sample_light_path(forecast, member.forecast_member, request.observer.at, moment.azimuth,
                             moment.instant, member.draw.displacement)
        .map([&](const PathLayers& layers) {
            return cloud_scene(assume(layers, member.path, member.draw.believed_m), member.draw, member.only);
        });
}

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

std::optional<Error> first_error(const std::vector<std::optional<Error>>& errors) {
    const auto found =
        std::find_if(errors.begin(), errors.end(), [](const auto& error) { return error.has_value(); });
    return found == errors.end() ? std::nullopt : *found;
}

/// Colour strength of every member at every moment.
Result<std::vector<MemberCourse>> run_members(const weather::LayeredForecast& forecast,
                                              const EventRequest& request,
                                              const std::vector<ReadyMember>& members,
                                              const std::vector<Moment>& moments) {
    std::vector<std::vector<sky::ColourStrength>> strengths(members.size(),
                                                            std::vector<sky::ColourStrength>(moments.size()));
    std::vector<std::optional<Error>> errors(members.size() * moments.size());
    parallel_for(errors.size(), [&](std::size_t task) {
        const std::size_t i = task / moments.size();
        const std::size_t j = task % moments.size();
        const auto clouds = clouds_at(forecast, request, members[i].member, moments[j]);
        if (!clouds) {
            errors[task] = clouds.error();
            return;
        }
        strengths[i][j] = colour_strength(members[i].painter->paint(*clouds, moments[j].sun));
    });
    if (const auto error = first_error(errors)) {
        return tl::unexpected(*error);
    }
    std::vector<MemberCourse> courses;
    courses.reserve(strengths.size());
    for (auto& course : strengths) {
        courses.push_back(read_course(moments, std::move(course)));
    }
    return courses;
}

weather::Band band_of(sky::CloudClass kind) {
    return weather::kBands[static_cast<std::size_t>(kind)];
}

Result<std::vector<MemberVerdict>> judge_members(const weather::LayeredForecast& forecast,
                                                 const EventRequest& request,
                                                 const std::vector<ReadyMember>& members,
                                                 const std::vector<MemberCourse>& courses,
                                                 const std::vector<Moment>& moments) {
    std::vector<MemberVerdict> verdicts;
    for (std::size_t i = 0; i < members.size(); ++i) {
        const std::size_t moment = courses[i].after.moment;
        const auto clouds = clouds_at(forecast, request, members[i].member, moments[moment]);
        if (!clouds) {
            return tl::unexpected(clouds.error());
        }
        MemberVerdict verdict{
            judge_light(moments, moment, members[i].air->beam, *clouds, request.observer.height), {}, {}};
        verdict.canvas = band_of(clouds->layers()[verdict.light.canvas].kind);
        verdict.blocker = band_of(clouds->layers()[verdict.light.blocker].kind);
        verdicts.push_back(verdict);
    }
    return verdicts;
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
    const auto members = make_ready(tables, forecast, request);
    const auto courses = run_members(forecast, request, members, *moments);
    if (!courses) {
        return tl::unexpected(courses.error());
    }
    const auto verdicts = judge_members(forecast, request, members, *courses, *moments);
    if (!verdicts) {
        return tl::unexpected(verdicts.error());
    }
    EventOutlook outlook;
    const auto after = each(*courses, [](const MemberCourse& course) { return course.after.strength; });
    outlook.odds = odds_of(after);
    outlook.after = spread_of(after);
    if (courses->front().gold) {
        outlook.gold =
            spread_of(each(*courses, [](const MemberCourse& course) { return course.gold->strength; }));
    }
    outlook.minutes_good = spread_of(each(*courses, [&](const MemberCourse& course) {
        return minutes_above(*moments, course, class_limit(OutcomeClass::kGood));
    }));
    outlook.window = window_of(*moments, *courses);
    outlook.reasons = reasons_of(*verdicts, (*moments)[courses->front().after.moment].azimuth);
    if (forecast.route == weather::LayerRoute::kTotalOnly) {
        outlook.odds_by_assumed_band = odds_by_band(*courses);
    }
    outlook.missing = missing_in(forecast, *moments, members.front().air->atmosphere.ozone_du);
    outlook.moments = *moments;
    outlook.members = *courses;
    return outlook;
}

}  // namespace gloam::outlook
