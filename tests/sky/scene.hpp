#pragma once

#include <numbers>
#include <utility>

#include "sky/cloud_field.hpp"
#include "sky/embedded_tables.hpp"
#include "sky/panorama.hpp"
#include "sky/sky_tables.hpp"

namespace gloam::test {

/// The tables of this build.
inline const sky::SkyTables& tables() {
    static const sky::SkyTables kTables = sky::unpack_sky_tables(sky::embedded_tables()).value();
    return kTables;
}

/// Air in which docs/sky.md states its reference numbers.
inline const sky::Air& default_air() {
    static const sky::Air kAir(tables(), sky::Atmosphere{});
    return kAir;
}

/// The same with another amount of aerosol, and its scale height.
inline sky::Air air_with_aerosol(double depth_550, double scale_height_m = 1500.0) {
    sky::Atmosphere atmosphere;
    atmosphere.aerosol_depth_550 = depth_550;
    atmosphere.aerosol_scale_height_m = scale_height_m;
    return {tables(), atmosphere};
}

inline double zenith_rad(double elevation_deg) {
    return (90.0 - elevation_deg) * std::numbers::pi / 180.0;
}

inline sky::SunState sun_at(double elevation_deg) {
    return {Angle::degrees(elevation_deg), 1.0};
}

/// No edge: the cover is the same along the whole path.
inline constexpr double kNoEdge_km = 1e4;

/// A layer with one cover from behind the viewer to its edge towards the sun, and nothing beyond.
inline sky::CloudLayer layer(sky::CloudClass kind, double base_m, double top_m, double cover,
                             double edge_km = kNoEdge_km) {
    using Grid = geo::LightPathGrid;
    sky::CloudLayer result{kind, sky::cloud_optics(kind), base_m, top_m, {}};
    for (auto& line : result.cover) {
        for (std::size_t i = 0; i < Grid::kPoints; ++i) {
            const double along_m = Grid::kFirst_m + static_cast<double>(i) * Grid::kStep_m;
            line[i] = along_m <= edge_km * 1e3 ? static_cast<float>(cover) : 0.0F;
        }
    }
    return result;
}

inline sky::CloudLayer low_layer(double cover, double edge_km = kNoEdge_km) {
    return layer(sky::CloudClass::kLow, 1000.0, 2000.0, cover, edge_km);
}
inline sky::CloudLayer middle_layer(double cover, double edge_km = kNoEdge_km, double base_m = 4000.0) {
    return layer(sky::CloudClass::kMiddle, base_m, base_m + 600.0, cover, edge_km);
}
inline sky::CloudLayer high_layer(double cover, double edge_km = kNoEdge_km) {
    return layer(sky::CloudClass::kHigh, 9000.0, 10000.0, cover, edge_km);
}

}  // namespace gloam::test
