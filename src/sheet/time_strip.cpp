#include "sheet/time_strip.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "base/check.hpp"
#include "sheet/palette.hpp"
#include "sheet/section_drawing.hpp"
#include "sheet/sky_display.hpp"
#include "sheet/type_sizes.hpp"

namespace gloam::sheet {
namespace {

using std::chrono::minutes;

/// Azimuths of minute_grid() that look towards the sun; as many follow that look away.
constexpr std::size_t kFacing = 5;

sky::Xyz mean_of(const sky::Panorama& panorama, std::size_t first_azimuth) {
    sky::Xyz sum;
    const std::size_t rows = panorama.grid.elevations.size();
    for (std::size_t row = 0; row < rows; ++row) {
        for (std::size_t i = 0; i < kFacing; ++i) {
            sum = sum + panorama.cell(row, first_azimuth + i).mean();
        }
    }
    return sum * (1.0 / static_cast<double>(rows * kFacing));
}

/// A phase of the sun, between two of its true elevations.
struct Phase {
    const char* name;
    double from_deg;
    double to_deg;
};
constexpr std::array kPhases{
    Phase{"astronomical twilight", -18.0, -12.0}, Phase{"nautical twilight", -12.0, -6.0},
    Phase{"civil twilight", -6.0, -50.0 / 60.0}, Phase{"sun up", -50.0 / 60.0, 90.0}};

Colour colour_of(const sky::Xyz& light, double ev100) {
    const DisplayColour shown = displayed(light, ev100);
    return {shown[0], shown[1], shown[2], 1.0};
}

/// The band on the page: where instants lie in it.
struct Band {
    std::span<const SkyMinute> minutes;
    double left = 0.0;
    double top = 0.0;
    double width = 0.0;
    double height = 0.0;

