#include "astro/horizon.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "air/ray.hpp"
#include "air/standard_atmosphere.hpp"
#include "base/check.hpp"

namespace gloam::astro {
namespace {

constexpr Angle kMeanSemidiameter = Angle::arcminutes(16.0);

/// The eye's height once the surface under it is lifted to sea level, should it lie lower.
double lifted_m(HeightMsl eye, HeightAboveHorizon above) {
    return std::max(eye.metres, above.metres);
}

}  // namespace

ApparentAltitude level_horizon(HeightMsl eye, HeightAboveHorizon above) {
    GLOAM_CHECK(above.metres >= 0.0);
    const double eye_m = lifted_m(eye, above);
    const auto index_radius = [](double height_m) {
        return air::refractive_index(height_m) * (air::kEarthRadius_m + height_m);
    };
    const double cosine = index_radius(eye_m - above.metres) / index_radius(eye_m);
    return {Angle::radians(-std::acos(std::min(cosine, 1.0)))};
}

Result<TrueAltitude> sun_centre_at_horizon(HeightMsl eye, HeightAboveHorizon above,
                                           std::optional<ApparentAltitude> skyline) {
    if (!(above.metres >= 0.0)) {
        return fail(ErrorKind::kBadInput,
                    fmt::format("the eye cannot stand {:g} m above its own horizon", above.metres), {},
                    "give the height above the sea or plain that forms the horizon, 0 or more");
    }
    const ApparentAltitude horizon = skyline ? *skyline : level_horizon(eye, above);
    const auto limb = air::true_altitude(lifted_m(eye, above), horizon);
    if (!limb) {
        return fail(ErrorKind::kOutOfDomain,
                    fmt::format("a skyline at {:.2f} deg lies below the Earth's own horizon",
                                horizon.angle.degrees()),
                    {}, "check the height of the stand and the skyline towards the sun");
    }
    return TrueAltitude{limb->angle - kMeanSemidiameter};
}

}  // namespace gloam::astro
