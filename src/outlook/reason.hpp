#pragma once

#include <span>
#include <string>
#include <vector>

#include "base/kinds.hpp"
#include "outlook/light_verdict.hpp"
#include "weather/layers.hpp"

namespace gloam::outlook {

/// One thing that decided the sky in some of the members, with the middle values over those members.
struct Reason {
    Verdict verdict = Verdict::kNoCanvas;
    weather::Band canvas = weather::Band::kHigh;
    double canvas_cover = 0.0;
    double canvas_base_m = 0.0;
    double reach_m = 0.0;
    weather::Band blocker = weather::Band::kLow;
    double blocked_from_m = 0.0;
    double blocked_to_m = 0.0;
    Azimuth towards_sun;
    int members = 0;  ///< in how many
    int of = 0;       ///< of how many
};

/// A member's verdict with its layers named by band.
struct MemberVerdict {
    LightVerdict light;
    weather::Band canvas = weather::Band::kHigh;
    weather::Band blocker = weather::Band::kLow;
};

/// Groups the members by verdict and layer, most frequent first; groups of less than a tenth of the members
/// are left out.
std::vector<Reason> reasons_of(std::span<const MemberVerdict> verdicts, Azimuth towards_sun);

/// The reason in a sentence for a person, e.g. "Middle cloud 100 to 250 km to the east-south-east keeps the
/// light from the high cloud".
std::string to_text(const Reason& reason);

}  // namespace gloam::outlook
