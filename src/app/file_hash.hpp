#pragma once

#include <filesystem>
#include <string>

#include "base/error.hpp"

namespace gloam::app {

/// SHA-256 of a file's bytes, 64 hexadecimal digits. Error (kUnreadable): it cannot be read.
Result<std::string> sha256_of(const std::filesystem::path& file);

}  // namespace gloam::app
