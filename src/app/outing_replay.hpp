#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "app/outing_report.hpp"
#include "journal/journal.hpp"

namespace gloam::app {

/// A stored decision made again.
struct Replayed {
    journal::StoredCall stored;
    Result<OutingReport> report;  ///< error: what was stored cannot be read by this version
    bool same_version = false;    ///< of the program's model and tables
};
/// Makes a call again by its number, or the one recorded last. Errors: kNotFound, no such call; kUnsupported,
/// a call of another kind; kUnreadable, what was stored is damaged.
Result<Replayed> replay(const sky::SkyTables& tables, const journal::Journal& journal,
                        std::optional<std::int64_t> call);

/// The lines of two texts: those of the first alone begin with "- ", those of the second alone with "+ ",
/// others are left out; empty if the texts are equal.
std::string difference(const std::string& first, const std::string& second);

}  // namespace gloam::app
