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
constexpr std::size_t kSearchChunk = 65536;
constexpr const char* kFetchAgain = "fetch the file again: it is damaged or only partly here";

tl::unexpected<Error> truncated(const FieldOrigin& origin) {
    return fail(ErrorKind::kUnreadable, "the file ends in the middle of a message", to_text(origin),
                kFetchAgain);
}

Result<std::uint64_t> length_of(Octets head, int edition, const FieldOrigin& origin) {
    if (edition == 2) {
        return head.size() < kLongHeaderLength ? Result<std::uint64_t>(truncated(origin))
                                               : Result<std::uint64_t>(big_endian(head, 8, 8));
    }
    const std::uint64_t length = big_endian(head, 4, 3);
    if ((length & kLongGrib1Flag) != 0) {
        return fail(ErrorKind::kUnsupported, "a GRIB edition 1 message of more than 8 MB is not read",
                    to_text(origin), "convert it to edition 2 (grib_set -s edition=2) or cut the area");
    }
    return length;
}

}  // namespace

FrameReader::FrameReader(ByteSource source, std::string_view name)
    : source_(std::move(source)), last_{std::string(name), 0, 1} {}

/// Place of the next start mark from here on.
std::optional<std::uint64_t> FrameReader::find_start() const {
    std::vector<std::byte> chunk(kStartMark.size());
    for (std::uint64_t offset = position_; offset < source_.size;
         offset += chunk.size() - kStartMark.size() + 1, chunk.resize(kSearchChunk)) {
        const std::span got = std::span(chunk).first(source_.read(offset, chunk));
        const auto found = std::ranges::search(got, kStartMark);
        if (!found.empty()) {
            return offset + static_cast<std::uint64_t>(found.begin() - got.begin());
        }
        if (got.size() < kStartMark.size()) {
            break;
        }
    }
    return std::nullopt;
}

/// Whether the file stops within the four letters of a start mark.
bool FrameReader::ends_in_start_mark() const {
    const std::uint64_t left = std::min<std::uint64_t>(kStartMark.size() - 1, source_.size - position_);
    std::vector<std::byte> tail(static_cast<std::size_t>(left));
    tail.resize(source_.read(source_.size - left, tail));
    for (std::size_t length = tail.size(); length > 0; --length) {
        if (std::ranges::equal(Octets(tail).last(length), Octets(kStartMark).first(length))) {
            return true;
        }
    }
    return false;
}

void FrameReader::note_junk(std::uint64_t octets) {
    junk_.push_back(
        {last_, fmt::format("{} bytes {} are no GRIB message", octets,
                            last_.message == 0 ? "before the first message" : "after this message")});
}

Result<std::optional<GribFrame>> FrameReader::at_end() {
    if (source_.size == 0) {
        return fail(ErrorKind::kUnreadable, "the file is empty", last_.file, kFetchAgain);
    }
    if (last_.message == 0) {
        return fail(
            ErrorKind::kUnreadable, "this is not a GRIB file: it holds no GRIB message", last_.file,
            "give a forecast file in GRIB edition 1 or 2 (not an index, a web page or a packed archive)");
    }
    if (position_ < source_.size) {
        if (ends_in_start_mark()) {
            FieldOrigin here = last_;
            ++here.message;
            return truncated(here);
        }
        note_junk(source_.size - position_);
        position_ = source_.size;
    }
    return std::optional<GribFrame>();
}

bool FrameReader::ends_with_mark(std::uint64_t start, std::uint64_t length) const {
    std::array<std::byte, kEndMark.size()> mark{};
    return length >= kLongHeaderLength && source_.read(start + length - mark.size(), mark) == mark.size() &&
           mark == kEndMark;
}

Result<GribFrame> FrameReader::frame_at(std::uint64_t start, const FieldOrigin& origin) {
    const Octets head = Octets(beginning_).first(source_.read(start, beginning_));
    if (head.size() < kHeaderLength) {
        return truncated(origin);
    }
    const int edition = std::to_integer<int>(head[7]);
    if (edition != 1 && edition != 2) {
        return fail(ErrorKind::kUnreadable, fmt::format("edition {} of GRIB does not exist", edition),
                    to_text(origin), kFetchAgain);
    }
    const auto length = length_of(head, edition, origin);
    if (!length) {
        return tl::unexpected(length.error());
    }
    if (*length > source_.size - start) {
        return truncated(origin);
    }
    if (!ends_with_mark(start, *length)) {
        return fail(ErrorKind::kUnreadable, "the message does not end with its end mark 7777",
                    to_text(origin), kFetchAgain);
    }
    const Octets octets = head.first(std::min<std::uint64_t>(*length, head.size()));
    return GribFrame{origin, edition, octets, *length - octets.size()};
}

Result<GribFrame> FrameReader::whole(const GribFrame& frame) {
    if (frame.unread == 0) {
        return frame;
    }
    whole_.resize(frame.octets.size() + static_cast<std::size_t>(frame.unread));
    std::ranges::copy(frame.octets, whole_.begin());
    const auto rest = std::span(whole_).subspan(frame.octets.size());
    if (source_.read(position_ - frame.unread, rest) != rest.size()) {  // it has become shorter meanwhile
        return truncated(frame.origin);
    }
    return GribFrame{frame.origin, frame.edition, whole_};
}

Result<std::optional<GribFrame>> FrameReader::next() {
    const auto start = find_start();
    if (!start) {
        return at_end();
    }
    if (*start > position_) {
        note_junk(*start - position_);
    }
    FieldOrigin here = last_;
    ++here.message;
    auto frame = frame_at(*start, here);
    if (!frame) {
        return tl::unexpected(std::move(frame.error()));
    }
    position_ = *start + frame->octets.size() + frame->unread;
    last_ = std::move(here);
    return std::optional(*std::move(frame));
}

}  // namespace gloam::weather
