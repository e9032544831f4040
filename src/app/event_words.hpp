#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "astro/crossing.hpp"
#include "geo/zone.hpp"
#include "outlook/event_outlook.hpp"

namespace gloam::app {

/// The text on one line: white space and control characters are single spaces, so that what somebody else
/// wrote cannot pass for a line of ours.
std::string one_line(std::string_view text);

/// Breaks `text` at spaces into lines of 98 characters; the first begins with the label, the others are
/// indented like the text behind it.
std::string paragraph(std::string_view label, std::string_view text);

/// "3 in 10", "fewer than 1 in 10", "more than 9 in 10".
std::string odds_in_words(double odds);

/// A dawn in a heading: "Dawn of Wed 29 Jan 2025".
std::string heading_of(astro::EventKind kind, CivilDate date);

/// "good or better", "outstanding".
std::string class_or_better(outlook::OutcomeClass outcome);

/// "06:38 to 06:52, south-east (130 deg); turn round about 06:44".
std::string window_in_words(const outlook::BestWindow& window, const geo::Zone& zone);

/// "Sunrise 06:59 over a level horizon, give or take 2 min, east-south-east (112 deg)".
std::string sun_in_words(astro::EventKind kind, const std::optional<astro::Crossing>& sun,
                         const geo::Zone& zone);

/// Reasons that speak for the answer under "Why", the others under "Against".
std::string reason_lines(const std::vector<outlook::Reason>& reasons, bool go);

/// "NCEP GFS, run 2025-01-29 00:00 UTC, 6 h old"; a negative age is said in words.
std::string run_in_words(std::string_view source, Instant run_time, double age_h);

/// "one; another".
std::string joined(const std::vector<std::string>& parts);

}  // namespace gloam::app
