#include "weather/grib/decode.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "weather/grib/packing.hpp"
#include "weather/grib/values.hpp"

namespace gloam::weather {
namespace {

tl::unexpected<Error> damaged(const GribField& grib, std::string what) {
    return fail(ErrorKind::kUnreadable, std::move(what), to_text(grib.origin),
                "the message is damaged: fetch the file again, or leave it out");
}

tl::unexpected<Error> bad_values(const Field& field, std::string what) {
    return fail(
        ErrorKind::kUnreadable, std::move(what), fmt::format("{}, {}", to_text(field.origin), name_of(field)),
        "the file is damaged or its unit is not what its header says: fetch it again, or leave it out");
}

FieldHeader header_of(const GribField& grib, const GribIdentity& identity, Grid grid) {
    return {.quantity = identity.parameter.quantity,
            .level = identity.level,
            .aerosol = identity.aerosol,
            .time_kind = identity.times.kind,
            .from = identity.times.from,
            .to = identity.times.to,
            .member = identity.member,
            .grid = std::move(grid),
            .origin = grib.origin};
}

}  // namespace

bool FieldDecoder::knows_grid_of(const GribField& grib) const {
    return grid_ && std::ranges::equal(grid_section_, grib.grid);
}

/// A file has one grid, as a rule: it is read again only where the section that describes it differs.
tl::expected<std::variant<GribGrid, NotUsed>, std::string> FieldDecoder::grid_in(const GribField& grib,
                                                                                 const GribHandle& handle) {
    if (knows_grid_of(grib)) {
        return *grid_;
    }
    auto grid = grid_of(handle);
    const auto* const used = grid ? std::get_if<GribGrid>(&*grid) : nullptr;
    if (used != nullptr && !grib.grid.empty()) {  // edition 1 may describe the grid elsewhere
        grid_section_.assign(grib.grid.begin(), grib.grid.end());
        grid_ = *used;
    }
    return grid;
}

Result<Decoded> FieldDecoder::decode_values(const GribField& grib, GribHandle& handle,
                                            const GribIdentity& identity, const GribGrid& grid,
                                            const Wants& wants) {
    DecodedField decoded{.field = {header_of(grib, identity, grid.grid), {}, {}},
                         .source = identity.source,
                         .run_time = identity.times.run_time};
    if (!wants(decoded.field)) {
        return NotWanted{std::move(decoded.field), std::move(decoded.source), decoded.run_time};
    }
    if (auto reason = unused_packing(grib)) {
        return NotUsed{*std::move(reason)};
    }
    if (auto trouble = packing_trouble(grib, grid.order.rows * grid.order.columns)) {
        return bad_values(decoded.field, *std::move(trouble));
    }
    const double to_our_unit = identity.parameter.to_our_unit;
    const auto odd = fill_values(decoded.field, grib, handle, grid.order, to_our_unit, packed_);
    if (!odd) {
        return bad_values(decoded.field, odd.error());
    }
    if (to_our_unit != 1.0 && is_fraction_called_percent(decoded.field)) {
        return NotUsed{
            "its values run from 0 to 1 where its header says percent: which of the two it is cannot be "
            "told"};
    }
    decoded.clamped_values = odd->clamped;
    decoded.sentinel_values = odd->sentinels;
    decoded.doubt = grid.doubt;
    return decoded;
}

Result<Decoded> FieldDecoder::decode_with(const GribField& grib, GribHandle& handle, const Wants& wants) {
    const auto identity = identity_of(grib, handle, centres_);
    if (!identity) {
        return damaged(grib, identity.error());
    }
    if (const auto* not_used = std::get_if<NotUsed>(&*identity)) {
        return *not_used;
    }
    const auto grid = grid_in(grib, handle);
    if (!grid) {
        return damaged(grib, grid.error());
    }
    if (const auto* not_used = std::get_if<NotUsed>(&*grid)) {
        return *not_used;
    }
    return decode_values(grib, handle, std::get<GribIdentity>(*identity), std::get<GribGrid>(*grid), wants);
}

/// A grid that is new is no case for this: whoever wants the field opens a handle for its values anyway.
std::optional<Decoded> FieldDecoder::decode_headers(const GribField& headers, const Wants& wants) {
    try {
        GribHandle handle(headers.message);
        const auto identity = identity_of(headers, handle, centres_);
        if (!identity) {
            return std::nullopt;
        }
        if (const auto* not_used = std::get_if<NotUsed>(&*identity)) {
            return *not_used;
        }
        if (!knows_grid_of(headers)) {
            return std::nullopt;
        }
        const auto& known = std::get<GribIdentity>(*identity);
        FieldHeader header = header_of(headers, known, grid_->grid);
        return wants(header)
                   ? std::nullopt
                   : std::optional<Decoded>(NotWanted{std::move(header), known.source, known.times.run_time});
    } catch (const DecoderFailure&) {
        return std::nullopt;
    }
}

Result<Decoded> FieldDecoder::decode(const GribField& grib, const Wants& wants) {
    try {
        GribHandle handle(grib.message);
        return decode_with(grib, handle, wants);
    } catch (const DecoderFailure& failure) {
        return damaged(grib, fmt::format("the decoder gave up ({})", failure.what()));
    }
}

}  // namespace gloam::weather
