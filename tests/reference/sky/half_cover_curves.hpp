#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace gloam::test {

/// Colour strength against cover for one layer alone.
struct CoverCurve {
    std::string layer;         ///< low, middle or high
    double edge_km = 0.0;      ///< where the cloud ends towards the sun; 0: it does not
    double cell_factor = 1.0;  ///< on the cell length D
    std::vector<double> cover;
    std::vector<double> after;  ///< best with the sun from -6 to -0.5 deg
    std::vector<double> gold;   ///< best with the sun from -0.5 to +3 deg
};

/// All curves of docs/half-cover.md from the engine.
std::vector<CoverCurve> compute_cover_curves();

/// As a table: layer,edge_km,cell_factor,cover,after,gold; no edge is an empty field.
std::string to_csv(const std::vector<CoverCurve>& curves);
std::vector<CoverCurve> from_csv(std::string_view csv);

/// As a drawing: a row for after and one for gold, a panel a layer.
std::string to_svg(const std::vector<CoverCurve>& curves);

}  // namespace gloam::test
