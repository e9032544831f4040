#include "sheet/text_block.hpp"

#include <gtest/gtest.h>

#include <string>

namespace gloam::sheet {
namespace {

TEST(TextBlock, GrowsWithItsTextAndSize) {
    const TextBlock word("dawn", {12.0});
    EXPECT_GT(TextBlock("dawn dawn", {12.0}).width_px(), word.width_px());
    EXPECT_NEAR(TextBlock("dawn", {24.0}).width_px(), 2.0 * word.width_px(), 0.1);
    EXPECT_NEAR(TextBlock("dawn\ndusk", {12.0}).height_px(), 2.0 * word.height_px(), 0.1);
}

TEST(TextBlock, WrapsAndEndsAfterItsLines) {
    const double line_px = TextBlock("dawn", {12.0}).height_px();
    std::string words;
    for (int i = 0; i < 5000; ++i) {
        words += "dawn ";
    }
    const TextBlock wrapped(words, {12.0, false, Align::kLeft, 200.0, 3});
    EXPECT_LE(wrapped.width_px(), 200.1);
    EXPECT_NEAR(wrapped.height_px(), 3.0 * line_px, 0.1);
    const TextBlock one_word(std::string(5000, 'x'), {12.0, false, Align::kLeft, 200.0, 3});
    EXPECT_LE(one_word.width_px(), 200.1);
}

TEST(TextBlock, LineEndsOfAWrappedTextAreSpaces) {
    const TextBlock lines("a\nb\nc\nd\ne", {12.0, false, Align::kLeft, 200.0, 2});
    EXPECT_NEAR(lines.height_px(), TextBlock("a", {12.0}).height_px(), 0.1);
}

TEST(TextBlock, TakesAnyBytes) {
    EXPECT_EQ(TextBlock("", {12.0}).width_px(), 0.0);
    EXPECT_GT(TextBlock("\xff\xfe", {12.0}).width_px(), 0.0);
    EXPECT_GT(TextBlock(std::string_view("a\0b", 3), {12.0}).width_px(), TextBlock("ab", {12.0}).width_px());
    EXPECT_GT(TextBlock("<b>&amp;</b>", {12.0}).width_px(), TextBlock("&", {12.0}).width_px());
}

}  // namespace
}  // namespace gloam::sheet
