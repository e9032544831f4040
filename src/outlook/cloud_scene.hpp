#pragma once

#include <array>
#include <optional>

#include "outlook/neighbourhood.hpp"
#include "sky/cloud_field.hpp"
#include "weather/light_path.hpp"

namespace gloam::outlook {

using PathLayers = std::array<weather::LightPathLayer, 3>;

/// The cloud of one member as the sky model wants it. `only`: keep this band alone (total cover assumed to
/// lie in it).
sky::CloudField cloud_scene(const PathLayers& layers, const MemberDraw& draw,
                            std::optional<weather::Band> only);

}  // namespace gloam::outlook
