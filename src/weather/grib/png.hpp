#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>

#include "weather/grib/octets.hpp"

namespace gloam::weather {

/// Holds the header of a PNG image (template 5.41) against the number of values that are expected of it and
/// the bits a value that section 5, `representation`, promises; the trouble in words, or nothing.
std::optional<std::string> png_trouble(Octets representation, Octets stream, std::uint64_t count);

/// Unpacks the values of an image that png_trouble has passed, in the order and unit of the file.
/// Throws DecoderFailure if the image turns out to be damaged. Nothing is printed.
///
/// Accuracy: equal to ecCodes' own unpacking, tests/reference/weather.
/// Source: WMO Manual on Codes, FM 92 GRIB, data representation template 5.41 (from memory): the packed
/// number is the grey of a point, or its red, green, blue (and alpha) as one number of 24 (32) bits. A field
/// of no bits has no image.
void unpack_png(Octets representation, Octets stream, std::span<double> values);

}  // namespace gloam::weather
