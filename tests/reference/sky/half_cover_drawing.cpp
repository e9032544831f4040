// Draws the curves of docs/half-cover.md: small panels, one scale, lines named once.
#include <fmt/format.h>

#include <array>

#include "reference/sky/half_cover_curves.hpp"

namespace gloam::test {
namespace {

constexpr double kPanelWidth = 250.0;
constexpr double kPanelHeight = 200.0;
constexpr double kLeft = 52.0;
constexpr double kTop = 92.0;
constexpr double kGapX = 22.0;
constexpr double kGapY = 46.0;
constexpr double kMostStrength = 60.0;
constexpr double kWidth = kLeft + 3 * kPanelWidth + 2 * kGapX + 20.0;
constexpr double kHeight = kTop + 2 * kPanelHeight + kGapY + 52.0;

struct Line {
    double edge_km;
    const char* name;
    const char* colour;
};
constexpr std::array<Line, 4> kLines{{{0.0, "no gap", "#1f2937"},
                                      {60.0, "open beyond 60 km", "#d97706"},
                                      {150.0, "open beyond 150 km", "#be123c"},
                                      {250.0, "open beyond 250 km", "#6d28d9"}}};

/// Place of one panel on the page.
struct Panel {
    double x0, y0;  ///< upper left

    double x(double cover) const { return x0 + cover * kPanelWidth; }
    double y(double strength) const { return y0 + kPanelHeight * (1.0 - strength / kMostStrength); }
};

std::string text(double x, double y, std::string_view anchor, std::string_view style,
                 std::string_view words) {
    return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"{}\" {}>{}</text>\n", x, y, anchor,
                       style, words);
}

std::string points(const Panel& panel, const std::vector<double>& cover, const std::vector<double>& value) {
    std::string list;
    for (std::size_t i = 0; i < cover.size(); ++i) {
        list += fmt::format("{}{:.1f},{:.1f}", i == 0 ? "" : " ", panel.x(cover[i]), panel.y(value[i]));
    }
    return list;
}

std::string axes(const Panel& panel, bool first_column, bool last_row) {
    std::string svg;
    for (double strength = 0.0; strength <= kMostStrength; strength += 10.0) {
        svg += fmt::format("<line x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\" stroke=\"{}\"/>\n",
                           panel.x(0), panel.y(strength), panel.x(1), panel.y(strength),
                           strength == 0.0 ? "#6b7280" : "#e5e7eb");
        if (first_column) {
            svg += text(panel.x0 - 6, panel.y(strength) + 4, "end", "class=\"s\"",
                        fmt::format("{:.0f}", strength));
        }
    }
    for (int quarter = 0; last_row && quarter <= 4; ++quarter) {
        svg += text(panel.x(quarter / 4.0), panel.y(0) + 15, "middle", "class=\"s\"",
                    quarter % 4 == 0 ? fmt::format("{}", quarter / 4) : fmt::format("{:.2f}", quarter / 4.0));
    }
    return svg;
}

const CoverCurve* find(const std::vector<CoverCurve>& curves, std::string_view layer, double edge_km,
                       double factor) {
    for (const CoverCurve& curve : curves) {
        if (curve.layer == layer && curve.edge_km == edge_km && curve.cell_factor == factor) {
            return &curve;
        }
    }
    return nullptr;
}

const std::vector<double>& values(const CoverCurve& curve, bool after) {
    return after ? curve.after : curve.gold;
}

/// The band between half and twice the cell length, without a gap.
std::string band(const Panel& panel, const std::vector<CoverCurve>& curves, std::string_view layer,
                 bool after) {
    const CoverCurve* half = find(curves, layer, 0.0, 0.5);
    const CoverCurve* twice = find(curves, layer, 0.0, 2.0);
    std::vector<double> back_cover(twice->cover.rbegin(), twice->cover.rend());
    const auto& upper = values(*twice, after);
    std::vector<double> back(upper.rbegin(), upper.rend());
    return fmt::format("<polygon points=\"{} {}\" fill=\"#9ca3af\" fill-opacity=\"0.35\"/>\n",
                       points(panel, half->cover, values(*half, after)), points(panel, back_cover, back));
}

std::string clear_level(const Panel& panel, double strength) {
    return fmt::format(
        "<line x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\" stroke=\"#0284c7\" "
        "stroke-dasharray=\"5 4\"/>\n",
        panel.x(0), panel.y(strength), panel.x(1), panel.y(strength));
}

std::string curves_of(const Panel& panel, const std::vector<CoverCurve>& curves, std::string_view layer,
                      bool after) {
    std::string svg = band(panel, curves, layer, after);
    svg += clear_level(panel, values(*find(curves, layer, 0.0, 1.0), after).front());
    for (const Line& line : kLines) {
        const CoverCurve* curve = find(curves, layer, line.edge_km, 1.0);
        svg += fmt::format("<polyline points=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"2\"/>\n",
                           points(panel, curve->cover, values(*curve, after)), line.colour);
    }
    return svg;
}

std::string legend() {
    std::string svg;
    double x = kLeft;
    constexpr double kY = 52.0;
    const auto entry = [&](std::string_view mark, std::string_view name, double width) {
        svg += fmt::format("<g transform=\"translate({:.1f} {:.1f})\">{}</g>\n", x, kY, mark);
        svg += text(x + 26, kY + 4, "start", "class=\"s\"", name);
        x += width;
    };
    for (const Line& line : kLines) {
        entry(fmt::format("<line x1=\"0\" y1=\"0\" x2=\"20\" y2=\"0\" stroke=\"{}\" stroke-width=\"2\"/>",
                          line.colour),
              line.name, line.edge_km == 0.0 ? 80.0 : 150.0);
    }
    entry("<line x1=\"0\" y1=\"0\" x2=\"20\" y2=\"0\" stroke=\"#0284c7\" stroke-dasharray=\"5 4\"/>",
          "clear sky", 84.0);
    entry("<rect x=\"0\" y=\"-5\" width=\"20\" height=\"10\" fill=\"#9ca3af\" fill-opacity=\"0.35\"/>",
          "no gap, half to double D", 0.0);
    return svg;
}

}  // namespace

