#include <CLI/CLI.hpp>
#include <memory>

#include "app/cli/outing_options.hpp"

namespace gloam::app {

void add_morning_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result) {
    auto options = std::make_shared<OutingOptions>();
    options->wishes.look = OutingLook::kMorning;
    CLI::App* command = program.add_subcommand(
        "morning",
        "The small hours: go, stay, or look again? Holds to what was announced unless the odds have turned.");
    command->footer(
        "Example:\n  gloam morning --trip \"Ionian week\" --place \"Salt Steps\" --date 2025-01-29 --event "
        "dawn "
        "--forecast RUN.grib2 --seen stars-low");
    add_outing_options(*command, *options);
    command
        ->add_option("--seen", options->wishes.seen,
                     "what you see of the sky: stars-low, bank (low towards the dawn), no-stars, drizzle")
        ->type_name("SIGN");
    command->callback([options, &surroundings, &result] { result = run_outing(*options, surroundings); });
}

}  // namespace gloam::app
