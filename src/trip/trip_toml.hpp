#pragma once

#include <string>
#include <string_view>

#include "trip/trip.hpp"

namespace gloam::trip {

/// Parses a trip file (docs/cli.md lists its keys). An unknown key, a wrong type, a number outside what can
/// be, a missing name or coordinate, or two places of one name is an error (kBadInput; kUnreadable if it is
/// no TOML) that names table, key and line. `where` names the file in errors.
Result<Trip> parse_trip(std::string_view toml, std::string_view where);

/// The trip as such a file, units in comments: parse_trip() gives the same trip back. What is absent is left
/// out.
std::string to_toml(const Trip& trip);

}  // namespace gloam::trip
