CREATE TABLE settings (
  id               INTEGER PRIMARY KEY CHECK (id = 1),
  version          INTEGER NOT NULL CHECK (version >= 1),
  length_unit      TEXT NOT NULL CHECK (length_unit IN ('mm', 'in')),
  mass_unit        TEXT NOT NULL CHECK (mass_unit IN ('g', 'oz')),
  temperature_unit TEXT NOT NULL CHECK (temperature_unit IN ('C', 'F')),
  volume_unit      TEXT NOT NULL CHECK (volume_unit IN ('mL', 'floz')),
  ruler            REAL NOT NULL CHECK (ruler BETWEEN 0.01 AND 10),
  time_zone        TEXT NOT NULL CHECK (time_zone <> ''),
  scheme           TEXT NOT NULL CHECK (scheme IN ('auto', 'day', 'night'))
, apart TEXT NOT NULL DEFAULT 'load' CHECK (apart IN ('wax', 'fragrance', 'load')), currency TEXT NOT NULL DEFAULT '' CHECK (length(currency) <= 8), scale_step REAL NOT NULL DEFAULT 1 CHECK (scale_step BETWEEN 0.001 AND 100), melter REAL CHECK (melter BETWEEN 10 AND 1000000), bench_places INTEGER CHECK (bench_places BETWEEN 1 AND 60)) STRICT;

CREATE TABLE settings_limit (
  key   TEXT PRIMARY KEY CHECK (key <> ''),
  value REAL NOT NULL CHECK (value BETWEEN -1e9 AND 1e9)
) STRICT;

CREATE TABLE wax (
  id                 INTEGER PRIMARY KEY,
  version            INTEGER NOT NULL CHECK (version >= 1),
  created_at         TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at            TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why           TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  name               TEXT NOT NULL CHECK (trim(name) <> '' AND length(name) <= 120),
  family             TEXT NOT NULL CHECK (family IN ('soy', 'coconut', 'rapeseed', 'paraffin', 'beeswax', 'palm', 'stearin', 'blend')),
  blend_note         TEXT NOT NULL,
  form               TEXT NOT NULL,
  solid_density      REAL CHECK (solid_density BETWEEN 0.5 AND 1.5),
  liquid_density     REAL CHECK (liquid_density BETWEEN 0.5 AND 1.5),
  melting_point      REAL CHECK (melting_point BETWEEN 20 AND 120),
  heat_to_low        REAL CHECK (heat_to_low BETWEEN 0 AND 250),
  heat_to_high       REAL CHECK (heat_to_high BETWEEN 0 AND 250),
  add_oil_at_low     REAL CHECK (add_oil_at_low BETWEEN 0 AND 250),
  add_oil_at_high    REAL CHECK (add_oil_at_high BETWEEN 0 AND 250),
  pour_at_low        REAL CHECK (pour_at_low BETWEEN 0 AND 250),
  pour_at_high       REAL CHECK (pour_at_high BETWEEN 0 AND 250),
  load_low           REAL CHECK (load_low BETWEEN 0 AND 0.5),
  load_high          REAL CHECK (load_high BETWEEN 0 AND 0.5),
  load_basis         TEXT NOT NULL CHECK (load_basis IN ('', 'wax', 'total')),
  cure_days_low      REAL CHECK (cure_days_low BETWEEN 0 AND 365),
  cure_days_high     REAL CHECK (cure_days_high BETWEEN 0 AND 365),
  shrinkage          REAL CHECK (shrinkage BETWEEN 0 AND 0.3),
  heat_of_combustion REAL CHECK (heat_of_combustion BETWEEN 10 AND 60),
  note               TEXT NOT NULL, price REAL CHECK (price BETWEEN 0 AND 1000000), on_hand REAL CHECK (on_hand BETWEEN 0 AND 1000000000), counted_at TEXT CHECK (counted_at IS strftime('%Y-%m-%dT%H:%M:%SZ', counted_at)),
  CHECK (heat_to_low <= heat_to_high),
  CHECK (add_oil_at_low <= add_oil_at_high),
  CHECK (pour_at_low <= pour_at_high),
  CHECK (load_low <= load_high),
  CHECK (cure_days_low <= cure_days_high),
  CHECK (load_basis <> '' OR (load_low IS NULL AND load_high IS NULL))
) STRICT;

