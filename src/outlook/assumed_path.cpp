#include "outlook/assumed_path.hpp"

#include <algorithm>

namespace gloam::outlook {

PathLayers assume(PathLayers layers, AssumedPath path, double believed_m) {
    using Grid = weather::LightPathGrid;
    if (path == AssumedPath::kAsForecast) {
        return layers;
    }
    const double first = (believed_m - Grid::kFirst_m) / Grid::kStep_m;
    const auto from = static_cast<std::ptrdiff_t>(std::clamp(first, 0.0, double{Grid::kPoints}));
    for (weather::LightPathLayer& layer : layers) {
        for (auto& line : layer.cover) {
            std::fill(line.begin() + from, line.end(), path == AssumedPath::kShut ? 1.0F : 0.0F);
        }
    }
    return layers;
}

}  // namespace gloam::outlook
