#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "weather/grib/octets.hpp"

namespace gloam::weather {

/// Holds the size in the header of a JPEG 2000 stream against the number of values that are expected of it,
/// and the lengths of its parts against that of the stream; the trouble in words, or nothing. The decoder
/// writes as many values as the image has points, whatever room there is.
std::optional<std::string> jpeg2000_trouble(Octets stream, std::uint64_t count);

}  // namespace gloam::weather
