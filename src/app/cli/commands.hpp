#pragma once

#include <string>

#include "app/event_inputs.hpp"

namespace CLI {
class App;
}

namespace gloam::app {

/// What a command leaves behind: text for standard output, or an error for standard error.
using CommandResult = Result<std::string>;

/// Adds a command to the program; when it is chosen, `result` receives what it did. One file a command.
void add_call_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result);
void add_look_command(CLI::App& program, CommandResult& result);
void add_section_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result);
void add_sky_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result);
void add_evening_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result);
void add_morning_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result);
void add_sheet_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result);
void add_replay_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result);
void add_calls_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result);
void add_overrule_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result);
void add_set_aside_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result);
void add_trip_command(CLI::App& program, const Surroundings& surroundings, CommandResult& result);

/// The option that names the journal.
void add_journal_option(CLI::App& command, std::string& file);

/// Options that name an event and its forecast, shared by the commands.
void add_event_options(CLI::App& command, EventWords& words);

}  // namespace gloam::app
