// What the system, other processes and other files can do to a journal.
#include <gmock/gmock.h>

#include <fmt/format.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <iterator>
#include <random>

#include "faulty_disk.hpp"
#include "journal/database.hpp"
#include "journal/journal.hpp"
#include "journal/migration.hpp"
#include "made_calls.hpp"
#include "support/folder.hpp"

namespace gloam::journal {
namespace {

using gloam::test::Folder;
using test::Fault;
using test::FaultyDisk;
using ::testing::HasSubstr;

std::string content_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

/// A journal with a trip and one call, closed.
std::filesystem::path small_journal(const Folder& folder) {
    Journal journal = open_journal(folder / "journal.sqlite", test::kDuringTrip).value();
    EXPECT_TRUE(store_trip(journal, test::full_trip()));
    EXPECT_TRUE(record_call(journal, test::invented_call()));
    return folder / "journal.sqlite";
}

void expect_refused(const std::filesystem::path& file, ErrorKind kind, const char* message) {
    const auto journal = open_journal(file, test::kDuringTrip);
    ASSERT_FALSE(journal);
    EXPECT_EQ(journal.error().kind, kind) << to_text(journal.error());
    EXPECT_THAT(journal.error().message, HasSubstr(message));
    EXPECT_EQ(journal.error().where, file.string());
    EXPECT_FALSE(journal.error().hint.empty());
}

TEST(JournalOnAFullDisk, SaysSoAndGoesOnWhenThereIsRoom) {
    const Folder folder;
    const auto file = small_journal(folder);
    {
        const FaultyDisk disk(Fault::kFull, 1);
        Journal journal = open_journal(file, test::kDuringTrip).value();
        const auto id = record_call(journal, test::invented_call());
        ASSERT_FALSE(id);
        EXPECT_EQ(id.error().kind, ErrorKind::kDenied);
        EXPECT_THAT(id.error().message, HasSubstr("disk is full"));
        EXPECT_EQ(calls_of(journal, "Invented week").value().size(), 1U);
    }
    Journal journal = open_journal(file, test::kDuringTrip).value();
    EXPECT_EQ(record_call(journal, test::invented_call()), 2);
}

TEST(JournalOnAFailingDisk, AcknowledgesNothingThatIsNotSynced) {
    const Folder folder;
    const auto file = small_journal(folder);
    const FaultyDisk disk(Fault::kNoSync, 1);
    Journal journal = open_journal(file, test::kDuringTrip).value();
    const auto id = record_call(journal, test::invented_call());
    ASSERT_FALSE(id);
    EXPECT_EQ(id.error().kind, ErrorKind::kDenied);
    EXPECT_THAT(id.error().message, HasSubstr("the disk refuses"));
}

/// For as long as it lasts, a superuser has no more rights than others.
class WithoutRights {
  public:
    WithoutRights() { EXPECT_EQ(seteuid(geteuid() == 0 ? kNobody : geteuid()), 0); }
    WithoutRights(const WithoutRights&) = delete;
    WithoutRights& operator=(const WithoutRights&) = delete;
    ~WithoutRights() { EXPECT_EQ(seteuid(getuid()), 0); }

