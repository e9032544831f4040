#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <memory>

#include "app/cli/commands.hpp"
#include "app/journal_file.hpp"
#include "decide/caution.hpp"

namespace gloam::app {
namespace {

struct SetAsideOptions {
    std::int64_t call = 0;
    std::string caution;
    std::string reason;
    std::string journal;
};

Result<void> record(journal::Journal& journal, const SetAsideOptions& options, Instant now) {
    const auto call = find_call(journal, options.call);
    if (!call) {
        return tl::unexpected(call.error());
    }
    if (!*call) {
        return fail(ErrorKind::kNotFound, fmt::format("the journal has no call {}", options.call), "ID",
                    "gloam calls lists them");
    }
    return record_dismissal(journal, (*call)->record.head.event, {now, options.caution, options.reason});
}

CommandResult run_set_aside(const SetAsideOptions& options, const Surroundings& surroundings) {
    return open_existing_journal(options.journal, surroundings)
        .and_then([&](journal::Journal journal) { return record(journal, options, surroundings.now); })
        .map([&] {
            return fmt::format(
                "{}: set aside for this event, and shown so. Kept with your reason. Look again to see "
                "the call with it.\n",
                options.caution);
        });
}

std::vector<std::string> caution_words() {
    std::vector<std::string> words;
    for (const decide::Hazard hazard : decide::kHazards) {
        words.emplace_back(name_of(hazard));
    }
    return words;
}

}  // namespace

void add_set_aside_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result) {
    auto options = std::make_shared<SetAsideOptions>();
    CLI::App* command = program.add_subcommand(
        "set-aside", "Sets a caution of an event aside, with a reason; it stays visible as such.");
    command->add_option("ID", options->call, "number of a call of the event")->required();
    command->add_option("CAUTION", options->caution, "its word, like tide, warning or access")
        ->required()
        ->check(CLI::IsMember(caution_words()));
    command->add_option("--because", options->reason, "why")->required()->type_name("REASON");
    add_journal_option(*command, options->journal);
    command->callback([options, &surroundings, &result] { result = run_set_aside(*options, surroundings); });
}

}  // namespace gloam::app
