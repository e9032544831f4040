// Real files of other conventions: which layers they hold, where, and by which route.
#include <gmock/gmock.h>

#include <algorithm>

#include "weather/column.hpp"
#include "weather/read.hpp"

namespace gloam::weather {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;

Forecast stored(const char* name) {
    const std::vector<std::filesystem::path> files{std::filesystem::path(GLOAM_SOURCE_DIR "/data/weather") /
                                                   name};
    return read_forecast(files).value();
}

const Field& only(const Forecast& forecast, LevelKind kind, Band band) {
    const auto is_it = [=](const Field& field) {
        return field.level.kind == kind && field.level.band == band;
    };
    EXPECT_EQ(std::ranges::count_if(forecast.fields, is_it), 1);
    return *std::ranges::find_if(forecast.fields, is_it);
}

TEST(RealCfs, TheLayersOfEdition1AreToldApartByNcepsLevelTypes) {
    const Forecast cfs = stored("cfs-global-t62-2006033100-f024-cloud-subset.grib1");
    for (const Band band : kBands) {
        const Field& field = only(cfs, LevelKind::kCloudLayer, band);
        EXPECT_EQ(field.time_kind, TimeKind::kAverage);
        EXPECT_EQ(field.from, at("2006-03-31T18:00:00Z"));
        EXPECT_EQ(field.to, at("2006-04-01T00:00:00Z"));
        EXPECT_TRUE(std::holds_alternative<GaussianGrid>(field.grid));
        EXPECT_EQ(only(cfs, LevelKind::kCloudBase, band).quantity, Quantity::kPressure);
        EXPECT_EQ(only(cfs, LevelKind::kCloudTop, band).quantity, Quantity::kPressure);
    }
}

TEST(RealCfs, ItsLayersAreMeansAndLieAtThePressuresItGives) {
    const auto layered = layers_of(stored("cfs-global-t62-2006033100-f024-cloud-subset.grib1")).value();
    EXPECT_EQ(layered.route, LayerRoute::kAveragedLayers);
    EXPECT_FALSE(layered.usual_heights);
    EXPECT_TRUE(layered.heights_from_standard_atmosphere);
    const auto column = column_at(layered, 0, {43.0, -92.5}, at("2006-03-31T23:30:00Z")).value();
    EXPECT_LT(column[0].base_m, column[0].top_m);
    EXPECT_LT(column[0].top_m, column[2].base_m);
}

TEST(RealIfs, TheTotalIsAFractionOnAGridThatStartsAt180) {
    const Forecast ifs = stored("ifs-global-0p25deg-2026031000-f000-tcc.grib2");
    ASSERT_EQ(ifs.fields.size(), 1U);
    const Field& total = ifs.fields[0];
    EXPECT_EQ(total.level.kind, LevelKind::kWholeAtmosphere);
    EXPECT_DOUBLE_EQ(regular(total).first.lon_deg, -180.0);
    EXPECT_TRUE(regular(total).wraps);
    EXPECT_GT(*std::ranges::max_element(total.values), 0.99F);
    const auto overcast = std::ranges::count_if(total.values, [](float cover) { return cover > 0.5F; });
    EXPECT_GT(overcast, static_cast<std::ptrdiff_t>(total.values.size()) / 3);  // of the Earth, as ever
    EXPECT_EQ(layers_of(ifs).value().route, LayerRoute::kTotalOnly);
}

TEST(RealGfs2011, HumidityAtTheInstantIsTakenBeforeMeansOfTheLayers) {
    const Forecast gfs = stored("gfs-global-2p5deg-2011100800-f072-cloud-subset.grib2");
    EXPECT_EQ(only(gfs, LevelKind::kCloudLayer, Band::kLow).time_kind, TimeKind::kAverage);
    const auto layered = layers_of(gfs).value();
    EXPECT_EQ(layered.route, LayerRoute::kHumidityOnLevels);
    EXPECT_FALSE(layered.heights_from_standard_atmosphere);
    EXPECT_THAT(layered.notes, Contains(HasSubstr("5 fields of cover over a span of time")));
}

TEST(RealGfs2011, TheMeansOfIowaAreThoseOfThatEvening) {
    Forecast gfs = stored("gfs-global-2p5deg-2011100800-f072-cloud-subset.grib2");
    std::erase_if(gfs.fields,
                  [](const Field& field) { return field.quantity == Quantity::kRelativeHumidity; });
    const auto layered = layers_of(gfs).value();
    ASSERT_EQ(layered.route, LayerRoute::kAveragedLayers);
    const auto column = column_at(layered, 0, {42.5, -92.5}, at("2011-10-10T23:36:00Z")).value();
    EXPECT_NEAR(column[0].cover, 0.00, 0.005);  // read off the file with ecCodes' grib_get -l
    EXPECT_NEAR(column[1].cover, 0.87, 0.005);
    EXPECT_NEAR(column[2].cover, 0.80, 0.005);
}

TEST(RealWrf, HumidityOnALambertGridGivesLayersInsideTheModelOnly) {
    const auto layered = layers_of(stored("wrf-conus-40km-2005080700-f012-rh-profile.grib1")).value();
    EXPECT_EQ(layered.route, LayerRoute::kHumidityOnLevels);
    EXPECT_TRUE(std::holds_alternative<ProjectedGrid>(layered.grid));
    EXPECT_TRUE(column_at(layered, 0, {39.7, -105.0}, at("2005-08-07T12:00:00Z")));
    const auto outside = column_at(layered, 0, {56.0, -70.0}, at("2005-08-07T12:00:00Z"));
    ASSERT_FALSE(outside);
    EXPECT_EQ(outside.error().kind, ErrorKind::kIncomplete);
}

}  // namespace
}  // namespace gloam::weather
