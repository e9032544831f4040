// Reading only what is wanted of synthetic files, and files that nobody can read.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <sys/stat.h>

#include "support/folder.hpp"
#include "weather/read.hpp"
#include "weather/survey.hpp"

namespace gloam::weather {
namespace {

using std::chrono::minutes;
using synthetic::Bytes;
using test::Folder;
using ::testing::HasSubstr;

Bytes steps_of_a_day() {
    Bytes all;
    for (int hour = 0; hour <= 24; hour += 3) {
        all = synthetic::joined({all, message({.from = minutes(60 * hour), .to = minutes(60 * hour)},
                                              [](double lat, double) { return std::optional(lat); })});
    }
    return all;
}

TEST(SyntheticWanted, OnlyWhatHoldsWithinSixHoursOfTheSpanIsDecoded) {
    Wanted wanted;
    wanted.span = {at("2025-01-29T12:00:00Z"), at("2025-01-29T13:00:00Z")};
    const Forecast forecast = read_grib(steps_of_a_day(), "day.grib2", wanted).value();
    ASSERT_EQ(forecast.fields.size(), 5U);  // 06 to 18 UTC
    EXPECT_EQ(forecast.fields.front().to, at("2025-01-29T06:00:00Z"));
    EXPECT_EQ(forecast.fields.back().to, at("2025-01-29T18:00:00Z"));
    EXPECT_EQ(forecast.passed_over.fields, 4U);
    EXPECT_EQ(forecast.passed_over.first, at("2025-01-29T00:00:00Z"));
    EXPECT_EQ(forecast.passed_over.last, at("2025-01-30T00:00:00Z"));
}

TEST(SyntheticWanted, OtherQuantitiesArePassedOver) {
    Wanted wanted;
    wanted.quantities = {Quantity::kVisibility};
    const Forecast forecast = read_grib(steps_of_a_day(), "day.grib2", wanted).value();
    EXPECT_TRUE(forecast.fields.empty());
    EXPECT_EQ(forecast.passed_over.fields, 9U);
}

TEST(SyntheticWanted, AValueThatCannotBeDoesNoHarmInAFieldThatIsNotWanted) {
    const Bytes day =
        synthetic::joined({steps_of_a_day(), message({.from = minutes(48 * 60), .to = minutes(48 * 60)},
                                                     [](double, double) { return std::optional(140.0); })});
    EXPECT_FALSE(read_grib(day, "day.grib2"));
    Wanted wanted;
    wanted.span = {at("2025-01-29T06:00:00Z"), at("2025-01-29T06:00:00Z")};
    EXPECT_TRUE(read_grib(day, "day.grib2", wanted));
}

TEST(SyntheticWanted, ThePartRoundAPlaceHasTheValuesOfTheWhole) {
    const Bytes bytes = message({}, [](double lat, double lon) { return std::optional(lat + lon / 5.0); });
    Wanted wanted;
    wanted.round = {{45.0, 10.0}, 300.0e3};
    const Field whole = read(bytes).fields.at(0);
    const Field part = read_grib(bytes, "one.grib2", wanted).value().fields.at(0);
    EXPECT_LT(part.values.size(), whole.values.size() / 4);
    for (const geo::LatLon place : {geo::LatLon{45.0, 10.0}, {46.3, 8.9}, {43.1, 11.7}}) {
        EXPECT_NEAR(value_of(part, place), value_of(whole, place), 1e-6);
    }
}

TEST(SyntheticFiles, OneFileAMemberIsTakenInOrderAndSaid) {
    const Folder folder;
    std::vector<std::filesystem::path> files;
    for (const double percent : {10.0, 60.0, 90.0}) {
        files.push_back(folder / fmt::format("run-{:g}.grib2", percent));
        synthetic::write_file(files.back(),
                              message({}, [percent](double, double) { return std::optional(percent); }));
    }
    const Forecast forecast = read_forecast(files).value();
    ASSERT_EQ(forecast.fields.size(), 3U);
    EXPECT_EQ(forecast.fields[0].member, 1);
    EXPECT_EQ(forecast.fields[2].member, 3);
    ASSERT_EQ(forecast.notes.size(), 1U);
    EXPECT_THAT(forecast.notes[0], HasSubstr("taken as 3 members in the order given"));
}

TEST(SyntheticFiles, FilesOfOneNameInSeveralFoldersAreMembersToo) {
    const Folder folder;
    std::vector<std::filesystem::path> files;
    for (const double percent : {10.0, 60.0}) {
        const auto inside = folder / fmt::format("member-{:g}", percent);
        std::filesystem::create_directories(inside);
        files.push_back(inside / "f024.grib2");
        synthetic::write_file(files.back(),
                              message({}, [percent](double, double) { return std::optional(percent); }));
    }
    EXPECT_EQ(read_forecast(files).value().fields.at(1).member, 2);
}

TEST(SyntheticFiles, AFileThatIsGivenTwiceIsNoEnsemble) {
    const Folder folder;
    const auto file = folder / "run.grib2";
    synthetic::write_file(
        file, cover_on_levels({.levels_hpa = {850, 500, 300}}, [](double, double, double) { return 0.5; }));
    const std::vector<std::filesystem::path> files{file, file};
    const Forecast forecast = read_forecast(files).value();
    EXPECT_EQ(forecast.fields.at(5).member, std::nullopt);
    EXPECT_EQ(layers_of(forecast).value().members.size(), 1U);
}

TEST(SyntheticFiles, AFieldThatIsInSomeFilesTwiceMakesNoMembers) {
    const Folder folder;
    const auto cover = [](double, double) { return std::optional(50.0); };
    const Bytes low = message({.pressure_pa = 850e2}, cover);
    const Bytes high = message({.pressure_pa = 300e2}, cover);
    const std::vector<std::filesystem::path> files{folder / "a.grib2", folder / "b.grib2"};
    synthetic::write_file(files[0], synthetic::joined({low, high}));
    synthetic::write_file(files[1], low);
    const Forecast forecast = read_forecast(files).value();
    for (const Field& field : forecast.fields) {
        EXPECT_EQ(field.member, std::nullopt);
    }
}

TEST(SyntheticFiles, APipeIsRefusedAndNotWaitedFor) {
    const Folder folder;
    const auto pipe = folder / "pipe";
    ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
    const std::vector<std::filesystem::path> files{pipe};
    const auto refused = read_forecast(files);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::kUnreadable);
    EXPECT_THAT(refused.error().message, HasSubstr("pipe"));
}

TEST(SyntheticFiles, WhatIsNoForecastBesideOneIsSkippedWithTheReason) {
    const Folder folder;
    const auto good = folder / "good.grib2";
    synthetic::write_file(good, message({}, [](double, double) { return std::optional(50.0); }));
    const std::vector<std::filesystem::path> files{folder.with("side.nc", "CDF\x02 and so on"), good};
    const Forecast forecast = read_forecast(files).value();
    EXPECT_EQ(forecast.fields.size(), 1U);
    ASSERT_EQ(forecast.skipped.size(), 1U);
    EXPECT_THAT(forecast.skipped[0].reason, HasSubstr("netCDF"));
}

TEST(SyntheticFiles, NetCdfAloneIsNoForecast) {
    const Folder folder;
    const std::vector<std::filesystem::path> files{folder.with("only.nc", "CDF\x02 and so on")};
    const auto refused = read_forecast(files);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, ErrorKind::kUnsupported);
    EXPECT_THAT(refused.error().hint, HasSubstr("netCDF"));
}

