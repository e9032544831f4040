#pragma once

#include <string_view>
#include <vector>

#include "weather/forecast.hpp"
#include "weather/grib/octets.hpp"

namespace gloam::weather {

/// One whole GRIB message within the bytes of a file, from "GRIB" to "7777".
struct GribFrame {
    FieldOrigin origin;
    int edition = 2;  ///< 1 or 2
    Octets octets;    ///< refers to the file's bytes
};

/// The messages of a file in order, and the stretches between them that are no GRIB.
struct GribFrames {
    std::vector<GribFrame> frames;
    std::vector<SkippedMessage> junk;
};

/// Finds the messages by their own lengths, without a decoder. Error (kUnreadable, naming the message) if
/// there is none, if the file ends within one, if one lacks its end mark or is of an edition other than 1
/// and 2.
Result<GribFrames> find_frames(Octets bytes, std::string_view name);

}  // namespace gloam::weather
