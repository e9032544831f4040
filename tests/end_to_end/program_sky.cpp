// The painted sky, asked of the built program.
#include <gmock/gmock.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "run_program.hpp"
#include "small_forecast.hpp"

namespace gloam {
namespace {

using test::Folder;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::StartsWith;

/// A small picture of the equator's dawn, the sun some degrees down.
std::vector<std::string> sky_words(const Folder& folder, const std::string& output) {
    auto words = call_words(written(folder, small_forecast()));
    words[0] = "sky";
    return with(with(with(words, "--at", "05:55"), "--width", "128"), "--output", output);
}

std::string content_of(const std::filesystem::path& file) {
    std::stringstream text;
    text << std::ifstream(file, std::ios::binary).rdbuf();
    return text.str();
}

TEST(ProgramSky, PaintsAPictureAndSaysWhatItIs) {
    const Folder folder;
    const auto file = folder / "sky.png";
    const Outcome run = run_program(folder, sky_words(folder, file.string()));
    EXPECT_EQ(run.exit_code, 0) << run.err;
    EXPECT_THAT(run.out, HasSubstr("member 1"));
    EXPECT_THAT(run.out, HasSubstr("An illustration"));
    EXPECT_THAT(content_of(file), StartsWith("\x89PNG"));
    EXPECT_THAT(content_of(file), HasSubstr("An illustration"));
}

TEST(ProgramSky, PaintsThroughALensTheSameInEveryRun) {
    const Folder folder;
    const auto once = folder / "once.png";
    const auto again = folder / "again.png";
    for (const auto& file : {once, again}) {
        const auto words = with(with(sky_words(folder, file.string()), "--view", "35mm"), "--towards", "100");
        EXPECT_EQ(run_program(folder, words).exit_code, 0);
    }
    EXPECT_EQ(content_of(once), content_of(again));
}

TEST(ProgramSky, DrawsTheColoursByTheMinute) {
    const Folder folder;
    const auto file = folder / "strip.svg";
    auto words = call_words(written(folder, small_forecast()));
    words[0] = "sky";
    words.emplace_back("--strip");
    const Outcome run = run_program(folder, with(words, "--output", file.string()));
    EXPECT_EQ(run.exit_code, 0) << run.err;
    EXPECT_THAT(content_of(file), HasSubstr("<svg"));
}

/// One option of a picture with another value, and what the program must say.
struct BadSkyWord {
    const char* name;
    const char* option;
    const char* value;
    int exit_code;
    const char* named;
    const char* remedy;
};

class ProgramSkyOnBadWords : public ::testing::TestWithParam<BadSkyWord> {};

TEST_P(ProgramSkyOnBadWords, NamesThemAndTheRemedyAndWritesNothing) {
    const Folder folder;
    const auto file = folder / "sky.png";
    const Outcome run =
        run_program(folder, with(sky_words(folder, file.string()), GetParam().option, GetParam().value));
    EXPECT_EQ(run.exit_code, GetParam().exit_code);
    EXPECT_THAT(run.out, IsEmpty());
    EXPECT_THAT(run.err, HasSubstr(GetParam().named));
    EXPECT_THAT(run.err, HasSubstr(GetParam().remedy));
    EXPECT_FALSE(std::filesystem::exists(file));
}

INSTANTIATE_TEST_SUITE_P(
    , ProgramSkyOnBadWords,
    ::testing::Values(
        BadSkyWord{"lens_of_no_length", "--view", "0", 2, "--view", "8 to 800"},
        BadSkyWord{"lens_of_a_thousand_kilometres", "--view", "1e9", 2, "--view", "8 to 800"},
        BadSkyWord{"lens_not_a_number", "--view", "nan", 2, "--view", "8 to 800"},
        BadSkyWord{"lens_in_inches", "--view", "2in", 2, "'2in'", "24mm"},
        BadSkyWord{"bearing_without_a_lens", "--towards", "112", 2, "--towards", "--view"},
        BadSkyWord{"bearing_beyond_the_circle", "--towards", "400", 2, "400", "0 to 360"},
        BadSkyWord{"bearing_not_a_number", "--towards", "nan", 2, "--towards", "0 to 360"},
        BadSkyWord{"member_beyond_the_count", "--member", "3", 3, "no member 3", "1 to 2"},
        BadSkyWord{"member_nought", "--member", "0", 2, "no member 0", "from 1"},
        BadSkyWord{"member_beyond_all_numbers", "--member", "99999999999999", 2, "--member", "--help"},
        BadSkyWord{"time_that_the_forecast_does_not_serve", "--at", "06:40", 5, "does not serve",
                   "add a forecast step"},
        BadSkyWord{"time_of_another_event", "--at", "18:00", 5, "18:00 is not in this dawn",
                   "nearer the event"},
        BadSkyWord{"time_with_the_sun_far_down", "--at", "03:00", 5, "-18 to +20 deg", "nearer the event"},
        BadSkyWord{"time_that_no_clock_shows", "--at", "24:61", 2, "'24:61'", "06:31"},
        BadSkyWord{"time_in_words", "--at", "early", 2, "'early'", "06:31"},
        BadSkyWord{"instant_that_is_none", "--at", "2025-02-30T06:00:00Z", 2, "--at", "2025-01-29T"},
        BadSkyWord{"instant_of_the_dusk", "--at", "2025-01-29T17:00:00+01:00", 5, "not in this dawn", "--at"},
        BadSkyWord{"exposure_not_a_number", "--exposure", "nan", 2, "--exposure", "-8 to 20"},
        BadSkyWord{"exposure_of_another_world", "--exposure", "1e300", 2, "--exposure", "-8 to 20"},
        BadSkyWord{"width_of_one", "--width", "1", 2, "--width", "64 to 8000"},
        BadSkyWord{"width_of_a_wall", "--width", "100000", 2, "--width", "64 to 8000"},
        BadSkyWord{"depth_of_twelve", "--depth", "12", 2, "--depth", "8 or 16"},
        BadSkyWord{"output_without_a_folder", "--output", "/nowhere/sky.png", 2, "/nowhere/sky.png",
                   "folder exists"},
        BadSkyWord{"output_of_another_kind", "--output", "sky.jpg", 2, "'sky.jpg'", ".png"}),
    [](const auto& word) { return std::string(word.param.name); });

TEST(ProgramSky, WithoutATimeAsksForOne) {
    const Folder folder;
    auto words = call_words(written(folder, small_forecast()));
    words[0] = "sky";
    const Outcome run = run_program(folder, with(words, "--output", (folder / "sky.png").string()));
    EXPECT_EQ(run.exit_code, 2);
    EXPECT_THAT(run.err, HasSubstr("--at"));
    EXPECT_THAT(run.err, HasSubstr("--strip"));
}

}  // namespace
}  // namespace gloam
