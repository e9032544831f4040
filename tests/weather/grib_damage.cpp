// Damaged files: each is an error with file, message and remedy, never a crash, a hang or a flood of memory.
#include <gmock/gmock.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

#include "weather/leaks_of_eccodes.hpp"
#include "weather/read.hpp"

namespace gloam::weather {
namespace {

using synthetic::Bytes;
using ::testing::HasSubstr;

std::optional<double> waves(double lat_deg, double lon_deg) {
    return 50.0 + 49.0 * std::sin(lat_deg) * std::cos(lon_deg);
}

/// Packs well, so that headers are a good part of the message.
std::optional<double> terraces(double lat_deg, double lon_deg) {
    return 30.0 + std::round(lat_deg / 3.0) + std::round(lon_deg / 6.0);
}

Bytes small(const char* packing = "grid_simple") {
    return message({.grid = {.rows = 9, .columns = 11}, .packing = packing}, waves);
}

/// Finds a section of an edition 2 message and overwrites octets of it (counted from 1, as the tables do).
void overwrite(Bytes& bytes, int section, std::size_t octet, std::initializer_list<int> values) {
    std::size_t at = 16;
    while (std::to_integer<int>(bytes[at + 4]) != section) {
        at += std::to_integer<std::size_t>(bytes[at + 2]) * 256 + std::to_integer<std::size_t>(bytes[at + 3]);
    }
    for (const int value : values) {
        bytes[at + octet++ - 1] = static_cast<std::byte>(value);
    }
}

void expect_good_error(const Error& error) {
    EXPECT_EQ(error.kind, ErrorKind::kUnreadable) << to_text(error);
    EXPECT_THAT(error.where, HasSubstr("synthetic.grib2"));
    EXPECT_FALSE(error.message.empty());
    EXPECT_FALSE(error.hint.empty());
}

TEST(Damage, AnEmptyFileIsNamed) {
    expect_good_error(refusal({}));
    EXPECT_THAT(refusal({}).message, HasSubstr("empty"));
}

TEST(Damage, AFileOfAnotherKindIsNamed) {
    const std::string page = "<html><body>Too many requests</body></html>";
    const auto* first = reinterpret_cast<const std::byte*>(page.data());
    const Error error = refusal({first, first + page.size()});
    expect_good_error(error);
    EXPECT_THAT(error.message, HasSubstr("not a GRIB file"));
}

TEST(Damage, AFileCutShortAnywhereIsAnError) {
    const Bytes whole = cover_on_levels({.grid = {.rows = 20, .columns = 30}, .levels_hpa = {300, 500, 850}},
                                        [](double, double, double) { return 0.5; });
    const std::size_t one = whole.size() / 3;
    ASSERT_EQ(one * 3, whole.size());
    for (std::size_t length = 97; length < whole.size(); length += 97) {
        const Error error = refusal({whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(length)});
        expect_good_error(error);
        EXPECT_THAT(error.where, HasSubstr("message " + std::to_string(length / one + 1)));
    }
}

TEST(Damage, AFileCutShortWithinTheFirstOctetsOfAMessageIsAnError) {
    const Bytes one = small();
    Bytes two = synthetic::joined({one, one});
    for (std::size_t extra = 1; extra < 20; ++extra) {
        const Error error =
            refusal({two.begin(), two.begin() + static_cast<std::ptrdiff_t>(one.size() + extra)});
        expect_good_error(error);
        EXPECT_THAT(error.where, HasSubstr("message 2"));
    }
}

TEST(Damage, AFileThatLacksItsLastOctetsIsCutShort) {
    const Bytes one = small();
    for (std::ptrdiff_t missing = 1; missing < 20; ++missing) {
        const Error error = refusal({one.begin(), one.end() - missing});
        expect_good_error(error);
        EXPECT_THAT(error.message, HasSubstr("in the middle of a message"));
    }
}

TEST(Damage, AMissingEndMarkIsAnError) {
    Bytes bytes = small();
    bytes.back() = std::byte{'8'};
    expect_good_error(refusal(bytes));
    EXPECT_THAT(refusal(bytes).message, HasSubstr("7777"));
}

TEST(Damage, AnEditionThatDoesNotExistIsAnError) {
    Bytes bytes = small();
    bytes[7] = std::byte{3};
    expect_good_error(refusal(bytes));
}

TEST(Damage, AGridThatIsNotThatOfTheValuesIsAnError) {
    Bytes bytes = small();
    overwrite(bytes, 3, 34, {12});  // Ni
    expect_good_error(refusal(bytes));
    EXPECT_THAT(refusal(bytes).message, HasSubstr("12 x 9"));
    overwrite(bytes, 3, 10,
              {108});  // number of points: header now agrees with itself, but not with the values
    expect_good_error(refusal(bytes));
}

TEST(Damage, AHugeGridIsRefusedBeforeAnythingIsAllocated) {
    Bytes bytes = small();
    overwrite(bytes, 3, 31, {0x7f, 0xff, 0xff, 0xf0, 0x7f, 0xff, 0xff, 0xf0});
    expect_good_error(refusal(bytes));
    EXPECT_THAT(refusal(bytes).message, HasSubstr("more than this program reads"));
    overwrite(bytes, 3, 31, {0, 0, 0x1b, 0x58, 0, 0, 0x1b, 0x58});  // 7000 x 7000: just below the bound
    overwrite(bytes, 3, 7, {0x02, 0xeb, 0xae, 0x40});               // 49 million points
    overwrite(bytes, 5, 6, {0x02, 0xeb, 0xae, 0x40});
    expect_good_error(refusal(bytes));
}

TEST(Damage, CornersThatContradictTheIncrementsAreAnError) {
    Bytes bytes = small();
    overwrite(bytes, 3, 56, {0x00, 0x00});  // last latitude
    expect_good_error(refusal(bytes));
    EXPECT_THAT(refusal(bytes).message, HasSubstr("contradicts"));
}

TEST(Damage, GroupsThatReachBeyondTheMessageAreAnError) {
    Bytes bytes = small("grid_complex");
    overwrite(bytes, 5, 36, {31});  // least width of a group, bits
    expect_good_error(refusal(bytes));
    EXPECT_THAT(refusal(bytes).where, HasSubstr("message 1, cloud cover at 500 hPa"));
}

TEST(Damage, AnImageOfAnotherSizeThanTheGridIsAnError) {  // ecCodes writes all of it, whatever room there is
    Bytes bytes = small("grid_jpeg");
    overwrite(bytes, 7, 6 + 8, {0, 0, 1, 0});  // width, 256
    expect_good_error(refusal(bytes));
    EXPECT_THAT(refusal(bytes).message, HasSubstr("JPEG 2000"));
}

/// Lengths of the parts of a JPEG 2000 stream that disagree with the section it is in.
class DamagedJpeg : public ::testing::Test {
  protected:
    static constexpr std::array kTilePart{std::byte{0xFF}, std::byte{0x90}};
    DamagedJpeg() : bytes_(small("grid_jpeg")), tile_(std::ranges::search(bytes_, kTilePart).begin()) {
        EXPECT_EQ(read(bytes_).fields.size(), 1U);
    }
    void expect_refused() const {
        expect_good_error(refusal(bytes_));
        EXPECT_THAT(refusal(bytes_).message, HasSubstr("longer or shorter than its section"));
    }

