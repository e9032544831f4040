#include "weather/projection.hpp"

#include <fmt/format.h>

#include <GeographicLib/LambertConformalConic.hpp>
#include <GeographicLib/PolarStereographic.hpp>
#include <cmath>

#include "base/check.hpp"

namespace gloam::weather {
namespace {

/// Longitudes come back from the maps in [-180, 180].
geo::LatLon normalised(double lat_deg, double lon_deg) {
    const auto place = geo::make_lat_lon(lat_deg, lon_deg);
    GLOAM_CHECK(place.has_value());
    return *place;
}

class Lambert final : public Projection {
  public:
    explicit Lambert(const LambertMap& map)
        : map_(map),
          conic_(map.earth.equatorial_radius_m, map.earth.flattening, map.parallel_1_deg, map.parallel_2_deg,
                 1.0) {}

    PlanePoint plane_point(geo::LatLon place) const override {
        PlanePoint point;
        conic_.Forward(map_.meridian_deg, place.lat_deg, place.lon_deg, point.x_m, point.y_m);
        return point;
    }

    geo::LatLon place(PlanePoint point) const override {
        double lat_deg = 0.0;
        double lon_deg = 0.0;
        conic_.Reverse(map_.meridian_deg, point.x_m, point.y_m, lat_deg, lon_deg);
        return normalised(lat_deg, lon_deg);
    }

    std::string name() const override { return "Lambert"; }

    bool same_as(const Projection& other) const override {
        const auto* lambert = dynamic_cast<const Lambert*>(&other);
        return lambert != nullptr && lambert->map_ == map_;
    }

  private:
    LambertMap map_;
    GeographicLib::LambertConformalConic conic_;
};

class PolarStereographic final : public Projection {
  public:
    explicit PolarStereographic(const PolarMap& map)
        : map_(map), plane_(map.earth.equatorial_radius_m, map.earth.flattening, 1.0) {
        plane_.SetScale(std::abs(map.true_lat_deg));
    }

    PlanePoint plane_point(geo::LatLon place) const override {
        PlanePoint point;
        plane_.Forward(!map_.about_south, place.lat_deg, place.lon_deg - map_.meridian_deg, point.x_m,
                       point.y_m);
        return point;
    }

    geo::LatLon place(PlanePoint point) const override {
        double lat_deg = 0.0;
        double lon_deg = 0.0;
        plane_.Reverse(!map_.about_south, point.x_m, point.y_m, lat_deg, lon_deg);
        return normalised(lat_deg, lon_deg + map_.meridian_deg);
    }

    std::string name() const override { return "polar stereographic"; }

    bool same_as(const Projection& other) const override {
        const auto* polar = dynamic_cast<const PolarStereographic*>(&other);
        return polar != nullptr && polar->map_ == map_;
    }

  private:
    PolarMap map_;
    GeographicLib::PolarStereographic plane_;
};

template <class Kind, class Map>
ProjectionResult made(Map map) {
    const auto meridian = geo::make_lat_lon(0.0, map.meridian_deg);
    if (!meridian) {
        return tl::unexpected<std::string>("the meridian of the map is none");
    }
    map.meridian_deg = meridian->lon_deg;
    try {
        return std::make_shared<const Kind>(map);
    } catch (const GeographicLib::GeographicErr& error) {
        return tl::unexpected(fmt::format("there is no such map ({})", error.what()));
    }
}

}  // namespace

ProjectionResult lambert(const LambertMap& map) {
    return made<Lambert>(map);
}

ProjectionResult polar_stereographic(const PolarMap& map) {
    return made<PolarStereographic>(map);
}

}  // namespace gloam::weather
