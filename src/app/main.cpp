#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <exception>

#include "app/cli/commands.hpp"
#include "app/exit_codes.hpp"

namespace {

using namespace gloam;

/// A folder of the XDG base directory specification: the variable's, else the usual one below the home.
std::optional<std::filesystem::path> xdg_home(const char* variable, const char* below_home) {
    const auto value = [](const char* name) -> std::optional<std::filesystem::path> {
        const char* text = std::getenv(name);  // NOLINT(concurrency-mt-unsafe): before any thread starts
        return text && *text ? std::optional<std::filesystem::path>(text) : std::nullopt;
    };
    if (auto xdg = value(variable)) {
        return xdg;
    }
    if (const auto home = value("HOME")) {
        return *home / below_home;
    }
    return std::nullopt;
}

int print_error(const Error& error) {
    fmt::print(stderr, "gloam: {}\n", to_text(error));
    return app::exit_code_of(error.kind);
}

int run(int count, char** arguments) {
    app::Surroundings surroundings;
    surroundings.config_home = xdg_home("XDG_CONFIG_HOME", ".config");
    surroundings.data_home = xdg_home("XDG_DATA_HOME", ".local/share");
    surroundings.now = std::chrono::time_point_cast<Duration>(std::chrono::system_clock::now());
    CLI::App program{"Gloam: is tomorrow's dawn worth getting everyone out for?", "gloam"};
    program.set_version_flag("--version", std::string("gloam ") + GLOAM_VERSION);
    program.require_subcommand(1);
    program.footer(app::kExitCodesHelp);
    app::CommandResult result;
    add_evening_command(program, surroundings, result);
    add_morning_command(program, surroundings, result);
    add_sheet_command(program, surroundings, result);
    add_call_command(program, surroundings, result);
    app::add_look_command(program, result);
    add_section_command(program, surroundings, result);
    add_sky_command(program, surroundings, result);
    add_trip_command(program, surroundings, result);
    add_calls_command(program, surroundings, result);
    add_replay_command(program, surroundings, result);
    add_overrule_command(program, surroundings, result);
    add_set_aside_command(program, surroundings, result);
    try {
        program.parse(count, arguments);
    } catch (const CLI::ParseError& error) {
        return error.get_exit_code() == 0 ? program.exit(error)
                                          : (program.exit(error), app::exit_code_of(ErrorKind::kBadInput));
    }
    if (!result) {
        return print_error(result.error());
    }
    fmt::print("{}", *result);
    return std::fflush(stdout) == 0 ? 0 : app::exit_code_of(ErrorKind::kInternal);
}

}  // namespace

int main(int count, char** arguments) {
    try {
        return run(count, arguments);
    } catch (const std::exception& error) {
        return print_error({ErrorKind::kInternal, error.what(), "a fault of the program itself",
                            "please report it, with the command line and the files"});
    }
}
