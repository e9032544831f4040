#pragma once

#include <memory>
#include <string_view>

struct _PangoLayout;  // NOLINT(bugprone-reserved-identifier,readability-identifier-naming): Pango's own name

namespace gloam::sheet {

enum class Align { kLeft, kCentre, kRight };

/// How a text is set. Sizes and widths in pixels.
struct TextStyle {
    double size_px = 12.0;
    bool bold = false;
    Align align = Align::kLeft;
    double wrap_px = 0.0;  ///< wrap at this width; 0: one line
    int most_lines = 1;    ///< of a wrapped text; what does not fit ends in an ellipsis
};

/// A text, shaped and broken into lines: measured before there is a page, then put on one. Bytes that are not
/// UTF-8 become replacement characters; control characters become spaces, but for the line ends of a text
/// that is not wrapped.
class TextBlock {
  public:
    TextBlock(std::string_view text, const TextStyle& style);

    double width_px() const;
    double height_px() const;

  private:
    friend class Drawing;
    struct Release {
        void operator()(_PangoLayout* layout) const;
    };
    std::unique_ptr<_PangoLayout, Release> layout_;
};

}  // namespace gloam::sheet
