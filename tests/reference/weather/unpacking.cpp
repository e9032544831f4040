// The packings that we unpack ourselves against the unpacking of ecCodes 2.28 (ECMWF, Apache-2.0), on real
// files and on synthetic messages.
#include <eccodes.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <memory>

#include "support/synthetic_grib.hpp"
#include "weather/grib/packing.hpp"

namespace gloam::weather {
namespace {

using synthetic::Bytes;

/// Without those that are missing.
std::vector<double> by_eccodes(Octets message) {
    const std::unique_ptr<codes_handle, int (*)(codes_handle*)> handle(
        codes_handle_new_from_message(nullptr, message.data(), message.size()), codes_handle_delete);
    constexpr double kMissing = -1.0e300;
    codes_set_double(handle.get(), "missingValue", kMissing);
    std::size_t size = 0;
    codes_get_size(handle.get(), "values", &size);
    std::vector<double> values(size);
    EXPECT_EQ(codes_get_double_array(handle.get(), "values", values.data(), &size), CODES_SUCCESS);
    std::erase(values, kMissing);
    return values;
}

std::vector<double> by_us(const GribFrame& frame, std::size_t points) {
    const std::vector<GribField> fields = fields_of(frame).value();
    EXPECT_EQ(packing_trouble(fields.at(0), points), std::nullopt);
    std::vector<double> values;
    EXPECT_TRUE(unpack_here(fields.at(0), points, values));
    return values;
}

/// Equal to the bit.
void expect_equal(const GribFrame& frame, std::size_t points, std::size_t count) {
    const std::vector<double> theirs = by_eccodes(frame.octets);
    const std::vector<double> ours = by_us(frame, points);
    ASSERT_EQ(theirs.size(), count);
    ASSERT_EQ(ours, theirs);
}

void expect_equal(const Bytes& message, int edition, std::size_t count) {
    expect_equal({.origin = {}, .edition = edition, .octets = message}, 31 * 51, count);
}

Bytes stored(const char* name) {
    const std::filesystem::path file = std::filesystem::path(GLOAM_SOURCE_DIR "/data/weather") / name;
    Bytes bytes(std::filesystem::file_size(file));
    std::ifstream stream(file, std::ios::binary);
    stream.read(reinterpret_cast<char*>(bytes.data()), std::ssize(bytes));
    return bytes;
}

/// Number of messages of a real file, all of them compared.
std::size_t compared(const char* name, std::size_t points) {
    const Bytes bytes = stored(name);
    FrameReader reader(memory_source(bytes), name);
    std::size_t messages = 0;
    while (const auto frame = reader.next().value()) {
        const GribFrame whole = reader.whole(*frame).value();
        expect_equal(whole, points, by_eccodes(whole.octets).size());
        ++messages;
    }
    return messages;
}

TEST(Unpacking, OfPngIsThatOfEccodesOnARealField) {
    EXPECT_EQ(compared("ncv-conus-5km-200711210135-visibility.grib2", 1073 * 689), 1U);
}

TEST(Unpacking, OfEdition1IsThatOfEccodesOnRealFields) {
    EXPECT_EQ(compared("cfs-global-t62-2006033100-f024-cloud-subset.grib1", 192 * 94), 25U);
    EXPECT_EQ(compared("wrf-conus-40km-2005080700-f012-rh-profile.grib1", 185 * 129), 55U);
}

/// A packing at a width.
struct Packing {
    const char* name;
    int edition;
    long bits;
};
class SyntheticUnpacking : public ::testing::TestWithParam<Packing> {
  protected:
    static Bytes packed(const synthetic::ValueAt& value) {
        const Packing& packing = GetParam();
        return synthetic::message({.edition = packing.edition,
                                   .number = packing.edition == 1 ? 71 : 1,
                                   .packing = packing.name,
                                   .bits = packing.bits},
                                  value);
    }
};

TEST_P(SyntheticUnpacking, IsThatOfEccodes) {
    // Steps, for ecCodes gives up on images of what does not pack well.
    const auto steps = [](double lat, double lon) {
        return std::optional(50.0 + 40.0 * std::sin(lat) + std::round(lon / 5.0));
    };
    expect_equal(packed(steps), GetParam().edition, 31 * 51);
}

TEST_P(SyntheticUnpacking, IsThatOfEccodesWhereABitmapLeavesHolesEverySecondRow) {
    const auto rows = [](double lat, double lon) {
        return std::lround(lat) % 2 == 0 ? std::optional(lat + lon / 7.0) : std::nullopt;
    };
    expect_equal(packed(rows), GetParam().edition, 16 * 51);
}

std::vector<Packing> packings() {
    std::vector<Packing> all;
    for (const long bits : {5, 8, 12, 16, 20, 24, 28, 32}) {
        all.push_back({"grid_png", 2, bits});
        all.push_back({"grid_simple", 2, bits});
        all.push_back({"grid_simple", 1, bits});
    }
    return all;
}

INSTANTIATE_TEST_SUITE_P(, SyntheticUnpacking, ::testing::ValuesIn(packings()), [](const auto& packing) {
    return std::string(packing.param.name) + "_edition" + std::to_string(packing.param.edition) + "_bits" +
           std::to_string(packing.param.bits);
});

/// How GRIB writes a negative scale in two octets.
void scale(Bytes& message, std::size_t octet, int value) {
    message[octet] = static_cast<std::byte>((value < 0 ? 0x80 : 0) | (std::abs(value) >> 8));
    message[octet + 1] = static_cast<std::byte>(std::abs(value) & 0xFF);
}

TEST(SyntheticScales, AreThoseOfEccodesInEdition1) {
    const auto slope = [](double lat, double lon) { return std::optional(lat + lon / 7.0); };
    const Bytes good = synthetic::message({.edition = 1, .number = 71, .bits = 12}, slope);
    for (int decimal = -7; decimal <= 12; ++decimal) {
        Bytes scaled = good;
        scale(scaled, 8 + 26, decimal);
        expect_equal(scaled, 1, 31 * 51);
    }
}

}  // namespace
}  // namespace gloam::weather
