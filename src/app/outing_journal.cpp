#include "app/outing_journal.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "app/file_hash.hpp"
#include "app/text_file.hpp"
#include "app/versions.hpp"
#include "decide/seen_sign.hpp"
#include "geo/quoted.hpp"
#include "outlook/sample_bytes.hpp"
#include "weather/near_surface.hpp"

namespace gloam::app {
namespace {

constexpr const char* kTyped = "typed by you";

/// The answer that holds: the leader's own if there is one.
template <class StoredOrLine>
std::string answer_of(const StoredOrLine& call, const journal::CallHead& head) {
    return call.overrules.empty() ? head.answer : call.overrules.back().answer;
}

Result<std::optional<CalledBefore>> called_before(const journal::Journal& journal,
                                                  const journal::EventKey& event) {
    return last_call(journal, event).map([](const std::optional<journal::StoredCall>& call) {
        if (!call) {
            return std::optional<CalledBefore>();
        }
        const journal::CallHead& head = call->record.head;
        return std::optional(CalledBefore{
            call->id, head.look == journal::Look::kMorning ? OutingLook::kMorning : OutingLook::kEvening,
            head.made_at, answer_of(*call, head), head.odds});
    });
}

bool is_yes(const std::string& answer) {
    return answer == "on" || answer == "go";
}

/// Dawns of the trip before `date` for which the last word was yes, at whatever place.
Result<int> starts_spent(const journal::Journal& journal, const journal::EventKey& event) {
    if (!event.trip) {
        return 0;
    }
    return calls_of(journal, *event.trip).map([&](const std::vector<journal::CallLine>& calls) {
        std::set<CivilDate> dates;
        for (const journal::CallLine& call : calls) {  // in the order they were made
            if (call.head.event.kind == astro::EventKind::kDawn && call.head.event.date < event.date) {
                if (is_yes(answer_of(call, call.head))) {
                    dates.insert(call.head.event.date);
                } else {
                    dates.erase(call.head.event.date);
                }
            }
        }
        return static_cast<int>(dates.size());
    });
}

/// The last time before `before` at which the clock showed `words`, "22:30"; absent if they are empty.
Result<std::optional<Instant>> last_time(const std::string& words, const geo::Zone& zone, Instant before,
                                         std::string_view option) {
    if (words.empty()) {
        return std::nullopt;
    }
    const auto time = trip::parse_clock_time(words);
    if (!time) {
        Error error = time.error();
        error.where = option;
        return tl::unexpected(error);
    }
    const std::chrono::sys_days today = zone.date_of(before);
    for (const int days : {0, 1, 2}) {
        const auto instants = zone.instants_of(today - std::chrono::days(days), *time);
        if (!instants.empty() && instants.back() < before) {
            return instants.back();
        }
    }
    return std::nullopt;
}

weather::Warning typed_warning(const std::string& text, Instant at) {
    weather::Warning warning;
    warning.issuer = kTyped;
    warning.headline = text;
    warning.sent = at;
    return warning;
}

/// Warnings that came into the journal before, as long as they have not ended.
Result<decide::KnownWarnings> stored_warnings(const journal::Journal& journal, const std::string& trip,
                                              Instant now) {
    return warnings_of(journal, trip).map([&](const std::vector<journal::Warning>& stored) {
        decide::KnownWarnings known{{}, "the journal", {}};
        for (const journal::Warning& one : stored) {
            weather::Warning warning = typed_warning(one.text, one.at);
            warning.issuer = one.issuer;
            warning.onset = one.from;
            warning.expires = one.until;
            if (!one.until || *one.until >= now) {
                known.warnings.push_back(std::move(warning));
            }
            known.as_of = std::max(known.as_of, one.at);
        }
        return known;
    });
}

/// The warnings of a file that may hold at the place.
Result<std::vector<weather::Warning>> warnings_in(const std::string& file, geo::LatLon place) {
    return read_text_file(file)
        .and_then([&](const std::string& text) { return weather::read_warnings(text, file); })
        .map([&](std::vector<weather::Warning> warnings) {
            std::erase_if(warnings, [&](const auto& warning) { return !may_hold_at(warning, place); });
            for (weather::Warning& warning : warnings) {
                warning.areas.clear();
            }
            return warnings;
        });
}

std::string whole_text(const weather::Warning& warning) {
    std::string text = warning.headline.empty() ? warning.event : warning.headline;
    for (const std::string* part : {&warning.description, &warning.instruction}) {
        text += part->empty() ? "" : "\n" + *part;
    }
    return text;
}

Result<void> keep(journal::Journal& journal, const journal::EventKey& event, const weather::Warning& warning,
                  Instant now) {
    if (!event.trip) {
        return {};
    }
    return record_warning(
        journal, *event.trip,
        {now, warning.issuer == kTyped, warning.issuer, warning.onset, warning.expires, whole_text(warning)});
}

/// What was looked at now, in a file or by the leader; else what the journal holds; else nothing.
Result<std::optional<decide::KnownWarnings>> known_warnings(journal::Journal& journal,
                                                            const journal::EventKey& event, geo::LatLon place,
                                                            const OutingWishes& wishes, Instant now) {
    const bool anew = !wishes.warnings_file.empty() || !wishes.typed_warnings.empty();
    if (!anew) {
        if (!event.trip) {
            return std::nullopt;
        }
        return stored_warnings(journal, *event.trip, now).map([](decide::KnownWarnings known) {
            return known.as_of == Instant{} ? std::nullopt : std::optional(std::move(known));
        });
    }
    decide::KnownWarnings known{{}, wishes.warnings_file.empty() ? kTyped : wishes.warnings_file, now};
    if (!wishes.warnings_file.empty()) {
        auto read = warnings_in(wishes.warnings_file, place);
        if (!read) {
            return tl::unexpected(read.error());
        }
        known.warnings = *std::move(read);
    }
    for (const std::string& text : wishes.typed_warnings) {
        known.warnings.push_back(typed_warning(text, now));
    }
    for (const weather::Warning& warning : known.warnings) {
        if (auto kept = keep(journal, event, warning, now); !kept) {
            return tl::unexpected(kept.error());
        }
    }
    return known;
}

Result<std::vector<SetAside>> set_aside(const journal::Journal& journal, const journal::EventKey& event) {
    return dismissals_of(journal, event).map([](const std::vector<journal::Dismissal>& dismissals) {
        std::vector<SetAside> all;
        for (const journal::Dismissal& one : dismissals) {
            all.push_back({one.caution, one.reason});
        }
        return all;
    });
}

Result<void> keep_sign(journal::Journal& journal, const journal::EventKey& event, const std::string& word,
                       Instant now) {
    if (word.empty()) {
        return {};
    }
    return decide::seen_sign(word).and_then([&](const decide::SeenSign& sign) {
        return record_sighting(journal, event, {now, word, sign.likelihood_ratio});
    });
}

/// Fills what the journal knows of the event and what was typed. Absent: no error.
std::optional<Error> fill_from_journal(journal::Journal& journal, const journal::EventKey& event,
                                       const EventInputs& inputs, const OutingWishes& wishes,
                                       OutingBasis& basis) {
    const auto kept = keep_sign(journal, event, wishes.seen, basis.now);
    auto before = called_before(journal, event);
    auto spent = starts_spent(journal, event);
    auto home_at = last_time(wishes.home_at, basis.place.zone, inputs.half_day.span.end, "--home-at");
    auto since = last_time(wishes.driver_since, basis.place.zone, inputs.half_day.span.end, "--driver-since");
    auto warnings = known_warnings(journal, event, basis.place.observer.at, wishes, basis.now);
    auto aside = set_aside(journal, event);
    if (!kept) {
        return kept.error();
    }
    if (!before) {
        return before.error();
    }
    if (!spent) {
        return spent.error();
    }
    if (!home_at) {
        return home_at.error();
    }
    if (!since) {
        return since.error();
    }
    if (!warnings) {
        return warnings.error();
    }
    if (!aside) {
        return aside.error();
    }
    basis.before = *std::move(before);
    basis.starts_spent = *spent;
    basis.home_at = *home_at;
    basis.driver_since = *since;
    basis.warnings = *std::move(warnings);
    basis.set_aside = *std::move(aside);
    return std::nullopt;
}

Result<std::vector<journal::RunSeen>> runs_of(const EventInputs& inputs) {
    std::vector<journal::RunSeen> runs;
    for (const std::string& file : inputs.forecast_files) {
        auto hash = sha256_of(file);
        if (!hash) {
            return tl::unexpected(hash.error());
        }
        runs.push_back({*std::move(hash), inputs.forecast.source, inputs.forecast.run_time});
    }
    return runs;
}

}  // namespace

Result<journal::EventKey> event_key(const journal::Journal& journal, const EventInputs& inputs) {
    journal::EventKey key{std::nullopt, inputs.place.name, inputs.date, inputs.half_day.kind};
    if (!inputs.trip) {
        return key;
    }
    const auto stored = find_trip(journal, inputs.trip->name);
    if (!stored) {
        return tl::unexpected(stored.error());
    }
    if (!*stored) {
        return fail(ErrorKind::kNotFound,
                    fmt::format("the journal has no trip {}", geo::quoted(inputs.trip->name)), "--trip",
                    "bring it in once: gloam trip import FILE.toml");
    }
    key.trip = inputs.trip->name;
    return key;
}

Result<OutingBasis> gather_basis(journal::Journal& journal, const EventInputs& inputs,
                                 const OutingWishes& wishes, Instant now) {
    const auto event = event_key(journal, inputs);
    const auto outcome = class_wanted(inputs, wishes.call);
    if (!event) {
        return tl::unexpected(event.error());
    }
    if (!outcome) {
        return tl::unexpected(outcome.error());
    }
    OutingBasis basis{.look = wishes.look, .now = now, .trip = inputs.trip, .place = inputs.place};
    basis.date = inputs.date;
    basis.kind = inputs.half_day.kind;
    basis.outcome_class = *outcome;
    basis.starts_for_one = starts_for_one(inputs, wishes.call);
    basis.looks_again = wishes.looks_again;
    basis.seen = wishes.seen.empty() ? std::nullopt : std::optional(wishes.seen);
    basis.source = inputs.forecast.source;
    basis.run_time = inputs.forecast.run_time;
    basis.near = weather::near_surface(inputs.forecast, inputs.place.observer.at,
                                       inputs.moments.front().instant, inputs.moments.back().instant);
    basis.limits = inputs.config.limits;
    if (auto error = fill_from_journal(journal, *event, inputs, wishes, basis)) {
        return tl::unexpected(*std::move(error));
    }
    return basis;
}

Result<std::int64_t> record_outing(journal::Journal& journal, const EventInputs& inputs,
                                   const OutingReport& report, const outlook::EventSample& sample) {
    const auto event = event_key(journal, inputs);
    auto runs = runs_of(inputs);
    if (!event) {
        return tl::unexpected(event.error());
    }
    if (!runs) {
        return tl::unexpected(runs.error());
    }
    const OutingBasis& basis = report.basis;
    journal::CallRecord record;
    record.head = {*event,
                   basis.look == OutingLook::kEvening ? journal::Look::kEvening : journal::Look::kMorning,
                   basis.now,
                   report.answer,
                   report.odds,
                   std::min(report.threshold, 1.0),
                   basis.before ? std::optional(basis.before->call) : std::nullopt};
    record.runs = *std::move(runs);
    record.inputs = to_json(basis);
    record.model_version = kModelVersion;
    record.tables_hash = kTablesHash;
    record.states = pack(sample);
    record.output = to_text(report);
    return record_call(journal, record);
}

}  // namespace gloam::app
