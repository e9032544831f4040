#include "reference/sky/half_cover_curves.hpp"

#include <fmt/format.h>

#include <array>

#include "base/parallel.hpp"
#include "base/text_table.hpp"
#include "sky/event.hpp"
#include "sky/scene.hpp"

namespace gloam::test {
namespace {

constexpr std::array kCovers{0.0, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0};

sky::CloudLayer layer_named(std::string_view name, double cover, double edge_km) {
    if (name == "low") {
        return low_layer(cover, edge_km);
    }
    return name == "middle" ? middle_layer(cover, edge_km) : high_layer(cover, edge_km);
}

std::vector<CoverCurve> empty_curves() {
    std::vector<CoverCurve> curves;
    for (const char* layer : {"low", "middle", "high"}) {
        for (const double edge_km : {0.0, 60.0, 150.0, 250.0}) {
            curves.push_back({layer, edge_km, 1.0, {}, {}, {}});
        }
        curves.push_back({layer, 0.0, 0.5, {}, {}, {}});
        curves.push_back({layer, 0.0, 2.0, {}, {}, {}});
    }
    return curves;
}

void compute(const sky::SkyPainter& painter, CoverCurve& curve) {
    for (const double cover : kCovers) {
        auto layer = layer_named(curve.layer, cover, curve.edge_km > 0.0 ? curve.edge_km : kNoEdge_km);
        layer.optics.cell_m *= curve.cell_factor;
        const Event event = event_of(painter, sky::CloudField({layer}));
        curve.cover.push_back(cover);
        curve.after.push_back(event.after);
        curve.gold.push_back(event.gold);
    }
}

bool same_curve(const CoverCurve& curve, std::string_view layer, double edge_km, double cell_factor) {
    return curve.layer == layer && curve.edge_km == edge_km && curve.cell_factor == cell_factor;
}

double number(const std::string& field) {
    return field.empty() ? 0.0 : std::stod(field);
}

}  // namespace

std::vector<CoverCurve> compute_cover_curves() {
    const sky::SkyPainter painter(default_air(), 0.0, sky::PanoramaGrid::standard());
    std::vector<CoverCurve> curves = empty_curves();
    parallel_for(curves.size(), [&](std::size_t i) { compute(painter, curves[i]); });
    return curves;
}

std::string to_csv(const std::vector<CoverCurve>& curves) {
    std::string csv = "layer,edge_km,cell_factor,cover,after,gold\n";
    for (const CoverCurve& curve : curves) {
        const std::string edge = curve.edge_km > 0.0 ? fmt::format("{:.0f}", curve.edge_km) : "";
        for (std::size_t i = 0; i < curve.cover.size(); ++i) {
            csv += fmt::format("{},{},{:.1f},{:.2f},{:.2f},{:.2f}\n", curve.layer, edge, curve.cell_factor,
                               curve.cover[i], curve.after[i], curve.gold[i]);
        }
    }
    return csv;
}

std::vector<CoverCurve> from_csv(std::string_view csv) {
    std::vector<CoverCurve> curves;
    const TextTable table = parse_text_table(csv, ',', "cover curves").value();
    for (const auto& row : table.rows) {
        const double edge_km = number(row[1]);
        const double cell_factor = number(row[2]);
        if (curves.empty() || !same_curve(curves.back(), row[0], edge_km, cell_factor)) {
            curves.push_back({row[0], edge_km, cell_factor, {}, {}, {}});
        }
        curves.back().cover.push_back(number(row[3]));
        curves.back().after.push_back(number(row[4]));
        curves.back().gold.push_back(number(row[5]));
    }
    return curves;
}

}  // namespace gloam::test
