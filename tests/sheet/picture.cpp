#include "sheet/picture.hpp"

#include <cairo.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstring>
#include <memory>

namespace gloam::sheet {
namespace {

cairo_status_t read_from(void* closure, unsigned char* data, unsigned int length) {
    auto& rest = *static_cast<std::span<const std::byte>*>(closure);
    if (rest.size() < length) {
        return CAIRO_STATUS_READ_ERROR;
    }
    std::memcpy(data, rest.data(), length);
    rest = rest.subspan(length);
    return CAIRO_STATUS_SUCCESS;
}

int channel(std::uint32_t pixel, int shift) {
    return static_cast<int>(pixel >> shift & 0xffU);
}

}  // namespace

Picture decode_png(std::span<const std::byte> bytes) {
    const std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> surface(
        cairo_image_surface_create_from_png_stream(read_from, &bytes), cairo_surface_destroy);
    Picture picture;
    if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) {
        return picture;
    }
    picture.width = cairo_image_surface_get_width(surface.get());
    picture.height = cairo_image_surface_get_height(surface.get());
    const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(surface.get()));
    const auto width = static_cast<std::size_t>(picture.width);
    picture.pixels.resize(width * static_cast<std::size_t>(picture.height));
    for (std::size_t row = 0; row < static_cast<std::size_t>(picture.height); ++row) {
        std::memcpy(&picture.pixels[row * width], cairo_image_surface_get_data(surface.get()) + row * stride,
                    width * sizeof(std::uint32_t));
    }
    return picture;
}

double darkness(const Picture& picture) {
    double sum = 0.0;
    for (const std::uint32_t pixel : picture.pixels) {
        sum += 1.0 - (channel(pixel, 16) + channel(pixel, 8) + channel(pixel, 0)) / (3.0 * 255.0);
    }
    return sum / static_cast<double>(picture.pixels.size());
}

int warm_pixels(const Picture& picture) {
    return static_cast<int>(
        std::count_if(picture.pixels.begin(), picture.pixels.end(),
                      [](std::uint32_t pixel) { return channel(pixel, 16) - channel(pixel, 0) > 100; }));
}

std::string as_text(std::span<const std::byte> bytes) {
    std::string text(bytes.size(), ' ');
    std::memcpy(text.data(), bytes.data(), bytes.size());
    return text;
}

bool is_balanced_xml(const std::string& text) {
    std::vector<std::string> open;
    bool root_closed = false;
    for (std::size_t at = text.find('<'); at != std::string::npos; at = text.find('<', at + 1)) {
        const std::size_t end = text.find('>', at);
        if (end == std::string::npos || root_closed) {
            return false;
        }
        const std::string tag = text.substr(at + 1, end - at - 1);
        const std::string name = tag.substr(0, tag.find_first_of(" \n"));
        if (name.starts_with('/')) {
            if (open.empty() || "/" + open.back() != name) {
                return false;
            }
            open.pop_back();
            root_closed = open.empty();
        } else if (!tag.ends_with('/') && !tag.starts_with('?')) {
            open.push_back(name);
        }
    }
    return root_closed;
}

TEST(Picture, ChecksSeeWhatIsWrong) {
    EXPECT_TRUE(is_balanced_xml("<?xml version=\"1\"?>\n<a x=\"1\"><b/><c>t</c></a>\n"));
    EXPECT_FALSE(is_balanced_xml("<a><b></a></b>"));
    EXPECT_FALSE(is_balanced_xml("<a></a><b></b>"));
    EXPECT_FALSE(is_balanced_xml("<a>"));
    EXPECT_FALSE(is_balanced_xml("text"));
    EXPECT_EQ(decode_png({}).width, 0);
    EXPECT_EQ(warm_pixels({2, 1, {0xff6010, 0xffffff}}), 1);
    EXPECT_DOUBLE_EQ(darkness({2, 1, {0x000000, 0xffffff}}), 0.5);
}

}  // namespace gloam::sheet
