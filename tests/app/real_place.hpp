#pragma once

#include <string>

#include "app/call_report.hpp"
#include "sky/embedded_tables.hpp"

namespace gloam::app {

/// The dawn of 2025-01-29 at a place, from the stored GFS file.
inline EventInputs inputs_for(const std::string& place) {
    EventWords words;
    words.place = place;
    words.date = "2025-01-29";
    words.event = "dawn";
    words.zone = "Europe/Rome";
    words.forecast_files = {GLOAM_SOURCE_DIR
                            "/data/weather/gfs-global-1deg-2025012900-f006-tcdc-profile.grib2"};
    return gather_inputs(words, {}).value();
}

/// The tables of this build.
inline const sky::SkyTables& tables() {
    static const sky::SkyTables kTables = sky::unpack_sky_tables(sky::embedded_tables()).value();
    return kTables;
}

/// When somebody asks: the evening before.
inline const Instant kEvening = parse_rfc3339("2025-01-28T20:00:00Z").value();

}  // namespace gloam::app
