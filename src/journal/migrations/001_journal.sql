-- Version 1 of the journal. Instants (_ms) are milliseconds since 1970-01-01T00:00Z; dates are '2025-01-29', clock
-- times '06:40', in the zone of their place; angles degrees; NULL is "not known".

CREATE TABLE trip (
    id                    INTEGER PRIMARY KEY,
    name                  TEXT NOT NULL UNIQUE CHECK (name <> ''),
    zone                  TEXT,
    first_day             TEXT,
    last_day              TEXT,
    paid                  INTEGER CHECK (paid IN (0, 1)),
    emergency_number      TEXT,
    plan_holder           TEXT,
    group_size            INTEGER,
    minimum_party         INTEGER,
    starts_for_one_dawn   REAL,
    starts_for_one_dusk   REAL,
    starts_left           INTEGER,
    slowest_kmh           REAL,
    least_rest_h          REAL,
    longest_span_h        REAL,
    breakfast             TEXT,
    latest_change         TEXT,
    colour_before_sun_min REAL,
    settle_min            REAL,
    dark_factor           REAL,
    load_min              REAL,
    wake_to_door_min      REAL,
    look_before_wake_min  REAL,
    forgotten_ms          INTEGER  -- when the people of the trip were last forgotten
) STRICT;

CREATE TABLE guest (
    id                  INTEGER PRIMARY KEY AUTOINCREMENT,  -- never used again: calls speak of "guest 12"
    trip                INTEGER NOT NULL REFERENCES trip,
    ordinal       INTEGER NOT NULL,
    name                TEXT NOT NULL CHECK (name <> ''),
    starts_for_one_dawn REAL,
    starts_for_one_dusk REAL,
    opted_out           INTEGER NOT NULL CHECK (opted_out IN (0, 1)),
    finder              TEXT NOT NULL,
    longest_lens_mm     REAL,
    needs_thought       INTEGER NOT NULL CHECK (needs_thought IN (0, 1)),
    drone               INTEGER NOT NULL CHECK (drone IN (0, 1)),
    UNIQUE (trip, name)
) STRICT;

CREATE TABLE place (
    id                INTEGER PRIMARY KEY,
    trip              INTEGER NOT NULL REFERENCES trip,
    ordinal     INTEGER NOT NULL,
    is_base           INTEGER NOT NULL CHECK (is_base IN (0, 1)),
    name              TEXT NOT NULL CHECK (name <> ''),
    lat_deg           REAL NOT NULL CHECK (lat_deg BETWEEN -90 AND 90),
    lon_deg           REAL NOT NULL CHECK (lon_deg BETWEEN -180 AND 180),
    height_m          REAL,
    zone              TEXT,
    ground            TEXT NOT NULL,
    town_zenith_cd_m2 REAL NOT NULL,
    water             TEXT,
    permission        TEXT,
    permission_date   TEXT,
    phone_cover       TEXT,
    UNIQUE (trip, is_base, name)
) STRICT;

CREATE TABLE stand (
    place         INTEGER NOT NULL REFERENCES place ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    name          TEXT NOT NULL CHECK (name <> ''),
    lat_deg       REAL NOT NULL CHECK (lat_deg BETWEEN -90 AND 90),
    lon_deg       REAL NOT NULL CHECK (lon_deg BETWEEN -180 AND 180),
    height_m      REAL,
    view_deg      REAL,
    tripods       INTEGER,
    PRIMARY KEY (place, ordinal)
) STRICT, WITHOUT ROWID;

CREATE TABLE subject (
    place         INTEGER NOT NULL REFERENCES place ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    name          TEXT NOT NULL CHECK (name <> ''),
    lat_deg       REAL NOT NULL CHECK (lat_deg BETWEEN -90 AND 90),
    lon_deg       REAL NOT NULL CHECK (lon_deg BETWEEN -180 AND 180),
    base_height_m REAL,
    top_height_m  REAL,
    width_m       REAL,
    PRIMARY KEY (place, ordinal)
) STRICT, WITHOUT ROWID;

CREATE TABLE shelter (
    place         INTEGER NOT NULL REFERENCES place ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    from_deg      REAL NOT NULL,
    to_deg        REAL NOT NULL,
    PRIMARY KEY (place, ordinal)
) STRICT, WITHOUT ROWID;

CREATE TABLE access_leg (
    place             INTEGER NOT NULL REFERENCES place ON DELETE CASCADE,
    ordinal     INTEGER NOT NULL,
    kind              TEXT NOT NULL,
    name              TEXT,
    minutes           REAL,
    distance_m        REAL,
    climb_m           REAL,
    descent_m         REAL,
    never_in_the_dark INTEGER NOT NULL CHECK (never_in_the_dark IN (0, 1)),
    last_walked       TEXT,
    PRIMARY KEY (place, ordinal)
) STRICT, WITHOUT ROWID;

