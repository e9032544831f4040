#include "outlook/event_outlook.hpp"

#include <algorithm>
#include <cmath>

#include "outlook/seen_members.hpp"

namespace gloam::outlook {
namespace {

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

/// What is read off the members of an event.
EventOutlook outlook_of(const EventSample& sample, std::vector<SeenMember> seen) {
    EventOutlook outlook;
    std::vector<MemberVerdict> verdicts;
    for (SeenMember& one : seen) {
        outlook.members.push_back(std::move(one.course));
        verdicts.push_back(one.verdict);
    }
    const auto& courses = outlook.members;
    const auto after = each(courses, [](const MemberCourse& course) { return course.after.strength; });
    outlook.odds = odds_of(after);
    outlook.after = spread_of(after);
    if (courses.front().gold) {
        outlook.gold =
            spread_of(each(courses, [](const MemberCourse& course) { return course.gold->strength; }));
    }
    outlook.minutes_good = spread_of(each(courses, [&](const MemberCourse& course) {
        return minutes_above(sample.moments, course, class_limit(OutcomeClass::kGood));
    }));
    outlook.window = window_of(sample.moments, courses);
    outlook.reasons = reasons_of(verdicts, sample.moments[courses.front().after.moment].azimuth);
    if (sample.bands_assumed) {
        outlook.odds_by_assumed_band = odds_by_band(courses);
    }
    outlook.missing = sample.missing;
    outlook.moments = sample.moments;
    return outlook;
}

}  // namespace

std::vector<EventOutlook> look_out(const sky::SkyTables& tables, std::span<const EventSample> samples) {
    auto seen = see_members(tables, samples);
    std::vector<EventOutlook> outlooks;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        outlooks.push_back(outlook_of(samples[i], std::move(seen[i])));
    }
    return outlooks;
}

EventOutlook look_out(const sky::SkyTables& tables, const EventSample& sample) {
    return std::move(look_out(tables, std::span(&sample, 1)).front());
}

}  // namespace gloam::outlook
