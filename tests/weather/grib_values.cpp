// Values of synthetic messages: units, clamping, bitmaps, packings.
#include <eccodes.h>
#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>

#include "weather/read.hpp"

namespace gloam::weather {
namespace {

using synthetic::SyntheticMessage;
using ::testing::HasSubstr;

constexpr geo::LatLon kSpot{50.0, 0.0};

/// 40 % everywhere, but one value at one grid point.
synthetic::ValueAt with_one(double lat_deg, double lon_deg, std::optional<double> value) {
    return [=](double lat, double lon) {
        return lat == lat_deg && lon == lon_deg ? value : std::optional(40.0);
    };
}

TEST(SyntheticValues, PercentBecomesAFraction) {
    const Forecast forecast = read(message({}, with_one(50, 0, 75.0)));
    EXPECT_NEAR(value_of(forecast.fields.at(0), kSpot), 0.75, 1e-5);
    EXPECT_NEAR(value_of(forecast.fields.at(0), {51.0, 3.0}), 0.40, 1e-5);
    EXPECT_EQ(forecast.clamped_values, 0U);
}

TEST(SyntheticValues, AFractionStaysOne) {
    const Forecast forecast =
        read(message({.number = 32}, [](double, double) { return std::optional(0.75); }));
    EXPECT_NEAR(value_of(forecast.fields.at(0), kSpot), 0.75, 1e-5);
}

TEST(SyntheticValues, TheTotalOfEcmwfIsAFraction) {
    const SyntheticMessage total{.centre = 98, .process = 150, .number = 192, .level_type = 1};
    const Forecast forecast = read(message(total, [](double, double) { return std::optional(0.75); }));
    EXPECT_EQ(forecast.fields.at(0).level.kind, LevelKind::kWholeAtmosphere);
    EXPECT_NEAR(value_of(forecast.fields.at(0), kSpot), 0.75, 1e-5);
}

TEST(SyntheticValues, Edition1IsReadInPercentAndInFractions) {
    const Forecast percent =
        read(message({.edition = 1, .number = 71}, [](double, double) { return std::optional(75.0); }));
    EXPECT_NEAR(value_of(percent.fields.at(0), kSpot), 0.75, 1e-5);
    EXPECT_DOUBLE_EQ(percent.fields.at(0).level.pressure_pa, 500.0e2);
    const SyntheticMessage ecmwf{.edition = 1, .centre = 98, .process = 150, .number = 248, .table = 128};
    const Forecast fraction = read(message(ecmwf, [](double, double) { return std::optional(0.75); }));
    EXPECT_NEAR(value_of(fraction.fields.at(0), kSpot), 0.75, 1e-5);
}

TEST(SyntheticValues, GeopotentialBecomesAHeight) {
    const auto constant = [](double value) {
        return [value](double, double) { return std::optional(value); };
    };
    const Forecast height = read(message({.category = 3, .number = 5}, constant(5500.0)));
    const Forecast potential = read(message({.category = 3, .number = 4}, constant(5500.0 * 9.80665)));
    EXPECT_NEAR(value_of(height.fields.at(0), kSpot), 5500.0, 0.1);
    EXPECT_NEAR(value_of(potential.fields.at(0), kSpot), 5500.0, 0.1);
    EXPECT_EQ(height.fields.at(0).quantity, Quantity::kGeopotentialHeight);
}

TEST(SyntheticValues, ALittleOutsideIsClampedAndCounted) {
    const Forecast forecast = read(message({}, [](double lat, double lon) {
        return std::optional(lat == 50 && lon == 0 ? -1.0 : lat == 50 && lon == 1 ? 101.0 : 40.0);
    }));
    EXPECT_EQ(forecast.clamped_values, 2U);
    EXPECT_EQ(value_of(forecast.fields.at(0), {50.0, 0.0}), 0.0);
    EXPECT_EQ(value_of(forecast.fields.at(0), {50.0, 1.0}), 1.0);
}

class ImpossibleCover : public ::testing::TestWithParam<double> {};

TEST_P(ImpossibleCover, IsRefusedWithFileMessageFieldAndRemedy) {
    const synthetic::Bytes good = message({}, with_one(50, 0, 75.0));
    const synthetic::Bytes bad = message({.packing = "grid_ieee"}, with_one(50, 0, GetParam()));
    const Error error = refusal(synthetic::joined({good, bad}));
    EXPECT_EQ(error.kind, ErrorKind::kUnreadable);
    EXPECT_THAT(error.message, HasSubstr("cloud cover of"));
    EXPECT_EQ(error.where, "synthetic.grib2, message 2, cloud cover at 500 hPa");
    EXPECT_THAT(error.hint, HasSubstr("fetch it again"));
}

INSTANTIATE_TEST_SUITE_P(, ImpossibleCover,
                         ::testing::Values(140.0, 101.1, -1.1, -9998.0, 9.998e20,
                                           std::numeric_limits<double>::quiet_NaN(),
                                           std::numeric_limits<double>::infinity(),
                                           -std::numeric_limits<double>::infinity()));

class Sentinel : public ::testing::TestWithParam<double> {};

TEST_P(Sentinel, IsMaskedAndCountedWhereItCannotBeAValue) {
    const Forecast forecast = read(message({.packing = "grid_ieee"}, with_one(50, 0, GetParam())));
    EXPECT_EQ(forecast.sentinel_values, 1U);
    EXPECT_EQ(std::ranges::count(forecast.fields.at(0).present, 0), 1);
    EXPECT_FALSE(value_at(forecast.fields[0], kSpot));
    EXPECT_NEAR(value_of(forecast.fields[0], {51.0, 0.0}), 0.40, 1e-5);
}

INSTANTIATE_TEST_SUITE_P(, Sentinel, ::testing::Values(-9999.0, 9.999e20, 2147483647.0, -999.0, -500.0));

/// The same field in IEEE numbers of eight octets, which synthetic messages do not come in.
synthetic::Bytes in_64_bits(const synthetic::Bytes& bytes, std::size_t place, double value) {
    const std::unique_ptr<codes_handle, int (*)(codes_handle*)> handle(
        codes_handle_new_from_message_copy(nullptr, bytes.data(), bytes.size()), codes_handle_delete);
    std::vector<double> values(31 * 51, 40.0);
    values.at(place) = value;
    codes_set_long(handle.get(), "precision", 2);
    codes_set_double_array(handle.get(), "values", values.data(), values.size());
    const void* data = nullptr;
    std::size_t length = 0;
    codes_get_message(handle.get(), &data, &length);
    const auto* const first = static_cast<const std::byte*>(data);
    return {first, first + length};
}

TEST(SyntheticValues, TheSentinelOfTheDecoderItselfIsMaskedAndCounted) {
    const synthetic::Bytes short_numbers = message({.packing = "grid_ieee"}, with_one(50, 0, 41.0));
    const Forecast forecast = read(in_64_bits(short_numbers, 0, -1.0e100));
    EXPECT_EQ(forecast.sentinel_values, 1U);
    EXPECT_FALSE(value_at(forecast.fields.at(0), {60.0, -10.0}));
}

TEST(SyntheticValues, ABitmapIsNoSentinel) {
    EXPECT_EQ(read(message({}, with_one(50, 0, std::nullopt))).sentinel_values, 0U);
}

TEST(SyntheticValues, NoCloudLiesBelowTheDeadSeaButTheSurfaceOf1000HectopascalsMay) {
    const auto heights = [](double lat, double lon) {
        return std::optional(lat != 50 ? 700.0 : lon == 0 ? -500.0 : lon == 1 ? -999.0 : -440.0);
    };
    const Forecast cloud = read(message({.number = 26, .level_type = 1, .packing = "grid_ieee"}, heights));
    EXPECT_EQ(cloud.sentinel_values, 2U);
    EXPECT_FALSE(value_at(cloud.fields.at(0), {50.0, 0.0}));
    EXPECT_NEAR(value_of(cloud.fields[0], {50.0, 2.0}), -440.0, 1e-3);
    const Forecast surface =
        read(message({.category = 3, .number = 5, .pressure_pa = 1000.0e2, .packing = "grid_ieee"}, heights));
    EXPECT_EQ(surface.sentinel_values, 0U);
    EXPECT_NEAR(value_of(surface.fields.at(0), {50.0, 0.0}), -500.0, 1e-3);
}

/// Waves from 0 to `most`, 51 x 31 values of which hundreds differ.
synthetic::ValueAt waves_up_to(double most) {
    return [most](double lat, double lon) {
        return std::optional(most * (0.5 + 0.5 * std::sin(lat) * std::cos(lon)));
    };
}

TEST(SyntheticValues, PercentThatRunsFrom0To1InFineStepsIsSkippedForItMayBeAFraction) {
    const Forecast forecast = read(message({}, waves_up_to(1.0)));
    EXPECT_TRUE(forecast.fields.empty());
    EXPECT_THAT(forecast.skipped.at(0).reason, HasSubstr("run from 0 to 1 where its header says percent"));
}

TEST(SyntheticValues, PercentBeyond1IsPercent) {
    EXPECT_EQ(read(message({}, waves_up_to(1.1))).fields.size(), 1U);
}

TEST(SyntheticValues, HumidityInPercentThatRunsFrom0ToALittleOver1IsSkippedForItMayBeAFraction) {
    const SyntheticMessage humidity{.category = 1, .number = 1};
    for (const double most : {0.98, 1.2}) {
        const Forecast forecast = read(message(humidity, waves_up_to(most)));
        EXPECT_TRUE(forecast.fields.empty()) << most;
        EXPECT_THAT(forecast.skipped.at(0).reason,
                    HasSubstr("run from 0 to 1 where its header says percent"));
    }
    EXPECT_EQ(read(message(humidity, waves_up_to(1.3))).fields.size(), 1U);
}

TEST(SyntheticValues, HumidityOfSupersaturatedAirIsTaken_OfThreeTimesThatOfSaturationRefused) {
    const SyntheticMessage humidity{.category = 1, .number = 1};
    EXPECT_NEAR(value_of(read(message(humidity, with_one(50, 0, 160.0))).fields.at(0), kSpot), 1.6, 1e-4);
    EXPECT_THAT(refusal(message(humidity, with_one(50, 0, 301.0))).message,
                HasSubstr("a relative humidity of 301 % is impossible"));
}

TEST(SyntheticValues, PercentInCoarseStepsUpTo1IsPercent) {
    const auto coarse = [](double lat, double lon) {
        return std::optional(std::round(5.0 + 5.0 * std::sin(lat + lon)) / 10.0);
    };
    EXPECT_EQ(read(message({}, coarse)).fields.size(), 1U);
}

TEST(SyntheticValues, AWispOfLessThan1PercentInAClearSkyIsPercent) {
    const auto wisp = [](double lat, double lon) {
        return std::optional(std::exp(-std::hypot(lat - 45.0, lon - 15.0)));
    };
    EXPECT_EQ(read(message({}, wisp)).fields.size(), 1U);
}

TEST(SyntheticValues, FractionsFrom0To1AreFractions) {
    EXPECT_EQ(read(message({.number = 32}, waves_up_to(1.0))).fields.size(), 1U);
}

TEST(SyntheticValues, FractionsMistakenForPercentAreNoError_PercentMistakenForFractionsAre) {
    EXPECT_THAT(refusal(message({.number = 32}, with_one(50, 0, 75.0))).message, HasSubstr("4000 %"));
}

TEST(SyntheticValues, TheBitmapMasksAndNothingElse) {
    const Forecast forecast = read(message({}, with_one(50, 0, std::nullopt)));
    const Field& field = forecast.fields.at(0);
    EXPECT_FALSE(value_at(field, kSpot));
    EXPECT_FALSE(value_at(field, {50.4, 0.4}));
    EXPECT_NEAR(value_of(field, {51.0, 0.0}), 0.40,
                1e-5);  // on a point: its masked neighbour is not needed
    EXPECT_EQ(std::ranges::count(field.present, 0), 1);
}

TEST(SyntheticValues, AHeightOf9999IsAHeight) {
    const Forecast forecast = read(message({.category = 3, .number = 5},
                                           [](double lat, double) { return std::optional(9999.0 + lat); }));
    EXPECT_NEAR(value_of(forecast.fields.at(0), {40.0, 0.0}), 10039.0, 0.1);
}

class Packing : public ::testing::TestWithParam<const char*> {};

TEST_P(Packing, GivesTheSameValues) {
    const auto wave = [](double lat, double lon) { return std::optional(50.0 + lat / 4.0 + lon / 2.0); };
    const Forecast forecast = read(message({.packing = GetParam()}, wave));
    ASSERT_EQ(forecast.fields.size(), 1U);
    for (const geo::LatLon spot : {geo::LatLon{45.0, 10.0}, {60.0, -10.0}, {30.0, 40.0}}) {
        EXPECT_NEAR(value_of(forecast.fields[0], spot), *wave(spot.lat_deg, spot.lon_deg) / 100.0, 1e-4);
    }
}

INSTANTIATE_TEST_SUITE_P(, Packing,
                         ::testing::Values("grid_simple", "grid_ieee", "grid_ccsds", "grid_jpeg", "grid_png",
                                           "grid_complex", "grid_complex_spatial_differencing"));

TEST(SyntheticValues, APackingThatIsNotUsedIsSkippedWithItsReason) {
    const Forecast forecast = read(message({.packing = "grid_simple_log_preprocessing"},
                                           [](double lat, double) { return std::optional(lat); }));
    EXPECT_TRUE(forecast.fields.empty());
    ASSERT_EQ(forecast.skipped.size(), 1U);
    EXPECT_THAT(forecast.skipped[0].reason, HasSubstr("packing 5.61"));
}

}  // namespace
}  // namespace gloam::weather
