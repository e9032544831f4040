#pragma once

#include <string>
#include <vector>

#include "outlook/event_outlook.hpp"

namespace gloam::outlook {

/// One cloud layer in the cut.
struct SectionLayer {
    weather::Band band = weather::Band::kLow;
    double base_m = 0.0;  ///< above mean sea level
    double top_m = 0.0;
    std::vector<double> cover;  ///< 0..1, by point of the light path (geo::LightPathGrid), middle line
};

/// A point in the cut: distance up-sun along the ground, height above mean sea level.
struct SectionPoint {
    double along_m = 0.0;
    double height_m = 0.0;
};

/// A stretch of a ray inside cloud.
struct SectionMeeting {
    double from_m = 0.0;
    double to_m = 0.0;
    weather::Band band = weather::Band::kLow;
    double free = 1.0;  ///< probability that the stretch is free of cloud
};

/// One ray from the cloud overhead towards the sun, as far as it stays below the top of the drawing.
struct SectionRay {
    Instant instant;
    Angle sun_elevation;
    std::vector<SectionPoint> points;      ///< from the cloud towards the sun
    std::vector<SectionMeeting> meetings;  ///< in the order met
    double free = 1.0;                     ///< probability that the whole ray is free
    bool lit = true;                       ///< false: the Earth's shadow has reached the cloud
};

/// The vertical cut along the light path that explains a call: the member at the centre of the draws, at the
/// moment its cloud could be lit best, with rays of an early, the best and a late moment.
struct Section {
    Azimuth towards_sun;
    Instant moment;
    double viewer_height_m = 0.0;
    std::vector<SectionLayer> layers;
    std::vector<SectionRay> rays;  ///< in time order
    std::string deciding;          ///< one sentence: what decides in this member
};

/// Distances and heights that a section covers.
inline constexpr double kSectionReach_m = 500.0e3;
inline constexpr double kSectionHeight_m = 14.0e3;

/// Errors as sample_event().
Result<Section> section_of(const sky::SkyTables& tables, const weather::LayeredForecast& forecast,
                           const EventRequest& request);

}  // namespace gloam::outlook
