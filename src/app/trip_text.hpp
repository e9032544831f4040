#pragma once

#include <string>
#include <vector>

#include "journal/journal.hpp"
#include "trip/gpx.hpp"

namespace gloam::app {

/// A trip in a few lines: days, group, and what is known of each place.
std::string to_text(const trip::Trip& trip);

/// The trips of a journal, a line each.
std::string to_text(const std::vector<journal::TripLine>& trips);

/// Which trips share days with the one stored; empty if none do.
std::string overlap_text(const std::vector<std::string>& others);

/// What was made of a GPX file, and what was not used.
std::string to_text(const trip::GpxMerge& merge, const trip::Gpx& gpx);

}  // namespace gloam::app
