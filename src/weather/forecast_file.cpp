#include "weather/forecast_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <memory>
#include <system_error>
#include <utility>

#include "weather/file_kind.hpp"
#include "weather/point_json/parse.hpp"
#include "weather/point_json/read.hpp"

namespace gloam::weather {
namespace {

namespace fs = std::filesystem;

tl::unexpected<Error> no_plain_file(const fs::path& file, fs::file_type type) {
    if (type == fs::file_type::not_found) {
        return fail(ErrorKind::kNotFound, "there is no such file", file.string(),
                    "check the name of the forecast file");
    }
    if (type == fs::file_type::directory) {
        return fail(ErrorKind::kUnreadable, "this is a folder, not a file", file.string(),
                    "name the files in it");
    }
    return fail(ErrorKind::kUnreadable, "this is not a plain file but a pipe or a device", file.string(),
                "save what comes out of it to a file, and give that");
}

Result<ByteSource> open(const fs::path& file) {
    std::error_code trouble;
    const fs::file_type type = fs::status(file, trouble).type();
    const bool looked_up = type != fs::file_type::none;  // not so in a folder that may not be entered
    if (looked_up && type != fs::file_type::regular) {
        return no_plain_file(file, type);
    }
    auto stream = std::make_shared<std::ifstream>(file, std::ios::binary);
    const auto size = fs::file_size(file, trouble);
    if (!*stream || trouble) {
        return fail(ErrorKind::kUnreadable, "this cannot be read", file.string(),
                    "check that you may read the file, and enter its folder");
    }
    return ByteSource{size, [stream](std::uint64_t offset, std::span<std::byte> into) {
                          stream->clear();  // of an earlier end of file
                          stream->seekg(static_cast<std::streamoff>(offset));
                          stream->read(reinterpret_cast<char*>(into.data()),
                                       static_cast<std::streamsize>(into.size()));
                          return static_cast<std::size_t>(stream->gcount());
                      }};
}

std::vector<std::byte> bytes_of(const ByteSource& source, std::size_t most) {
    std::vector<std::byte> bytes(static_cast<std::size_t>(std::min<std::uint64_t>(source.size, most)));
    bytes.resize(source.read(0, bytes));
    return bytes;
}

/// A point forecast is small: it is read whole, and then shown field by field like any other.
Result<std::size_t> visit_point_json(const ByteSource& source, const std::string& name,
                                     const FieldVisitor& visitor) {
    const auto bytes = bytes_of(source, kMostJsonBytes + 1);  // one more is refused as too large
    const std::string_view text(reinterpret_cast<const char*>(bytes.data()), bytes.size());
    auto forecast = read_point_json(text, name);
    if (!forecast) {
        return tl::unexpected(std::move(forecast.error()));
    }
    std::size_t clamped = forecast->clamped_values;  // counted for the file, told with its first field
    for (Field& field : forecast->fields) {
        if (!visitor.wants(field)) {
            if (auto passed = visitor.pass_over({std::move(field), forecast->source, forecast->run_time});
                !passed) {
                return tl::unexpected(std::move(passed.error()));
            }
            continue;
        }
        DecodedField decoded{std::move(field), forecast->source, forecast->run_time,
                             std::exchange(clamped, 0)};
        if (auto taken = visitor.take(std::move(decoded)); !taken) {
            return tl::unexpected(std::move(taken.error()));
        }
    }
    for (SkippedMessage& skipped : forecast->skipped) {
        visitor.skip(std::move(skipped));
    }
    return forecast->messages;
}

/// Files that lie beside forecasts are passed over; those that somebody took for one are refused.
bool lies_beside_forecasts(FileKind kind) {
    static constexpr std::array kBeside{FileKind::kNetCdf, FileKind::kBufr, FileKind::kGribIndex,
                                        FileKind::kAirportText, FileKind::kTable};
    return std::ranges::find(kBeside, kind) != kBeside.end();
}

}  // namespace

Result<std::size_t> visit_file(const fs::path& file, const FieldVisitor& visitor) {
    const auto source = open(file);
    if (!source) {
        return tl::unexpected(source.error());
    }
    const std::string name = file.string();
    const FileKind kind = kind_of(bytes_of(*source, kKindHead));
    if (kind == FileKind::kGrib || kind == FileKind::kEmpty || kind == FileKind::kUnknown) {
        return visit_grib(*source, name, visitor);
    }
    if (kind == FileKind::kJson) {
        return visit_point_json(*source, name, visitor);
    }
    const auto& [sentence, remedy] = words_of(kind);
    if (lies_beside_forecasts(kind)) {
        visitor.skip({{name, 0, 1}, fmt::format("{}: {}", sentence, remedy)});
        return 0;
    }
    return fail(ErrorKind::kUnreadable, std::string(sentence), file.string(), std::string(remedy));
}

}  // namespace gloam::weather
