#pragma once

#include <string>

#include "weather/field.hpp"

namespace gloam::weather {

/// A message that was read but not used, or could not be read.
struct SkippedMessage {
    FieldOrigin origin;
    std::string reason;
};

}  // namespace gloam::weather
