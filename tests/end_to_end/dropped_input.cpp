// Dropping an input never narrows the range from p10 to p90: one synthetic run for the equator's dawn, with
// two steps, geopotential heights and all levels, of which one thing after the other is left out; or cover on
// levels is replaced by what poorer forecasts hold.
//
// The law is one of what is known of the input; strength answers to it in a curve. A forecast whose missing
// part would have held all the doubt can always be made up, so it is held on two skies: one whose doubt is
// where the cloud ends, one whose doubt is how high and how thick it is.
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

class SyntheticDrop : public ::testing::TestWithParam<Sky> {
  protected:
    static double width(const DawnFile& file) {
        const auto spread = synthetic::look_out_on(synthetic::dawn_file(file, GetParam().decks)).after;
        return spread.p90 - spread.p10;
    }
};

TEST_P(SyntheticDrop, NeverNarrowsTheRange) {
    DawnFile one_step = kWhole;
    one_step.step_minutes = {synthetic::kTwilightOnly};
    DawnFile no_heights = one_step;
    no_heights.heights = false;
    DawnFile three_levels = no_heights;
    three_levels.levels_hpa = {850, 550, 300};
    DawnFile total_alone = no_heights;
    total_alone.levels_hpa = {};

    const double whole = width(kWhole);
    const double after_step = width(one_step);
    const double after_heights = width(no_heights);
    EXPECT_GE(after_step, whole) << "the second step";
    EXPECT_GE(after_heights, after_step) << "heights";
    EXPECT_GE(width(three_levels), after_heights) << "all levels but one a layer";
    EXPECT_GE(width(total_alone), after_heights) << "all levels";
}

TEST_P(SyntheticDrop, OfCoverForHumidityNeverNarrowsTheRange) {
    const DawnFile file{.step_minutes = {synthetic::kTwilightOnly}, .heights = true};
    const auto cover =
        weather::read_grib(synthetic::dawn_file(file, GetParam().decks), "synthetic.grib2").value();
    EXPECT_GE(width_of(as_humidity(cover)), width_of(cover));
}

INSTANTIATE_TEST_SUITE_P(, SyntheticDrop,
                         ::testing::Values(Sky{"high_canopy_with_an_edge",
                                               {{{350, 300, 250}, up_to_km(300, 1.0)}}},
                                           Sky{"half_high_cloud", {{{350, 300, 250}, everywhere(0.5)}}}),
                         [](const auto& sky) { return std::string(sky.param.name); });

/// Cover on levels replaced by what poorer forecasts hold. The canopy lies at its usual height: one that lies
/// elsewhere shifts the whole range where its height is not told, and no spread makes up for that.
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

INSTANTIATE_TEST_SUITE_P(, SyntheticReplacement,
                         ::testing::Values(Sky{"high_canopy_with_an_edge",
                                               {{{300, 250}, up_to_km(300, 1.0)}}},
                                           Sky{"half_high_cloud", {{{350, 300, 250}, everywhere(0.5)}}}),
                         [](const auto& sky) { return std::string(sky.param.name); });

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