CREATE TABLE fragrance (
  id          INTEGER PRIMARY KEY,
  version     INTEGER NOT NULL CHECK (version >= 1),
  created_at  TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at     TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why    TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  name        TEXT NOT NULL CHECK (trim(name) <> '' AND length(name) <= 120),
  density     REAL CHECK (density BETWEEN 0.5 AND 1.5),
  flash_point REAL CHECK (flash_point BETWEEN 0 AND 300),
  max_load    REAL CHECK (max_load BETWEEN 0 AND 0.5),
  max_basis   TEXT NOT NULL CHECK (max_basis IN ('', 'wax', 'total')),
  note        TEXT NOT NULL, price REAL CHECK (price BETWEEN 0 AND 1000000), on_hand REAL CHECK (on_hand BETWEEN 0 AND 1000000000), counted_at TEXT CHECK (counted_at IS strftime('%Y-%m-%dT%H:%M:%SZ', counted_at)),
  CHECK (max_basis <> '' OR max_load IS NULL)
) STRICT;

CREATE TABLE vessel (
  id           INTEGER PRIMARY KEY,
  version      INTEGER NOT NULL CHECK (version >= 1),
  created_at   TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at      TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why     TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  name         TEXT NOT NULL CHECK (trim(name) <> '' AND length(name) <= 120),
  shape        TEXT NOT NULL CHECK (shape IN ('round', 'oval', 'rectangular', 'irregular')),
  inner_width  REAL NOT NULL CHECK (inner_width BETWEEN 10 AND 500),
  inner_length REAL CHECK (inner_length BETWEEN 10 AND 500),
  fill_height  REAL CHECK (fill_height BETWEEN 5 AND 500),
  volume       REAL CHECK (volume BETWEEN 5 AND 20000),
  water_fill   REAL CHECK (water_fill BETWEEN 5 AND 20000),
  material     TEXT NOT NULL CHECK (material IN ('glass', 'ceramic', 'stoneware', 'concrete', 'metal', 'other')),
  empty_mass   REAL CHECK (empty_mass BETWEEN 1 AND 20000),
  certificate  INTEGER NOT NULL CHECK (certificate IN (0, 1)),
  target_hours REAL CHECK (target_hours BETWEEN 0.25 AND 24),
  flame_limit  REAL CHECK (flame_limit BETWEEN 5 AND 150),
  wall_limit   REAL CHECK (wall_limit BETWEEN 30 AND 150),
  note         TEXT NOT NULL, price REAL CHECK (price BETWEEN 0 AND 1000000), on_hand INTEGER CHECK (on_hand BETWEEN 0 AND 1000000), counted_at TEXT CHECK (counted_at IS strftime('%Y-%m-%dT%H:%M:%SZ', counted_at)),
  CHECK (inner_length >= inner_width),
  CHECK (shape <> 'round' OR inner_length IS NULL OR inner_length = inner_width),
  CHECK (shape = 'round' OR inner_length IS NOT NULL)
) STRICT;

CREATE TABLE ladder (
  id         INTEGER PRIMARY KEY,
  version    INTEGER NOT NULL CHECK (version >= 1),
  created_at TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at    TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why   TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  name       TEXT NOT NULL CHECK (trim(name) <> '' AND length(name) <= 120),
  kind       TEXT NOT NULL CHECK (kind IN ('flat braid', 'square braid', 'cored', 'wood', 'wood with a second strip', 'hemp', 'other')),
  core       TEXT NOT NULL,
  note       TEXT NOT NULL
) STRICT;

CREATE TABLE wick (
  id         INTEGER PRIMARY KEY,
  version    INTEGER NOT NULL CHECK (version >= 1),
  created_at TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at    TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why   TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  ladder_id  INTEGER NOT NULL REFERENCES ladder (id) ON DELETE RESTRICT,
  rung       INTEGER NOT NULL CHECK (rung >= 1),
  label      TEXT NOT NULL CHECK (trim(label) <> '' AND length(label) <= 60),
  width      REAL CHECK (width BETWEEN 0.3 AND 60),
  threads    INTEGER CHECK (threads BETWEEN 1 AND 500),
  note       TEXT NOT NULL, price REAL CHECK (price BETWEEN 0 AND 1000000), on_hand INTEGER CHECK (on_hand BETWEEN 0 AND 1000000), counted_at TEXT CHECK (counted_at IS strftime('%Y-%m-%dT%H:%M:%SZ', counted_at)),
  UNIQUE (ladder_id, rung)
) STRICT;

