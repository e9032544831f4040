// Draws five kinds of sky at six heights of the sun through a 24 mm lens, to be looked at: without words, and
// with them (docs/painting.md). Usage: sky_contact FOLDER
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <fstream>
#include <string>
#include <vector>

#include "sheet/drawing.hpp"
#include "sheet/palette.hpp"
#include "sheet/sky_picture.hpp"
#include "sheet/sky_png.hpp"
#include "sky/embedded_tables.hpp"

namespace {

using namespace gloam;

constexpr std::array kSuns_deg{3.0, 0.0, -1.5, -2.5, -4.0, -6.0};
constexpr double kFocal_mm = 24.0;
constexpr int kWidth_px = 288;
constexpr int kGap_px = 6;
constexpr int kCaption_px = 20;

/// Cover between two distances up-sun, its edges 80 km soft.
sky::CloudLayer layer(sky::CloudClass kind, double base_m, double top_m, double cover, double from_km,
                      double to_km) {
    using Grid = geo::LightPathGrid;
    constexpr double kEdge_km = 80.0;
    sky::CloudLayer made{kind, sky::cloud_optics(kind), base_m, top_m, {}};
    for (auto& line : made.cover) {
        for (std::size_t i = 0; i < Grid::kPoints; ++i) {
            const double km = 1e-3 * (Grid::kFirst_m + static_cast<double>(i) * Grid::kStep_m);
            const double inside = std::min(km - from_km, to_km - km) / kEdge_km + 0.5;
            line[i] = static_cast<float>(cover * std::clamp(inside, 0.0, 1.0));
        }
    }
    return made;
}

struct Scenario {
    const char* name;
    std::vector<sky::CloudLayer> layers;
};

std::vector<Scenario> scenarios() {
    using enum sky::CloudClass;
    constexpr double kFar_km = 1e4;
    return {{"clear", {}},
            {"broken middle and high",
             {layer(kMiddle, 4500.0, 5200.0, 0.4, -kFar_km, 120.0),
              layer(kHigh, 9000.0, 10000.0, 0.4, -kFar_km, 250.0)}},
            {"high canopy, open up-sun", {layer(kHigh, 9000.0, 10000.0, 0.95, -kFar_km, 250.0)}},
            {"overcast", {layer(kLow, 900.0, 1900.0, 0.98, -kFar_km, kFar_km)}},
            {"high over distant low",
             {layer(kLow, 1000.0, 2000.0, 0.7, 40.0, kFar_km),
              layer(kHigh, 9000.0, 10000.0, 0.5, -kFar_km, 400.0)}}};
}

struct Frame {
    std::string caption;
    sheet::DisplayPicture picture;
};

Frame frame_of(const sky::Air& air, const sky::SkyPainter& painter, const Scenario& scenario, double sun_deg,
               std::uint64_t seed) {
    const auto seen = outlook::see_sky(air, painter, 0.0, sky::CloudField(scenario.layers),
                                       {Azimuth::degrees(112.0), {Angle::degrees(sun_deg), 1.0}});
    const double ev100 = sheet::ev_of_luminance(sheet::adapting_luminance(seen.panorama));
    const auto view = sheet::SkyView::lens(kFocal_mm, Angle{}, kWidth_px).value();
    return {fmt::format("{}, sun {:+.1f} deg, EV {:.1f}", scenario.name, sun_deg, ev100),
            sheet::displayed(sheet::draw_sky(seen, seed, view), ev100)};
}

void write(const std::string& file, const std::vector<std::byte>& bytes) {
    std::ofstream(file, std::ios::binary)
        .write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
}

std::vector<std::byte> sheet_of(const std::vector<Frame>& frames, bool captions) {
    const int across = static_cast<int>(kSuns_deg.size());
    const int down = static_cast<int>(frames.size()) / across;
    const int step_x = kWidth_px + kGap_px;
    const int step_y = frames.front().picture.height_px + kGap_px + (captions ? kCaption_px : 0);
    sheet::Drawing drawing(sheet::DrawingFormat::kPng, across * step_x + kGap_px, down * step_y + kGap_px,
                           sheet::kPaper);
    for (int i = 0; i < across * down; ++i) {
        const Frame& frame = frames[static_cast<std::size_t>(i)];
        const double left = kGap_px + i % across * step_x;
        const double top = kGap_px + i / across * step_y;
        drawing.put(frame.picture, {left, top});
        if (captions) {
            drawing.put(sheet::TextBlock(frame.caption, {11.0}), {left, top + frame.picture.height_px + 2.0},
                        sheet::kInk);
        }
    }
    return drawing.finish().value();
}

}  // namespace

int main(int count, char** arguments) {
    if (count != 2) {
        fmt::print(stderr, "usage: sky_contact FOLDER\n");
        return 2;
    }
    const std::string folder = arguments[1];
    const auto tables = sky::unpack_sky_tables(sky::embedded_tables()).value();
    const sky::Air air(tables, sky::Atmosphere{});
    const sky::SkyPainter painter(air, 0.0, sheet::drawing_grid());
    std::vector<Frame> frames;
    std::uint64_t seed = 1;
    for (const Scenario& scenario : scenarios()) {
        for (const double sun_deg : kSuns_deg) {
            frames.push_back(frame_of(air, painter, scenario, sun_deg, seed++));
        }
    }
    write(folder + "/sky-contact.png", sheet_of(frames, false));
    write(folder + "/sky-contact-captions.png", sheet_of(frames, true));
    return 0;
}
