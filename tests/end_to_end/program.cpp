// The built program on a synthetic forecast: what it prints, writes and returns.
#include <gmock/gmock.h>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "run_program.hpp"
#include "small_forecast.hpp"

namespace gloam {
namespace {

using test::Folder;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::StartsWith;

std::vector<std::string> plus(std::vector<std::string> words, const std::string& flag) {
    words.push_back(flag);
    return words;
}

std::string content_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

TEST(Program, HelpsWithCommandsAndExitCodes) {
    const Folder folder;
    const Outcome run = run_program(folder, {"--help"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_THAT(run.err, IsEmpty());
    EXPECT_THAT(run.out, HasSubstr("call"));
    EXPECT_THAT(run.out, HasSubstr("look"));
    EXPECT_THAT(run.out, HasSubstr("section"));
    EXPECT_THAT(run.out, HasSubstr("Exit codes"));
}

TEST(Program, LooksIntoAFile) {
    const Folder folder;
    const Outcome run = run_program(
        folder, {"look", GLOAM_SOURCE_DIR "/data/weather/ncv-conus-5km-200711210135-visibility.grib2"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_THAT(run.err, IsEmpty());
    EXPECT_THAT(run.out, HasSubstr("visibility at the surface"));
}

TEST(Program, LooksAtNothingThatIsNotThere) {
    const Folder folder;
    const Outcome run = run_program(folder, {"look", "none.grib2"});
    EXPECT_EQ(run.exit_code, 3);
    EXPECT_THAT(run.out, IsEmpty());
    EXPECT_THAT(run.err, HasSubstr("there is no such file"));
}

TEST(Program, HelpsWithEveryOptionOfACall) {
    const Folder folder;
    const Outcome run = run_program(folder, {"call", "--help"});
    EXPECT_EQ(run.exit_code, 0);
    for (const char* option : {"--place", "--date", "--event", "--forecast", "--trip", "--zone", "--class",
                               "--starts", "--as-of", "--config", "--json", "--explain"}) {
        EXPECT_THAT(run.out, HasSubstr(option));
    }
}

TEST(Program, TellsItsVersion) {
    const Folder folder;
    const Outcome run = run_program(folder, {"--version"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_THAT(run.out, StartsWith("gloam "));
}

TEST(Program, AnswersInWordsWithExitCodeZero) {
    const Folder folder;
    const Outcome run = run_program(folder, call_words(written(folder, small_forecast())));
    EXPECT_EQ(run.exit_code, 0) << run.err;
    EXPECT_THAT(run.err, IsEmpty());
    EXPECT_THAT(run.out, StartsWith("Dawn of Thu 20 Mar 2025, "));
    EXPECT_THAT(run.out, HasSubstr("GO. Get them up."));
}

TEST(Program, AnswersStayWithExitCodeZeroToo) {
    const Folder folder;
    const Outcome run =
        run_program(folder, with(call_words(written(folder, small_forecast())), "--starts", "0"));
    EXPECT_EQ(run.exit_code, 0) << run.err;
    EXPECT_THAT(run.out, HasSubstr("STAY."));
}

TEST(Program, SaysTheSameInWordsAndInJson) {
    const Folder folder;
    const auto words = call_words(written(folder, small_forecast()));
    const std::string text = run_program(folder, words).out;
    const auto json = nlohmann::json::parse(run_program(folder, plus(words, "--json")).out);
    EXPECT_EQ(json["call"], "go");
    EXPECT_THAT(text, HasSubstr("GO."));
    EXPECT_THAT(text, HasSubstr(fmt::format("({:.0f} %)", 100.0 * json["odds"]["good"].get<double>())));
    EXPECT_THAT(text, HasSubstr(fmt::format("go above {:.0f} %", 100.0 * json["threshold"].get<double>())));
    EXPECT_THAT(text,
                HasSubstr(fmt::format("{:.0f} of 100", json["strength"]["after"]["median"].get<double>())));
    EXPECT_THAT(text, HasSubstr(json["reasons"][0]["text"].get<std::string>().substr(0, 40)));
    EXPECT_THAT(text, HasSubstr(fmt::format("{} members", json["members"].get<int>())));
    EXPECT_THAT(text, HasSubstr(fmt::format("({} deg)", json["window"]["azimuth_deg"].get<double>())));
}

TEST(Program, PrintsTheSameBytesEveryTime) {
    const Folder folder;
    const auto words = plus(call_words(written(folder, small_forecast())), "--json");
    EXPECT_EQ(run_program(folder, words).out, run_program(folder, words).out);
}

TEST(Program, ExplainsItself) {
    const Folder folder;
    const Outcome run = run_program(folder, plus(call_words(written(folder, small_forecast())), "--explain"));
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_THAT(run.out, HasSubstr("How this came about"));
    EXPECT_THAT(run.out, HasSubstr("6 messages, 0 not used"));
}

nlohmann::json with_trip_of_nine_starts(const Folder& folder, const std::string& event, int step_minutes) {
    const auto trip = folder.with("trip.toml", "[trip]\nname = \"x\"\n[group]\nstarts_for_one = 9\n");
    const auto bytes =
        synthetic::dawn_file({.step_minutes = {step_minutes}, .levels_hpa = {850, 550, 300}, .members = 2},
                             std::vector<synthetic::Deck>{});
    const auto words =
        with(with(call_words(written(folder, bytes)), "--trip", trip.string()), "--event", event);
    return nlohmann::json::parse(run_program(folder, plus(words, "--json")).out);
}

TEST(Program, TakesTwoStartsForADawnWhereNobodySaid) {
    const Folder folder;
    const auto words = plus(call_words(written(folder, small_forecast())), "--json");
    EXPECT_EQ(nlohmann::json::parse(run_program(folder, words).out)["starts_for_one"], 2.0);
}

TEST(Program, TakesTheTripsStartsForADawn) {
    const Folder folder;
    EXPECT_EQ(with_trip_of_nine_starts(folder, "dawn", synthetic::kTwilightOnly)["starts_for_one"], 9.0);
}

TEST(Program, TakesSixStartsForADuskForWhichNobodyHasToGetUp) {
    const Folder folder;
    EXPECT_EQ(with_trip_of_nine_starts(folder, "dusk", 18 * 60 + 60)["starts_for_one"], 6.0);
}

TEST(Program, ReadsItsSettings) {
    const Folder folder;
    folder.with(".config/gloam/config.toml", "class = \"outstanding\"\n");
    const auto words = plus(call_words(written(folder, small_forecast())), "--json");
    EXPECT_EQ(nlohmann::json::parse(run_program(folder, words).out)["class"], "outstanding");
}

TEST(Program, PrefersTheSettingsOfXdg) {
    const Folder folder;
    folder.with(".config/gloam/config.toml", "class = \"outstanding\"\n");
    folder.with("xdg/gloam/config.toml", "class = \"slight\"\n");
    const auto words = plus(call_words(written(folder, small_forecast())), "--json");
    const Outcome run = run_program(
        folder, words, {"HOME=" + (folder / "").string(), "XDG_CONFIG_HOME=" + (folder / "xdg").string()});
    EXPECT_EQ(nlohmann::json::parse(run.out)["class"], "slight");
}

TEST(Program, SaysThatItReadNoSettingsWhereThereIsNoHome) {
    const Folder folder;
    const Outcome run = run_program(folder, call_words(written(folder, small_forecast())), {});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_THAT(run.out, HasSubstr("no settings read"));
}

std::vector<std::string> section_words(const Folder& folder, const std::string& output) {
    auto words = call_words(written(folder, small_forecast()));
    words[0] = "section";
    return with(words, "--output", output);
}

TEST(ProgramSection, WritesAnSvgDrawing) {
    const Folder folder;
    const auto file = folder / "cut.svg";
    const Outcome run = run_program(folder, section_words(folder, file.string()));
    EXPECT_EQ(run.exit_code, 0) << run.err;
    EXPECT_THAT(run.out, StartsWith(file.string() + "\n"));
    EXPECT_THAT(content_of(file), HasSubstr("<svg"));
    EXPECT_THAT(content_of(file), HasSubstr("</svg>"));
}

TEST(ProgramSection, WritesAPngPicture) {
    const Folder folder;
    const auto file = folder / "cut.png";
    EXPECT_EQ(run_program(folder, section_words(folder, file.string())).exit_code, 0);
    EXPECT_THAT(content_of(file), StartsWith("\x89PNG\r\n"));
}

TEST(ProgramSection, RefusesAnotherKindOfPicture) {
    const Folder folder;
    const auto file = folder / "cut.jpg";
    const Outcome run = run_program(folder, section_words(folder, file.string()));
    EXPECT_EQ(run.exit_code, 2);
    EXPECT_THAT(run.out, IsEmpty());
    EXPECT_THAT(run.err, HasSubstr("end the name in .svg or .png"));
    EXPECT_FALSE(std::filesystem::exists(file));
}

TEST(ProgramSection, RefusesAWidthThatNoScreenHas) {
    const Folder folder;
    const auto file = folder / "cut.svg";
    const Outcome run = run_program(folder, with(section_words(folder, file.string()), "--width", "1e9"));
    EXPECT_NE(run.exit_code, 0);
    EXPECT_THAT(run.out, IsEmpty());
    EXPECT_FALSE(std::filesystem::exists(file));
}

TEST(ProgramSection, LeavesNoFileWhereItCannotDraw) {
    const Folder folder;
    const auto file = folder / "cut.svg";
    const Outcome run =
        run_program(folder, with(section_words(folder, file.string()), "--date", "2025-03-25"));
    EXPECT_EQ(run.exit_code, 5);
    EXPECT_FALSE(std::filesystem::exists(file));
}

TEST(ProgramSection, ThatCannotBeWrittenSaysSo) {
    const Folder folder;
    const Outcome run = run_program(folder, section_words(folder, (folder / "none/cut.svg").string()));
    EXPECT_EQ(run.exit_code, 2);
    EXPECT_THAT(run.out, IsEmpty());
    EXPECT_THAT(run.err, HasSubstr("cut.svg"));
}

}  // namespace
}  // namespace gloam
