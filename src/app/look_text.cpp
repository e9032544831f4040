// What is in forecast files, in tables for a person.
#include "app/look_text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

#include "astro/ephemeris.hpp"
#include "weather/column.hpp"
#include "weather/light_path.hpp"

namespace gloam::app {
namespace {

using weather::Band;
using weather::FieldGroup;
using weather::LevelKind;
using weather::Quantity;

/// "1 message", "3 messages".
std::string counted(std::size_t count, std::string_view noun) {
    return fmt::format("{} {}{}", count, noun, count == 1 ? "" : "s");
}

/// "2025-01-29 06:00".
std::string minute(Instant instant) {
    std::string text = to_rfc3339_utc(instant).substr(0, 16);
    text[10] = ' ';
    return text;
}

/// "cloud cover, 22 levels, 50 to 1000 hPa", "temperature 2 m above the ground".
std::string what_in_words(const FieldGroup& group) {
    std::string what(name_of(group.like.quantity));
    if (group.like.aerosol) {
        what += fmt::format(" ({})", to_text(*group.like.aerosol));
    }
    if (group.levels.size() == 1) {
        return fmt::format("{} {}", what, to_text(group.like.level));
    }
    return fmt::format("{}, {} levels, {:g} to {:g} hPa", what, group.levels.size(),
                       group.levels.begin()->pressure_pa / 100.0, group.levels.rbegin()->pressure_pa / 100.0);
}

std::string_view name_of(weather::TimeKind kind) {
    static constexpr std::array<std::string_view, 5> kNames{"", "mean ", "sum ", "greatest ", "least "};
    return kNames[static_cast<std::size_t>(kind)];
}

/// "mean 2025-01-29 00:00 + 6 h"; of several "9 x, " and the hours from the first to the last.
std::string times_in_words(const FieldGroup& group) {
    const auto& [from, to] = *group.times.begin();
    const Instant last = group.times.rbegin()->second;
    const std::string kind(name_of(group.like.time_kind));
    if (group.times.size() == 1) {
        return from == to ? minute(to)
                          : fmt::format("{}{} + {:g} h", kind, minute(from), hours_between(from, to));
    }
    return fmt::format("{}{} x, {} + {:g} h", kind, group.times.size(), minute(from),
                       hours_between(from, last));
}

std::string range_in_words(const FieldGroup& group) {
    if (!group.range) {
        return "no value";
    }
    const auto& facts = weather::facts_of(group.like.quantity);
    const auto [least, most] = *group.range;
    const bool share = facts.unit.empty() && group.like.quantity != Quantity::kAerosolDepth;
    if (share) {
        return fmt::format("{:.0f} to {:.0f} %", 100.0 * least, 100.0 * most);
    }
    if (group.like.quantity == Quantity::kPressure) {
        return fmt::format("{:.0f} to {:.0f} hPa", least / 100.0, most / 100.0);
    }
    return facts.unit.empty() ? fmt::format("{:.3g} to {:.3g}", least, most)
                              : fmt::format("{:.4g} to {:.4g} {}", least, most, facts.unit);
}

std::string missing_in_words(const FieldGroup& group) {
    return group.missing_cells == 0 ? ""
                                    : fmt::format(", {:.0f} % missing",
                                                  std::ceil(100.0 * static_cast<double>(group.missing_cells) /
                                                            static_cast<double>(group.cells)));
}

/// One line a group, in columns: what, when, values.
std::string group_lines(const std::vector<FieldGroup>& groups) {
    std::size_t what_width = 0;
    std::size_t when_width = 0;
    for (const FieldGroup& group : groups) {
        what_width = std::max(what_width, what_in_words(group).size());
        when_width = std::max(when_width, times_in_words(group).size());
    }
    std::string lines;
    for (const FieldGroup& group : groups) {
        lines +=
            fmt::format("  {:<{}}  {:<{}}  {}{}\n", what_in_words(group), what_width, times_in_words(group),
                        when_width, range_in_words(group), missing_in_words(group));
    }
    return lines;
}

/// Grids of the groups, each once, in order.
std::vector<const weather::Grid*> grids_of(const std::vector<FieldGroup>& groups) {
    std::vector<const weather::Grid*> grids;
    for (const FieldGroup& group : groups) {
        if (std::ranges::none_of(grids,
                                 [&](const auto* grid) { return same_grid(*grid, group.like.grid); })) {
            grids.push_back(&group.like.grid);
        }
    }
    return grids;
}

/// "one run, no members"; "members 1 to 50, no control (0)".
std::string members_in_words(const weather::Forecast& forecast) {
    std::set<std::optional<int>> members;
    for (const weather::Field& field : forecast.fields) {
        members.insert(field.member);
    }
    members.erase(std::nullopt);
    if (members.empty()) {
        return "one run, no members";
    }
    return fmt::format("{}, {} to {}{}", counted(members.size(), "member"), **members.begin(),
                       **members.rbegin(), members.contains(0) ? "" : ", none of them the control (0)");
}

std::string route_in_words(weather::LayerRoute route) {
    static constexpr std::array<std::string_view, 5> kWords{
        "cover on pressure levels", "low, middle and high cover as the centre draws them",
        "worked out from humidity on pressure levels", "means over hours of low, middle and high cover",
        "total cover alone: needs cloud by layer"};
    return std::string(kWords[static_cast<std::size_t>(route)]);
}

/// What a decision could use, by the quantity that would say it.
constexpr std::array<std::pair<Quantity, std::string_view>, 9> kUseful{
    {{Quantity::kGeopotentialHeight, "heights of the levels"},
     {Quantity::kVisibility, "visibility"},
     {Quantity::kTemperature, "temperature"},
     {Quantity::kDewPoint, "dew point"},
     {Quantity::kWindEast, "wind"},
     {Quantity::kGust, "gusts"},
     {Quantity::kCape, "thunder (CAPE)"},
     {Quantity::kAerosolDepth, "aerosol"},
     {Quantity::kOzoneColumn, "ozone"}}};

std::string absent_in_words(const std::vector<FieldGroup>& groups) {
    std::vector<std::string_view> absent;
    for (const auto& [quantity, name] : kUseful) {
        if (std::ranges::none_of(groups,
                                 [&](const FieldGroup& group) { return group.like.quantity == quantity; })) {
            absent.push_back(name);
        }
    }
    const auto rains = [](const FieldGroup& group) {
        return group.like.quantity == Quantity::kPrecipitation ||
               group.like.quantity == Quantity::kPrecipitationRate;
    };
    if (std::ranges::none_of(groups, rains)) {
        absent.emplace_back("precipitation");
    }
    return absent.empty() ? "" : fmt::format("  not in these files: {}\n", fmt::join(absent, ", "));
}

std::string column_line(const weather::LayeredForecast& layers, std::size_t member, geo::LatLon place,
                        Instant instant) {
    const auto column = column_at(layers, member, place, instant);
    if (!column) {
        return fmt::format("    {}  {}\n", minute(instant), column.error().message);
    }
    std::string line = fmt::format("    {}", minute(instant));
    for (const Band band : weather::kBands) {
        const weather::ColumnLayer& layer = (*column)[weather::index_of(band)];
        const std::string heights =
            layer.cover > 0.0 ? fmt::format("{:.1f} to {:.1f} km", layer.base_m / 1e3, layer.top_m / 1e3)
                              : "";
        line += fmt::format("   {:<6} {:>3.0f} % {:<15}", name_of(band), 100.0 * layer.cover, heights);
    }
    line.erase(line.find_last_not_of(' ') + 1);
    return line + '\n';
}

/// Cover by layer every 100 km along the middle line, towards where the sun stands.
std::string path_lines(const weather::LayeredForecast& layers, std::size_t member, geo::LatLon place,
                       Instant instant) {
    const auto sun = astro::position_of(astro::Body::kSun, {place, HeightMsl{0.0}}, instant);
    const auto path = sample_light_path(layers, member, place, sun.azimuth, instant, {});
    std::string lines =
        fmt::format("      towards the sun ({:.0f} deg, {}; {:.1f} deg high), %:\n", sun.azimuth.degrees(),
                    geo::compass_point(sun.azimuth), sun.altitude.angle.degrees());
    if (!path) {
        return lines + fmt::format("        {}\n", path.error().message);
    }
    using weather::LightPathGrid;
    const auto cell_at = [](int km) {
        return static_cast<std::size_t>((km * 1e3 - LightPathGrid::kFirst_m) / LightPathGrid::kStep_m + 0.5);
    };
    lines += "        km    ";
    for (int km = -100; km <= 700; km += 100) {
        lines += fmt::format("{:>6}", km);
    }
    lines += '\n';
    for (const Band band : {Band::kHigh, Band::kMiddle, Band::kLow}) {
        lines += fmt::format("        {:<6}", name_of(band));
        for (int km = -100; km <= 700; km += 100) {
            const float cover =
                (*path)[weather::index_of(band)].cover[LightPathGrid::kLines / 2][cell_at(km)];
            lines += fmt::format("{:>6.0f}", 100.0 * static_cast<double>(cover));
        }
        lines += '\n';
    }
    return lines;
}

/// The instants of the steps, or the ends of the spans they are means over.
std::vector<Instant> times_of(const weather::LayeredMember& member) {
    std::vector<Instant> times;
    for (const weather::LayerStep& step : member.steps) {
        times.push_back(step.to);
    }
    return times;
}

std::string place_lines(const weather::LayeredForecast& layers, geo::LatLon place,
                        const std::optional<Instant>& at) {
    std::string lines = fmt::format("  over {}, UTC:\n", geo::to_text(place));
    for (std::size_t member = 0; member < layers.members.size(); ++member) {
        if (layers.members[member].member) {
            lines += fmt::format("   member {}\n", *layers.members[member].member);
        }
        for (const Instant instant : at ? std::vector{*at} : times_of(layers.members[member])) {
            lines += column_line(layers, member, place, instant);
            lines += is_point(layers.grid) ? "" : path_lines(layers, member, place, instant);
        }
    }
    return lines;
}

std::string cloud_lines(const weather::Forecast& forecast, const LookWishes& wishes) {
    const auto layers = layers_of(forecast);
    if (!layers) {
        return fmt::format("  cloud by layer: none. {}\n    {}\n", layers.error().message,
                           layers.error().hint);
    }
    std::string lines = fmt::format("  cloud by layer: {}\n", route_in_words(layers->route));
    if (is_point(layers->grid)) {
        lines += "    one column: what lies up-sun is not in it\n";
    }
    for (const std::string& note : layers->notes) {
        lines += fmt::format("    {}\n", note);
    }
    return wishes.place ? lines + place_lines(*layers, *wishes.place, wishes.at) : lines;
}

std::string run_lines(const weather::RunSurvey& run, const LookWishes& wishes) {
    std::string lines = fmt::format("{}, run {} UTC, {}\n", run.forecast.source,
                                    minute(run.forecast.run_time), members_in_words(run.forecast));
    for (const weather::Grid* grid : grids_of(run.groups)) {
        lines += fmt::format("  on {}\n", to_text(*grid));
    }
    lines += group_lines(run.groups);
    for (const std::string& note : run.forecast.notes) {
        lines += fmt::format("  {}\n", note);
    }
    return lines + cloud_lines(run.forecast, wishes) + absent_in_words(run.groups);
}

/// The reasons, most frequent first, as many as a person reads.
std::string skipped_lines(const weather::FileSurvey& file, bool all) {
    constexpr std::size_t kEnough = 8;
    std::vector<std::pair<std::string, std::size_t>> reasons(file.skipped.begin(), file.skipped.end());
    std::ranges::stable_sort(reasons, std::greater<>(), [](const auto& reason) { return reason.second; });
    std::size_t messages = 0;
    std::string lines;
    for (std::size_t i = 0; i < reasons.size(); ++i) {
        messages += reasons[i].second;
        lines +=
            all || i < kEnough ? fmt::format("    {:>4}  {}\n", reasons[i].second, reasons[i].first) : "";
    }
    if (!all && reasons.size() > kEnough) {
        lines += fmt::format("          and for {}: --all lists them\n",
                             counted(reasons.size() - kEnough, "other reason"));
    }
    return reasons.empty() ? "" : fmt::format("  not used: {}\n{}", messages, lines);
}

std::string file_lines(const weather::FileSurvey& file, bool all) {
    std::string lines = fmt::format("{}: {}\n", file.file, counted(file.messages, "message"));
    if (file.error) {
        lines += fmt::format("  cannot be read: {}\n    {}\n", file.error->message, file.error->hint);
    }
    for (const std::string& doubt : file.doubts) {
        lines += fmt::format("  {}\n", doubt);
    }
    if (file.clamped_values > 0) {
        lines += fmt::format("  {} a little outside what can be, put right\n",
                             counted(file.clamped_values, "value"));
    }
    if (file.sentinel_values > 0) {
        lines += fmt::format("  {} for \"no value\", masked\n", counted(file.sentinel_values, "number"));
    }
    return lines + skipped_lines(file, all);
}

}  // namespace

std::string to_text(const weather::Survey& survey, const LookWishes& wishes) {
    std::string text;
    for (const weather::RunSurvey& run : survey.runs) {
        text += run_lines(run, wishes) + '\n';
    }
    for (const weather::FileSurvey& file : survey.files) {
        text += file_lines(file, wishes.all);
    }
    return text;
}

}  // namespace gloam::app
