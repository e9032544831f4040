#include "app/outing_journal.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "app/file_hash.hpp"
#include "app/outing_history.hpp"
#include "app/outing_warnings.hpp"
#include "app/versions.hpp"
#include "decide/seen_sign.hpp"
#include "geo/quoted.hpp"
#include "outlook/sample_bytes.hpp"
#include "weather/near_surface.hpp"

namespace gloam::app {
namespace {

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

/// The trip with nobody named in it: what is stored with a call outlives the tour.
trip::Trip without_names(trip::Trip trip) {
    for (std::size_t i = 0; i < trip.group.guests.size(); ++i) {
        trip.group.guests[i].name = fmt::format("guest {}", i + 1);
    }
    if (trip.plan_holder) {
        trip.plan_holder = "The plan holder";
    }
    return trip;
}

/// What the inputs tell of the event.
OutingBasis basis_of(const EventInputs& inputs, OutingLook look, Instant now) {
    OutingBasis basis{.look = look, .now = now, .place = inputs.place};
    basis.trip = inputs.trip ? std::optional(without_names(*inputs.trip)) : std::nullopt;
    basis.date = inputs.date;
    basis.kind = inputs.half_day.kind;
    basis.source = inputs.forecast.source;
    basis.run_time = inputs.forecast.run_time;
    basis.near = weather::near_surface(inputs.forecast, inputs.place.observer.at,
                                       inputs.moments.front().instant, inputs.moments.back().instant);
    basis.limits = inputs.config.limits;
    return basis;
}

/// What was typed for this look alone.
std::optional<Error> fill_typed(const EventInputs& inputs, const OutingWishes& wishes, OutingBasis& basis) {
    const Instant night = inputs.moments.front().instant;  // the sun still well down, or well up
    auto home_at = last_time(wishes.home_at, basis.place.zone, night, "--home-at");
    auto since = last_time(wishes.driver_since, basis.place.zone, night, "--driver-since");
    if (!home_at) {
        return home_at.error();
    }
    if (!since) {
        return since.error();
    }
    if (*since && basis.kind == astro::EventKind::kDawn) {
        return Error{ErrorKind::kBadInput, "a driver's day that began before a dawn is over",
                     "--driver-since", "give it for a dusk; for a dawn give --home-at"};
    }
    basis.home_at = *home_at;
    basis.driver_since = *since;
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
    const auto sign =
        wishes.seen.empty() ? Result<decide::SeenSign>(decide::SeenSign{}) : decide::seen_sign(wishes.seen);
    if (!event) {
        return tl::unexpected(event.error());
    }
    if (!outcome) {
        return tl::unexpected(outcome.error());
    }
    if (!sign) {
        return tl::unexpected(sign.error());
    }
    auto history = history_of(journal, *event);
    if (!history) {
        return tl::unexpected(history.error());
    }
    auto warnings = known_warnings(history->warnings, wishes.warnings_file, wishes.typed_warnings,
                                   inputs.place.observer.at, now);
    if (!warnings) {
        return tl::unexpected(warnings.error());
    }
    OutingBasis basis = basis_of(inputs, wishes.look, now);
    if (auto error = fill_typed(inputs, wishes, basis)) {
        return tl::unexpected(*std::move(error));
    }
    basis.outcome_class = *outcome;
    basis.starts_for_one = starts_for_one(inputs, wishes.call);
    basis.looks_again = wishes.looks_again;
    basis.seen = wishes.seen.empty() ? history->seen : std::optional(wishes.seen);
    basis.before = std::move(history->before);
    basis.starts_spent = history->starts_spent;
    basis.set_aside = std::move(history->set_aside);
    basis.warnings = *std::move(warnings);
    // Last, when nothing can be refused any more.
    if (!wishes.seen.empty()) {
        const auto kept = record_sighting(journal, *event, {now, wishes.seen, sign->likelihood_ratio});
        if (!kept) {
            return tl::unexpected(kept.error());
        }
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
