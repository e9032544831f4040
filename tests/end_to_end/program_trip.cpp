// The built program and its journal: trips go in, come out, and are forgotten.
#include <gmock/gmock.h>

#include <fmt/format.h>

#include <iterator>

#include "run_program.hpp"
#include "small_forecast.hpp"
#include "support/full_trip.hpp"

namespace gloam {
namespace {

using test::Folder;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

/// "gloam trip ..." with a journal of the folder's own.
Outcome trip(const Folder& folder, std::vector<std::string> words) {
    words.insert(words.begin(), "trip");
    words.insert(words.end(), {"--journal", (folder / "journal.sqlite").string()});
    return run_program(folder, std::move(words));
}

/// The invented trip with an end that has not come: the program's clock is the computer's.
std::string trip_to_come() {
    std::string text(test::kFullTrip);
    text.replace(text.find("2025-02-01"), 10, "9999-02-01");
    return text;
}

Outcome import_full_trip(const Folder& folder) {
    return trip(folder, {"import", folder.with("week.toml", trip_to_come()).string()});
}

TEST(ProgramTrip, ComesOutAsItWentIn) {
    const Folder folder;
    const Outcome in = import_full_trip(folder);
    EXPECT_EQ(in.exit_code, 0) << in.err;
    EXPECT_THAT(in.out,
                AllOf(HasSubstr("Invented week, 2025-01-25 to 9999-02-01"), HasSubstr("2 guests by name"),
                      HasSubstr("note of 2025-01-12: The third step is missing")));
    const Outcome out = trip(folder, {"export", "Invented week"});
    EXPECT_EQ(out.exit_code, 0);
    const auto again = folder.with("again.toml", out.out);
    EXPECT_EQ(trip(folder, {"import", again.string()}).exit_code, 0);
    EXPECT_EQ(trip(folder, {"export", "Invented week"}).out, out.out);
    EXPECT_THAT(out.out, HasSubstr("never_in_the_dark = true"));
}

TEST(ProgramTrip, IsListedAndShown) {
    const Folder folder;
    import_full_trip(folder);
    EXPECT_EQ(trip(folder, {"list"}).out, "Invented week, 2025-01-25 to 9999-02-01: 1 place, 0 calls\n");
    EXPECT_THAT(
        trip(folder, {"show", "Invented week"}).out,
        HasSubstr("Salt Steps, 37.0700 N 15.2900 E: 1 stand, drive 30 min, walk 1.2 km with 60 m of climb"));
}

TEST(ProgramTrip, TakesPlacesFromGpxAndGivesThem) {
    const Folder folder;
    const auto gpx =
        folder.with("points.gpx",
                    "<gpx><wpt lat=\"37.1\" lon=\"15.2\"><name>Far Rock</name></wpt><wpt lat=\"x\"/></gpx>");
    import_full_trip(folder);
    const Outcome in = trip(folder, {"import", gpx.string(), "--into", "Invented week"});
    EXPECT_EQ(in.exit_code, 0) << in.err;
    EXPECT_THAT(in.out, AllOf(HasSubstr("1 place new"), HasSubstr("1 point left out")));
    const Outcome out =
        trip(folder, {"export", "Invented week", "--gpx", "-o", (folder / "out.gpx").string()});
    EXPECT_EQ(out.out, (folder / "out.gpx").string() + "\n");
    std::ifstream file(folder / "out.gpx");
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    EXPECT_THAT(text, AllOf(HasSubstr("Far Rock"), HasSubstr("Salt Steps / Lower step")));
}

TEST(ProgramTrip, MakesATripOfAGpxFileByItsName) {
    const Folder folder;
    const auto gpx =
        folder.with("recce.gpx", "<gpx><wpt lat=\"37.1\" lon=\"15.2\"><name>Far Rock</name></wpt></gpx>");
    trip(folder, {"import", gpx.string()});
    EXPECT_EQ(trip(folder, {"list"}).out, "recce, no days: 1 place, 0 calls\n");
}

TEST(ProgramTrip, TakesAWalkFromATrack) {
    const Folder folder;
    import_full_trip(folder);
    const auto gpx =
        folder.with("way.gpx",
                    "<gpx><trk><name>cliff path</name><trkseg><trkpt lat=\"37.06\" lon=\"15.29\"/>"
                    "<trkpt lat=\"37.07\" lon=\"15.29\"/></trkseg></trk></gpx>");
    const Outcome in =
        trip(folder, {"import", gpx.string(), "--into", "Invented week", "--place", "Salt Steps"});
    EXPECT_THAT(in.out, HasSubstr("1 walk"));
    EXPECT_THAT(trip(folder, {"export", "Invented week"}).out,
                HasSubstr("name = \"cliff path\"\ndistance_m = 1110"));
}

TEST(ProgramTrip, TellsOfTripsThatShareItsDays) {
    const Folder folder;
    import_full_trip(folder);
    const Outcome other = trip(folder, {"import", (folder / "week.toml").string(), "--into", "Second group"});
    EXPECT_THAT(other.out, HasSubstr("It shares days with Invented week: name the trip in every command."));
}

TEST(ProgramTrip, IsForgottenWhenAsked) {
    const Folder folder;
    import_full_trip(folder);
    EXPECT_EQ(trip(folder, {"forget", "Invented week"}).out, "The guests are forgotten; the calls stay.\n");
    EXPECT_THAT(trip(folder, {"export", "Invented week"}).out, Not(HasSubstr("Guest One")));
    EXPECT_THAT(trip(folder, {"list"}).out, HasSubstr("guests forgotten"));
}

TEST(ProgramTrip, ThatEndedIsForgottenUnasked) {
    const Folder folder;
    trip(folder, {"import", folder.with("old.toml", test::kFullTrip).string()});
    EXPECT_THAT(trip(folder, {"export", "Invented week"}).out, Not(HasSubstr("Guest One")));
}

TEST(ProgramTrip, IsNotForgottenByALookAsOfADayToCome) {
    const Folder folder;
    import_full_trip(folder);
    auto words =
        with(with(call_words("none.grib2"), "--trip", "Invented week"), "--as-of", "9999-12-31T00:00:00Z");
    words[0] = "evening";
    words.insert(words.end(), {"--journal", (folder / "journal.sqlite").string()});
    EXPECT_THAT(run_program(folder, words).err, HasSubstr("none.grib2"));
    EXPECT_THAT(trip(folder, {"export", "Invented week"}).out, HasSubstr("Guest One"));
}

TEST(ProgramTrip, NamesPlacesForACall) {
    const Folder folder;
    trip(folder,
         {"import", folder
                        .with("t.toml",
                              "[trip]\nname = \"At sea\"\n[[place]]\nname = \"Buoy\"\nlat = 0\nlon = 0\n"
                              "zone = \"Africa/Abidjan\"\n")
                        .string()});
    std::vector<std::string> words = call_words(written(folder, small_forecast()));
    words = with(with(std::move(words), "--trip", "At sea"), "--place", "Buoy");
    words.insert(words.end(), {"--journal", (folder / "journal.sqlite").string()});
    const Outcome run = run_program(folder, words);
    EXPECT_EQ(run.exit_code, 0) << run.err;
    EXPECT_THAT(run.out, HasSubstr("Buoy"));
}

TEST(ProgramTrip, LiesInTheUsualJournalWhereNoneIsNamed) {
    const Folder folder;
    const auto toml = folder.with("week.toml", "[trip]\nname = \"Bare\"\n").string();
    const Environment data_home{"XDG_DATA_HOME=" + (folder / "data").string()};
    EXPECT_EQ(run_program(folder, {"trip", "import", toml}, data_home).exit_code, 0);
    EXPECT_TRUE(std::filesystem::exists(folder / "data/gloam/journal.sqlite"));
    EXPECT_EQ(run_program(folder, {"trip", "import", toml}).exit_code, 0);
    EXPECT_TRUE(std::filesystem::exists(folder / ".local/share/gloam/journal.sqlite"));
}

TEST(ProgramTrip, NeedsSomewhereToKeepAJournal) {
    const Folder folder;
    const Outcome run = run_program(folder, {"trip", "list"}, Environment{"HOME="});
    EXPECT_EQ(run.exit_code, 3);
    EXPECT_THAT(run.err, HasSubstr("give --journal FILE"));
}

/// Words that must be refused, with what and which exit code.
struct BadTripWords {
    const char* name;
    std::vector<std::string> words;
    int exit_code;
    const char* message;
};

void PrintTo(const BadTripWords& bad, std::ostream* stream) {
    *stream << bad.name;
}

class ProgramTripOnBadWords : public ::testing::TestWithParam<BadTripWords> {};

TEST_P(ProgramTripOnBadWords, SaysWhatIsWrong) {
    const Folder folder;
    import_full_trip(folder);
    const Outcome run = trip(folder, GetParam().words);
    EXPECT_EQ(run.exit_code, GetParam().exit_code);
    EXPECT_THAT(run.out, IsEmpty());
    EXPECT_THAT(run.err, HasSubstr(GetParam().message));
}

INSTANTIATE_TEST_SUITE_P(
    , ProgramTripOnBadWords,
    ::testing::Values(
        BadTripWords{"no_such_file", {"import", "none.toml"}, 3, "there is no such file"},
        BadTripWords{"no_such_gpx", {"import", "none.gpx"}, 3, "there is no such file"},
        BadTripWords{"gpx_of_undefined_coordinates",
                     {"import", GLOAM_SOURCE_DIR "/data/gpx/bad_undefined_coordinates.gpx"},
                     4,
                     "none of its 5 points has coordinates"},
        BadTripWords{"gpx_of_a_track_alone",
                     {"import", GLOAM_SOURCE_DIR "/data/gpx/etrex10_track.gpx"},
                     2,
                     "give --place"},
        BadTripWords{"gpx_into_no_such_place",
                     {"import", GLOAM_SOURCE_DIR "/data/gpx/bom_no_encoding.gpx", "--into", "Invented week",
                      "--place", "Nowhere"},
                     3,
                     "no place 'Nowhere'"},
        BadTripWords{"trip_file_into_a_place",
                     {"import", GLOAM_SOURCE_DIR "/data/demo/ionian.toml", "--place", "Salt Steps"},
                     2,
                     "only a GPX file"},
        BadTripWords{"no_such_trip", {"show", "Nowhere"}, 3, "no trip 'Nowhere'"},
        BadTripWords{"no_such_trip_to_forget", {"forget", "Nowhere"}, 3, "no trip 'Nowhere'"},
        BadTripWords{
            "output_nowhere", {"export", "Invented week", "-o", "/nowhere/x.toml"}, 2, "cannot be written"},
        BadTripWords{"no_subcommand", {}, 2, "subcommand"}),
    [](const auto& bad) { return std::string(bad.param.name); });

TEST(ProgramTripWithoutAJournal, TellsHowToBeginOne) {
    const Folder folder;
    for (const char* word : {"list", "show"}) {
        const Outcome run =
            run_program(folder, word == std::string("list") ? std::vector<std::string>{"trip", "list"}
                                                            : std::vector<std::string>{"trip", "show", "x"});
        EXPECT_EQ(run.exit_code, 3);
        EXPECT_THAT(run.err, HasSubstr("gloam trip import FILE begins one"));
    }
}

TEST(ProgramTripOnAFileThatIsNoJournal, LeavesItAlone) {
    const Folder folder;
    folder.with("journal.sqlite", "Dear diary, today the sky was red.");
    EXPECT_EQ(trip(folder, {"list"}).exit_code, 4);
    EXPECT_THAT(trip(folder, {"list"}).err, HasSubstr("is no journal"));
    EXPECT_EQ(std::filesystem::file_size(folder / "journal.sqlite"), 34U);
}

TEST(ProgramTripWhereNothingCanBeWritten, IsRefused) {
    const Folder folder;
    const auto toml = folder.with("week.toml", "[trip]\nname = \"Bare\"\n").string();
    const Outcome run =
        run_program(folder, {"trip", "import", toml, "--journal", "/proc/gloam/journal.sqlite"});
    EXPECT_EQ(run.exit_code, 9);
    EXPECT_THAT(run.err, HasSubstr("cannot be opened or written"));
}

}  // namespace
}  // namespace gloam
