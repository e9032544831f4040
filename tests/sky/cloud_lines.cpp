#include "sky/cloud_lines.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "sky/random_sky.hpp"

namespace gloam::sky {
namespace {

using Grid = geo::LightPathGrid;

TEST(CloudLines, GiveTheProbabilitiesOfCloudField) {
    test::RandomSkies draw(11);
    const ColumnTable& columns = test::tables().columns;
    for (int i = 0; i < 30; ++i) {
        const auto layers = draw.three_layers();
        const CloudField field(layers);
        const CloudLines lines(layers);
        const double zenith_rad = test::zenith_rad(draw.even(-9.0, 10.0));
        const double height_m = draw.even(50.0, 30.0e3);
        FreeLines free;
        lines.free_lines(columns, height_m, draw.even(5.0e3, 400.0e3), zenith_rad, free);
        for (std::size_t place = 0; place < free.places; ++place) {
            const auto along_m = static_cast<double>(free.along_m(place));
            const double apparent_rad =
                columns.apparent_zenith_rad(height_m, zenith_rad - along_m / 6371.0e3);
            for (std::size_t line = 0; line < Grid::kLines; ++line) {
                const double aside_m = Grid::kFirstAside_m + Grid::kLineSpacing_m * static_cast<double>(line);
                EXPECT_NEAR(std::exp(static_cast<double>(free.ln_free[place][line])),
                            field.sun_free({along_m, aside_m, height_m}, apparent_rad), 2e-3);
            }
        }
    }
}

TEST(CloudLines, PlacesCrowdOverheadAndReachBothWays) {
    FreeLines free;
    CloudLines({}).free_lines(test::tables().columns, 9000.0, 160.0e3, test::zenith_rad(-2.0), free);
    EXPECT_FLOAT_EQ(free.along_m(0), -160.0e3F);
    EXPECT_FLOAT_EQ(free.along_m(free.places - 1), 160.0e3F);
    EXPECT_LT(free.along_m(12) - free.along_m(11), 1.0e3F);
    for (std::size_t place = 0; place < free.places; ++place) {
        const float along_m = free.along_m(place);
        EXPECT_NEAR(free.place_of(std::copysign(std::sqrt(std::abs(along_m)), along_m)),
                    static_cast<float>(place), 1e-3F);
    }
}

}  // namespace
}  // namespace gloam::sky
