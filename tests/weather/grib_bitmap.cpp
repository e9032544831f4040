// Counting the points of a bitmap.
#include "weather/grib/bitmap.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <initializer_list>
#include <optional>
#include <vector>

namespace gloam::weather {
namespace {

/// Section 6 of edition 2 with these octets of bits.
std::vector<std::byte> section(int indicator, std::initializer_list<int> bits) {
    std::vector<std::byte> octets(6 + bits.size());
    octets[5] = static_cast<std::byte>(indicator);
    std::ranges::transform(bits, octets.begin() + 6, [](int octet) { return static_cast<std::byte>(octet); });
    return octets;
}

std::optional<std::size_t> count(const std::vector<std::byte>& bitmap, std::size_t points) {
    GribField field;
    field.bitmap = bitmap;
    return points_with_value(field, points);
}

TEST(GribBitmap, CountsItsBitsAndNotThePaddingBehindThem) {
    EXPECT_EQ(count(section(0, {0b1010'0001, 0b1100'0000}), 12), 5U);
    EXPECT_EQ(count(section(0, {0b1010'0001, 0b1100'1111}), 12), 5U);
    EXPECT_EQ(count(section(0, {0xff, 0xff}), 16), 16U);
    EXPECT_EQ(count(section(0, {1, 1, 1, 1, 1, 1, 1, 1, 1, 0xff}), 74), 11U);  // more than a word of 64
}

TEST(GribBitmap, WithoutOneEveryPointHasAValue) {
    EXPECT_EQ(count(section(255, {}), 12), 12U);
}

TEST(GribBitmap, OneThatIsShorterThanTheGridOrPredefinedIsRefused) {
    EXPECT_EQ(count(section(0, {0xff}), 12), std::nullopt);
    EXPECT_EQ(count(section(7, {0xff, 0xff}), 12), std::nullopt);
}

TEST(GribBitmap, ValuesGoToThePointsThatHaveThem) {
    GribField field;
    const std::vector<std::byte> bitmap = section(0, {0b0100'0000, 0b1000'0000});
    field.bitmap = bitmap;
    std::vector values{5.0, 7.0};
    spread_over_grid(field, 9, -1.0, values);
    EXPECT_THAT(values, ::testing::ElementsAre(-1, 5, -1, -1, -1, -1, -1, -1, 7));
}

}  // namespace
}  // namespace gloam::weather
