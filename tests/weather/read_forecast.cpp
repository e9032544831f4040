// Files of one run, joined.
#include <gmock/gmock.h>

#include <filesystem>

#include "weather/read.hpp"

namespace gloam::weather {
namespace {

using ::testing::HasSubstr;
namespace fs = std::filesystem;

/// A folder of its own for each test.
class ReadForecast : public ::testing::Test {
  protected:
    ReadForecast()
        : folder_(fs::path(::testing::TempDir()) /
                  (std::string("gloam_") + ::testing::UnitTest::GetInstance()->current_test_info()->name())) {
        fs::create_directories(folder_);
    }
    ~ReadForecast() override { fs::remove_all(folder_); }

    fs::path write(const std::string& name, const synthetic::SyntheticRun& run) const {
        synthetic::write_file(folder_ / name,
                              cover_on_levels(run, [](double, double, double) { return 0.5; }));
        return folder_ / name;
    }
    static Result<Forecast> read_files(std::vector<fs::path> files) { return read_forecast(files); }

    fs::path folder_;
};

const synthetic::SyntheticRun kSixHours{.grid = {.rows = 3, .columns = 3}, .levels_hpa = {850, 500, 300}};

TEST_F(ReadForecast, JoinsTheStepsOfARun) {
    auto nine_hours = kSixHours;
    nine_hours.step_minutes = 540;
    const auto forecast =
        read_files({write("f006.grib2", kSixHours), write("f009.grib2", nine_hours)}).value();
    EXPECT_EQ(forecast.messages, 6U);
    EXPECT_EQ(forecast.fields.size(), 6U);
    EXPECT_EQ(forecast.run_time, at("2025-01-29T00:00:00Z"));
    EXPECT_THAT(forecast.fields[4].origin.file, ::testing::EndsWith("/f009.grib2"));
    EXPECT_EQ(forecast.fields[4].origin.message, 2);
}

TEST_F(ReadForecast, RefusesFilesOfTwoRuns) {
    auto later_run = kSixHours;
    later_run.run_time = at("2025-01-29T06:00:00Z");
    const auto mixed = read_files({write("t00.grib2", kSixHours), write("t06.grib2", later_run)});
    ASSERT_FALSE(mixed);
    EXPECT_EQ(mixed.error().kind, ErrorKind::kBadInput);
    EXPECT_THAT(mixed.error().where, HasSubstr("t06.grib2"));
}

TEST_F(ReadForecast, RefusesWhatIsNoFile) {
    const auto missing = read_files({folder_ / "none.grib2"});
    ASSERT_FALSE(missing);
    EXPECT_EQ(missing.error().kind, ErrorKind::kNotFound);
    EXPECT_THAT(missing.error().where, HasSubstr("none.grib2"));
    const auto folder = read_files({folder_});
    ASSERT_FALSE(folder);
    EXPECT_EQ(folder.error().kind, ErrorKind::kUnreadable);
    const auto nothing = read_files({});
    ASSERT_FALSE(nothing);
    EXPECT_EQ(nothing.error().kind, ErrorKind::kBadInput);
}

}  // namespace
}  // namespace gloam::weather
