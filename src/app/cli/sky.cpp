#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <charconv>
#include <cmath>
#include <filesystem>
#include <memory>
#include <optional>

#include "app/cli/commands.hpp"
#include "app/event_words.hpp"
#include "app/text_file.hpp"
#include "geo/quoted.hpp"
#include "outlook/member_sky.hpp"
#include "sheet/sky_picture.hpp"
#include "sheet/sky_png.hpp"
#include "sheet/time_strip.hpp"
#include "sky/embedded_tables.hpp"
#include "weather/served_times.hpp"

namespace gloam::app {
namespace {

struct SkyOptions {
    EventWords words;
    std::string at;
    std::string view;
    std::optional<double> towards_deg;
    std::optional<double> exposure_ev;
    int member = 1;
    int depth = 8;
    int width_px = 1440;
    bool strip = false;
    std::string output;
};

constexpr const char* kIllustration =
    "An illustration of what was computed: light, colour and how much cloud there is in each part of the sky "
    "are computed; where each cloud stands and its form are made up, and so is the water.";

bool has_extension(const std::string& output, std::string_view extension) {
    return std::filesystem::path(output).extension().string() == extension;
}

/// The number of a word like "24mm" or "24".
Result<double> parse_focal_mm(const std::string& word) {
    double focal_mm = 0.0;
    const char* const end = word.data() + word.size();
    const auto [rest, error] = std::from_chars(word.data(), end, focal_mm);
    if (error != std::errc() || (rest != end && std::string_view(rest, end) != "mm")) {
        return fail(ErrorKind::kBadInput, fmt::format("{} is no focal length", geo::quoted(word)), "--view",
                    "give millimetres on a 36 x 24 mm frame, like 24mm");
    }
    return focal_mm;
}

/// "06:31" on the clock of the place, at the moment nearest to the event; or an instant.
bool is_of(const EventInputs& inputs, Instant instant) {
    return instant >= inputs.half_day.span.begin && instant < inputs.half_day.span.end;
}

tl::unexpected<Error> not_of_the_event(const std::string& word, const EventInputs& inputs) {
    const auto& half_day = inputs.half_day.span;
    return fail(ErrorKind::kOutOfDomain,
                fmt::format("{} is not in this {}, which runs from {} to {}", word,
                            inputs.half_day.kind == astro::EventKind::kDawn ? "dawn" : "dusk",
                            inputs.place.zone.clock(half_day.begin), inputs.place.zone.clock(half_day.end)),
                "--at", "choose a time nearer the event");
}

Result<Instant> parse_at(const std::string& word, const EventInputs& inputs) {
    if (word.find('T') != std::string::npos) {
        auto instant = parse_rfc3339(word);
        if (!instant) {
            instant.error().where = "--at";
            return instant;
        }
        return is_of(inputs, *instant) ? instant : not_of_the_event(word, inputs);
    }
    unsigned hour = 99;
    unsigned minute = 99;
    const char* const end = word.data() + word.size();
    const auto past_hour = std::from_chars(word.data(), end, hour);
    if (past_hour.ec != std::errc() || past_hour.ptr == end || *past_hour.ptr != ':' ||
        std::from_chars(past_hour.ptr + 1, end, minute).ptr != end || hour > 23 || minute > 59) {
        return fail(ErrorKind::kBadInput, fmt::format("{} is no time", geo::quoted(word)), "--at",
                    "give the place's clock, like 06:31, or an instant, like 2025-01-29T06:31:00+01:00");
    }
    const Duration clock = std::chrono::hours(hour) + std::chrono::minutes(minute);
    for (const int days : {0, 1, -1}) {
        const CivilDate date = std::chrono::sys_days(inputs.date) + std::chrono::days(days);
        for (const Instant instant : inputs.place.zone.instants_of(date, clock)) {
            if (is_of(inputs, instant)) {
                return instant;
            }
        }
    }
    return not_of_the_event(word, inputs);
}

Result<sheet::SkyView> view_of(const SkyOptions& options, Azimuth sun) {
    if (options.view.empty()) {
        return sheet::SkyView::strip(options.width_px);
    }
    const Azimuth towards = options.towards_deg ? Azimuth::degrees(*options.towards_deg) : sun;
    return parse_focal_mm(options.view).and_then([&](double focal_mm) {
        return sheet::SkyView::lens(focal_mm, turn(sun, towards), options.width_px);
    });
}

Result<void> check(const SkyOptions& options) {
    constexpr double kDarkest_ev = -8.0;
    constexpr double kBrightest_ev = 20.0;
    const auto refuse = [](std::string what, std::string where, std::string remedy) {
        return fail(ErrorKind::kBadInput, std::move(what), std::move(where), std::move(remedy));
    };
    if (options.towards_deg && !(*options.towards_deg >= 0.0 && *options.towards_deg <= 360.0)) {
        return refuse(fmt::format("{} deg is no bearing", *options.towards_deg), "--towards",
                      "give degrees from true north, 0 to 360");
    }
    if (options.towards_deg && options.view.empty()) {
        return refuse("a bearing without a lens", "--towards", "give --view as well, like 24mm");
    }
    if (options.exposure_ev &&
        !(*options.exposure_ev >= kDarkest_ev && *options.exposure_ev <= kBrightest_ev)) {
        return refuse(fmt::format("EV {} is no exposure", *options.exposure_ev), "--exposure",
                      fmt::format("give EV at ISO 100, {} to {}", kDarkest_ev, kBrightest_ev));
    }
    if (options.member < 1) {
        return refuse(fmt::format("there is no member {}", options.member), "--member", "count from 1");
    }
    if (options.depth != 8 && options.depth != 16) {
        return refuse(fmt::format("{} bits are no depth of a PNG", options.depth), "--depth", "give 8 or 16");
    }
    if (options.strip ? !has_extension(options.output, ".svg") && !has_extension(options.output, ".png")
                      : !has_extension(options.output, ".png")) {
        return refuse(fmt::format("{} does not say what to draw", geo::quoted(options.output)), "--output",
                      options.strip ? "end the name in .svg or .png" : "end the name in .png");
    }
    if (!options.strip && options.at.empty()) {
        return refuse("a picture needs a time", "--at",
                      "give the place's clock, like 06:31; or --strip for all of it");
    }
    return {};
}

std::string words_of(const SkyOptions& options, const EventInputs& inputs, Instant instant,
                     const outlook::SeenSky& seen, double ev100) {
    return fmt::format("{}, {}, {}: sun {:+.1f} deg high at {:.0f} deg, member {}, EV {:.1f} (ISO 100)",
                       heading_of(inputs.half_day.kind, inputs.date), inputs.place.name,
                       inputs.place.zone.clock(instant), seen.sun.state.elevation.degrees(),
                       seen.sun.azimuth.degrees(), options.member, ev100);
}

CommandResult run_picture(const SkyOptions& options, const sky::SkyTables& tables,
                          const EventInputs& inputs) {
    const auto instant = parse_at(options.at, inputs);
    if (!instant) {
        return tl::unexpected(instant.error());
    }
    const auto index = static_cast<std::size_t>(options.member - 1);
    const auto seen =
        outlook::MemberSkies::of(tables, inputs.layers, inputs.request(), index, sheet::drawing_grid())
            .and_then([&](const outlook::MemberSkies& skies) { return skies.at(*instant); });
    if (!seen) {
        return tl::unexpected(seen.error());
    }
    const auto view = view_of(options, seen->sun.azimuth);
    if (!view) {
        return tl::unexpected(view.error());
    }
    const double ev100 =
        options.exposure_ev.value_or(sheet::ev_of_luminance(sheet::adapting_luminance(seen->panorama)));
    const std::string words = words_of(options, inputs, *instant, *seen, ev100);
    const auto picture = displayed(draw_sky(*seen, index, *view), ev100);
    return to_png(picture, static_cast<sheet::PngDepth>(options.depth), words + ". " + kIllustration)
        .and_then([&](const std::vector<std::byte>& bytes) { return write_file(options.output, bytes); })
        .map([&] { return fmt::format("{}\n{}\n{}\n", options.output, words, kIllustration); });
}

/// Minutes of the event that the forecast serves; every second or third where it is long.
Result<std::vector<sheet::SkyMinute>> minutes_of(const outlook::MemberSkies& skies,
                                                 const EventInputs& inputs) {
    constexpr std::int64_t kMost = 240;
    return outlook::moments_of(inputs.place.observer, inputs.half_day)
        .and_then([&](const std::vector<outlook::Moment>& moments) -> Result<std::vector<sheet::SkyMinute>> {
            const auto first = std::chrono::ceil<std::chrono::minutes>(moments.front().instant);
            const std::chrono::minutes step((moments.back().instant - first) / std::chrono::minutes(kMost) +
                                            1);
            std::vector<sheet::SkyMinute> minutes;
            for (Instant at = first; at <= moments.back().instant; at += step) {
                if (!serves(inputs.layers, at)) {
                    continue;
                }
                const auto seen = skies.at(at);
                if (!seen) {
                    return tl::unexpected(seen.error());
                }
                minutes.push_back(sheet::sky_minute(at, *seen));
            }
            return minutes;
        });
}

CommandResult run_strip(const SkyOptions& options, const sky::SkyTables& tables, const EventInputs& inputs) {
    const sheet::StripCaption caption{
        fmt::format("{}, {}", heading_of(inputs.half_day.kind, inputs.date), inputs.place.name),
        fmt::format("{}, run {}, member {}", inputs.forecast.source, to_rfc3339_utc(inputs.forecast.run_time),
                    options.member)};
    const auto format =
        has_extension(options.output, ".svg") ? sheet::DrawingFormat::kSvg : sheet::DrawingFormat::kPng;
    return outlook::MemberSkies::of(tables, inputs.layers, inputs.request(),
                                    static_cast<std::size_t>(options.member - 1), sheet::minute_grid())
        .and_then([&](const outlook::MemberSkies& skies) { return minutes_of(skies, inputs); })
        .and_then([&](const std::vector<sheet::SkyMinute>& minutes) {
            return draw_time_strip(minutes, caption, inputs.place.zone, format, options.width_px);
        })
        .and_then([&](const std::vector<std::byte>& bytes) { return write_file(options.output, bytes); })
        .map([&] {
            return fmt::format("{}\n{}: the sky low over the horizon, minute by minute\n", options.output,
                               caption.title);
        });
}

CommandResult run_sky(const SkyOptions& options, const Surroundings& surroundings) {
    const auto checked = check(options);
    if (!checked) {
        return tl::unexpected(checked.error());
    }
    const auto tables = sky::unpack_sky_tables(sky::embedded_tables());
    if (!tables) {
        return tl::unexpected(tables.error());
    }
    return gather_inputs(options.words, surroundings).and_then([&](const EventInputs& inputs) {
        return options.strip ? run_strip(options, *tables, inputs) : run_picture(options, *tables, inputs);
    });
}

}  // namespace

void add_sky_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result) {
    auto options = std::make_shared<SkyOptions>();
    CLI::App* command = program.add_subcommand(
        "sky", "Paint the sky of one member at one time, or its colours by the minute");
    command->footer(
        "Example:\n  gloam sky --place 37.07,15.29 --zone Europe/Rome --date 2025-01-29 --event dawn "
        "--forecast RUN.grib2 --at 06:45 --view 24mm --towards 112 --output sky.png\n"
        "Without --view: the whole circle, 90 deg high, the sun's azimuth in the middle.");
    add_event_options(*command, options->words);
    command
        ->add_option("--at", options->at,
                     "time on the place's clock, like 06:45, or an instant, like 2025-01-29T06:45:00+01:00")
        ->type_name("TIME");
    command
        ->add_option("--member", options->member,
                     "which member, from 1 (usual: 1, of a single run the centre of the draws)")
        ->type_name("N");
    command->add_option("--view", options->view, "focal length on a 36 x 24 mm frame, like 24mm")
        ->type_name("LENS");
    command
        ->add_option("--towards", options->towards_deg,
                     "bearing of the frame's middle, degrees from true north (usual: the sun's)")
        ->type_name("DEG");
    command
        ->add_option("--exposure", options->exposure_ev,
                     "what the meter reads, EV at ISO 100 (usual: the mean of the sky)")
        ->type_name("EV");
    command->add_option("--depth", options->depth, "bits of a channel, 8 (usual) or 16")->type_name("BITS");
    command->add_option("--width", options->width_px, "width in pixels, usual 1440")->type_name("PX");
    command
        ->add_flag("--strip", options->strip,
                   "the colour low over the horizon, minute by minute, towards the sun and opposite")
        ->excludes("--at", "--view", "--towards", "--exposure", "--depth");
    command->add_option("-o,--output", options->output, "file to write, .png (a strip: .svg or .png)")
        ->required()
        ->type_name("FILE");
    command->callback([options, &surroundings, &result] { result = run_sky(*options, surroundings); });
}

}  // namespace gloam::app
