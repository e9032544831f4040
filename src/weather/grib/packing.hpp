#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "weather/grib/sections.hpp"

namespace gloam::weather {

/// Whether this release unpacks the field's packing: simple, complex with or without spatial differences,
/// IEEE, JPEG 2000, PNG and CCSDS in edition 2, simple in edition 1. Otherwise the packing in words, as the
/// reason to skip the field.
std::optional<std::string> unused_packing(const GribField& field);

/// Unpacks into `values` what a field holds that packing_trouble has passed, in the order and unit of the
/// file, if it is in one of the packings that need no decoder: simple packing (numbers of one width, one
/// after the other) and PNG (for there ecCodes lets libpng print). False in the others. Throws DecoderFailure
/// if an image turns out to be damaged.
bool unpack_here(const GribField& field, std::size_t points, std::vector<double>& values);

/// Holds the packed data against the lengths that its own headers claim, for a grid of `points`; the trouble
/// in words, or nothing if they agree. The decoder trusts these lengths and would read beyond the message.
std::optional<std::string> packing_trouble(const GribField& field, std::size_t points);

}  // namespace gloam::weather
