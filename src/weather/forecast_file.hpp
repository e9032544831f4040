#pragma once

#include <filesystem>

#include "weather/grib/visit.hpp"

namespace gloam::weather {

/// Shows the fields of a file to the visitor, whatever kind it is of; returns the number of GRIB messages, or
/// of times in a point forecast. A file of a known kind that is not read is skipped with the reason. Error if
/// there is no such file, it is no plain file, may not be read, or is damaged.
Result<std::size_t> visit_file(const std::filesystem::path& file, const FieldVisitor& visitor);

}  // namespace gloam::weather
