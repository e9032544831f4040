#include "app/event_words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "geo/position.hpp"

namespace gloam::app {
namespace {

constexpr std::size_t kWidth = 98;

}  // namespace

std::string one_line(std::string_view text) {
    std::string line;
    bool space = false;
    for (const char letter : text) {
        const auto code = static_cast<unsigned char>(letter);
        if (code <= 0x20) {
            space = true;
        } else if (code != 0x7F) {
            line += space && !line.empty() ? " " : "";
            line += letter;
            space = false;
        }
    }
    return line;
}

std::string paragraph(std::string_view label, std::string_view text) {
    std::string result(label);
    result.resize(std::max<std::size_t>(result.size(), 10), ' ');
    const std::size_t indent = result.size();
    const std::string line = one_line(text);
    std::string_view left = line;
    std::size_t column = indent;
    bool first = true;
    while (!left.empty()) {
        const std::size_t end = std::min(left.find(' '), left.size());
        const std::string_view word = left.substr(0, end);
        left.remove_prefix(std::min(end + 1, left.size()));
        if (!first && column + 1 + word.size() > kWidth) {
            result += '\n' + std::string(indent, ' ');
            column = indent;
            first = true;
        }
        if (!first) {
            result += ' ';
            ++column;
        }
        result += word;
        column += word.size();
        first = false;
    }
    return result + '\n';
}

std::string odds_in_words(double odds) {
    const long tenths = std::lround(odds * 10.0);
    if (tenths < 1) {
        return "fewer than 1 in 10";
    }
    if (tenths > 9) {
        return "more than 9 in 10";
    }
    return fmt::format("{} in 10", tenths);
}

std::string heading_of(astro::EventKind kind, CivilDate date) {
    constexpr std::array<const char*, 7> kDays{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
    constexpr std::array<const char*, 12> kMonths{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                  "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    const std::chrono::weekday weekday{std::chrono::sys_days(date)};
    return fmt::format("{} of {} {} {} {}", kind == astro::EventKind::kDawn ? "Dawn" : "Dusk",
                       kDays[weekday.c_encoding()], static_cast<unsigned>(date.day()),
                       kMonths[static_cast<unsigned>(date.month()) - 1], static_cast<int>(date.year()));
}

std::string class_or_better(outlook::OutcomeClass outcome) {
    return fmt::format("{}{}", name_of(outcome),
                       outcome == outlook::OutcomeClass::kOutstanding ? "" : " or better");
}

std::string window_in_words(const outlook::BestWindow& window, const geo::Zone& zone) {
    std::string text =
        fmt::format("{} to {}, {} ({:.0f} deg)", zone.clock(window.from), zone.clock(window.to),
                    geo::compass_point(window.azimuth), window.azimuth.degrees());
    if (window.opposite) {
        text += fmt::format("; turn round about {}", zone.clock(*window.opposite));
    }
    return text;
}

std::string sun_in_words(astro::EventKind kind, const std::optional<astro::Crossing>& sun,
                         const geo::Zone& zone) {
    if (!sun) {
        return "The sun stays below the horizon";
    }
    return fmt::format("{} {} over a level horizon, give or take 2 min, {} ({:.0f} deg)",
                       kind == astro::EventKind::kDawn ? "Sunrise" : "Sunset", zone.clock(sun->instant),
                       geo::compass_point(sun->azimuth), sun->azimuth.degrees());
}

std::string reason_lines(const std::vector<outlook::Reason>& reasons, bool go) {
    std::string text;
    for (const bool wanted : {true, false}) {
        for (const auto& reason : reasons) {
            const bool open = reason.verdict == outlook::Verdict::kOpen;
            if ((open == go) == wanted) {
                text += paragraph(
                    wanted ? "Why" : "Against",
                    fmt::format("{} ({} of {} members).", to_text(reason), reason.members, reason.of));
            }
        }
    }
    return text;
}

std::string run_in_words(std::string_view source, Instant run_time, double age_h) {
    std::string run = to_rfc3339_utc(run_time).substr(0, 16);
    run[10] = ' ';
    return fmt::format("{}, run {} UTC, {}", source, run,
                       age_h < 0.0 ? "later than the time of this look" : fmt::format("{:.0f} h old", age_h));
}

std::string joined(const std::vector<std::string>& parts) {
    return fmt::format("{}", fmt::join(parts, "; "));
}

}  // namespace gloam::app