TEST(SyntheticSurvey, GroupsWhatDiffersInLevelTimeAndMember) {
    const Folder folder;
    const auto file = folder / "run.grib2";
    synthetic::write_file(
        file, cover_on_levels({.levels_hpa = {300, 500, 850}},
                              [](double, double, double pressure_pa) { return pressure_pa / 100000.0; }));
    const std::vector<std::filesystem::path> files{file};
    const Survey found = survey(files, std::nullopt);
    ASSERT_EQ(found.runs.size(), 1U);
    ASSERT_EQ(found.runs[0].groups.size(), 1U);
    const FieldGroup& group = found.runs[0].groups[0];
    EXPECT_EQ(group.levels.size(), 3U);
    EXPECT_NEAR(group.range->first, 0.3, 1e-4);
    EXPECT_NEAR(group.range->second, 0.85, 1e-4);
    EXPECT_LT(found.runs[0].forecast.fields[0].values.size(), 10U);  // the middle is all that is kept
}

TEST(SyntheticSurvey, SeveralRunsAreToldApartAndADamagedFileDoesNotHideTheOthers) {
    const Folder folder;
    const std::vector<std::filesystem::path> files{
        folder / "old.grib2", folder.with("bad.grib2", "GRIB, says it"), folder / "new.grib2"};
    const auto cover = [](double, double) { return std::optional(50.0); };
    synthetic::write_file(files[0], message({}, cover));
    synthetic::write_file(files[2], message({.run_time = at("2025-01-29T06:00:00Z")}, cover));
    const Survey found = survey(files, std::nullopt);
    EXPECT_EQ(found.runs.size(), 2U);
    ASSERT_EQ(found.files.size(), 3U);
    EXPECT_FALSE(found.files[0].error);
    ASSERT_TRUE(found.files[1].error);
    EXPECT_EQ(found.files[1].error->kind, ErrorKind::kUnreadable);
    EXPECT_FALSE(found.files[2].error);
}

}  // namespace
}  // namespace gloam::weather
