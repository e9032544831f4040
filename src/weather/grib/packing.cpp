#include "weather/grib/packing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "weather/grib/bit_reader.hpp"
#include "weather/grib/bitmap.hpp"
#include "weather/grib/groups.hpp"
#include "weather/grib/jpeg2000.hpp"
#include "weather/grib/png.hpp"
#include "weather/grib/scaling.hpp"

namespace gloam::weather {
namespace {

// Edition 2, code table 5.0.
constexpr unsigned kSimple = 0;
constexpr unsigned kComplex = 2;
constexpr unsigned kComplexDifferences = 3;
constexpr unsigned kIeee = 4;
constexpr unsigned kJpeg2000 = 40;
constexpr unsigned kPng = 41;
constexpr unsigned kCcsds = 42;

constexpr std::size_t kDataHead1 = 11;
constexpr std::size_t kDataHead2 = 5;

unsigned template_of(const GribField& field) {
    return static_cast<unsigned>(big_endian(field.representation, 9, 2));
}

std::optional<std::string> bits_trouble(std::uint64_t bits) {
    return bits > BitReader::kMostBits ? std::optional(fmt::format("{} bits a value make no sense", bits))
                                       : std::nullopt;
}

std::optional<std::string> plain_trouble(std::uint64_t bits, std::uint64_t available_octets,
                                         std::uint64_t count) {
    return (count * bits + 7) / 8 > available_octets
               ? std::optional<std::string>("the data section is too short for its values")
               : std::nullopt;
}

/// Parameters beyond what CCSDS 121.0-B allows make the decoder divide by zero or run off its blocks.
std::optional<std::string> ccsds_trouble(Octets head) {
    constexpr std::uint64_t kAnyBlockSize = 64;  // flag of the decoder: even sizes of no standard
    const bool long_enough = head.size() >= 25;
    const std::uint64_t bits = long_enough ? big_endian(head, 19, 1) : 0;
    const std::uint64_t flags = long_enough ? big_endian(head, 21, 1) : 0;
    const std::uint64_t block = long_enough ? big_endian(head, 22, 1) : 0;
    const std::uint64_t interval = long_enough ? big_endian(head, 23, 2) : 0;
    const bool standard_block = block == 8 || block == 16 || block == 32 || block == 64;
    const bool good = bits >= 1 && bits <= 32 && (flags & kAnyBlockSize) == 0 && standard_block &&
                      interval >= 1 && interval <= 4096;
    return good ? std::nullopt : std::optional<std::string>("the header of the CCSDS packing makes no sense");
}

std::optional<std::string> ieee_trouble(const GribField& field, std::uint64_t count) {
    const std::uint64_t precision =
        field.representation.size() > 11 ? big_endian(field.representation, 11, 1) : 0;
    if (precision != 1 && precision != 2) {
        return "the precision of the numbers makes no sense";
    }
    return plain_trouble(32 * precision, field.data.size() - kDataHead2, count);
}

std::optional<std::string> trouble_of_edition2(const GribField& field, std::size_t points) {
    const std::uint64_t count = big_endian(field.representation, 5, 4);
    const auto expected = points_with_value(field, points);
    if (!expected || *expected != count) {
        return fmt::format("{} values are packed for a grid of {} points", count, points);
    }
    const unsigned packing = template_of(field);
    if (packing == kComplex || packing == kComplexDifferences) {
        return groups_trouble(field.representation, field.data.subspan(kDataHead2), count,
                              packing == kComplexDifferences);
    }
    if (packing == kIeee) {
        return ieee_trouble(field, count);
    }
    if (field.representation.size() < 21) {
        return "the headers of the packing are too short";
    }
    const std::uint64_t bits = big_endian(field.representation, 19, 1);
    if (auto trouble = bits_trouble(bits); trouble || (bits == 0 && packing != kSimple)) {
        return trouble;  // of no bits there is no stream: all values are the reference value
    }
    const Octets data = field.data.subspan(kDataHead2);
    switch (packing) {
        case kSimple:
            return plain_trouble(bits, data.size(), count);
        case kJpeg2000:
            return jpeg2000_trouble(data, count);
        case kPng:
            return png_trouble(field.representation, data, count);
        default:
            return ccsds_trouble(field.representation);
    }
}

std::optional<std::string> trouble_of_edition1(const GribField& field, std::size_t points) {
    const auto count = points_with_value(field, points);
    if (!count) {
        return "the bitmap does not fit the grid";
    }
    const std::uint64_t bits = big_endian(field.data, 10, 1);
    auto trouble = bits_trouble(bits);
    return trouble ? trouble : plain_trouble(bits, field.data.size() - kDataHead1, *count);
}

void unpack_simple(const Scaling& scaling, Octets data, std::span<double> values) {
    if (scaling.bits == 0) {
        std::ranges::fill(values, scaling.reference);
        return;
    }
    BitReader numbers(data, scaling.bits);
    for (double& value : values) {
        value = scaling.value(numbers.next());
    }
}

}  // namespace

std::optional<std::string> unused_packing(const GribField& field) {
    if (field.edition == 1) {
        const bool simple = (big_endian(field.data, 3, 1) & 0xF0U) == 0;
        return simple ? std::nullopt
                      : std::optional<std::string>("second-order packing of edition 1 is not used");
    }
    static constexpr std::array kUsed{kSimple, kComplex, kComplexDifferences, kIeee, kJpeg2000, kPng, kCcsds};
    const unsigned packing = template_of(field);
    const bool used = std::ranges::find(kUsed, packing) != kUsed.end();
    return used ? std::nullopt : std::optional(fmt::format("packing 5.{} is not used", packing));
}

bool unpack_here(const GribField& field, std::size_t points, std::vector<double>& values) {
    const bool simple = field.edition == 1 || template_of(field) == kSimple;
    if (!simple && template_of(field) != kPng) {
        return false;
    }
    values.resize(points_with_value(field, points).value_or(0));
    if (field.edition == 1) {
        unpack_simple(scaling_of_edition1(field), field.data.subspan(kDataHead1), values);
    } else if (simple) {
        unpack_simple(scaling_of_edition2(field.representation), field.data.subspan(kDataHead2), values);
    } else {
        unpack_png(field.representation, field.data.subspan(kDataHead2), values);
    }
    return true;
}

std::optional<std::string> packing_trouble(const GribField& field, std::size_t points) {
    return field.edition == 1 ? trouble_of_edition1(field, points) : trouble_of_edition2(field, points);
}

}  // namespace gloam::weather
