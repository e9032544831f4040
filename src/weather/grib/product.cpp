#include "weather/grib/product.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace gloam::weather {
namespace {

// WMO Manual on Codes, FM 92 GRIB edition 2, product definition templates, held against the definitions that
// ecCodes 2.28 comes with. Offsets are from the start of section 4; those of aerosol put 24 octets more ahead
// of the generating process.
constexpr std::size_t kAerosolOctets = 24;
constexpr std::size_t kGeneratingProcess = 13;
constexpr std::size_t kTimeUnit = 17;
constexpr std::size_t kForecastTime = 18;
constexpr std::size_t kSurfaces = 22;
constexpr std::size_t kSurfaceOctets = 6;
constexpr std::size_t kMember = 34;
constexpr std::size_t kMemberOctets = 3;
constexpr std::size_t kEndTimeOctets = 7;  // ahead of the spans
constexpr std::size_t kSpanOctets = 24;    // end of the span, number of ranges, the first range

struct Layout {
    long number;
    bool aerosol_optics;
    bool member;
    bool span;
};
constexpr std::array<Layout, 6> kLayouts{{{0, false, false, false},
                                          {1, false, true, false},
                                          {8, false, false, true},
                                          {11, false, true, true},
                                          {48, true, false, false},
                                          {49, true, true, false}}};

const Layout* layout_of(long number) {
    const auto* const found = std::ranges::find(kLayouts, number, &Layout::number);
    return found == kLayouts.end() ? nullptr : found;
}

long number_at(Octets octets, std::size_t offset, std::size_t count = 1) {
    return static_cast<long>(big_endian(octets, offset, count));
}

Surface surface_at(Octets octets, std::size_t offset) {
    return {number_at(octets, offset), scaled_number(octets, offset + 1)};
}

GribProduct::Span span_at(Octets octets, std::size_t offset) {
    const std::size_t count = offset + kEndTimeOctets;
    const std::size_t range = count + 5;  // behind the number of missing values
    return {number_at(octets, count), number_at(octets, range), number_at(octets, range + 1),
            number_at(octets, range + 2), number_at(octets, range + 3, 4)};
}

GribProduct product_of_edition1(Octets octets) {
    constexpr long kMissing = 0xFFFF;
    constexpr long kIsobaric = 100;  // hPa
    constexpr long kHeightAboveGround1 = 105;
    constexpr long kHeightAboveGround2 = 103;
    const long type = number_at(octets, 9);
    const long written = number_at(octets, 10, 2);
    const double level = written == kMissing ? 0.0 : static_cast<double>(written);
    GribProduct product;
    product.generating_process = number_at(octets, 5);
    product.surfaces.first = {type == kHeightAboveGround1 ? kHeightAboveGround2 : type,
                              type == kIsobaric ? 100.0 * level : level};
    return product;
}

tl::expected<GribProduct, std::string> product_by(const Layout& layout, Octets section) {
    const std::size_t shift = layout.aerosol_optics ? kAerosolOctets : 0;
    const std::size_t member_at = kMember + shift;
    const std::size_t span_offset = member_at + (layout.member ? kMemberOctets : 0);
    if (section.size() < span_offset + (layout.span ? kSpanOctets : 0)) {
        return tl::unexpected<std::string>("the product section is too short for its template");
    }
    GribProduct product;
    product.generating_process = number_at(section, kGeneratingProcess + shift);
    product.surfaces = {surface_at(section, kSurfaces + shift),
                        surface_at(section, kSurfaces + kSurfaceOctets + shift)};
    product.time_unit = number_at(section, kTimeUnit + shift);
    product.forecast_time = signed_big_endian(section, kForecastTime + shift, 4);
    if (layout.member) {
        product.member = {number_at(section, member_at + 1), number_at(section, member_at + 2)};
    }
    if (layout.span) {
        product.span = span_at(section, span_offset);
    }
    return product;
}

}  // namespace

double scaled_number(Octets octets, std::size_t offset) {
    constexpr std::uint64_t kMissing8 = 0xFF;
    constexpr std::uint64_t kMissing32 = 0xFFFFFFFF;
    const std::uint64_t value = big_endian(octets, offset + 1, 4);
    if (value == kMissing32 || big_endian(octets, offset, 1) == kMissing8) {
        return 0.0;
    }
    const auto factor = static_cast<double>(signed_big_endian(octets, offset, 1));
    return static_cast<double>(value) * std::pow(10.0, -factor);
}

long product_template(const GribField& field) {
    return number_at(field.product, 7, 2);
}

bool is_used_product(long number) {
    return layout_of(number) != nullptr;
}

bool is_of_aerosol_optics(long number) {
    const Layout* const layout = layout_of(number);
    return layout != nullptr && layout->aerosol_optics;
}

tl::expected<GribProduct, std::string> product_of(const GribField& field) {
    return field.edition == 1 ? product_of_edition1(field.identification)
                              : product_by(*layout_of(product_template(field)), field.product);
}

}  // namespace gloam::weather
