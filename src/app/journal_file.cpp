#include "app/journal_file.hpp"

#include <fmt/format.h>

#include "geo/quoted.hpp"

namespace gloam::app {
namespace {

Result<std::filesystem::path> path_of(const std::string& file, const Surroundings& surroundings) {
    if (!file.empty()) {
        return std::filesystem::path(file);
    }
    if (!surroundings.data_home) {
        return fail(ErrorKind::kNotFound,
                    "there is no place for the journal: neither XDG_DATA_HOME nor HOME is set", "--journal",
                    "give --journal FILE");
    }
    return *surroundings.data_home / "gloam" / "journal.sqlite";
}

}  // namespace

Result<journal::Journal> open_journal(const std::string& file, const Surroundings& surroundings) {
    return path_of(file, surroundings).and_then([&](const std::filesystem::path& path) {
        return journal::open_journal(path, surroundings.now);
    });
}

Result<journal::Journal> open_existing_journal(const std::string& file, const Surroundings& surroundings) {
    return path_of(file, surroundings)
        .and_then([&](const std::filesystem::path& path) -> Result<journal::Journal> {
            std::error_code error;
            if (!std::filesystem::exists(path, error)) {
                return fail(ErrorKind::kNotFound, "there is no journal yet", path.string(),
                            "gloam trip import FILE begins one");
            }
            return journal::open_journal(path, surroundings.now);
        });
}

Result<trip::Trip> trip_of_journal(const std::string& name, const std::string& file,
                                   const Surroundings& surroundings) {
    const auto journal = open_existing_journal(file, surroundings);
    if (!journal && journal.error().kind != ErrorKind::kNotFound) {
        return tl::unexpected(journal.error());
    }
    auto trip =
        journal ? journal::find_trip(*journal, name) : Result<std::optional<trip::Trip>>(std::nullopt);
    if (!trip) {
        return tl::unexpected(trip.error());
    }
    if (!*trip) {
        return fail(ErrorKind::kNotFound,
                    fmt::format("there is no such file, and no trip {} in the journal", geo::quoted(name)),
                    name, "check the path; gloam trip list shows the journal's trips");
    }
    return **std::move(trip);
}

}  // namespace gloam::app