CREATE TABLE pour (
  id            INTEGER PRIMARY KEY,
  version       INTEGER NOT NULL CHECK (version >= 1),
  created_at    TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at       TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why      TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  number        INTEGER NOT NULL UNIQUE CHECK (number >= 1),
  at            TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M:%SZ', at)),
  wax_id        INTEGER NOT NULL REFERENCES wax (id) ON DELETE RESTRICT,
  wax_lot       TEXT NOT NULL,
  fragrance_id  INTEGER REFERENCES fragrance (id) ON DELETE RESTRICT,
  fragrance_lot TEXT NOT NULL,
  load          REAL CHECK (load BETWEEN 0 AND 0.5),
  load_basis    TEXT NOT NULL CHECK (load_basis IN ('wax', 'total')),
  heated_to     REAL CHECK (heated_to BETWEEN 0 AND 250),
  oil_at        REAL CHECK (oil_at BETWEEN 0 AND 250),
  poured_at     REAL CHECK (poured_at BETWEEN 0 AND 250),
  room          REAL CHECK (room BETWEEN -10 AND 50),
  vessel_warmed REAL CHECK (vessel_warmed BETWEEN -10 AND 150),
  second_pour   INTEGER NOT NULL CHECK (second_pour IN (0, 1)),
  heat_gun      INTEGER NOT NULL CHECK (heat_gun IN (0, 1)),
  dye           TEXT NOT NULL,
  note          TEXT NOT NULL, wax_mass REAL CHECK (wax_mass BETWEEN 0.1 AND 1000000), oil_mass REAL CHECK (oil_mass BETWEEN 0 AND 1000000), sheet_id INTEGER REFERENCES pour_sheet (id) ON DELETE RESTRICT,
  CHECK (load IS NULL OR load = 0 OR fragrance_id IS NOT NULL)
) STRICT;

CREATE INDEX pour_wax ON pour (wax_id);

CREATE INDEX pour_fragrance ON pour (fragrance_id) WHERE fragrance_id IS NOT NULL;

CREATE TABLE candle (
  id         INTEGER PRIMARY KEY,
  version    INTEGER NOT NULL CHECK (version >= 1),
  created_at TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at    TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why   TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  pour_id    INTEGER NOT NULL REFERENCES pour (id) ON DELETE RESTRICT,
  letter     TEXT NOT NULL CHECK (length(letter) BETWEEN 1 AND 3 AND letter NOT GLOB '*[^A-Z]*'),
  vessel_id  INTEGER NOT NULL REFERENCES vessel (id) ON DELETE RESTRICT,
  wick_id    INTEGER NOT NULL REFERENCES wick (id) ON DELETE RESTRICT,
  wicks      INTEGER NOT NULL CHECK (wicks BETWEEN 1 AND 12),
  filled     REAL CHECK (filled BETWEEN 1 AND 20000),
  note       TEXT NOT NULL, round_id INTEGER REFERENCES round (id) ON DELETE RESTRICT, round_place INTEGER NOT NULL DEFAULT 0 CHECK (round_place BETWEEN 0 AND 400 AND (round_place = 0) = (round_id IS NULL)),
  UNIQUE (pour_id, letter)
) STRICT;

CREATE INDEX candle_vessel ON candle (vessel_id);

CREATE INDEX candle_wick ON candle (wick_id);

CREATE TABLE sitting (
  id         INTEGER PRIMARY KEY,
  created_at TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at))
) STRICT;

