#pragma once

#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "geo/position.hpp"

namespace gloam::weather {

/// A regular latitude-longitude grid, stored row by row from `first` (row 0), west to east or as the steps
/// say.
struct RegularGrid {
    geo::LatLon first;
    double lat_step_deg = 0.0;  ///< negative: north to south
    double lon_step_deg = 0.0;  ///< positive: eastward
    std::size_t rows = 0;
    std::size_t columns = 0;
    bool wraps = false;  ///< columns go once round the Earth
};

/// A Gaussian grid, regular in longitude, its rows at latitudes of their own. Stored from north to south,
/// west to east.
struct GaussianGrid {
    std::vector<double> lats_deg;  ///< of the rows, falling
    double first_lon_deg = 0.0;
    double lon_step_deg = 0.0;  ///< positive: eastward
    std::size_t columns = 0;
    bool wraps = false;
};

/// A place on the plane of a map, metres.
struct PlanePoint {
    double x_m = 0.0;
    double y_m = 0.0;
};

/// A conformal map of the Earth onto a plane, as forecasts are computed on. Immutable; safe from any number
/// of threads.
class Projection {
  public:
    virtual ~Projection() = default;
    virtual PlanePoint plane_point(geo::LatLon place) const = 0;
    virtual geo::LatLon place(PlanePoint point) const = 0;
    virtual std::string name() const = 0;  ///< "Lambert", "polar stereographic"
    virtual bool same_as(const Projection& other) const = 0;
};

/// A grid that is regular on a map. Stored row by row from the greatest y down, by rising x.
struct ProjectedGrid {
    std::shared_ptr<const Projection> projection;
    PlanePoint first;       ///< row 0, column 0
    double step_x_m = 0.0;  ///< positive
    double step_y_m = 0.0;  ///< positive: each row lies this much below the last
    std::size_t rows = 0;
    std::size_t columns = 0;
};

/// No grid: the one column of a point forecast. It holds within 25 km.
struct PointGrid {
    geo::LatLon at;
};

using Grid = std::variant<RegularGrid, GaussianGrid, ProjectedGrid, PointGrid>;

std::size_t rows_of(const Grid& grid);
std::size_t columns_of(const Grid& grid);
std::size_t cells_of(const Grid& grid);

/// Whether two fields can be read cell by cell together (steps and corners within 1e-6 degrees, or a metre on
/// a map).
bool same_grid(const Grid& one, const Grid& other);

/// "1 deg, 360 x 181, whole Earth"; "Lambert, 40.6 km, 185 x 129".
std::string to_text(const Grid& grid);

/// The place of the cell in the middle.
geo::LatLon centre_of(const Grid& grid);

/// Whether the grid is one column: what lies up-sun is not in it.
bool is_point(const Grid& grid);

/// The four cells round a point and their bilinear weights, which add up to 1. A cell of weight 0 counts for
/// nothing.
struct CellWeights {
    std::array<std::size_t, 4> cell{};
    std::array<double, 4> weight{};
};

/// Weights at a point; absent outside the grid. A grid that goes round the Earth wraps, and its outermost
/// rows hold up to a pole less than a row away. The grid must have two rows and columns at least, or be a
/// point.
std::optional<CellWeights> weights_at(const Grid& grid, geo::LatLon point);

}  // namespace gloam::weather
