// Dropping an input never narrows the range from p10 to p90: one synthetic run for the equator's dawn, with
// two steps, geopotential heights and all levels, of which one thing after the other is left out; or cover on
// levels is replaced by what poorer forecasts hold.
//
// The law is one of what is known of the input, and there it is exact: no member is displaced less, no height
// better known. Strength answers to it in a curve, and p10 and p90 of 31 members are one member each, so on
// any one sky the range may also narrow (docs/forecast.md has the figures). It is held on skies that
// have ten points of doubt and more, and those where the dropped input would tell: high cloud that ends too
// far up-sun to be lit unless it ends nearer or lies higher than told, and high cloud that ends near enough,
// whose doubt is its height and the haze.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "support/equator_dawn.hpp"
#include "weather/humidity_cover.hpp"
#include "weather/light_path.hpp"

namespace gloam {
namespace {

using synthetic::DawnFile;
using synthetic::Deck;
using synthetic::everywhere;
using synthetic::up_to_km;

const DawnFile kWhole{.step_minutes = {synthetic::kTwilightOnly, synthetic::kTwilightOnly + 120},
                      .heights = true,
                      .total = true};

struct Sky {
    const char* name;
    std::vector<Deck> decks;
};

/// Low, middle and high cloud where a forecast has levels: the greatest cover of each band.
weather::Forecast by_layer(const weather::Forecast& levels) {
    weather::Forecast layers = levels;
    layers.fields.clear();
    std::map<std::pair<Instant, weather::Band>, weather::Field> greatest;
    for (const weather::Field& field : levels.fields) {
        if (field.level.kind != weather::LevelKind::kPressure ||
            field.quantity != weather::Quantity::kCloudCover) {
            continue;
        }
        const auto band = weather::band_of(field.level.pressure_pa);
        auto& layer = greatest.try_emplace({field.to, band}, field).first->second;
        layer.level = {.kind = weather::LevelKind::kCloudLayer, .band = band};
        std::ranges::transform(layer.values, field.values, layer.values.begin(),
                               [](float a, float b) { return std::max(a, b); });
    }
    for (auto& [key, layer] : greatest) {
        layers.fields.push_back(std::move(layer));
    }
    return layers;
}

/// The humidity that stands for the cover of each level.
weather::Forecast as_humidity(weather::Forecast levels) {
    for (weather::Field& field : levels.fields) {
        if (field.level.kind == weather::LevelKind::kPressure &&
            field.quantity == weather::Quantity::kCloudCover) {
            const double deficit = 1.0 - weather::critical_humidity(field.level.pressure_pa);
            field.quantity = weather::Quantity::kRelativeHumidity;
            for (float& value : field.values) {
                value = static_cast<float>(1.0 - std::pow(1.0 - static_cast<double>(value), 2) * deficit);
            }
        }
    }
    return levels;
}

/// Every field as the mean over the hours from the run to three past its time: the sky is steady.
weather::Forecast averaged(weather::Forecast forecast) {
    for (weather::Field& field : forecast.fields) {
        field.time_kind = weather::TimeKind::kAverage;
        field.from = forecast.run_time;
        field.to += std::chrono::hours(3);
    }
    return forecast;
}

double width_of(const weather::Forecast& forecast) {
    const auto layers = weather::layers_of(forecast).value();
    const auto spread = synthetic::outlook_of(layers).after;
    return spread.p90 - spread.p10;
}

const std::vector<double> kLevelsOfHigh_hpa{350, 300, 250};
const Sky kCanopyFar{"high_canopy_that_ends_far_off", {{kLevelsOfHigh_hpa, up_to_km(600, 1.0)}}};
const Sky kHalfFar{"half_high_cloud_that_ends_far_off", {{kLevelsOfHigh_hpa, up_to_km(600, 0.5)}}};
const Sky kCanopyNear{"high_canopy_that_ends_near", {{kLevelsOfHigh_hpa, up_to_km(300, 1.0)}}};
const Sky kHalfNear{"half_high_cloud_that_ends_near", {{kLevelsOfHigh_hpa, up_to_km(300, 0.5)}}};
const Sky kThinNear{"a_fifth_of_high_cloud_that_ends_near", {{kLevelsOfHigh_hpa, up_to_km(200, 0.2)}}};

const auto kNameOfSky = [](const auto& sky) { return std::string(sky.param.name); };

double width_on(const DawnFile& file, const Sky& sky) {
    const auto spread = synthetic::look_out_on(synthetic::dawn_file(file, sky.decks)).after;
    return spread.p90 - spread.p10;
}

DawnFile with_one_step() {
    DawnFile one_step = kWhole;
    one_step.step_minutes = {synthetic::kTwilightOnly};
    return one_step;
}

/// A steady sky's second step tells no more than that members need not be displaced for the half hour: where
/// cloud ends must be all the doubt.
class SyntheticDropOfAStep : public ::testing::TestWithParam<Sky> {};

TEST_P(SyntheticDropOfAStep, NeverNarrowsTheRange) {
    EXPECT_GE(width_on(with_one_step(), GetParam()), width_on(kWhole, GetParam()));
}

INSTANTIATE_TEST_SUITE_P(, SyntheticDropOfAStep, ::testing::Values(kCanopyFar, kHalfFar), kNameOfSky);

class SyntheticDrop : public ::testing::TestWithParam<Sky> {};

TEST_P(SyntheticDrop, OfHeightsAndLevelsNeverNarrowsTheRange) {
    DawnFile no_heights = with_one_step();
    no_heights.heights = false;
    DawnFile three_levels = no_heights;
    three_levels.levels_hpa = {850, 550, 300};
    DawnFile total_alone = no_heights;
    total_alone.levels_hpa = {};

    const double after_heights = width_on(no_heights, GetParam());
    EXPECT_GE(after_heights, width_on(with_one_step(), GetParam())) << "heights";
    EXPECT_GE(width_on(three_levels, GetParam()), after_heights) << "all levels but one a layer";
    EXPECT_GE(width_on(total_alone, GetParam()), after_heights) << "all levels";
}

INSTANTIATE_TEST_SUITE_P(, SyntheticDrop, ::testing::Values(kCanopyFar, kHalfFar, kCanopyNear, kHalfNear),
                         kNameOfSky);

/// Not half cover that ends near: strength levels off with cover, so that to doubt it takes more from the top
/// of the range than from its foot.
class SyntheticHumidity : public ::testing::TestWithParam<Sky> {};

TEST_P(SyntheticHumidity, InPlaceOfCoverNeverNarrowsTheRange) {
    const DawnFile file{.step_minutes = {synthetic::kTwilightOnly}, .heights = true};
    const auto cover =
        weather::read_grib(synthetic::dawn_file(file, GetParam().decks), "synthetic.grib2").value();
    EXPECT_GE(width_of(as_humidity(cover)), width_of(cover));
}

INSTANTIATE_TEST_SUITE_P(, SyntheticHumidity, ::testing::Values(kCanopyFar, kHalfFar, kCanopyNear, kThinNear),
                         kNameOfSky);

/// Cover on levels replaced by what poorer forecasts hold. The canopy lies near its usual height: one that
/// lies elsewhere shifts the whole range where its height is not told, and no spread makes up for that.
class SyntheticReplacement : public ::testing::TestWithParam<Sky> {
  protected:
    static weather::Forecast levels() {
        const DawnFile file{.step_minutes = {synthetic::kTwilightOnly}};
        return weather::read_grib(synthetic::dawn_file(file, GetParam().decks), "synthetic.grib2").value();
    }
};

TEST_P(SyntheticReplacement, OfLevelsByLayersAndTheseByAveragesNeverNarrowsTheRange) {
    const double layers_width = width_of(by_layer(levels()));
    EXPECT_GE(layers_width, width_of(levels())) << "layers";
    EXPECT_GE(width_of(averaged(by_layer(levels()))), layers_width) << "averages";
}

const std::vector<double> kLevelsOfUsualHigh_hpa{300, 250};

INSTANTIATE_TEST_SUITE_P(
    , SyntheticReplacement,
    ::testing::Values(Sky{kCanopyFar.name, {{kLevelsOfUsualHigh_hpa, up_to_km(600, 1.0)}}},
                      Sky{kHalfFar.name, {{kLevelsOfUsualHigh_hpa, up_to_km(600, 0.5)}}}),
    kNameOfSky);

/// Half-width of what is unknown of a layer's height, by band.
std::array<double, 3> unknown_m(const DawnFile& file) {
    const std::vector<Deck> decks{{synthetic::kUsualLevels_hpa, everywhere(0.5)}};
    const auto layers = synthetic::layers_in(synthetic::dawn_file(file, decks));
    const auto path = sample_light_path(layers, 0, {0.0, 0.0}, Azimuth::degrees(90),
                                        synthetic::equator_dawn().run_time + std::chrono::minutes(300), {})
                          .value();
    return {path[0].base_spread_m, path[1].base_spread_m, path[2].base_spread_m};
}

void expect_no_better_known(const std::array<double, 3>& before, const std::array<double, 3>& after) {
    for (const weather::Band band : weather::kBands) {
        EXPECT_GE(after[weather::index_of(band)], before[weather::index_of(band)]) << name_of(band);
    }
}

TEST(SyntheticDropOfHeights, LeavesEveryLayersHeightLessKnown) {
    DawnFile no_heights = kWhole;
    no_heights.heights = false;
    expect_no_better_known(unknown_m(kWhole), unknown_m(no_heights));
}

TEST(SyntheticDropOfLevels, LeavesEveryLayersHeightNoBetterKnown) {
    DawnFile every_other = kWhole;
    every_other.levels_hpa = {200, 300, 400, 500, 600, 700, 800, 900, 1000};
    DawnFile one_a_layer = kWhole;
    one_a_layer.levels_hpa = {850, 550, 300};
    expect_no_better_known(unknown_m(kWhole), unknown_m(every_other));
    expect_no_better_known(unknown_m(every_other), unknown_m(one_a_layer));
}

}  // namespace
}  // namespace gloam