CREATE TABLE burn (
  id          INTEGER PRIMARY KEY,
  version     INTEGER NOT NULL CHECK (version >= 1),
  created_at  TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at     TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why    TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  candle_id   INTEGER NOT NULL REFERENCES candle (id) ON DELETE RESTRICT,
  sitting_id  INTEGER REFERENCES sitting (id) ON DELETE RESTRICT,
  number      INTEGER NOT NULL CHECK (number >= 1),
  lit_at      TEXT NOT NULL CHECK (lit_at IS strftime('%Y-%m-%dT%H:%M:%SZ', lit_at)),
  trim        REAL CHECK (trim BETWEEN 0 AND 50),
  mass_before REAL CHECK (mass_before BETWEEN 1 AND 40000),
  room        REAL CHECK (room BETWEEN -10 AND 50),
  draught     TEXT NOT NULL CHECK (draught IN ('', 'none', 'slight', 'strong')),
  place       TEXT NOT NULL,
  out_at      TEXT CHECK (out_at IS strftime('%Y-%m-%dT%H:%M:%SZ', out_at)),
  mass_after  REAL CHECK (mass_after BETWEEN 0 AND 40000),
  after_smoke REAL CHECK (after_smoke BETWEEN 0 AND 1800),
  ending      TEXT NOT NULL CHECK (ending IN ('', 'snuffed', 'went out', 'put out for safety', 'spent')),
  note        TEXT NOT NULL,
  UNIQUE (candle_id, number),
  CHECK (out_at > lit_at),
  CHECK ((out_at IS NULL) = (ending = '')),
  CHECK (mass_after <= mass_before + 1)
) STRICT;

CREATE UNIQUE INDEX burn_open ON burn (candle_id) WHERE out_at IS NULL AND gone_at IS NULL;

CREATE INDEX burn_spent ON burn (candle_id) WHERE ending = 'spent' AND gone_at IS NULL;

CREATE INDEX burn_cold ON burn (out_at) WHERE out_at IS NOT NULL AND mass_before IS NOT NULL AND mass_after IS NULL AND gone_at IS NULL;

CREATE INDEX burn_counts ON burn (candle_id) WHERE gone_at IS NULL;

CREATE INDEX burn_sitting ON burn (sitting_id) WHERE sitting_id IS NOT NULL;

CREATE TABLE checks (
  id          INTEGER PRIMARY KEY,
  version     INTEGER NOT NULL CHECK (version >= 1),
  created_at  TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at     TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why    TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  burn_id     INTEGER NOT NULL REFERENCES burn (id) ON DELETE RESTRICT,
  at          TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M:%SZ', at)),
  width_a     REAL CHECK (width_a BETWEEN 0 AND 600),
  width_b     REAL CHECK (width_b BETWEEN 0 AND 600),
  "full"      INTEGER NOT NULL CHECK ("full" IN (0, 1)),
  depth       REAL CHECK (depth BETWEEN 0 AND 200),
  flame       REAL CHECK (flame BETWEEN 0 AND 300),
  mushroom    TEXT NOT NULL CHECK (mushroom IN ('', 'none', 'bead', 'cap', 'shedding')),
  soot        TEXT NOT NULL CHECK (soot IN ('', 'none', 'wisp', 'thread', 'marks')),
  wall_wax    TEXT NOT NULL CHECK (wall_wax IN ('', 'none', 'film', 'ring', 'tunnel')),
  vessel_temp REAL CHECK (vessel_temp BETWEEN -10 AND 300),
  hot_throw   INTEGER CHECK (hot_throw BETWEEN 0 AND 5),
  -- The odd events with commas between them: once every known event is taken
  -- out, nothing may be left.
  odd         TEXT NOT NULL CHECK (replace(replace(replace(replace(replace(replace(replace(replace(
    iif(odd = '', '', ',' || odd), ',flame on the pool', ''), ',vessel cracked', ''), ',debris in the pool', ''),
    ',wick drifted', ''), ',flickering', ''), ',flame very small', ''), ',drowning', ''), ',sweating', '') = ''),
  left_out    INTEGER NOT NULL CHECK (left_out IN (0, 1)),
  note        TEXT NOT NULL
) STRICT;

CREATE INDEX checks_burn ON checks (burn_id, at);

CREATE TABLE receipt (
  token TEXT PRIMARY KEY CHECK (token <> ''),
  ref   TEXT NOT NULL,
  at    TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M:%SZ', at))
) STRICT;

