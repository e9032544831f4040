// Sampled member states as bytes, for synthetic cloud over the equator's dawn.
#include "outlook/sample_bytes.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <functional>

#include "outlook/event_outlook.hpp"
#include "support/equator_dawn.hpp"

namespace gloam::outlook {
namespace {

using ::testing::HasSubstr;

const EventSample& sample() {
    static const EventSample kSample =
        sample_event(synthetic::layers_in(synthetic::dawn_file(
                         {.members = 5}, {{synthetic::kAt9km, synthetic::up_to_km(150.0, 0.8)}})),
                     synthetic::equator_dawn())
            .value();
    return kSample;
}

TEST(SampleBytes, GiveTheSampleBackToTheBit) {
    const auto bytes = pack(sample());
    const auto again = unpack_sample(bytes).value();
    EXPECT_EQ(pack(again), bytes);
    EXPECT_EQ(again.members[3].clouds.readings[2].layers[2].cover,
              sample().members[3].clouds.readings[2].layers[2].cover);
    EXPECT_EQ(again.members[3].clouds.readings[2].layers[2].optics.optical_depth,
              sample().members[3].clouds.readings[2].layers[2].optics.optical_depth);
    EXPECT_EQ(again.moments[7].azimuth, sample().moments[7].azimuth);
    EXPECT_EQ(again.missing, sample().missing);
}

TEST(SampleBytes, ShowTheSameSky) {
    const auto again = unpack_sample(pack(sample())).value();
    const auto seen = look_out(synthetic::tables(), again);
    const auto before = look_out(synthetic::tables(), sample());
    EXPECT_EQ(seen.odds.good, before.odds.good);
    EXPECT_EQ(seen.members[4].strengths[9].value, before.members[4].strengths[9].value);
}

TEST(SampleBytes, CutAnywhereAreRefused) {
    const auto bytes = pack(sample());
    for (std::size_t length = 0; length < bytes.size(); length += 1 + length / 7) {
        const auto read = unpack_sample(std::span(bytes).first(length));
        ASSERT_FALSE(read) << length;
        EXPECT_EQ(read.error().kind, ErrorKind::kUnreadable);
    }
}

TEST(SampleBytes, ChangedAnywhereAreRefusedUnlessTheyMeanTheSame) {  // some codes of the compression do
    const auto bytes = pack(sample());
    for (std::size_t at = 0; at < bytes.size(); at += 1 + at / 7) {
        auto changed = bytes;
        changed[at] ^= std::byte{0x10};
        const auto read = unpack_sample(changed);
        EXPECT_TRUE(!read || pack(*read) == bytes) << at;
    }
}

TEST(SampleBytes, OfImpossiblePartsAreRefused) {
    const auto refused = [](const std::function<void(EventSample&)>& spoil) {
        EventSample spoilt = sample();
        spoil(spoilt);
        return !unpack_sample(pack(spoilt));
    };
    EXPECT_TRUE(refused([](EventSample& one) { one.members.clear(); }));
    EXPECT_TRUE(refused([](EventSample& one) { one.moments.clear(); }));
    EXPECT_TRUE(refused([](EventSample& one) { one.members[0].clouds.readings.pop_back(); }));
    EXPECT_TRUE(refused([](EventSample& one) { one.members[1].clouds.readings[1].layers.pop_back(); }));
    EXPECT_TRUE(refused([](EventSample& one) { one.members[0].cloud_depth_factor = 0.0; }));
    EXPECT_TRUE(refused([](EventSample& one) { one.members[0].atmosphere.ozone_du = std::nan(""); }));
    EXPECT_TRUE(refused([](EventSample& one) { std::swap(one.moments[0], one.moments[1]); }));
}

TEST(SampleBytes, OfAnotherKindSayWhatToDo) {
    const std::vector<std::byte> other(100, std::byte{7});
    EXPECT_THAT(unpack_sample(other).error().message, HasSubstr("another kind"));
    EXPECT_THAT(unpack_sample(other).error().hint, HasSubstr("forecast files"));
}

}  // namespace
}  // namespace gloam::outlook
