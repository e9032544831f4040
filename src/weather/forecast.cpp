#include "weather/forecast.hpp"

#include <fmt/format.h>

#include <fstream>
#include <iterator>
#include <mutex>
#include <system_error>
#include <utility>
#include <variant>

#include "weather/grib/decode.hpp"
#include "weather/grib/frames.hpp"
#include "weather/grib/sections.hpp"

namespace gloam::weather {
namespace {

/// Fields of two runs never make one forecast.
Result<void> check_same_run(const Forecast& forecast, const std::string& source, Instant run_time,
                            const FieldOrigin& origin) {
    if (forecast.fields.empty() || (forecast.source == source && forecast.run_time == run_time)) {
        return {};
    }
    return fail(ErrorKind::kBadInput,
                fmt::format("{} run of {} is mixed with {} run of {}", source, to_rfc3339_utc(run_time),
                            forecast.source, to_rfc3339_utc(forecast.run_time)),
                to_text(origin), "give the files of one run of one centre");
}

Result<void> add(Forecast& forecast, DecodedField&& decoded) {
    auto same = check_same_run(forecast, decoded.source, decoded.run_time, decoded.field.origin);
    if (!same) {
        return same;
    }
    forecast.source = std::move(decoded.source);
    forecast.run_time = decoded.run_time;
    forecast.clamped_values += decoded.clamped_values;
    forecast.fields.push_back(std::move(decoded.field));
    return {};
}

Result<void> add_frame(Forecast& forecast, const GribFrame& frame) {
    ++forecast.messages;
    const auto fields = fields_of(frame);
    if (!fields) {
        return tl::unexpected(fields.error());
    }
    for (const GribField& grib : *fields) {
        auto decoded = decode(grib);
        if (!decoded) {
            return tl::unexpected(std::move(decoded.error()));
        }
        if (auto* not_used = std::get_if<NotUsed>(&*decoded)) {
            forecast.skipped.push_back({grib.origin, std::move(not_used->reason)});
        } else if (auto added = add(forecast, std::get<DecodedField>(std::move(*decoded))); !added) {
            return added;
        }
    }
    return {};
}

Result<std::vector<std::byte>> read_bytes(const std::filesystem::path& file) {
    std::error_code trouble;
    if (!std::filesystem::exists(file, trouble)) {
        return fail(ErrorKind::kNotFound, "there is no such file", file.string(),
                    "check the name of the forecast file");
    }
    const auto size = std::filesystem::file_size(file, trouble);  // fails for a folder
    std::ifstream stream(file, std::ios::binary);
    if (trouble || !stream) {
        return fail(ErrorKind::kUnreadable, "this cannot be read as a file", file.string(),
                    "give a forecast file, and check that you may read it");
    }
    std::vector<std::byte> bytes(size);
    stream.read(reinterpret_cast<char*>(bytes.data()), static_cast<std::streamsize>(size));
    bytes.resize(static_cast<std::size_t>(stream.gcount()));
    return bytes;
}

template <class T>
void append(std::vector<T>& to, std::vector<T>&& from) {
    to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
}

Result<void> join(Forecast& whole, Forecast&& part) {
    if (!part.fields.empty()) {
        auto same = check_same_run(whole, part.source, part.run_time, part.fields.front().origin);
        if (!same) {
            return same;
        }
        whole.source = std::move(part.source);
        whole.run_time = part.run_time;
    }
    append(whole.fields, std::move(part.fields));
    append(whole.skipped, std::move(part.skipped));
    whole.messages += part.messages;
    whole.clamped_values += part.clamped_values;
    return {};
}

}  // namespace

Result<Forecast> read_grib(std::span<const std::byte> bytes, std::string_view name) {
    static std::mutex one_decoder;  // ecCodes promises nothing about threads
    const std::lock_guard hold(one_decoder);
    auto found = find_frames(bytes, name);
    if (!found) {
        return tl::unexpected(std::move(found.error()));
    }
    Forecast forecast;
    forecast.skipped = std::move(found->junk);
    for (const GribFrame& frame : found->frames) {
        if (auto added = add_frame(forecast, frame); !added) {
            return tl::unexpected(std::move(added.error()));
        }
    }
    return forecast;
}

Result<Forecast> read_forecast(std::span<const std::filesystem::path> files) {
    if (files.empty()) {
        return fail(ErrorKind::kBadInput, "no forecast file was given", {}, "give at least one GRIB file");
    }
    Forecast whole;
    for (const std::filesystem::path& file : files) {
        const auto bytes = read_bytes(file);
        if (!bytes) {
            return tl::unexpected(bytes.error());
        }
        auto part = read_grib(*bytes, file.filename().string());
        if (!part) {
            return part;
        }
        if (auto joined = join(whole, *std::move(part)); !joined) {
            return tl::unexpected(std::move(joined.error()));
        }
    }
    return whole;
}

}  // namespace gloam::weather
