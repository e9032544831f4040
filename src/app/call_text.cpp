// The call in words: one screen that a tired person understands.
#include <fmt/format.h>

#include <cmath>

#include "app/call_report.hpp"
#include "app/event_words.hpp"

namespace gloam::app {
namespace {

using decide::Decision;

constexpr double kOld_h = 12.0;

std::string sentence(const CallReport& report) {
    const bool dawn = report.kind == astro::EventKind::kDawn;
    switch (report.call.decision) {
        case Decision::kGo:
            return dawn ? "GO. Get them up." : "GO. Take them out.";
        case Decision::kStay:
            return dawn ? "STAY. Let them sleep." : "STAY. Nobody need go out for the sky.";
        case Decision::kLookAgain:
            break;
    }
    return "LOOK AGAIN. The answer hangs on where the cloud lies: it needs cloud by layer.";
}

std::string odds_lines(const CallReport& report) {
    const double starts = report.starts_for_one;
    const char* kind = report.kind == astro::EventKind::kDawn ? "dawn" : "dusk";
    return fmt::format(
        "{} for {} ({:.0f} %).\nYou would give {:g} start{} for nothing for one such {}: go above {:.0f} "
        "%.\n",
        odds_in_words(report.call.odds), class_or_better(report.outcome_class), 100.0 * report.call.odds,
        starts, starts == 1.0 ? "" : "s", kind, 100.0 * report.call.threshold);
}

std::string window_line(const CallReport& report) {
    const auto& zone = report.place.zone;
    return window_in_words(report.outlook.window, zone) + ". " + sun_in_words(report.kind, report.sun, zone);
}

std::string strength_line(const CallReport& report) {
    const auto& outlook = report.outlook;
    std::string text = fmt::format("{:.0f} of 100 (8 in 10 members between {:.0f} and {:.0f})",
                                   outlook.after.median, outlook.after.p10, outlook.after.p90);
    if (outlook.gold) {
        text += fmt::format("; golden light with the sun at the horizon, apart: {:.0f} ({:.0f} to {:.0f})",
                            outlook.gold->median, outlook.gold->p10, outlook.gold->p90);
    }
    return text;
}

}  // namespace

std::string to_text(const CallReport& report) {
    std::string text = fmt::format("{}, {}\n", heading_of(report.kind, report.date), report.place.name);
    text += paragraph("Mind",
                      "not checked: weather warnings, tide, waves, road, access, darkness on the path. Local "
                      "authorities and licensed guides outrank this page.");
    if (report.age_h > kOld_h) {
        text +=
            paragraph("Mind", fmt::format("the forecast is {:.0f} h old: fetch a newer run.", report.age_h));
    }
    text += '\n' + sentence(report) + '\n' + odds_lines(report) + '\n';
    text += paragraph("Window", window_line(report) + ".");
    text += paragraph("Strength", strength_line(report) + ".");
    text += reason_lines(report.outlook.reasons, report.call.decision == Decision::kGo);
    text += paragraph("Missing", joined(report.outlook.missing) + ".");
    text += paragraph(
        "From",
        fmt::format("{}; {} members; {}.", source_line(report), report.outlook.members.size(),
                    joined(report.place.notes.empty() ? std::vector<std::string>{"place as in " + report.trip}
                                                      : report.place.notes)));
    return text;
}

std::string to_explanation(const CallReport& report) {
    const auto& outlook = report.outlook;
    std::string text = to_text(report) + "\nHow this came about\n";
    text += paragraph(
        "Odds",
        fmt::format("slight {:.2f}, fair {:.2f}, good {:.2f}, outstanding {:.2f} or better: mean "
                    "over members of 1/(1+exp(-(strength-limit)/6)), limits 10, 24, 36, 50.",
                    outlook.odds.slight, outlook.odds.fair, outlook.odds.good, outlook.odds.outstanding));
    text += paragraph("Rule", fmt::format("go above 1/(n+1) = {:.3f}, n = {:g} starts for one.",
                                          report.call.threshold, report.starts_for_one));
    text += paragraph(
        "Duration",
        fmt::format("good or better for {:.0f} min (8 in 10 members between {:.0f} and {:.0f}).",
                    outlook.minutes_good.median, outlook.minutes_good.p10, outlook.minutes_good.p90));
    text += paragraph(
        "File",
        fmt::format("{} messages, {} not used, {} values clamped to what can be, {} numbers for "
                    "\"no value\" masked.",
                    report.messages, report.skipped.size(), report.clamped_values, report.sentinel_values));
    for (const auto& note : report.notes) {
        text += paragraph("", note + ".");
    }
    for (const auto& skipped : report.skipped) {
        text += fmt::format("          {}: {}\n", to_text(skipped.origin), skipped.reason);
    }
    text += "\n  time   sun deg   strength: median (10 % to 90 %)\n";
    for (std::size_t i = 0; i < outlook.moments.size(); ++i) {
        std::vector<double> values;
        values.reserve(outlook.members.size());
        for (const auto& member : outlook.members) {
            values.push_back(member.strengths[i].value);
        }
        const auto spread = outlook::spread_of(values);
        text +=
            fmt::format("  {}  {:+6.2f}    {:5.1f} ({:.1f} to {:.1f})\n",
                        report.place.zone.clock(outlook.moments[i].instant),
                        outlook.moments[i].sun.elevation.degrees(), spread.median, spread.p10, spread.p90);
    }
    text += "\n  member   strongest at      strength (* at the end of its phase)\n";
    for (std::size_t m = 0; m < outlook.members.size(); ++m) {
        const auto& peak = outlook.members[m].after;
        text += fmt::format("  {:6}   {} {:+6.2f} deg   {:5.1f}{}\n", m + 1,
                            report.place.zone.clock(outlook.moments[peak.moment].instant),
                            outlook.moments[peak.moment].sun.elevation.degrees(), peak.strength,
                            peak.at_edge ? " *" : "");
    }
    return text;
}

}  // namespace gloam::app