CREATE TABLE gate (
    place         INTEGER NOT NULL REFERENCES place ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    name          TEXT NOT NULL CHECK (name <> ''),
    opens         TEXT,
    closes        TEXT,
    PRIMARY KEY (place, ordinal)
) STRICT, WITHOUT ROWID;

CREATE TABLE tag (
    place         INTEGER NOT NULL REFERENCES place ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    tag           TEXT NOT NULL,
    PRIMARY KEY (place, ordinal)
) STRICT, WITHOUT ROWID;

CREATE TABLE note (
    place         INTEGER NOT NULL REFERENCES place ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    text          TEXT NOT NULL CHECK (text <> ''),
    date          TEXT NOT NULL,
    PRIMARY KEY (place, ordinal)
) STRICT, WITHOUT ROWID;

CREATE TABLE tide_closing (
    place         INTEGER NOT NULL REFERENCES place ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    moment        TEXT NOT NULL,  -- '2025-01-29 06:40'
    PRIMARY KEY (place, ordinal)
) STRICT, WITHOUT ROWID;

-- A dawn or dusk at a place. The place is a name, not a reference: what was decided stays as it was when the trip's
-- places change.
CREATE TABLE event (
    id    INTEGER PRIMARY KEY,
    trip  INTEGER REFERENCES trip,
    place TEXT NOT NULL CHECK (place <> ''),
    date  TEXT NOT NULL,
    kind  TEXT NOT NULL CHECK (kind IN ('dawn', 'dusk'))
) STRICT;
CREATE UNIQUE INDEX event_once ON event (ifnull(trip, 0), place, date, kind);

CREATE TABLE run (
    id          INTEGER PRIMARY KEY,
    sha256      TEXT NOT NULL UNIQUE,  -- of its files
    source      TEXT NOT NULL,
    run_time_ms INTEGER NOT NULL,
    seen_ms     INTEGER NOT NULL  -- first
) STRICT;

CREATE TABLE call (
    id            INTEGER PRIMARY KEY AUTOINCREMENT,
    event         INTEGER NOT NULL REFERENCES event,
    look          TEXT NOT NULL CHECK (look IN ('evening', 'morning', 'call')),
    made_ms       INTEGER NOT NULL,
    answer        TEXT NOT NULL CHECK (answer <> ''),
    odds          REAL NOT NULL CHECK (odds BETWEEN 0 AND 1),
    threshold     REAL NOT NULL,
    previous      INTEGER REFERENCES call,
    inputs        TEXT NOT NULL,
    model_version TEXT NOT NULL,
    tables_hash   TEXT NOT NULL,
    states        BLOB NOT NULL,
    output        TEXT NOT NULL
) STRICT;
CREATE INDEX call_of_event ON call (event, made_ms);
CREATE TRIGGER call_stays BEFORE DELETE ON call BEGIN
    SELECT raise(ABORT, 'a call is never deleted');
END;
CREATE TRIGGER call_stands BEFORE UPDATE ON call BEGIN
    SELECT raise(ABORT, 'a call is never changed, only amended');
END;

CREATE TABLE call_run (
    call INTEGER NOT NULL REFERENCES call,
    run  INTEGER NOT NULL REFERENCES run,
    PRIMARY KEY (call, run)
) STRICT, WITHOUT ROWID;

CREATE TABLE amendment (
    id    INTEGER PRIMARY KEY,
    call  INTEGER NOT NULL REFERENCES call,
    at_ms INTEGER NOT NULL,
    text  TEXT NOT NULL CHECK (text <> '')
) STRICT;
CREATE INDEX amendment_of_call ON amendment (call);

CREATE TABLE overrule (
    id     INTEGER PRIMARY KEY,
    call   INTEGER NOT NULL REFERENCES call,
    at_ms  INTEGER NOT NULL,
    answer TEXT NOT NULL CHECK (answer <> ''),
    reason TEXT NOT NULL CHECK (reason <> '')
) STRICT;
CREATE INDEX overrule_of_call ON overrule (call);

-- What the leader saw of the sky.
CREATE TABLE sighting (
    id               INTEGER PRIMARY KEY,
    event            INTEGER NOT NULL REFERENCES event,
    at_ms            INTEGER NOT NULL,
    sign             TEXT NOT NULL CHECK (sign <> ''),
    likelihood_ratio REAL NOT NULL CHECK (likelihood_ratio > 0)
) STRICT;
CREATE INDEX sighting_of_event ON sighting (event);

-- A caution that the leader went against.
CREATE TABLE dismissal (
    id      INTEGER PRIMARY KEY,
    event   INTEGER NOT NULL REFERENCES event,
    at_ms   INTEGER NOT NULL,
    caution TEXT NOT NULL CHECK (caution <> ''),
    reason  TEXT NOT NULL CHECK (reason <> '')
) STRICT;
CREATE INDEX dismissal_of_event ON dismissal (event);
