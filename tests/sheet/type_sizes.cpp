#include "sheet/type_sizes.hpp"

#include <gtest/gtest.h>

#include <set>

namespace gloam::sheet {
namespace {

TEST(TypeSizes, StayLegibleOnAPhone) {
    for (const double width_px : {200.0, 390.0, 640.0}) {
        EXPECT_GE(type_sizes(width_px).small_px, 10.5) << width_px;
        EXPECT_TRUE(type_sizes(width_px).narrow) << width_px;
    }
    EXPECT_FALSE(type_sizes(1200.0).narrow);
}

TEST(TypeSizes, GrowLessThanThePageAndThenWithIt) {
    EXPECT_LT(type_sizes(1200.0).large_px / type_sizes(390.0).large_px, 1200.0 / 390.0);
    EXPECT_DOUBLE_EQ(type_sizes(2400.0).large_px, 2.0 * type_sizes(1200.0).large_px);
    EXPECT_DOUBLE_EQ(type_sizes(2400.0).unit_px, 2.0);
}

TEST(TypeSizes, AreFew) {
    std::set<double> sizes;
    for (int width_px = 200; width_px <= 8000; ++width_px) {
        const TypeSizes at = type_sizes(width_px);
        sizes.insert({at.large_px, at.medium_px, at.small_px});
    }
    EXPECT_LT(sizes.size(), 500U);
}

}  // namespace
}  // namespace gloam::sheet