CREATE TABLE settings_belief (
  key   TEXT NOT NULL CHECK (key <> ''),
  place INTEGER NOT NULL CHECK (place >= 0),
  value REAL NOT NULL CHECK (value BETWEEN -1e9 AND 1e9),
  PRIMARY KEY (key, place)
) STRICT;

CREATE TABLE "history" (
  id          INTEGER PRIMARY KEY AUTOINCREMENT,
  noun        TEXT NOT NULL CHECK (noun <> ''),
  of_id       INTEGER NOT NULL CHECK (of_id >= 1),
  at          TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M:%SZ', at)),
  kind        TEXT NOT NULL CHECK (kind IN ('written', 'corrected', 'withdrawn', 'restored')),
  before_json TEXT CHECK (json_valid(before_json)),
  after_json  TEXT NOT NULL CHECK (json_valid(after_json)),
  CHECK ((before_json IS NULL) = (kind = 'written'))
) STRICT;

CREATE INDEX history_of ON history (noun, of_id);

CREATE TABLE photo (
  id         INTEGER PRIMARY KEY,
  version    INTEGER NOT NULL CHECK (version >= 1),
  created_at TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at    TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why   TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  of_noun    TEXT NOT NULL CHECK (of_noun <> ''),
  of_id      INTEGER NOT NULL CHECK (of_id >= 1),
  hash       TEXT NOT NULL CHECK (length(hash) = 64 AND hash NOT GLOB '*[^0-9a-f]*'),
  width      INTEGER NOT NULL CHECK (width BETWEEN 1 AND 1600),
  height     INTEGER NOT NULL CHECK (height BETWEEN 1 AND 1600),
  at         TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M:%SZ', at)),
  note       TEXT NOT NULL
, wall_marks TEXT NOT NULL DEFAULT '' CHECK (wall_marks NOT GLOB '*[^0-9., ]*'), pool_marks TEXT NOT NULL DEFAULT '' CHECK (pool_marks NOT GLOB '*[^0-9., ]*')) STRICT;

CREATE INDEX photo_of ON photo (of_noun, of_id);

CREATE UNIQUE INDEX photo_once ON photo (of_noun, of_id, hash) WHERE gone_at IS NULL;

CREATE TABLE verdict (
  id            INTEGER PRIMARY KEY,
  version       INTEGER NOT NULL CHECK (version >= 1),
  created_at    TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at       TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why      TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  vessel_id     INTEGER NOT NULL REFERENCES vessel (id) ON DELETE RESTRICT,
  wick_id       INTEGER NOT NULL REFERENCES wick (id) ON DELETE RESTRICT,
  wicks         INTEGER NOT NULL CHECK (wicks BETWEEN 1 AND 12),
  wax_id        INTEGER NOT NULL REFERENCES wax (id) ON DELETE RESTRICT,
  fragrance_id  INTEGER REFERENCES fragrance (id) ON DELETE RESTRICT,
  load          REAL CHECK (load BETWEEN 0 AND 0.5),
  apart         TEXT NOT NULL CHECK (apart IN ('wax', 'fragrance', 'load')),
  series        TEXT NOT NULL CHECK (series <> ''),
  ruling        TEXT NOT NULL CHECK (ruling IN ('accepted', 'rejected', 'open')),
  decided_by    TEXT NOT NULL CHECK (trim(decided_by) <> '' AND length(decided_by) <= 120),
  at            TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M:%SZ', at)),
  why           TEXT NOT NULL,
  tip_test      INTEGER NOT NULL CHECK (tip_test IN (0, 1)),
  base_check    INTEGER NOT NULL CHECK (base_check IN (0, 1)),
  claimed_hours REAL CHECK (claimed_hours BETWEEN 0.5 AND 2000),
  figures       TEXT NOT NULL CHECK (json_valid(figures)),
  CHECK (load IS NULL OR fragrance_id IS NOT NULL),
  CHECK (ruling <> 'rejected' OR trim(why) <> '')
) STRICT;

CREATE INDEX verdict_pairing ON verdict (vessel_id, wick_id);

