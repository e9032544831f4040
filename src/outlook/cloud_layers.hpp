#pragma once

#include <array>
#include <optional>
#include <vector>

#include "outlook/neighbourhood.hpp"
#include "sky/cloud_field.hpp"
#include "weather/light_path.hpp"

namespace gloam::outlook {

using PathLayers = std::array<weather::LightPathLayer, 3>;

/// The layers of one member as the sky model wants them, from low to high. `only`: keep this band alone
/// (total cover assumed to lie in it).
std::vector<sky::CloudLayer> cloud_layers(const PathLayers& layers, const MemberDraw& draw,
                                          std::optional<weather::Band> only);

}  // namespace gloam::outlook
