#pragma once

#include <filesystem>
#include <string>

#include "app/event_inputs.hpp"
#include "journal/journal.hpp"

namespace gloam::app {

/// Opens the journal that was asked for (--journal), else the usual one, gloam/journal.sqlite below the data
/// home. Errors: kNotFound, there is no data home; those of journal::open_journal().
Result<journal::Journal> open_journal(const std::string& asked, const Surroundings& surroundings);

}  // namespace gloam::app
