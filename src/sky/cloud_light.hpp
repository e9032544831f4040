#pragma once

#include "sky/cloud_field.hpp"

namespace gloam::sky {

/// Angles that decide how bright lit cloud looks from below.
struct CloudView {
    double scattering_cosine = 0.0;  ///< 1: looking towards the sun
    double mu = 0.0;                 ///< sine of the view elevation at the element, > 0
};

/// Reflection factors of lit cloud: luminance, averaged over all sky in a direction, over (irradiance per
/// horizontal area / pi). Source: fit of four constants to a 3-D Monte Carlo of broken layers (rms of ln
/// ratio .32 middle, .27 high cloud); docs/sky.md. Base lit from below, sun under the element's horizontal.
double lit_from_below(const CloudOptics& optics, const CloudView& view);
/// Sun-facing fronts of patches; known to a factor 2 to 3.
double lit_fronts(const CloudOptics& optics, const CloudView& view);
/// Sun above the layer, seen from below through it; known to a factor 2 to 3. `cover` at the element.
double lit_from_above(const CloudOptics& optics, const CloudView& view, double cover);

/// Light that fronts intercept per horizontal area, over that of a plane facing the sun: (H/D) ln(1/(1-f));
/// with the ray's own passage through the field its integral over a layer is exactly H.
double front_area(const CloudLayer& layer, double cover);

/// Share of the light taken from the beam that goes down again: (1/pi) integral of lit_from_below mu dOmega,
/// sun on the horizon. Energy conservation demands at most 1.
double returned_from_below(const CloudOptics& optics);

}  // namespace gloam::sky
