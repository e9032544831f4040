#pragma once

#include <optional>

#include "base/error.hpp"
#include "sky/panorama.hpp"

namespace gloam::sky {

/// The moon of one moment, as the viewer sees it.
struct MoonState {
    Angle elevation;              ///< true, of the disc's centre
    Angle azimuth_from_sun;       ///< positive to the right of the sun
    Angle phase;                  ///< sun, moon, viewer: 0 full, 180 deg new
    double distance_ratio = 1.0;  ///< over the mean distance
};

/// What lights the sky besides the sun and what is always there.
struct NightLights {
    std::optional<MoonState> moon;   ///< absent: no moonlight
    double town_zenith_cd_m2 = 0.0;  ///< luminance that the lights of towns add at the zenith of a clear sky
};

/// Checks a town's light that a person gives: 0 to 0.1 cd m-2, which is ten times the middle of a great city.
/// Error (kBadInput): any other number.
Result<double> town_zenith_luminance(double cd_m2);

/// Light of the moon over that of the full moon at its mean distance. Source: Krisciunas and Schaefer 1991,
/// PASP 103, 1033, eq. 9 (from memory); the surge of the last 7 deg before full, up to a third, is left out.
double moon_brightness(const MoonState& moon);

/// Luminance of air that the moon lights, cd m-2. Source: the same, eqs. 3, 15 and 18 to 21 (from memory):
/// f(separation) I 10^(-0.4 k X(moon)) (1 - 10^(-0.4 k X)), k being `extinction_mag`. Its authors: 8 to 23 %
/// in the middle of a moonlit sky. Directions and moons below the horizon count as on it.
double moonlit_air_cd_m2(const MoonState& moon, Angle elevation, Angle azimuth_from_sun,
                         double extinction_mag);

/// Magnitudes that the air takes from light of the sun's colour at the zenith: the k of photometry.
double extinction_magnitudes(const Air& air);

/// Light of the sky that is not the sun's: airglow, stars and zodiacal light together; moonlight in the air;
/// towns. No single stars, no Milky Way, no disc of the moon. Accuracy: moonless sky a factor 1.5 (it varies
/// that much by itself); moonlight on level ground a factor 1.3 with the moon above 30 deg, 1.5 below; towns
/// that of the number given (docs/sky.md).
class NightSky {
  public:
    /// `air` must outlive this.
    NightSky(const Air& air, const NightLights& lights);

    /// Light from above the air in a direction, cd m-2. `elevation` 0 to 90 deg.
    Xyz from_above(Angle elevation, Angle azimuth_from_sun) const;
    /// Light of towns in a direction, cd m-2.
    Xyz from_towns(Angle elevation) const;
    /// Light of the moon's disc through the air on a plane facing it, lx.
    Xyz moon_beam() const;
    /// Light from above the air on a level plane, the moon's disc included, lx.
    Xyz level_light() const;

  private:
    Xyz moonlight(Angle elevation, Angle azimuth_from_sun) const;
    /// How far moonlight has faded since the moon went below the horizon: 1 above it.
    double moon_fade() const;

    const Air* air_;
    NightLights lights_;
    double extinction_mag_;
};

/// Adds the night's light to a panorama of the sun's: all of it to clear air; to cloud what it passes and
/// returns of the level light. Towns shine in front of cloud as in clear air, though cloud over a town is
/// several times brighter (Kyba et al. 2011, from memory). `panorama` was painted through `air` with
/// `clouds`, and put_land() comes after: land in it is a fault (InternalError).
void add_night(const NightLights& lights, const Air& air, const CloudField& clouds, Panorama& panorama);

}  // namespace gloam::sky
