#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

/// What a test sees of a drawing's bytes.
namespace gloam::sheet {

/// A decoded PNG, row by row, 0xRRGGBB.
struct Picture {
    int width = 0;
    int height = 0;
    std::vector<std::uint32_t> pixels;
};

/// An empty picture if the bytes are no PNG.
Picture decode_png(std::span<const std::byte> bytes);

/// Mean darkness, 0 white to 1 black.
double darkness(const Picture& picture);

/// Number of pixels in the warm colour that means sunlight.
int warm_pixels(const Picture& picture);

std::string as_text(std::span<const std::byte> bytes);

/// Whether every element of an XML text is closed, in order, and nothing stands after the root.
bool is_balanced_xml(const std::string& text);

}  // namespace gloam::sheet
