#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <memory>

#include "app/cli/commands.hpp"
#include "app/journal_file.hpp"

namespace gloam::app {
namespace {

struct OverruleOptions {
    std::int64_t call = 0;
    std::string answer;
    std::string reason;
    std::string journal;
};

CommandResult run_overrule(const OverruleOptions& options, const Surroundings& surroundings) {
    return open_existing_journal(options.journal, surroundings)
        .and_then([&](journal::Journal journal) {
            return record_overrule(journal, options.call, {surroundings.now, options.answer, options.reason});
        })
        .map([&] {
            return fmt::format("Call {}: {}, as you say. Kept with your reason.\n", options.call,
                               options.answer);
        });
}

}  // namespace

void add_overrule_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result) {
    auto options = std::make_shared<OverruleOptions>();
    CLI::App* command =
        program.add_subcommand("overrule", "Decides a kept call otherwise; the reason is kept with it.");
    command->add_option("ID", options->call, "number of the call")->required();
    command->add_option("ANSWER", options->answer, "go or stay")
        ->required()
        ->check(CLI::IsMember({"go", "stay"}));
    command->add_option("--because", options->reason, "why")->required()->type_name("REASON");
    add_journal_option(*command, options->journal);
    command->callback([options, &surroundings, &result] { result = run_overrule(*options, surroundings); });
}

}  // namespace gloam::app
