#include "trip/trip.hpp"

#include <fmt/format.h>

#include <charconv>

#include "geo/quoted.hpp"

namespace gloam::trip {
namespace {

/// The number of two digits, absent if they are none.
std::optional<int> two_digits(std::string_view text) {
    int value = 0;
    const auto [rest, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    return text.size() == 2 && error == std::errc() && rest == text.data() + 2 && value >= 0
               ? std::optional(value)
               : std::nullopt;
}

}  // namespace

Result<ClockTime> parse_clock_time(std::string_view text) {
    const bool shaped = text.size() == 5 && text[2] == ':';
    const auto hour = shaped ? two_digits(text.substr(0, 2)) : std::nullopt;
    const auto minute = shaped ? two_digits(text.substr(3)) : std::nullopt;
    if (!hour || !minute || *hour > 23 || *minute > 59) {
        return fail(ErrorKind::kBadInput, fmt::format("{} is no time of day", geo::quoted(text)), {},
                    "write it like 06:40");
    }
    return std::chrono::hours(*hour) + std::chrono::minutes(*minute);
}

std::string to_text(ClockTime time) {
    const std::chrono::hh_mm_ss split(time);
    return fmt::format("{:02}:{:02}", split.hours().count(), split.minutes().count());
}

std::string to_text(const LocalMoment& moment) {
    return fmt::format("{} {}", gloam::to_text(moment.date), to_text(moment.time));
}

Result<LocalMoment> parse_local_moment(std::string_view text) {
    constexpr std::size_t kDateLength = 10;
    const bool shaped = text.size() > kDateLength && text[kDateLength] == ' ';
    const auto date = parse_civil_date(text.substr(0, kDateLength));
    const auto time = parse_clock_time(shaped ? text.substr(kDateLength + 1) : std::string_view());
    if (!date || !time) {
        return fail(ErrorKind::kBadInput, fmt::format("{} is no date and time", geo::quoted(text)), {},
                    "write it like 2025-01-29 06:40");
    }
    return LocalMoment{*date, *time};
}

}  // namespace gloam::trip
