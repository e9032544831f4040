#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>

namespace gloam::weather {

/// Bytes that can be read from any place on: those of a file, or of memory.
struct ByteSource {
    std::uint64_t size = 0;
    /// Fills `into` from `offset` on; returns how many bytes there were.
    std::function<std::size_t(std::uint64_t offset, std::span<std::byte> into)> read;
};

/// Refers to `bytes`.
ByteSource memory_source(std::span<const std::byte> bytes);

}  // namespace gloam::weather
