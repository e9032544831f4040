#pragma once

#include <chrono>
#include <string>
#include <string_view>

#include "base/error.hpp"

namespace gloam {

/// A moment in UTC (POSIX time scale: leap seconds are not counted), to the millisecond.
using Instant = std::chrono::sys_time<std::chrono::milliseconds>;

/// A span of time, to the millisecond.
using Duration = std::chrono::milliseconds;

/// Hours as a floating-point number, rounded to the millisecond.
Duration hours(double value);

/// `later - earlier` in hours.
double hours_between(Instant earlier, Instant later);

/// RFC 3339 in UTC to the second, e.g. "2025-01-29T06:03:41Z"; rounded to the nearest second.
std::string to_rfc3339_utc(Instant instant);

/// Parses "2025-01-29T06:03:41Z" or with a numeric offset, fraction optional.
Result<Instant> parse_rfc3339(std::string_view text);

/// A Gregorian calendar date, always a valid one.
using CivilDate = std::chrono::year_month_day;

/// Parses "2025-01-29"; refuses dates that do not exist.
Result<CivilDate> parse_civil_date(std::string_view text);

/// "2025-01-29".
std::string to_text(CivilDate date);

}  // namespace gloam
