// What a caution is shown for, and how cautions behave. Trip, places and guests are invented.
#include "decide/cautions.hpp"

#include <gmock/gmock.h>

#include <algorithm>

#include "decide/outing.hpp"

namespace gloam::decide {
namespace {

using std::chrono::minutes;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;
using trip::PlaceTag;

Instant at(int hour, int minute) {
    return std::chrono::sys_days(std::chrono::year(2026) / 3 / 20) + std::chrono::hours(hour) +
           minutes(minute);
}

/// An outing of the invented trip, its clock on UTC: 30 min by car, 1.2 km on foot in the dark.
class Outing : public ::testing::Test {
  protected:
    Outing() {
        place_.name = "Salt Steps";
        place_.at = {56.0, -3.0};
        place_.permission = {{"granted by the harbour office", date_}};
        trip::AccessLeg road;
        road.kind = trip::LegKind::kDrive;
        road.name = "road";
        road.minutes = 30.0;
        trip::AccessLeg path;
        path.name = "path";
        path.distance_m = 1200.0;
        path.climb_m = 60.0;
        place_.access = {road, path};
        trip_.group.size = 6;
    }

    std::vector<Caution> cautions() {
        ChainEvent event;
        event.sun = at(7, 0);
        event.over = at(7, 20);
        event.civil = at(6, 26);
        event.legs = legs_of(place_, trip_.group);
        event.gates = gates_about(place_, zone_, at(6, 5));
        event.tide_closes = tide_closing_after(place_, zone_, at(6, 5));
        event.previous_return = previous_return_;
        chain_ = time_chain(event, chain_links_of(trip_, limits_));
        return cautions_of({&trip_, &place_, zone_, date_, true, &chain_, event.tide_closes,
                            tide_closing_before(place_, zone_, at(6, 5)), previous_return_, weather_,
                            warnings_, now_, limits_});
    }

    std::optional<Caution> caution(Hazard hazard) {
        const auto all = cautions();
        const auto found = std::ranges::find(all, hazard, &Caution::hazard);
        return found == all.end() ? std::nullopt : std::optional(*found);
    }

    std::string text(Hazard hazard) {
        const auto found = caution(hazard);
        return found ? found->text : "";
    }

    void forecast(const weather::NearSurface& near) { weather_ = {near, "a synthetic run", 6.0}; }

