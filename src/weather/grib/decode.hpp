#pragma once

#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "weather/field.hpp"
#include "weather/grib/grid.hpp"
#include "weather/grib/handle.hpp"
#include "weather/grib/identity.hpp"
#include "weather/grib/not_used.hpp"
#include "weather/grib/sections.hpp"

namespace gloam::weather {

/// A field out of a message, with what the forecast keeps once for all its fields.
struct DecodedField {
    Field field;
    std::string source;
    Instant run_time;
    std::size_t clamped_values = 0;
    std::size_t sentinel_values = 0;                  ///< numbers that stand for "no value", masked
    std::optional<std::string> doubt = std::nullopt;  ///< where the header contradicts itself a little
};

/// A field whose values nobody asked for.
struct NotWanted {
    FieldHeader header;
    std::string source;
    Instant run_time;
};

using Decoded = std::variant<DecodedField, NotUsed, NotWanted>;
using Wants = std::function<bool(const FieldHeader&)>;

/// Decodes the fields of a file, one after the other, and keeps what many of them have in common: to ask the
/// decoder costs as much as to unpack a small field.
class FieldDecoder {
  public:
    /// Decodes one field if `wants` says so of its header, or says why it is not used. Error (kUnreadable)
    /// with file, message and field if it is damaged.
    Result<Decoded> decode(const GribField& grib, const Wants& wants);

    /// Likewise for a field of which only the headers have been read: whether it is not wanted or not used;
    /// absent if the whole is needed to tell.
    std::optional<Decoded> decode_headers(const GribField& headers, const Wants& wants);

  private:
    bool knows_grid_of(const GribField& grib) const;
    Result<Decoded> decode_with(const GribField& grib, GribHandle& handle, const Wants& wants);
    Result<Decoded> decode_values(const GribField& grib, GribHandle& handle, const GribIdentity& identity,
                                  const GribGrid& grid, const Wants& wants);
    tl::expected<std::variant<GribGrid, NotUsed>, std::string> grid_in(const GribField& grib,
                                                                       const GribHandle& handle);

    CentreNames centres_;
    std::vector<std::byte> grid_section_;  ///< of the last grid that was read; empty before the first
    std::optional<GribGrid> grid_;
    std::vector<double> packed_;  ///< values of the last field, one for each point
};

}  // namespace gloam::weather
