#include "geo/zone.hpp"

#include <date/tz.h>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cstdlib>
#include <stdexcept>

#include "geo/near_names.hpp"
#include "geo/quoted.hpp"

namespace gloam::geo {
namespace {

using std::chrono::days;
using std::chrono::minutes;
using std::chrono::seconds;

std::vector<std::string> all_names() {
    std::vector<std::string> names;
    for (const date::time_zone& zone : date::get_tzdb().zones) {
        names.push_back(zone.name());
    }
    return names;
}

tl::unexpected<Error> unknown_zone(std::string_view name) {
    const auto near = near_names(name, all_names());
    return fail(ErrorKind::kNotFound, fmt::format("there is no time zone {}", quoted(name)), {},
                near.empty() ? "use an IANA name like Europe/Rome"
                             : fmt::format("did you mean {}?", fmt::join(near, " or ")));
}

seconds offset_of(const date::time_zone& zone, Instant instant) {
    return zone.get_info(std::chrono::floor<seconds>(instant)).offset;
}

/// The clock's reading of a date and time of day, as the library wants it.
date::local_seconds local_reading(CivilDate date, seconds time_of_day) {
    return date::local_seconds(std::chrono::sys_days(date).time_since_epoch() + time_of_day);
}

Instant instant_at(date::local_seconds reading, const date::sys_info& info) {
    return Instant(reading.time_since_epoch() - info.offset);
}

/// When the clock first shows midnight of the date, or leaps over it.
Instant beginning_of(const date::time_zone& zone, CivilDate date) {
    const auto midnight = local_reading(date, seconds(0));
    const date::local_info info = zone.get_info(midnight);
    return info.result == date::local_info::nonexistent ? Instant(info.first.end)
                                                        : instant_at(midnight, info.first);
}

}  // namespace

Result<Zone> Zone::named(std::string_view iana_name) {
    try {
        for (const date::time_zone& zone : date::get_tzdb().zones) {
            if (zone.name() == iana_name) {
                return Zone(&zone);
            }
        }
        return unknown_zone(iana_name);
    } catch (const std::runtime_error&) {
        return fail(ErrorKind::kIncomplete, "the system's time zone data cannot be read", {},
                    "install the package tzdata");
    }
}

std::string Zone::name() const {
    return zone_->name();
}

Duration Zone::offset_at(Instant instant) const {
    return offset_of(*zone_, instant);
}

CivilDate Zone::date_of(Instant instant) const {
    return CivilDate(std::chrono::floor<days>(instant + offset_at(instant)));
}

Result<InstantSpan> Zone::span_of(CivilDate date) const {
    if (!date.ok()) {
        return fail(ErrorKind::kBadInput, fmt::format("{} is not a calendar date", to_text(date)));
    }
    const InstantSpan span{beginning_of(*zone_, date),
                           beginning_of(*zone_, CivilDate(std::chrono::sys_days(date) + days(1)))};
    if (span.begin >= span.end) {
        return fail(ErrorKind::kNotFound, fmt::format("{} was skipped in {}", to_text(date), name()), {},
                    "the clocks there crossed the date line; take the day before or after");
    }
    return span;
}

std::vector<Instant> Zone::instants_of(CivilDate date, Duration time_of_day) const {
    const auto whole = std::chrono::floor<seconds>(time_of_day);
    const auto reading = local_reading(date, whole);
    const Duration rest = time_of_day - whole;
    const date::local_info info = zone_->get_info(reading);
    switch (info.result) {
        case date::local_info::nonexistent:
            return {};
        case date::local_info::ambiguous:
            return {instant_at(reading, info.first) + rest, instant_at(reading, info.second) + rest};
        default:
            return {instant_at(reading, info.first) + rest};
    }
}

std::string Zone::to_rfc3339(Instant instant) const {
    const auto second = std::chrono::round<seconds>(instant);
    const minutes offset = std::chrono::round<minutes>(offset_of(*zone_, second));
    std::string text = to_rfc3339_utc(second + offset);
    text.pop_back();  // the Z
    const auto size = std::abs(offset.count());
    return text + fmt::format("{}{:02}:{:02}", offset.count() < 0 ? '-' : '+', size / 60, size % 60);
}

std::string Zone::clock(Instant instant) const {
    const auto minute = std::chrono::round<minutes>(instant);
    const auto local = minute + offset_of(*zone_, minute);
    const std::chrono::hh_mm_ss time(local - std::chrono::floor<days>(local));
    return fmt::format("{:02}:{:02}", time.hours().count(), time.minutes().count());
}

}  // namespace gloam::geo
