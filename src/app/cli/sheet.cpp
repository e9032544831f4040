#include <fmt/format.h>
#include <fmt/ranges.h>
#include <CLI/CLI.hpp>

#include <memory>
#include <span>

#include "app/cli/commands.hpp"
#include "app/journal_file.hpp"
#include "app/outing_history.hpp"
#include "app/outing_replay.hpp"
#include "app/text_file.hpp"
#include "sky/embedded_tables.hpp"
#include "sky/sky_tables.hpp"

namespace gloam::app {
namespace {

struct SheetOptions {
    std::optional<std::int64_t> call;
    std::string journal;
    std::string output;
};

/// Words of the stops that stand.
std::vector<std::string> stops_of(const OutingReport& report) {
    std::vector<std::string> words;
    for (const decide::Caution& caution : report.cautions) {
        if (caution.kind == decide::CautionKind::kStop && caution.set_aside_because.empty()) {
            words.emplace_back(name_of(caution.hazard));
        }
    }
    return words;
}

/// A message that calls people out past a stop needs a reason first.
CommandResult message_of(const Replayed& replayed) {
    const std::int64_t call = replayed.stored.id;
    if (!replayed.same_version || !replayed.report) {
        return fail(ErrorKind::kUnsupported, "another version of the program made this call",
                    fmt::format("call {}", call), "look again, and take the sheet of that call");
    }
    const std::string answer = answer_that_holds(replayed.stored);
    const bool off = answer == "sleep" || answer == "stay";
    const auto stops = stops_of(*replayed.report);
    if (!off && !stops.empty()) {
        return fail(
            ErrorKind::kIncomplete, fmt::format("a STOP stands: {}", fmt::join(stops, ", ")),
            fmt::format("call {}", call),
            fmt::format(
                "gloam overrule {} stay --because REASON; or gloam set-aside {} {} --because REASON, and "
                "look again",
                call, call, stops.front()));
    }
    return to_message(*replayed.report, answer);
}

CommandResult run_sheet(const SheetOptions& options, const Surroundings& surroundings) {
    const auto tables = sky::unpack_sky_tables(sky::embedded_tables());
    if (!tables) {
        return tl::unexpected(tables.error());
    }
    const auto message =
        open_existing_journal(options.journal, surroundings)
            .and_then([&](const journal::Journal& journal) { return replay(*tables, journal, options.call); })
            .and_then(message_of);
    if (!message || options.output.empty()) {
        return message;
    }
    return write_file(options.output, std::as_bytes(std::span(*message))).map([&] {
        return fmt::format("wrote {}\n", options.output);
    });
}

}  // namespace

void add_sheet_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result) {
    auto options = std::make_shared<SheetOptions>();
    CLI::App* command = program.add_subcommand(
        "sheet", "The call sheet of a kept call: a message to the group, short enough for a phone.");
    command->add_option("ID", options->call, "number of the call; usual: the one made last");
    command->add_option("-o,--output", options->output, "write it to this file")->type_name("FILE.txt");
    add_journal_option(*command, options->journal);
    command->callback([options, &surroundings, &result] { result = run_sheet(*options, surroundings); });
}

}  // namespace gloam::app
