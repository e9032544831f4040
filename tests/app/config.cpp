#include "app/config.hpp"

#include <gmock/gmock.h>

namespace gloam::app {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;

TEST(Config, IsReadWhole) {
    const Config config =
        parse_config("trip = \"trips/ionian.toml\"\nclass = \"fair\"\nstarts_for_one = 4.5\n",
                     "home/config.toml")
            .value();
    EXPECT_EQ(config.trip, std::filesystem::path("home/trips/ionian.toml"));
    EXPECT_EQ(config.outcome_class, "fair");
    EXPECT_EQ(config.starts_for_one, 4.5);
}

TEST(Config, MayBeEmpty) {
    EXPECT_TRUE(parse_config("", "config.toml"));
}

TEST(Config, WithAnUnknownKeyIsRefused) {
    const auto config = parse_config("class = \"fair\"\nstarts = 3\n", "config.toml");
    ASSERT_FALSE(config);
    EXPECT_THAT(config.error().message, HasSubstr("'starts'"));
    EXPECT_THAT(config.error().where, AllOf(HasSubstr("config.toml"), HasSubstr("line 2")));
    EXPECT_THAT(config.error().hint, HasSubstr("starts_for_one"));
}

}  // namespace
}  // namespace gloam::app
