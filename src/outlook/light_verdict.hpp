#pragma once

#include <optional>
#include <span>

#include "base/kinds.hpp"
#include "outlook/moments.hpp"
#include "sky/beam.hpp"
#include "sky/cloud_field.hpp"

namespace gloam::outlook {

/// What decided a member's sky.
enum class Verdict {
    kOpen,      ///< there is cloud to light, and sunlight reaches it
    kShut,      ///< there is cloud to light, but cloud up-sun stops the sunlight
    kHidden,    ///< lower cloud hides the cloud that could be lit
    kNoCanvas,  ///< next to no cloud that could be lit
};

/// The light that would paint the canvas: which layer, when it is lit best, and what its rays meet on the
/// way.
struct LightVerdict {
    Verdict verdict = Verdict::kNoCanvas;
    std::size_t canvas = 0;     ///< layer that could be lit (kOpen, kShut) or hides the rest (kHidden)
    double canvas_cover = 0.0;  ///< of it, within 100 km of the viewer; within 30 km for kHidden
    double canvas_base_m = 0.0;
    std::size_t moment = 0;  ///< when most light gets through (kOpen) or would on a clear path (kShut)
    double reach_m = 0.0;    ///< distance up-sun at which the rays are back at the canvas' height
    double open_share =
        0.0;  ///< mean probability that the rays to the canvas overhead and up to 100 km up-sun are free
    std::size_t blocker = 0;      ///< layer that takes most light (kShut)
    double blocked_from_m = 0.0;  ///< where, up-sun of the viewer
    double blocked_to_m = 0.0;
};

/// The moment from -6 to -0.5 deg at which most light would reach the base of a cloud overhead on a clear
/// path.
std::size_t best_lit_moment(std::span<const Moment> moments, const sky::BeamTable& beam, double base_m);

/// `clouds` as they stand at the moment that `clouds_moment` names, over someone at height `viewer`: cloud
/// below him neither hides nor is looked up to.
LightVerdict judge_light(std::span<const Moment> moments, std::size_t clouds_moment,
                         const sky::BeamTable& beam, const sky::CloudField& clouds, HeightMsl viewer);

}  // namespace gloam::outlook
