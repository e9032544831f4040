#pragma once

#include <string_view>

namespace gloam::test {

/// A trip file with every key that there is. All of it is invented.
inline constexpr std::string_view kFullTrip = R"([trip]
name = "Invented week"
zone = "Europe/Rome"
start = 2025-01-25
end = "2025-02-01"
paid = true
emergency_number = "112"
plan_holder = "the night porter, \"Ivo\" \\ room 2"

[base]
name = "House by the harbour"
lat = 37.064
lon = 15.289

[group]
size = 6
minimum_party = 2
starts_for_one = 3
starts_for_one_dusk = 7.5
starts_left = 2
slowest_kmh = 3.5

[[group.guest]]
name = "Guest One"
starts_for_one = 1
starts_for_one_dusk = 2
opted_out = true
finder = "optical"
longest_lens_mm = 400
needs_thought = true
drone = true

[[group.guest]]
name = "Guest Two"

[driver]
least_rest_h = 10
longest_span_h = 16

[kitchen]
breakfast = "08:30"
latest_change = 21:00:00

[chain]
colour_before_sun_min = 45
settle_min = 10
dark_factor = 1.5
load_min = 11
wake_to_door_min = 30
look_before_wake_min = 20

[[place]]
name = "Salt Steps"
lat = 37.070
lon = 15.290
height_m = 4
zone = "Europe/Malta"
ground = "water"
town_glow_mcd_m2 = 0.4
water = "sea"
sheltered = [{ from_deg = 250, to_deg = 20 }]
phone_cover = "at the car park only"
tags = ["cliff", "coast"]
tide_closes = ["2025-01-29 06:40", 2025-01-30T07:25:00]

[place.permission]
text = "The harbour office, for paid groups up to eight"
date = 2025-01-10

[[place.stand]]
name = "Lower step"
lat = 37.0701
lon = 15.2902
height_m = 3
view_deg = 115
tripods = 4

[[place.subject]]
name = "The stack"
lat = 37.06
lon = 15.31
base_height_m = 0
top_height_m = 22
width_m = 9

[[place.access]]
kind = "drive"
name = "coast road"
minutes = 30

[[place.access]]
kind = "walk"
distance_m = 1200
climb_m = 60
descent_m = 20
never_in_the_dark = true
last_walked = 2025-01-12

[[place.gate]]
name = "harbour gate"
opens = "05:00"
closes = "23:00"

[[place.note]]
text = "The third step is missing"
date = 2025-01-12
)";

}  // namespace gloam::test
