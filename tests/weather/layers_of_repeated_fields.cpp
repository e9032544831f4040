// The same field twice; all fields synthetic.
#include <gmock/gmock.h>

#include "weather/made_fields.hpp"

namespace gloam::weather {
namespace {

using ::testing::Contains;
using ::testing::Each;
using ::testing::FloatEq;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr auto kCover = Quantity::kCloudCover;
const Fields kLevels = three_levels(kCover, 0.1, 0.2, 0.3);

Error refusal(std::initializer_list<Fields> parts) {
    const auto layered = layers_of(together(parts));
    return layered ? Error{ErrorKind::kInternal, "was not refused", {}, {}} : layered.error();
}

TEST(RepeatedFields, ThatAgreeAreUsedOnceAndNoted) {
    const auto layered = layers_in({kLevels, {on_level(kCover, 850e2, 0.105)}});
    EXPECT_THAT(layer_of(layered, Band::kLow).cover, Each(FloatEq(0.1F)));
    EXPECT_THAT(layered.notes, Contains(HasSubstr("left out: 1 field there twice")));
}

TEST(RepeatedFields, ThatDifferAreRefusedByName) {
    const Error error = refusal({kLevels, {on_level(kCover, 850e2, 0.35)}});
    EXPECT_EQ(error.kind, ErrorKind::kBadInput);
    EXPECT_THAT(error.message, HasSubstr("cloud cover at 850 hPa valid at 2025-01-29T06:00:00Z"));
    EXPECT_THAT(error.message, HasSubstr("0.25"));
    EXPECT_THAT(error.where, HasSubstr("message 1 and synthetic, message 4"));
    EXPECT_EQ(error.hint, "leave one of them out");
}

TEST(RepeatedFields, OneCellThatDiffersIsEnough) {
    Field other = kLevels[0];
    other.values[3] = 0.9F;
    EXPECT_EQ(refusal({kLevels, {other}}).kind, ErrorKind::kBadInput);
}

TEST(RepeatedFields, ACellWithoutAValueInOneOfThemIsADifference) {
    const Error error = refusal({kLevels, {masked(3, kLevels[0])}});
    EXPECT_EQ(error.kind, ErrorKind::kBadInput);
    EXPECT_THAT(error.message, HasSubstr("1 cells"));
}

TEST(RepeatedFields, CellsWithoutAValueInBothAreNone) {
    Field other = masked(3, kLevels[0]);
    other.values[3] = 7.0F;
    const auto layered = layers_in({{masked(3, kLevels[0]), kLevels[1], kLevels[2], other}});
    EXPECT_THAT(layered.notes, Contains(HasSubstr("there twice")));
}

TEST(RepeatedFields, OfOtherHoursMembersAndKindsAreNone) {
    const auto ninth = [](Field field) { return at_hour(9, std::move(field)); };
    const auto layered = layers_in({kLevels, each(kLevels, ninth), {over_hours(0, 6, kLevels[0])}});
    EXPECT_THAT(layered.notes, Not(Contains(HasSubstr("there twice"))));
    const auto of = [](int member) {
        return each(kLevels, [=](Field field) { return of_member(member, std::move(field)); });
    };
    EXPECT_THAT(layers_in({of(1), of(2)}).notes, Not(Contains(HasSubstr("there twice"))));
}

TEST(RepeatedFields, OnAnotherGridAreLeftOutAsThat) {
    Field other = on_level(kCover, 850e2, 0.9);
    other.grid =
        RegularGrid{.first = {60.0, 0.0}, .lat_step_deg = -2.0, .lon_step_deg = 2.0, .rows = 2, .columns = 2};
    const auto layered = layers_in({kLevels, {other}});
    EXPECT_THAT(layered.notes, Contains(HasSubstr("left out: 1 field on another grid")));
}

TEST(RepeatedFields, OfWhichNoLayerIsMadeMayDiffer) {
    const Level ground{.kind = LevelKind::kAboveGround, .height_m = 2.0};
    EXPECT_NO_THROW(layers_in(
        {kLevels,
         {made(Quantity::kTemperature, ground, 270.0), made(Quantity::kTemperature, ground, 290.0)}}));
}

struct Slack {
    const char* name;
    Field field;
    float agrees;
    float differs;
};

class Repeated : public ::testing::TestWithParam<Slack> {
  protected:
    static bool is_refused(float by) {
        Field other = GetParam().field;
        for (float& value : other.values) {
            value += by;
        }
        return !layers_of(together({kLevels, {GetParam().field, other}}));
    }
};

TEST_P(Repeated, FieldsMayDifferByPackingAndNoMore) {
    EXPECT_FALSE(is_refused(GetParam().agrees));
    EXPECT_TRUE(is_refused(GetParam().differs));
}

INSTANTIATE_TEST_SUITE_P(
    , Repeated,
    ::testing::Values(Slack{"humidity", on_level(Quantity::kRelativeHumidity, 700e2, 0.5), 0.009F, 0.011F},
                      Slack{"height", on_level(Quantity::kGeopotentialHeight, 700e2, 3000.0), 4.9F, 5.1F},
                      Slack{"base", base_of(Band::kLow, 900e2), 99.0F, 101.0F}),
    [](const auto& slack) { return std::string(slack.param.name); });

}  // namespace
}  // namespace gloam::weather