CREATE TABLE smelling (
  id           INTEGER PRIMARY KEY,
  version      INTEGER NOT NULL CHECK (version >= 1),
  created_at   TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at      TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why     TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  at           TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M:%SZ', at)),
  kind         TEXT NOT NULL CHECK (kind IN ('cold', 'hot')),
  room         REAL CHECK (room BETWEEN 1 AND 10000),
  blind        INTEGER NOT NULL CHECK (blind IN (0, 1)),
  uncovered_at TEXT CHECK (uncovered_at IS strftime('%Y-%m-%dT%H:%M:%SZ', uncovered_at)),
  note         TEXT NOT NULL,
  CHECK (uncovered_at IS NULL OR blind = 1)
) STRICT;

CREATE INDEX smelling_at ON smelling (at);

CREATE TABLE cup (
  id          INTEGER PRIMARY KEY,
  version     INTEGER NOT NULL CHECK (version >= 1),
  created_at  TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at     TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why    TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  smelling_id INTEGER NOT NULL REFERENCES smelling (id) ON DELETE RESTRICT,
  candle_id   INTEGER NOT NULL REFERENCES candle (id) ON DELETE RESTRICT,
  code        TEXT NOT NULL CHECK (code GLOB '[0-9][0-9][0-9]' AND code <> replace('ddd', 'd', substr(code, 1, 1))),
  minutes     REAL CHECK (minutes BETWEEN 0 AND 1440),
  UNIQUE (smelling_id, code),
  UNIQUE (smelling_id, candle_id)
) STRICT;

CREATE INDEX cup_candle ON cup (candle_id);

CREATE TABLE score (
  id         INTEGER PRIMARY KEY,
  version    INTEGER NOT NULL CHECK (version >= 1),
  created_at TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at    TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why   TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  cup_id     INTEGER NOT NULL REFERENCES cup (id) ON DELETE RESTRICT,
  nose       TEXT NOT NULL CHECK (trim(nose) <> '' AND length(nose) <= 40),
  score      INTEGER NOT NULL CHECK (score BETWEEN 0 AND 5),
  place      INTEGER CHECK (place BETWEEN 1 AND 12),
  at         TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M:%SZ', at)),
  note       TEXT NOT NULL
) STRICT;

CREATE INDEX score_cup ON score (cup_id);

CREATE UNIQUE INDEX score_nose ON score (cup_id, nose COLLATE NOCASE) WHERE gone_at IS NULL;

CREATE TABLE mould (
  id            INTEGER PRIMARY KEY,
  version       INTEGER NOT NULL CHECK (version >= 1),
  created_at    TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at       TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why      TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  name          TEXT NOT NULL CHECK (trim(name) <> '' AND length(name) <= 120),
  cavities      INTEGER NOT NULL CHECK (cavities BETWEEN 1 AND 200),
  cavity_volume REAL CHECK (cavity_volume BETWEEN 0.1 AND 20000),
  water_fill    REAL CHECK (water_fill BETWEEN 0.1 AND 20000),
  detail        TEXT NOT NULL CHECK (detail IN ('plain', 'relief', 'undercut')),
  material      TEXT NOT NULL,
  note          TEXT NOT NULL
) STRICT;

CREATE TABLE pour_cast (
  id         INTEGER PRIMARY KEY,
  version    INTEGER NOT NULL CHECK (version >= 1),
  created_at TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at    TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why   TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  pour_id    INTEGER NOT NULL REFERENCES pour (id) ON DELETE RESTRICT,
  mould_id   INTEGER NOT NULL REFERENCES mould (id) ON DELETE RESTRICT,
  pieces     INTEGER NOT NULL CHECK (pieces BETWEEN 1 AND 2000),
  out_at     TEXT CHECK (out_at IS strftime('%Y-%m-%dT%H:%M:%SZ', out_at)),
  clean      INTEGER CHECK (clean BETWEEN 0 AND 2000),
  chipped    INTEGER CHECK (chipped BETWEEN 0 AND 2000),
  broken     INTEGER CHECK (broken BETWEEN 0 AND 2000),
  captured   TEXT NOT NULL CHECK (captured IN ('', 'full', 'soft', 'lost')),
  surface    TEXT NOT NULL CHECK (surface IN ('', 'smooth', 'pitted', 'streaked', 'frosted')),
  firmness   TEXT NOT NULL CHECK (firmness IN ('', 'firm', 'soft', 'brittle')),
  note       TEXT NOT NULL,
  CHECK (out_at IS NOT NULL OR (clean IS NULL AND chipped IS NULL AND broken IS NULL AND captured = '' AND surface = '' AND firmness = '')),
  CHECK (clean + chipped + broken = pieces)
) STRICT;

