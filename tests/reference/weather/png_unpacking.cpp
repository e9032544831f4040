// PNG packing against the unpacking of ecCodes 2.28 (ECMWF, Apache-2.0), on a real file and on synthetic
// messages.
#include <eccodes.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <memory>

#include "support/synthetic_grib.hpp"
#include "weather/grib/bitmap.hpp"
#include "weather/grib/packing.hpp"
#include "weather/grib/png.hpp"

namespace gloam::weather {
namespace {

using synthetic::Bytes;

std::vector<double> by_eccodes(const Bytes& message) {
    const std::unique_ptr<codes_handle, int (*)(codes_handle*)> handle(
        codes_handle_new_from_message(nullptr, message.data(), message.size()), codes_handle_delete);
    std::size_t size = 0;
    codes_get_size(handle.get(), "codedValues", &size);
    std::vector<double> values(size);
    EXPECT_EQ(codes_get_double_array(handle.get(), "codedValues", values.data(), &size), CODES_SUCCESS);
    return values;
}

std::vector<double> by_us(const Bytes& message) {
    const GribFrame frame{.origin = {}, .edition = 2, .octets = message};
    const std::vector<GribField> fields = fields_of(frame).value();
    const GribField& field = fields.at(0);
    const auto count = big_endian(field.representation, 5, 4);
    const Octets image = png_image(field).value();
    EXPECT_EQ(png_trouble(field.representation, image, count), std::nullopt);
    return png_values(field.representation, image, count);
}

void expect_equal(const Bytes& message, std::size_t count) {
    const std::vector<double> theirs = by_eccodes(message);
    const std::vector<double> ours = by_us(message);
    ASSERT_EQ(theirs.size(), count);
    ASSERT_EQ(ours.size(), count);
    for (std::size_t i = 0; i < count; ++i) {
        ASSERT_DOUBLE_EQ(ours[i], theirs[i]) << i;
    }
}

TEST(PngUnpacking, IsThatOfEccodesOnARealField) {
    std::ifstream stream(GLOAM_SOURCE_DIR "/data/weather/ncv-conus-5km-200711210135-visibility.grib2",
                         std::ios::binary);
    Bytes message(35660);
    stream.read(reinterpret_cast<char*>(message.data()), std::ssize(message));
    expect_equal(message, 1073 * 689);
}

class SyntheticPngUnpacking : public ::testing::TestWithParam<long> {};

TEST_P(SyntheticPngUnpacking, IsThatOfEccodesAtEveryWidth) {
    // Steps, for ecCodes gives up on what does not pack well.
    const auto steps = [](double lat, double lon) {
        return std::optional(50.0 + 40.0 * std::sin(lat) + std::round(lon / 5.0));
    };
    expect_equal(synthetic::message({.packing = "grid_png", .bits = GetParam()}, steps), 31 * 51);
}

TEST_P(SyntheticPngUnpacking, IsThatOfEccodesWhereABitmapLeavesHolesEverySecondRow) {
    const auto rows = [](double lat, double lon) {
        return std::lround(lat) % 2 == 0 ? std::optional(lat + lon / 7.0) : std::nullopt;
    };
    expect_equal(synthetic::message({.packing = "grid_png", .bits = GetParam()}, rows), 16 * 51);
}

INSTANTIATE_TEST_SUITE_P(Bits, SyntheticPngUnpacking, ::testing::Values(5, 8, 12, 16, 20, 24, 28, 32));

}  // namespace
}  // namespace gloam::weather
