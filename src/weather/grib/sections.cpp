#include "weather/grib/sections.hpp"

#include <fmt/format.h>

#include <array>
#include <optional>

namespace gloam::weather {
namespace {

constexpr std::size_t kEndMarkLength = 4;
constexpr std::size_t kIndicatorLength1 = 8;
constexpr std::size_t kIndicatorLength2 = 16;

tl::unexpected<Error> broken(const FieldOrigin& origin, std::string what) {
    return fail(ErrorKind::kUnreadable, std::move(what), to_text(origin),
                "the message is damaged: fetch the file again");
}

// ---- edition 1: four sections of fixed order, each led by its length in three octets

/// Takes the next section off the front of `rest`; absent if it does not fit.
std::optional<Octets> take_section1(Octets& rest, std::size_t least) {
    if (rest.size() < least) {
        return std::nullopt;
    }
    const auto length = static_cast<std::size_t>(big_endian(rest, 0, 3));
    if (length < least || length > rest.size()) {
        return std::nullopt;
    }
    const Octets section = rest.first(length);
    rest = rest.subspan(length);
    return section;
}

Result<std::vector<GribField>> fields_of_edition1(const GribFrame& frame) {
    GribField field;
    field.origin = frame.origin;
    field.edition = 1;
    field.message = frame.octets;
    Octets rest =
        frame.octets.subspan(kIndicatorLength1, frame.octets.size() - kIndicatorLength1 - kEndMarkLength);
    const auto product = take_section1(rest, 28);
    if (!product) {
        return broken(frame.origin, "section 1 does not fit into the message");
    }
    field.identification = *product;
    const auto flags = std::to_integer<unsigned>((*product)[7]);
    const auto take = [&rest](bool there, Octets& into, std::size_t least) {
        const auto section = there ? take_section1(rest, least) : std::optional(Octets{});
        into = section.value_or(Octets{});
        return section.has_value();
    };
    if (!take((flags & 0x80U) != 0, field.grid, 10)) {
        return broken(frame.origin, "section 2 does not fit into the message");
    }
    if (!take((flags & 0x40U) != 0, field.bitmap, 6)) {
        return broken(frame.origin, "section 3 does not fit into the message");
    }
    if (!take(true, field.data, 11) || !rest.empty()) {
        return broken(frame.origin, "section 4 does not fill the rest of the message");
    }
    std::vector<GribField> fields;
    fields.push_back(std::move(field));
    return fields;
}

// ---- edition 2: sections 1 to 7, led by length and number; 2 to 7 may repeat, each repetition ending with 7

constexpr std::size_t kSectionHead = 5;
constexpr std::array<std::size_t, 8> kLeastLength{0, 21, 5, 14, 11, 11, 6, 5};

/// Sections in force, by number.
using Sections = std::array<Octets, 8>;

/// The section at the head of `rest`; absent if it does not fit or has no possible number.
std::optional<std::size_t> section_number(Octets rest) {
    if (rest.size() < kSectionHead) {
        return std::nullopt;
    }
    const auto number = std::to_integer<std::size_t>(rest[4]);
    const auto length = static_cast<std::size_t>(big_endian(rest, 0, 4));
    const bool fits = number >= 1 && number <= 7 && length >= kLeastLength[number] && length <= rest.size();
    return fits ? std::optional(number) : std::nullopt;
}

bool is_repeated_bitmap(Octets section) {
    return std::to_integer<int>(section[5]) == 254;
}

/// What a number may follow: sections stand in order, and after 7 a repetition starts at 2, 3 or 4.
bool may_follow(std::size_t number, std::size_t previous) {
    if (previous == 7) {
        return number >= 2 && number <= 4;
    }
    return number == previous + 1 || (previous == 1 && number == 3);
}

/// The indicator section, the sections in force and the end mark, with the length put right.
std::vector<std::byte> stand_alone(const GribFrame& frame, const Sections& sections) {
    const Octets head = frame.octets.first(kIndicatorLength2);
    std::vector<std::byte> message(head.begin(), head.end());
    for (const Octets section : sections) {
        message.insert(message.end(), section.begin(), section.end());
    }
    message.insert(message.end(), kEndMarkLength, std::byte{'7'});
    for (std::size_t i = 0; i < 8; ++i) {
        message[8 + i] = static_cast<std::byte>(message.size() >> (8 * (7 - i)));
    }
    return message;
}

GribField field_from(const GribFrame& frame, const Sections& sections, int number) {
    FieldOrigin origin = frame.origin;
    origin.field = number;
    return {.origin = std::move(origin),
            .edition = 2,
            .discipline = std::to_integer<int>(frame.octets[6]),
            .identification = sections[1],
            .product = sections[4],
            .grid = sections[3],
            .representation = sections[5],
            .bitmap = sections[6],
            .data = sections[7],
            .message = {},
            .made = nullptr};
}

void make_message(GribField& field, const GribFrame& frame, const Sections& sections) {
    field.made = std::make_unique<const std::vector<std::byte>>(stand_alone(frame, sections));
    field.message = *field.made;
}

Result<std::vector<GribField>> fields_of_edition2(const GribFrame& frame) {
    std::vector<GribField> fields;
    Sections sections;
    Octets last_bitmap;
    std::size_t previous = 0;
    Octets rest =
        frame.octets.subspan(kIndicatorLength2, frame.octets.size() - kIndicatorLength2 - kEndMarkLength);
    while (!rest.empty()) {
        const auto number = section_number(rest);
        if (!number || !may_follow(*number, previous)) {
            return broken(frame.origin,
                          fmt::format("the section after section {} is out of place or does not fit "
                                      "into the message",
                                      previous));
        }
        sections[*number] = rest.first(static_cast<std::size_t>(big_endian(rest, 0, 4)));
        rest = rest.subspan(sections[*number].size());
        previous = *number;
        if (previous == 6 && is_repeated_bitmap(sections[6])) {
            sections[6] = last_bitmap;
        } else if (previous == 6) {
            last_bitmap = sections[6];
        }
        if (previous == 6 && sections[6].empty()) {
            return broken(frame.origin, "a bitmap \"as before\" has none before it");
        }
        if (previous == 7) {
            fields.push_back(field_from(frame, sections, static_cast<int>(fields.size()) + 1));
            if (fields.size() == 1 && rest.empty()) {
                fields.back().message = frame.octets;
            } else {
                make_message(fields.back(), frame, sections);
            }
        }
    }
    if (previous != 7) {
        return broken(frame.origin, "the message holds no data section");
    }
    return fields;
}

}  // namespace

std::optional<GribField> headers_of(const GribFrame& frame) {
    static constexpr std::array kNoValues{std::byte{0}, std::byte{0}, std::byte{0}, std::byte{5},
                                          std::byte{7}};
    if (frame.edition == 1 || frame.unread < kEndMarkLength) {
        return std::nullopt;
    }
    Sections sections;
    std::size_t previous = 0;
    Octets rest = frame.octets.subspan(kIndicatorLength2);
    for (auto number = section_number(rest); number; number = section_number(rest)) {
        if (!may_follow(*number, previous) || *number == 7) {
            return std::nullopt;
        }
        sections[*number] = rest.first(static_cast<std::size_t>(big_endian(rest, 0, 4)));
        rest = rest.subspan(sections[*number].size());
        previous = *number;
    }
    const bool values_are_all_the_rest =
        previous == 6 && !is_repeated_bitmap(sections[6]) && rest.size() >= kSectionHead &&
        std::to_integer<int>(rest[4]) == 7 &&
        big_endian(rest, 0, 4) == rest.size() + frame.unread - kEndMarkLength;
    if (!values_are_all_the_rest) {
        return std::nullopt;
    }
    GribField field = field_from(frame, sections, 1);
    sections[7] = kNoValues;
    make_message(field, frame, sections);
    return field;
}

Result<std::vector<GribField>> fields_of(const GribFrame& frame) {
    return frame.edition == 1 ? fields_of_edition1(frame) : fields_of_edition2(frame);
}

}  // namespace gloam::weather
