#include "outlook/member_clouds.hpp"

#include "outlook/cloud_layers.hpp"

namespace gloam::outlook {

Result<std::vector<sky::CloudLayer>> member_clouds(const weather::LayeredForecast& forecast,
                                                   const Member& member, geo::LatLon viewer, Azimuth azimuth,
                                                   Instant instant) {
    return sample_light_path(forecast, member.forecast_member, viewer, azimuth, instant,
                             member.draw.displacement)
        .map([&](const PathLayers& layers) {
            return cloud_layers(assume(layers, member.path, member.draw.believed_m), member.draw,
                                member.only);
        });
}

}  // namespace gloam::outlook
