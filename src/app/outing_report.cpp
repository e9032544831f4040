#include "app/outing_report.hpp"

#include <algorithm>
#include <cmath>
#include <variant>

#include "app/event_words.hpp"
#include "decide/outing.hpp"
#include "decide/seen_sign.hpp"
#include "decide/stamina.hpp"
#include "decide/steady_hand.hpp"

namespace gloam::app {
namespace {

using decide::Decision;

constexpr double kCivil_deg = -6.0;
constexpr double kGold_deg = 3.0;

bool is_dawn(const OutingBasis& basis) {
    return basis.kind == astro::EventKind::kDawn;
}

std::optional<astro::Crossing> crossing(const OutingBasis& basis, const astro::HalfDay& half_day,
                                        TrueAltitude altitude) {
    const auto outcome = astro::sun_crossing(basis.place.observer, half_day, altitude);
    const auto* found = std::get_if<astro::Crossing>(&outcome);
    return found ? std::optional(*found) : std::nullopt;
}

/// A trip for a place that belongs to none.
const trip::Trip& trip_of(const OutingBasis& basis) {
    static const trip::Trip kNone = [] {
        trip::Trip none;
        none.paid = false;
        return none;
    }();
    return basis.trip ? *basis.trip : kNone;
}

trip::Place place_of(const OutingBasis& basis) {
    for (const trip::Place& place : trip_of(basis).places) {
        if (place.name == basis.place.name) {
            return place;
        }
    }
    trip::Place bare;
    bare.name = basis.place.name;
    bare.at = basis.place.observer.at;
    return bare;
}

decide::ChainEvent chain_event(const OutingBasis& basis, const astro::HalfDay& half_day,
                               const OutingReport& report, const trip::Place& place,
                               const decide::ChainLinks& links) {
    const auto civil = astro::sun_crossing(basis.place.observer, half_day, {Angle::degrees(kCivil_deg)});
    const auto last = crossing(basis, half_day, {Angle::degrees(is_dawn(basis) ? kGold_deg : kCivil_deg)});
    const auto& window = report.outlook.window;
    decide::ChainEvent event;
    event.dawn = is_dawn(basis);
    event.sun = report.sun ? report.sun->instant : window.from + links.colour_before_sun;
    event.over = last ? std::max(last->instant, window.to) : window.to;
    if (const auto* passed = std::get_if<astro::Crossing>(&civil)) {
        event.civil = passed->instant;
    }
    event.dark_throughout = std::holds_alternative<astro::NeverAbove>(civil);
    event.legs = decide::legs_of(place, trip_of(basis).group);
    const Instant stand = event.sun - links.colour_before_sun - links.settle;
    event.gates = decide::gates_about(place, basis.place.zone, stand);
    event.tide_closes = decide::tide_closing_after(place, basis.place.zone, stand);
    event.previous_return = basis.home_at;
    if (const auto span_h = trip_of(basis).driver.longest_span_h; span_h && basis.driver_since) {
        event.back_by = *basis.driver_since + hours(*span_h);
    }
    return event;
}

/// What the stamina of the group adds to the threshold; nothing where nobody counts starts, nor for a dusk.
void set_stamina(const OutingBasis& basis, OutingReport& report) {
    const trip::Trip& trip = trip_of(basis);
    if (!is_dawn(basis)) {
        return;
    }
    if (trip.end) {
        const auto days = std::chrono::sys_days(*trip.end) - std::chrono::sys_days(basis.date);
        report.mornings_ahead = static_cast<int>(std::clamp<std::int64_t>(days.count(), 0, 60));
    }
    if (trip.group.starts_left) {
        report.starts_left = std::max(0, *trip.group.starts_left - basis.starts_spent);
    }
}

double stamina_threshold(const OutingReport& report, double cost) {
    if (!report.starts_left) {
        return cost;
    }
    const std::vector<decide::MorningAhead> ahead(static_cast<std::size_t>(report.mornings_ahead),
                                                  decide::usual_morning());
    return decide::start_threshold(ahead, *report.starts_left, cost);
}

/// The guests of the trip, each with their own threshold; one of the group's where none are named.
Result<std::vector<decide::PartyGuest>> party_guests(const OutingBasis& basis, const OutingReport& report) {
    std::vector<decide::PartyGuest> guests;
    for (const trip::Guest& guest : trip_of(basis).group.guests) {
        const auto own = is_dawn(basis) ? guest.starts_for_one_dawn : guest.starts_for_one_dusk;
        const auto cost = decide::threshold_for(own.value_or(basis.starts_for_one));
        if (!cost) {
            return tl::unexpected(cost.error());
        }
        guests.push_back({guest.name, stamina_threshold(report, *cost), guest.opted_out});
    }
    if (guests.empty()) {
        guests.push_back({"the group", stamina_threshold(report, report.cost), false});
    }
    return guests;
}

/// How many guests must be called; where none are named one stands for the group.
std::size_t least_party(const trip::Group& group) {
    return group.guests.empty() ? 1 : static_cast<std::size_t>(std::max(1, group.minimum_party.value_or(1)));
}

/// What was announced, if it was a yes or a no.
std::optional<Decision> announced(const OutingBasis& basis) {
    if (!basis.before) {
        return std::nullopt;
    }
    const std::string& answer = basis.before->answer;
    if (answer == "on" || answer == "go") {
        return Decision::kGo;
    }
    return answer == "sleep" || answer == "stay" ? std::optional(Decision::kStay) : std::nullopt;
}

/// Whether the ways to read a total cover do not agree on the answer.
bool readings_disagree(const OutingReport& report, double likelihood_ratio) {
    const auto& by_band = report.outlook.odds_by_assumed_band;
    if (!by_band) {
        return false;
    }
    const auto above = [&](const outlook::Odds& odds) {
        return decide::odds_after(odds.of(report.basis.outcome_class), likelihood_ratio) > report.threshold;
    };
    return std::ranges::any_of(*by_band, above) && !std::ranges::all_of(*by_band, above);
}

/// The next run that is there when the leader looks again, or at the latest before the wake time.
std::optional<weather::RunArrival> run_before(const OutingReport& report, Instant latest) {
    const auto next = weather::next_run(report.basis.source, report.basis.run_time, report.basis.now);
    return next && next->complete <= latest ? next : std::nullopt;
}

void answer_evening(OutingReport& report) {
    const decide::SecondLook second{.possible = report.basis.looks_again};
    report.evening = decide::evening_answer(decide::worth_of_evening(report.odds, report.threshold, second));
    if (report.needs_layers && report.basis.looks_again) {
        report.evening = decide::EveningAnswer::kProvisional;
    }
    report.forewarning = decide::forewarning_odds(report.threshold, second);
    report.answer = name_of(report.evening);
    report.next_run = run_before(report, report.chain.look);
    if (report.evening == decide::EveningAnswer::kProvisional) {
        report.look_again = report.chain.look;
    }
}

/// In the small hours waiting costs the leader's sleep alone, and pays only if a run comes before the wake
/// time.
void answer_morning(OutingReport& report) {
    const double held = decide::held_odds(report.odds, announced(report.basis));
    report.decision = held > report.threshold ? Decision::kGo : Decision::kStay;
    report.next_run = run_before(report, report.chain.wake);
    const decide::SecondLook second{.possible = report.next_run.has_value(), .bother = 0.0};
    const auto worth = decide::worth_of_evening(report.odds, report.threshold, second);
    if (report.next_run && worth.wait > std::max(worth.commit, 0.0)) {
        report.decision = Decision::kLookAgain;
        report.look_again = report.next_run->complete;
    }
    if (report.needs_layers && report.basis.now < report.chain.wake) {
        report.decision = Decision::kLookAgain;
    }
    report.answer = name_of(report.decision);
}

/// Who is called, by the odds as they are held against thresholds in this look.
decide::Party party_of(const OutingReport& report, const std::vector<decide::PartyGuest>& guests) {
    const bool morning = report.basis.look == OutingLook::kMorning;
    return decide::party_at(morning ? decide::held_odds(report.odds, announced(report.basis)) : report.odds,
                            guests);
}

void set_cautions(const OutingBasis& basis, const trip::Place& place, const decide::ChainEvent& event,
                  OutingReport& report) {
    report.cautions = decide::cautions_of(
        {&trip_of(basis), &place, basis.place.zone, basis.date, is_dawn(basis), &report.chain,
         event.tide_closes, decide::tide_closing_before(place, basis.place.zone, report.chain.stand),
         basis.home_at,
         decide::KnownWeather{basis.near, run_in_words(basis.source, basis.run_time, report.age_h),
                              report.age_h},
         basis.warnings, basis.now, basis.limits});
    for (decide::Caution& caution : report.cautions) {
        for (const SetAside& one : basis.set_aside) {
            if (one.caution == caution.text) {
                caution.set_aside_because = one.reason;
            }
        }
    }
}

}  // namespace

Result<OutingReport> make_outing(const sky::SkyTables& tables, const OutingBasis& basis,
                                 const outlook::EventSample& sample) {
    const auto half_day = astro::half_day_of(basis.place.observer, basis.place.zone, basis.date, basis.kind);
    const auto cost = decide::threshold_for(basis.starts_for_one);
    const auto sign =
        basis.seen ? decide::seen_sign(*basis.seen) : Result<decide::SeenSign>(decide::SeenSign{"", "", 1.0});
    if (!half_day) {
        return tl::unexpected(half_day.error());
    }
    if (!cost) {
        return tl::unexpected(cost.error());
    }
    if (!sign) {
        return tl::unexpected(sign.error());
    }
    OutingReport report{.basis = basis, .outlook = look_out(tables, sample)};
    report.sun = crossing(basis, *half_day, astro::standard_rise_altitude());
    report.age_h = hours_between(basis.run_time, basis.now);
    report.forecast_odds = report.outlook.odds.of(basis.outcome_class);
    report.odds = decide::odds_after(report.forecast_odds, sign->likelihood_ratio);
    report.cost = *cost;
    set_stamina(basis, report);
    const auto guests = party_guests(basis, report);
    if (!guests) {
        return tl::unexpected(guests.error());
    }
    const trip::Group& group = trip_of(basis).group;
    report.kept_threshold = stamina_threshold(report, report.cost);
    report.threshold = decide::party_threshold(*guests, least_party(group));
    report.needs_layers = readings_disagree(report, sign->likelihood_ratio);
    const trip::Place place = place_of(basis);
    const auto links = decide::chain_links_of(trip_of(basis), basis.limits);
    const auto event = chain_event(basis, *half_day, report, place, links);
    report.chain = decide::time_chain(event, links);
    if (basis.look == OutingLook::kEvening) {
        answer_evening(report);
    } else {
        answer_morning(report);
    }
    if (!group.guests.empty()) {
        report.party = party_of(report, *guests);
    }
    set_cautions(basis, place, event, report);
    return report;
}

bool is_stopped(const OutingReport& report) {
    return std::ranges::any_of(report.cautions, [](const decide::Caution& caution) {
        return caution.kind == decide::CautionKind::kStop && caution.set_aside_because.empty();
    });
}

}  // namespace gloam::app
