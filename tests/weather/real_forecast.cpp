// A real GFS file: its traps, and its values against the library's own command-line tool.
#include <gmock/gmock.h>

#include <algorithm>
#include <fstream>
#include <random>
#include <sstream>

#include "base/text_table.hpp"
#include "weather/column.hpp"
#include "weather/grib/octets.hpp"
#include "weather/leaks_of_eccodes.hpp"
#include "weather/light_path.hpp"
#include "weather/read.hpp"

namespace gloam::weather {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;

constexpr const char* kFile =
    GLOAM_SOURCE_DIR "/data/weather/gfs-global-1deg-2025012900-f006-tcdc-profile.grib2";
constexpr const char* kReference = GLOAM_SOURCE_DIR "/tests/reference/weather/gfs_2025012900_f006.csv";
const Instant kSix = parse_rfc3339("2025-01-29T06:00:00Z").value();

const Forecast& gfs() {
    static const Forecast kForecast = [] {
        const std::vector<std::filesystem::path> files{kFile};
        return read_forecast(files).value();
    }();
    return kForecast;
}

const LayeredForecast& gfs_layers() {
    static const LayeredForecast kLayers = layers_of(gfs()).value();
    return kLayers;
}

std::size_t count_of(LevelKind level, TimeKind time) {
    return static_cast<std::size_t>(std::ranges::count_if(gfs().fields, [&](const Field& field) {
        return field.level.kind == level && field.time_kind == time;
    }));
}

TEST(RealForecast, IsNcepGfsOf29January2025) {
    EXPECT_EQ(gfs().source, "NCEP GFS");
    EXPECT_EQ(gfs().run_time, parse_rfc3339("2025-01-29T00:00:00Z").value());
    EXPECT_EQ(gfs().messages, 26U);
    EXPECT_TRUE(gfs().skipped.empty());
    EXPECT_EQ(gfs().clamped_values, 0U);
}

TEST(RealForecast, CoversOfTheSameShortNameAreToldApart) {
    EXPECT_EQ(count_of(LevelKind::kPressure, TimeKind::kInstant), 22U);
    EXPECT_EQ(count_of(LevelKind::kWholeAtmosphere, TimeKind::kInstant), 1U);
    EXPECT_EQ(count_of(LevelKind::kWholeAtmosphere, TimeKind::kAverage), 1U);
    EXPECT_EQ(count_of(LevelKind::kConvective, TimeKind::kInstant), 1U);
    EXPECT_EQ(count_of(LevelKind::kBoundaryLayer, TimeKind::kAverage), 1U);
}

TEST(RealForecast, ItsValuesAreThoseOfTheLibrarysOwnTool) {
    std::stringstream text;
    text << std::ifstream(kReference).rdbuf();
    const TextTable table = parse_text_table(text.str(), ',', kReference).value();
    const auto message = table.numbers("message").value();
    const auto lat_deg = table.numbers("lat_deg").value();
    const auto lon_deg = table.numbers("lon_deg").value();
    const auto percent = table.numbers("cover_percent").value();
    ASSERT_GE(message.size(), 20U);
    for (std::size_t i = 0; i < message.size(); ++i) {
        const Field& field = gfs().fields.at(static_cast<std::size_t>(message[i]) - 1);
        EXPECT_NEAR(100.0 * value_of(field, {lat_deg[i], lon_deg[i]}), percent[i], 1e-4)
            << name_of(field) << " " << lat_deg[i] << " " << lon_deg[i];
    }
}

TEST(RealForecast, DamageToItsFirstMessageIsSurvived) {  // complex packing with spatial differences
    std::ifstream stream(kFile, std::ios::binary);
    synthetic::Bytes whole(std::filesystem::file_size(kFile));
    stream.read(reinterpret_cast<char*>(whole.data()), static_cast<std::streamsize>(whole.size()));
    const auto length = static_cast<std::ptrdiff_t>(big_endian(whole, 8, 8));
    const synthetic::Bytes first(whole.begin(), whole.begin() + length);
    std::mt19937 random(26);
    int refused = 0;
    for (int flip = 0; flip < 500; ++flip) {
        synthetic::Bytes bytes = first;
        bytes[random() % std::min<std::size_t>(first.size(), 400)] ^=
            static_cast<std::byte>(1 + random() % 255);
        const LeaksOfEccodes tolerated;
        refused += read_grib(bytes, "damaged.grib2") ? 0 : 1;
    }
    EXPECT_GT(refused, 50);
}

TEST(RealForecast, TheAveragedTotalIsNotTheOneAtSix) {
    const auto& fields = gfs().fields;
    EXPECT_NEAR(value_of(fields[22], {37, 15}), 1.0, 1e-6);
    EXPECT_NEAR(value_of(fields[23], {37, 15}), 0.174, 1e-6);
    EXPECT_EQ(hours_between(fields[23].from, fields[23].to), 6.0);
}

TEST(RealForecast, ItsLayersComeFromLevelsAndTheStandardAtmosphere) {
    EXPECT_EQ(gfs_layers().route, LayerRoute::kCoverOnLevels);
    EXPECT_TRUE(gfs_layers().heights_from_standard_atmosphere);
    EXPECT_THAT(gfs_layers().notes, Contains(HasSubstr("2 fields of cover over a span of time")));
    EXPECT_THAT(gfs_layers().notes, Contains(HasSubstr("2 fields of total, convective, boundary-layer")));
}

TEST(RealForecast, BledLiesUnderLowCloudAndTheAdriaticUnderHigh) {
    const auto bled = column_at(gfs_layers(), 0, {46.0, 14.0}, kSix).value();
    EXPECT_NEAR(bled[index_of(Band::kLow)].cover, 0.997, 1e-4);  // 800 hPa, message 16
    EXPECT_LT(bled[index_of(Band::kHigh)].cover, 0.01);
    const auto adriatic = column_at(gfs_layers(), 0, {43.0, 14.0}, kSix).value();
    EXPECT_NEAR(adriatic[index_of(Band::kHigh)].cover, 0.919, 1e-4);  // 350 hPa, message 7
    EXPECT_NEAR(adriatic[index_of(Band::kLow)].cover, 0.0, 1e-4);
}

TEST(RealForecast, TheLightPathOfSiracusaIsOpen) {
    const auto path =
        sample_light_path(gfs_layers(), 0, {37.07, 15.29}, Azimuth::degrees(112), kSix, {}).value();
    for (const LightPathLayer& layer : path) {
        for (std::size_t point = 45; point < LightPathGrid::kPoints; ++point) {  // from 75 km onwards
            EXPECT_LT(layer.cover[2][point], 0.08F);
        }
    }
    const LightPathLayer& high = path[index_of(Band::kHigh)];
    EXPECT_GT(high.cover[2][30], 0.5F);
    EXPECT_GT(high.base_m, 7.2e3);  // not below the lower limit of its lowest slab, 375 hPa
    EXPECT_LT(high.top_m, 12.0e3);
}

}  // namespace
}  // namespace gloam::weather
