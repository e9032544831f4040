// The moon's phase against a JPL ephemeris.
#include <gtest/gtest.h>

#include "astro/phase.hpp"
#include "reference/astro/reference_file.hpp"
#include "reference/astro/worst.hpp"

namespace gloam::astro {
namespace {

TEST(MoonPhase, IsThatOfTheEphemerisDe405) {
    const test::ReferenceFile file("sunmoon_positions_200.csv");
    test::Worst worst;
    for (std::size_t row = 0; row < file.size(); ++row) {
        const Observer observer{
            geo::make_lat_lon(file.number(row, "lat_deg"), file.number(row, "lon_deg")).value(),
            HeightMsl{file.number(row, "height_m")}};
        const Instant instant = parse_rfc3339(file.text(row, "utc")).value();
        const Angle ours = phase_angle(position_of(Body::kSun, observer, instant),
                                       position_of(Body::kMoon, observer, instant));
        worst.add(ours.degrees() - file.number(row, "phase_angle"), file.text(row, "utc"));
    }
    worst.report("phase angle of the moon", "deg");
    EXPECT_EQ(worst.count(), 200);
    EXPECT_LT(worst.value(), 0.05);
}

}  // namespace
}  // namespace gloam::astro
