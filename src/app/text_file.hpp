#pragma once

#include <cstddef>
#include <filesystem>
#include <span>
#include <string>

#include "base/error.hpp"

namespace gloam::app {

/// Whole content of a small text file; refused if it does not exist, is no regular file or is larger than 32
/// MB.
Result<std::string> read_text_file(const std::filesystem::path& path);

/// Writes a file whole or not at all (through a neighbour that is renamed).
Result<void> write_file(const std::filesystem::path& path, std::span<const std::byte> bytes);

}  // namespace gloam::app
