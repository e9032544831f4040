#pragma once

#include "app/call_report.hpp"

namespace gloam::app {

/// A report made by hand: a dawn on the Ionian coast, one reason for it and one against.
inline CallReport sample_report() {
    const auto at = [](const char* text) { return parse_rfc3339(text).value(); };
    CallReport report{{"Salt Steps",
                       {{37.07, 15.29}, HeightMsl{4.0}},
                       geo::Zone::named("Europe/Rome").value(),
                       {"height not given: sea level taken"}},
                      parse_civil_date("2025-01-29").value(),
                      astro::EventKind::kDawn,
                      {decide::Decision::kGo, 0.42, 0.25},
                      3.0,
                      outlook::OutcomeClass::kGood,
                      {}};
    report.outlook.odds = {0.9, 0.7, 0.42, 0.1};
    report.outlook.after = {33.0, 20.0, 45.0};
    report.outlook.gold = outlook::Spread{40.0, 30.0, 50.0};
    report.outlook.minutes_good = {5.0, 0.0, 10.0};
    report.outlook.window = {at("2025-01-29T05:50:00Z"), at("2025-01-29T06:00:00Z"), Azimuth::degrees(115.0),
                             at("2025-01-29T05:45:00Z")};
    report.outlook.members.resize(31);
    report.outlook.missing = {"aerosol (usual haze assumed, spread over members)"};
    outlook::Reason open;
    open.verdict = outlook::Verdict::kOpen;
    open.canvas_cover = 0.9;
    open.canvas_base_m = 9000.0;
    open.reach_m = 230.0e3;
    open.towards_sun = Azimuth::degrees(112.0);
    open.members = 20;
    open.of = 31;
    outlook::Reason shut = open;
    shut.verdict = outlook::Verdict::kShut;
    shut.blocker = weather::Band::kMiddle;
    shut.blocked_from_m = 100.0e3;
    shut.blocked_to_m = 250.0e3;
    shut.members = 11;
    report.outlook.reasons = {open, shut};
    report.sun = astro::Crossing{at("2025-01-29T06:04:00Z"), Azimuth::degrees(112.0), true};
    report.source = "NCEP GFS";
    report.run_time = at("2025-01-29T00:00:00Z");
    report.age_h = 6.0;
    report.messages = 26;
    return report;
}

}  // namespace gloam::app
