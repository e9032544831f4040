#include "base/text_table.hpp"

#include <gmock/gmock.h>

#include <string>

namespace gloam {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

TEST(TextTable, ReadsColumnsByName) {
    const auto table =
        parse_text_table("# source: nobody\nnm,xbar\n380,0.0014\n\n385,-2.2e-3\n", ',', "cie.csv");
    ASSERT_TRUE(table);
    EXPECT_EQ(table->rows.size(), 2U);
    EXPECT_EQ(table->column("xbar"), 1U);
    EXPECT_THAT(table->numbers("nm").value(), ElementsAre(380.0, 385.0));
    EXPECT_THAT(table->numbers("xbar").value(), ElementsAre(0.0014, -0.0022));
}

TEST(TextTable, TakesOtherLineEndsAndSeparators) {
    const auto table = parse_text_table("a\tb\r\n1\t2\r\n3\t4", '\t', "t");
    ASSERT_TRUE(table);
    EXPECT_THAT(table->header, ElementsAre("a", "b"));
    EXPECT_THAT(table->numbers("b").value(), ElementsAre(2.0, 4.0));
}

TEST(TextTable, IgnoresTheByteOrderMarkThatSpreadsheetsWrite) {
    const auto table = parse_text_table("\xEF\xBB\xBFnm,value\n1,2\n", ',', "t");
    ASSERT_TRUE(table);
    EXPECT_EQ(table->column("nm"), 0U);
}

TEST(TextTable, KeepsEmptyFieldsAndRefusesThemAsNumbers) {
    const auto table = parse_text_table("a,b,c\n,2,\n", ',', "t");
    ASSERT_TRUE(table);
    EXPECT_THAT(table->rows.front(), ElementsAre("", "2", ""));
    EXPECT_FALSE(table->numbers("a"));
    EXPECT_FALSE(table->numbers("c"));
}

TEST(TextTable, NamesColumnRowAndFieldOfABadNumber) {
    for (const std::string field : {"", " 1", "1 ", "1.5x", "0x10", "nan", "inf", "-inf", "1e999", "1;5",
                                    "+1", "--1", "\xC2\xA0\x31"}) {
        const auto table = parse_text_table("a,b\n1,2\n3," + field + "\n", ',', "t");
        ASSERT_TRUE(table) << field;
        const auto numbers = table->numbers("b");
        ASSERT_FALSE(numbers) << field;
        EXPECT_EQ(numbers.error().kind, ErrorKind::kUnreadable);
        EXPECT_EQ(numbers.error().where, "t, column b, row 2");
        EXPECT_THAT(numbers.error().message, HasSubstr("'" + field + "'"));
    }
}

TEST(TextTable, RefusesAMissingColumn) {
    const auto table = parse_text_table("a,b\n1,2\n", ',', "t");
    ASSERT_TRUE(table);
    EXPECT_THAT(table->numbers("c").error().message, HasSubstr("'c'"));
    EXPECT_EQ(table->numbers("c").error().where, "t");
    EXPECT_FALSE(table->column("A"));
    EXPECT_FALSE(table->column(""));
}

TEST(TextTable, NamesTheLineOfAShortOrLongRow) {
    for (const char* row : {"1", "1,2,3", "1,2,"}) {
        const auto table = parse_text_table(std::string("# note\na,b\n1,2\n") + row + "\n", ',', "t.csv");
        ASSERT_FALSE(table) << row;
        EXPECT_EQ(table.error().where, "t.csv, line 4") << row;
    }
}

TEST(TextTable, RefusesTextWithoutAHeader) {
    for (const char* text : {"", "\n\n", "# only notes\n", "\r\n"}) {
        const auto table = parse_text_table(text, ',', "t.csv");
        ASSERT_FALSE(table);
        EXPECT_EQ(table.error().where, "t.csv");
    }
}

TEST(TextTable, SurvivesBytesOfAnySort) {
    std::string bytes;
    for (int i = 0; i < 256 * 64; ++i) {
        bytes += static_cast<char>((i * i / 7 + i) % 256);
    }
    for (std::size_t length = 0; length < bytes.size(); length += 97) {
        const auto table = parse_text_table(std::string(bytes, 0, length), ',', "noise");
        if (table) {
            for (const auto& row : table->rows) {
                EXPECT_EQ(row.size(), table->header.size());
            }
        }
    }
}

}  // namespace
}  // namespace gloam
