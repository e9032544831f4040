#include "geo/position.hpp"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>
#include <vector>

#include "geo/quoted.hpp"

namespace gloam::geo {
namespace {

constexpr double kLowestHeight_m = -500.0;  // the shore of the Dead Sea stands at -430 m
constexpr double kHighestHeight_m = 9000.0;
constexpr const char* kHint =
    "write latitude,longitude[,height in metres] in decimal degrees, e.g. 37.07,15.29";

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && text.front() == ' ') {
        text.remove_prefix(1);
    }
    while (!text.empty() && text.back() == ' ') {
        text.remove_suffix(1);
    }
    return text;
}

std::vector<std::string_view> split_at_commas(std::string_view text) {
    std::vector<std::string_view> fields;
    for (std::size_t comma = text.find(','); comma != std::string_view::npos; comma = text.find(',')) {
        fields.push_back(trimmed(text.substr(0, comma)));
        text.remove_prefix(comma + 1);
    }
    fields.push_back(trimmed(text));
    return fields;
}

/// A finite decimal number that fills the whole field.
std::optional<double> parse_number(std::string_view field) {
    if (field.size() > 1 && field[0] == '+' && field[1] != '-') {
        field.remove_prefix(1);
    }
    double value = 0.0;
    const char* end = field.data() + field.size();
    const auto [stop, error] = std::from_chars(field.data(), end, value);
    return error == std::errc{} && stop == end && std::isfinite(value) ? std::optional(value) : std::nullopt;
}

Result<HeightMsl> make_height(double height_m) {
    if (height_m < kLowestHeight_m || height_m > kHighestHeight_m) {
        return fail(ErrorKind::kBadInput, fmt::format("nobody stands at a height of {:g} m", height_m), {},
                    "give the height above sea level in metres, -500 to 9000");
    }
    return HeightMsl{height_m};
}

/// "37.0700 N": the letter follows the rounded number, so that nothing prints as minus zero.
std::string hemisphere_text(double degrees, char positive, char negative) {
    const bool below_zero = std::round(degrees * 1e4) < 0.0;
    return fmt::format("{:.4f} {}", std::abs(degrees), below_zero ? negative : positive);
}

}  // namespace

Result<LatLon> make_lat_lon(double lat_deg, double lon_deg) {
    if (!(lat_deg >= -90.0 && lat_deg <= 90.0)) {
        return fail(ErrorKind::kBadInput, fmt::format("{:g} is no latitude", lat_deg), {},
                    "latitudes run from -90 to 90 degrees; latitude comes first");
    }
    if (!(lon_deg >= -360.0 && lon_deg <= 360.0)) {
        return fail(ErrorKind::kBadInput, fmt::format("{:g} is no longitude", lon_deg), {},
                    "longitudes run from -180 to 180 degrees, east positive");
    }
    const double half_turn_off = Azimuth::degrees(lon_deg + 180.0).degrees();
    return LatLon{lat_deg, lon_deg >= -180.0 && lon_deg < 180.0 ? lon_deg : half_turn_off - 180.0};
}

Result<ParsedPosition> parse_position(std::string_view text) {
    const auto refused = [&] {
        return fail(ErrorKind::kBadInput, fmt::format("{} is not a position", quoted(text)), {}, kHint);
    };
    std::vector<double> numbers;
    for (const std::string_view field : split_at_commas(text)) {
        const auto number = parse_number(field);
        if (!number) {
            return refused();
        }
        numbers.push_back(*number);
    }
    if (numbers.size() != 2 && numbers.size() != 3) {
        return refused();
    }
    const auto at = make_lat_lon(numbers[0], numbers[1]);
    if (!at) {
        return tl::unexpected(at.error());
    }
    if (numbers.size() == 2) {
        return ParsedPosition{*at, std::nullopt};
    }
    return make_height(numbers[2]).map([&](HeightMsl height) { return ParsedPosition{*at, height}; });
}

std::string to_text(LatLon point) {
    return hemisphere_text(point.lat_deg, 'N', 'S') + ' ' + hemisphere_text(point.lon_deg, 'E', 'W');
}

std::string_view compass_point(Azimuth azimuth) {
    static constexpr std::array<std::string_view, 16> kPoints = {
        "north",      "north-north-east", "north-east", "east-north-east",  "east",       "east-south-east",
        "south-east", "south-south-east", "south",      "south-south-west", "south-west", "west-south-west",
        "west",       "west-north-west",  "north-west", "north-north-west"};
    constexpr double kStep_deg = 360.0 / 16.0;
    return kPoints[static_cast<std::size_t>(std::lround(azimuth.degrees() / kStep_deg)) % kPoints.size()];
}

}  // namespace gloam::geo
