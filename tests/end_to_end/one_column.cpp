// A forecast for one point beside the grid whose column it is: synthetic decks of high cloud over the
// equator's dawn.
#include <gmock/gmock.h>

#include "support/equator_dawn.hpp"

namespace gloam {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;

constexpr double kDrift_km_per_min = 15.0 * 60.0 / 1000.0;

/// A sky over the equator: a deck of high cloud whose edge stands some way up-sun at sunrise and drifts.
struct Sky {
    const char* name;
    double edge_km;
    double drift_away;  ///< from the sun, in units of 15 m/s; 0 keeps the edge where it is
    double cover_before = 0.9;
    double cover_beyond = 0.0;
};

/// An hour a step.
weather::LayeredForecast deck_of(const Sky& sky) {
    return synthetic::layers_in(synthetic::dawn_file(
        {.step_minutes = {0, 60, 120, 180, 240, 300, 360, 420, 480, 540, 600, 660, 720},
         .levels_hpa = {850, 550, 300}},
        [sky](double along_km, double pressure_pa, int step_minutes) {
            const double edge_km =
                sky.edge_km - sky.drift_away * kDrift_km_per_min * static_cast<double>(step_minutes - 360);
            const double cover = along_km <= edge_km ? sky.cover_before : sky.cover_beyond;
            return pressure_pa == 300.0e2 ? cover : 0.0;
        }));
}

/// The same forecast with the column of one place alone.
weather::LayeredForecast column_of(weather::LayeredForecast forecast, geo::LatLon place) {
    const std::size_t cell = weights_at(forecast.grid, place)->cell[0];
    for (weather::LayerStep& step : forecast.members[0].steps) {
        step.present = {step.present[cell]};
        for (weather::LayerField& layer : step.bands) {
            layer = {
                {layer.cover[cell]}, {layer.base_m[cell]}, {layer.top_m[cell]}, {layer.base_slab_m[cell]}};
        }
    }
    forecast.grid = weather::PointGrid{place};
    return forecast;
}

double width_of(const outlook::EventOutlook& outlook) {
    return outlook.after.p90 - outlook.after.p10;
}

class OneColumn : public ::testing::TestWithParam<Sky> {};

TEST_P(OneColumn, KnowsNoMoreThanItsGrid) {
    const auto grid = deck_of(GetParam());
    const outlook::EventOutlook column = synthetic::outlook_of(column_of(grid, {0.0, 0.0}));
    EXPECT_GE(width_of(column), width_of(synthetic::outlook_of(grid)));
    EXPECT_THAT(column.missing, Contains(HasSubstr("the light path")));
}

INSTANTIATE_TEST_SUITE_P(, OneColumn,
                         ::testing::Values(Sky{"a_front_that_comes_from_150_km_up_sun", 150.0, 1.0},
                                           Sky{"a_front_that_goes_up_sun_150_km_off", 150.0, -1.0},
                                           Sky{"a_front_that_comes_from_600_km_up_sun", 600.0, 1.0},
                                           Sky{"half_cover_everywhere", 0.0, 0.0, 0.5, 0.5},
                                           Sky{"a_deck_everywhere", 0.0, 0.0, 1.0, 1.0},
                                           Sky{"no_cloud_but_a_bank_200_km_up_sun", 200.0, 0.0, 0.0, 1.0}),
                         [](const auto& sky) { return std::string(sky.param.name); });

/// Skies whose own grid cannot tell: its range is as wide as strength itself. The column's is not wider, for
/// half its members shut the path: its p90 is about the 80 % point of the open ones.
class OneColumnNearTheBrink : public ::testing::TestWithParam<Sky> {};

TEST_P(OneColumnNearTheBrink, ReachesFromNothingToTheMedianOfTheDeckInTheOpen) {
    const outlook::EventOutlook column = synthetic::outlook_of(column_of(deck_of(GetParam()), {0.0, 0.0}));
    const outlook::EventOutlook open = synthetic::outlook_of(deck_of({"in_the_open", 150.0, 0.0}));
    EXPECT_LT(column.after.p10, outlook::class_limit(outlook::OutcomeClass::kSlight));
    EXPECT_GT(column.after.p90, open.after.median);
}

INSTANTIATE_TEST_SUITE_P(, OneColumnNearTheBrink,
                         ::testing::Values(Sky{"a_front_that_comes_from_300_km_up_sun", 300.0, 1.0},
                                           Sky{"a_front_that_goes_up_sun_300_km_off", 300.0, -1.0},
                                           Sky{"an_edge_that_stands_300_km_up_sun", 300.0, 0.0}),
                         [](const auto& sky) { return std::string(sky.param.name); });

}  // namespace
}  // namespace gloam