  private:
    static constexpr uid_t kNobody = 65534;
};

TEST(JournalInAFolder, ThatIsNotOursToWriteIsRefused) {
    const Folder folder;
    std::filesystem::create_directory(folder / "closed");
    std::filesystem::permissions(folder / "closed", std::filesystem::perms(0555));
    const WithoutRights nobody;
    expect_refused(folder / "closed/journal.sqlite", ErrorKind::kDenied, "cannot be opened or written");
    expect_refused(folder / "closed/deeper/journal.sqlite", ErrorKind::kDenied,
                   "cannot be opened or written");
}

TEST(JournalInAFolder, ThatBecameReadOnlyIsRefused) {
    const Folder folder;
    std::filesystem::create_directory(folder / "closed");
    const auto file = folder / "closed/journal.sqlite";
    std::filesystem::copy_file(small_journal(folder), file);
    std::filesystem::permissions(file, std::filesystem::perms(0666));
    std::filesystem::permissions(folder / "closed", std::filesystem::perms(0555));
    const WithoutRights nobody;
    expect_refused(file, ErrorKind::kDenied, "written");
}

TEST(JournalFile, CanBeReadByItsOwnerAlone) {
    const Folder folder;
    struct stat status {};
    ASSERT_EQ(stat(small_journal(folder).c_str(), &status), 0);
    EXPECT_EQ(status.st_mode & 0777, 0600U);
}

TEST(JournalFile, ThatIsAFolderIsRefused) {
    const Folder folder;
    std::filesystem::create_directory(folder / "journal.sqlite");
    expect_refused(folder / "journal.sqlite", ErrorKind::kDenied, "cannot be opened or written");
}

TEST(JournalFile, ThatIsTextIsRefusedAndStays) {
    const Folder folder;
    const std::string text(3000, 'x');
    const auto file = folder.with("journal.sqlite", text);
    expect_refused(file, ErrorKind::kUnreadable, "is no journal");
    EXPECT_EQ(content_of(file), text);
}

TEST(JournalFile, OfAnotherProgramIsRefusedAndStays) {
    const Folder folder;
    const auto file = folder.with("journal.sqlite", "");
    {
        Database database(file);
        database.run("CREATE TABLE other (x); PRAGMA user_version = 1");
    }
    const std::string before = content_of(file);
    expect_refused(file, ErrorKind::kUnreadable, "database of something else");
    EXPECT_EQ(content_of(file), before);
}

TEST(JournalFile, OfANewerProgramIsRefusedAndStays) {
    const Folder folder;
    const auto file = small_journal(folder);
    {
        Database database(file);
        database.run("PRAGMA user_version = 99");
    }
    const std::string before = content_of(file);
    expect_refused(file, ErrorKind::kUnsupported, "version 99");
    EXPECT_EQ(content_of(file), before);
}

TEST(JournalFile, CutShortIsToldToBeDamaged) {
    const Folder folder;
    const std::string whole = content_of(small_journal(folder));
    for (const std::size_t size :
         {whole.size() - 4096, whole.size() / 2, std::size_t{4096}, std::size_t{100}}) {
        const auto file = folder.with("cut.sqlite", whole.substr(0, size));
        const auto journal = open_journal(file, test::kDuringTrip);
        ASSERT_FALSE(journal) << size;
        EXPECT_EQ(journal.error().kind, ErrorKind::kUnreadable) << size << ": " << to_text(journal.error());
        EXPECT_EQ(content_of(file), whole.substr(0, size)) << size;
    }
}

TEST(JournalFile, WithBytesTurnedEndsInAnAnswerOrAnError) {
    const Folder folder;
    const std::string whole = content_of(small_journal(folder));
    std::mt19937 random(20250129);  // NOLINT(cert-msc51-cpp): the same bytes on every run
    for (int i = 0; i < 200; ++i) {
        std::string turned = whole;
        for (int n = 0; n < 8; ++n) {
            turned[random() % turned.size()] = static_cast<char>(random());
        }
        const auto journal = open_journal(folder.with("turned.sqlite", turned), test::kDuringTrip);
        if (!journal) {
            EXPECT_NE(journal.error().kind, ErrorKind::kInternal) << i << ": " << to_text(journal.error());
            continue;
        }
        const auto trip = find_trip(*journal, "Invented week");
        const auto call = find_call(*journal, 1);
        const auto lines = list_trips(*journal);
        EXPECT_TRUE(trip || trip.error().kind == ErrorKind::kUnreadable) << i;
        EXPECT_TRUE(call || call.error().kind == ErrorKind::kUnreadable) << i;
        EXPECT_TRUE(lines || lines.error().kind == ErrorKind::kUnreadable) << i;
    }
}

TEST(JournalFile, WithAWordOfAnotherProgramIsToldToBeDamaged) {
    const Folder folder;
    const auto file = small_journal(folder);
    {
        Database database(file);
        database.run("UPDATE place SET ground = 'lava'");
    }
    const Journal journal = open_journal(file, test::kDuringTrip).value();
    const auto trip = find_trip(journal, "Invented week");
    ASSERT_FALSE(trip);
    EXPECT_EQ(trip.error().kind, ErrorKind::kUnreadable);
    EXPECT_THAT(trip.error().message, HasSubstr("'ground'"));
}

TEST(JournalCallRow, IsNeitherDeletedNorChanged) {
    const Folder folder;
    const auto file = small_journal(folder);
    Database database(file);
    EXPECT_THROW(database.run("DELETE FROM call"), Failure);
    EXPECT_THROW(database.run("UPDATE call SET odds = 1"), Failure);
}

/// A process that holds the journal for writing until this ends.
class Writer {
  public:
    explicit Writer(const std::filesystem::path& file) {
        std::array<int, 2> ready{};
        EXPECT_EQ(pipe(ready.data()), 0);
        child_ = fork();
        if (child_ == 0) {
            Database database(file);
            database.run("BEGIN IMMEDIATE");
            EXPECT_EQ(write(ready[1], "x", 1), 1);
            pause();
        }
        char word = 0;
        EXPECT_EQ(read(ready[0], &word, 1), 1);
        close(ready[0]);
        close(ready[1]);
    }
    Writer(const Writer&) = delete;
    Writer& operator=(const Writer&) = delete;
    ~Writer() {
        kill(child_, SIGKILL);
        waitpid(child_, nullptr, 0);
    }

