#include "weather/grib/groups.hpp"

#include <algorithm>

#include "weather/grib/bit_reader.hpp"

namespace gloam::weather {
namespace {

constexpr std::uint64_t kMostBits = 32;  // of one packed number; more is damage

std::uint64_t octets_for(std::uint64_t numbers, std::uint64_t bits) {
    return (numbers * bits + 7) / 8;
}

/// The header of the packing, by the octets of template 5.2 and 5.3.
struct GroupHeader {
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

/// Octets ahead of the groups; absent if they make no sense.
std::optional<std::uint64_t> extra_octets(Octets head, bool differences) {
    if (!differences) {
        return 0;
    }
    const std::uint64_t order = big_endian(head, 47, 1);
    const std::uint64_t octets = big_endian(head, 48, 1);
    if (order > 2 || octets > 4) {
        return std::nullopt;
    }
    return order == 0 ? 0 : (order + 1) * octets;  // order 0 is how ecCodes itself writes this template
}

std::optional<GroupHeader> group_header(Octets head, bool differences) {
    if (head.size() < (differences ? 49U : 47U)) {
        return std::nullopt;
    }
    const auto extra = extra_octets(head, differences);
    const GroupHeader header{big_endian(head, 19, 1), big_endian(head, 31, 4), big_endian(head, 35, 1),
                             big_endian(head, 36, 1), big_endian(head, 37, 4), big_endian(head, 41, 1),
                             big_endian(head, 42, 4), big_endian(head, 46, 1), extra.value_or(0)};
    const bool possible = std::max({header.bits, header.width_bits, header.length_bits}) <= kMostBits;
    return extra && possible ? std::optional(header) : std::nullopt;
}

/// Adds the groups up: their values must be `count`, their bits must fit into what follows `values_at`.
std::optional<std::string> sum_trouble(const GroupHeader& header, BitReader widths, BitReader lengths,
                                       std::uint64_t count, std::uint64_t available_octets) {
    std::uint64_t values = 0;
    std::uint64_t bits = 0;
    for (std::uint64_t group = 0; group < header.groups; ++group) {
        const std::uint64_t width = header.width_reference + widths.next();
        const std::uint64_t scaled = header.length_reference + header.length_increment * lengths.next();
        const std::uint64_t length = group + 1 == header.groups ? header.last_length : scaled;
        values += length;
        bits += length * width;
        if (width > kMostBits || values > count) {
            return "the group lengths make no sense";
        }
    }
    if (values != count) {
        return "the groups do not add up to the number of values";
    }
    return octets_for(bits, 1) > available_octets
               ? std::optional<std::string>("the data section is too short for its groups")
               : std::nullopt;
}

}  // namespace

std::optional<std::string> groups_trouble(Octets representation, Octets data, std::uint64_t count,
                                          bool differences) {
    const auto header = group_header(representation, differences);
    if (!header || header->groups > count) {
        return "the header of the packing makes no sense";
    }
    if (header->groups == 0) {  // how some centres write a constant field
        return header->bits == 0 ? std::nullopt : std::optional<std::string>("the packing has no groups");
    }
    const std::uint64_t widths_at = header->extra_octets + octets_for(header->groups, header->bits);
    const std::uint64_t lengths_at = widths_at + octets_for(header->groups, header->width_bits);
    const std::uint64_t values_at = lengths_at + octets_for(header->groups, header->length_bits);
    if (values_at > data.size()) {
        return "the data section is too short for the descriptions of its groups";
    }
    return sum_trouble(*header, BitReader(data.subspan(widths_at), header->width_bits),
                       BitReader(data.subspan(lengths_at), header->length_bits), count,
                       data.size() - values_at);
}

}  // namespace gloam::weather
