#include "app/outing_warnings.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "app/text_file.hpp"

namespace gloam::app {
namespace {

constexpr const char* kTyped = "typed by the leader";

weather::Warning typed_warning(const std::string& text, Instant now) {
    weather::Warning warning;
    warning.issuer = kTyped;
    warning.headline = text;
    warning.sent = now;
    return warning;
}

/// What is stored goes through JSON, which refuses anything else.
bool is_utf8(const weather::Warning& warning) {
    try {
        const nlohmann::json texts{warning.issuer,   warning.event,       warning.severity,
                                   warning.headline, warning.description, warning.instruction};
        return !texts.dump().empty();
    } catch (const nlohmann::json::type_error&) {
        return false;
    }
}

Result<std::vector<weather::Warning>> read_file(const std::string& file, geo::LatLon place) {
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

/// Adds a typed warning unless the same words are there.
void add_typed(decide::KnownWarnings& known, const weather::Warning& warning) {
    if (std::ranges::find(known.warnings, warning.headline, &weather::Warning::headline) ==
        known.warnings.end()) {
        known.warnings.push_back(warning);
    }
}

}  // namespace

Result<std::optional<decide::KnownWarnings>> known_warnings(
    const std::optional<decide::KnownWarnings>& before, const std::string& file,
    const std::vector<std::string>& typed, geo::LatLon place, Instant now) {
    if (file.empty() && typed.empty()) {
        return before;
    }
    decide::KnownWarnings known{{}, file.empty() ? kTyped : file, now};
    if (!file.empty()) {
        auto read = read_file(file, place);
        if (!read) {
            return tl::unexpected(read.error());
        }
        known.warnings = *std::move(read);
    }
    for (const weather::Warning& warning : before ? before->warnings : std::vector<weather::Warning>()) {
        if (file.empty() || warning.issuer == kTyped) {
            add_typed(known, warning);
        }
    }
    for (const std::string& text : typed) {
        add_typed(known, typed_warning(text, now));
    }
    if (!std::ranges::all_of(known.warnings, is_utf8)) {
        return fail(ErrorKind::kBadInput, "a warning holds bytes that are no text",
                    file.empty() ? "--warning" : file, "give it as UTF-8");
    }
    return known;
}

}  // namespace gloam::app
