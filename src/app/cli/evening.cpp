#include <CLI/CLI.hpp>
#include <memory>

#include "app/cli/outing_options.hpp"

namespace gloam::app {

void add_evening_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result) {
    auto options = std::make_shared<OutingOptions>();
    options->wishes.look = OutingLook::kEvening;
    CLI::App* command = program.add_subcommand(
        "evening",
        "The evening before: everyone's alarm, yours alone, or nobody's? Keeps the answer in the journal.");
    command->footer(
        "Example:\n  gloam evening --trip \"Ionian week\" --place \"Salt Steps\" --date 2025-01-29 --event "
        "dawn "
        "--forecast RUN.grib2\n"
        "It prints cautions, the answer, the odds and what they were held against, the times from bed to "
        "breakfast, and "
        "why.");
    add_outing_options(*command, *options);
    command->add_flag_callback(
        "--no-second-look", [options] { options->wishes.looks_again = false; },
        "nobody will look again in the small hours: say yes or no now");
    command->callback([options, &surroundings, &result] { result = run_outing(*options, surroundings); });
}

}  // namespace gloam::app
