-- +goose Up
-- What happens before a candle is lit: moulds and what came out of them, the
-- look of a set candle, pour sheets, rounds, and what is on the shelf at which
-- price. Prices are in the studio's own currency: per kilogram of wax and oil,
-- per piece of vessel and wick.
ALTER TABLE settings ADD COLUMN currency TEXT NOT NULL DEFAULT '' CHECK (length(currency) <= 8);
ALTER TABLE settings ADD COLUMN scale_step REAL NOT NULL DEFAULT 1 CHECK (scale_step BETWEEN 0.001 AND 100);
ALTER TABLE settings ADD COLUMN melter REAL CHECK (melter BETWEEN 10 AND 1000000);
ALTER TABLE settings ADD COLUMN bench_places INTEGER CHECK (bench_places BETWEEN 1 AND 60);

ALTER TABLE wax ADD COLUMN price REAL CHECK (price BETWEEN 0 AND 1000000);
ALTER TABLE wax ADD COLUMN on_hand REAL CHECK (on_hand BETWEEN 0 AND 1000000000);
ALTER TABLE wax ADD COLUMN counted_at TEXT CHECK (counted_at IS strftime('%Y-%m-%dT%H:%M:%SZ', counted_at));
ALTER TABLE fragrance ADD COLUMN price REAL CHECK (price BETWEEN 0 AND 1000000);
ALTER TABLE fragrance ADD COLUMN on_hand REAL CHECK (on_hand BETWEEN 0 AND 1000000000);
ALTER TABLE fragrance ADD COLUMN counted_at TEXT CHECK (counted_at IS strftime('%Y-%m-%dT%H:%M:%SZ', counted_at));
ALTER TABLE vessel ADD COLUMN price REAL CHECK (price BETWEEN 0 AND 1000000);
ALTER TABLE vessel ADD COLUMN on_hand INTEGER CHECK (on_hand BETWEEN 0 AND 1000000);
ALTER TABLE vessel ADD COLUMN counted_at TEXT CHECK (counted_at IS strftime('%Y-%m-%dT%H:%M:%SZ', counted_at));
ALTER TABLE wick ADD COLUMN price REAL CHECK (price BETWEEN 0 AND 1000000);
ALTER TABLE wick ADD COLUMN on_hand INTEGER CHECK (on_hand BETWEEN 0 AND 1000000);
ALTER TABLE wick ADD COLUMN counted_at TEXT CHECK (counted_at IS strftime('%Y-%m-%dT%H:%M:%SZ', counted_at));

ALTER TABLE pour ADD COLUMN wax_mass REAL CHECK (wax_mass BETWEEN 0.1 AND 1000000);
ALTER TABLE pour ADD COLUMN oil_mass REAL CHECK (oil_mass BETWEEN 0 AND 1000000);

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

ALTER TABLE candle ADD COLUMN round_id INTEGER REFERENCES round (id) ON DELETE RESTRICT;
ALTER TABLE candle ADD COLUMN round_place INTEGER NOT NULL DEFAULT 0 CHECK (round_place BETWEEN 0 AND 400 AND (round_place = 0) = (round_id IS NULL));
-- Two candles on one place are refused by the journal's rules and not here: a
-- candle of a pour that was withdrawn makes room without being withdrawn itself.
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
ALTER TABLE pour ADD COLUMN sheet_id INTEGER REFERENCES pour_sheet (id) ON DELETE RESTRICT;
CREATE INDEX pour_of_sheet ON pour (sheet_id) WHERE sheet_id IS NOT NULL;
CREATE INDEX pour_sheet_round ON pour_sheet (round_id) WHERE round_id IS NOT NULL;
