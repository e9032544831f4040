#pragma once

#include "sheet/shapes.hpp"
#include "weather/layers.hpp"

namespace gloam::sheet {

/// Colours of the drawings: neutral and dark enough for print; warm means sunlight and nothing else.
inline constexpr Colour kPaper{0.988, 0.984, 0.973};
inline constexpr Colour kInk{0.13, 0.14, 0.16};
inline constexpr Colour kQuietInk{0.37, 0.38, 0.40};
inline constexpr Colour kGuide{0.80, 0.80, 0.79};
inline constexpr Colour kGround{0.865, 0.855, 0.83};
inline constexpr Colour kGroundEdge{0.36, 0.34, 0.31};
inline constexpr Colour kSunlight{0.87, 0.36, 0.06};
inline constexpr Colour kNoLight{0.45, 0.45, 0.46};

/// Grey-blue of a cloud layer, the darker the lower.
Colour tone_of(weather::Band band);

/// The same, dark enough for small type.
Colour type_tone_of(weather::Band band);

}  // namespace gloam::sheet
