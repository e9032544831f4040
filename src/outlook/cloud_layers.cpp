#include "outlook/cloud_layers.hpp"

#include <algorithm>
#include <cmath>

namespace gloam::outlook {
namespace {

constexpr double kLeastBase_m = 100.0;
constexpr double kLeastThickness_m = 100.0;

sky::CloudClass class_of(weather::Band band) {
    switch (band) {
        case weather::Band::kLow:
            return sky::CloudClass::kLow;
        case weather::Band::kMiddle:
            return sky::CloudClass::kMiddle;
        case weather::Band::kHigh:
            break;
    }
    return sky::CloudClass::kHigh;
}

weather::LightPathGrid::Values in_power(weather::LightPathGrid::Values cover, double power) {
    if (power != 1.0) {
        for (auto& line : cover) {
            for (float& value : line) {
                value = static_cast<float>(std::pow(static_cast<double>(value), power));
            }
        }
    }
    return cover;
}

}  // namespace

std::vector<sky::CloudLayer> cloud_layers(const PathLayers& layers, const MemberDraw& draw,
                                          std::optional<weather::Band> only) {
    std::vector<sky::CloudLayer> scene;
    for (const weather::Band band : weather::kBands) {
        if (only && *only != band) {
            continue;
        }
        const weather::LightPathLayer& layer = layers[weather::index_of(band)];
        const double shift_m = draw.base_shift * layer.base_spread_m;
        sky::CloudLayer cloud;
        cloud.kind = class_of(band);
        cloud.optics = sky::cloud_optics(cloud.kind, draw.depth_factor);
        cloud.base_m = std::max(kLeastBase_m, layer.base_m + shift_m);
        cloud.top_m = std::max(cloud.base_m + kLeastThickness_m, layer.top_m + shift_m);
        cloud.cover = in_power(layer.cover, draw.cover_power);
        scene.push_back(cloud);
    }
    return scene;
}

}  // namespace gloam::outlook
