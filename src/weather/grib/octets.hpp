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

/// Integer of `count` octets (at most 4) at `offset`; GRIB writes negative ones as a sign and a magnitude.
/// The caller has checked the length.
inline std::int64_t signed_big_endian(Octets octets, std::size_t offset, std::size_t count) {
    const std::uint64_t sign = std::uint64_t{1} << (8 * count - 1);
    const std::uint64_t value = big_endian(octets, offset, count);
    const auto magnitude = static_cast<std::int64_t>(value & (sign - 1));
    return (value & sign) == 0 ? magnitude : -magnitude;
}

}  // namespace gloam::weather
