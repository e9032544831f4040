#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "weather/grib/octets.hpp"

namespace gloam::weather {

/// Holds the groups of complex packing (templates 5.2 and, with `differences`, 5.3) against the number of
/// values and the length of the data they are in; the trouble in words, or nothing. The decoder adds the
/// lengths up without looking.
std::optional<std::string> groups_trouble(Octets representation, Octets data, std::uint64_t count,
                                          bool differences);

}  // namespace gloam::weather
