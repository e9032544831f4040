#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/instant.hpp"
#include "geo/zone.hpp"

namespace gloam::tide {

/// A height of the water and the level that it is counted from, by the name that its table gives that level,
/// e.g. "LAT". Heights of different datums are never compared or converted.
struct TideHeight {
    double metres = 0.0;
    std::string datum;
};

/// A row of a tide table: high water, low water, or a height in between.
enum class TideKind { kHigh, kLow, kHeight };

/// The height of the water at an instant, above the datum of its table.
struct TideRow {
    Instant instant;
    double height_m = 0.0;
    TideKind kind = TideKind::kHeight;
};

/// A tide table of one port. Its rows are in order of time, high and low water by turns.
struct TideTable {
    std::string port;
    std::string datum;
    std::string source;  ///< who worked it out
    CivilDate issued;
    std::vector<TideRow> rows;  ///< two or more
};

/// Reads a table as text: first the note `# PORT, DATUM, SOURCE, ISSUED` (the datum one word, the date like
/// 2025-01-29), then the header `time,height_m,kind`, then a row each (RFC 3339 with offset; metres; high,
/// low or height). `where` names the text in errors. Error (kUnreadable): anything else, a second note, rows
/// out of order, heights beyond 20 m, a high not above the lows beside it, a gap that must hide a turn of the
/// tide: over 18 hours between high and low water, over one hour beside a row of kind height. Error
/// (kUnsupported): over 8 MiB.
Result<TideTable> parse_tide_table(std::string_view text, std::string_view where);

/// The height of the water: half a cosine between high and low water, a straight line beside a row of kind
/// height. The astronomical tide alone: what wind and air pressure add is not in it. Error (kIncomplete): an
/// instant before the first row or after the last.
Result<TideHeight> height_at(const TideTable& table, Instant instant);

/// The first high water, or low water, from `from` on; absent: the table ends before it.
std::optional<TideRow> next_turn(const TideTable& table, TideKind high_or_low, Instant from);

/// The first instant of `span` at which the water stands at `closes_at` or above it, to the earlier
/// millisecond; absent: it stays below all the time. Nothing is taken off for surge and swell: the chain of
/// times of an outing takes its reserve off (decide::ChainLinks::tide_reserve). Error (kBadInput):
/// `closes_at` is no finite height, or its datum is not known or not that of the table. Error (kIncomplete):
/// the table begins after the span does, or ends before it is told whether the water rises so far.
Result<std::optional<Instant>> closing_in(const TideTable& table, const TideHeight& closes_at,
                                          geo::InstantSpan span);

}  // namespace gloam::tide
