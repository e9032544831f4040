// The mixed sky against the painted one over 10 000 random skies. Prints what docs/sky.md quotes.
#include <gtest/gtest.h>

#include <cstdio>

#include "sky/mixed_against_painted.hpp"

namespace gloam::sky {
namespace {

double quantile_of(std::vector<double> values, double share) {
    std::ranges::sort(values);
    return values[static_cast<std::size_t>(share * static_cast<double>(values.size() - 1))];
}

void print(const char* name, const std::vector<double>& values) {
    std::printf("%s: half within %.4f, 9 in 10 within %.4f, 99 in 100 within %.4f, worst %.3f\n", name,
                quantile_of(values, 0.5), quantile_of(values, 0.9), quantile_of(values, 0.99),
                quantile_of(values, 1.0));
}

TEST(SkyMixerAtLength, AgreesOverTenThousandRandomSkies) {
    auto errors = test::errors_of_mixed(1, 100, 100);
    const auto strength = test::strengths_of(errors);
    const auto luminance = test::gathered(errors, [](const auto& e) -> auto& { return e.luminance; });
    const auto colour = test::gathered(errors, [](const auto& e) -> auto& { return e.chromaticity; });
    print("strength", strength);
    print("luminance, relative", luminance);
    print("x or y", colour);
    std::printf("strength within 1: %.2f %%; luminance within 5 %%: %.2f %%; x, y within .005: %.2f %%\n",
                100.0 * test::share_within(strength, 1.0), 100.0 * test::share_within(luminance, 0.05),
                100.0 * test::share_within(colour, 0.005));
    std::ranges::sort(errors, std::ranges::greater{}, &test::MixedError::strength);
    for (std::size_t i = 0; i < 10; ++i) {
        std::printf("worst: %s\n", errors[i].sky.c_str());
    }
    EXPECT_GE(test::share_within(strength, 1.0), 0.99);
    EXPECT_GE(test::share_within(luminance, 0.05), 0.97);
    EXPECT_GE(test::share_within(colour, 0.005), 0.98);
}

}  // namespace
}  // namespace gloam::sky
