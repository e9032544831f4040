#include "app/journal_file.hpp"

namespace gloam::app {

Result<journal::Journal> open_journal(const std::string& asked, const Surroundings& surroundings) {
    if (asked.empty() && !surroundings.data_home) {
        return fail(ErrorKind::kNotFound, "there is no place for the journal",
                    "neither XDG_DATA_HOME nor HOME is set", "give --journal FILE");
    }
    const std::filesystem::path file =
        asked.empty() ? *surroundings.data_home / "gloam" / "journal.sqlite" : std::filesystem::path(asked);
    return journal::open_journal(file, surroundings.now);
}

}  // namespace gloam::app
