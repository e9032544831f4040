#pragma once

#include <functional>
#include <string_view>

#include "weather/grib/byte_source.hpp"
#include "weather/grib/decode.hpp"
#include "weather/skipped.hpp"

namespace gloam::weather {

/// What is done with the fields of a file, one after the other.
struct FieldVisitor {
    Wants wants;                                              ///< whether its values are to be decoded
    std::function<Result<void>(DecodedField&&)> take;         ///< an error ends the visit
    std::function<Result<void>(const NotWanted&)> pass_over;  ///< likewise, for a field that is not wanted
    std::function<void(SkippedMessage&&)> skip;               ///< not used, with the reason
};

/// Shows the fields of a GRIB file to the visitor, in order; returns the number of messages. Error as
/// `FrameReader` and `decode`. One thread at a time; others wait.
Result<std::size_t> visit_grib(const ByteSource& source, std::string_view name, const FieldVisitor& visitor);

}  // namespace gloam::weather
