#include "faulty_disk.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <csignal>
#include <map>
#include <string_view>

namespace gloam::journal::test {
namespace {

/// SQLite calls back through plain functions: what they share stands here.
struct State {
    Fault fault = Fault::kNone;
    long at = 0;
    long count = 0;
    bool in_commit = false;
    int log = -1;
    sqlite3_vfs* real = nullptr;
    sqlite3_vfs faulty{};
    std::map<sqlite3_file*, const sqlite3_io_methods*> methods;  ///< of the real disk, by open file
    std::map<const sqlite3_io_methods*, sqlite3_io_methods>
        with_fault;  ///< those methods with ours in between
};
State state;

void die(const char* operation) {
    const std::string line = fmt::format("{} {}\n", operation, state.in_commit ? "commit" : "apart");
    if (write(state.log, line.data(), line.size()) == static_cast<ssize_t>(line.size())) {
        raise(SIGKILL);
    }
}

/// Runs an operation with what is to happen at its number.
template <class Operation, class Half>
int run(const char* name, Operation operation, Half half) {
    const bool due = ++state.count >= state.at;
    if (due && state.fault == Fault::kKillBefore) {
        die(name);
    }
    if (due && state.fault == Fault::kKillHalf) {
        half();
        die(name);
    }
    const int code = operation();
    if (due && state.fault == Fault::kKillAfter) {
        die(name);
    }
    return code;
}

bool due(Fault fault) {
    return state.fault == fault && state.count + 1 >= state.at;
}

int faulty_write(sqlite3_file* file, const void* bytes, int size, sqlite3_int64 offset) {
    const auto* real = state.methods.at(file);
    if (due(Fault::kFull)) {
        return SQLITE_FULL;
    }
    return run(
        "write", [&] { return real->xWrite(file, bytes, size, offset); },
        [&] { real->xWrite(file, bytes, size / 2, offset); });
}

int faulty_sync(sqlite3_file* file, int flags) {
    if (due(Fault::kNoSync)) {
        return SQLITE_IOERR_FSYNC;
    }
    return run(
        "sync", [&] { return state.methods.at(file)->xSync(file, flags); }, [] {});
}

int faulty_truncate(sqlite3_file* file, sqlite3_int64 size) {
    return run(
        "truncate", [&] { return state.methods.at(file)->xTruncate(file, size); }, [] {});
}

int faulty_close(sqlite3_file* file) {
    const auto* real = state.methods.at(file);
    state.methods.erase(file);
    return real->xClose(file);
}

int faulty_open(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* flags_out) {
    const int code = state.real->xOpen(state.real, name, file, flags, flags_out);
    if (code == SQLITE_OK && file->pMethods) {
        const auto [methods, is_new] = state.with_fault.try_emplace(file->pMethods, *file->pMethods);
        methods->second.xWrite = faulty_write;
        methods->second.xSync = faulty_sync;
        methods->second.xTruncate = faulty_truncate;
        methods->second.xClose = faulty_close;
        state.methods[file] = file->pMethods;
        file->pMethods = &methods->second;
    }
    return code;
}

int faulty_delete(sqlite3_vfs*, const char* name, int sync_folder) {
    return run(
        "delete", [&] { return state.real->xDelete(state.real, name, sync_folder); }, [] {});
}

/// Notes when a COMMIT begins and ends.
int trace(unsigned event, void*, void* statement, void*) {
    const char* sql = sqlite3_sql(static_cast<sqlite3_stmt*>(statement));
    if (sql && std::string_view(sql) == "COMMIT") {
        state.in_commit = event == SQLITE_TRACE_STMT;
    }
    return 0;
}

int watch(sqlite3* connection, char**, const sqlite3_api_routines*) {
    return sqlite3_trace_v2(connection, SQLITE_TRACE_STMT | SQLITE_TRACE_PROFILE, trace, nullptr);
}

}  // namespace

FaultyDisk::FaultyDisk(Fault fault, long at, const std::filesystem::path& log) {
    state = State{};
    state.fault = fault;
    state.at = at;
    state.log = log.empty() ? -1 : open(log.c_str(), O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
    state.real = sqlite3_vfs_find(nullptr);
    state.faulty = *state.real;
    state.faulty.zName = "faulty";
    state.faulty.pNext = nullptr;
    state.faulty.xOpen = faulty_open;
    state.faulty.xDelete = faulty_delete;
    sqlite3_vfs_register(&state.faulty, 1);
    sqlite3_auto_extension(reinterpret_cast<void (*)()>(watch));
}

FaultyDisk::~FaultyDisk() {
    sqlite3_reset_auto_extension();
    sqlite3_vfs_unregister(&state.faulty);
    sqlite3_vfs_register(state.real, 1);
    if (state.log >= 0) {
        close(state.log);
    }
}

long FaultyDisk::operations() {
    return state.count;
}

}  // namespace gloam::journal::test
