#include "sheet/text_block.hpp"

#include <pango/pangocairo.h>

#include <string>

namespace gloam::sheet {
namespace {

struct FreeDescription {
    void operator()(PangoFontDescription* font) const { pango_font_description_free(font); }
};
struct FreeOptions {
    void operator()(cairo_font_options_t* options) const { cairo_font_options_destroy(options); }
};
struct FreeContext {
    void operator()(PangoContext* context) const { g_object_unref(context); }
};
struct FreeBytes {
    void operator()(gchar* bytes) const { g_free(bytes); }
};

std::string printable(std::string_view text, bool keep_line_ends) {
    const std::unique_ptr<gchar, FreeBytes> valid(
        g_utf8_make_valid(text.data(), static_cast<gssize>(text.size())));
    std::string result(valid.get());
    for (char& c : result) {
        const bool control = static_cast<unsigned char>(c) < 0x20 || c == 0x7f;
        if (control && !(keep_line_ends && c == '\n')) {
            c = ' ';
        }
    }
    return result;
}

/// Letters stand where they would on paper, whatever they are drawn on: no hints, no rounding to pixels.
void set_exact(PangoContext* context) {
    const std::unique_ptr<cairo_font_options_t, FreeOptions> options(cairo_font_options_create());
    cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    pango_cairo_context_set_font_options(context, options.get());
    pango_cairo_context_set_resolution(context, 96.0);
    pango_context_set_language(context, pango_language_from_string("en"));
    pango_context_set_round_glyph_positions(context, FALSE);
}

PangoAlignment pango_alignment(Align align) {
    switch (align) {
        case Align::kCentre:
            return PANGO_ALIGN_CENTER;
        case Align::kRight:
            return PANGO_ALIGN_RIGHT;
        case Align::kLeft:
            break;
    }
    return PANGO_ALIGN_LEFT;
}

void set_font(PangoLayout* layout, const TextStyle& style) {
    const std::unique_ptr<PangoFontDescription, FreeDescription> font(pango_font_description_new());
    pango_font_description_set_family(font.get(), "DejaVu Sans, sans-serif");
    pango_font_description_set_weight(font.get(), style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_font_description_set_absolute_size(font.get(), style.size_px * PANGO_SCALE);
    pango_layout_set_font_description(layout, font.get());
}

void set_wrap(PangoLayout* layout, const TextStyle& style) {
    pango_layout_set_width(layout, static_cast<int>(style.wrap_px * PANGO_SCALE));
    pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
    pango_layout_set_height(layout, -style.most_lines);
    pango_layout_set_ellipsize(layout, PANGO_ELLIPSIZE_END);
}

PangoRectangle extents(PangoLayout* layout) {
    PangoRectangle logical;
    pango_layout_get_extents(layout, nullptr, &logical);
    return logical;
}

}  // namespace

void TextBlock::Release::operator()(_PangoLayout* layout) const {
    g_object_unref(layout);
}

TextBlock::TextBlock(std::string_view text, const TextStyle& style) {
    const std::unique_ptr<PangoContext, FreeContext> context(
        pango_font_map_create_context(pango_cairo_font_map_get_default()));
    set_exact(context.get());
    layout_.reset(pango_layout_new(context.get()));
    const bool wraps = style.wrap_px > 0.0;
    const std::string shown = printable(text, !wraps);
    pango_layout_set_text(layout_.get(), shown.data(), static_cast<int>(shown.size()));
    pango_layout_set_alignment(layout_.get(), pango_alignment(style.align));
    set_font(layout_.get(), style);
    if (wraps) {
        set_wrap(layout_.get(), style);
    }
}

double TextBlock::width_px() const {
    return static_cast<double>(extents(layout_.get()).width) / PANGO_SCALE;
}

double TextBlock::height_px() const {
    return static_cast<double>(extents(layout_.get()).height) / PANGO_SCALE;
}

}  // namespace gloam::sheet
