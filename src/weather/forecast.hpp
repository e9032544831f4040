#pragma once

#include <cstddef>
#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "weather/field.hpp"

namespace gloam::weather {

/// A message that was read but not used, or could not be read.
struct SkippedMessage {
    FieldOrigin origin;
    std::string reason;
};

/// Everything that was taken from the forecast files, and everything that was not.
struct Forecast {
    std::string source;  ///< producing centre and model in words, e.g. "NCEP GFS"
    Instant run_time;
    std::vector<Field> fields;
    std::vector<SkippedMessage> skipped;
    std::size_t messages = 0;        ///< messages met, used or not
    std::size_t clamped_values = 0;  ///< cover values of -1..0 or 100..101 % that were clamped
};

/// Decodes the GRIB messages in `bytes`; `name` stands for the file in errors. A truncated or damaged file is
/// an error that names the message; a sound message of a kind not used here is counted in `skipped`.
Result<Forecast> read_grib(std::span<const std::byte> bytes, std::string_view name);

/// Reads and joins files of one run; files of different runs or centres are refused.
Result<Forecast> read_forecast(std::span<const std::filesystem::path> files);

}  // namespace gloam::weather
