#include "sheet/sky_png.hpp"

#include <png.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <span>
#include <stdexcept>

#include "sheet/sky_noise.hpp"

namespace gloam::sheet {
namespace {

using Bytes = std::vector<std::byte>;

/// Leaves through libpng's C frames, which unwind as they are built with exceptions (Debian's are).
[[noreturn]] void leave(png_structp /*png*/, png_const_charp message) {
    throw std::runtime_error(message);
}

void say_nothing(png_structp /*png*/, png_const_charp /*message*/) {}

void append(png_structp png, png_bytep data, std::size_t length) {
    const auto from = std::as_bytes(std::span(data, length));
    auto* const bytes = static_cast<Bytes*>(png_get_io_ptr(png));
    bytes->insert(bytes->end(), from.begin(), from.end());
}

void flush_nothing(png_structp /*png*/) {}

/// libpng set up to write into `bytes`; frees what it holds in the end.
class PngWriter {
  public:
    explicit PngWriter(Bytes& bytes)
        : png_(png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, leave, say_nothing)) {
        if (png_ == nullptr) {
            throw std::runtime_error("no memory");
        }
        info_ = png_create_info_struct(png_);
        png_set_write_fn(png_, &bytes, append, flush_nothing);
    }
    ~PngWriter() { png_destroy_write_struct(&png_, &info_); }
    PngWriter(const PngWriter&) = delete;
    PngWriter& operator=(const PngWriter&) = delete;

    void begin(const DisplayPicture& picture, PngDepth depth, std::string description) {
        png_set_IHDR(png_, info_, static_cast<png_uint_32>(picture.width_px),
                     static_cast<png_uint_32>(picture.height_px), static_cast<int>(depth), PNG_COLOR_TYPE_RGB,
                     PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
        png_set_sRGB_gAMA_and_cHRM(png_, info_, PNG_sRGB_INTENT_PERCEPTUAL);
        std::string key = "Description";
        png_text text{};
        text.compression = PNG_TEXT_COMPRESSION_NONE;
        text.key = key.data();
        text.text = description.data();
        png_set_text(png_, info_, &text, 1);
        png_write_info(png_, info_);
    }
    void write_row(const std::vector<png_byte>& row) { png_write_row(png_, row.data()); }
    void end() { png_write_end(png_, info_); }

  private:
    png_structp png_;
    png_infop info_ = nullptr;
};

/// Between -1 and 1, most often near 0: the difference of two even draws.
double dither(std::size_t value) {
    const std::uint64_t bits = scrambled(value);
    const auto part = [&](unsigned shift) {
        return static_cast<double>((bits >> shift) & 0xFFFFFFU) / 0x1000000;
    };
    return part(0) - part(24);
}

void put_row(const DisplayPicture& picture, std::size_t row, PngDepth depth, std::vector<png_byte>& out) {
    const auto width = static_cast<std::size_t>(picture.width_px);
    out.clear();
    for (std::size_t i = row * width; i < (row + 1) * width; ++i) {
        for (std::size_t channel = 0; channel < 3; ++channel) {
            const double value = picture.pixels[i][channel];
            if (depth == PngDepth::k16) {
                const auto code = static_cast<unsigned>(std::lround(65535.0 * value));
                out.push_back(static_cast<png_byte>(code >> 8U));
                out.push_back(static_cast<png_byte>(code & 0xFFU));
            } else {
                const double code = std::round(255.0 * value + 0.5 * dither(3 * i + channel));
                out.push_back(static_cast<png_byte>(std::clamp(code, 0.0, 255.0)));
            }
        }
    }
}

}  // namespace

Result<std::vector<std::byte>> to_png(const DisplayPicture& picture, PngDepth depth,
                                      const std::string& description) {
    try {
        Bytes bytes;
        PngWriter writer(bytes);
        writer.begin(picture, depth, description);
        std::vector<png_byte> row;
        for (int y = 0; y < picture.height_px; ++y) {
            put_row(picture, static_cast<std::size_t>(y), depth, row);
            writer.write_row(row);
        }
        writer.end();
        return bytes;
    } catch (const std::exception& error) {
        return fail(ErrorKind::kInternal, std::string("the picture could not be written: ") + error.what());
    }
}

}  // namespace gloam::sheet