    CivilDate date_ = std::chrono::year(2026) / 3 / 20;
    geo::Zone zone_ = geo::Zone::named("UTC").value();
    trip::Trip trip_;
    trip::Place place_;
    TimeChain chain_;
    std::optional<Instant> previous_return_;
    std::optional<KnownWeather> weather_;
    std::optional<KnownWarnings> warnings_;
    Instant now_ = at(0, 0) - std::chrono::hours(3);
    CautionLimits limits_;
};

using Cautions = Outing;

TEST_F(Cautions, ATideThatClosesThePathIsTheFirstLine) {
    place_.tide_closes = {{date_, std::chrono::hours(8) + minutes(30)}};
    const Caution first = cautions().front();
    EXPECT_EQ(first.hazard, Hazard::kTide);
    EXPECT_EQ(first.kind, CautionKind::kStop);
    EXPECT_THAT(first.text, AllOf(HasSubstr("closes the path at 08:30"), HasSubstr("by 07:06")));
    EXPECT_THAT(first.ask, HasSubstr("official tide table"));
}

TEST_F(Cautions, ATideThatLeavesNoStaySaysSo) {
    place_.tide_closes = {{date_, std::chrono::hours(7)}};
    EXPECT_THAT(text(Hazard::kTide), HasSubstr("no time is left on the stand"));
}

TEST_F(Cautions, ATideThatClosedBeforeTheStandStops) {
    place_.tide_closes = {{date_, std::chrono::hours(5) + minutes(50)}, {date_, std::chrono::hours(18)}};
    EXPECT_EQ(cautions().front().kind, CautionKind::kStop);
    EXPECT_THAT(cautions().front().text, HasSubstr("closed the path at 05:50"));
}

TEST_F(Cautions, ATideWithinTheStayStopsThoughAGateIsTighter) {
    place_.tide_closes = {{date_, std::chrono::hours(8) + minutes(30)}};
    place_.gates = {{"gate", std::chrono::hours(5), std::chrono::hours(7)}};
    EXPECT_EQ(caution(Hazard::kTide)->kind, CautionKind::kStop);
}

TEST_F(Cautions, TypedTidesOfOtherDaysLeaveTheTideUnknown) {
    place_.tide_closes = {{std::chrono::year(2026) / 3 / 25, std::chrono::hours(8)}};
    EXPECT_THAT(text(Hazard::kTide), HasSubstr("not known here"));
}

TEST_F(Cautions, AWayThatNobodyNotedIsSaid) {
    place_.access.clear();
    EXPECT_THAT(text(Hazard::kAccess), HasSubstr("No way there is noted"));
}

TEST_F(Cautions, ALateTideIsToBeMinded) {
    place_.tide_closes = {{date_, std::chrono::hours(12)}};
    EXPECT_EQ(caution(Hazard::kTide)->kind, CautionKind::kMind);
}

TEST_F(Cautions, ByTheSeaAnUnknownTideAndSwellAreNamed) {
    place_.tags = {PlaceTag::kCoast};
    EXPECT_THAT(text(Hazard::kTide), HasSubstr("not known here"));
    EXPECT_THAT(text(Hazard::kWaves), HasSubstr("Swell not known here"));
}

TEST_F(Cautions, WarningsNobodyLookedAtAreNotChecked) {
    EXPECT_EQ(text(Hazard::kWarning), "Weather warnings: not checked.");
}

TEST_F(Cautions, WarningsLookedAtLongAgoAreNotCheckedSince) {
    warnings_ = {{}, "file.xml", now_ - std::chrono::hours(13)};
    EXPECT_THAT(text(Hazard::kWarning), HasSubstr("not checked since 2026-03-19 08:00"));
}

TEST_F(Cautions, WarningsThatDoNotHoldAreNothingFoundAsOfATime) {
    weather::Warning elsewhere;
    elsewhere.areas = {{"", {}, {{{0.0, 0.0}, 1000.0}}}};
    warnings_ = {{elsewhere}, "file.xml", now_};
    EXPECT_THAT(text(Hazard::kWarning),
                AllOf(HasSubstr("nothing found"), HasSubstr("file.xml as of 2026-03-19 21:00")));
}

TEST_F(Cautions, AWarningIsQuotedWholeAndStops) {
    weather::Warning wind;
    wind.issuer = "THE SERVICE";
    wind.headline = "Yellow wind warning";
    wind.description = "Gusts of 60 mph.";
    wind.instruction = "Keep off the coast.";
    wind.severity = "Moderate";
    wind.expires = at(9, 0);
    wind.sent = at(0, 0) - std::chrono::hours(8);
    warnings_ = {{wind}, "file.xml", now_};
    const Caution first = cautions().front();
    EXPECT_EQ(first.kind, CautionKind::kStop);
    EXPECT_EQ(
        first.text,
        "\"Yellow wind warning. Gusts of 60 mph. Keep off the coast.\" Moderate. Until 2026-03-20 09:00.");
    EXPECT_EQ(first.source, "THE SERVICE, issued 2026-03-19 16:00");
}

TEST_F(Cautions, TheWalkInTheDarkIsTold) {
    EXPECT_THAT(text(Hazard::kDarkWalk), AllOf(HasSubstr("05:29 to 06:05"), HasSubstr("not noted as walked"),
                                               HasSubstr("turn round if not there by 06:05")));
    place_.access[1].last_walked = std::chrono::year(2026) / 3 / 1;
    EXPECT_THAT(text(Hazard::kDarkWalk), HasSubstr("walked by the leader on 2026-03-01)"));
    place_.access[1].last_walked = std::chrono::year(2024) / 3 / 1;
    EXPECT_THAT(text(Hazard::kDarkWalk), HasSubstr("long ago"));
}

TEST_F(Cautions, ALegMarkedNeverInTheDarkStops) {
    place_.access[1].never_in_the_dark = true;
    EXPECT_EQ(cautions().front().hazard, Hazard::kDarkWalk);
    EXPECT_EQ(cautions().front().kind, CautionKind::kStop);
}

TEST_F(Cautions, AShutGateStops) {
    place_.gates = {{"estate", std::chrono::hours(8), std::chrono::hours(18)}};
    EXPECT_THAT(cautions().front().text, HasSubstr("Shut when you would pass: estate"));
}

TEST_F(Cautions, TheDriversNightIsTold) {
    previous_return_ = at(0, 0) - minutes(90);
    trip_.driver.least_rest_h = 10.0;
    EXPECT_THAT(text(Hazard::kTiredDriver),
                AllOf(HasSubstr("5 h 49 min of bed"), HasSubstr("at the wheel 04:59 to 05:29"),
                      HasSubstr("6.5 h between coming home and leaving, your rule asks for 10")));
    EXPECT_THAT(text(Hazard::kTiredDriver), Not(HasSubstr("08:08"))) << "daylight";
}

TEST_F(Cautions, PermissionIsAskedForWithAPaidGroup) {
    place_.permission.reset();
    EXPECT_THAT(text(Hazard::kAccess), HasSubstr("No permission"));
    trip_.paid = false;
    EXPECT_EQ(text(Hazard::kAccess), "");
}

TEST_F(Cautions, GustsAreHeldAgainstTheLimitOfThePlace) {
    forecast({.gust_m_s = 12.0});
    EXPECT_EQ(text(Hazard::kWind), "");
    place_.tags = {PlaceTag::kCliff};
    EXPECT_EQ(text(Hazard::kWind), "");
    place_.tags = {PlaceTag::kQuay};
    EXPECT_THAT(text(Hazard::kWind), HasSubstr("up to 12 m/s"));
    place_.tags = {PlaceTag::kCliff};
    limits_.gust_at_edge_m_s = 11.0;
    EXPECT_THAT(text(Hazard::kWind), HasSubstr("up to 12 m/s")) << "tightened";
}

TEST_F(Cautions, ColdIsTheWindChillAndWet) {
    forecast({.least_temperature_k = 272.15, .wind_m_s = 8.0});
    EXPECT_THAT(text(Hazard::kColdAndHeat), HasSubstr("Feels like -8 C"));
    forecast({.least_temperature_k = 276.15, .wind_m_s = 0.0});
    EXPECT_EQ(text(Hazard::kColdAndHeat), "");
    forecast({.least_temperature_k = 276.15, .wind_m_s = 0.0, .precipitation_kg_m2 = 1.0});
    EXPECT_THAT(text(Hazard::kColdAndHeat), HasSubstr("and wet"));
}

TEST_F(Cautions, FogThunderAndHeatAreTold) {
    forecast({.most_temperature_k = 305.0, .visibility_m = 150.0, .thunder = 0.3});
    EXPECT_THAT(text(Hazard::kFog), HasSubstr("150 m"));
    EXPECT_THAT(text(Hazard::kLightning), HasSubstr("30 min after the last"));
    EXPECT_THAT(text(Hazard::kColdAndHeat), HasSubstr("32 C"));
}

TEST_F(Cautions, WhatTheForecastDoesNotHoldIsNotKnown) {
    forecast({.gust_m_s = 3.0, .visibility_m = 9000.0});
    EXPECT_THAT(text(Hazard::kUnknown),
                AllOf(HasSubstr("Not known here: temperature, rain, thunder."), HasSubstr("swell")));
}

TEST_F(Cautions, AnOldForecastTellsNothingOfTheWeather) {
    forecast({.gust_m_s = 40.0});
    place_.tags = {PlaceTag::kCliff};
    weather_->age_h = 13.0;
    EXPECT_EQ(text(Hazard::kWind), "");
    EXPECT_THAT(text(Hazard::kUnknown), HasSubstr("13 h old: fetch a newer run"));
}

TEST_F(Cautions, ATighterLimitKeepsMoreFromTheTide) {
    place_.tide_closes = {{date_, std::chrono::hours(8) + minutes(30)}};
    limits_.tide_reserve_min = 60.0;
    EXPECT_THAT(text(Hazard::kTide), HasSubstr("by 06:36"));
    EXPECT_EQ(loosened(limits_).size(), 0U);
    limits_.tide_reserve_min = 10.0;
    EXPECT_EQ(loosened(limits_).size(), 1U);
}

TEST_F(Cautions, ALoosenedLimitIsShownAsLoosened) {
    limits_.gust_at_edge_m_s = 20.0;
    limits_.fog_m = 500.0;  // tighter
    EXPECT_THAT(loosened(limits_), ::testing::ElementsAre("gusts at an edge from 20 m/s (built in: 15)"));
    const auto all = cautions();
    EXPECT_TRUE(std::ranges::any_of(all, [](const Caution& caution) {
        return caution.text == "Loosened by leader: gusts at an edge from 20 m/s (built in: 15).";
    }));
}

TEST_F(Cautions, EveryPlanSaysWhoHelps) {
    trip_.emergency_number = "112";
    EXPECT_THAT(text(Hazard::kHelp), AllOf(HasSubstr("112"), HasSubstr("Salt Steps"),
                                           HasSubstr("alarm at 09:08"), HasSubstr("Nobody noted holds")));
}

TEST_F(Cautions, GuestsAreCountedNotNamed) {
    trip::Guest guest;
    guest.name = "Ada Invented";
    guest.opted_out = guest.needs_thought = guest.drone = true;
    trip_.group.guests = {guest};
    for (const Caution& caution : cautions()) {
        EXPECT_THAT(caution.text, Not(HasSubstr("Ada")));
    }
    EXPECT_THAT(text(Hazard::kApart), HasSubstr("1 of the group stays behind"));
    EXPECT_THAT(text(Hazard::kHealth), HasSubstr("1.2 km on foot, 60 m of climb"));
    EXPECT_NE(text(Hazard::kDrones), "");
}

TEST_F(Cautions, TheLeadersOwnNotesComeWithTheirDate) {
    place_.notes = {{"Loose slab at the second bend.", std::chrono::year(2026) / 2 / 1}};
    EXPECT_EQ(text(Hazard::kOwnNote), "Loose slab at the second bend.");
    EXPECT_EQ(caution(Hazard::kOwnNote)->source, "your note of 2026-02-01");
}

TEST_F(Cautions, EveryTagHasItsWords) {
    const auto plain = cautions().size();
    for (const PlaceTag tag :
         {PlaceTag::kCoast, PlaceTag::kCliff, PlaceTag::kIce, PlaceTag::kRiver, PlaceTag::kMud,
          PlaceTag::kValley, PlaceTag::kRoad, PlaceTag::kRailway, PlaceTag::kQuarry, PlaceTag::kFiringRange,
          PlaceTag::kLivestock, PlaceTag::kWildlifeSeason, PlaceTag::kProtected}) {
        place_.tags = {tag};
        EXPECT_GT(cautions().size(), plain) << static_cast<int>(tag);
    }
}

TEST_F(Cautions, NeverGiveTheVerdict) {
    place_.tags = {PlaceTag::kCoast,       PlaceTag::kCliff,     PlaceTag::kIce,
                   PlaceTag::kRiver,       PlaceTag::kMud,       PlaceTag::kValley,
                   PlaceTag::kRoad,        PlaceTag::kRailway,   PlaceTag::kQuarry,
                   PlaceTag::kFiringRange, PlaceTag::kLivestock, PlaceTag::kWildlifeSeason,
                   PlaceTag::kProtected};
    forecast({.least_temperature_k = 250.0,
              .most_temperature_k = 310.0,
              .wind_m_s = 20.0,
              .gust_m_s = 40.0,
              .visibility_m = 10.0,
              .precipitation_kg_m2 = 9.0,
              .cape_j_kg = 3000.0,
              .thunder = 0.9});
    for (const Caution& caution : cautions()) {
        EXPECT_THAT(caution.text, Not(HasSubstr("safe")));
    }
}

TEST(CautionOrder, HasStopsFirst) {
    std::vector<Caution> cautions{{Hazard::kGear, CautionKind::kNote},
                                  {Hazard::kWarning, CautionKind::kStop},
                                  {Hazard::kTide, CautionKind::kMind},
                                  {Hazard::kTide, CautionKind::kStop}};
    put_in_order(cautions);
    EXPECT_EQ(cautions[0].hazard, Hazard::kTide);
    EXPECT_EQ(cautions[1].hazard, Hazard::kWarning);
    EXPECT_EQ(cautions[3].hazard, Hazard::kGear);
}

// Values of the wind chill chart of the Meteorological Service of Canada (from memory; charts print whole
// degrees).
TEST(FeelsLike, IsTheChartsOwn) {
    EXPECT_NEAR(feels_like_c(-10.0, 30.0 / 3.6), -20.0, 0.5);
    EXPECT_NEAR(feels_like_c(0.0, 20.0 / 3.6), -5.0, 0.5);
    EXPECT_NEAR(feels_like_c(-25.0, 50.0 / 3.6), -42.0, 0.5);
    EXPECT_EQ(feels_like_c(15.0, 10.0), 15.0);
    EXPECT_EQ(feels_like_c(-10.0, 1.0), -10.0);
}

}  // namespace
}  // namespace gloam::decide
