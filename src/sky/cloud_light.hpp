#pragma once

#include <vector>

#include "sky/cloud_field.hpp"

namespace gloam::sky {

/// Angles that decide how bright lit cloud looks from below.
struct CloudView {
    double scattering_cosine = 0.0;  ///< 1: looking towards the sun
    double mu = 0.0;                 ///< sine of the view elevation at the element, > 0
};

/// Light that leaves a base lit from below: light scattered once, its lobes blurred by what follows, comes
/// out as p / (4 (mu + blur)); light scattered often comes out evenly, as the square of the diffuse albedo.
/// Constants: fit to the Monte Carlo of broken layers (docs/sky-check.md: nine fields, rms of ln ratio .24;
/// on eight others .29).
struct LightFromBelow {
    double even = 0.39;
    double most_even = 0.30;  ///< what keeps the energy bound at any depth
    double forward = 1.78;
    double forward_asymmetry = 0.71;
    double backward = 0.21;
    double backward_asymmetry = -0.40;
    double blur = 0.086;
};
inline constexpr LightFromBelow kLightFromBelow;

/// Light that comes down through a layer lit from above: evenly, as a diffusing layer passes level light,
/// even / (4/3 + (1-g) tau); and off the lit skin on top, scattered once, p / (4 mu), through the gaps of the
/// view and through cloud as far as that is thin, e^(-(1-g) tau / mu). Constants: the same fit (rms .37; on
/// the other fields .44).
struct LightFromAbove {
    double even = 0.40;
    double skin = 0.76;
    double skin_asymmetry = 0.575;
};
inline constexpr LightFromAbove kLightFromAbove;

/// Reflection factors of lit cloud: luminance, averaged over all sky in a direction, over (irradiance per
/// horizontal area / pi). Base lit from below, sun under the element's horizontal.
double lit_from_below(const CloudOptics& optics, const CloudView& view,
                      const LightFromBelow& constants = kLightFromBelow);
/// Sun-facing fronts of patches at the open side of a field; known to a factor 2 to 3.
double lit_fronts(const CloudOptics& optics, const CloudView& view);
/// Sun above the layer, seen from below through it, of which the share `open` is gaps in the direction.
double lit_from_above(const CloudOptics& optics, const CloudView& view, double open,
                      const LightFromAbove& constants = kLightFromAbove);

/// Light that fronts intercept per horizontal area, over that of a plane facing the sun: (H/D) ln(1/(1-f));
/// with the ray's own passage through the field its integral over a layer is exactly H.
double front_area(const CloudLayer& layer, double cover);

/// How sun rays come to the middle of a layer: the share that slants up through its base, and how far towards
/// the sun either kind enters the layer. The rest comes in through the top or, where there is no cloud at the
/// place of entry, by the open side.
struct SunEntry {
    double by_base = 0.0;
    double base_m = 0.0;
    double top_m = 0.0;
};
/// `sin_depression` of the sun at the base, negative when it stands above. Own derivation.
SunEntry sun_entry(double thickness_m, double sin_depression, double effective_radius_m);

/// Share of the diffuse light over a layer and all layers above it that is left under it, by layer (low to
/// high), and 1 for none above. A layer lets 1 - f Ac through, f being the cover round the viewer; what goes
/// to and fro between it and the ground is added up: (1 - f Ac) / (1 - a f Ac). Source: own derivation; a
/// Monte Carlo of broken layers is within 11 % (docs/sky-check.md).
std::vector<double> diffuse_left(const std::vector<CloudLayer>& layers, double ground_albedo);

/// Share of the light taken from the beam that goes down again: (1/pi) integral of lit_from_below mu dOmega,
/// sun on the horizon. Energy conservation demands at most 1.
double returned_from_below(const CloudOptics& optics);

}  // namespace gloam::sky
