#pragma once

#include "reference/montecarlo/cloud_map.hpp"
#include "reference/montecarlo/cloud_phase.hpp"
#include "reference/montecarlo/estimate.hpp"

namespace gloam::montecarlo {

/// One layer of cloud over a viewer.
struct BrokenLayer {
    double base_km = 4.0;
    double top_km = 4.6;
    double optical_depth = 8.0;  ///< of a piece, vertical, with the peak of the phase function
    const CloudPhase* phase = nullptr;
    CloudPattern pattern;
    double edge_km = 1e6;  ///< clear beyond, towards the sun
};

/// Light of the sunbeam that a layer sends to a viewer on the ground from one direction, averaged over all
/// sky there, clear gaps included (W m-2 sr-1 nm-1). Beam through clear air to the layer along refracted
/// rays, through other cloud on its way; scattered in cloud any number of times; then through clear air to
/// the viewer from where his ray enters the layer. Light scattered by air, and light that leaves the layer
/// and meets it again, are left out. Every path sees the pattern at another place.
Estimate beam_lit_cloud(const SunBeam& beam, const BrokenLayer& layer, const View& view,
                        const Effort& effort);

}  // namespace gloam::montecarlo
