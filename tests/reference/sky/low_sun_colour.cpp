// Light and colour of the low sun against a Beer-Lambert calculation by another program: the same sun and
// Rayleigh depth, but ozone of another laboratory (Bogumil) in a thin shell at 22 km, and aerosol with the
// air mass of Kasten 1965.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

#include "air/ray.hpp"
#include "reference/astro/reference_file.hpp"
#include "reference/astro/worst.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

using test::ReferenceFile;
using test::Worst;

constexpr double kOzone_du = 300.0;

/// The beam of one ray, without thinning and disc, which that program leaves out.
Xyz beam(const PerSpecies& columns, double aerosol_depth_550) {
    Atmosphere atmosphere;
    atmosphere.ozone_du = kOzone_du;
    atmosphere.aerosol_depth_550 = aerosol_depth_550;
    atmosphere.sulphate_depth_550 = 0.0;
    const Bands& bands = test::tables().bands;
    const Optics optics = optics_of(atmosphere, bands);
    Spectrum light = bands.sun_w_m2_nm;
    for (std::size_t b = 0; b < kBands; ++b) {
        for (std::size_t s = 0; s < kSpecies; ++s) {
            light[b] *= std::exp(-columns[s] * optics.depth[s][b]);
        }
    }
    return bands.xyz(light);
}

PerSpecies traced_columns(double apparent_altitude_deg) {
    std::vector<air::Profile> profiles;
    for (std::size_t s = 0; s < kSpecies; ++s) {
        profiles.push_back(profile_of(static_cast<Species>(s), 1500.0));
    }
    PerSpecies columns{};
    air::trace_to_space(0.0, Angle::degrees(90.0 - apparent_altitude_deg), profiles, columns);
    return columns;
}

struct Errors {
    Worst light;
    Worst colour;

    void add(const Xyz& ours, const ReferenceFile& file, std::size_t row) {
        const std::string where =
            file.text(row, "apparent_alt_deg") + " deg, AOD " + file.text(row, "aod550");
        light.add(100.0 * (ours.y / file.number(row, "direct_normal_illuminance_lx") - 1.0), where);
        colour.add(chromaticity(ours).x - file.number(row, "x"), where + ", x");
        colour.add(chromaticity(ours).y - file.number(row, "y"), where + ", y");
    }
};

// With the air masses of that program: what is compared is bands, colour and optical depths. Aerosol up to
// 0.1 and altitudes from 1 deg; below, 20 nm are too coarse for light that is taken to a millionth.
TEST(LowSun, ThroughTheSameAirMassesHasTheSameLightAndColour) {
    const ReferenceFile file("low_sun_colour_beer_lambert.csv");
    Errors errors;
    for (std::size_t row = 0; row < file.size(); ++row) {
        const double depth = file.number(row, "aod550");
        if (file.number(row, "angstrom") == 1.3 && depth <= 0.1 &&
            file.number(row, "apparent_alt_deg") >= 1.0) {
            const PerSpecies columns{file.number(row, "m_rayleigh"), file.number(row, "m_ozone"),
                                     file.number(row, "m_aerosol"), 0.0, 0.0};
            errors.add(beam(columns, depth), file, row);
        }
    }
    errors.light.report("low sun, same air masses", "%");
    errors.colour.report("colour of the low sun, same air masses", "x, y");
    EXPECT_GE(errors.light.count(), 24);
    EXPECT_LT(errors.light.value(), 3.0);
    EXPECT_LT(errors.colour.value(), 0.004);
}

// With our own rays and no aerosol, from 5 deg up, where a thin shell of ozone and a thick one weigh alike.
TEST(LowSun, WithoutAerosolHasTheSameLightAndColour) {
    const ReferenceFile file("low_sun_colour_beer_lambert.csv");
    Errors high;
    for (std::size_t row = 0; row < file.size(); ++row) {
        const double altitude_deg = file.number(row, "apparent_alt_deg");
        if (file.number(row, "aod550") != 0.0) {
            continue;
        }
        const Xyz ours = beam(traced_columns(altitude_deg), 0.0);
        std::printf("low sun at %4.1f deg: %.4g lx %.4f %.4f, other program %s lx %s %s\n", altitude_deg,
                    ours.y, chromaticity(ours).x, chromaticity(ours).y,
                    file.text(row, "direct_normal_illuminance_lx").c_str(), file.text(row, "x").c_str(),
                    file.text(row, "y").c_str());
        if (altitude_deg >= 5.0) {
            high.add(ours, file, row);
        }
    }
    high.light.report("low sun from 5 deg, own rays", "%");
    high.colour.report("colour of the low sun from 5 deg, own rays", "x, y");
    EXPECT_LT(high.light.value(), 3.0);
    EXPECT_LT(high.colour.value(), 0.004);
}

}  // namespace
}  // namespace gloam::sky
