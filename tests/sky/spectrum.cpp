#include "sky/spectrum.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstring>
#include <string>

#include "reference/astro/reference_file.hpp"
#include "sky/atmosphere.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

using test::tables;

std::string spectra_file(const char* name) {
    return test::read_file(std::string(GLOAM_SOURCE_DIR) + "/data/spectra/" + name);
}

class PublishedSpectra : public ::testing::Test {
  protected:
    std::string solar = spectra_file("solar_astm_g173_350_850.csv");
    std::string observer = spectra_file("cie_observers_1nm.csv");
    std::string ozone = spectra_file("ozone_xsec_serdyuchenko233K_10nm.csv");
};

TEST_F(PublishedSpectra, AreWhatTheTablesWereMadeOf) {
    const auto bands = make_bands(solar, observer, ozone);
    ASSERT_TRUE(bands);
    EXPECT_EQ(std::memcmp(&*bands, &tables().bands, sizeof(Bands)), 0);
}

TEST_F(PublishedSpectra, AreRefusedWithoutTheirColumns) {
    const auto bands = make_bands(observer, observer, ozone);
    ASSERT_FALSE(bands);
    EXPECT_EQ(bands.error().kind, ErrorKind::kUnreadable);
    EXPECT_NE(to_text(bands.error()).find("solar spectrum"), std::string::npos);
}

TEST_F(PublishedSpectra, AreRefusedWhenDamaged) {
    EXPECT_FALSE(make_bands(solar + "900,x\n", observer, ozone));
    EXPECT_FALSE(make_bands(solar, "", ozone));
    EXPECT_FALSE(make_bands(solar, observer, ozone.substr(0, ozone.size() / 2) + ",,,\n"));
}

TEST(Bands, SunAboveTheAirShines133KiloluxOnAPlaneFacingIt) {
    const Bands& bands = tables().bands;
    EXPECT_NEAR(bands.xyz(bands.sun_w_m2_nm).y, 133.1e3, 0.5e3);
}

TEST(Bands, SunAboveTheAirHasItsPublishedColour) {
    const Bands& bands = tables().bands;
    const Chromaticity colour = chromaticity(bands.xyz(bands.sun_w_m2_nm));
    EXPECT_NEAR(colour.x, 0.3234, 5e-4);
    EXPECT_NEAR(colour.y, 0.3327, 5e-4);
}

TEST(Bands, TileTheVisibleSpectrum) {
    const Bands& bands = tables().bands;
    for (std::size_t b = 0; b < kBands; ++b) {
        EXPECT_DOUBLE_EQ(bands.centre_nm[b], 390.0 + 20.0 * static_cast<double>(b));
    }
}

TEST(Bands, LightAddsUp) {
    const Bands& bands = tables().bands;
    Spectrum twice = bands.sun_w_m2_nm;
    for (double& value : twice) {
        value *= 2.0;
    }
    EXPECT_DOUBLE_EQ(bands.xyz(twice).x, 2.0 * bands.xyz(bands.sun_w_m2_nm).x);
}

// Against another laboratory: the cross-sections of Bogumil at 223 K, mean over 580 to 620 nm, give 300
// Dobson units 4.756e-21 cm2 * 300 * 2.687e16 cm-2 = 0.0383. The two sets differ by 2 to 6 %.
TEST(Bands, OzoneOf300DobsonUnitsTakesFourPercentAround600Nanometres) {
    Atmosphere atmosphere;
    atmosphere.ozone_du = 300.0;
    const Optics optics = optics_of(atmosphere, tables().bands);
    const Spectrum& depth = optics.depth[static_cast<std::size_t>(Species::kOzone)];
    const double around_600_nm = 0.5 * (depth[10] + depth[11]);  // the bands of 590 and 610 nm
    EXPECT_NEAR(around_600_nm / 0.0383, 1.0, 0.05);
}

TEST(Rayleigh, DepthFallsAlmostWithTheFourthPowerOfWavelength) {
    const double exponent =
        std::log(rayleigh_optical_depth(400.0) / rayleigh_optical_depth(700.0)) / std::log(700.0 / 400.0);
    EXPECT_NEAR(exponent, 4.1, 0.02);
}

}  // namespace
}  // namespace gloam::sky
