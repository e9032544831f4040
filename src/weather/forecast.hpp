#pragma once

#include <cstddef>
#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "weather/skipped.hpp"
#include "weather/wanted.hpp"

namespace gloam::weather {

/// Everything that was taken from the forecast files, and everything that was not.
struct Forecast {
    std::string source;  ///< producing centre and model in words, e.g. "NCEP GFS"
    Instant run_time;
    std::vector<Field> fields;
    std::vector<SkippedMessage> skipped;
    std::size_t messages = 0;         ///< messages met, used or not
    std::size_t clamped_values = 0;   ///< values a little outside what can be, such as 100.4 % of cover
    std::size_t sentinel_values = 0;  ///< numbers such as -9999 that stood for "no value" and were masked
    std::vector<std::string> notes;   ///< what a person should know of the files, in words
    /// Fields that were there and not wanted, and the times for which they hold.
    struct PassedOver {
        std::size_t fields = 0;
        Instant first;
        Instant last;
    } passed_over;
};

/// Decodes the GRIB messages in `bytes` that are wanted; `name` stands for the file in errors. A truncated or
/// damaged file is an error that names the message; a sound message of a kind not used here is counted in
/// `skipped`.
Result<Forecast> read_grib(std::span<const std::byte> bytes, std::string_view name,
                           const Wanted& wanted = {});

/// Reads what is wanted of the files of one run and joins it; files of different runs or centres are refused.
/// One message is in memory at a time. Files of a known kind that is not read are skipped with the reason.
/// Several files that hold the same fields without member numbers are taken as members, one a file, and a
/// note says so.
Result<Forecast> read_forecast(std::span<const std::filesystem::path> files, const Wanted& wanted = {});

}  // namespace gloam::weather
