#include "app/text_file.hpp"

#include <gmock/gmock.h>

#include "support/folder.hpp"

namespace gloam::app {
namespace {

using test::Folder;
using ::testing::HasSubstr;

std::span<const std::byte> bytes_of(std::string_view text) {
    return std::as_bytes(std::span(text));
}

void expect_refused(const Result<std::string>& text, ErrorKind kind, const std::filesystem::path& file) {
    ASSERT_FALSE(text);
    EXPECT_EQ(text.error().kind, kind);
    EXPECT_EQ(text.error().where, file.string());
    EXPECT_FALSE(text.error().hint.empty());
}

TEST(TextFile, IsReadWhole) {
    const Folder folder;
    EXPECT_EQ(read_text_file(folder.with("a.toml", "one\r\ntwo")).value(), "one\r\ntwo");
}

TEST(TextFile, MayBeEmpty) {
    const Folder folder;
    EXPECT_EQ(read_text_file(folder.with("a.toml", "")).value(), "");
}

TEST(TextFile, ThatIsNotThereIsRefused) {
    const Folder folder;
    expect_refused(read_text_file(folder / "none.toml"), ErrorKind::kNotFound, folder / "none.toml");
}

TEST(TextFile, ThatIsAFolderIsRefused) {
    const Folder folder;
    expect_refused(read_text_file(folder / ""), ErrorKind::kNotFound, folder / "");
}

TEST(TextFile, ThatIsFarTooLargeIsRefusedUnread) {
    const Folder folder;
    const auto file = folder.with("large.toml", "");
    std::filesystem::resize_file(file, (32U << 20U) + 1);  // a hole: takes no room
    expect_refused(read_text_file(file), ErrorKind::kUnreadable, file);
}

TEST(WriteFile, WritesAllBytesAndLeavesNothingElse) {
    const Folder folder;
    const auto file = folder / "out.svg";
    ASSERT_TRUE(write_file(file, bytes_of("drawing")));
    EXPECT_EQ(read_text_file(file).value(), "drawing");
    EXPECT_FALSE(std::filesystem::exists(folder / "out.svg.part"));
}

TEST(WriteFile, ReplacesAFile) {
    const Folder folder;
    const auto file = folder.with("out.svg", "a longer one before");
    ASSERT_TRUE(write_file(file, bytes_of("new")));
    EXPECT_EQ(read_text_file(file).value(), "new");
}

TEST(WriteFile, IntoAFolderThatIsNotThereIsRefused) {
    const Folder folder;
    const auto written = write_file(folder / "none/out.svg", bytes_of("drawing"));
    ASSERT_FALSE(written);
    EXPECT_EQ(written.error().where, (folder / "none/out.svg").string());
    EXPECT_THAT(written.error().hint, HasSubstr("folder exists"));
}

TEST(WriteFile, OverAFolderIsRefusedAndLeavesNothingElse) {
    const Folder folder;
    std::filesystem::create_directories(folder / "taken.svg/inside");
    EXPECT_FALSE(write_file(folder / "taken.svg", bytes_of("drawing")));
    EXPECT_FALSE(std::filesystem::exists(folder / "taken.svg.part"));
}

}  // namespace
}  // namespace gloam::app
