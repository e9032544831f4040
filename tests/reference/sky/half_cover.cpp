// "Half cover or a little more is best, solid cover is worse than clear": what the engine says about the rule
// of thumb. Draws and guards the figures of docs/half-cover.md. To draw them anew after a change of the
// engine, run this test with GLOAM_REDRAW=1 in the environment, and look at them.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <string>

#include "reference/astro/reference_file.hpp"
#include "reference/sky/half_cover_curves.hpp"

namespace gloam::test {
namespace {

constexpr double kTolerance = 0.05;  // points of colour strength

std::string figure(const char* name) {
    return std::string(GLOAM_SOURCE_DIR) + "/docs/figures/" + name;
}

void write(const std::string& path, const std::string& content) {
    std::ofstream file(path, std::ios::binary);
    file << content;
    ASSERT_TRUE(file.good()) << path;
}

double worst_difference(const std::vector<double>& a, const std::vector<double>& b) {
    double worst = a.size() == b.size() ? 0.0 : 100.0;
    for (std::size_t i = 0; i < std::min(a.size(), b.size()); ++i) {
        worst = std::max(worst, std::abs(a[i] - b[i]));
    }
    return worst;
}

TEST(HalfCover, CurvesOfThePageAreThoseOfTheEngine) {
    const auto curves = compute_cover_curves();
    if (std::getenv("GLOAM_REDRAW") != nullptr) {
        write(figure("half-cover.csv"), to_csv(curves));
        write(figure("half-cover.svg"), to_svg(from_csv(to_csv(curves))));
    }
    const auto committed = from_csv(read_file(figure("half-cover.csv")));
    ASSERT_EQ(curves.size(), committed.size());
    double worst = 0.0;
    for (std::size_t i = 0; i < curves.size(); ++i) {
        worst = std::max({worst, worst_difference(curves[i].after, committed[i].after),
                          worst_difference(curves[i].gold, committed[i].gold)});
    }
    std::printf("half cover: page and engine differ by at most %.3f points\n", worst);
    EXPECT_LT(worst, kTolerance);
}

TEST(HalfCover, DrawingOfThePageIsThatOfItsTable) {
    EXPECT_TRUE(read_file(figure("half-cover.svg")) == to_svg(from_csv(read_file(figure("half-cover.csv")))));
}

}  // namespace
}  // namespace gloam::test