CREATE INDEX pour_cast_pour ON pour_cast (pour_id);

CREATE INDEX pour_cast_mould ON pour_cast (mould_id);

CREATE TABLE set_check (
  id         INTEGER PRIMARY KEY,
  version    INTEGER NOT NULL CHECK (version >= 1),
  created_at TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at    TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why   TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  candle_id  INTEGER NOT NULL REFERENCES candle (id) ON DELETE RESTRICT,
  at         TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M:%SZ', at)),
  top        TEXT NOT NULL CHECK (top IN ('', 'smooth', 'dip', 'rough')),
  dip        REAL CHECK (dip BETWEEN 0 AND 100),
  sink_hole  TEXT NOT NULL CHECK (sink_hole IN ('', 'none', 'slight', 'heavy')),
  cracks     TEXT NOT NULL CHECK (cracks IN ('', 'none', 'slight', 'heavy')),
  frosting   TEXT NOT NULL CHECK (frosting IN ('', 'none', 'slight', 'heavy')),
  sweating   TEXT NOT NULL CHECK (sweating IN ('', 'none', 'slight', 'heavy')),
  stuck      REAL CHECK (stuck BETWEEN 0 AND 1),
  cold_throw INTEGER CHECK (cold_throw BETWEEN 0 AND 5),
  note       TEXT NOT NULL
) STRICT;

CREATE INDEX set_check_candle ON set_check (candle_id, at);

CREATE TABLE round (
  id           INTEGER PRIMARY KEY,
  version      INTEGER NOT NULL CHECK (version >= 1),
  created_at   TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at      TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why     TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  question     TEXT NOT NULL CHECK (trim(question) <> '' AND length(question) <= 200),
  wax_id       INTEGER NOT NULL REFERENCES wax (id) ON DELETE RESTRICT,
  fragrance_id INTEGER REFERENCES fragrance (id) ON DELETE RESTRICT,
  factors      TEXT NOT NULL CHECK (json_valid(factors)),
  copies       INTEGER NOT NULL CHECK (copies BETWEEN 1 AND 12),
  seed         INTEGER NOT NULL,
  drawn        TEXT NOT NULL CHECK (json_valid(drawn)),
  places       TEXT NOT NULL CHECK (json_valid(places)),
  days         TEXT NOT NULL CHECK (json_valid(days)),
  closed_at    TEXT CHECK (closed_at IS strftime('%Y-%m-%dT%H:%M:%SZ', closed_at)),
  note         TEXT NOT NULL
) STRICT;

CREATE INDEX candle_round ON candle (round_id, round_place) WHERE round_id IS NOT NULL;

CREATE TABLE pour_sheet (
  id           INTEGER PRIMARY KEY,
  version      INTEGER NOT NULL CHECK (version >= 1),
  created_at   TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at      TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why     TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  wax_id       INTEGER NOT NULL REFERENCES wax (id) ON DELETE RESTRICT,
  fragrance_id INTEGER REFERENCES fragrance (id) ON DELETE RESTRICT,
  load         REAL CHECK (load BETWEEN 0 AND 0.5),
  load_basis   TEXT NOT NULL CHECK (load_basis IN ('wax', 'total')),
  pour_id      INTEGER REFERENCES pour (id) ON DELETE RESTRICT,
  round_id     INTEGER REFERENCES round (id) ON DELETE RESTRICT,
  body         TEXT NOT NULL CHECK (json_valid(body)),
  note         TEXT NOT NULL
) STRICT;

CREATE INDEX pour_sheet_pour ON pour_sheet (pour_id) WHERE pour_id IS NOT NULL;

CREATE INDEX pour_of_sheet ON pour (sheet_id) WHERE sheet_id IS NOT NULL;

CREATE INDEX pour_sheet_round ON pour_sheet (round_id) WHERE round_id IS NOT NULL;

