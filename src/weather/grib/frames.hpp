#pragma once

#include <array>
#include <optional>
#include <string_view>
#include <vector>

#include "weather/grib/byte_source.hpp"
#include "weather/grib/octets.hpp"
#include "weather/skipped.hpp"

namespace gloam::weather {

/// One GRIB message, from "GRIB" to "7777".
struct GribFrame {
    FieldOrigin origin;
    int edition = 2;           ///< 1 or 2
    Octets octets;             ///< its beginning, or all of it; refers to the reader's buffer
    std::uint64_t unread = 0;  ///< octets behind those
};

/// As much of a message is read before anybody asks for more: all sections but bitmap and values, as a rule.
inline constexpr std::size_t kBeginning = 512;

/// Finds the messages of a file one after the other by their own lengths, without a decoder. Holds one
/// message at a time, however large the file, and of those that nobody asks for only the beginning.
class FrameReader {
  public:
    /// `name` stands for the file in messages.
    FrameReader(ByteSource source, std::string_view name);

    /// The beginning of the next message, good until the next call; nothing after the last. Error
    /// (kUnreadable, naming the message) if the file is empty, holds no message, ends within one, or if one
    /// lacks its end mark or is of an edition other than 1 and 2.
    Result<std::optional<GribFrame>> next();

    /// The whole of the message that next() gave last. Error (kUnreadable) if it is no longer there.
    Result<GribFrame> whole(const GribFrame& frame);

    /// The stretches met so far, between the messages, that are no GRIB.
    const std::vector<SkippedMessage>& junk() const { return junk_; }

  private:
    std::optional<std::uint64_t> find_start() const;
    bool ends_in_start_mark() const;
    Result<std::optional<GribFrame>> at_end();
    Result<GribFrame> frame_at(std::uint64_t start, const FieldOrigin& origin);
    bool ends_with_mark(std::uint64_t start, std::uint64_t length) const;
    void note_junk(std::uint64_t octets);

    ByteSource source_;
    FieldOrigin last_;
    std::uint64_t position_ = 0;  ///< behind the last message
    std::array<std::byte, kBeginning> beginning_{};
    std::vector<std::byte> whole_;
    std::vector<SkippedMessage> junk_;
};

}  // namespace gloam::weather
