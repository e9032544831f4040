#include "weather/level.hpp"

#include <fmt/format.h>

namespace gloam::weather {
namespace {

std::string cloud_of(const Level& level) {
    return level.band ? fmt::format("{} cloud", name_of(*level.band)) : "the cloud";
}

}  // namespace

std::string to_text(const Level& level) {
    switch (level.kind) {
        case LevelKind::kPressure:
            return fmt::format("at {:g} hPa", level.pressure_pa / 100.0);
        case LevelKind::kWholeAtmosphere:
            return "of the whole atmosphere";
        case LevelKind::kCloudLayer:
            return "of " + cloud_of(level);
        case LevelKind::kConvective:
            return "of convective cloud";
        case LevelKind::kBoundaryLayer:
            return "of the boundary layer";
        case LevelKind::kCloudBase:
            return "at the base of " + cloud_of(level);
        case LevelKind::kCloudTop:
            return "at the top of " + cloud_of(level);
        case LevelKind::kCloudCeiling:
            return "of the ceiling";
        case LevelKind::kAboveGround:
            return fmt::format("{:g} m above the ground", level.height_m);
        case LevelKind::kSurface:
            return "at the surface";
    }
    return {};
}

}  // namespace gloam::weather
