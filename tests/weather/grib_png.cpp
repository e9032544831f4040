// PNG packing: every depth that GRIB uses, and images that are not what the message says. All are synthetic.
#include "weather/grib/png.hpp"

#include <gmock/gmock.h>
#include <png.h>

#include <algorithm>
#include <cmath>

#include "weather/grib/handle.hpp"
#include "weather/read.hpp"

namespace gloam::weather {
namespace {

using synthetic::Bytes;
using ::testing::DoubleEq;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

struct Image {
    unsigned width = 4;
    unsigned height = 2;
    int depth = 8;
    int colour = PNG_COLOR_TYPE_GRAY;
    int interlace = PNG_INTERLACE_NONE;
};

void append(png_structp png, png_bytep octets, std::size_t length) {
    auto* const into = static_cast<Bytes*>(png_get_io_ptr(png));
    const auto* const first = reinterpret_cast<const std::byte*>(octets);
    into->insert(into->end(), first, first + length);
}

/// A PNG file with these octets in each row.
Bytes png(const Image& image, std::vector<png_byte> row) {
    Bytes file;
    png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
    png_infop info = png_create_info_struct(png);
    png_set_write_fn(png, &file, append, nullptr);
    png_set_IHDR(png, info, image.width, image.height, image.depth, image.colour, image.interlace,
                 PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
    if (image.colour == PNG_COLOR_TYPE_PALETTE) {
        const std::vector<png_color> palette(256);
        png_set_PLTE(png, info, palette.data(), 256);
    }
    png_write_info(png, info);
    const int passes = png_set_interlace_handling(png);
    for (unsigned i = 0; i < static_cast<unsigned>(passes) * image.height; ++i) {
        png_write_row(png, row.data());
    }
    png_write_end(png, info);
    png_destroy_write_struct(&png, &info);
    return file;
}

/// Section 5: reference value 1 as an IEEE number, scale factors by sign and magnitude, bits a value.
Bytes section5(int bits, int binary_scale = 0, int decimal_scale = 0) {
    Bytes section(21);
    const auto put = [&section](std::size_t at, int value) { section[at] = static_cast<std::byte>(value); };
    const auto put_signed = [&put](std::size_t at, int value) {
        put(at, value < 0 ? 0x80 : 0);
        put(at + 1, std::abs(value));
    };
    put(11, 0x3F);
    put(12, 0x80);
    put_signed(15, binary_scale);
    put_signed(17, decimal_scale);
    put(19, bits);
    return section;
}

bool is_passed(const Bytes& section, const Bytes& image, std::uint64_t count) {
    return !png_trouble(section, image, count);
}

std::vector<double> png_values(const Bytes& section, const Bytes& image, std::size_t count) {
    std::vector<double> values(count);
    unpack_png(section, image, values);
    return values;
}

/// Unpacked, if the image passes and is sound.
std::optional<std::vector<double>> unpack(const Bytes& section, const Bytes& image, std::size_t count) {
    if (!is_passed(section, image, count)) {
        return std::nullopt;
    }
    try {
        return png_values(section, image, count);
    } catch (const DecoderFailure&) {
        return std::nullopt;
    }
}

TEST(SyntheticPng, AValueIsReferencePlusScaledGreyOverThePowerOfTen) {
    const Bytes image = png({.width = 2, .height = 1}, {3, 255});
    EXPECT_THAT(png_values(section5(8, 2, 1), image, 2), ElementsAre(DoubleEq(1.3), DoubleEq(102.1)));
    EXPECT_THAT(png_values(section5(8, -1, -2), image, 2), ElementsAre(250.0, 12850.0));
}

TEST(SyntheticPng, EveryDepthOfGreyIsUnpacked) {
    const auto row_of_4 = [](int depth, std::vector<png_byte> row) {
        return png_values(section5(depth), png({.height = 1, .depth = depth}, std::move(row)), 4);
    };
    EXPECT_THAT(row_of_4(1, {0b1010'0000}), ElementsAre(2, 1, 2, 1));
    EXPECT_THAT(row_of_4(2, {0b00'01'10'11}), ElementsAre(1, 2, 3, 4));
    EXPECT_THAT(row_of_4(4, {0x01, 0xF2}), ElementsAre(1, 2, 16, 3));
    EXPECT_THAT(row_of_4(8, {0, 1, 2, 255}), ElementsAre(1, 2, 3, 256));
    EXPECT_THAT(row_of_4(16, {0, 0, 0, 1, 1, 0, 255, 255}), ElementsAre(1, 2, 257, 65536));
}

TEST(SyntheticPng, ColoursAreOneNumberOf24Or32Bits) {
    const Bytes rgb = png({.width = 2, .height = 1, .colour = PNG_COLOR_TYPE_RGB}, {0, 1, 0, 1, 0, 0});
    EXPECT_THAT(png_values(section5(24), rgb, 2), ElementsAre(257, 65537));
    const Bytes rgba = png({.width = 1, .height = 1, .colour = PNG_COLOR_TYPE_RGB_ALPHA}, {1, 0, 0, 2});
    EXPECT_THAT(png_values(section5(32), rgba, 1), ElementsAre(16777219));
}

TEST(SyntheticPng, RowsThatEndWithinAnOctetStartAfresh) {
    const Bytes image = png({.width = 3, .height = 2, .depth = 2}, {0b00'01'10'00});
    EXPECT_THAT(png_values(section5(2), image, 6), ElementsAre(1, 2, 3, 1, 2, 3));
}

TEST(SyntheticPng, BitsMayBeRoundedUpToOctetsAndNotOtherwise) {
    const Bytes grey_16 = png({.depth = 16}, std::vector<png_byte>(8));
    EXPECT_TRUE(is_passed(section5(12), grey_16, 8));
    EXPECT_FALSE(is_passed(section5(8), grey_16, 8));
    const Bytes grey_8 = png({}, std::vector<png_byte>(4));
    EXPECT_TRUE(is_passed(section5(4), grey_8, 8));
    EXPECT_FALSE(is_passed(section5(16), grey_8, 8));
}

TEST(SyntheticPng, OfNoBitsEveryValueIsTheReferenceAsItStands) {
    EXPECT_THAT(png_values(section5(0, 0, 3), {}, 3), ElementsAre(1, 1, 1));
}

TEST(SyntheticPng, AnImageOfAnotherSizeIsRefused) {
    const Bytes image = png({.width = 4, .height = 2}, std::vector<png_byte>(4));
    EXPECT_TRUE(is_passed(section5(8), image, 8));
    EXPECT_FALSE(is_passed(section5(8), image, 9));
}

TEST(SyntheticPng, InterlacedAndPaletteImagesAreRefused) {
    const std::vector<png_byte> row(4);
    EXPECT_FALSE(is_passed(section5(8), png({.interlace = PNG_INTERLACE_ADAM7}, row), 8));
    EXPECT_FALSE(is_passed(section5(8), png({.colour = PNG_COLOR_TYPE_PALETTE}, row), 8));
}

TEST(SyntheticPng, AHugeImageInAShortStreamIsRefusedBeforeAnythingIsAllocated) {
    Bytes image = png({}, std::vector<png_byte>(4));
    for (const std::size_t at : {16U, 17U, 20U, 21U}) {  // width and height
        image[at] = std::byte{1};
    }
    EXPECT_THAT(png_trouble(section5(8), image, 0x1010004ULL * 0x1010002ULL).value_or(""),
                HasSubstr("too short"));
}

TEST(SyntheticPng, CutShortAnywhereItIsRefused) {
    const Bytes whole = png({}, {1, 2, 3, 4});
    ASSERT_TRUE(unpack(section5(8), whole, 8));
    for (std::size_t length = 0; length < whole.size(); ++length) {
        EXPECT_FALSE(
            unpack(section5(8), {whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(length)}, 8))
            << length;
    }
}

TEST(SyntheticPng, WithOneDamagedOctetItIsRefusedForEveryChunkHasACheckSum) {
    const Bytes whole = png({}, {1, 2, 3, 4});
    for (std::size_t at = 0; at < whole.size(); ++at) {
        Bytes damaged = whole;
        damaged[at] ^= std::byte{0x10};
        EXPECT_FALSE(unpack(section5(8), damaged, 8)) << at;
    }
}

TEST(SyntheticPng, ADamagedImageInAMessageIsAnErrorThatNamesIt) {
    Bytes bytes = message({.grid = {.rows = 9, .columns = 11}, .packing = "grid_png"},
                          [](double lat, double lon) { return std::optional(std::abs(lat + lon)); });
    bytes[bytes.size() - 30] ^= std::byte{1};
    const Error error = refusal(bytes);
    EXPECT_EQ(error.kind, ErrorKind::kUnreadable);
    EXPECT_THAT(error.where, HasSubstr("synthetic.grib2, message 1"));
}

}  // namespace
}  // namespace gloam::weather
