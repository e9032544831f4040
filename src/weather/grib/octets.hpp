#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

namespace gloam::weather {

using Octets = std::span<const std::byte>;

/// Unsigned big-endian number of `count` octets (at most 8) at `offset`. The caller has checked the length.
inline std::uint64_t big_endian(Octets octets, std::size_t offset, std::size_t count) {
    std::uint64_t value = 0;
    for (const std::byte octet : octets.subspan(offset, count)) {
        value = (value << 8U) | std::to_integer<std::uint64_t>(octet);
    }
    return value;
}

}  // namespace gloam::weather
