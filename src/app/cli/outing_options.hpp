#pragma once

#include <string>

#include "app/cli/commands.hpp"
#include "app/outing_journal.hpp"

namespace gloam::app {

/// What a person typed for one look at an outing.
struct OutingOptions {
    EventWords words;
    OutingWishes wishes;
    std::string as_of;
    bool json = false;
};

/// Options that the evening's and the morning's look share.
void add_outing_options(CLI::App& command, OutingOptions& options);

/// Looks, decides, records, and says what to do.
CommandResult run_outing(const OutingOptions& options, const Surroundings& surroundings);

}  // namespace gloam::app
