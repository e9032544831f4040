#include "weather/grib/level.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>
#include <utility>

namespace gloam::weather {
namespace {

// GRIB2 code table 4.5 and GRIB1 table 3, NCEP's local entries included.
constexpr long kGround = 1;
constexpr long kBaseOfCloud = 2;
constexpr long kTopOfCloud = 3;
constexpr long kTopOfAtmosphere = 8;
constexpr long kEntireAtmosphere = 10;
constexpr long kIsobaric = 100;
constexpr long kHeightAboveGround = 103;
constexpr long kEntireAtmosphereNcep = 200;
constexpr long kBoundaryLayerCloud = 211;
constexpr long kCeilingOfCloud = 215;
constexpr long kConvectiveCloud = 244;

// Fields beyond these are not met, and the standard atmosphere is not asked for them.
constexpr double kLeastPressure_pa = 100.0;
constexpr double kMostPressure_pa = 110.0e3;

std::optional<Level> pressure_level(const Surfaces& surfaces) {
    const auto& [type, pressure_pa] = surfaces.first;
    const bool possible = type == kIsobaric && surfaces.second.type == kNoSurface &&
                          pressure_pa >= kLeastPressure_pa && pressure_pa <= kMostPressure_pa;
    return possible ? std::optional(Level{.kind = LevelKind::kPressure, .pressure_pa = pressure_pa})
                    : std::nullopt;
}

Level cloud_layer(Band band) {
    return {.kind = LevelKind::kCloudLayer, .band = band};
}

/// A layer between two pressures, or from one to the ground, as DWD bounds low, middle and high cloud (800
/// and 400 hPa); other centres' limits may lie up to 150 hPa beside these.
std::optional<Level> pressure_layer(const Surfaces& surfaces) {
    double top_pa = surfaces.first.value;
    double bottom_pa = surfaces.second.type == kGround ? kMostPressure_pa : surfaces.second.value;
    const bool layer = surfaces.first.type == kIsobaric &&
                       (surfaces.second.type == kIsobaric || surfaces.second.type == kGround);
    if (!layer) {
        return std::nullopt;
    }
    if (top_pa > bottom_pa) {
        std::swap(top_pa, bottom_pa);
    }
    const auto near = [](double pressure_pa, double limit_pa) {
        return std::abs(pressure_pa - limit_pa) <= 150.0e2;
    };
    if (near(top_pa, 800.0e2) && bottom_pa >= 1000.0e2) {
        return cloud_layer(Band::kLow);
    }
    if (near(top_pa, 400.0e2) && near(bottom_pa, 800.0e2)) {
        return cloud_layer(Band::kMiddle);
    }
    return top_pa <= 100.0e2 && near(bottom_pa, 400.0e2) ? std::optional(cloud_layer(Band::kHigh))
                                                         : std::nullopt;
}

/// NCEP numbers base, top, mean and layer of low, middle and high cloud 212 to 214, 222 to 224, 232 to 234.
std::optional<Level> ncep_cloud(const Surfaces& surfaces) {
    const long type = surfaces.first.type;
    if (type < 212 || type > 234) {
        return std::nullopt;
    }
    const auto band = kBands[static_cast<std::size_t>((type - 210) / 10)];
    switch (type % 10) {
        case 2:
            return Level{.kind = LevelKind::kCloudBase, .band = band};
        case 3:
            return Level{.kind = LevelKind::kCloudTop, .band = band};
        case 4:
            return cloud_layer(band);
        default:
            return std::nullopt;
    }
}

std::optional<Level> whole_atmosphere(const Surfaces& surfaces) {
    const long type = surfaces.first.type;
    const bool whole = type == kEntireAtmosphere || type == kEntireAtmosphereNcep ||
                       (type == kGround && surfaces.second.type == kTopOfAtmosphere);
    return whole ? std::optional(Level{.kind = LevelKind::kWholeAtmosphere}) : std::nullopt;
}

std::optional<Level> cover_level(const Surfaces& surfaces) {
    if (surfaces.first.type == kConvectiveCloud) {
        return Level{.kind = LevelKind::kConvective};
    }
    if (surfaces.first.type == kBoundaryLayerCloud) {
        return Level{.kind = LevelKind::kBoundaryLayer};
    }
    for (const auto find : {pressure_level, pressure_layer, whole_atmosphere}) {
        if (const auto level = find(surfaces)) {
            return level;
        }
    }
    const auto layer = ncep_cloud(surfaces);
    return layer && layer->kind == LevelKind::kCloudLayer ? layer : std::nullopt;
}

std::optional<Level> cloud_edge(const Surfaces& surfaces) {
    switch (surfaces.first.type) {
        case kBaseOfCloud:
            return Level{.kind = LevelKind::kCloudBase};
        case kTopOfCloud:
            return Level{.kind = LevelKind::kCloudTop};
        case kCeilingOfCloud:
            return Level{.kind = LevelKind::kCloudCeiling};
        default:
            break;
    }
    const auto edge = ncep_cloud(surfaces);
    return edge && edge->kind != LevelKind::kCloudLayer ? edge : std::nullopt;
}

std::optional<Level> above_ground(const Surfaces& surfaces, double height_m) {
    const bool there = surfaces.first.type == kHeightAboveGround && surfaces.second.type == kNoSurface &&
                       std::abs(surfaces.first.value - height_m) < 0.5;
    return there ? std::optional(Level{.kind = LevelKind::kAboveGround, .height_m = height_m}) : std::nullopt;
}

std::optional<Level> at_surface(const Surfaces& surfaces) {
    const bool there = surfaces.first.type == kGround && surfaces.second.type == kNoSurface;
    return there ? std::optional(Level{.kind = LevelKind::kSurface}) : std::nullopt;
}

std::optional<Level> used_level(Quantity quantity, const Surfaces& surfaces) {
    switch (quantity) {
        case Quantity::kCloudCover:
            return cover_level(surfaces);
        case Quantity::kRelativeHumidity:
        case Quantity::kTemperature: {
            const auto level = pressure_level(surfaces);
            return level ? level : above_ground(surfaces, 2.0);
        }
        case Quantity::kDewPoint:
            return above_ground(surfaces, 2.0);
        case Quantity::kWindEast:
        case Quantity::kWindNorth:
            return above_ground(surfaces, 10.0);
        case Quantity::kGust: {
            const auto level = above_ground(surfaces, 10.0);
            return level ? level : at_surface(surfaces);
        }
        case Quantity::kGeopotentialHeight:
        case Quantity::kAerosolExtinction:
            return pressure_level(surfaces);
        case Quantity::kCloudHeight:
        case Quantity::kPressure:
            return cloud_edge(surfaces);
        case Quantity::kAerosolDepth:
        case Quantity::kOzoneColumn:
            return whole_atmosphere(surfaces);
        case Quantity::kVisibility:
        case Quantity::kPrecipitation:
        case Quantity::kPrecipitationRate:
        case Quantity::kCape:
        case Quantity::kThunder:
            return at_surface(surfaces);
    }
    return std::nullopt;
}

}  // namespace

tl::expected<Level, NotUsed> level_of(const Surfaces& surfaces, const GribParameter& parameter) {
    if (parameter.level) {
        return *parameter.level;
    }
    if (parameter.total_at_ground && at_surface(surfaces)) {
        return Level{.kind = LevelKind::kWholeAtmosphere};
    }
    if (const auto level = used_level(parameter.quantity, surfaces)) {
        return *level;
    }
    return tl::unexpected(NotUsed{
        fmt::format("{} at level type {} is not used", name_of(parameter.quantity), surfaces.first.type)});
}

}  // namespace gloam::weather
