#include <gtest/gtest.h>

#include "sheet/canvas.hpp"
#include "sheet/example.hpp"
#include "sheet/section_cloud.hpp"
#include "sheet/section_ray_labels.hpp"

namespace gloam::sheet {
namespace {

std::string label(const outlook::Section& section, std::size_t ray, double width_px) {
    const auto zone = geo::Zone::named("Europe/Rome");
    const SectionScene scene{section, *zone, type_sizes(width_px), Arch({0.0, 0.0, width_px, 300.0})};
    return ray_label(section.rays[ray], scene);
}

TEST(RayLabel, TellsClockSunAndLight) {
    const outlook::Section open = example::open_dawn();
    EXPECT_EQ(label(open, 0, 1200.0), "06:55\nsun −2.6°\n100 % gets through");
    EXPECT_EQ(label(open, 1, 1200.0), "07:00, best\nsun −1.9°\n100 % gets through");
    EXPECT_EQ(label(example::shut_dawn(), 1, 1200.0), "07:00, best\nsun −1.9°\n10 % gets through");
}

TEST(RayLabel, SaysLessOnAPhone) {
    EXPECT_EQ(label(example::open_dawn(), 1, 390.0), "07:00\n−1.9°");
}

TEST(RayLabel, NamesTheEarthsShadow) {
    outlook::Section section = example::open_dawn();
    section.rays[0] = example::ray(-10, -4.0);
    EXPECT_EQ(label(section, 0, 1200.0), "06:50, sun −4.0°: Earth's shadow");
    EXPECT_EQ(label(section, 0, 390.0), "06:50: Earth's shadow");
}

TEST(RayLabel, ZeroHasNoSign) {
    outlook::Section section = example::open_dawn();
    section.rays[0].sun_elevation = Angle::degrees(-0.04);
    EXPECT_EQ(label(section, 0, 390.0), "06:55\n0.0°");
}

TEST(LayerLabel, NamesTheLayerAndItsBase) {
    const auto layer = example::layer(weather::Band::kHigh, 9.24e3, 10.0e3, 0.5);
    EXPECT_EQ(layer_label(layer, false), "high cloud\nfrom 9.2 km");
    EXPECT_EQ(layer_label(layer, true), "high\n9.2 km");
}

TEST(LayerLabel, NoNameForWhatIsNotThere) {
    EXPECT_EQ(layer_label(example::layer(weather::Band::kHigh, 9.0e3, 10.0e3, 0.0), false), "");
}

TEST(Canvas, IsTheLayerAtTheEndOfTheRay) {
    outlook::Section section = example::open_dawn();
    ASSERT_NE(canvas_of(section, section.rays[1]), nullptr);
    EXPECT_EQ(canvas_of(section, section.rays[1])->band, weather::Band::kHigh);
    EXPECT_TRUE(has_canvas(section));
    section.layers.back().cover.assign(geo::LightPathGrid::kPoints, 0.02);
    EXPECT_EQ(canvas_of(section, section.rays[1]), nullptr);
    EXPECT_FALSE(has_canvas(section));
    section.rays[1].points.clear();
    EXPECT_EQ(canvas_of(section, section.rays[1]), nullptr);
}

}  // namespace
}  // namespace gloam::sheet
