#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "sheet/sky_display.hpp"

namespace gloam::sheet {

enum class PngDepth { k8 = 8, k16 = 16 };

/// The picture as the bytes of a PNG in sRGB, with `description` as its text chunk. With 8 bits the rounding
/// is dithered by fixed noise of one step, so that smooth skies do not band. The same picture gives the same
/// bytes.
Result<std::vector<std::byte>> to_png(const DisplayPicture& picture, PngDepth depth,
                                      const std::string& description);

}  // namespace gloam::sheet
