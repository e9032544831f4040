// A decision in words: one screen that tells a tired person in ten seconds what to do.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "app/event_words.hpp"
#include "app/outing_report.hpp"
#include "geo/position.hpp"

namespace gloam::app {
namespace {

using decide::Caution;
using decide::CautionKind;
using decide::Decision;
using decide::EveningAnswer;

bool is_dawn(const OutingReport& report) {
    return report.basis.kind == astro::EventKind::kDawn;
}

std::string clock(const OutingReport& report, Instant instant) {
    return report.basis.place.zone.clock(instant);
}

std::string caution_lines(const OutingReport& report, auto wanted) {
    std::string text;
    for (const Caution& caution : report.cautions) {
        if (!wanted(caution)) {
            continue;
        }
        std::string words = caution.text;
        if (!caution.set_aside_because.empty()) {
            words = fmt::format("[set aside by you: {}] {}", caution.set_aside_because, words);
        }
        words += fmt::format(" ({}{}{})", caution.source, caution.ask.empty() ? "" : "; ask: ", caution.ask);
        text += paragraph(name_of(caution.kind), words);
    }
    return text;
}

bool is_stop(const Caution& caution) {
    return caution.kind == CautionKind::kStop;
}

/// What is to be minded, by its words: above the answer, the texts below it.
std::string mind_line(const OutingReport& report) {
    std::vector<std::string> words;
    for (const Caution& caution : report.cautions) {
        const std::string word(name_of(caution.hazard));
        if (caution.kind == CautionKind::kMind && std::ranges::find(words, word) == words.end()) {
            words.push_back(word);
        }
    }
    return words.empty() ? "" : paragraph("MIND", fmt::format("{}: told below.", fmt::join(words, ", ")));
}

std::string evening_sentence(const OutingReport& report) {
    switch (report.evening) {
        case EveningAnswer::kOn:
            return is_dawn(report)
                       ? fmt::format("ON. Everyone up at {}. Set the alarms and sleep.",
                                     clock(report, report.chain.wake))
                       : fmt::format("ON. Everyone ready at {}.", clock(report, report.chain.wake));
        case EveningAnswer::kProvisional:
            return fmt::format("PROVISIONAL. Your alarm alone, at {}; the others {} until you call them.",
                               clock(report, report.chain.look), is_dawn(report) ? "sleep" : "stay in");
        case EveningAnswer::kSleep:
            break;
    }
    return is_dawn(report) ? "SLEEP. No alarm for the sky." : "OFF. Nobody need go out for the sky.";
}

std::string go_sentence(const OutingReport& report) {
    const Instant now = report.basis.now;
    const decide::TimeChain& chain = report.chain;
    const std::string_view call = is_dawn(report) ? "Wake them" : "Call them";
    if (now >= chain.leave_stand) {
        return fmt::format("TOO LATE. The odds were for going, but the stand is left at {}.",
                           clock(report, chain.leave_stand));
    }
    if (now < chain.wake) {
        return fmt::format("GO. {} at {}.", call, clock(report, chain.wake));
    }
    const Instant stand = chain.stand + (now - chain.wake);
    return fmt::format("GO. {} now: the call time {} is past, on the stand about {}.", call,
                       clock(report, chain.wake), clock(report, stand));
}

std::string morning_sentence(const OutingReport& report) {
    switch (report.decision) {
        case Decision::kGo:
            return go_sentence(report);
        case Decision::kStay:
            return is_dawn(report) ? "STAY. Let them sleep." : "STAY. Nobody need go out for the sky.";
        case Decision::kLookAgain:
            break;
    }
    return report.look_again
               ? fmt::format("LOOK AGAIN at {}.", clock(report, *report.look_again))
               : "LOOK AGAIN. The answer hangs on where the cloud lies: it needs cloud by layer.";
}

/// Why the threshold stands above the cost of a start.
std::string kept_words(const OutingReport& report) {
    return fmt::format(
        "{:.0f} % is what a start costs, the rest is kept for better mornings ({} start{} left, {} morning{} "
        "after this one)",
        100.0 * report.cost, *report.starts_left, *report.starts_left == 1 ? "" : "s", report.mornings_ahead,
        report.mornings_ahead == 1 ? "" : "s");
}

std::string threshold_words(const OutingReport& report) {
    if (std::isinf(report.threshold)) {
        return report.starts_left == 0 ? "No early start is left."
                                       : "Fewer would ever rise than the least party.";
    }
    std::string text = fmt::format("Go above {:.0f} %: ", 100.0 * report.threshold);
    if (std::abs(report.threshold - report.kept_threshold) > 1e-9) {
        text += "from there on enough of the group would rise";
    } else if (report.kept_threshold > report.cost + 1e-9) {
        text += kept_words(report);
    } else {
        text += fmt::format("you would give {:g} start{} for nothing for one such {}",
                            report.basis.starts_for_one, report.basis.starts_for_one == 1.0 ? "" : "s",
                            is_dawn(report) ? "dawn" : "dusk");
    }
    if (report.starts_left && report.basis.trip && !report.basis.trip->end) {
        text += ". The trip has no end: nothing is kept for mornings ahead";
    }
    if (report.answer == "sleep" && report.basis.looks_again && report.forewarning < 1.0) {
        text += fmt::format(". Your own alarm would pay from {:.0f} %", 100.0 * report.forewarning);
    }
    return text + ".";
}

std::string odds_words(const OutingReport& report) {
    std::string text = fmt::format("{} for {} ({:.0f} %).", odds_in_words(report.odds),
                                   class_or_better(report.basis.outcome_class), 100.0 * report.odds);
    if (report.basis.seen) {
        text += fmt::format(" The forecast alone says {:.0f} %; you saw \"{}\".",
                            100.0 * report.forecast_odds, *report.basis.seen);
    }
    return text + "\n" + threshold_words(report);
}

std::string before_words(const OutingReport& report) {
    if (!report.basis.before) {
        return "";
    }
    const CalledBefore& before = *report.basis.before;
    const bool morning = report.basis.look == OutingLook::kMorning;
    return fmt::format("Before: {} at {} on {}, {:.0f} %.{}\n", before.answer, clock(report, before.made_at),
                       gloam::to_text(report.basis.place.zone.date_of(before.made_at)), 100.0 * before.odds,
                       morning ? " An announced answer is turned round only past 5 points." : "");
}

std::string next_words(const OutingReport& report) {
    const bool looks = report.look_again.has_value();
    if (!report.next_run) {
        return looks ? "No newer run is known to come before then: what you see of the sky is the news.\n"
                     : "";
    }
    std::string run = to_rfc3339_utc(report.next_run->run_time).substr(11, 2);
    return fmt::format("{} run of {} UTC is in by {}{}.\n", report.basis.source, run,
                       clock(report, report.next_run->complete), looks ? "" : ", if you want to look again");
}

/// A line of the chain of times: "04:59   leave: drive 30 min".
void add_time(const OutingReport& report, std::string& text, Instant instant, std::string_view what) {
    text += fmt::format("  {}   {}\n", clock(report, instant), what);
}

std::string leg_words(const decide::TimedLeg& leg) {
    const auto minutes = std::chrono::duration_cast<std::chrono::minutes>(leg.to - leg.from).count();
    return fmt::format("{}, {} min{}", leg.name, minutes, leg.dark ? " in the dark" : "");
}

std::string_view limit_words(decide::StayLimit limit) {
    switch (limit) {
        case decide::StayLimit::kTide:
            return "leave the stand at the latest, for the tide";
        case decide::StayLimit::kGate:
            return "leave the stand at the latest, for the gate";
        case decide::StayLimit::kDriver:
            return "leave the stand at the latest, for the driver's hours";
        case decide::StayLimit::kLight:
            break;
    }
    return "leave the stand, the light is over";
}

/// Breakfast after coming back, or when the house usually serves it if that is later.
std::string breakfast_words(const OutingReport& report) {
    const auto usual = report.basis.trip ? report.basis.trip->kitchen.breakfast : std::nullopt;
    const std::string back = clock(report, report.chain.at_base);
    if (!is_dawn(report)) {
        return "back at the base";
    }
    if (!usual) {
        return "back at the base, breakfast from then";
    }
    const std::string serves = trip::to_text(*usual);
    if (serves >= back) {
        return fmt::format("back at the base; breakfast {} as usual", serves);
    }
    const auto latest = report.basis.trip->kitchen.latest_change;
    return fmt::format("back at the base; breakfast after the usual {}: tell the kitchen{}", serves,
                       latest ? " before " + trip::to_text(*latest) : "");
}

std::string time_lines(const OutingReport& report) {
    const decide::TimeChain& chain = report.chain;
    std::string text;
    if (is_dawn(report)) {
        add_time(report, text, chain.look, "your own look");
    }
    add_time(report, text, chain.wake, is_dawn(report) ? "call time: wake" : "call time: get ready");
    if (chain.doors != chain.leave) {
        add_time(report, text, chain.doors, "at the doors, load");
    }
    for (std::size_t i = 0; i < chain.out.size(); ++i) {
        add_time(report, text, chain.out[i].from, (i == 0 ? "leave: " : "") + leg_words(chain.out[i]));
    }
    add_time(report, text, chain.stand, "on the stand");
    add_time(report, text, chain.first_colour, "colour may begin");
    const auto& window = report.outlook.window;
    add_time(report, text, window.from,
             fmt::format("most likely until {}, {} ({:.0f} deg)", clock(report, window.to),
                         geo::compass_point(window.azimuth), window.azimuth.degrees()));
    if (window.opposite) {
        add_time(report, text, *window.opposite, "turn round: colour behind you");
    }
    if (report.sun) {
        add_time(report, text, report.sun->instant,
                 is_dawn(report) ? "sunrise over a level horizon" : "sunset over a level horizon");
    }
    add_time(report, text, chain.leave_stand, limit_words(chain.limit));
    add_time(report, text, chain.at_base, breakfast_words(report));
    if (chain.sleep) {
        const auto minutes = std::chrono::floor<std::chrono::minutes>(*chain.sleep).count();
        text +=
            fmt::format("  {} h {:02} min from coming home to the call time\n", minutes / 60, minutes % 60);
    }
    return text;
}

std::string party_lines(const OutingReport& report) {
    const bool quiet = report.answer == "sleep" || report.answer == "stay";
    if (quiet || (report.party.called.empty() && report.party.asleep.empty())) {
        return "";
    }
    return paragraph("Who",
                     fmt::format("above their own odds: {}. {}: {}.",
                                 report.party.called.empty() ? "nobody" : joined(report.party.called),
                                 is_dawn(report) ? "Left asleep" : "Left in",
                                 report.party.asleep.empty() ? "nobody" : joined(report.party.asleep)));
}

bool speaks_for_going(const OutingReport& report) {
    return report.basis.look == OutingLook::kEvening ? report.evening == EveningAnswer::kOn
                                                     : report.decision == Decision::kGo;
}

}  // namespace

std::string to_text(const OutingReport& report) {
    const OutingBasis& basis = report.basis;
    const bool evening = basis.look == OutingLook::kEvening;
    std::string text = caution_lines(report, is_stop) + mind_line(report) + "\n";
    text += fmt::format("{}, {}. {} look, {}.\n\n", heading_of(basis.kind, basis.date), basis.place.name,
                        evening ? "Evening" : "Morning", clock(report, basis.now));
    text += (evening ? evening_sentence(report) : morning_sentence(report)) + "\n";
    if (is_stopped(report)) {
        text += "A STOP stands above. To go all the same, set it aside with a reason, which is kept.\n";
    }
    text += odds_words(report) + "\n" + before_words(report) + next_words(report) + "\n" +
            time_lines(report) + "\n";
    text += party_lines(report) + reason_lines(report.outlook.reasons, speaks_for_going(report));
    text += caution_lines(report, [](const Caution& caution) { return !is_stop(caution); });
    text += paragraph("Missing", joined(report.outlook.missing) + ".");
    text += paragraph(
        "From", fmt::format("{}; {} members{}.", run_in_words(basis.source, basis.run_time, report.age_h),
                            report.outlook.members.size(),
                            basis.place.notes.empty() ? "" : "; " + joined(basis.place.notes)));
    return text;
}

std::string to_message(const OutingReport& report, const std::string& answer) {
    const OutingBasis& basis = report.basis;
    const bool on = answer == "on" || answer == "go";
    const bool open = answer == "provisional" || answer == "look_again";
    const std::string heading = fmt::format("{}, {}: ", heading_of(basis.kind, basis.date), basis.place.name);
    if (!on && !open) {
        return heading + (is_dawn(report) ? "OFF. Sleep in.\n" : "OFF. A free evening.\n");
    }
    const decide::TimeChain& chain = report.chain;
    std::string text = heading + (on                ? "ON.\n"
                                  : is_dawn(report) ? "PERHAPS. Sleep; you are called if it is on.\n"
                                                    : "PERHAPS. You are told if it is on.\n");
    text +=
        fmt::format("{} {}, doors {}, leave {}. On the stand {}, back about {}.\n",
                    is_dawn(report) ? "Wake" : "Ready", clock(report, chain.wake), clock(report, chain.doors),
                    clock(report, chain.leave), clock(report, chain.stand), clock(report, chain.at_base));
    text += fmt::format("{} for {}. Nothing is promised.\n", odds_in_words(report.odds),
                        class_or_better(basis.outcome_class));
    for (const Caution& caution : report.cautions) {
        if (is_stop(caution) || is_for_guests(caution.hazard)) {
            text += one_line(caution.text) + "\n";
        }
    }
    return text + (basis.look == OutingLook::kEvening ? "Answer only: in, or out.\n" : "");
}

}  // namespace gloam::app
