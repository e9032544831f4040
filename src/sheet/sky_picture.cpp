#include "sheet/sky_picture.hpp"

#include <cmath>
#include <numbers>

#include "base/parallel.hpp"
#include "sheet/sky_water.hpp"

namespace gloam::sheet {
namespace {

constexpr double kDegree = std::numbers::pi / 180.0;

/// Near the level a pixel covers much cloud along the view: it is the mean of some.
int lines_in_pixel(double elevation_rad, double pixel_rad) {
    const double off_rad = std::abs(elevation_rad);
    return off_rad < 2.0 * kDegree + pixel_rad ? 4 : off_rad < 6.0 * kDegree ? 2 : 1;
}

sky::Xyz pixel_of(const SkyDome& dome, const Water& water, const SkyView& view, int x, int y) {
    const int lines = lines_in_pixel(view.direction_at(x + 0.5, y + 0.5).elevation_rad, view.pixel_rad());
    sky::Xyz sum;
    for (int line = 0; line < lines; ++line) {
        const SkyDirection direction = view.direction_at(x + 0.5, y + (line + 0.5) / lines);
        sum = sum + (direction.elevation_rad > 0.0 ? dome.light_at(direction) : water.light_at(direction));
    }
    return sum * (1.0 / lines);
}

}  // namespace

LightPicture draw_sky(const outlook::SeenSky& seen, std::uint64_t seed, const SkyView& view) {
    const SkyDome dome(seen, seed, view.pixel_rad());
    const Water water(dome);
    const auto width = static_cast<std::size_t>(view.width_px());
    const auto height = static_cast<std::size_t>(view.height_px());
    LightPicture picture{view.width_px(), view.height_px(), std::vector<sky::Xyz>(width * height)};
    parallel_for(height, [&](std::size_t y) {
        for (std::size_t x = 0; x < width; ++x) {
            picture.pixels[y * width + x] =
                pixel_of(dome, water, view, static_cast<int>(x), static_cast<int>(y));
        }
    });
    return picture;
}

DisplayPicture displayed(const LightPicture& picture, double ev100) {
    DisplayPicture shown{picture.width_px, picture.height_px, {}};
    shown.pixels.reserve(picture.pixels.size());
    for (const sky::Xyz& light : picture.pixels) {
        shown.pixels.push_back(displayed(light, ev100));
    }
    return shown;
}

}  // namespace gloam::sheet
