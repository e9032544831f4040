#pragma once

#include <string>

#include "app/event_inputs.hpp"
#include "journal/journal.hpp"

namespace gloam::app {

/// Opens the journal that `file` names, empty: the usual one; it is made if it is not there. Error
/// (kNotFound): none was named, and neither XDG_DATA_HOME nor HOME is set.
Result<journal::Journal> open_journal(const std::string& file, const Surroundings& surroundings);

/// The same, but a journal that is not there is an error (kNotFound).
Result<journal::Journal> open_existing_journal(const std::string& file, const Surroundings& surroundings);

/// A trip of the journal by its name. Error (kNotFound): there is no such trip, or no journal.
Result<trip::Trip> trip_of_journal(const std::string& name, const std::string& file,
                                   const Surroundings& surroundings);

}  // namespace gloam::app
