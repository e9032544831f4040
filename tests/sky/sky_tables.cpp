#include "sky/sky_tables.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstring>

#include "sky/scene.hpp"

namespace gloam::sky {
namespace {

using test::tables;

std::vector<std::byte> built_bytes() {
    const auto bytes = embedded_tables();
    return {bytes.begin(), bytes.end()};
}

TEST(SkyTables, PackedAgainAreTheSameBytes) {
    EXPECT_TRUE(pack(tables()) == built_bytes());
}

TEST(SkyTables, AreRefusedWhenTruncated) {
    const auto bytes = built_bytes();
    for (const std::size_t length :
         {std::size_t{0}, std::size_t{7}, std::size_t{8}, bytes.size() / 2, bytes.size() - 1}) {
        const auto read = unpack_sky_tables(std::span(bytes).first(length));
        ASSERT_FALSE(read) << length;
        EXPECT_EQ(read.error().kind, ErrorKind::kUnreadable);
        EXPECT_FALSE(read.error().hint.empty());
    }
}

TEST(SkyTables, AreRefusedWhenTooLong) {
    auto bytes = built_bytes();
    bytes.push_back(std::byte{0});
    EXPECT_FALSE(unpack_sky_tables(bytes));
}

TEST(SkyTables, OfAnotherVersionAreRefused) {
    auto bytes = built_bytes();
    bytes[0] ^= std::byte{1};
    EXPECT_FALSE(unpack_sky_tables(bytes));
}

TEST(SkyTables, OfAnotherByteOrderAreRefused) {
    auto bytes = built_bytes();
    std::reverse(bytes.begin(), bytes.begin() + 8);
    EXPECT_FALSE(unpack_sky_tables(bytes));
}

TEST(SkyTables, HoldOneFieldForEveryStoredAtmosphere) {
    EXPECT_EQ(tables().nodes.size(), stored_atmospheres().size());
}

TEST(SkyTables, HoldFiniteNumbersOnly) {
    for (const DiffuseNode& node : tables().nodes) {
        EXPECT_TRUE(std::all_of(node.field.ln_values().begin(), node.field.ln_values().end(),
                                [](float value) { return std::isfinite(value); }));
    }
}

TEST(Air, OfAStoredAtmosphereHasItsDiffuseLight) {
    for (const DiffuseNode& node : tables().nodes) {
        const Air air(tables(), node.atmosphere);
        const auto farthest = [](auto ours, auto stored) {
            double worst = 0.0;
            for (std::size_t i = 0; i < stored.size(); ++i) {
                worst =
                    std::max(worst, std::abs(static_cast<double>(ours[i]) - static_cast<double>(stored[i])));
            }
            return worst;
        };
        EXPECT_LT(farthest(air.diffuse.ln_values(), node.field.ln_values()), 1e-4);
        EXPECT_LE(farthest(air.diffuse.moments(), node.field.moments()), 2.0);
    }
}

TEST(Air, BetweenStoredAmountsOfAerosolLiesBetweenTheirLight) {
    const auto light = [](double depth) {
        const Air air = test::air_with_aerosol(depth);
        return air.bands->xyz(air.diffuse.at(DiffuseField::Kind::kDown, 0.0, test::zenith_rad(-3.0))).y;
    };
    const double between = light(0.17);
    EXPECT_LT(between, std::max(light(0.10), light(0.25)));
    EXPECT_GT(between, std::min(light(0.10), light(0.25)));
}

TEST(Air, OutsideTheStoredAmountsStaysFinite) {
    Atmosphere extreme;
    extreme.aerosol_depth_550 = 3.0;
    extreme.dust_depth_550 = 2.0;
    extreme.sulphate_depth_550 = 0.3;
    const Air air(tables(), extreme);
    for (const double value : air.diffuse.at(DiffuseField::Kind::kDown, 0.0, test::zenith_rad(0.0))) {
        EXPECT_TRUE(std::isfinite(value));
    }
}

}  // namespace
}  // namespace gloam::sky
