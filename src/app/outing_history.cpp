#include "app/outing_history.hpp"

#include <map>
#include <set>
#include <utility>

namespace gloam::app {
namespace {

bool is_yes(const std::string& answer) {
    return answer == "on" || answer == "go";
}

bool is_no(const std::string& answer) {
    return answer == "sleep" || answer == "stay";
}

CalledBefore called(const journal::StoredCall& call) {
    const journal::CallHead& head = call.record.head;
    return {call.id, head.look == journal::Look::kMorning ? OutingLook::kMorning : OutingLook::kEvening,
            head.made_at, answer_that_holds(call), head.odds};
}

/// The last yes or no, back from the call made last: what was left open announced nothing.
Result<std::optional<CalledBefore>> last_word(const journal::Journal& journal,
                                              std::optional<journal::StoredCall> call) {
    while (call) {
        const std::string answer = answer_that_holds(*call);
        if (is_yes(answer) || is_no(answer)) {
            return called(*call);
        }
        const auto previous = call->record.head.previous;
        if (!previous) {
            return std::nullopt;
        }
        auto found = find_call(journal, *previous);
        if (!found) {
            return tl::unexpected(found.error());
        }
        call = *std::move(found);
    }
    return std::nullopt;
}

/// A word on an event: when it was said, and whether it was yes.
using Word = std::pair<Instant, bool>;

Word word_of(const journal::CallLine& call) {
    return call.overrules.empty() ? Word(call.head.made_at, is_yes(call.head.answer))
                                  : Word(call.overrules.back().at, is_yes(call.overrules.back().answer));
}

int count_starts(const std::vector<journal::CallLine>& calls, CivilDate before) {
    std::map<std::pair<CivilDate, std::string>, Word> last;
    for (const journal::CallLine& call : calls) {
        const journal::EventKey& event = call.head.event;
        if (event.kind == astro::EventKind::kDawn && event.date < before) {
            auto& word = last.try_emplace({event.date, event.place}, word_of(call)).first->second;
            word =
                std::max(word, word_of(call), [](const Word& a, const Word& b) { return a.first < b.first; });
        }
    }
    std::set<CivilDate> dates;
    for (const auto& [event, word] : last) {
        if (word.second) {
            dates.insert(event.first);
        }
    }
    return static_cast<int>(dates.size());
}

Result<int> starts_spent(const journal::Journal& journal, const journal::EventKey& event) {
    if (!event.trip) {
        return 0;
    }
    return calls_of(journal, *event.trip).map([&](const std::vector<journal::CallLine>& calls) {
        return count_starts(calls, event.date);
    });
}

/// Warnings that the last look knew. A call whose basis cannot be read any more knew none.
std::optional<decide::KnownWarnings> warnings_in(const std::optional<journal::StoredCall>& call) {
    const auto basis = call ? parse_outing_basis(call->record.inputs) : fail(ErrorKind::kNotFound, "no call");
    return basis ? basis->warnings : std::nullopt;
}

}  // namespace

std::string answer_that_holds(const journal::StoredCall& call) {
    return call.overrules.empty() ? call.record.head.answer : call.overrules.back().answer;
}

Result<EventHistory> history_of(const journal::Journal& journal, const journal::EventKey& event) {
    const auto call = last_call(journal, event);
    const auto signs = sightings_of(journal, event);
    const auto dismissals = dismissals_of(journal, event);
    const auto spent = starts_spent(journal, event);
    if (!call) {
        return tl::unexpected(call.error());
    }
    if (!signs) {
        return tl::unexpected(signs.error());
    }
    if (!dismissals) {
        return tl::unexpected(dismissals.error());
    }
    if (!spent) {
        return tl::unexpected(spent.error());
    }
    EventHistory history;
    history.warnings = warnings_in(*call);
    history.starts_spent = *spent;
    if (!signs->empty()) {
        history.seen = signs->back().sign;
    }
    for (const journal::Dismissal& one : *dismissals) {
        history.set_aside.push_back({one.caution, one.reason});
    }
    return last_word(journal, *call).map([&](std::optional<CalledBefore> before) {
        history.before = std::move(before);
        return history;
    });
}

}  // namespace gloam::app
