#include <CLI/CLI.hpp>
#include <memory>

#include "app/call_report.hpp"
#include "app/cli/commands.hpp"
#include "sky/embedded_tables.hpp"
#include "sky/sky_tables.hpp"

namespace gloam::app {
namespace {

struct CallOptions {
    EventWords words;
    CallWishes wishes;
    std::string as_of;
    bool json = false;
    bool explain = false;
};

CommandResult run_call(CallOptions options, const Surroundings& surroundings) {
    if (!options.as_of.empty()) {
        const auto instant = parse_rfc3339(options.as_of);
        if (!instant) {
            return tl::unexpected(instant.error());
        }
        options.wishes.as_of = *instant;
    }
    const auto tables = sky::unpack_sky_tables(sky::embedded_tables());
    if (!tables) {
        return tl::unexpected(tables.error());
    }
    return gather_inputs(options.words, surroundings)
        .and_then([&](const EventInputs& inputs) {
            return make_call(*tables, inputs, options.wishes, surroundings.now);
        })
        .map([&](const CallReport& report) {
            return options.json      ? to_json(report)
                   : options.explain ? to_explanation(report)
                                     : to_text(report);
        });
}

}  // namespace

void add_call_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result) {
    auto options = std::make_shared<CallOptions>();
    CLI::App* command =
        program.add_subcommand("call", "Is this dawn or dusk worth getting everyone out for?");
    command->footer(
        "Example:\n  gloam call --place 37.07,15.29 --zone Europe/Rome --date 2025-01-29 --event dawn "
        "--forecast RUN.grib2\n"
        "It prints go, stay or look again, the odds, when and where to look, why, what is missing, and how "
        "old the data is.");
    add_event_options(*command, options->words);
    command
        ->add_option("--class", options->wishes.outcome_class,
                     "least class worth going for: slight, fair, good (usual) or outstanding")
        ->type_name("CLASS");
    command
        ->add_option(
            "--starts", options->wishes.starts_for_one,
            "how many early starts for nothing would you trade for one good dawn? n gives the threshold "
            "1/(n+1); usual 2 for dawn, 6 for dusk")
        ->type_name("N");
    command
        ->add_option("--as-of", options->as_of,
                     "count the age of the data to this time, like 2025-01-29T03:30:00+01:00")
        ->type_name("TIME");
    command->add_flag("--json", options->json, "the same as JSON");
    command->add_flag("--explain", options->explain, "the working behind it")->excludes("--json");
    command->callback([options, &surroundings, &result] { result = run_call(*options, surroundings); });
}

}  // namespace gloam::app
