// The walk in the dark and the driver.
#include <fmt/format.h>

#include <algorithm>

#include "decide/caution_parts.hpp"

namespace gloam::decide {
namespace {

std::string span(const OutingFacts& facts, const TimedLeg& leg) {
    return fmt::format("{} to {}", facts.zone.clock(leg.from), facts.zone.clock(leg.to));
}

std::vector<std::string> dark_spans(const OutingFacts& facts) {
    std::vector<std::string> spans;
    for (const auto* legs : {&facts.chain->out, &facts.chain->back}) {
        for (const TimedLeg& leg : *legs) {
            if (leg.dark) {
                spans.push_back(span(facts, leg));
            }
        }
    }
    return spans;
}

/// The last date on which all walks of the way were walked by daylight; absent if one never was.
std::optional<CivilDate> last_walked(const trip::Place& place) {
    std::optional<CivilDate> oldest;
    for (const trip::AccessLeg& leg : place.access) {
        if (leg.kind != trip::LegKind::kWalk) {
            continue;
        }
        if (!leg.last_walked) {
            return std::nullopt;
        }
        oldest = oldest ? std::min(*oldest, *leg.last_walked) : *leg.last_walked;
    }
    return oldest;
}

std::string walked_words(const OutingFacts& facts) {
    const auto walked = last_walked(*facts.place);
    if (!walked) {
        return "not noted as walked by the leader in daylight";
    }
    const bool lately = std::chrono::sys_days(facts.date) - std::chrono::sys_days(*walked) <=
                        std::chrono::days(static_cast<int>(facts.limits.walked_within_d));
    return fmt::format("walked by the leader on {}{}", gloam::to_text(*walked), lately ? "" : ", long ago");
}

void add_dark_walk(const OutingFacts& facts, std::vector<Caution>& cautions) {
    const TimeChain& chain = *facts.chain;
    const auto spans = dark_spans(facts);
    if (!spans.empty()) {
        const bool out = std::ranges::any_of(chain.out, &TimedLeg::dark);
        cautions.push_back(
            {Hazard::kDarkWalk, CautionKind::kMind,
             fmt::format(
                 "Walk in the dark, {} ({}). A lamp and a spare each; leader first, second last; count "
                 "out, count in; the slowest sets the pace{}.",
                 fmt::join(spans, " and "), walked_words(facts),
                 out ? fmt::format("; turn round if not there by {}", facts.zone.clock(chain.stand)) : ""),
             kBuiltIn});
    }
    for (std::size_t i = 0; i < facts.place->access.size(); ++i) {
        const TimedLeg& there = chain.out[i];
        const TimedLeg& home = chain.back[chain.back.size() - 1 - i];
        if (facts.place->access[i].never_in_the_dark && (there.dark || home.dark)) {
            cautions.push_back({Hazard::kDarkWalk, CautionKind::kStop,
                                fmt::format("{}: never in the dark, as it is marked, and it would be, {}.",
                                            there.name, span(facts, there.dark ? there : home)),
                                "your place notes", "", ""});
        }
    }
}

bool begins_at_night(const OutingFacts& facts, const TimedLeg& leg) {
    const std::string clock = facts.zone.clock(leg.from);
    return clock < "06:00";
}

std::vector<std::string> driver_facts(const OutingFacts& facts) {
    const TimeChain& chain = *facts.chain;
    const trip::Driver& rules = facts.trip->driver;
    std::vector<std::string> said;
    if (chain.sleep && hours_between(Instant{}, Instant{} + *chain.sleep) < facts.limits.least_sleep_h) {
        const auto minutes = std::chrono::floor<std::chrono::minutes>(*chain.sleep).count();
        said.push_back(fmt::format("{} h {:02} min of bed at most since {}", minutes / 60, minutes % 60,
                                   facts.zone.clock(*facts.previous_return)));
    }
    for (const auto* legs : {&chain.out, &chain.back}) {
        for (const TimedLeg& leg : *legs) {
            if (leg.kind == trip::LegKind::kDrive && begins_at_night(facts, leg)) {
                said.push_back(fmt::format("at the wheel {}", span(facts, leg)));
            }
        }
    }
    if (rules.least_rest_h && facts.previous_return &&
        hours_between(*facts.previous_return, chain.leave) < *rules.least_rest_h) {
        said.push_back(fmt::format("{:.1f} h between coming home and leaving, your rule asks for {:g}",
                                   hours_between(*facts.previous_return, chain.leave), *rules.least_rest_h));
    }
    if (rules.longest_span_h && chain.driver_limit && *chain.driver_limit < chain.light_over) {
        said.push_back(fmt::format("leave the stand by {} for a span of {:g} h",
                                   facts.zone.clock(*chain.driver_limit), *rules.longest_span_h));
    }
    return said;
}

}  // namespace

void add_way_cautions(const OutingFacts& facts, std::vector<Caution>& cautions) {
    add_dark_walk(facts, cautions);
    if (facts.place->access.empty()) {
        cautions.push_back({Hazard::kAccess, CautionKind::kMind,
                            "No way there is noted: take your own travel off every time.",
                            "your place notes"});
    }
    const auto said = driver_facts(facts);
    if (!said.empty()) {
        cautions.push_back(
            {Hazard::kTiredDriver, CautionKind::kMind,
             fmt::format("Driver: {}. A second driver, a nearer place, or no start. Deer, ice, fog.",
                         fmt::join(said, "; ")),
             "the chain of times, your rules", "road authority", ""});
    }
    const bool drives = std::ranges::any_of(
        facts.chain->out, [](const TimedLeg& leg) { return leg.kind == trip::LegKind::kDrive; });
    if (facts.dawn && drives && !facts.previous_return) {
        cautions.push_back({Hazard::kTiredDriver, CautionKind::kNote,
                            "Hours of sleep not known: no return of the evening before was given.", kBuiltIn,
                            "", ""});
    }
}

}  // namespace gloam::decide
