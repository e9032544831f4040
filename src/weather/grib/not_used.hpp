#pragma once

#include <string>

namespace gloam::weather {

/// Why a sound message is not used by this release, in words.
struct NotUsed {
    std::string reason;
};

}  // namespace gloam::weather
