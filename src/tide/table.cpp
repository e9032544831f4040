#include "tide/table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/text_table.hpp"

namespace gloam::tide {
namespace {

using std::numbers::pi;

constexpr std::size_t kMostBytes = 8U << 20U;  // a decade of hours takes half of it
constexpr double kMostHeight_m = 20.0;         // the greatest ranges known are about 17 m
constexpr Duration kMostBetweenTurns = std::chrono::hours(18);
constexpr Duration kMostBesideHeight = std::chrono::hours(1);
constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
constexpr const char* kNoteHint = "the first line is like: # Port, LAT, who worked the table out, 2025-01-29";

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view kBlank = " \t\r";
    const std::size_t first = text.find_first_not_of(kBlank);
    return first == std::string_view::npos ? std::string_view{}
                                           : text.substr(first, text.find_last_not_of(kBlank) - first + 1);
}

bool is_letter_or_digit(char c) {
    return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}

/// One word, and not the word for having none.
bool is_datum(std::string_view text) {
    constexpr std::string_view kNone = "unknown";
    const auto same_letter = [](char a, char b) { return (a | 0x20) == b; };  // ASCII letters
    return !text.empty() && std::ranges::all_of(text, is_letter_or_digit) &&
           !std::ranges::equal(text, kNone, same_letter);
}

tl::unexpected<Error> unreadable(std::string message, std::string where, std::string hint = {}) {
    return fail(ErrorKind::kUnreadable, std::move(message), std::move(where), std::move(hint));
}

/// Drops the first line of `text` and returns it.
std::string_view take_line(std::string_view& text) {
    const std::size_t end = text.find('\n');
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    return line;
}

/// The table without rows, from the note that heads it.
Result<TideTable> parse_note(std::string_view line, std::string_view where) {
    const std::string place = fmt::format("{}, line 1", where);
    const auto note = parse_text_table(line.substr(std::min<std::size_t>(1, line.size())), ',', place);
    if (!line.starts_with('#') || !note || note->header.size() != 4) {
        return unreadable("no note of port, datum, source and date of issue", place, kNoteHint);
    }
    const auto part = [&](std::size_t i) { return std::string(trimmed(note->header[i])); };
    if (part(0).empty() || part(2).empty()) {
        return unreadable("the note names no port or no source", place, kNoteHint);
    }
    if (!is_datum(part(1))) {
        return unreadable(fmt::format("'{}' is not a datum", part(1)), place,
                          "one word, as the issuer names it, e.g. LAT or MLLW");
    }
    const auto issued = parse_civil_date(part(3));
    if (!issued) {
        return unreadable(issued.error().message, place, kNoteHint);
    }
    return TideTable{part(0), part(1), part(2), *issued, {}};
}

std::optional<TideKind> kind_of(std::string_view text) {
    if (text == "high") {
        return TideKind::kHigh;
    }
    if (text == "low") {
        return TideKind::kLow;
    }
    return text == "height" ? std::optional(TideKind::kHeight) : std::nullopt;
}

Result<std::vector<TideRow>> parse_rows(const TextTable& text) {
    const auto times = text.column("time");
    const auto heights_m = text.numbers("height_m");
    const auto kinds = text.column("kind");
    if (!times || !kinds || !heights_m) {
        return tl::unexpected(!times ? times.error() : !kinds ? kinds.error() : heights_m.error());
    }
    std::vector<TideRow> rows;
    for (std::size_t i = 0; i < text.rows.size(); ++i) {
        const std::string place = fmt::format("{}, row {}", text.where, i + 1);
        const auto instant = parse_rfc3339(text.rows[i][*times]);
        if (!instant) {
            return unreadable(instant.error().message, place, instant.error().hint);
        }
        const auto kind = kind_of(text.rows[i][*kinds]);
        if (!kind) {
            return unreadable(fmt::format("'{}' is none of high, low, height", text.rows[i][*kinds]), place);
        }
        if (std::abs((*heights_m)[i]) > kMostHeight_m) {
            return unreadable(fmt::format("no tide stands at {} m", (*heights_m)[i]), place,
                              "heights are metres above the table's datum");
        }
        rows.push_back({*instant, (*heights_m)[i], *kind});
    }
    return rows;
}

/// What is wrong with a row after the one before it; empty: nothing.
std::string fault_after(const TideRow& before, const TideRow& row) {
    if (row.instant <= before.instant) {
        return "the time is not after that of the row before";
    }
    const bool beside_height = before.kind == TideKind::kHeight || row.kind == TideKind::kHeight;
    if (row.instant - before.instant > (beside_height ? kMostBesideHeight : kMostBetweenTurns)) {
        return beside_height ? "over one hour after the row before, beside a row of kind height"
                             : "over 18 hours after the row before: a high or low water is missing";
    }
    return {};
}

/// What is wrong with high or low water after the turn before it; empty: nothing.
std::string fault_of_turn(const TideRow& before, const TideRow& turn) {
    if (turn.kind == before.kind) {
        return "two high or two low waters in turn";
    }
    const double rise_m = turn.height_m - before.height_m;
    const bool sound = turn.kind == TideKind::kHigh ? rise_m > 0.0 : rise_m < 0.0;
    return sound ? "" : "high water does not stand above low water";
}

Result<void> check_rows(const std::vector<TideRow>& rows, const std::string& where) {
    if (rows.size() < 2) {
        return unreadable("the table has fewer than two rows", where);
    }
    std::optional<TideRow> turn;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const bool turns = rows[i].kind != TideKind::kHeight;
        std::string fault = i == 0 ? "" : fault_after(rows[i - 1], rows[i]);
        if (fault.empty() && turns && turn) {
            fault = fault_of_turn(*turn, rows[i]);
        }
        if (!fault.empty()) {
            return unreadable(fault, fmt::format("{}, row {}", where, i + 1));
        }
        turn = turns ? std::optional(rows[i]) : turn;
    }
    return {};
}

