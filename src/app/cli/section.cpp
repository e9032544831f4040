#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <filesystem>
#include <memory>

#include "app/cli/commands.hpp"
#include "app/event_words.hpp"
#include "app/text_file.hpp"
#include "outlook/section.hpp"
#include "sheet/section_drawing.hpp"
#include "sky/embedded_tables.hpp"

namespace gloam::app {
namespace {

struct SectionOptions {
    EventWords words;
    std::string output;
    double width_px = 1200.0;
};

Result<sheet::DrawingFormat> format_of(const std::string& output) {
    const std::string extension = std::filesystem::path(output).extension().string();
    if (extension == ".svg") {
        return sheet::DrawingFormat::kSvg;
    }
    if (extension == ".png") {
        return sheet::DrawingFormat::kPng;
    }
    return fail(ErrorKind::kBadInput, fmt::format("'{}' does not say what to draw", output), "--output",
                "end the name in .svg or .png");
}

CommandResult run_section(const SectionOptions& options, const Surroundings& surroundings) {
    const auto format = format_of(options.output);
    if (!format) {
        return tl::unexpected(format.error());
    }
    const auto tables = sky::unpack_sky_tables(sky::embedded_tables());
    if (!tables) {
        return tl::unexpected(tables.error());
    }
    const auto inputs = gather_inputs(options.words, surroundings);
    if (!inputs) {
        return tl::unexpected(inputs.error());
    }
    const auto section = section_of(*tables, inputs->layers, inputs->request());
    if (!section) {
        return tl::unexpected(section.error());
    }
    const sheet::SectionCaption caption{
        fmt::format("{}, {}", heading_of(inputs->half_day.kind, inputs->date), inputs->place.name),
        fmt::format("{}, run {}", inputs->forecast.source, to_rfc3339_utc(inputs->forecast.run_time))};
    return draw_section(*section, caption, inputs->place.zone, *format, options.width_px)
        .and_then([&](const std::vector<std::byte>& bytes) { return write_file(options.output, bytes); })
        .map([&] { return fmt::format("{}\n{}\n", options.output, section->deciding); });
}

}  // namespace

void add_section_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result) {
    auto options = std::make_shared<SectionOptions>();
    CLI::App* command = program.add_subcommand(
        "section", "Draw the light path: height against distance up-sun, cloud, and the sun's rays");
    command->footer(
        "Example:\n  gloam section --place 37.07,15.29 --zone Europe/Rome --date 2025-01-29 --event dawn "
        "--forecast RUN.grib2 --output section.svg");
    add_event_options(*command, options->words);
    command->add_option("-o,--output", options->output, "file to write, .svg or .png")
        ->required()
        ->type_name("FILE");
    command->add_option("--width", options->width_px, "width in pixels, usual 1200")->type_name("PX");
    command->callback([options, &surroundings, &result] { result = run_section(*options, surroundings); });
}

}  // namespace gloam::app
