// How many orders of scattering are enough, against an independent program of the same model. A table of n
// orders gives n + 1 orders of light, as the view ray adds one.
#include <gtest/gtest.h>

#include <cstdio>
#include <utility>

#include "sky/light.hpp"
#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

/// Level illuminance at -6 deg, on the coarse dome of that program.
double light_lx(int orders) {
    Air air(test::tables(), Atmosphere{});
    SolverSettings settings;
    settings.orders = orders;
    settings.degree = 0;  // as there
    air.diffuse = solve_diffuse(test::tables().bands, test::tables().columns, Atmosphere{}, settings);
    return test::level_sky_light(air, -6.0, {14, 12}).y;
}

TEST(OrdersOfScattering, AddUpAsInTheOtherProgram) {
    for (const auto& [orders, expected_lx] : {std::pair{1, 2.92}, {2, 3.32}, {6, 3.52}, {10, 3.53}}) {
        const double lx = light_lx(orders);
        std::printf("%2d orders: %.3f lx, expected %.2f\n", orders, lx, expected_lx);
        EXPECT_NEAR(lx / expected_lx, 1.0, 0.03) << orders;
    }
}

}  // namespace
}  // namespace gloam::sky
