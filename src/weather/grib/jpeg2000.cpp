#include "weather/grib/jpeg2000.hpp"

namespace gloam::weather {
namespace {

// Codestream of ISO/IEC 15444-1, annex A: the markers SOC and SIZ, then the size of the reference grid.
constexpr std::uint64_t kStartAndSize = 0xFF4FFF51;
constexpr std::size_t kHeaderLength = 45;

bool is_image_of(Octets stream, std::uint64_t count) {
    if (stream.size() < kHeaderLength || big_endian(stream, 0, 4) != kStartAndSize) {
        return false;
    }
    const std::uint64_t right = big_endian(stream, 8, 4);
    const std::uint64_t bottom = big_endian(stream, 12, 4);
    const std::uint64_t left = big_endian(stream, 16, 4);
    const std::uint64_t top = big_endian(stream, 20, 4);
    const bool one_component = big_endian(stream, 40, 2) == 1;
    const bool every_point = big_endian(stream, 43, 2) == 0x0101;        // no subsampling either way
    const bool unsigned_below_32_bits = big_endian(stream, 42, 1) < 31;  // depth less one; bit 7: signed
    return one_component && every_point && unsigned_below_32_bits && left < right && top < bottom &&
           (right - left) * (bottom - top) == count;
}

}  // namespace

std::optional<std::string> jpeg2000_trouble(Octets stream, std::uint64_t count) {
    return is_image_of(stream, count)
               ? std::nullopt
               : std::optional<std::string>("the packed JPEG 2000 image is not one of this grid");
}

}  // namespace gloam::weather
