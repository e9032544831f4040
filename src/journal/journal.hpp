#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "astro/crossing.hpp"
#include "base/error.hpp"
#include "base/instant.hpp"
#include "trip/trip.hpp"

namespace gloam::journal {

class Database;

/// An open journal: the one file that holds trips, and what was called and why (docs/journal.md). Every
/// function below that writes does so whole or not at all, and has written to the disk when it returns.
/// Errors of all of them: kBusy, another process writes; kDenied, the system refuses (no permission, disk
/// full); kUnreadable, the file is damaged. The journal then stays as it was.
class Journal {
  public:
    explicit Journal(std::unique_ptr<Database> database);
    Journal(Journal&&) noexcept;
    Journal& operator=(Journal&&) noexcept;
    ~Journal();

    Database& database() const { return *database_; }

  private:
    std::unique_ptr<Database> database_;
};

/// Opens a journal, making file and folder if they are not there, bringing an older one up to date (a copy is
/// laid beside it first) and forgetting the people of trips that ended more than a day before `now`. Errors
/// besides those above: kUnreadable, the file is no journal; kUnsupported, it was written by a newer program.
Result<Journal> open_journal(const std::filesystem::path& file, Instant now);

/// Stores a trip; one of the same name is replaced, its calls stay. Returns the names of other trips that
/// share days with it: they may, since every command names its trip. Error (kBadInput): guests, but no end
/// date after which to forget them.
Result<std::vector<std::string>> store_trip(Journal& journal, const trip::Trip& trip);

/// A trip by its name; absent if there is none.
Result<std::optional<trip::Trip>> find_trip(const Journal& journal, std::string_view name);

/// A trip as a line of a list.
struct TripLine {
    std::string name;
    std::optional<CivilDate> start;
    std::optional<CivilDate> end;
    std::int64_t places = 0;
    std::int64_t calls = 0;
    std::optional<Instant> forgotten;  ///< when its people were last forgotten
};

/// All trips, by their first day, those without one last.
Result<std::vector<TripLine>> list_trips(const Journal& journal);

/// Deletes what is stored about the people of a trip: guests, and who holds the plan. Calls then speak of
/// "guest 12". Copies laid beside the journal before it was brought up to date are deleted too. False if
/// there is no such trip.
Result<bool> forget_people(Journal& journal, std::string_view trip, Instant now);

/// A dawn or dusk at a place.
struct EventKey {
    std::optional<std::string> trip;  ///< name of a stored trip; absent: none
    std::string place;                ///< as the trip calls it, or its coordinates; not empty
    CivilDate date;
    astro::EventKind kind{};
};

/// Which question a call answers.
enum class Look { kEvening, kMorning, kCall };

/// "evening", "morning" or "call".
std::string_view name_of(Look look);

/// Files of a forecast run.
struct RunSeen {
    std::string sha256;
    std::string source;
    Instant run_time;
};

/// What was called.
struct CallHead {
    EventKey event;
    Look look = Look::kCall;
    Instant made_at;
    std::string answer;  ///< in a word; not empty
    double odds = 0.0;   ///< 0 to 1
    double threshold = 0.0;
    std::optional<std::int64_t> previous;  ///< the call that it follows
};

/// A call with what it stands on. Names of the trip's guests in `inputs` and `output` are kept apart from
/// them, and read "guest 12" once the guests are forgotten.
struct CallRecord {
    CallHead head;
    std::vector<RunSeen> runs;
    std::string inputs;  ///< what was asked, in words that make the call again
    std::string model_version;
    std::string tables_hash;
    std::vector<std::byte> states;  ///< the sampled member states
    std::string output;             ///< as printed
};

/// What the leader decided against a call.
struct Overrule {
    Instant at;
    std::string answer;
    std::string reason;
};

/// What was added to a call later.
struct Amendment {
    Instant at;
    std::string text;
};

/// A call as the journal holds it.
struct StoredCall {
    std::int64_t id = 0;
    CallRecord record;
    std::vector<Overrule> overrules;    ///< in the order they were recorded
    std::vector<Amendment> amendments;  ///< in the order they were recorded
};

/// A call as a line of a list.
struct CallLine {
    std::int64_t id = 0;
    CallHead head;
    std::vector<Overrule> overrules;
};

/// Records a call and returns its number, which is never used again. Errors: kNotFound, its trip or the call
/// that it follows is not in the journal; kBadInput, a field outside its range.
Result<std::int64_t> record_call(Journal& journal, const CallRecord& call);

/// A call by its number; absent if there is none.
Result<std::optional<StoredCall>> find_call(const Journal& journal, std::int64_t id);

/// The latest call of an event; absent if there is none.
Result<std::optional<StoredCall>> last_call(const Journal& journal, const EventKey& event);

/// The call that was recorded last, of any event; absent if there is none.
Result<std::optional<StoredCall>> newest_call(const Journal& journal);

/// All calls of a trip, in the order they were made.
Result<std::vector<CallLine>> calls_of(const Journal& journal, std::string_view trip);

/// Adds to a call; it is never changed. Errors: kNotFound, no such call; kBadInput, an empty reason or text.
Result<void> record_overrule(Journal& journal, std::int64_t call, const Overrule& overrule);
Result<void> amend_call(Journal& journal, std::int64_t call, const Amendment& amendment);

/// What the leader saw of the sky.
struct Sighting {
    Instant at;
    std::string sign;               ///< not empty
    double likelihood_ratio = 1.0;  ///< > 0
};

/// A caution that the leader went against.
struct Dismissal {
    Instant at;
    std::string caution;  ///< not empty
    std::string reason;   ///< not empty
};

/// Records what belongs to an event. Errors: kNotFound, its trip is not in the journal; kBadInput, a field
/// outside its range.
Result<void> record_sighting(Journal& journal, const EventKey& event, const Sighting& sighting);
Result<void> record_dismissal(Journal& journal, const EventKey& event, const Dismissal& dismissal);

/// What was recorded of an event, in that order.
Result<std::vector<Sighting>> sightings_of(const Journal& journal, const EventKey& event);
Result<std::vector<Dismissal>> dismissals_of(const Journal& journal, const EventKey& event);

}  // namespace gloam::journal