    double right() const { return left + width; }
    double bottom() const { return top + height; }
    double x_of(Instant instant) const {
        const double all_h = hours_between(minutes.front().instant, minutes.back().instant);
        const double share = all_h > 0.0 ? hours_between(minutes.front().instant, instant) / all_h : 0.0;
        return left + share * width;
    }
};

void fill_box(Drawing& drawing, double left, double top, double right, double bottom, Colour colour) {
    const std::array corners{Point{left, top}, Point{right, top}, Point{right, bottom}, Point{left, bottom}};
    drawing.fill(corners, colour);
}

/// Each minute is filled up to the right end, and the next one over it: no seams.
void draw_colours(Drawing& drawing, const Band& band) {
    const double middle = band.top + 0.5 * band.height;
    double left = band.left;
    for (std::size_t i = 0; i < band.minutes.size(); ++i) {
        const SkyMinute& minute = band.minutes[i];
        const double ev100 = strip_exposure(minute);
        fill_box(drawing, left, band.top, band.right(), middle, colour_of(minute.towards_sun, ev100));
        fill_box(drawing, left, middle, band.right(), band.bottom(), colour_of(minute.opposite, ev100));
        if (i + 1 < band.minutes.size()) {
            left = 0.5 * (band.x_of(minute.instant) + band.x_of(band.minutes[i + 1].instant));
        }
    }
}

minutes label_step(std::span<const SkyMinute> shown, bool narrow) {
    const double hours = hours_between(shown.front().instant, shown.back().instant);
    const int factor = narrow ? 2 : 1;
    return minutes(factor * (hours < 1.7 ? 10 : hours < 4.0 ? 15 : 60));
}

/// Full quarters and tens of the clock, which a zone's odd offset must not shift.
void label_times(Drawing& drawing, const Band& band, const geo::Zone& zone, const TypeSizes& sizes) {
    const minutes step = label_step(band.minutes, sizes.narrow);
    const Instant first = band.minutes.front().instant;
    const Duration offset = zone.offset_at(first);
    const Duration into = (first + offset).time_since_epoch() % step;
    for (Instant at = first - into + (into.count() > 0 ? Duration(step) : Duration(0));
         at <= band.minutes.back().instant; at += step) {
        const double x = band.x_of(at);
        const std::array tick{Stroke{{x, band.bottom()}, {x, band.bottom() + 5.0 * sizes.unit_px}}};
        drawing.strokes(tick, {kQuietInk, sizes.unit_px});
        const TextBlock text(zone.clock(at), {sizes.small_px});
        const double left = std::clamp(x - 0.5 * text.width_px(), 0.0, band.right() - 0.5 * text.width_px());
        drawing.put(text, {left, band.bottom() + 6.0 * sizes.unit_px}, kInk);
    }
}

bool is_in(const Phase& phase, const SkyMinute& minute) {
    return minute.sun_elevation.degrees() >= phase.from_deg && minute.sun_elevation.degrees() < phase.to_deg;
}

/// Names of phases, each under its stretch where there is room for it.
void label_phases(Drawing& drawing, const Band& band, double top, const TypeSizes& sizes) {
    for (const Phase& phase : kPhases) {
        const auto in = [&](const SkyMinute& minute) { return is_in(phase, minute); };
        const auto first = std::find_if(band.minutes.begin(), band.minutes.end(), in);
        if (first == band.minutes.end()) {
            continue;
        }
        const auto end = std::find_if_not(first, band.minutes.end(), in);
        const double left = band.x_of(first->instant);
        const double right = end == band.minutes.end() ? band.right() : band.x_of(end->instant);
        const std::array bar{Stroke{{left + sizes.unit_px, top}, {right - sizes.unit_px, top}}};
        drawing.strokes(bar, {kQuietInk, sizes.unit_px});
        const TextBlock text(phase.name, {sizes.small_px});
        if (text.width_px() <= right - left) {
            drawing.put(text, {0.5 * (left + right - text.width_px()), top + 2.0 * sizes.unit_px}, kQuietInk);
        }
    }
}

std::string sides_of(std::span<const SkyMinute> shown) {
    const Azimuth sun = shown[shown.size() / 2].sun_azimuth;
    return fmt::format(
        "above: towards the sun, {:.0f} deg; below: opposite, {:.0f} deg; low over the horizon",
        sun.degrees(), Azimuth::degrees(sun.degrees() + 180.0).degrees());
}

}  // namespace

sky::PanoramaGrid minute_grid() {
    sky::PanoramaGrid grid;
    for (const double elevation_deg : {2.0, 5.0, 9.0}) {
        grid.elevations.push_back(Angle::degrees(elevation_deg));
    }
    for (const double middle_deg : {0.0, 180.0}) {
        for (const double aside_deg : {-30.0, -15.0, 0.0, 15.0, 30.0}) {
            grid.azimuths.push_back(Angle::degrees(middle_deg + aside_deg));
        }
    }
    return grid;
}

SkyMinute sky_minute(Instant instant, const outlook::SeenSky& seen) {
    GLOAM_CHECK(seen.panorama.grid.azimuths.size() == 2 * kFacing);
    return {instant, seen.sun.azimuth, seen.sun.state.elevation, mean_of(seen.panorama, 0),
            mean_of(seen.panorama, kFacing)};
}

double strip_exposure(const SkyMinute& minute) {
    constexpr double kDrawnTo_ev = 11.0;
    constexpr double kFollowed = 0.75;
    const double read_ev = ev_of_luminance(std::sqrt(minute.towards_sun.y * minute.opposite.y));
    return kDrawnTo_ev + kFollowed * (read_ev - kDrawnTo_ev);
}

Result<std::vector<std::byte>> draw_time_strip(std::span<const SkyMinute> shown, const StripCaption& caption,
                                               const geo::Zone& zone, DrawingFormat format, double width_px) {
    if (!(width_px >= kLeastWidth_px && width_px <= kMostWidth_px)) {
        return fail(ErrorKind::kOutOfDomain, fmt::format("a drawing {} px wide", width_px), "--width",
                    fmt::format("give {:.0f} to {:.0f}", kLeastWidth_px, kMostWidth_px));
    }
    if (shown.empty()) {
        return fail(ErrorKind::kOutOfDomain, "there is no minute to draw", "the forecast",
                    "give a forecast that serves the event");
    }
    const double page_px = std::round(width_px);
    const TypeSizes sizes = type_sizes(page_px);
    const double margin = sizes.large_px;
    const double wrap_px = page_px - 2.0 * margin;
    const TextBlock title(caption.title, {sizes.medium_px, true, Align::kLeft, wrap_px, 2});
    const TextBlock sides(sides_of(shown), {sizes.small_px, false, Align::kLeft, wrap_px, 2});
    const TextBlock source(caption.source, {sizes.small_px, false, Align::kLeft, wrap_px, 4});
    const Band band{shown, margin, 1.6 * margin + title.height_px(), wrap_px, 0.11 * page_px + 20.0};
    const double phases_top = band.bottom() + 2.2 * sizes.small_px + 4.0 * sizes.unit_px;
    const double sides_top = phases_top + 2.2 * sizes.small_px;
    const double source_top = sides_top + sides.height_px() + 0.3 * sizes.small_px;
    const double height_px = source_top + source.height_px() + margin;
    Drawing drawing(format, static_cast<int>(page_px), static_cast<int>(std::ceil(height_px)), kPaper);
    drawing.put(title, {margin, margin}, kInk);
    draw_colours(drawing, band);
    label_times(drawing, band, zone, sizes);
    label_phases(drawing, band, phases_top, sizes);
    drawing.put(sides, {margin, sides_top}, kQuietInk);
    drawing.put(source, {margin, source_top}, kQuietInk);
    return drawing.finish();
}

}  // namespace gloam::sheet
