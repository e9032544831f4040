#include "weather/grib/visit.hpp"

#include <mutex>
#include <utility>

#include "weather/grib/frames.hpp"
#include "weather/grib/sections.hpp"

namespace gloam::weather {
namespace {

Result<void> show(Decoded&& decoded, FieldOrigin&& origin, const FieldVisitor& visitor) {
    if (auto* field = std::get_if<DecodedField>(&decoded)) {
        return visitor.take(std::move(*field));
    }
    if (const auto* not_wanted = std::get_if<NotWanted>(&decoded)) {
        return visitor.pass_over(*not_wanted);
    }
    visitor.skip({std::move(origin), std::move(std::get<NotUsed>(decoded).reason)});
    return {};
}

Result<void> show_all(const GribFrame& whole, FieldDecoder& decoder, const FieldVisitor& visitor) {
    auto fields = fields_of(whole);
    if (!fields) {
        return tl::unexpected(std::move(fields.error()));
    }
    for (GribField& grib : *fields) {
        auto decoded = decoder.decode(grib, visitor.wants);
        if (!decoded) {
            return tl::unexpected(std::move(decoded.error()));
        }
        if (auto shown = show(*std::move(decoded), std::move(grib.origin), visitor); !shown) {
            return shown;
        }
    }
    return {};
}

/// Reads the message whole only if its headers do not say that it need not be.
Result<void> show_message(const GribFrame& frame, FrameReader& reader, FieldDecoder& decoder,
                          const FieldVisitor& visitor) {
    if (auto headers = headers_of(frame)) {
        if (auto decoded = decoder.decode_headers(*headers, visitor.wants)) {
            return show(*std::move(decoded), std::move(headers->origin), visitor);
        }
    }
    return reader.whole(frame).and_then(
        [&](const GribFrame& whole) { return show_all(whole, decoder, visitor); });
}

}  // namespace

Result<std::size_t> visit_grib(const ByteSource& source, std::string_view name, const FieldVisitor& visitor) {
    static std::mutex one_decoder;  // ecCodes promises nothing about threads
    const std::lock_guard hold(one_decoder);
    FrameReader reader(source, name);
    FieldDecoder decoder;
    for (std::size_t messages = 0;; ++messages) {
        auto frame = reader.next();
        if (!frame) {
            return tl::unexpected(std::move(frame.error()));
        }
        if (!*frame) {
            for (const SkippedMessage& junk : reader.junk()) {
                visitor.skip(SkippedMessage(junk));
            }
            return messages;
        }
        if (auto shown = show_message(**frame, reader, decoder, visitor); !shown) {
            return tl::unexpected(std::move(shown.error()));
        }
    }
}

}  // namespace gloam::weather
