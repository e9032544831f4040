#pragma once

#include <cstddef>
#include <memory>

#include "outlook/event_outlook.hpp"
#include "outlook/members.hpp"
#include "sky/night.hpp"
#include "sky/panorama.hpp"

namespace gloam::outlook {

/// Where the sun stands for the viewer.
struct SunPlace {
    Azimuth azimuth;
    sky::SunState state;
};

/// The sky over one viewer at one instant, with what a picture needs besides the panorama.
struct SeenSky {
    double viewer_height_m = 0.0;  ///< above mean sea level
    SunPlace sun;
    ApparentAltitude sun_seen;  ///< of the disc's centre, through the air
    sky::Xyz sun_disc;          ///< its light through the clear air, cd m-2; nothing where it has set
    sky::CloudField clouds;
    sky::Panorama panorama;
};

/// The sky of one cloud field, with the light of the night; without a moon and far from towns if `night` is
/// not given. `painter` belongs to `air` and to a viewer at `viewer_height_m`.
SeenSky see_sky(const sky::Air& air, const sky::SkyPainter& painter, double viewer_height_m,
                const sky::CloudField& clouds, const SunPlace& sun, const sky::NightLights& night = {});

/// The skies of one member of the outlook, instant by instant: those that look_out() reads.
class MemberSkies {
  public:
    /// `index` counts the outlook's members from 0; the first stands at the centre of all that the forecast
    /// leaves open. `tables` and `forecast` must outlive this. Error (kNotFound): no such member.
    static Result<MemberSkies> of(const sky::SkyTables& tables, const weather::LayeredForecast& forecast,
                                  const EventRequest& request, std::size_t index,
                                  const sky::PanoramaGrid& grid);

    /// Errors (kOutOfDomain): the sun outside -18 to +20 deg, an instant or a light path that the forecast
    /// does not serve.
    Result<SeenSky> at(Instant instant) const;

  private:
    MemberSkies(const sky::SkyTables& tables, const weather::LayeredForecast& forecast,
                const EventRequest& request, Member member, const sky::PanoramaGrid& grid);

    const weather::LayeredForecast* forecast_;
    EventRequest request_;
    Member member_;
    std::unique_ptr<sky::Air> air_;  ///< the painter keeps its address
    sky::SkyPainter painter_;
};

}  // namespace gloam::outlook
