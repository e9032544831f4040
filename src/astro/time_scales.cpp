#include "astro/time_scales.hpp"

#include <erfa.h>
#include <erfam.h>

namespace gloam::astro {
namespace {

using std::chrono::days;

constexpr double kJulianDateOfEpoch = 2440587.5;  // 1970-01-01T00:00Z

/// TAI - UTC, seconds.
double leap_seconds_s(Instant instant) {
    const auto day = std::chrono::floor<days>(instant);
    const CivilDate date(day);
    double leap_s = 0.0;
    // The status only tells that the date lies outside the table; the value is then the nearest end of it.
    eraDat(static_cast<int>(date.year()), static_cast<int>(static_cast<unsigned>(date.month())),
           static_cast<int>(static_cast<unsigned>(date.day())), universal_time(instant).day_part, &leap_s);
    return leap_s;
}

}  // namespace

JulianDate universal_time(Instant instant) {
    const auto day = std::chrono::floor<days>(instant);
    const auto since_midnight = static_cast<double>((instant - day).count());
    return {kJulianDateOfEpoch + static_cast<double>(day.time_since_epoch().count()),
            since_midnight / (ERFA_DAYSEC * 1e3)};
}

JulianDate terrestrial_time(Instant instant) {
    const JulianDate utc = universal_time(instant);
    return {utc.midnight, utc.day_part + (leap_seconds_s(instant) + ERFA_TTMTAI) / ERFA_DAYSEC};
}

}  // namespace gloam::astro
