// What a person may ask for is checked before any sky is computed.
#include <gmock/gmock.h>

#include "app/real_place.hpp"

namespace gloam::app {
namespace {

using ::testing::HasSubstr;

TEST(CallWishes, OfAnUnknownClassAreRefused) {
    CallWishes wishes;
    wishes.outcome_class = "great";
    const auto report = make_call(tables(), inputs_for("37.07,15.29"), wishes, kEvening);
    ASSERT_FALSE(report);
    EXPECT_EQ(report.error().where, "--class");
    EXPECT_THAT(report.error().hint, HasSubstr("outstanding"));
}

TEST(CallWishes, OfStartsThatNobodyCanMeanAreRefused) {
    CallWishes wishes;
    wishes.starts_for_one = -2.0;
    const auto report = make_call(tables(), inputs_for("37.07,15.29"), wishes, kEvening);
    ASSERT_FALSE(report);
    EXPECT_EQ(report.error().kind, ErrorKind::kBadInput);
}

}  // namespace
}  // namespace gloam::app
