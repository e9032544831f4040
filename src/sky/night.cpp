#include "sky/night.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "air/standard_atmosphere.hpp"
#include "base/check.hpp"
#include "sky/air_light.hpp"

namespace gloam::sky {
namespace {

constexpr double kPi = std::numbers::pi;

/// Moonless zenith: 22.0 mag arcsec-2 in V = 174 ucd m-2. Source: Falchi et al. 2016, Science Advances 2,
/// e1600377 (from memory).
constexpr double kDarkZenith_cd_m2 = 174e-6;
/// Share of it that comes from the airglow's layer and brightens towards the horizon. Source: Garstang 1989,
/// PASP 101, 306, as used by Patat 2003, A&A 400, 1183 (from memory).
constexpr double kAirglowShare = 0.6;
/// Colour of moonless nights. Source: Spitschan et al. 2016, rural site, sun below -18 deg: x .380 to .384,
/// y .376 to .400.
constexpr Chromaticity kDarkColour{0.38, 0.38};
/// Colour of a city's night. Source: the same, city site, sun below -14 deg: x .398 to .408, y .361 to .369.
constexpr Chromaticity kTownColour{0.40, 0.364};

/// One nanolambert.
constexpr double kNanolambert_cd_m2 = 1e-5 / kPi;
/// Light of the full moon above the air, lx, by V = -12.73 and 2.54e-6 lx at V = 0 (Krisciunas and Schaefer
/// 1991; Allen 1976, from memory).
constexpr double kFullMoon_lx = 0.3133;
/// The moon is redder than the sun: B - V .92 against .65 (Allen 1976, from memory), as a power of
/// wavelength.
constexpr double kMoonReddening = 1.1;

Xyz of_colour(const Chromaticity& colour, double y) {
    return {y * colour.x / colour.y, y, y * (1.0 - colour.x - colour.y) / colour.y};
}

/// Air masses of a layer some 130 km up (van Rhijn). Source: Krisciunas and Schaefer 1991, PASP 103, 1033,
/// eq. 3. 1 to 5; directions below the horizon count as on it.
double air_mass(Angle elevation) {
    const double sine = std::sin(std::max(0.0, elevation.radians()));
    return 1.0 / std::sqrt(1.0 - 0.96 * (1.0 - sine * sine));
}

double passed(double magnitudes) {
    return std::pow(10.0, -0.4 * magnitudes);
}

/// Scattering function of the air by angle from the moon. Source: Krisciunas and Schaefer 1991, eqs. 18, 19
/// and 21. Within 10 deg of the moon the aureole's own law, which is held at 1 deg.
double scattering(double separation_deg) {
    if (separation_deg < 10.0) {
        return 6.2e7 / std::pow(std::max(1.0, separation_deg), 2);
    }
    const double cosine = std::cos(Angle::degrees(separation_deg).radians());
    return std::pow(10.0, 5.36) * (1.06 + cosine * cosine) + std::pow(10.0, 6.15 - separation_deg / 40.0);
}

double separation_deg(const MoonState& moon, Angle elevation, Angle azimuth_from_sun) {
    const double cosine = std::sin(moon.elevation.radians()) * std::sin(elevation.radians()) +
                          std::cos(moon.elevation.radians()) * std::cos(elevation.radians()) *
                              std::cos((azimuth_from_sun - moon.azimuth_from_sun).radians());
    return Angle::radians(std::acos(std::clamp(cosine, -1.0, 1.0))).degrees();
}

double depth_of(const Optics& optics, std::size_t band) {
    double sum = 0.0;
    for (const Spectrum& depth : optics.depth) {
        sum += depth[band];
    }
    return sum;
}

/// Moonlight over sunlight, band by band.
void redden(const Bands& bands, Spectrum& sunlight) {
    for (std::size_t b = 0; b < kBands; ++b) {
        sunlight[b] *= std::pow(bands.centre_nm[b] / 550.0, kMoonReddening);
    }
}

/// Colour of moonlit air, with luminance 1: that of sunlit air with the sun in the moon's place, a little
/// redder.
Xyz moonlit_colour(const Air& air, const MoonState& moon, Angle elevation, Angle azimuth_from_sun) {
    constexpr int kSteps = 12;
    Spectrum light = clear_sky_radiance(air, 0.0, moon.elevation, elevation,
                                        azimuth_from_sun - moon.azimuth_from_sun, kSteps);
    redden(*air.bands, light);
    const Xyz colour = air.bands->xyz(light);
    return colour * (1.0 / colour.y);
}

/// What a layer passes and returns of the night's level light, and what is seen through it.
Xyz cloud_light(const CloudLayer& layer, Angle elevation, double ground_albedo, const Xyz& behind,
                const Xyz& level_light) {
    const double radius_ratio = air::kEarthRadius_m / (air::kEarthRadius_m + std::max(0.0, layer.base_m));
    const double mu = std::sqrt(1.0 - std::pow(radius_ratio * std::cos(elevation.radians()), 2));
    const double through = std::exp(-layer.optics.optical_depth / std::max(mu, 1e-3));
    const double albedo = layer.optics.diffuse_albedo();
    const double scattered = std::max(0.0, 1.0 - albedo - through) + albedo * ground_albedo;
    return behind * through + level_light * (scattered / kPi);
}

}  // namespace

Result<double> town_zenith_luminance(double cd_m2) {
    constexpr double kMost_cd_m2 = 0.1;
    if (!(cd_m2 >= 0.0 && cd_m2 <= kMost_cd_m2)) {
        return fail(
            ErrorKind::kBadInput, fmt::format("{} cd m-2 is no light of a town", cd_m2), {},
            "give what towns add at the zenith: 0 far away, 0.0002 in a village, 0.01 in a great city");
    }
    return cd_m2;
}

double moon_brightness(const MoonState& moon) {
    const double phase_deg = std::min(180.0, std::abs(moon.phase.degrees()));
    return passed(0.026 * phase_deg + 4e-9 * std::pow(phase_deg, 4)) /
           (moon.distance_ratio * moon.distance_ratio);
}

double moonlit_air_cd_m2(const MoonState& moon, Angle elevation, Angle azimuth_from_sun,
                         double extinction_mag) {
    constexpr double kFullMoonMagnitudes = 3.84;  // in the paper's unit of light
    return kNanolambert_cd_m2 * scattering(separation_deg(moon, elevation, azimuth_from_sun)) *
           passed(kFullMoonMagnitudes) * moon_brightness(moon) *
           passed(extinction_mag * air_mass(moon.elevation)) *
           (1.0 - passed(extinction_mag * air_mass(elevation)));
}

double extinction_magnitudes(const Air& air) {
    Spectrum through;
    for (std::size_t b = 0; b < kBands; ++b) {
        through[b] = air.bands->sun_w_m2_nm[b] * std::exp(-depth_of(air.optics, b));
    }
    return -2.5 * std::log10(air.bands->xyz(through).y / air.bands->xyz(air.bands->sun_w_m2_nm).y);
}

NightSky::NightSky(const Air& air, const NightLights& lights)
    : air_(&air), lights_(lights), extinction_mag_(extinction_magnitudes(air)) {}

Xyz NightSky::from_above(Angle elevation, Angle azimuth_from_sun) const {
    // Source: Patat 2003, A&A 400, 1183, eq. 1 (from memory): airglow gains by the length of its layer, all
    // loses in the air.
    const double mass = air_mass(elevation);
    const double dark = kDarkZenith_cd_m2 * (1.0 - kAirglowShare + kAirglowShare * mass) *
                        passed(extinction_mag_ * (mass - 1.0));
    return of_colour(kDarkColour, dark) + moonlight(elevation, azimuth_from_sun);
}

// Own simple form: air lit from below all round, seen along the scattering path of Krisciunas and Schaefer's
// moonlit air. A single town's dome is not in it.
Xyz NightSky::from_towns(Angle elevation) const {
    const double share =
        (1.0 - passed(extinction_mag_ * air_mass(elevation))) / (1.0 - passed(extinction_mag_));
    return of_colour(kTownColour, lights_.town_zenith_cd_m2 * share);
}

Xyz NightSky::moon_beam() const {
    if (!lights_.moon) {
        return {};
    }
    const double zenith_rad = kPi / 2.0 - lights_.moon->elevation.radians();
    Spectrum above = air_->bands->sun_w_m2_nm;
    redden(*air_->bands, above);
    Spectrum light = air_->beam.transmission(0.0, zenith_rad);  // as of the sun's disc
    for (std::size_t b = 0; b < kBands; ++b) {
        light[b] *= above[b];
    }
    return air_->bands->xyz(light) *
           (kFullMoon_lx * moon_brightness(*lights_.moon) / air_->bands->xyz(above).y);
}

Xyz NightSky::moonlight(Angle elevation, Angle azimuth_from_sun) const {
    if (!lights_.moon) {
        return {};
    }
    return moonlit_colour(*air_, *lights_.moon, elevation, azimuth_from_sun) *
           (moonlit_air_cd_m2(*lights_.moon, elevation, azimuth_from_sun, extinction_mag_) * moon_fade());
}

double NightSky::moon_fade() const {
    const double zenith_rad = kPi / 2.0 - lights_.moon->elevation.radians();
    if (zenith_rad <= kPi / 2.0) {
        return 1.0;
    }
    // As the sun's twilight does at the same depth.
    const auto level_lx = [&](double angle_rad) {
        return air_->bands->xyz(air_->diffuse.at(DiffuseField::Kind::kDown, 0.0, angle_rad)).y;
    };
    return level_lx(zenith_rad) / level_lx(kPi / 2.0);
}

Xyz NightSky::level_light() const {
    constexpr int kRings = 12;
    constexpr int kAzimuths = 12;
    // Half the circle from the moon, whose light is even on both sides; the peak of its aureole is no sample.
    const Angle moon_azimuth = lights_.moon ? lights_.moon->azimuth_from_sun : Angle{};
    Xyz sum;
    for (int i = 0; i < kRings; ++i) {
        // Rings of equal light of an even sky: sin2 of the elevation in equal steps.
        const Angle elevation = Angle::radians(std::asin(std::sqrt((i + 0.5) / kRings)));
        for (int j = 0; j < kAzimuths; ++j) {
            sum = sum + from_above(elevation, moon_azimuth + Angle::degrees(180.0 * (j + 0.5) / kAzimuths));
        }
    }
    sum = sum * (kPi / (kRings * kAzimuths));
    return lights_.moon ? sum + moon_beam() * std::max(0.0, std::sin(lights_.moon->elevation.radians()))
                        : sum;
}

void add_night(const NightLights& lights, const Air& air, const CloudField& clouds, Panorama& panorama) {
    const NightSky night(air, lights);
    const Xyz level_light = night.level_light();
    const std::size_t columns = panorama.grid.azimuths.size();
    for (std::size_t i = 0; i < panorama.cells.size(); ++i) {
        const Angle elevation = panorama.grid.elevations[i / columns];
        const Xyz above = night.from_above(elevation, panorama.grid.azimuths[i % columns]);
        const Xyz towns = night.from_towns(elevation);
        PanoramaCell& cell = panorama.cells[i];
        for (std::size_t p = 0; p < cell.count; ++p) {
            Patch& patch = cell.patches[p];
            GLOAM_CHECK(patch.layer != Patch::kLand);
            const Xyz seen = patch.layer == Patch::kClearAir
                                 ? above
                                 : cloud_light(clouds.layers()[patch.layer], elevation,
                                               air.atmosphere.ground_albedo, above, level_light);
            patch.light = patch.light + seen + towns;
        }
    }
}

}  // namespace gloam::sky
