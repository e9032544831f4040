#pragma once

#include <span>
#include <string>
#include <vector>

#include "geo/zone.hpp"
#include "outlook/member_sky.hpp"
#include "sheet/drawing.hpp"

namespace gloam::sheet {

/// The sky low over the horizon at one minute.
struct SkyMinute {
    Instant instant;
    Azimuth sun_azimuth;
    Angle sun_elevation;   ///< true
    sky::Xyz towards_sun;  ///< mean light, cd m-2, within 30 deg of the sun's azimuth, 2 to 9 deg high
    sky::Xyz opposite;     ///< the same about the opposite azimuth
};

/// The directions that a minute is read from.
sky::PanoramaGrid minute_grid();
/// Reads a minute off a panorama on minute_grid().
SkyMinute sky_minute(Instant instant, const outlook::SeenSky& seen);

/// What a meter is taken to read at a minute of a strip: the mean (of the logarithm) of both sides brought
/// nearer to EV 11 by a quarter, so that night comes out dark and day light and neither without colour.
double strip_exposure(const SkyMinute& minute);

/// What stands above and below a strip; any text, none of it trusted.
struct StripCaption {
    std::string title;
    std::string source;
};

/// Bytes of a file with the colour of the sky minute by minute: above, towards the sun; below, opposite.
/// Times on the clock of `zone`, the phases of the sun under it. `minutes` in time order. The same input
/// gives the same bytes with the same fonts. Errors (kOutOfDomain): no minutes, or a width outside 200 to
/// 8000 px.
Result<std::vector<std::byte>> draw_time_strip(std::span<const SkyMinute> minutes,
                                               const StripCaption& caption, const geo::Zone& zone,
                                               DrawingFormat format, double width_px = 1200.0);

}  // namespace gloam::sheet
