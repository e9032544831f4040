#include "weather/grib/visit.hpp"

#include <mutex>
#include <utility>

#include "weather/grib/frames.hpp"
#include "weather/grib/sections.hpp"

namespace gloam::weather {
namespace {

Result<void> show(GribField& grib, FieldDecoder& decoder, const FieldVisitor& visitor) {
    auto decoded = decoder.decode(grib, visitor.wants);
    if (!decoded) {
        return tl::unexpected(std::move(decoded.error()));
    }
    if (auto* field = std::get_if<DecodedField>(&*decoded)) {
        return visitor.take(std::move(*field));
    }
    if (const auto* not_wanted = std::get_if<NotWanted>(&*decoded)) {
        return visitor.pass_over(*not_wanted);
    }
    visitor.skip({std::move(grib.origin), std::move(std::get<NotUsed>(*decoded).reason)});
    return {};
}

Result<void> show_all(const GribFrame& frame, FieldDecoder& decoder, const FieldVisitor& visitor) {
    auto fields = fields_of(frame);
    if (!fields) {
        return tl::unexpected(std::move(fields.error()));
    }
    for (GribField& grib : *fields) {
        if (auto shown = show(grib, decoder, visitor); !shown) {
            return shown;
        }
    }
    return {};
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
        if (auto shown = show_all(**frame, decoder, visitor); !shown) {
            return tl::unexpected(std::move(shown.error()));
        }
    }
}

}  // namespace gloam::weather
