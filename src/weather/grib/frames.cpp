#include "weather/grib/frames.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>

namespace gloam::weather {
namespace {

constexpr std::array kStartMark{std::byte{'G'}, std::byte{'R'}, std::byte{'I'}, std::byte{'B'}};
constexpr std::array kEndMark{std::byte{'7'}, std::byte{'7'}, std::byte{'7'}, std::byte{'7'}};
constexpr std::size_t kHeaderLength = 8;  // edition 1; edition 2 adds a length of 8 octets
constexpr std::size_t kLongHeaderLength = 16;
constexpr std::uint64_t kLongGrib1Flag =
    0x800000;  // edition 1 beyond 8 MB: the length is scaled by convention
constexpr const char* kFetchAgain = "fetch the file again: it is damaged or only partly here";

std::size_t next_start(Octets bytes, std::size_t from) {
    const Octets rest = bytes.subspan(from);
    const auto found = std::ranges::search(rest, kStartMark);
    return from + static_cast<std::size_t>(found.begin() - rest.begin());
}

/// Whether the file stops within the four letters of a start mark.
bool ends_in_start_mark(Octets tail) {
    for (std::size_t length = std::min<std::size_t>(3, tail.size()); length > 0; --length) {
        if (std::ranges::equal(tail.last(length), Octets(kStartMark).first(length))) {
            return true;
        }
    }
    return false;
}

tl::unexpected<Error> truncated(const FieldOrigin& origin) {
    return fail(ErrorKind::kUnreadable, "the file ends in the middle of a message", to_text(origin),
                kFetchAgain);
}

Result<std::size_t> length_of(Octets rest, int edition, const FieldOrigin& origin) {
    if (edition == 2) {
        return rest.size() < kLongHeaderLength
                   ? Result<std::size_t>(truncated(origin))
                   : Result<std::size_t>(static_cast<std::size_t>(big_endian(rest, 8, 8)));
    }
    const std::uint64_t length = big_endian(rest, 4, 3);
    if ((length & kLongGrib1Flag) != 0) {
        return fail(ErrorKind::kUnsupported, "a GRIB edition 1 message of more than 8 MB is not read",
                    to_text(origin), "convert it to edition 2 (grib_set -s edition=2) or cut the area");
    }
    return static_cast<std::size_t>(length);
}

/// The frame at the head of `rest`, which begins with the start mark.
Result<GribFrame> frame_at(Octets rest, const FieldOrigin& origin) {
    if (rest.size() < kHeaderLength) {
        return truncated(origin);
    }
    const int edition = std::to_integer<int>(rest[7]);
    if (edition != 1 && edition != 2) {
        return fail(ErrorKind::kUnreadable, fmt::format("edition {} of GRIB does not exist", edition),
                    to_text(origin), kFetchAgain);
    }
    const auto length = length_of(rest, edition, origin);
    if (!length) {
        return tl::unexpected(length.error());
    }
    if (*length > rest.size()) {
        return truncated(origin);
    }
    if (*length < kLongHeaderLength || !std::ranges::equal(rest.subspan(*length - 4, 4), kEndMark)) {
        return fail(ErrorKind::kUnreadable, "the message does not end with its end mark 7777",
                    to_text(origin), kFetchAgain);
    }
    return GribFrame{origin, edition, rest.first(*length)};
}

SkippedMessage junk_after(const FieldOrigin& last, std::size_t octets) {
    return {last, fmt::format("{} bytes {} are no GRIB message", octets,
                              last.message == 0 ? "before the first message" : "after this message")};
}

}  // namespace

Result<GribFrames> find_frames(Octets bytes, std::string_view name) {
    GribFrames found;
    FieldOrigin last{std::string(name), 0, 1};
    if (bytes.empty()) {
        return fail(ErrorKind::kUnreadable, "the file is empty", last.file, kFetchAgain);
    }
    for (std::size_t position = 0; position < bytes.size();) {
        const std::size_t start = next_start(bytes, position);
        FieldOrigin here = last;
        ++here.message;
        if (start == bytes.size() && last.message > 0 && ends_in_start_mark(bytes.subspan(position))) {
            return truncated(here);
        }
        if (start > position) {
            found.junk.push_back(junk_after(last, start - position));
        }
        if (start == bytes.size()) {
            break;
        }
        auto frame = frame_at(bytes.subspan(start), here);
        if (!frame) {
            return tl::unexpected(frame.error());
        }
        position = start + frame->octets.size();
        found.frames.push_back(*std::move(frame));
        last = here;
    }
    if (found.frames.empty()) {
        return fail(
            ErrorKind::kUnreadable, "this is not a GRIB file: it holds no GRIB message", last.file,
            "give a forecast file in GRIB edition 1 or 2 (not an index, a web page or a packed archive)");
    }
    return found;
}

}  // namespace gloam::weather
