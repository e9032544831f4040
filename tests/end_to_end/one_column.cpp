// A forecast for one point beside the grid whose column it is: a synthetic front of high cloud that drifts
// over the equator's dawn.
#include <gmock/gmock.h>

#include "support/equator_dawn.hpp"

namespace gloam {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;

constexpr double kDrift_km_per_min = 15.0 * 60.0 / 1000.0;

/// A deck at 9 km that ends 150 km up-sun at sunrise and drifts at 15 m/s; an hour a step.
weather::LayeredForecast drifting_front(double away_from_sun) {
    return synthetic::layers_in(synthetic::dawn_file(
        {.step_minutes = {0, 60, 120, 180, 240, 300, 360, 420, 480, 540, 600, 660, 720},
         .levels_hpa = {850, 550, 300}},
        [away_from_sun](double along_km, double pressure_pa, int step_minutes) {
            const double edge_km =
                150.0 - away_from_sun * kDrift_km_per_min * static_cast<double>(step_minutes - 360);
            return pressure_pa == 300.0e2 && along_km <= edge_km ? 0.9 : 0.0;
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

outlook::EventOutlook outlook_of(const weather::LayeredForecast& forecast) {
    return look_out(synthetic::tables(), forecast, synthetic::equator_dawn()).value();
}

double width_of(const outlook::EventOutlook& outlook) {
    return outlook.after.p90 - outlook.after.p10;
}

class OneColumn : public ::testing::TestWithParam<double> {};

TEST_P(OneColumn, KnowsNoMoreThanItsGrid) {
    const auto grid = drifting_front(GetParam());
    const outlook::EventOutlook column = outlook_of(column_of(grid, {0.0, 0.0}));
    EXPECT_GE(width_of(column), width_of(outlook_of(grid)));
    EXPECT_THAT(column.missing, Contains(HasSubstr("the light path")));
}

INSTANTIATE_TEST_SUITE_P(, OneColumn, ::testing::Values(1.0, -1.0), [](const auto& away) {
    return std::string(away.param > 0.0 ? "a_front_that_comes_from_the_sun" : "a_front_that_goes_to_it");
});

}  // namespace
}  // namespace gloam
