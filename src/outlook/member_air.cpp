#include "outlook/member_air.hpp"

#include <chrono>
#include <cmath>

#include "sky/ozone.hpp"

namespace gloam::outlook {

sky::Atmosphere atmosphere_of(const MemberDraw& draw, const EventRequest& request) {
    const auto day = std::chrono::floor<std::chrono::days>(request.half_day.span.begin);
    const auto new_year = std::chrono::sys_days(CivilDate(day).year() / 1 / 1);
    const auto day_of_year = static_cast<int>((day - new_year).count()) + 1;
    sky::Atmosphere atmosphere;
    // To the nearest ten, so that the places and days of a trip share their airs: by 5 DU the sky changes by
    // .0005 in x (docs/sky.md, section 13), and the usual amount is known to 12 %.
    const double usual_du = sky::usual_ozone_du(Angle::degrees(request.observer.at.lat_deg),
                                                Angle::degrees(request.observer.at.lon_deg), day_of_year);
    atmosphere.ozone_du = 10.0 * std::round(usual_du / 10.0);
    atmosphere.aerosol_depth_550 = draw.aerosol_depth_550;
    atmosphere.aerosol_scale_height_m = draw.aerosol_scale_height_m;
    atmosphere.ground_albedo = sky::albedo_of(request.ground);
    return atmosphere;
}

}  // namespace gloam::outlook
