#include "sheet/section_drawing.hpp"

#include <gmock/gmock.h>

#include <array>
#include <limits>

#include "sheet/example.hpp"
#include "sheet/picture.hpp"

namespace gloam::sheet {
namespace {

using testing::EndsWith;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

const SectionCaption kCaption{"Dawn, Wed 29 Jan 2025, Harbour wall",
                              "NCEP GFS, run 2025-01-29 00 UTC, 6 h old"};

std::vector<std::byte> drawn(const outlook::Section& section, DrawingFormat format, double width_px = 1200.0,
                             const SectionCaption& caption = kCaption, const char* zone = "Europe/Rome") {
    auto bytes = draw_section(section, caption, *geo::Zone::named(zone), format, width_px);
    EXPECT_TRUE(bytes) << to_text(bytes.error());
    return bytes.value_or(std::vector<std::byte>{});
}

std::string svg(const outlook::Section& section, double width_px = 1200.0,
                const SectionCaption& caption = kCaption) {
    return as_text(drawn(section, DrawingFormat::kSvg, width_px, caption));
}

Picture png(const outlook::Section& section, double width_px = 1200.0) {
    return decode_png(drawn(section, DrawingFormat::kPng, width_px));
}

/// No number of the drawing came to nothing. Letters are outlines, so no word of ours can hold these.
void expect_sound(const std::string& text) {
    EXPECT_THAT(text, StartsWith("<?xml"));
    EXPECT_THAT(text, HasSubstr("<svg"));
    EXPECT_THAT(text, EndsWith("</svg>\n"));
    EXPECT_TRUE(is_balanced_xml(text));
    EXPECT_THAT(text, Not(HasSubstr("nan")));
    EXPECT_THAT(text, Not(HasSubstr("inf")));
}

std::size_t dashed_lines(const std::string& text) {
    std::size_t count = 0;
    for (std::size_t at = text.find("stroke-dasharray"); at != std::string::npos;
         at = text.find("stroke-dasharray", at + 1)) {
        ++count;
    }
    return count;
}

TEST(SectionDrawing, SvgIsSoundAtEveryWidth) {
    for (const double width_px : {200.0, 390.0, 640.0, 1200.0, 8000.0}) {
        expect_sound(svg(example::open_dawn(), width_px));
        expect_sound(svg(example::shut_dawn(), width_px));
    }
}

TEST(SectionDrawing, PngHasItsSignatureAndTheWidthAskedFor) {
    constexpr std::array<unsigned char, 8> kSignature{0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'};
    const auto bytes = drawn(example::open_dawn(), DrawingFormat::kPng, 640.0);
    const std::string head = as_text(bytes).substr(0, 8);
    EXPECT_TRUE(std::equal(head.begin(), head.end(), kSignature.begin(), kSignature.end(),
                           [](char a, unsigned char b) { return static_cast<unsigned char>(a) == b; }));
    EXPECT_EQ(png(example::open_dawn(), 640.0).width, 640);
    EXPECT_EQ(png(example::open_dawn(), 390.4).width, 390);
    EXPECT_THAT(svg(example::open_dawn(), 390.0), HasSubstr("width=\"390px\""));
}

TEST(SectionDrawing, SameInputSameBytes) {
    for (const DrawingFormat format : {DrawingFormat::kSvg, DrawingFormat::kPng}) {
        const auto first = drawn(example::open_dawn(), format);
        drawn(example::shut_dawn(), format);
        EXPECT_EQ(drawn(example::open_dawn(), format), first);
    }
}

TEST(SectionDrawing, WidthOutOfRangeIsAnError) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double infinity = std::numeric_limits<double>::infinity();
    for (const double width_px : {-1.0, 0.0, 199.9, 8000.1, infinity, nan}) {
        const auto bytes = draw_section(example::open_dawn(), kCaption, *geo::Zone::named("UTC"),
                                        DrawingFormat::kPng, width_px);
        ASSERT_FALSE(bytes) << width_px;
        EXPECT_EQ(bytes.error().kind, ErrorKind::kOutOfDomain);
    }
}

TEST(SectionDrawing, HostileCaptionsDoNotBreakIt) {
    const std::array<std::string, 7> texts{"<svg>&\"'</svg>]]>",
                                           "Ålesund, ナカノ, القاهرة",
                                           "\xff\xc3(",
                                           std::string("a\0b", 3),
                                           "one\ntwo\r\n\n\n\n\n\n\n\n\nthree",
                                           std::string(20000, 'x'),
                                           ""};
    for (const std::string& text : texts) {
        outlook::Section section = example::open_dawn();
        section.deciding = text;
        for (const double width_px : {200.0, 1200.0}) {
            expect_sound(svg(section, width_px, {text, text}));
        }
        EXPECT_LT(decode_png(drawn(section, DrawingFormat::kPng, 1200.0, {text, text})).height, 900);
    }
}

TEST(SectionDrawing, NothingToShowIsStillADrawing) {
    outlook::Section section;
    expect_sound(svg(section));
    section = example::open_dawn();
    for (outlook::SectionRay& ray : section.rays) {
        ray.points.resize(1);
    }
    expect_sound(svg(section));
    for (outlook::SectionRay& ray : section.rays) {
        ray.points.clear();
    }
    expect_sound(svg(section));
    section = example::shut_dawn();
    for (outlook::SectionLayer& layer : section.layers) {
        layer.cover.clear();
    }
    section.viewer_height_m = 8000.0;
    expect_sound(svg(section));
}

TEST(SectionDrawing, NoCoverLeavesNoInk) {
    outlook::Section section = example::open_dawn();
    section.rays.clear();
    section.layers.clear();
    const auto without = drawn(section, DrawingFormat::kPng);
    section.layers = {example::layer(weather::Band::kLow, 1.0e3, 2.0e3, 0.0),
                      example::layer(weather::Band::kHigh, 9.0e3, 10.0e3, 0.0)};
    EXPECT_EQ(drawn(section, DrawingFormat::kPng), without);
}

TEST(SectionDrawing, MoreCoverMoreInk) {
    for (const weather::Band band : weather::kBands) {
        outlook::Section section = example::open_dawn();
        section.rays.clear();
        double before = 0.0;
        for (const double cover : {0.1, 0.3, 0.5, 0.7, 0.9}) {
            section.layers = {example::layer(band, 5.0e3, 6.0e3, cover)};
            const double now = darkness(png(section));
            EXPECT_GT(now, before + 1e-4) << cover;
            before = now;
        }
    }
}

TEST(SectionDrawing, ABlockedRayLosesItsWarmthAndBreaksOff) {
    outlook::Section open = example::open_dawn();
    outlook::Section shut = example::shut_dawn();
    EXPECT_LT(warm_pixels(png(shut)), 0.8 * warm_pixels(png(open)));
    EXPECT_EQ(dashed_lines(svg(shut)), dashed_lines(svg(open)) + 1);
}

TEST(SectionDrawing, NothingWarmWhereNoSunlightIs) {
    outlook::Section section = example::open_dawn();
    section.rays = {example::ray(0, -4.0)};
    ASSERT_FALSE(section.rays.front().lit);
    EXPECT_EQ(warm_pixels(png(section)), 0);
    section.rays.clear();
    EXPECT_EQ(warm_pixels(png(section)), 0);
}

TEST(SectionDrawing, CloudOnTheWayIsMarkedEvenIfMostLightPasses) {
    outlook::Section section = example::open_dawn();
    const auto free = drawn(section, DrawingFormat::kPng);
    section.rays[1].meetings = {{200e3, 300e3, weather::Band::kMiddle, 0.8}};
    EXPECT_NE(drawn(section, DrawingFormat::kPng), free);
    EXPECT_EQ(dashed_lines(svg(section)), dashed_lines(svg(example::open_dawn())));
}

TEST(SectionDrawing, MeetingsBeyondTheDrawingTakeLightToo) {
    outlook::Section section = example::open_dawn();
    section.rays = {example::ray(0, -1.9)};
    section.rays[0].meetings = {{510e3, 600e3, weather::Band::kHigh, 0.0}};
    EXPECT_EQ(warm_pixels(png(section)), 0);
    expect_sound(svg(section));
}

TEST(SectionDrawing, TimesAreOfThePlacesZone) {
    EXPECT_NE(drawn(example::open_dawn(), DrawingFormat::kPng, 1200.0, kCaption, "Asia/Tokyo"),
              drawn(example::open_dawn(), DrawingFormat::kPng, 1200.0, kCaption, "Europe/Rome"));
}

}  // namespace
}  // namespace gloam::sheet
