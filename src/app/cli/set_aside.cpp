#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <memory>

#include "app/cli/commands.hpp"
#include "app/event_words.hpp"
#include "app/journal_file.hpp"
#include "app/outing_replay.hpp"
#include "decide/caution.hpp"
#include "sky/embedded_tables.hpp"
#include "sky/sky_tables.hpp"

namespace gloam::app {
namespace {

struct SetAsideOptions {
    std::int64_t call = 0;
    std::string caution;
    std::string reason;
    std::string journal;
};

/// The cautions of a call that go by the word and stand.
Result<std::vector<std::string>> texts_of(const Replayed& replayed, const std::string& word) {
    if (!replayed.report) {
        return tl::unexpected(replayed.report.error());
    }
    std::vector<std::string> texts;
    for (const decide::Caution& caution : replayed.report->cautions) {
        if (name_of(caution.hazard) == word && caution.set_aside_because.empty()) {
            texts.push_back(caution.text);
        }
    }
    if (texts.empty()) {
        return fail(ErrorKind::kNotFound, fmt::format("no caution '{}' stands", word),
                    fmt::format("call {}", replayed.stored.id), "gloam replay shows those of the call");
    }
    return texts;
}

CommandResult set_aside(journal::Journal& journal, const sky::SkyTables& tables,
                        const SetAsideOptions& options, Instant now) {
    const auto replayed = replay(tables, journal, options.call);
    const auto texts = replayed ? texts_of(*replayed, options.caution) : tl::unexpected(replayed.error());
    if (!texts) {
        return tl::unexpected(texts.error());
    }
    std::string said;
    for (const std::string& text : *texts) {
        const auto kept =
            record_dismissal(journal, replayed->stored.record.head.event, {now, text, options.reason});
        if (!kept) {
            return tl::unexpected(kept.error());
        }
        said += paragraph("Set aside", text);
    }
    return said +
           "Kept with your reason, for this event and these words alone. Look again to see the call with "
           "it.\n";
}

CommandResult run_set_aside(const SetAsideOptions& options, const Surroundings& surroundings) {
    const auto tables = sky::unpack_sky_tables(sky::embedded_tables());
    if (!tables) {
        return tl::unexpected(tables.error());
    }
    return open_existing_journal(options.journal, surroundings).and_then([&](journal::Journal journal) {
        return set_aside(journal, *tables, options, surroundings.now);
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
