#include "app/cli/outing_options.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <algorithm>

#include "app/event_words.hpp"
#include "app/journal_file.hpp"
#include "sky/embedded_tables.hpp"
#include "sky/sky_tables.hpp"

namespace gloam::app {
namespace {

/// What the leader may do about it next.
std::string next_steps(std::int64_t call, const OutingReport& report) {
    std::string text = fmt::format("\nKept as call {}. Message to the group: gloam sheet {}\n", call, call);
    for (const decide::Caution& caution : report.cautions) {
        if (caution.kind == decide::CautionKind::kStop && caution.set_aside_because.empty()) {
            text += fmt::format("Set the stop aside:      gloam set-aside {} {} --because REASON\n", call,
                                name_of(caution.hazard));
        }
    }
    return text + fmt::format("Decide otherwise:        gloam overrule {} {} --because REASON\n", call,
                              report.answer == "on" || report.answer == "go" ? "stay" : "go");
}

/// Who is who: names are shown, and stored in the trip alone.
std::string guests_line(const EventInputs& inputs) {
    if (!inputs.trip || inputs.trip->group.guests.empty()) {
        return "";
    }
    std::vector<std::string> names;
    for (const trip::Guest& guest : inputs.trip->group.guests) {
        names.push_back(fmt::format("{} {}", names.size() + 1, guest.name));
    }
    return paragraph("Guests", joined(names) + ".");
}

CommandResult look_and_record(const sky::SkyTables& tables, const EventInputs& inputs,
                              const OutingOptions& options, Instant now, const Surroundings& surroundings) {
    auto journal = open_journal(options.words.journal, surroundings);
    if (!journal) {
        return tl::unexpected(journal.error());
    }
    const auto sample = outlook::sample_event(inputs.layers, inputs.request());
    if (!sample) {
        return tl::unexpected(sample.error());
    }
    const auto report =
        gather_basis(*journal, inputs, options.wishes, now).and_then([&](const OutingBasis& basis) {
            return make_outing(tables, basis, *sample);
        });
    if (!report) {
        return tl::unexpected(report.error());
    }
    return record_outing(*journal, inputs, *report, *sample).map([&](std::int64_t call) {
        return options.json ? to_json(*report, call)
                            : to_text(*report) + guests_line(inputs) + next_steps(call, *report);
    });
}

}  // namespace

void add_outing_options(CLI::App& command, OutingOptions& options) {
    add_event_options(command, options.words);
    command
        .add_option("--class", options.wishes.call.outcome_class,
                    "least class worth going for: slight, fair, good (usual) or outstanding")
        ->type_name("CLASS");
    command
        .add_option("--starts", options.wishes.call.starts_for_one,
                    "early starts for nothing that one good dawn is worth; usual: the trip's, else 2 for "
                    "dawn, 6 for dusk")
        ->type_name("N");
    command
        .add_option("--home-at", options.wishes.home_at,
                    "when the group came home the evening before, like 22:30: tells the sleep left")
        ->type_name("HH:MM");
    command
        .add_option("--driver-since", options.wishes.driver_since,
                    "when the driver's day began, like 07:00: held against the trip's longest span")
        ->type_name("HH:MM");
    command
        .add_option("--warnings", options.wishes.warnings_file,
                    "official weather warnings, a file of the Common Alerting Protocol 1.2")
        ->type_name("FILE");
    command
        .add_option("--warning", options.wishes.typed_warnings,
                    "an official warning, typed word for word; may be repeated")
        ->type_name("TEXT");
    command
        .add_option("--as-of", options.as_of, "look as if it were this time, like 2025-01-28T21:10:00+01:00")
        ->type_name("TIME");
    command.add_flag("--json", options.json, "the same as JSON");
}

CommandResult run_outing(const OutingOptions& options, const Surroundings& surroundings) {
    Instant now = surroundings.now;
    if (!options.as_of.empty()) {
        const auto instant = parse_rfc3339(options.as_of);
        if (!instant) {
            return tl::unexpected(instant.error());
        }
        now = *instant;
    }
    const auto tables = sky::unpack_sky_tables(sky::embedded_tables());
    if (!tables) {
        return tl::unexpected(tables.error());
    }
    // A look as of a day to come must not make the journal forget its people before.
    Surroundings then = surroundings;
    then.now = std::min(now, surroundings.now);
    return gather_inputs(options.words, then).and_then([&](const EventInputs& inputs) {
        return look_and_record(*tables, inputs, options, now, then);
    });
}

}  // namespace gloam::app
