#include "sheet/drawing.hpp"

#include <cairo-svg.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <new>
#include <numbers>
#include <string>
#include <string_view>
#include <utility>

namespace gloam::sheet {
namespace {

using Bytes = std::vector<std::byte>;

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
    try {
        const auto from = std::as_bytes(std::span(data, length));
        auto& bytes = *static_cast<Bytes*>(closure);
        bytes.insert(bytes.end(), from.begin(), from.end());
        return CAIRO_STATUS_SUCCESS;
    } catch (const std::bad_alloc&) {
        return CAIRO_STATUS_NO_MEMORY;
    }
}

cairo_surface_t* surface_for(DrawingFormat format, int width_px, int height_px, Bytes* bytes) {
    if (format == DrawingFormat::kPng) {
        return cairo_image_surface_create(CAIRO_FORMAT_RGB24, width_px, height_px);
    }
    cairo_surface_t* surface = cairo_svg_surface_create_for_stream(append, bytes, width_px, height_px);
    cairo_svg_surface_set_document_unit(surface, CAIRO_SVG_UNIT_PX);
    return surface;
}

void set_colour(cairo_t* cairo, Colour colour) {
    cairo_set_source_rgba(cairo, colour.red, colour.green, colour.blue, colour.alpha);
}

void set_line(cairo_t* cairo, const Line& line) {
    set_colour(cairo, line.colour);
    cairo_set_line_width(cairo, line.width_px);
    cairo_set_dash(cairo, &line.dash_px, line.dash_px > 0.0 ? 1 : 0, 0.0);
}

void trace(cairo_t* cairo, std::span<const Point> points) {
    for (const Point& p : points) {
        cairo_line_to(cairo, p.x, p.y);
    }
}

/// Cairo numbers the surfaces of a process and writes the number into an SVG's group: the one thing that
/// would differ from drawing to drawing.
void drop_serial_number(Bytes& svg) {
    constexpr std::string_view kBefore = "<g id=\"surface";
    const auto before = std::as_bytes(std::span(kBefore));
    const auto at = std::search(svg.begin(), svg.end(), before.begin(), before.end());
    if (at == svg.end()) {
        return;
    }
    const auto number = at + static_cast<std::ptrdiff_t>(before.size());
    svg.erase(number, std::find(number, svg.end(), std::byte{'"'}));
}

}  // namespace

void Drawing::Release::operator()(_cairo* cairo) const {
    cairo_destroy(cairo);
}

Drawing::Drawing(DrawingFormat format, int width_px, int height_px, Colour paper)
    : format_(format), bytes_(std::make_unique<Bytes>()) {
    cairo_surface_t* surface = surface_for(format, width_px, height_px, bytes_.get());
    cairo_.reset(cairo_create(surface));
    cairo_surface_destroy(surface);  // the context holds it
    set_colour(cairo_.get(), paper);
    cairo_paint(cairo_.get());
}

void Drawing::fill(std::span<const Point> outline, Colour colour) {
    trace(cairo_.get(), outline);
    set_colour(cairo_.get(), colour);
    cairo_fill(cairo_.get());
}

void Drawing::disc(Point centre, double radius_px, Colour colour) {
    cairo_new_path(cairo_.get());
    cairo_arc(cairo_.get(), centre.x, centre.y, radius_px, 0.0, 2.0 * std::numbers::pi);
    set_colour(cairo_.get(), colour);
    cairo_fill(cairo_.get());
}

void Drawing::polyline(std::span<const Point> points, const Line& line) {
    trace(cairo_.get(), points);
    set_line(cairo_.get(), line);
    cairo_stroke(cairo_.get());
}

void Drawing::strokes(std::span<const Stroke> strokes, const Line& line) {
    for (const Stroke& s : strokes) {
        cairo_move_to(cairo_.get(), s.from.x, s.from.y);
        cairo_line_to(cairo_.get(), s.to.x, s.to.y);
    }
    set_line(cairo_.get(), line);
    cairo_stroke(cairo_.get());
}

void Drawing::put(const DisplayPicture& picture, Point at) {
    cairo_surface_t* image =
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, picture.width_px, picture.height_px);
    const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(image));
    unsigned char* const data = cairo_image_surface_get_data(image);
    const auto width = static_cast<std::size_t>(picture.width_px);
    const auto code = [](double value) { return static_cast<std::uint32_t>(std::lround(255.0 * value)); };
    for (std::size_t i = 0; i < picture.pixels.size(); ++i) {
        const DisplayColour& colour = picture.pixels[i];
        const std::uint32_t pixel = code(colour[0]) << 16U | code(colour[1]) << 8U | code(colour[2]);
        std::memcpy(data + i / width * stride + i % width * sizeof(pixel), &pixel, sizeof(pixel));
    }
    cairo_surface_mark_dirty(image);
    cairo_set_source_surface(cairo_.get(), image, at.x, at.y);
    cairo_paint(cairo_.get());
    cairo_surface_destroy(image);
}

void Drawing::put(const TextBlock& text, Point at, Colour colour) {
    cairo_move_to(cairo_.get(), at.x, at.y);
    set_colour(cairo_.get(), colour);
    pango_cairo_show_layout(cairo_.get(), text.layout_.get());
    cairo_new_path(cairo_.get());
}

void Drawing::put_rimmed(const TextBlock& text, Point at, Colour colour, Colour rim_colour, double rim_px) {
    cairo_move_to(cairo_.get(), at.x, at.y);
    pango_cairo_layout_path(cairo_.get(), text.layout_.get());
    cairo_set_line_join(cairo_.get(), CAIRO_LINE_JOIN_ROUND);
    set_line(cairo_.get(), {rim_colour, 2.0 * rim_px});
    cairo_stroke(cairo_.get());
    put(text, at, colour);
}

Result<std::vector<std::byte>> Drawing::finish() {
    cairo_surface_t* surface = cairo_get_target(cairo_.get());
    cairo_status_t status = cairo_status(cairo_.get());
    if (status == CAIRO_STATUS_SUCCESS && format_ == DrawingFormat::kPng) {
        status = cairo_surface_write_to_png_stream(surface, append, bytes_.get());
    }
    cairo_surface_finish(surface);
    if (status == CAIRO_STATUS_SUCCESS) {
        status = cairo_surface_status(surface);
    }
    if (status != CAIRO_STATUS_SUCCESS) {
        return fail(ErrorKind::kInternal,
                    std::string("the drawing could not be written: ") + cairo_status_to_string(status));
    }
    if (format_ == DrawingFormat::kSvg) {
        drop_serial_number(*bytes_);
    }
    return std::move(*bytes_);
}

}  // namespace gloam::sheet
