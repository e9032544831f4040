#pragma once

#include <cmath>
#include <string>
#include <vector>

#include "sky/colour_strength.hpp"
#include "sky/random_sky.hpp"
#include "sky/sky_mixer.hpp"

namespace gloam::test {

/// How far a mixed sky is from the painted one.
struct MixedError {
    double strength = 0.0;
    std::vector<double> luminance;     ///< relative, by direction
    std::vector<double> chromaticity;  ///< the greater of x and y, by direction
    std::string sky;                   ///< in words
};

inline MixedError error_of_mixed(const sky::SkyPainter& painter, const sky::AirPalette& palette,
                                 double sun_elevation_deg, const std::vector<sky::CloudLayer>& layers) {
    const sky::SunState sun = sun_at(sun_elevation_deg);
    const sky::Panorama painted = painter.paint(sky::CloudField(layers), sun);
    sky::MixedSky mixed;
    mix(sky::SkyPalette(palette, sun.elevation), sky::CloudLines(layers), sun.distance_au, mixed);
    const double painted_strength = colour_strength(painted).value;
    const double mixed_strength = colour_strength(mixed).value;
    MixedError error;
    error.strength = std::abs(mixed_strength - painted_strength);
    const sky::Panorama panorama = mixed.panorama(sun);
    for (std::size_t i = 0; i < painted.cells.size(); ++i) {
        const sky::Xyz slow = painted.cells[i].mean();
        const sky::Xyz fast = panorama.cells[i].mean();
        const auto a = chromaticity(slow);
        const auto b = chromaticity(fast);
        error.luminance.push_back(std::abs(fast.y / slow.y - 1.0));
        error.chromaticity.push_back(std::max(std::abs(a.x - b.x), std::abs(a.y - b.y)));
    }
    char words[160];
    std::snprintf(words, sizeof words,
                  "sun %+.2f, aerosol %.2f, viewer %.0f m, bases %.0f %.0f %.0f m: %.1f for %.1f",
                  sun_elevation_deg, palette.air().atmosphere.aerosol_depth_550, palette.viewer_height_m(),
                  layers[0].base_m, layers[1].base_m, layers[2].base_m, mixed_strength, painted_strength);
    error.sky = words;
    return error;
}

/// Errors over `airs` airs of `skies` skies each.
inline std::vector<MixedError> errors_of_mixed(unsigned seed, int airs, int skies) {
    RandomSkies draw(seed);
    std::vector<MixedError> errors;
    for (int a = 0; a < airs; ++a) {
        const sky::Air air(tables(), draw.atmosphere());
        const double viewer_m = draw.viewer_height_m();
        const sky::AirPalette palette(air, viewer_m);
        const sky::SkyPainter painter(air, viewer_m, sky::PanoramaGrid::standard());
        for (int s = 0; s < skies; ++s) {
            const double sun_deg = draw.even(-9.0, 10.0);
            errors.push_back(error_of_mixed(painter, palette, sun_deg, draw.three_layers()));
        }
    }
    return errors;
}

/// Share of values that are at most `limit`.
inline double share_within(const std::vector<double>& values, double limit) {
    const auto count = std::ranges::count_if(values, [limit](double value) { return value <= limit; });
    return static_cast<double>(count) / static_cast<double>(values.size());
}

/// All values of one kind.
template <class Pick>
std::vector<double> gathered(const std::vector<MixedError>& errors, const Pick& pick) {
    std::vector<double> all;
    for (const MixedError& error : errors) {
        const std::vector<double>& values = pick(error);
        all.insert(all.end(), values.begin(), values.end());
    }
    return all;
}

inline std::vector<double> strengths_of(const std::vector<MixedError>& errors) {
    std::vector<double> strengths;
    for (const MixedError& error : errors) {
        strengths.push_back(error.strength);
    }
    return strengths;
}

}  // namespace gloam::test
