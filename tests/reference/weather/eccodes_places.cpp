// Places of all cells against ecCodes' own walk over the grid (codes_grib_get_data, ecCodes 2.28; its maps
// are its own, not GeographicLib's), on real and synthetic messages; and a map against a published table.
#include <eccodes.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <memory>
#include <numbers>

#include "geo/geodesic.hpp"
#include "weather/grib/grid.hpp"
#include "weather/projection.hpp"
#include "weather/read.hpp"

namespace gloam::weather {
namespace {

using synthetic::Bytes;
using synthetic::SyntheticGrid;
using synthetic::SyntheticMap;

constexpr double kRadians = std::numbers::pi / 180.0;

Bytes bytes_of_file(const std::string& name) {
    std::ifstream stream(GLOAM_SOURCE_DIR "/data/weather/" + name, std::ios::binary);
    const std::vector<char> chars{std::istreambuf_iterator<char>(stream), {}};
    Bytes bytes(chars.size());
    std::ranges::transform(chars, bytes.begin(), [](char c) { return static_cast<std::byte>(c); });
    return bytes;
}

Bytes on_grid(const SyntheticGrid& grid, int edition = 2) {
    return message({.edition = edition, .number = edition == 1 ? 71 : 1, .grid = grid},
                   [](double, double) { return std::optional(0.0); });
}

struct Release {
    void operator()(codes_handle* handle) const { codes_handle_delete(handle); }
};

/// Places of the values of a message, in the order of the message.
std::vector<geo::LatLon> walk_of_eccodes(const Bytes& bytes) {
    const std::unique_ptr<codes_handle, Release> handle(
        codes_handle_new_from_message_copy(nullptr, bytes.data(), bytes.size()));
    std::size_t count = 0;
    EXPECT_EQ(codes_get_size(handle.get(), "values", &count), CODES_SUCCESS);
    std::vector<double> lats(count);
    std::vector<double> lons(count);
    std::vector<double> values(count);
    EXPECT_EQ(codes_grib_get_data(handle.get(), lats.data(), lons.data(), values.data()), CODES_SUCCESS);
    std::vector<geo::LatLon> places;
    for (std::size_t i = 0; i < count; ++i) {
        places.push_back(geo::make_lat_lon(lats[i], std::remainder(lons[i], 360.0)).value());
    }
    return places;
}

geo::LatLon place_of(const RegularGrid& grid, double row, double column) {
    return geo::make_lat_lon(grid.first.lat_deg + row * grid.lat_step_deg,
                             std::remainder(grid.first.lon_deg + column * grid.lon_step_deg, 360.0))
        .value();
}
geo::LatLon place_of(const GaussianGrid& grid, double row, double column) {
    return geo::make_lat_lon(grid.lats_deg.at(static_cast<std::size_t>(row)),
                             std::remainder(grid.first_lon_deg + column * grid.lon_step_deg, 360.0))
        .value();
}
geo::LatLon place_of(const ProjectedGrid& grid, double row, double column) {
    return grid.projection->place(
        {grid.first.x_m + column * grid.step_x_m, grid.first.y_m - row * grid.step_y_m});
}
geo::LatLon place_of(const PointGrid& grid, double /*row*/, double /*column*/) {
    return grid.at;
}

/// Greatest distance of a cell from where ecCodes has it, metres; NaN if the two do not have as many.
double farthest_m(const Bytes& bytes) {
    const auto walk = walk_of_eccodes(bytes);
    const auto said = grid_of(GribHandle(bytes));
    const GribGrid& read = std::get<GribGrid>(said.value());
    if (walk.size() != cells_of(read.grid)) {
        return std::nan("");
    }
    double farthest = 0.0;
    for (std::size_t cell = 0; cell < walk.size(); ++cell) {
        const std::size_t row = cell / read.order.columns;
        const std::size_t column = cell % read.order.columns;
        const geo::LatLon ours = std::visit(
            [&](const auto& grid) {
                return place_of(grid, static_cast<double>(row), static_cast<double>(column));
            },
            read.grid);
        const geo::LatLon theirs = walk[read.order.place_of(row, column)];
        farthest = std::max(farthest, geo::separation(ours, theirs).distance_m);
    }
    return farthest;
}

TEST(PlacesOfEccodes, OnTheLambertGrid212OfARealMessage) {
    EXPECT_LT(farthest_m(bytes_of_file("grids/wrf-conus-40km-2005080700-f012-rh500.grib1")), 1e-3);
}

TEST(PlacesOfEccodes, OnTheLambertGrid211OfARealMessage) {
    EXPECT_LT(farthest_m(bytes_of_file("grids/gfs-conus-80km-2007012400-f012-rh500.grib2")), 1e-3);
}

/// Place on a polar stereographic map of the north, true to scale at 60 N on the sphere of edition 1,
/// `right_m` and `up_m` from a given one. Snyder 1987, Map Projections, USGS PP 1395, equations 21-5, 21-6,
/// 20-16 and 20-18 with the scale of 21-7 at 60 N (from memory).
geo::LatLon by_snyder(geo::LatLon from, double meridian_deg, double right_m, double up_m) {
    const double twice_radius_m = 6367470.0 * (1.0 + std::sin(60.0 * kRadians));
    const double rho_m = twice_radius_m * std::tan((45.0 - 0.5 * from.lat_deg) * kRadians);
    const double turn = (from.lon_deg - meridian_deg) * kRadians;
    const double x_m = rho_m * std::sin(turn) + right_m;
    const double y_m = -rho_m * std::cos(turn) + up_m;
    return geo::make_lat_lon(90.0 - 2.0 * std::atan(std::hypot(x_m, y_m) / twice_radius_m) / kRadians,
                             meridian_deg + std::atan2(x_m, -y_m) / kRadians)
        .value();
}

TEST(PlacesOfSnyder, OnThePolarStereographicGridOfARealMessage) {
    const Bytes bytes = bytes_of_file("grids/wrf-ens-wconus-2009123112-f024-fer-gep1-tp.grib1");
    const auto said = grid_of(GribHandle(bytes));
    const auto& grid = std::get<ProjectedGrid>(std::get<GribGrid>(said.value()).grid);
    ASSERT_EQ(grid.rows, 154U);
    ASSERT_EQ(grid.columns, 169U);
    for (double row = 0.0; row < 154.0; ++row) {
        for (double column = 0.0; column < 169.0; ++column) {
            const geo::LatLon theirs = by_snyder({31.357, -129.77}, -120.5, column * 10395.0, row * 10395.0);
            ASSERT_LT(geo::separation(place_of(grid, 153.0 - row, column), theirs).distance_m, 0.01);
        }
    }
}

TEST(PlacesOfEccodes, OnTheGaussianGridOfARealMessage) {
    EXPECT_LT(farthest_m(bytes_of_file("grids/cfs-global-t62-2006033100-f024-tcc.grib1")), 1e-3);
}

TEST(PlacesOfEccodes, OnARegularGrid) {
    EXPECT_LT(farthest_m(on_grid({})), 1e-3);
    EXPECT_LT(farthest_m(on_grid({.north_deg = 10.0, .west_deg = 170.0, .northward = true}, 1)), 1e-3);
}

TEST(PlacesOfEccodes, OnPartOfAGaussianGrid) {
    EXPECT_LT(farthest_m(on_grid({.north_deg = 70.0,
                                  .west_deg = 0.0,
                                  .step_deg = 0.28125,
                                  .gaussian_n = 320,
                                  .rows = 100,
                                  .columns = 200})),
              1e-3);
}

TEST(PlacesOfEccodes, OnLambertMapsWithTwoParallels) {
    const SyntheticMap north{.lower_left = {35.0, -10.0}, .parallel_1_deg = 35.0, .parallel_2_deg = 65.0};
    EXPECT_LT(farthest_m(on_grid({.map = north, .northward = true})), 1e-3);
}

/// Turns a field of a message to the other side of the equator.
void mirror(GribHandle& handle, const char* key) {
    EXPECT_TRUE(handle.set(key, -handle.real(key).value())) << key;
}

TEST(PlacesOfTheNorth, MirroredAreThoseOfTheSouth) {
    const SyntheticMap map{
        .lower_left = {30.0, 165.0}, .meridian_deg = 175.0, .parallel_1_deg = 30.0, .parallel_2_deg = 45.0};
    const Bytes bytes = on_grid({.map = map, .northward = true});
    GribHandle handle(bytes);
    const auto north = std::get<ProjectedGrid>(std::get<GribGrid>(grid_of(handle).value()).grid);
    for (const char* key : {"latitudeOfFirstGridPointInDegrees", "Latin1InDegrees", "Latin2InDegrees"}) {
        mirror(handle, key);
    }
    EXPECT_TRUE(handle.set("jScansPositively", 0.0));
    const auto south = std::get<ProjectedGrid>(std::get<GribGrid>(grid_of(handle).value()).grid);
    const auto last = static_cast<double>(north.rows - 1);
    for (double row = 0.0; row <= last; ++row) {
        for (double column = 0.0; column < static_cast<double>(north.columns); ++column) {
            const geo::LatLon expected = place_of(north, last - row, column);
            const geo::LatLon place = place_of(south, row, column);
            ASSERT_LT(geo::separation(place, {-expected.lat_deg, expected.lon_deg}).distance_m, 0.01);
        }
    }
}

TEST(PlacesOfEccodes, OnALambertMapOfAnEllipsoid) {
    for (const long earth : {2, 4, 5}) {  // IAU 1965, GRS 80, WGS 84
        const SyntheticMap map{.parallel_1_deg = 48.0, .parallel_2_deg = 52.0, .earth = earth};
        EXPECT_LT(farthest_m(on_grid({.map = map, .northward = true})), 1e-3) << earth;
    }
}

TEST(PlacesOfEccodes, OnPolarStereographicMapsOfBothPoles) {
    const SyntheticMap north{
        .polar = true, .lower_left = {50.0, 340.0}, .meridian_deg = 10.0, .parallel_1_deg = 70.0};
    const SyntheticMap south{
        .polar = true, .lower_left = {-66.0, 229.0}, .parallel_1_deg = -71.0, .about_south = true};
    EXPECT_LT(farthest_m(on_grid({.map = north, .northward = true})), 1e-3);
    EXPECT_LT(farthest_m(on_grid({.map = south, .northward = true})), 1e-3);
}

/// Corners of NCEP's grid 212, 185 x 129 points 40.635 km apart, as published: NCEP EMC, "The NCEP Eta model
/// horizontal output grid for GCIP/GIST" (hgrid.html, lalog212.notes), to a thousandth of a degree. Tangent
/// at 25 N, orientation 95 W, a sphere of 6371.2 km: NCEP Office Note 388, table B (from memory; grid 211 has
/// the same corners and every second point).
TEST(PublishedGrids, Ncep212And211HaveTheirCorners) {
    const auto map = lambert({{6371200.0, 0.0}, 25.0, 25.0, -95.0}).value();
    const PlanePoint first = map->plane_point({12.190, -133.459});
    struct Corner {
        double column;
        double row;
        geo::LatLon published;
    };
    for (const double coarser : {1.0, 2.0}) {
        const double step_m = coarser == 1.0 ? 40635.0 : 81271.0;  // as the headers round it
        for (const Corner& corner :
             {Corner{0.0, 128.0, {54.536, -152.856}}, Corner{184.0, 128.0, {57.290, -49.385}},
              Corner{184.0, 0.0, {14.335, -65.091}}}) {
            const geo::LatLon ours = map->place(
                {first.x_m + corner.column / coarser * step_m, first.y_m + corner.row / coarser * step_m});
            EXPECT_LT(geo::separation(ours, corner.published).distance_m, 250.0)
                << geo::to_text(ours) << " for " << geo::to_text(corner.published);
        }
    }
}

/// Rows of a Gaussian grid of 2 N rows are the roots of the Legendre polynomial of that degree.
TEST(PublishedGrids, GaussianRowsAreRootsOfALegendrePolynomial) {
    for (const long half : {32L, 47L, 160L}) {
        const auto degree = static_cast<unsigned>(2 * half);
        for (const double lat_deg : gaussian_latitudes_deg(half)) {
            const double above = std::legendre(degree, std::sin((lat_deg + 1e-6) * kRadians));
            const double below = std::legendre(degree, std::sin((lat_deg - 1e-6) * kRadians));
            EXPECT_LT(above * below, 0.0) << half << " " << lat_deg;
        }
    }
}

}  // namespace
}  // namespace gloam::weather
