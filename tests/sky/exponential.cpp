#include "sky/exponential.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace gloam::sky {
namespace {

TEST(Exponential, IsWithinTwoMillionthsOverTheWholeRange) {
    double worst = 0.0;
    for (int i = -800'000; i <= 800'000; ++i) {
        const float x = static_cast<float>(i) * 1e-4F;
        const double exact = std::exp(static_cast<double>(x));
        worst = std::max(worst, std::abs(static_cast<double>(exponential(x)) / exact - 1.0));
    }
    EXPECT_LT(worst, 2e-6);
}

TEST(Exponential, OfZeroIsOne) {
    EXPECT_EQ(exponential(0.0F), 1.0F);
}

TEST(Exponential, OfAnythingIsFiniteAndPositive) {
    for (const float x : {-1e30F, -1000.0F, -87.5F, 87.5F, 1000.0F, 1e30F}) {
        EXPECT_TRUE(std::isfinite(exponential(x))) << x;
        EXPECT_GT(exponential(x), 0.0F) << x;
    }
}

TEST(Exponential, NeverFallsAsItsArgumentRises) {
    float before = exponential(-87.0F);
    for (float x = -87.0F; x < 87.0F; x += 0.0103F) {
        const float here = exponential(x);
        ASSERT_GE(here, before) << x;
        before = here;
    }
}

}  // namespace
}  // namespace gloam::sky
