// Synthetic messages taken apart and put together: several fields in one message, junk between messages.
#include <gmock/gmock.h>

#include "weather/grib/octets.hpp"
#include "weather/read.hpp"

namespace gloam::weather {
namespace {

using synthetic::Bytes;
using ::testing::HasSubstr;

void append(Bytes& to, Octets more) {
    to.insert(to.end(), more.begin(), more.end());
}

/// Section of an edition 2 message by its number.
Octets section(const Bytes& message, std::size_t number) {
    Octets rest = Octets(message).subspan(16);
    while (std::to_integer<std::size_t>(rest[4]) != number) {
        rest = rest.subspan(static_cast<std::size_t>(big_endian(rest, 0, 4)));
    }
    return rest.first(static_cast<std::size_t>(big_endian(rest, 0, 4)));
}

/// The first message with sections 4 to 7 of the second behind it; `bitmap`, if any, in place of the
/// second's.
Bytes two_fields(const Bytes& first, const Bytes& second, Bytes bitmap = {}) {
    Bytes both(first.begin(), first.end() - 4);
    for (const std::size_t number : {4U, 5U, 6U, 7U}) {
        append(both, number == 6 && !bitmap.empty() ? Octets(bitmap) : section(second, number));
    }
    append(both, Octets(first).last(4));
    for (std::size_t i = 0; i < 8; ++i) {
        both[8 + i] = static_cast<std::byte>(both.size() >> (8 * (7 - i)));
    }
    return both;
}

Bytes constant(double percent, double pressure_pa) {
    return message({.pressure_pa = pressure_pa}, [percent](double lat, double lon) {
        return std::optional(lat == 60.0 && lon == -10.0 ? 0.0 : percent);
    });
}

TEST(SyntheticSections, SeveralFieldsInOneMessageAreAllRead) {
    const Forecast forecast = read(two_fields(constant(30, 300e2), constant(80, 800e2)));
    EXPECT_EQ(forecast.messages, 1U);
    ASSERT_EQ(forecast.fields.size(), 2U);
    EXPECT_NEAR(value_of(forecast.fields[0], {45, 0}), 0.3, 1e-5);
    EXPECT_NEAR(value_of(forecast.fields[1], {45, 0}), 0.8, 1e-5);
    EXPECT_DOUBLE_EQ(forecast.fields[1].level.pressure_pa, 800e2);
    EXPECT_EQ(to_text(forecast.fields[1].origin), "synthetic.grib2, message 1, field 2");
}

TEST(SyntheticSections, ABitmapAsBeforeIsTheOneBefore) {
    const auto masked = [](double pressure_pa, double percent) {
        return message({.pressure_pa = pressure_pa}, [percent](double lat, double lon) {
            return lat == 45.0 ? std::nullopt : std::optional(percent + lon / 10.0);
        });
    };
    const Bytes as_before{std::byte{0}, std::byte{0}, std::byte{0},
                          std::byte{6}, std::byte{6}, std::byte{254}};
    const Forecast forecast = read(two_fields(masked(300e2, 30), masked(800e2, 80), as_before));
    ASSERT_EQ(forecast.fields.size(), 2U);
    EXPECT_FALSE(value_at(forecast.fields[1], {45, 0}));
    EXPECT_NEAR(value_of(forecast.fields[1], {46, 0}), 0.8, 1e-4);
}

TEST(SyntheticSections, ABitmapAsBeforeWithNoneBeforeIsAnError) {
    Bytes bytes = constant(30, 300e2);
    const auto at = static_cast<std::size_t>(section(bytes, 6).data() - bytes.data());
    bytes[at + 5] = std::byte{254};
    EXPECT_THAT(refusal(bytes).message, HasSubstr("as before"));
}

TEST(SyntheticSections, JunkBetweenMessagesIsReported) {
    const Bytes junk(37, std::byte{'x'});
    const Forecast forecast =
        read(synthetic::joined({junk, constant(30, 300e2), junk, constant(80, 800e2), junk}));
    EXPECT_EQ(forecast.fields.size(), 2U);
    EXPECT_EQ(forecast.messages, 2U);
    ASSERT_EQ(forecast.skipped.size(), 3U);
    EXPECT_THAT(forecast.skipped[0].reason, HasSubstr("37 bytes before the first"));
    EXPECT_EQ(forecast.skipped[1].origin.message, 1);
    EXPECT_THAT(forecast.skipped[2].reason, HasSubstr("37 bytes after"));
}

}  // namespace
}  // namespace gloam::weather
