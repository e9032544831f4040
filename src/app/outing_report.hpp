#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "app/outing_basis.hpp"
#include "decide/call.hpp"
#include "decide/evening_look.hpp"
#include "decide/party.hpp"
#include "outlook/event_outlook.hpp"
#include "weather/model_runs.hpp"

namespace gloam::app {

/// A decision about an outing with everything it stands on: what the commands print.
struct OutingReport {
    OutingBasis basis;
    outlook::EventOutlook outlook;
    std::optional<astro::Crossing> sun =
        {};                               ///< over a level sea-level horizon, -50'; absent if there is none
    double age_h = 0.0;                   ///< of the forecast
    double forecast_odds = 0.0;           ///< read off the members
    double odds = 0.0;                    ///< the same after what the leader saw
    double cost = 0.0;                    ///< alpha = 1 / (starts for one + 1)
    std::optional<int> starts_left = {};  ///< absent: nobody counts
    int mornings_ahead = 0;               ///< after this one
    double threshold = 0.0;       ///< that of the guest whose yes makes up the least party, or the group's;
                                  ///< infinite with no start left
    double kept_threshold = 0.0;  ///< of the group as a whole: the cost, and what is kept for better mornings
    double forewarning = 1.0;     ///< for an evening's look: odds from which the leader's own alarm pays
    bool needs_layers = false;    ///< total cover alone, and the answer hangs on which layer it lies in
    std::string answer = {};      ///< on, provisional, sleep; go, stay, look_again
    decide::EveningAnswer evening = decide::EveningAnswer::kSleep;  ///< for an evening's look
    decide::Decision decision = decide::Decision::kStay;            ///< for a morning's look
    decide::Party party = {};                                       ///< empty if the trip names no guests
    decide::TimeChain chain = {};
    std::optional<weather::RunArrival> next_run = {};  ///< complete before the look, or the wake time
    std::optional<Instant> look_again = {};
    std::vector<decide::Caution> cautions = {};
};

/// Looks at the sampled sky and decides. Errors: those of half_day_of(), an unknown sign, starts for one
/// outside 0 to 100.
Result<OutingReport> make_outing(const sky::SkyTables& tables, const OutingBasis& basis,
                                 const outlook::EventSample& sample);

/// Whether a caution stands that is a stop and was not set aside.
bool is_stopped(const OutingReport& report);

/// One screen for a tired person: stops first, then the answer, the times, the reasons, the other cautions.
std::string to_text(const OutingReport& report);

/// The call sheet as a message to guests: short, plain, no promise; the cautions that concern them. `answer`
/// is the one that holds: the report's, or the leader's own.
std::string to_message(const OutingReport& report, const std::string& answer);

/// The report as JSON, with the number that the journal gave it (docs/cli.md lists the fields).
std::string to_json(const OutingReport& report, std::int64_t call);

}  // namespace gloam::app
