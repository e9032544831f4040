#include "sheet/sky_light.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "base/check.hpp"

namespace gloam::sheet {
namespace {

using Node = SkyLights::Node;

constexpr double kPi = std::numbers::pi;
constexpr std::size_t kRows = 32;
constexpr std::size_t kColumns = 96;
/// Columns either way over which the lit share slides: 22.5 deg.
constexpr std::size_t kSlide = 6;
constexpr double kDark_cd_m2 = 1e-12;

// Places of a layer's values in a node.
constexpr std::size_t kFirstLayer = 3;
constexpr std::size_t kPerLayer = 8;
constexpr std::size_t kClosed = 0;
constexpr std::size_t kLitShare = 1;
constexpr std::size_t kLit = 2;
constexpr std::size_t kUnlit = 5;

constexpr std::size_t place_of(std::size_t layer, std::size_t value) {
    return kFirstLayer + kPerLayer * layer + value;
}

void put_light(Node& node, std::size_t at, const sky::Xyz& light) {
    node[at] = std::log(std::max(light.x, kDark_cd_m2));
    node[at + 1] = std::log(std::max(light.y, kDark_cd_m2));
    node[at + 2] = std::log(std::max(light.z, kDark_cd_m2));
}

sky::Xyz light_at(const Node& node, std::size_t at) {
    return {std::exp(node[at]), std::exp(node[at + 1]), std::exp(node[at + 2])};
}

/// What a cell says of one part; absent where the part is hidden or not there.
struct CellPart {
    double share = 0.0;
    std::optional<sky::Xyz> light;
};

CellPart part_of(const sky::PanoramaCell& cell, std::size_t layer, bool lit) {
    for (std::size_t i = 0; i < cell.count; ++i) {
        const sky::Patch& patch = cell.patches[i];
        if (patch.layer == layer && patch.lit == lit) {
            return {patch.share, patch.light};
        }
    }
    return {};
}

/// Values of a part over the grid, of which some cells may say nothing.
using Known = std::vector<bool>;

std::array<std::size_t, 4> neighbours(std::size_t cell) {
    const std::size_t row = cell / kColumns;
    const std::size_t column = cell % kColumns;
    return {(row + 1 < kRows ? row + 1 : row) * kColumns + column,
            (row > 0 ? row - 1 : row) * kColumns + column, row * kColumns + (column + 1) % kColumns,
            row * kColumns + (column + kColumns - 1) % kColumns};
}

/// Cells that say nothing of values [from, to) take the mean of their neighbours, from the known ones
/// outwards; nothing is seen of them but where values are drawn between them and a known cell.
void spread_known(std::vector<Node>& nodes, Known known, std::size_t from, std::size_t to) {
    while (std::find(known.begin(), known.end(), true) != known.end() &&
           std::find(known.begin(), known.end(), false) != known.end()) {
        Known next = known;
        for (std::size_t cell = 0; cell < nodes.size(); ++cell) {
            if (known[cell]) {
                continue;
            }
            double count = 0.0;
            Node sum{};
            for (const std::size_t other : neighbours(cell)) {
                if (known[other]) {
                    count += 1.0;
                    for (std::size_t i = from; i < to; ++i) {
                        sum[i] += nodes[other][i];
                    }
                }
            }
            if (count > 0.0) {
                next[cell] = true;
                for (std::size_t i = from; i < to; ++i) {
                    nodes[cell][i] = sum[i] / count;
                }
            }
        }
        known = std::move(next);
    }
}

void take_clear_air(std::vector<Node>& nodes, const sky::Panorama& panorama) {
    Known known;
    for (std::size_t cell = 0; cell < nodes.size(); ++cell) {
        const CellPart clear = part_of(panorama.cells[cell], sky::Patch::kClearAir, false);
        known.push_back(clear.light.has_value());
        put_light(nodes[cell], 0, clear.light.value_or(panorama.cells[cell].mean()));
    }
    spread_known(nodes, std::move(known), 0, kFirstLayer);
}

void take_layer(std::vector<Node>& nodes, const sky::Panorama& panorama, std::size_t layer,
                std::vector<double>& rest) {
    constexpr double kHidden = 1e-9;
    Known known;
    Known known_light;
    for (std::size_t cell = 0; cell < nodes.size(); ++cell) {
        const CellPart lit = part_of(panorama.cells[cell], layer, true);
        const CellPart unlit = part_of(panorama.cells[cell], layer, false);
        const double share = lit.share + unlit.share;
        known.push_back(rest[cell] > kHidden);
        known_light.push_back(lit.light && unlit.light);
        Node& node = nodes[cell];
        if (known.back()) {
            node[place_of(layer, kClosed)] = share / rest[cell];
        }
        if (known_light.back()) {
            node[place_of(layer, kLitShare)] = lit.share / share;
            put_light(node, place_of(layer, kLit), *lit.light);
            put_light(node, place_of(layer, kUnlit), *unlit.light);
        }
        rest[cell] -= share;
    }
    spread_known(nodes, std::move(known), place_of(layer, kClosed), place_of(layer, kLitShare));
    spread_known(nodes, std::move(known_light), place_of(layer, kLitShare), place_of(layer + 1, 0));
}

void slide_lit_share(std::vector<Node>& nodes, std::size_t layer) {
    const std::vector<Node> before = nodes;
    const std::size_t at = place_of(layer, kLitShare);
    for (std::size_t cell = 0; cell < nodes.size(); ++cell) {
        const std::size_t row = cell / kColumns * kColumns;
        double sum = 0.0;
        for (std::size_t i = 0; i <= 2 * kSlide; ++i) {
            sum += before[row + (cell - row + kColumns + i - kSlide) % kColumns][at];
        }
        const double share = sum / (2 * kSlide + 1);
        if (share > 0.0) {
            const sky::Xyz unlit = light_at(nodes[cell], place_of(layer, kUnlit));
            const sky::Xyz more = light_at(nodes[cell], place_of(layer, kLit)) + unlit * -1.0;
            put_light(nodes[cell], place_of(layer, kLit), unlit + more * (nodes[cell][at] / share));
            nodes[cell][at] = share;
        }
    }
}

/// Catmull-Rom weights of four neighbours, `share` of the way from the second to the third.
std::array<double, 4> cubic_weights(double share) {
    const double s2 = share * share;
    const double s3 = s2 * share;
    return {0.5 * (2.0 * s2 - s3 - share), 0.5 * (3.0 * s3 - 5.0 * s2 + 2.0),
            0.5 * (4.0 * s2 - 3.0 * s3 + share), 0.5 * (s3 - s2)};
}

}  // namespace

sky::PanoramaGrid drawing_grid() {
    sky::PanoramaGrid grid;
    for (std::size_t i = 0; i < kRows; ++i) {
        const double root = (static_cast<double>(i) + 0.5) / kRows;
        grid.elevations.push_back(Angle::degrees(90.0 * root * root));
    }
    for (std::size_t i = 0; i < kColumns; ++i) {
        grid.azimuths.push_back(Angle::degrees(360.0 / kColumns * (static_cast<double>(i) + 1.0) - 180.0));
    }
    return grid;
}

sky::Xyz SkyLight::mean() const {
    sky::Xyz sum;
    double rest = 1.0;
    for (std::size_t k = 0; k < layer_count; ++k) {
        const LayerLight& layer = layers[k];
        sum = sum +
              (layer.lit * layer.lit_share + layer.unlit * (1.0 - layer.lit_share)) * (rest * layer.closed);
        rest *= 1.0 - layer.closed;
    }
    return sum + clear * rest;
}

SkyLights::SkyLights(const sky::Panorama& panorama, std::size_t layer_count)
    : layer_count_(layer_count), nodes_(kRows * kColumns) {
    GLOAM_CHECK(panorama.cells.size() == nodes_.size());
    GLOAM_CHECK(layer_count <= SkyLight::kMostLayers);
    take_clear_air(nodes_, panorama);
    std::vector<double> rest(nodes_.size(), 1.0);
    for (std::size_t k = 0; k < layer_count; ++k) {
        take_layer(nodes_, panorama, k, rest);
        slide_lit_share(nodes_, k);
    }
}

SkyLight SkyLights::at(const SkyDirection& direction) const {
    const double root = std::sqrt(std::clamp(direction.elevation_rad / (kPi / 2.0), 0.0, 1.0));
    const double row = std::clamp(root * kRows - 0.5, 0.0, kRows - 1.0);
    const double turns = direction.azimuth_rad / (2.0 * kPi) + 0.5;
    const double column = (turns - std::floor(turns)) * kColumns + (kColumns - 1.0);
    const auto first_row = static_cast<std::ptrdiff_t>(row) - 1;
    const auto first_column = static_cast<std::size_t>(column) - 1;
    const auto row_weights = cubic_weights(row - std::floor(row));
    const auto column_weights = cubic_weights(column - std::floor(column));
    Node node{};
    const std::size_t count = place_of(layer_count_, 0);
    for (std::ptrdiff_t i = 0; i < 4; ++i) {
        const auto r = static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(first_row + i, 0, kRows - 1));
        for (std::size_t j = 0; j < 4; ++j) {
            const Node& other = nodes_[r * kColumns + (first_column + j) % kColumns];
            const double weight = row_weights[static_cast<std::size_t>(i)] * column_weights[j];
            for (std::size_t v = 0; v < count; ++v) {
                node[v] += weight * other[v];
            }
        }
    }
    SkyLight light;
    light.layer_count = layer_count_;
    light.clear = light_at(node, 0);
    for (std::size_t k = 0; k < layer_count_; ++k) {
        light.layers[k] = {std::clamp(node[place_of(k, kClosed)], 0.0, 1.0),
                           std::clamp(node[place_of(k, kLitShare)], 0.0, 1.0),
                           light_at(node, place_of(k, kLit)), light_at(node, place_of(k, kUnlit))};
    }
    return light;
}

double adapting_luminance(const sky::Panorama& panorama) {
    constexpr double kTop_deg = 54.0;
    double sum = 0.0;
    double total = 0.0;
    for (std::size_t cell = 0; cell < panorama.cells.size(); ++cell) {
        const std::size_t row = cell / panorama.grid.azimuths.size();
        const double elevation_rad = panorama.grid.elevations[row].radians();
        if (panorama.grid.elevations[row].degrees() > kTop_deg) {
            continue;
        }
        // Rows are evenly spaced in the root of the elevation.
        const double solid_angle = std::cos(elevation_rad) * std::sqrt(elevation_rad);
        for (std::size_t i = 0; i < panorama.cells[cell].count; ++i) {
            const sky::Patch& patch = panorama.cells[cell].patches[i];
            sum += solid_angle * patch.share * std::log(std::max(patch.light.y, kDark_cd_m2));
            total += solid_angle * patch.share;
        }
    }
    return std::exp(sum / total);
}

}  // namespace gloam::sheet
