#include "weather/grib/jpeg2000.hpp"

namespace gloam::weather {
namespace {

// Codestream of ISO/IEC 15444-1, annex A (from memory, held against streams of NCEP and of ecCodes): the
// markers SOC and SIZ, the size of the reference grid, other segments of the main header, each a marker and
// its length; tile-parts, each led by the marker SOT and its length; the marker EOC.
constexpr std::uint64_t kStartAndSize = 0xFF4FFF51;
constexpr std::size_t kHeaderLength = 45;
constexpr std::uint64_t kTilePart = 0xFF90;
constexpr std::size_t kTilePartHead = 12;
constexpr std::uint64_t kEnd = 0xFFD9;

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

/// Takes a stretch off the front of `rest`; false if it is longer.
bool take(Octets& rest, std::uint64_t length) {
    if (length > rest.size()) {
        return false;
    }
    rest = rest.subspan(static_cast<std::size_t>(length));
    return true;
}

bool starts_with(Octets rest, std::uint64_t marker) {
    return rest.size() >= 2 && big_endian(rest, 0, 2) == marker;
}

/// Whether the lengths of all parts add up to the stream. The last tile-part may leave its length open, and
/// then goes on to the end.
bool is_whole(Octets stream) {
    Octets rest = stream.subspan(2);
    while (!starts_with(rest, kTilePart)) {
        const bool segment = rest.size() >= 4 && big_endian(rest, 0, 1) == 0xFF;
        if (!segment || !take(rest, 2 + big_endian(rest, 2, 2))) {
            return false;
        }
    }
    while (starts_with(rest, kTilePart)) {
        const std::uint64_t length = rest.size() >= kTilePartHead ? big_endian(rest, 6, 4) : 1;
        const bool open = length == 0;
        if ((!open && length < kTilePartHead) || !take(rest, open ? rest.size() - 2 : length)) {
            return false;
        }
    }
    return rest.size() == 2 && starts_with(rest, kEnd);
}

}  // namespace

std::optional<std::string> jpeg2000_trouble(Octets stream, std::uint64_t count) {
    if (!is_image_of(stream, count)) {
        return "the packed JPEG 2000 image is not one of this grid";
    }
    return is_whole(stream) ? std::nullopt
                            : std::optional<std::string>(
                                  "the packed JPEG 2000 image is longer or shorter than its section");
}

}  // namespace gloam::weather
