#include "app/text_file.hpp"

#include <fstream>
#include <iterator>

namespace gloam::app {

namespace fs = std::filesystem;

Result<std::string> read_text_file(const fs::path& path) {
    constexpr std::uintmax_t kMost = 32U << 20U;
    std::error_code error;
    if (!fs::is_regular_file(path, error)) {
        return fail(ErrorKind::kNotFound, "there is no such file", path.string(), "check the path");
    }
    if (fs::file_size(path, error) > kMost) {
        return fail(ErrorKind::kUnreadable, "the file is far too large for what it should be", path.string(),
                    "check that it is the right file");
    }
    std::ifstream file(path, std::ios::binary);
    std::string text{std::istreambuf_iterator<char>(file), {}};
    if (!file) {
        return fail(ErrorKind::kUnreadable, "the file cannot be read", path.string(),
                    "check its permissions");
    }
    return text;
}

Result<void> write_file(const fs::path& path, std::span<const std::byte> bytes) {
    const fs::path part = path.string() + ".part";
    std::ofstream file(part, std::ios::binary);
    file.write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
    file.close();
    std::error_code error;
    if (file) {
        fs::rename(part, path, error);
    }
    if (!file || error) {
        std::error_code ignored;
        fs::remove(part, ignored);
        return fail(ErrorKind::kBadInput, "the file cannot be written", path.string(),
                    "check that the folder exists and is yours to write");
    }
    return {};
}

}  // namespace gloam::app
