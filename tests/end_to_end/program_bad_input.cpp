// Words that make no sense, given to the built program: each is a message that names what is wrong and what
// to do.
#include <gmock/gmock.h>

#include "run_program.hpp"
#include "small_forecast.hpp"

namespace gloam {
namespace {

using test::Folder;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

/// One option of a call with another value, and what the program must say.
struct BadWord {
    const char* name;
    const char* option;
    const char* value;
    int exit_code;
    const char* named;  ///< where or what
    const char* remedy;
};

class ProgramOnBadWords : public ::testing::TestWithParam<BadWord> {};

TEST_P(ProgramOnBadWords, NamesThemAndTheRemedyAndPrintsNothingElse) {
    const Folder folder;
    const auto words =
        with(call_words(written(folder, small_forecast())), GetParam().option, GetParam().value);
    const Outcome run = run_program(folder, words);
    EXPECT_EQ(run.exit_code, GetParam().exit_code);
    EXPECT_THAT(run.out, IsEmpty());
    EXPECT_THAT(run.err, HasSubstr(GetParam().named));
    EXPECT_THAT(run.err, HasSubstr(GetParam().remedy));
}

INSTANTIATE_TEST_SUITE_P(
    , ProgramOnBadWords,
    ::testing::Values(
        BadWord{"place_in_words", "--place", "home", 2, "--place", "--trip"},
        BadWord{"place_beyond_the_pole", "--place", "95,10", 2, "95", "--place"},
        BadWord{"place_not_a_number", "--place", "nan,10", 2, "--place", "lat"},
        BadWord{"place_that_the_file_does_not_cover", "--place", "30,0", 5, "does not cover the place",
                "give a forecast"},
        BadWord{"hour_that_the_file_does_not_serve", "--event", "dusk", 5, "does not serve 2025-03-20T17",
                "add a forecast step"},
        BadWord{"date_outside_the_run", "--date", "2025-03-22", 5, "does not serve 2025-03-22",
                "add a forecast step"},
        BadWord{"date_that_does_not_exist", "--date", "2025-02-29", 2, "2025-02-29", "date"},
        BadWord{"event_at_noon", "--event", "noon", 2, "--event", "dawn or dusk"},
        BadWord{"unknown_zone", "--zone", "Europe/Roma", 3, "Europe/Roma", "Europe/Rome"},
        BadWord{"unknown_class", "--class", "great", 2, "--class", "slight, fair, good or outstanding"},
        BadWord{"starts_below_none", "--starts", "-1", 2, "starts_for_one", "0 to 100"},
        BadWord{"starts_not_a_number", "--starts", "nan", 2, "starts_for_one", "0 to 100"},
        BadWord{"as_of_in_words", "--as-of", "yesterday", 2, "yesterday", "2025-01-29T"},
        BadWord{"unknown_option", "--colour", "red", 2, "--colour", "--help"},
        BadWord{"missing_trip", "--trip", "/nowhere/trip.toml", 3, "/nowhere/trip.toml", "check the path"},
        BadWord{"missing_settings", "--config", "/nowhere/config.toml", 3, "/nowhere/config.toml",
                "check the path"},
        BadWord{"missing_forecast", "--forecast", "/nowhere/run.grib2", 3, "/nowhere/run.grib2",
                "check the name"},
        BadWord{"folder_as_forecast", "--forecast", "/", 4, "/", "file"}),
    [](const auto& word) { return std::string(word.param.name); });

TEST(ProgramOnBadInput, RefusesThePoleInJune) {
    const Folder folder;
    const Outcome run = run_program(
        folder,
        with(with(call_words(written(folder, small_forecast())), "--place", "90,0"), "--date", "2025-06-21"));
    EXPECT_EQ(run.exit_code, 3);
    EXPECT_THAT(run.out, IsEmpty());
    EXPECT_THAT(run.err, HasSubstr("the sun stays up"));
    EXPECT_THAT(run.err, HasSubstr("choose another date"));
}

TEST(ProgramOnBadInput, NamesTheWrongKeyOfATripFile) {
    const Folder folder;
    const auto trip = folder.with("trip.toml", "[trip]\nname = \"x\"\nzonne = \"Europe/Rome\"\n");
    const Outcome run =
        run_program(folder, with(call_words(written(folder, small_forecast())), "--trip", trip.string()));
    EXPECT_EQ(run.exit_code, 2);
    EXPECT_THAT(run.out, IsEmpty());
    EXPECT_THAT(run.err, HasSubstr("trip.toml, line 3"));
    EXPECT_THAT(run.err, HasSubstr("'zonne'"));
    EXPECT_THAT(run.err, HasSubstr("known keys"));
}

TEST(ProgramOnBadInput, RefusesToDoNothing) {
    const Folder folder;
    const Outcome run = run_program(folder, {});
    EXPECT_EQ(run.exit_code, 2);
    EXPECT_THAT(run.out, IsEmpty());
    EXPECT_THAT(run.err, HasSubstr("--help"));
}

TEST(ProgramOnBadInput, AsksForTheWordsThatAreNotThere) {
    const Folder folder;
    const Outcome run = run_program(folder, {"call", "--place", "0,0"});
    EXPECT_EQ(run.exit_code, 2);
    EXPECT_THAT(run.out, IsEmpty());
    EXPECT_THAT(run.err, HasSubstr("required"));
}

}  // namespace
}  // namespace gloam
