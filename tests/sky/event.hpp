#pragma once

#include <vector>

#include "sky/colour_strength.hpp"
#include "sky/panorama.hpp"
#include "sky/scene.hpp"

namespace gloam::test {

/// Colour strength of one dawn or dusk: its best after sunset (sun -6 to -0.5 deg) and its best with the sun
/// about or above the horizon (-0.5 to +3 deg), every quarter degree.
struct Event {
    double after = 0.0;
    double gold = 0.0;
};

inline Event event_of(const sky::SkyPainter& painter, const sky::CloudField& clouds) {
    Event event;
    for (int quarter = -24; quarter <= 12; ++quarter) {
        const double strength = sky::colour_strength(painter.paint(clouds, sun_at(0.25 * quarter))).value;
        double& best = quarter <= -2 ? event.after : event.gold;
        best = std::max(best, strength);
    }
    return event;
}

inline Event event_of(const sky::Air& air, std::vector<sky::CloudLayer> layers) {
    const sky::SkyPainter painter(air, 0.0, sky::PanoramaGrid::standard());
    return event_of(painter, sky::CloudField(std::move(layers)));
}

}  // namespace gloam::test
