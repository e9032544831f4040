#include "journal/migration.hpp"

#include <fmt/format.h>

namespace gloam::journal {
namespace {

/// "Glom", in the file's header: tells a journal from any other SQLite file.
constexpr std::int64_t kApplicationId = 0x476c6f6d;

std::int64_t number(const Database& database, std::string_view sql) {
    Statement row = database.query(sql);
    row.step();
    return row.next<std::int64_t>();
}

/// The version of a journal, 0 for an empty file.
int version_of(const Database& database) {
    const std::int64_t application = number(database, "PRAGMA application_id");
    const std::int64_t version = number(database, "PRAGMA user_version");
    const bool empty = number(database, "SELECT count(*) FROM sqlite_schema") == 0;
    if (application == 0 && version == 0 && empty) {
        return 0;
    }
    if (application != kApplicationId || version < 1 || version > 1'000'000) {
        throw Failure{{ErrorKind::kUnreadable, "the file is a database of something else",
                       database.file().string(), "check --journal"}};
    }
    return static_cast<int>(version);
}

[[noreturn]] void refuse_newer(const Database& database, int version, std::size_t known) {
    throw Failure{{ErrorKind::kUnsupported,
                   fmt::format("the journal is of version {}, and this program knows {}", version, known),
                   database.file().string(), "use the newer program; nothing was changed"}};
}

/// Lays a copy beside the journal, whole or not at all. Through a connection of its own: SQLite copies
/// nothing through one that writes.
void lay_copy(const Database& database, int version) {
    const std::filesystem::path copy = backup_of(database.file(), version);
    const std::filesystem::path part = copy.string() + ".part";
    std::error_code error;
    std::filesystem::remove(part, error);
    Database(database.file()).copy_to(part);
    std::filesystem::rename(part, copy, error);
    if (error) {
        throw Failure{{ErrorKind::kDenied, "no copy of the journal can be made", copy.string(),
                       "check that the folder is yours to write; nothing was changed"}};
    }
}

}  // namespace

std::filesystem::path backup_of(const std::filesystem::path& journal, int version) {
    return journal.string() + fmt::format(".version-{}", version);
}

void migrate(Database& database, Migrations migrations) {
    int version = version_of(database);
    if (version == static_cast<int>(migrations.size())) {
        return;
    }
    Transaction transaction(database);
    version = version_of(database);  // another process may have been quicker
    if (version > static_cast<int>(migrations.size())) {
        refuse_newer(database, version, migrations.size());
    }
    if (version > 0) {
        lay_copy(database, version);
    }
    for (const std::string_view sql : migrations.subspan(static_cast<std::size_t>(version))) {
        database.run(sql);
    }
    database.run(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {}", kApplicationId,
                             migrations.size()));
    transaction.commit();
}

}  // namespace gloam::journal
