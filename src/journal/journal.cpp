#include "journal/journal.hpp"

#include <fcntl.h>
#include <unistd.h>

#include "journal/database.hpp"
#include "journal/migration.hpp"
#include "journal/names.hpp"

namespace gloam::journal {
namespace {

/// Makes an empty file that only its owner can read, for the journal holds names; one that is there is not
/// touched: to open and close it would drop the locks of another connection of this process.
void make_file(const std::filesystem::path& file) {
    std::error_code error;
    if (file.has_parent_path()) {
        std::filesystem::create_directories(file.parent_path(), error);
    }
    const int descriptor = open(file.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, S_IRUSR | S_IWUSR);
    if (descriptor >= 0) {
        close(descriptor);
    }
}

/// Readers do not wait for the writer, and what is committed is on the disk.
void set_up(Database& database) {
    database.run(
        "PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL; PRAGMA secure_delete = ON;"
        "PRAGMA cell_size_check = ON");
}

void use_write_ahead_log(Database& database) {
    Statement mode = database.query("PRAGMA journal_mode = WAL");
    mode.step();
    if (mode.next<std::string>() != "wal") {
        throw Failure{{ErrorKind::kUnsupported, "this folder's file system cannot hold a journal",
                       database.file().string(), "give a local folder with --journal"}};
    }
}

}  // namespace

Journal::Journal(std::unique_ptr<Database> database) : database_(std::move(database)) {}
Journal::Journal(Journal&&) noexcept = default;
Journal& Journal::operator=(Journal&&) noexcept = default;
Journal::~Journal() = default;

Result<Journal> open_journal(const std::filesystem::path& file, Instant now) {
    return guarded([&] {
        make_file(file);
        auto database = std::make_unique<Database>(file);
        set_up(*database);
        migrate(*database, own_migrations());
        use_write_ahead_log(*database);
        forget_after_trips(*database, now);
        return Journal(std::move(database));
    });
}

}  // namespace gloam::journal
