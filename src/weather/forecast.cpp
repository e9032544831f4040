#include "weather/forecast.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "weather/forecast_file.hpp"
#include "weather/grib/visit.hpp"
#include "weather/member_files.hpp"

namespace gloam::weather {
namespace {

/// Fields of two runs never make one forecast. The first field that is met says which run it is.
Result<void> check_same_run(Forecast& forecast, const std::string& source, Instant run_time,
                            const FieldOrigin& origin) {
    if (forecast.source.empty()) {
        forecast.source = source;
        forecast.run_time = run_time;
    }
    if (forecast.source == source && forecast.run_time == run_time) {
        return {};
    }
    return fail(ErrorKind::kBadInput,
                fmt::format("{} run of {} is mixed with {} run of {}", source, to_rfc3339_utc(run_time),
                            forecast.source, to_rfc3339_utc(forecast.run_time)),
                to_text(origin), "give the files of one run of one centre");
}

/// What is doubtful of many fields of a file in the same words is told once.
void note_once(Forecast& forecast, const std::string& file, const std::string& doubt) {
    const std::string note = fmt::format("{}: {}", file, doubt);
    if (std::ranges::find(forecast.notes, note) == forecast.notes.end()) {
        forecast.notes.push_back(note);
    }
}

Result<void> add(Forecast& forecast, DecodedField&& decoded, const Wanted& wanted) {
    auto same = check_same_run(forecast, decoded.source, decoded.run_time, decoded.field.origin);
    if (!same) {
        return same;
    }
    if (decoded.doubt) {
        note_once(forecast, decoded.field.origin.file, *decoded.doubt);
    }
    crop(wanted, decoded.field);
    forecast.clamped_values += decoded.clamped_values;
    forecast.sentinel_values += decoded.sentinel_values;
    forecast.fields.push_back(std::move(decoded.field));
    return {};
}

Result<void> pass_over(Forecast& forecast, const NotWanted& not_wanted) {
    const FieldHeader& field = not_wanted.header;
    auto same = check_same_run(forecast, not_wanted.source, not_wanted.run_time, field.origin);
    if (!same) {
        return same;
    }
    Forecast::PassedOver& passed = forecast.passed_over;
    passed.first = passed.fields == 0 ? field.from : std::min(passed.first, field.from);
    passed.last = passed.fields == 0 ? field.to : std::max(passed.last, field.to);
    ++passed.fields;
    return {};
}

/// Gathers into `forecast` what is wanted; refers to both.
FieldVisitor gatherer(Forecast& forecast, const Wanted& wanted) {
    return {
        .wants = [&wanted](const FieldHeader& field) { return is_wanted(wanted, field); },
        .take = [&](DecodedField&& decoded) { return add(forecast, std::move(decoded), wanted); },
        .pass_over = [&forecast](const NotWanted& not_wanted) { return pass_over(forecast, not_wanted); },
        .skip = [&forecast](SkippedMessage&& skipped) { forecast.skipped.push_back(std::move(skipped)); }};
}

}  // namespace

Result<Forecast> read_grib(std::span<const std::byte> bytes, std::string_view name, const Wanted& wanted) {
    Forecast forecast;
    return visit_grib(memory_source(bytes), name, gatherer(forecast, wanted)).map([&](std::size_t messages) {
        forecast.messages = messages;
        return std::move(forecast);
    });
}

Result<Forecast> read_forecast(std::span<const std::filesystem::path> files, const Wanted& wanted) {
    if (files.empty()) {
        return fail(ErrorKind::kBadInput, "no forecast file was given", {}, "give at least one GRIB file");
    }
    Forecast forecast;
    const FieldVisitor visitor = gatherer(forecast, wanted);
    for (const std::filesystem::path& file : files) {
        const auto messages = visit_file(file, visitor);
        if (!messages) {
            return tl::unexpected(messages.error());
        }
        forecast.messages += *messages;
    }
    if (forecast.messages == 0 && !forecast.skipped.empty()) {
        return fail(ErrorKind::kUnsupported, "no file holds a forecast",
                    to_text(forecast.skipped.front().origin), forecast.skipped.front().reason);
    }
    number_members_by_file(forecast);
    return forecast;
}

}  // namespace gloam::weather
