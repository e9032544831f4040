// A synthetic file with flipped bytes, through the whole path in process: an outlook or a good error, never a
// crash, a hang or a number out of range.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "support/equator_dawn.hpp"
#include "weather/leaks_of_eccodes.hpp"
#include "weather/light_path.hpp"

namespace gloam {
namespace {

TEST(SyntheticFileWithFlippedBytes, GivesLayersWithinTheirBoundsOrAGoodError) {
    const auto good = synthetic::dawn_file({.levels_hpa = {300, 550, 850}}, [](double along_km, double, int) {
        return 0.5 + 0.4 * std::sin(along_km / 100.0);
    });
    std::mt19937 random(20250320);  // fixed: the same damage in every run
    int refused = 0;
    for (int flip = 0; flip < 400; ++flip) {
        auto bytes = good;
        // Headers and the packed values alike: every other flip within the first 200 bytes of a message.
        const std::size_t message = random() % 3 * (good.size() / 3);
        const std::size_t within = random() % (flip % 2 == 0 ? 200 : good.size() / 3);
        bytes[message + within] ^= static_cast<std::byte>(1 + random() % 255);
        const weather::LeaksOfEccodes tolerated;
        const auto layers =
            weather::read_grib(bytes, "synthetic.grib2").and_then([](const weather::Forecast& forecast) {
                return weather::layers_of(forecast);
            });
        const auto request = synthetic::equator_dawn();
        const auto path = layers.and_then([&](const weather::LayeredForecast& layered) {
            return sample_light_path(layered, 0, request.observer.at, Azimuth::degrees(90),
                                     synthetic::at_sunrise(), {});
        });
        if (!path) {
            ++refused;
            EXPECT_FALSE(path.error().message.empty());
            EXPECT_FALSE(path.error().hint.empty()) << to_text(path.error());
            continue;
        }
        for (const auto& layer : *path) {
            EXPECT_GE(layer.top_m, layer.base_m);
            for (const auto& line : layer.cover) {
                for (const float cover : line) {
                    ASSERT_TRUE(cover >= 0.0F && cover <= 1.0F);
                }
            }
        }
    }
    EXPECT_GT(refused, 50);
}

}  // namespace
}  // namespace gloam