  private:
    pid_t child_ = 0;
};

TEST(JournalHeldByAnotherProcess, IsBusyForWritersAndOpenForReaders) {
    const Folder folder;
    const auto file = small_journal(folder);
    Journal journal = open_journal(file, test::kDuringTrip).value();
    const Writer other(file);
    const auto id = record_call(journal, test::invented_call());
    ASSERT_FALSE(id);
    EXPECT_EQ(id.error().kind, ErrorKind::kBusy);
    EXPECT_THAT(id.error().message, HasSubstr("another process"));
    EXPECT_THAT(id.error().hint, HasSubstr("try again"));
    EXPECT_EQ(calls_of(journal, "Invented week").value().size(), 1U);
}

TEST(JournalReadWhileAnotherProcessWrites, IsOfOneMoment) {
    const Folder folder;
    const auto file = small_journal(folder);
    const pid_t writer = fork();
    if (writer == 0) {
        auto journal = open_journal(file, test::kDuringTrip);
        for (int round = 0; journal && round < 200; ++round) {
            trip::Trip trip = test::full_trip();
            trip.paid = round % 2 == 0;
            trip.places[0].stands[0].tripods = round % 2 == 0 ? 1 : 2;
            const auto stored = store_trip(*journal, trip);
        }
        _exit(0);
    }
    const Journal journal = open_journal(file, test::kDuringTrip).value();
    do {
        const trip::Trip trip = find_trip(journal, "Invented week").value().value();
        const int tripods = trip.places.at(0).stands.at(0).tripods.value();
        EXPECT_TRUE(tripods == 4 || tripods == (*trip.paid ? 1 : 2));
    } while (waitpid(writer, nullptr, WNOHANG) == 0);
}

TEST(JournalOfManyProcesses, KeepsTheCallsOfAll) {
    const Folder folder;
    const auto file = small_journal(folder);
    constexpr int kProcesses = 4;
    constexpr int kCalls = 10;
    for (int i = 0; i < kProcesses; ++i) {
        if (fork() == 0) {
            auto journal = open_journal(file, test::kDuringTrip);
            int recorded = 0;
            for (int call = 0; journal && call < kCalls; ++call) {
                recorded += record_call(*journal, test::invented_call()) ? 1 : 0;
            }
            _exit(recorded == kCalls ? 0 : 1);
        }
    }
    for (int i = 0; i < kProcesses; ++i) {
        int status = 0;
        wait(&status);
        EXPECT_EQ(status, 0);
    }
    const Journal journal = open_journal(file, test::kDuringTrip).value();
    EXPECT_EQ(calls_of(journal, "Invented week").value().size(), 1U + kProcesses * kCalls);
}

/// The migrations of this program and one of a next that is invented.
std::vector<std::string_view> and_next(std::string_view sql) {
    std::vector<std::string_view> all(own_migrations().begin(), own_migrations().end());
    all.push_back(sql);
    return all;
}

TEST(Migration, LaysACopyBesideTheJournalFirst) {
    const Folder folder;
    const auto file = small_journal(folder);
    {
        Database database(file);
        const auto migrated =
            guarded([&] { migrate(database, and_next("ALTER TABLE trip ADD COLUMN mood TEXT")); });
        ASSERT_TRUE(migrated) << to_text(migrated.error());
        EXPECT_NO_THROW(database.query("SELECT mood FROM trip"));
    }
    expect_refused(file, ErrorKind::kUnsupported, "version 2");
    const Journal copy = open_journal(backup_of(file, 1), test::kDuringTrip).value();
    EXPECT_EQ(calls_of(copy, "Invented week").value().size(), 1U);
}

TEST(Migration, ThatFailsChangesNothing) {
    const Folder folder;
    const auto file = small_journal(folder);
    {
        Database database(file);
        EXPECT_THROW(migrate(database, and_next("DROP TABLE tag; CREATE TABLE tag (")), Failure);
    }
    const Journal journal = open_journal(file, test::kDuringTrip).value();
    EXPECT_EQ(find_trip(journal, "Invented week").value().value().places.at(0).tags.size(), 2U);
}

TEST(Forgetting, TakesCopiesAlong) {
    const Folder folder;
    const auto file = small_journal(folder);
    std::filesystem::copy_file(file, backup_of(file, 1));
    Journal journal = open_journal(file, test::kDuringTrip).value();
    ASSERT_TRUE(forget_people(journal, "Invented week", test::kDuringTrip));
    EXPECT_FALSE(std::filesystem::exists(backup_of(file, 1)));
}

}  // namespace
}  // namespace gloam::journal
