// Official warnings, word for word; and whether anybody looked.
#include <fmt/format.h>

#include <algorithm>

#include "decide/caution_parts.hpp"

namespace gloam::decide {
namespace {

std::string time_in_words(const OutingFacts& facts, Instant instant) {
    return fmt::format("{} {}", gloam::to_text(facts.zone.date_of(instant)), facts.zone.clock(instant));
}

/// The warning whole, in its issuer's words.
std::string quoted(const OutingFacts& facts, const weather::Warning& warning) {
    std::string text = "\"" + (warning.headline.empty() ? warning.event : warning.headline);
    for (const std::string* part : {&warning.description, &warning.instruction}) {
        if (!part->empty()) {
            text += (text.ends_with('.') ? " " : ". ") + *part;
        }
    }
    text += "\"";
    if (!warning.severity.empty()) {
        text += " " + warning.severity + ".";
    }
    if (warning.onset) {
        text += " From " + time_in_words(facts, *warning.onset) + ".";
    }
    if (warning.expires) {
        text += " Until " + time_in_words(facts, *warning.expires) + ".";
    }
    return text;
}

bool holds(const OutingFacts& facts, const weather::Warning& warning) {
    return may_hold_at(warning, facts.place->at) &&
           may_hold_during(warning, facts.chain->leave,
                           std::max(facts.chain->at_base, facts.chain->light_over));
}

bool is_stale(const OutingFacts& facts) {
    return hours_between(facts.warnings->as_of, facts.now) > facts.limits.stale_h;
}

}  // namespace

void add_warning_cautions(const OutingFacts& facts, std::vector<Caution>& cautions) {
    if (!facts.warnings) {
        cautions.push_back({Hazard::kWarning, CautionKind::kMind, "Weather warnings: not checked.", kBuiltIn,
                            "weather service", ""});
        return;
    }
    std::size_t holding = 0;
    for (const weather::Warning& warning : facts.warnings->warnings) {
        if (holds(facts, warning)) {
            ++holding;
            cautions.push_back(
                {Hazard::kWarning, CautionKind::kStop, quoted(facts, warning),
                 fmt::format("{}, issued {}", warning.issuer, time_in_words(facts, warning.sent)),
                 warning.issuer, ""});
        }
    }
    const std::string as_of = time_in_words(facts, facts.warnings->as_of);
    if (is_stale(facts)) {
        cautions.push_back({Hazard::kWarning, CautionKind::kMind,
                            fmt::format("Weather warnings: not checked since {}.", as_of),
                            facts.warnings->source, "weather service", ""});
    } else if (holding == 0) {
        cautions.push_back(
            {Hazard::kWarning, CautionKind::kNote,
             fmt::format("Weather warnings: nothing found for this place and time in {} as of {}.",
                         facts.warnings->source, as_of),
             facts.warnings->source, "weather service", ""});
    }
}

}  // namespace gloam::decide
