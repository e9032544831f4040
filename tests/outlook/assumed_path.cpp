#include "outlook/assumed_path.hpp"

#include <gtest/gtest.h>

namespace gloam::outlook {
namespace {

using Grid = weather::LightPathGrid;

PathLayers half_covered() {
    PathLayers layers;
    for (auto& layer : layers) {
        for (auto& line : layer.cover) {
            line.fill(0.5F);
        }
    }
    return layers;
}

float cover_at(AssumedPath path, double along_m, double believed_m = 100.0e3) {
    const auto point = static_cast<std::size_t>((along_m - Grid::kFirst_m) / Grid::kStep_m);
    return assume(half_covered(), path, believed_m)[2].cover[1][point];
}

TEST(AssumedPath, LeavesAloneWhatTheForecastTells) {
    EXPECT_EQ(cover_at(AssumedPath::kAsForecast, 400.0e3), 0.5F);
    EXPECT_EQ(cover_at(AssumedPath::kOpen, 95.0e3), 0.5F);
    EXPECT_EQ(cover_at(AssumedPath::kShut, 95.0e3), 0.5F);
}

TEST(AssumedPath, OpensOrClosesTheRest) {
    EXPECT_EQ(cover_at(AssumedPath::kOpen, 100.0e3), 0.0F);
    EXPECT_EQ(cover_at(AssumedPath::kOpen, 700.0e3), 0.0F);
    EXPECT_EQ(cover_at(AssumedPath::kShut, 100.0e3), 1.0F);
    EXPECT_EQ(cover_at(AssumedPath::kShut, 700.0e3), 1.0F);
}

TEST(AssumedPath, MayBeginBehindTheViewerOrBeyondTheEnd) {
    EXPECT_EQ(cover_at(AssumedPath::kShut, -150.0e3, -1.0e6), 1.0F);
    EXPECT_EQ(cover_at(AssumedPath::kShut, 700.0e3, 1.0e7), 0.5F);
}

}  // namespace
}  // namespace gloam::outlook
