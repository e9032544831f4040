#include "weather/grib/png.hpp"

#include <png.h>

#include <algorithm>
#include <cstring>
#include <vector>

#include "weather/grib/bit_reader.hpp"
#include "weather/grib/handle.hpp"
#include "weather/grib/scaling.hpp"

namespace gloam::weather {
namespace {

// ISO/IEC 15948: the signature, then the chunk IHDR of 13 octets, then others.
constexpr std::uint64_t kSignature = 0x89504E470D0A1A0A;
constexpr std::uint64_t kHeaderLengthAndName = 0x0000000D49484452;
constexpr std::size_t kHeaderEnd = 33;

/// Deflate packs no tighter (zlib's own technical note, from memory), so that a short stream cannot ask for
/// much memory.
constexpr std::uint64_t kTightestPacking = 1032;

/// What the image says of itself.
struct ImageHeader {
    std::uint64_t width;
    std::uint64_t height;
    std::uint64_t depth;  ///< bits a point; 0: of a kind that GRIB does not use
};

std::uint64_t bits_a_point(std::uint64_t depth, std::uint64_t colour, std::uint64_t interlaced) {
    if (interlaced != 0) {
        return 0;
    }
    if (colour == PNG_COLOR_TYPE_GRAY) {
        return depth;
    }
    const std::uint64_t channels = colour == PNG_COLOR_TYPE_RGB         ? 3
                                   : colour == PNG_COLOR_TYPE_RGB_ALPHA ? 4
                                                                        : 0;
    return depth == 8 ? 8 * channels : 0;
}

std::optional<ImageHeader> image_header(Octets stream) {
    if (stream.size() < kHeaderEnd || big_endian(stream, 0, 8) != kSignature ||
        big_endian(stream, 8, 8) != kHeaderLengthAndName) {
        return std::nullopt;
    }
    return ImageHeader{
        big_endian(stream, 16, 4), big_endian(stream, 20, 4),
        bits_a_point(big_endian(stream, 24, 1), big_endian(stream, 25, 1), big_endian(stream, 28, 1))};
}

/// The image is as deep as section 5 says (NCEP) or takes the next whole octets (ECMWF).
bool is_depth_for(std::uint64_t depth, std::uint64_t bits) {
    return depth == bits || depth == (bits + 7) / 8 * 8;
}

void take_octets(png_structp png, png_bytep into, std::size_t length) {
    auto* const rest = static_cast<Octets*>(png_get_io_ptr(png));
    if (length > rest->size()) {
        png_error(png, "the PNG image ends too early");
    }
    std::memcpy(into, rest->data(), length);
    *rest = rest->subspan(length);
}

void say_nothing(png_structp /*png*/, png_const_charp /*message*/) {}

/// Leaves through libpng's C frames as GribHandle leaves through ecCodes'.
[[noreturn]] void leave(png_structp /*png*/, png_const_charp message) {
    throw DecoderFailure(message);
}

/// libpng set up to read `stream`, silent; frees what it holds in the end.
class PngReader {
  public:
    explicit PngReader(Octets stream)
        : rest_(stream), png_(png_create_read_struct(PNG_LIBPNG_VER_STRING, nullptr, leave, say_nothing)) {
        if (png_ == nullptr) {
            throw DecoderFailure("no memory for the PNG image");
        }
        info_ = png_create_info_struct(png_);
        png_set_read_fn(png_, &rest_, take_octets);
        png_set_user_limits(png_, PNG_UINT_31_MAX, PNG_UINT_31_MAX);  // the size has been checked
        png_set_keep_unknown_chunks(png_, PNG_HANDLE_CHUNK_NEVER, nullptr,
                                    -1);  // texts and profiles can be bombs
    }
    ~PngReader() { png_destroy_read_struct(&png_, &info_, nullptr); }
    PngReader(const PngReader&) = delete;
    PngReader& operator=(const PngReader&) = delete;

    /// Octets of a row.
    std::size_t begin() {
        png_read_info(png_, info_);
        return png_get_rowbytes(png_, info_);
    }

    void read_row(std::vector<std::byte>& row) {
        png_read_row(png_, reinterpret_cast<png_bytep>(row.data()), nullptr);
    }

    /// Reads what follows the last row, so that its check sums are looked at.
    void end() { png_read_end(png_, nullptr); }

  private:
    Octets rest_;
    png_structp png_;
    png_infop info_ = nullptr;
};

}  // namespace

std::optional<std::string> png_trouble(Octets representation, Octets stream, std::uint64_t count) {
    const std::uint64_t bits = scaling_of_edition2(representation).bits;
    if (bits == 0) {
        return std::nullopt;
    }
    const auto header = image_header(stream);
    if (!header || header->width * header->height != count || !is_depth_for(header->depth, bits)) {
        return "the packed PNG image is not one of this grid";
    }
    return count * header->depth / 8 / kTightestPacking > stream.size()
               ? std::optional<std::string>("the packed PNG image is too short for its values")
               : std::nullopt;
}

void unpack_png(Octets representation, Octets stream, std::span<double> values) {
    const Scaling scaling = scaling_of_edition2(representation);
    if (scaling.bits == 0) {
        std::ranges::fill(values, scaling.reference);
        return;
    }
    const ImageHeader header = image_header(stream).value();
    PngReader image(stream);
    std::vector<std::byte> row(image.begin());
    auto value = values.begin();
    for (std::uint64_t y = 0; y < header.height; ++y) {
        image.read_row(row);
        BitReader numbers(row, header.depth);
        for (std::uint64_t x = 0; x < header.width; ++x) {
            *value++ = scaling.value(numbers.next());
        }
    }
    image.end();
}

}  // namespace gloam::weather
