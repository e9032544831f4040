#include "weather/grib_packing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "weather/grib_bitmap.hpp"

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

constexpr std::uint64_t kMostBits = 32;  // of one packed number; more is damage
constexpr std::size_t kDataHead1 = 11;
constexpr std::size_t kDataHead2 = 5;

unsigned template_of(const GribField& field) {
    return static_cast<unsigned>(big_endian(field.representation, 9, 2));
}

/// Numbers of a fixed width in bits, one after the other from the start of an octet. The caller keeps within
/// bounds.
class BitReader {
  public:
    BitReader(Octets octets, std::uint64_t width) : octets_(octets), width_(width) {}

    std::uint64_t next() {
        std::uint64_t value = 0;
        for (std::uint64_t i = 0; i < width_; ++i, ++position_) {
            const auto octet = std::to_integer<std::uint64_t>(octets_[position_ / 8]);
            value = (value << 1U) | ((octet >> (7 - position_ % 8)) & 1U);
        }
        return value;
    }

  private:
    Octets octets_;
    std::uint64_t width_;
    std::size_t position_ = 0;
};

std::uint64_t octets_for(std::uint64_t numbers, std::uint64_t bits) {
    return (numbers * bits + 7) / 8;
}

std::optional<std::string> too_short(const char* what) {
    return fmt::format("the data section is too short for {}", what);
}

/// Headers of complex packing (templates 5.2 and 5.3), by their octets.
struct GroupHeaders {
    std::uint64_t bits;
    std::uint64_t groups;
    std::uint64_t width_reference;
    std::uint64_t width_bits;
    std::uint64_t length_reference;
    std::uint64_t length_increment;
    std::uint64_t last_length;
    std::uint64_t length_bits;
    std::uint64_t extra_octets;  ///< ahead of the groups: first values and least difference
};

std::optional<GroupHeaders> group_headers(const GribField& field) {
    const Octets head = field.representation;
    const bool differences = template_of(field) == kComplexDifferences;
    if (head.size() < (differences ? 49U : 47U)) {
        return std::nullopt;
    }
    std::uint64_t extra = 0;
    if (differences) {
        const std::uint64_t order = big_endian(head, 47, 1);
        const std::uint64_t octets = big_endian(head, 48, 1);
        if (order < 1 || order > 2 || octets > 4) {
            return std::nullopt;
        }
        extra = (order + 1) * octets;
    }
    const GroupHeaders headers{big_endian(head, 19, 1), big_endian(head, 31, 4), big_endian(head, 35, 1),
                               big_endian(head, 36, 1), big_endian(head, 37, 4), big_endian(head, 41, 1),
                               big_endian(head, 42, 4), big_endian(head, 46, 1), extra};
    const bool possible = std::max({headers.bits, headers.width_bits, headers.length_bits}) <= kMostBits;
    return possible ? std::optional(headers) : std::nullopt;
}

std::optional<std::string> complex_trouble(const GribField& field, std::uint64_t count) {
    const auto headers = group_headers(field);
    if (!headers || headers->groups > count) {
        return "the headers of the packing make no sense";
    }
    if (headers->groups == 0) {  // how some centres write a constant field
        return headers->bits == 0 ? std::nullopt : std::optional<std::string>("the packing has no groups");
    }
    const Octets data = field.data.subspan(kDataHead2);
    const std::uint64_t widths_at = headers->extra_octets + octets_for(headers->groups, headers->bits);
    const std::uint64_t lengths_at = widths_at + octets_for(headers->groups, headers->width_bits);
    const std::uint64_t values_at = lengths_at + octets_for(headers->groups, headers->length_bits);
    if (values_at > data.size()) {
        return too_short("the group descriptors");
    }
    BitReader widths(data.subspan(widths_at), headers->width_bits);
    BitReader lengths(data.subspan(lengths_at), headers->length_bits);
    std::uint64_t values = 0;
    std::uint64_t bits = 0;
    for (std::uint64_t group = 0; group < headers->groups; ++group) {
        const std::uint64_t width = headers->width_reference + widths.next();
        const std::uint64_t scaled = headers->length_reference + headers->length_increment * lengths.next();
        const std::uint64_t length = group + 1 == headers->groups ? headers->last_length : scaled;
        values += length;
        bits += length * width;
        if (width > kMostBits || values > count) {
            return "the group lengths make no sense";
        }
    }
    if (values != count) {
        return "the groups do not add up to the number of values";
    }
    return values_at + octets_for(bits, 1) > data.size() ? too_short("the groups") : std::nullopt;
}

std::optional<std::string> bits_trouble(std::uint64_t bits) {
    return bits > 64 ? std::optional(fmt::format("{} bits a value make no sense", bits)) : std::nullopt;
}

std::optional<std::string> plain_trouble(std::uint64_t bits, std::uint64_t available_octets,
                                         std::uint64_t count) {
    if (auto trouble = bits_trouble(bits)) {
        return trouble;
    }
    return octets_for(count, bits) > available_octets ? too_short("its values") : std::nullopt;
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
        return complex_trouble(field, count);
    }
    if (packing == kIeee) {
        return ieee_trouble(field, count);
    }
    if (field.representation.size() < 21) {
        return "the headers of the packing are too short";
    }
    const std::uint64_t bits = big_endian(field.representation, 19, 1);
    // The image and CCSDS decoders know the length of their stream and keep within it.
    return packing == kSimple ? plain_trouble(bits, field.data.size() - kDataHead2, count)
                              : bits_trouble(bits);
}

std::optional<std::string> trouble_of_edition1(const GribField& field, std::size_t points) {
    const auto count = points_with_value(field, points);
    if (!count) {
        return "the bitmap does not fit the grid";
    }
    return plain_trouble(big_endian(field.data, 10, 1), field.data.size() - kDataHead1, *count);
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

std::optional<std::string> packing_trouble(const GribField& field, std::size_t points) {
    return field.edition == 1 ? trouble_of_edition1(field, points) : trouble_of_edition2(field, points);
}

}  // namespace gloam::weather
