// Dropping an input never narrows the range from p10 to p90: one synthetic run for the equator's dawn, with
// two steps, geopotential heights and all levels, of which one thing after the other is left out.
//
// The law is one of what is known of the input; strength answers to it in a curve. A forecast whose missing
// part would have held all the doubt can always be made up, so it is held on two skies: one whose doubt is
// where the cloud ends, one whose doubt is how high and how thick it is.
#include <gtest/gtest.h>

#include "support/equator_dawn.hpp"
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

INSTANTIATE_TEST_SUITE_P(, SyntheticDrop,
                         ::testing::Values(Sky{"high_canopy_with_an_edge",
                                               {{{350, 300, 250}, up_to_km(300, 1.0)}}},
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
