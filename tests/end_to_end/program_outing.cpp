// The two looks from the command line, for the equator's dawn of a synthetic ensemble.
#include <gmock/gmock.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "run_program.hpp"
#include "small_forecast.hpp"

namespace gloam {
namespace {

using test::Folder;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::StartsWith;

/// Words of a look at nine in the evening before, or half past three.
std::vector<std::string> look(const std::string& command, const std::string& forecast) {
    auto words = call_words(forecast);
    words[0] = command;
    return with(words, "--as-of", command == "evening" ? "2025-03-19T21:00:00Z" : "2025-03-20T03:30:00Z");
}

std::string content_of(const std::filesystem::path& file) {
    std::stringstream text;
    text << std::ifstream(file, std::ios::binary).rdbuf();
    return text.str();
}

TEST(ProgramOuting, IsKeptAndReplayedToTheByte) {
    const Folder folder;
    const auto forecast = written(folder, small_forecast());
    const Outcome evening = run_program(folder, look("evening", forecast));
    EXPECT_EQ(evening.exit_code, 0) << evening.err;
    EXPECT_THAT(evening.out, AllOf(HasSubstr("Evening look, 21:00"), HasSubstr("Kept as call 1.")));
    const Outcome again = run_program(folder, {"replay", "1"});
    EXPECT_THAT(evening.out, StartsWith(again.out));
    EXPECT_GT(again.out.size(), 500U);
    EXPECT_TRUE(std::filesystem::exists(folder / ".local/share/gloam/journal.sqlite"));
}

TEST(ProgramOuting, OfTheMorningKnowsTheEvening) {
    const Folder folder;
    const auto forecast = written(folder, small_forecast());
    run_program(folder, look("evening", forecast));
    EXPECT_EQ(run_program(folder, {"overrule", "1", "stay", "--because", "tired"}).exit_code, 0);
    const Outcome morning = run_program(folder, with(look("morning", forecast), "--seen", "stars-low"));
    EXPECT_THAT(morning.out,
                AllOf(HasSubstr("Before: stay at 21:00 on 2025-03-19"), HasSubstr("you saw \"stars-low\"")));
}

TEST(ProgramOuting, AsASheetIsWrittenToAFile) {
    const Folder folder;
    run_program(folder, look("evening", written(folder, small_forecast())));
    const auto sheet = (folder / "sheet.txt").string();
    const Outcome wrote = run_program(folder, {"sheet", "1", "-o", sheet});
    EXPECT_EQ(wrote.exit_code, 0) << wrote.err;
    EXPECT_EQ(content_of(sheet), run_program(folder, {"sheet"}).out);
    EXPECT_THAT(content_of(sheet), StartsWith("Dawn of Thu 20 Mar 2025"));
}

TEST(ProgramOuting, ShowsATypedWarningFirst) {
    const Folder folder;
    const Outcome warned = run_program(
        folder, with(look("evening", written(folder, small_forecast())), "--warning", "Red wind warning"));
    EXPECT_THAT(warned.out, StartsWith("STOP      \"Red wind warning\""));
}

TEST(ProgramOuting, ThatIsOverruledHasTheSheetOfItsOverrule) {
    const Folder folder;
    run_program(folder, look("evening", written(folder, small_forecast())));
    run_program(folder, {"overrule", "1", "go", "--because", "a feeling"});
    EXPECT_THAT(run_program(folder, {"sheet"}).out, HasSubstr(": ON."));
    run_program(folder, {"overrule", "1", "stay", "--because", "tired"});
    EXPECT_THAT(run_program(folder, {"sheet"}).out, HasSubstr(": OFF."));
}

TEST(ProgramOuting, ThatIsStoppedHasNoSheetBeforeAReason) {
    const Folder folder;
    const auto forecast = written(folder, small_forecast());
    auto warned = with(look("evening", forecast), "--warning", "Red wind warning");
    warned = with(warned, "--class", "slight");
    EXPECT_THAT(run_program(folder, warned).out, HasSubstr("gloam set-aside 1 warning --because REASON"));
    run_program(folder, {"overrule", "1", "go", "--because", "a feeling"});
    const Outcome refused = run_program(folder, {"sheet", "1"});
    EXPECT_EQ(refused.exit_code, 6);
    EXPECT_THAT(refused.err, HasSubstr("a STOP stands: warning"));
    EXPECT_EQ(run_program(folder, {"set-aside", "1", "warning", "--because", "inland"}).exit_code, 0);
    run_program(folder, with(look("evening", forecast), "--class", "slight"));
    EXPECT_THAT(run_program(folder, {"replay"}).out, StartsWith("STOP      [set aside by you: inland]"));
}

TEST(ProgramOuting, AsJsonHasItsTimes) {
    const Folder folder;
    auto words = look("evening", written(folder, small_forecast()));
    words.emplace_back("--json");
    EXPECT_THAT(run_program(folder, words).out, AllOf(StartsWith("{"), HasSubstr("\"call\": 1"),
                                                      HasSubstr("\"leave_stand\": \"2025-03-20T")));
}

struct Refusal {
    std::vector<std::string> words;
    int exit_code;
    const char* told;
};

class RefusedOuting : public ::testing::TestWithParam<Refusal> {};

TEST_P(RefusedOuting, SaysWhatIsWrong) {
    const Folder folder;
    const Outcome refused = run_program(folder, GetParam().words);
    EXPECT_EQ(refused.exit_code, GetParam().exit_code);
    EXPECT_THAT(refused.err, HasSubstr(GetParam().told));
    EXPECT_THAT(refused.out, IsEmpty());
}

INSTANTIATE_TEST_SUITE_P(
    Words, RefusedOuting,
    ::testing::Values(Refusal{{"replay", "7"}, 3, "journal"}, Refusal{{"sheet"}, 3, "journal"},
                      Refusal{{"overrule", "7", "go", "--because", "x"}, 3, "journal"},
                      Refusal{{"overrule", "7", "perhaps", "--because", "x"}, 2, "perhaps"},
                      Refusal{{"overrule", "7", "go"}, 2, "--because"},
                      Refusal{{"set-aside", "7", "tide", "--because", "x"}, 3, "journal"},
                      Refusal{{"set-aside", "7", "dragons", "--because", "x"}, 2, "dragons"}));

TEST(ProgramOuting, WithWordsThatMakeNoSenseKeepsNothing) {
    const Folder folder;
    const auto forecast = written(folder, small_forecast());
    EXPECT_EQ(run_program(folder, with(look("morning", forecast), "--seen", "omen")).exit_code, 2);
    EXPECT_EQ(run_program(folder, with(look("evening", forecast), "--home-at", "late")).exit_code, 2);
    EXPECT_EQ(run_program(folder, with(look("evening", forecast), "--warnings", forecast)).exit_code, 4);
    EXPECT_EQ(run_program(folder, {"replay", "1"}).exit_code, 3);
}

}  // namespace
}  // namespace gloam
