#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include "base/error.hpp"
#include "sheet/shapes.hpp"
#include "sheet/sky_display.hpp"
#include "sheet/text_block.hpp"

struct _cairo;  // NOLINT(bugprone-reserved-identifier,readability-identifier-naming): Cairo's own name

namespace gloam::sheet {

enum class DrawingFormat { kSvg, kPng };

/// A page to draw on, the same for every format. The same calls give the same bytes.
class Drawing {
  public:
    /// A page of whole pixels, filled with `paper`.
    Drawing(DrawingFormat format, int width_px, int height_px, Colour paper);

    void fill(std::span<const Point> outline, Colour colour);
    void disc(Point centre, double radius_px, Colour colour);
    void polyline(std::span<const Point> points, const Line& line);
    void strokes(std::span<const Stroke> strokes, const Line& line);

    /// Puts the upper left corner of a picture at `at`, a pixel on a pixel.
    void put(const DisplayPicture& picture, Point at);

    /// Puts the upper left corner of `text` at `at`.
    void put(const TextBlock& text, Point at, Colour colour);
    /// As put(), with a rim of `rim_px` in `rim_colour` that keeps what lies behind off the letters.
    void put_rimmed(const TextBlock& text, Point at, Colour colour, Colour rim_colour, double rim_px);

    /// The bytes of the file; call it once, last.
    Result<std::vector<std::byte>> finish();

  private:
    struct Release {
        void operator()(_cairo* cairo) const;
    };
    DrawingFormat format_;
    std::unique_ptr<std::vector<std::byte>> bytes_;  ///< Cairo keeps its address
    std::unique_ptr<_cairo, Release> cairo_;
};

}  // namespace gloam::sheet
