#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "weather/grib/sections.hpp"

namespace gloam::weather {

/// Whether this release unpacks the field's packing: simple, complex with or without spatial differences,
/// IEEE, JPEG 2000, PNG and CCSDS in edition 2, simple in edition 1. Otherwise the packing in words, as the
/// reason to skip the field.
std::optional<std::string> unused_packing(const GribField& field);

/// The image that holds the values in PNG packing; absent in the others. ecCodes lets libpng print, so that
/// we unpack it ourselves.
std::optional<Octets> png_image(const GribField& field);

/// Holds the packed data against the lengths that its own headers claim, for a grid of `points`; the trouble
/// in words, or nothing if they agree. The decoder trusts these lengths and would read beyond the message.
std::optional<std::string> packing_trouble(const GribField& field, std::size_t points);

}  // namespace gloam::weather
