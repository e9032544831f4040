// Draws five kinds of sky at six heights of the sun, to be looked at: docs/figures/sky-contact.png.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <fstream>
#include <span>
#include <string>
#include <vector>

#include "sheet/sky_picture.hpp"
#include "sheet/sky_png.hpp"
#include "sky/embedded_tables.hpp"

namespace {

using namespace gloam;

constexpr std::array kSuns_deg{3.0, 0.0, -1.5, -2.5, -4.0, -6.0};

sky::CloudLayer layer(sky::CloudClass kind, double base_m, double top_m, double cover, double from_km = -1e4,
                      double to_km = 1e4) {
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
    return {
        {"clear", {}},
        {"broken middle and high",
         {layer(kMiddle, 4500.0, 5200.0, 0.4, -1e4, 120.0), layer(kHigh, 9000.0, 10000.0, 0.4, -1e4, 250.0)}},
        {"high canopy, open up-sun", {layer(kHigh, 9000.0, 10000.0, 0.95, -1e4, 250.0)}},
        {"overcast", {layer(kLow, 900.0, 1900.0, 0.98)}},
        {"high over distant low",
         {layer(kLow, 1000.0, 2000.0, 0.7, 40.0, 1e4), layer(kHigh, 9000.0, 10000.0, 0.5, -1e4, 400.0)}}};
}

int run(std::span<char*> arguments) {
    const std::string folder = arguments[1];
    const auto tables = sky::unpack_sky_tables(sky::embedded_tables()).value();
    const sky::Air air(tables, sky::Atmosphere{});
    const double height_m = 10.0;
    const sky::SkyPainter painter(air, height_m, sheet::drawing_grid(), 40);
    const auto view = arguments.size() > 2
                          ? sheet::SkyView::lens(std::stod(arguments[2]), Angle{}, 960).value()
                          : sheet::SkyView::strip(1440).value();
    std::uint64_t seed = 1;
    for (const Scenario& scenario : scenarios()) {
        for (const double sun_deg : kSuns_deg) {
            const auto seen = outlook::see_sky(air, painter, height_m, sky::CloudField(scenario.layers),
                                               {Azimuth::degrees(112.0), {Angle::degrees(sun_deg), 1.0}});
            const auto light = draw_sky(seen, seed, view);
            const double ev = sheet::ev_of_luminance(sheet::adapting_luminance(seen.panorama));
            const auto bytes = sheet::to_png(sheet::displayed(light, ev), sheet::PngDepth::k8, "x").value();
            std::ofstream(fmt::format("{}/{}{:+.1f}.png", folder, scenario.name, sun_deg), std::ios::binary)
                .write(reinterpret_cast<const char*>(bytes.data()),
                       static_cast<std::streamsize>(bytes.size()));
            fmt::print("{} {:+.1f}: EV {:.1f}\n", scenario.name, sun_deg, ev);
        }
        ++seed;
    }
    return 0;
}

}  // namespace

int main(int count, char** arguments) {
    return run({arguments, static_cast<std::size_t>(count)});
}
