// The journal under processes that die by SIGKILL at a known operation of the disk. Nothing that was
// acknowledged is lost, and the journal opens.
#include <gmock/gmock.h>

#include <fmt/format.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdio>
#include <iterator>
#include <map>
#include <set>
#include <sstream>

#include "faulty_disk.hpp"
#include "journal/database.hpp"
#include "journal/journal.hpp"
#include "made_calls.hpp"
#include "support/folder.hpp"

namespace gloam::journal {
namespace {

using gloam::test::Folder;
using test::Fault;
using test::FaultyDisk;

constexpr std::array<Fault, 3> kDeaths{Fault::kKillBefore, Fault::kKillHalf, Fault::kKillAfter};

/// A call whose every byte follows from its number, of several pages.
CallRecord numbered_call(int number) {
    CallRecord call = test::invented_call();
    call.output = fmt::format("call {}\n", number);
    call.states.assign(20'000, static_cast<std::byte>(number % 251));
    return call;
}

/// Runs work in a process of its own; true if it was killed.
template <class Work>
bool dies(Work work) {
    const pid_t child = fork();
    if (child == 0) {
        work();
        _exit(0);
    }
    int status = 0;
    waitpid(child, &status, 0);
    return WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL;
}

std::string content_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

/// Opens and closes the journal, recording two calls each time and acknowledging each, until it dies.
void record_until_death(const Folder& folder, int first, Fault fault, long at) {
    std::FILE* acknowledged = std::fopen((folder / "acknowledged").c_str(), "a");
    const FaultyDisk disk(fault, at, folder / "kills");
    for (int number = first; number < first + 6; number += 2) {
        auto journal = open_journal(folder / "journal.sqlite", test::kDuringTrip);
        for (int i = 0; journal && i < 2; ++i) {
            if (const auto id = record_call(*journal, numbered_call(number + i))) {
                fmt::print(acknowledged, "{} {}\n", *id, number + i);
                std::fflush(acknowledged);
            }
        }
    }
}

/// What is wrong with a journal after a death: empty, if nothing is.
std::string harm(const Folder& folder, std::set<std::int64_t>& checked) {
    const auto journal = open_journal(folder / "journal.sqlite", test::kDuringTrip);
    if (!journal) {
        return to_text(journal.error());
    }
    Statement integrity = journal->database().query("PRAGMA integrity_check");
    integrity.step();
    if (const auto verdict = integrity.next<std::string>(); verdict != "ok") {
        return verdict;
    }
    std::istringstream acknowledged(content_of(folder / "acknowledged"));
    int number = 0;
    for (std::int64_t id = 0; acknowledged >> id >> number;) {
        if (!checked.insert(id).second) {
            continue;
        }
        const auto call = find_call(*journal, id).value();
        if (!call || call->record.output != numbered_call(number).output ||
            call->record.states != numbered_call(number).states) {
            return fmt::format("call {} is lost", id);
        }
    }
    return {};
}

TEST(KilledJournal, LosesNothingThatWasAcknowledged) {
    const Folder folder;
    {
        Journal journal = open_journal(folder / "journal.sqlite", test::kDuringTrip).value();
        ASSERT_TRUE(store_trip(journal, test::full_trip()));
    }
    constexpr int kRounds = 240;
    int kills = 0;
    std::set<std::int64_t> checked;
    for (int round = 0; round < kRounds; ++round) {
        const Fault fault = kDeaths.at(static_cast<std::size_t>(round % 3));
        kills += dies([&] { record_until_death(folder, 10 * round, fault, 1 + round / 3); }) ? 1 : 0;
        ASSERT_EQ(harm(folder, checked), "") << "round " << round;
    }
    std::istringstream log(content_of(folder / "kills"));
    int in_commit = 0;
    std::map<std::string, int> by_operation;
    for (std::string operation, when; log >> operation >> when;) {
        in_commit += when == "commit" ? 1 : 0;
        ++by_operation[operation];
    }
    fmt::print("killed {} times, {} inside a commit; at", kills, in_commit);
    for (const auto& [operation, count] : by_operation) {
        fmt::print(" {} {}", operation, count);
    }
    fmt::print("; {} acknowledged calls, none lost\n", checked.size());
    EXPECT_GE(kills, 200);
    EXPECT_GE(in_commit, 50);
    EXPECT_GE(checked.size(), 200U);
}

TEST(KilledJournal, OpensAlsoWhenItDiedWhileItWasMade) {
    const Folder folder;
    int kills = 0;
    for (int round = 0; round < 60; ++round) {
        const auto file = folder / fmt::format("{}.sqlite", round);
        const Fault fault = kDeaths.at(static_cast<std::size_t>(round % 3));
        kills += dies([&] {
            const FaultyDisk disk(fault, 1 + 2 * (round / 3), folder / "kills");
            const auto made = open_journal(file, test::kDuringTrip);
        })
                     ? 1
                     : 0;
        auto journal = open_journal(file, test::kDuringTrip);
        ASSERT_TRUE(journal) << to_text(journal.error());
        EXPECT_TRUE(store_trip(*journal, test::full_trip()));
    }
    fmt::print("killed {} times while it was made\n", kills);
    EXPECT_GE(kills, 50);
}

}  // namespace
}  // namespace gloam::journal
