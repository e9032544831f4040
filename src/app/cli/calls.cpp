#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <memory>

#include "app/cli/commands.hpp"
#include "app/event_words.hpp"
#include "app/journal_file.hpp"

namespace gloam::app {
namespace {

struct CallsOptions {
    std::string trip;
    std::string journal;
};

std::string line_of(const journal::CallLine& call) {
    const journal::CallHead& head = call.head;
    std::string line = fmt::format("{:5}  {}, {}: {} look {} UTC, {}, {:.0f} % against {:.0f} %\n", call.id,
                                   heading_of(head.event.kind, head.event.date), head.event.place,
                                   name_of(head.look), to_rfc3339_utc(head.made_at).substr(0, 16),
                                   head.answer, 100.0 * head.odds, 100.0 * head.threshold);
    for (const journal::Overrule& overrule : call.overrules) {
        line += fmt::format("       overruled: {}, because {}\n", overrule.answer, overrule.reason);
    }
    return line;
}

std::string in_words(const std::vector<journal::CallLine>& calls) {
    std::string text;
    for (const journal::CallLine& call : calls) {
        text += line_of(call);
    }
    return text.empty() ? "No calls yet. gloam evening makes the first.\n" : text;
}

CommandResult run_calls(const CallsOptions& options, const Surroundings& surroundings) {
    return open_existing_journal(options.journal, surroundings)
        .and_then([&](const journal::Journal& journal) { return calls_of(journal, options.trip); })
        .map(in_words);
}

}  // namespace

void add_calls_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result) {
    auto options = std::make_shared<CallsOptions>();
    CLI::App* command = program.add_subcommand("calls", "Lists the kept calls of a trip.");
    command->add_option("--trip", options->trip, "name of the trip")->required()->type_name("NAME");
    add_journal_option(*command, options->journal);
    command->callback([options, &surroundings, &result] { result = run_calls(*options, surroundings); });
}

}  // namespace gloam::app