    Bytes bytes_;
    Bytes::iterator tile_;  ///< its length stands in octets 7 to 10
};

TEST_F(DamagedJpeg, ATileThatIsLongerThanTheSectionIsAnError) {
    tile_[8] = std::byte{0x7f};
    expect_refused();
}

TEST_F(DamagedJpeg, ATileThatIsShorterThanTheSectionIsAnError) {
    tile_[9] ^= std::byte{1};
    expect_refused();
}

TEST_F(DamagedJpeg, ATileThatEndsBeforeItsHeadDoesIsAnError) {
    std::fill_n(tile_ + 6, 3, std::byte{0});
    tile_[9] = std::byte{3};
    expect_refused();
}

TEST_F(DamagedJpeg, ASegmentOfTheHeadThatRunsIntoTheTileIsAnError) {
    overwrite(bytes_, 7, 6 + 45 + 2, {0x7f});  // behind start and size, 45 octets, and the next marker
    expect_refused();
}

TEST_F(DamagedJpeg, AMissingEndIsAnError) {
    bytes_[bytes_.size() - 5] = std::byte{0};
    expect_refused();
}

TEST_F(DamagedJpeg, ATileOfOpenLengthGoesOnToTheEnd) {
    std::fill_n(tile_ + 6, 4, std::byte{0});
    EXPECT_EQ(read(bytes_).fields.size(), 1U);
}

TEST(Damage, ABlockSizeOfNoStandardIsAnError) {  // libaec divides by it
    Bytes bytes = small("grid_ccsds");
    overwrite(bytes, 5, 23, {0});
    expect_good_error(refusal(bytes));
    EXPECT_THAT(refusal(bytes).message, HasSubstr("CCSDS"));
}

TEST(Damage,
     AnUnknownUnitOfTimeIsSkipped) {  // ecCodes looks it up beyond the end of its table, and divides by it
    for (const int edition : {1, 2}) {
        Bytes bytes = message(
            {.edition = edition, .number = edition == 1 ? 71 : 1, .grid = {.rows = 9, .columns = 11}}, waves);
        if (edition == 2) {
            overwrite(bytes, 4, 18, {200});
        } else {
            bytes[8 + 17] = std::byte{200};
        }
        const Forecast forecast = read(bytes);
        ASSERT_EQ(forecast.skipped.size(), 1U);
        EXPECT_THAT(forecast.skipped[0].reason, HasSubstr("unit of time 200"));
    }
}

/// A message in one of the packings, in one of the editions.
struct Kind {
    const char* packing;
    int edition;
};
class ByteFlips : public ::testing::TestWithParam<Kind> {};

TEST_P(ByteFlips, GiveAResultOrAGoodError) {
    const auto [packing, edition] = GetParam();
    const Bytes good = message({.edition = edition,
                                .number = edition == 1 ? 71 : 1,
                                .grid = {.rows = 24, .columns = 30},
                                .packing = packing},
                               terraces);
    ASSERT_EQ(read(good).fields.size(), 1U);
    std::mt19937 random(20250129);  // fixed: the same damage in every run
    int refused = 0;
    for (int flip = 0; flip < 2000; ++flip) {
        Bytes bytes = good;
        const int count = 1 + static_cast<int>(random() % 3);
        for (int i = 0; i < count; ++i) {
            bytes[random() % bytes.size()] ^= static_cast<std::byte>(1 + random() % 255);
        }
        const LeaksOfEccodes tolerated;
        const auto forecast = read_grib(bytes, "synthetic.grib2");
        if (forecast) {
            EXPECT_LE(forecast->fields.size(), 1U);
        } else {
            ++refused;
            EXPECT_THAT(forecast.error().where, HasSubstr("synthetic.grib2"));
            EXPECT_FALSE(forecast.error().hint.empty());
        }
    }
    EXPECT_GT(refused, 100);
}

INSTANTIATE_TEST_SUITE_P(, ByteFlips,
                         ::testing::Values(Kind{"grid_simple", 2},
                                           Kind{"grid_complex_spatial_differencing", 2},
                                           Kind{"grid_ccsds", 2}, Kind{"grid_jpeg", 2}, Kind{"grid_png", 2},
                                           Kind{"grid_simple", 1}),
                         [](const auto& kind) {
                             return std::string(kind.param.packing) + "_edition" +
                                    std::to_string(kind.param.edition);
                         });

}  // namespace
}  // namespace gloam::weather
