#include "weather/forecast_file.hpp"

#include <fstream>
#include <memory>
#include <system_error>

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
    if (type != fs::file_type::regular) {
        return no_plain_file(file, type);
    }
    auto stream = std::make_shared<std::ifstream>(file, std::ios::binary);
    const auto size = fs::file_size(file, trouble);
    if (!*stream || trouble) {
        return fail(ErrorKind::kUnreadable, "this cannot be read", file.string(),
                    "check that you may read the file");
    }
    return ByteSource{size, [stream](std::uint64_t offset, std::span<std::byte> into) {
                          stream->clear();  // of an earlier end of file
                          stream->seekg(static_cast<std::streamoff>(offset));
                          stream->read(reinterpret_cast<char*>(into.data()),
                                       static_cast<std::streamsize>(into.size()));
                          return static_cast<std::size_t>(stream->gcount());
                      }};
}

}  // namespace

Result<std::size_t> visit_file(const fs::path& file, const FieldVisitor& visitor) {
    const auto source = open(file);
    if (!source) {
        return tl::unexpected(source.error());
    }
    return visit_grib(*source, file.filename().string(), visitor);
}

}  // namespace gloam::weather