bool between_turns(const TideRow& a, const TideRow& b) {
    return a.kind != TideKind::kHeight && b.kind != TideKind::kHeight;
}

double height_between_m(const TideRow& a, const TideRow& b, Instant instant) {
    const double x = hours_between(a.instant, instant) / hours_between(a.instant, b.instant);
    const double risen = between_turns(a, b) ? (1.0 - std::cos(pi * x)) / 2.0 : x;
    return a.height_m + risen * (b.height_m - a.height_m);
}

/// When the water, below it at `a` and not below it at `b`, reaches a height.
Instant passage_between(const TideRow& a, const TideRow& b, double height_m) {
    const double risen = (height_m - a.height_m) / (b.height_m - a.height_m);
    const double x = between_turns(a, b) ? std::acos(1.0 - 2.0 * risen) / pi : risen;
    const auto span_ms = static_cast<double>((b.instant - a.instant).count());
    return a.instant + Duration(static_cast<Duration::rep>(std::floor(x * span_ms)));
}

tl::unexpected<Error> incomplete(const TideTable& table) {
    return fail(ErrorKind::kIncomplete,
                fmt::format("the tide table goes from {} to {}", to_rfc3339_utc(table.rows.front().instant),
                            to_rfc3339_utc(table.rows.back().instant)),
                table.port, "get a table of the whole trip from its issuer");
}

Result<void> check_closing(const TideTable& table, const TideHeight& closes_at) {
    if (!std::isfinite(closes_at.metres)) {
        return fail(ErrorKind::kBadInput, "the closing height is not a number", table.port);
    }
    if (!is_datum(closes_at.datum) || closes_at.datum != table.datum) {
        return fail(ErrorKind::kBadInput,
                    fmt::format("the closing height counts from '{}', the tide table from '{}'",
                                closes_at.datum, table.datum),
                    table.port, "take the closing height from a source that counts from the table's datum");
    }
    return {};
}

}  // namespace

Result<TideTable> parse_tide_table(std::string_view text, std::string_view where) {
    if (text.size() > kMostBytes) {
        return fail(ErrorKind::kUnsupported, "the tide table is larger than 8 MiB", std::string(where),
                    "keep the days of the trip");
    }
    if (text.starts_with(kByteOrderMark)) {
        text.remove_prefix(kByteOrderMark.size());
    }
    auto table = parse_note(take_line(text), where);
    if (!table) {
        return table;
    }
    if (text.starts_with('#') || text.find("\n#") != std::string_view::npos) {
        return unreadable("a second note: a table has one port and one datum", std::string(where),
                          "keep each port in a file of its own");
    }
    auto rows = parse_text_table(text, ',', where).and_then(parse_rows);
    if (!rows) {
        return tl::unexpected(rows.error());
    }
    const auto checked = check_rows(*rows, std::string(where));
    if (!checked) {
        return tl::unexpected(checked.error());
    }
    table->rows = *std::move(rows);
    return table;
}

Result<TideHeight> height_at(const TideTable& table, Instant instant) {
    if (instant < table.rows.front().instant || instant > table.rows.back().instant) {
        return incomplete(table);
    }
    const auto next = std::ranges::lower_bound(table.rows, instant, {}, &TideRow::instant);
    const double metres =
        next->instant == instant ? next->height_m : height_between_m(*std::prev(next), *next, instant);
    return TideHeight{metres, table.datum};
}

std::optional<TideRow> next_turn(const TideTable& table, TideKind high_or_low, Instant from) {
    const auto found = std::ranges::find_if(
        table.rows, [&](const TideRow& row) { return row.kind == high_or_low && row.instant >= from; });
    return found == table.rows.end() ? std::nullopt : std::optional(*found);
}

Result<std::optional<Instant>> closing_in(const TideTable& table, const TideHeight& closes_at,
                                          geo::InstantSpan span) {
    if (const auto sound = check_closing(table, closes_at); !sound) {
        return tl::unexpected(sound.error());
    }
    const auto at_first = height_at(table, span.begin);
    if (!at_first) {
        return tl::unexpected(at_first.error());
    }
    if (at_first->metres >= closes_at.metres) {
        return std::optional(span.begin);
    }
    auto after = std::ranges::upper_bound(table.rows, span.begin, {}, &TideRow::instant);
    for (; after != table.rows.end(); ++after) {
        const TideRow& before = *std::prev(after);
        if (before.instant >= span.end) {
            return std::optional<Instant>();
        }
        if (before.height_m < closes_at.metres && after->height_m >= closes_at.metres) {
            const Instant closes = passage_between(before, *after, closes_at.metres);
            return closes < span.end ? std::optional(std::max(closes, span.begin)) : std::nullopt;
        }
    }
    if (table.rows.back().instant < span.end) {
        return incomplete(table);
    }
    return std::optional<Instant>();
}

}  // namespace gloam::tide
