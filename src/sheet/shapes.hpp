#pragma once

namespace gloam::sheet {

/// A place on the page, pixels, right and down from the upper left corner.
struct Point {
    double x = 0.0;
    double y = 0.0;
};

/// A straight stroke.
struct Stroke {
    Point from;
    Point to;
};

/// Components 0..1, sRGB; alpha 1 is opaque.
struct Colour {
    double red = 0.0;
    double green = 0.0;
    double blue = 0.0;
    double alpha = 1.0;
};

/// How a line is drawn: solid, or dashes and gaps of `dash_px`.
struct Line {
    Colour colour;
    double width_px = 1.0;
    double dash_px = 0.0;
};

}  // namespace gloam::sheet
