#include <CLI/CLI.hpp>

#include <algorithm>
#include <filesystem>
#include <memory>

#include "app/cli/commands.hpp"
#include "app/look_text.hpp"

namespace gloam::app {
namespace {

struct LookOptions {
    std::vector<std::string> files;
    std::string place;
    std::string at;
    bool all = false;
};

/// The light path reaches 700 km; the rest is for a path that is asked for near the edge.
constexpr double kReach_m = 1000.0e3;

CommandResult run_look(const LookOptions& options) {
    LookWishes wishes;
    wishes.all = options.all;
    std::optional<weather::Wanted::Round> round;
    if (!options.place.empty()) {
        const auto position = geo::parse_position(options.place);
        if (!position) {
            return tl::unexpected(position.error());
        }
        wishes.place = position->at;
        round = {position->at, kReach_m};
    }
    if (!options.at.empty()) {
        const auto instant = parse_rfc3339(options.at);
        if (!instant) {
            return tl::unexpected(instant.error());
        }
        wishes.at = *instant;
    }
    const std::vector<std::filesystem::path> files(options.files.begin(), options.files.end());
    const weather::Survey survey = weather::survey(files, round);
    const bool nothing = std::ranges::all_of(
        survey.files, [](const weather::FileSurvey& file) { return file.error.has_value(); });
    return nothing ? CommandResult(tl::unexpected(*survey.files.front().error))
                   : CommandResult(to_text(survey, wishes));
}

}  // namespace

void add_look_command(CLI::App& program, CommandResult& result) {
    auto options = std::make_shared<LookOptions>();
    CLI::App* command = program.add_subcommand(
        "look",
        "What is in these forecast files: run, steps, members, area, cloud by layer, and what is not");
    command->footer(
        "Example:\n  gloam look RUN.grib2 --place 37.07,15.29\n"
        "Any number of files, of any number of runs. Nothing is decided here: it is for seeing what a call "
        "would "
        "stand on.");
    command->add_option("files", options->files, "forecast files: GRIB, or the JSON of a point forecast")
        ->required()
        ->type_name("FILE...");
    command
        ->add_option("--place", options->place,
                     "lat,lon in decimal degrees: adds the cloud over it and towards the sun")
        ->type_name("PLACE");
    command
        ->add_option("--at", options->at,
                     "with --place: at this time, like 2025-01-29T07:10:00+01:00; else at every time of the "
                     "files")
        ->type_name("TIME")
        ->needs("--place");
    command->add_flag("--all", options->all, "every reason for which messages were not used");
    command->callback([options, &result] { result = run_look(*options); });
}

}  // namespace gloam::app
