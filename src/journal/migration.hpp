#pragma once

#include <filesystem>
#include <span>
#include <string_view>

#include "journal/database.hpp"

namespace gloam::journal {

/// SQL that brings a journal from the version before to the next: the first makes version 1.
using Migrations = std::span<const std::string_view>;

/// The migrations of this program, from src/journal/migrations.
Migrations own_migrations();

/// Where the copy is laid that is made of a journal of `version` before it is brought up to date.
std::filesystem::path backup_of(const std::filesystem::path& journal, int version);

/// Brings a journal up to date, whole or not at all; of one that holds something a copy is made first. Throws
/// a Failure: kUnreadable, a database of something else; kUnsupported, a journal newer than the last
/// migration.
void migrate(Database& database, Migrations migrations);

}  // namespace gloam::journal
