#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <filesystem>
#include <memory>

#include "app/cli/commands.hpp"
#include "app/journal_file.hpp"
#include "app/text_file.hpp"
#include "app/trip_text.hpp"
#include "geo/quoted.hpp"
#include "trip/trip_toml.hpp"

namespace gloam::app {
namespace {

struct TripOptions {
    std::string journal;
    std::string name;   ///< of a trip
    std::string file;   ///< to import
    std::string into;   ///< name of the trip to import into; empty: the file's
    std::string place;  ///< whose stands and walks a GPX file holds; empty: it holds places
    std::string output;
    bool gpx = false;
};

/// The trip of that name, or a new one.
Result<trip::Trip> trip_to_fill(const journal::Journal& journal, const std::string& name) {
    return journal::find_trip(journal, name).map([&](std::optional<trip::Trip> trip) {
        trip::Trip empty;
        empty.name = name;
        return std::move(trip).value_or(std::move(empty));
    });
}

/// Stores a trip and tells of it, and of what else there is to tell.
CommandResult store(journal::Journal& journal, const trip::Trip& trip, const std::string& told) {
    return journal::store_trip(journal, trip).map([&](const std::vector<std::string>& others) {
        return to_text(trip) + told + overlap_text(others);
    });
}

CommandResult import_gpx(const TripOptions& options, journal::Journal& journal, const std::string& text) {
    const auto gpx = trip::parse_gpx(text, options.file);
    if (!gpx) {
        return tl::unexpected(gpx.error());
    }
    const std::string name =
        options.into.empty() ? std::filesystem::path(options.file).stem().string() : options.into;
    auto trip = trip_to_fill(journal, name);
    if (!trip) {
        return tl::unexpected(trip.error());
    }
    const auto place = options.place.empty() ? std::nullopt : std::optional(options.place);
    const auto merge = trip::add_gpx(*trip, *gpx, place);
    if (!merge) {
        Error error = merge.error();
        error.where = error.where.empty() ? options.file : error.where;
        return tl::unexpected(error);
    }
    return store(journal, *trip, to_text(*merge, *gpx));
}

CommandResult import_toml(const TripOptions& options, journal::Journal& journal, const std::string& text) {
    auto trip = trip::parse_trip(text, options.file);
    if (!trip) {
        return tl::unexpected(trip.error());
    }
    if (!options.into.empty()) {
        trip->name = options.into;
    }
    return store(journal, *trip, "");
}

CommandResult run_import(const TripOptions& options, const Surroundings& surroundings) {
    const bool gpx = std::filesystem::path(options.file).extension() == ".gpx";
    const auto text = read_text_file(options.file);
    if (!text) {
        return tl::unexpected(text.error());
    }
    if (!gpx && !options.place.empty()) {
        return fail(ErrorKind::kBadInput, "only a GPX file can belong to one place", "--place",
                    "write stands and the way into the trip file");
    }
    auto journal = open_journal(options.journal, surroundings);
    if (!journal) {
        return tl::unexpected(journal.error());
    }
    return gpx ? import_gpx(options, *journal, *text) : import_toml(options, *journal, *text);
}

tl::unexpected<Error> no_such_trip(const std::string& name) {
    return fail(ErrorKind::kNotFound, fmt::format("the journal has no trip {}", geo::quoted(name)), "NAME",
                "gloam trip list shows its trips");
}

/// The trip that a command names.
Result<trip::Trip> named_trip(const TripOptions& options, const Surroundings& surroundings) {
    return open_existing_journal(options.journal, surroundings)
        .and_then([&](const journal::Journal& journal) { return journal::find_trip(journal, options.name); })
        .and_then([&](std::optional<trip::Trip> trip) -> Result<trip::Trip> {
            return trip ? Result<trip::Trip>(*std::move(trip)) : no_such_trip(options.name);
        });
}

CommandResult run_export(const TripOptions& options, const Surroundings& surroundings) {
    const auto trip = named_trip(options, surroundings);
    if (!trip) {
        return tl::unexpected(trip.error());
    }
    std::string text = options.gpx ? trip::to_gpx(*trip) : trip::to_toml(*trip);
    if (options.output.empty()) {
        return text;
    }
    return write_file(options.output, std::as_bytes(std::span(text))).map([&] {
        return options.output + "\n";
    });
}

CommandResult run_list(const TripOptions& options, const Surroundings& surroundings) {
    return open_existing_journal(options.journal, surroundings)
        .and_then([](const journal::Journal& journal) { return journal::list_trips(journal); })
        .map([](const std::vector<journal::TripLine>& trips) { return to_text(trips); });
}

CommandResult run_show(const TripOptions& options, const Surroundings& surroundings) {
    return named_trip(options, surroundings).map([](const trip::Trip& trip) { return to_text(trip); });
}

CommandResult run_forget(const TripOptions& options, const Surroundings& surroundings) {
    return open_existing_journal(options.journal, surroundings)
        .and_then([&](journal::Journal journal) {
            return journal::forget_people(journal, options.name, surroundings.now);
        })
        .and_then([&](bool found) -> CommandResult {
            return found ? CommandResult("The guests are forgotten; the calls stay.\n")
                         : no_such_trip(options.name);
        });
}

using Run = CommandResult (*)(const TripOptions&, const Surroundings&);

}  // namespace

void add_trip_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result) {
    auto options = std::make_shared<TripOptions>();
    CLI::App* trip =
        program.add_subcommand("trip", "The trips of the journal: bring in, give out, show, forget");
    trip->require_subcommand(1);
    const auto add = [&](const char* name, const char* help, Run run) {
        CLI::App* command = trip->add_subcommand(name, help);
        add_journal_option(*command, options->journal);
        command->callback([options, &surroundings, &result, run] { result = run(*options, surroundings); });
        return command;
    };
    CLI::App* in =
        add("import", "Store a trip file (TOML), or places, stands and walks of a GPX file", run_import);
    in->footer(
        "Example:\n  gloam trip import week.toml\n  gloam trip import places.gpx --into \"Ionian week\"\n"
        "A trip of the same name is replaced by a trip file and added to by a GPX file. Guests are deleted "
        "when the journal is opened more than a day after the trip's end.");
    in->add_option("file", options->file, "FILE.toml or FILE.gpx")->required()->type_name("FILE");
    in->add_option("--into", options->into,
                   "name of the trip; usual: the file's own, of a GPX file its file name")
        ->type_name("TRIP");
    in->add_option("--place", options->place,
                   "points become stands of this place, tracks and routes walks to it")
        ->type_name("PLACE");
    CLI::App* out =
        add("export", "Print a trip as a trip file, or its places and stands as GPX 1.1", run_export);
    out->add_flag("--gpx", options->gpx, "GPX instead of TOML");
    out->add_option("-o,--output", options->output, "file to write instead")->type_name("FILE");
    add("list", "All trips, a line each", run_list);
    CLI::App* show = add("show", "A trip in a few lines", run_show);
    CLI::App* forget = add("forget", "Delete what is stored about the people of a trip", run_forget);
    for (CLI::App* command : {out, show, forget}) {
        command->add_option("name", options->name, "name of the trip")->required()->type_name("NAME");
    }
}

}  // namespace gloam::app