std::string to_svg(const std::vector<CoverCurve>& curves) {
    std::string svg = fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0:.0f} {1:.0f}\" width=\"{0:.0f}\" "
        "height=\"{1:.0f}\" font-family=\"sans-serif\" font-size=\"13\" fill=\"#111827\">\n"
        "<style>.s {{font-size: 11px; fill: #374151}} .b {{font-weight: bold}}</style>\n"
        "<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n",
        kWidth, kHeight);
    svg += text(kLeft, 24, "start", "class=\"b\"",
                "Colour strength of a dusk against the cover of one cloud layer");
    svg += legend();
    constexpr std::array<const char*, 3> kLayers{"low", "middle", "high"};
    constexpr std::array<const char*, 3> kTitles{"low cloud, 1 to 2 km", "middle cloud, 4 to 4.6 km",
                                                 "high cloud, 9 to 10 km"};
    for (std::size_t row = 0; row < 2; ++row) {
        for (std::size_t column = 0; column < 3; ++column) {
            const Panel panel{kLeft + static_cast<double>(column) * (kPanelWidth + kGapX),
                              kTop + static_cast<double>(row) * (kPanelHeight + kGapY)};
            svg += axes(panel, column == 0, row == 1);
            svg += curves_of(panel, curves, kLayers[column], row == 0);
            svg += text(panel.x0, panel.y0 - 8, "start", "",
                        fmt::format("{}: {}", row == 0 ? "after sunset" : "sun up", kTitles[column]));
        }
    }
    svg += text(kLeft + 1.5 * kPanelWidth + kGapX, kHeight - 10, "middle", "class=\"s\"",
                "share of the sky covered");
    return svg + "</svg>\n";
}

}  // namespace gloam::test
