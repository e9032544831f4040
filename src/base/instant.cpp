#include "base/instant.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>

namespace gloam {
namespace {

/// Reads exactly `width` decimal digits at `at` and moves past them.
std::optional<int> take_digits(std::string_view text, std::size_t& at, std::size_t width) {
    if (at + width > text.size()) {
        return std::nullopt;
    }
    int value = 0;
    for (std::size_t i = 0; i < width; ++i) {
        const char c = text[at + i];
        if (c < '0' || c > '9') {
            return std::nullopt;
        }
        value = value * 10 + (c - '0');
    }
    at += width;
    return value;
}

bool take_char(std::string_view text, std::size_t& at, char expected) {
    if (at >= text.size() || text[at] != expected) {
        return false;
    }
    ++at;
    return true;
}

std::optional<CivilDate> take_date(std::string_view text, std::size_t& at) {
    const auto year = take_digits(text, at, 4);
    if (!year || !take_char(text, at, '-')) {
        return std::nullopt;
    }
    const auto month = take_digits(text, at, 2);
    if (!month || !take_char(text, at, '-')) {
        return std::nullopt;
    }
    const auto day = take_digits(text, at, 2);
    if (!day) {
        return std::nullopt;
    }
    const CivilDate date{std::chrono::year{*year}, std::chrono::month{static_cast<unsigned>(*month)},
                         std::chrono::day{static_cast<unsigned>(*day)}};
    return date.ok() ? std::optional(date) : std::nullopt;
}

std::optional<Duration> take_time_of_day(std::string_view text, std::size_t& at) {
    const auto hour = take_digits(text, at, 2);
    if (!hour || *hour > 23 || !take_char(text, at, ':')) {
        return std::nullopt;
    }
    const auto minute = take_digits(text, at, 2);
    if (!minute || *minute > 59 || !take_char(text, at, ':')) {
        return std::nullopt;
    }
    const auto second = take_digits(text, at, 2);
    if (!second || *second > 59) {
        return std::nullopt;
    }
    int milliseconds = 0;
    if (take_char(text, at, '.')) {
        int scale = 100;
        bool any = false;
        while (at < text.size() && text[at] >= '0' && text[at] <= '9') {
            milliseconds += scale * (text[at] - '0');
            scale /= 10;
            any = true;
            ++at;
        }
        if (!any) {
            return std::nullopt;
        }
    }
    return std::chrono::hours(*hour) + std::chrono::minutes(*minute) + std::chrono::seconds(*second) +
           std::chrono::milliseconds(milliseconds);
}

std::optional<Duration> take_offset(std::string_view text, std::size_t& at) {
    if (take_char(text, at, 'Z')) {
        return Duration(0);
    }
    const bool west = take_char(text, at, '-');
    if (!west && !take_char(text, at, '+')) {
        return std::nullopt;
    }
    const auto hour = take_digits(text, at, 2);
    if (!hour || !take_char(text, at, ':')) {
        return std::nullopt;
    }
    const auto minute = take_digits(text, at, 2);
    if (!minute || *hour > 23 || *minute > 59) {
        return std::nullopt;
    }
    const Duration size = std::chrono::hours(*hour) + std::chrono::minutes(*minute);
    return west ? -size : size;
}

}  // namespace

Duration hours(double value) {
    return Duration(static_cast<Duration::rep>(std::llround(value * 3600.0e3)));
}

double hours_between(Instant earlier, Instant later) {
    return static_cast<double>((later - earlier).count()) / 3600.0e3;
}

std::string to_rfc3339_utc(Instant instant) {
    const auto seconds = std::chrono::round<std::chrono::seconds>(instant);
    const auto day = std::chrono::floor<std::chrono::days>(seconds);
    const std::chrono::hh_mm_ss time(seconds - day);
    return fmt::format("{}T{:02}:{:02}:{:02}Z", to_text(CivilDate(day)), time.hours().count(),
                       time.minutes().count(), time.seconds().count());
}

Result<Instant> parse_rfc3339(std::string_view text) {
    std::size_t at = 0;
    const auto date = take_date(text, at);
    if (date && take_char(text, at, 'T')) {
        const auto time = take_time_of_day(text, at);
        const auto offset = time ? take_offset(text, at) : std::nullopt;
        if (time && offset && at == text.size()) {
            return Instant(std::chrono::sys_days(*date)) + *time - *offset;
        }
    }
    return fail(ErrorKind::kBadInput, fmt::format("'{}' is not a time with offset", text), {},
                "write it like 2025-01-29T06:30:00+01:00");
}

Result<CivilDate> parse_civil_date(std::string_view text) {
    std::size_t at = 0;
    const auto date = take_date(text, at);
    if (date && at == text.size()) {
        return *date;
    }
    return fail(ErrorKind::kBadInput, fmt::format("'{}' is not a calendar date", text), {},
                "write it like 2025-01-29");
}

std::string to_text(CivilDate date) {
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

}  // namespace gloam
