#include <CLI/CLI.hpp>

#include "app/cli/commands.hpp"

namespace gloam::app {

void add_journal_option(CLI::App& command, std::string& file) {
    command.add_option("--journal", file, "instead of $XDG_DATA_HOME/gloam/journal.sqlite")
        ->type_name("FILE");
}

void add_event_options(CLI::App& command, EventWords& words) {
    command
        .add_option("--place", words.place, "lat,lon[,height_m] in decimal degrees, or a place of the trip")
        ->required()
        ->type_name("PLACE");
    command.add_option("--date", words.date, "civil date at the place, like 2025-01-29")
        ->required()
        ->type_name("DATE");
    command.add_option("--event", words.event, "dawn or dusk")->required()->type_name("EVENT");
    command
        .add_option("--forecast", words.forecast_files,
                    "files of one model run: GRIB, or the JSON of a point forecast")
        ->required()
        ->type_name("FILE");
    command
        .add_option("--trip", words.trip,
                    "trip file (TOML), or the name of a trip in the journal: names places, zone and group")
        ->type_name("TRIP");
    add_journal_option(command, words.journal);
    command
        .add_option("--zone", words.zone,
                    "IANA time zone; wins over the trip's and over that of the nearest town")
        ->type_name("ZONE");
    command
        .add_option("--config", words.config_file,
                    "settings (TOML) instead of $XDG_CONFIG_HOME/gloam/config.toml")
        ->type_name("FILE");
}

}  // namespace gloam::app
