#pragma once

#include <filesystem>

namespace gloam::journal::test {

/// What happens at the n-th operation on the disk, and what is done to it.
enum class Fault {
    kNone,
    kKillBefore,  ///< the process dies and the operation is not done
    kKillHalf,    ///< it dies with half of a write done
    kKillAfter,   ///< it dies with the operation done
    kFull,        ///< from then on the disk is full
    kNoSync,      ///< from then on it does not sync
};

/// The disk under SQLite with a fault: writes, syncs, truncations and deletions are counted from 1. Lasts as
/// long as this; one at a time, and not to be shared by threads.
class FaultyDisk {
  public:
    /// A kill is written to `log` first, a line each: the operation and whether a commit was under way.
    FaultyDisk(Fault fault, long at, const std::filesystem::path& log = {});
    FaultyDisk(const FaultyDisk&) = delete;
    FaultyDisk& operator=(const FaultyDisk&) = delete;
    ~FaultyDisk();

    /// Operations so far.
    static long operations();
};

}  // namespace gloam::journal::test
