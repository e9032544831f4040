#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <memory>

#include "app/cli/commands.hpp"
#include "app/journal_file.hpp"
#include "app/outing_replay.hpp"
#include "sky/embedded_tables.hpp"
#include "sky/sky_tables.hpp"

namespace gloam::app {
namespace {

struct ReplayOptions {
    std::optional<std::int64_t> call;
    std::string journal;
};

/// What was said then; on another version what would be said now, as far as it can be told.
std::string in_words(const Replayed& replayed) {
    const std::string& stored = replayed.stored.record.output;
    std::string text = stored;
    for (const journal::Overrule& overrule : replayed.stored.overrules) {
        text += fmt::format("\nOverruled: {}, because {}\n", overrule.answer, overrule.reason);
    }
    if (!replayed.report) {
        return text + fmt::format("\nThis program cannot make the call again: {}.\n",
                                  replayed.report.error().message);
    }
    const std::string apart = difference(stored, to_text(*replayed.report));
    if (!apart.empty()) {
        text += fmt::format("\n{} Lines of then (-) and of now (+):\n{}",
                            replayed.same_version ? "Made again it differs."
                                                  : "Another version of the program made this call.",
                            apart);
    } else if (!replayed.same_version) {
        text += "\nAnother version of the program made this call; this one says the same.\n";
    }
    return text;
}

CommandResult run_replay(const ReplayOptions& options, const Surroundings& surroundings) {
    const auto tables = sky::unpack_sky_tables(sky::embedded_tables());
    if (!tables) {
        return tl::unexpected(tables.error());
    }
    return open_existing_journal(options.journal, surroundings)
        .and_then([&](const journal::Journal& journal) { return replay(*tables, journal, options.call); })
        .map(in_words);
}

}  // namespace

void add_replay_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result) {
    auto options = std::make_shared<ReplayOptions>();
    CLI::App* command =
        program.add_subcommand("replay", "Makes a kept call again from what the journal stored with it.");
    command->add_option("ID", options->call, "number of the call; usual: the one made last");
    add_journal_option(*command, options->journal);
    command->callback([options, &surroundings, &result] { result = run_replay(*options, surroundings); });
}

}  // namespace gloam::app
