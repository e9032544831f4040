#include "weather/grib/byte_source.hpp"

#include <algorithm>

namespace gloam::weather {

ByteSource memory_source(std::span<const std::byte> bytes) {
    return {bytes.size(), [bytes](std::uint64_t offset, std::span<std::byte> into) {
                const auto start = std::min<std::uint64_t>(offset, bytes.size());
                const auto part = bytes.subspan(static_cast<std::size_t>(start));
                const std::size_t count = std::min(part.size(), into.size());
                std::copy_n(part.data(), count, into.data());  // by pointers: one octet at a time otherwise
                return count;
            }};
}

}  // namespace gloam::weather
