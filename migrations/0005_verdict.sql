-- +goose Up
-- What was decided about a pairing in a setting, with a copy of the figures that
-- it rested on. series names the ladder, the count of wicks, the fragrance and
-- the load as the standings do.
CREATE TABLE verdict (
  id         INTEGER PRIMARY KEY,
  version    INTEGER NOT NULL CHECK (version >= 1),
  created_at TEXT NOT NULL CHECK (created_at IS strftime('%Y-%m-%dT%H:%M:%SZ', created_at)),
  gone_at    TEXT CHECK (gone_at IS strftime('%Y-%m-%dT%H:%M:%SZ', gone_at)),
  gone_why   TEXT NOT NULL CHECK (gone_why = '' OR gone_at IS NOT NULL),
  vessel_id  INTEGER NOT NULL REFERENCES vessel (id) ON DELETE RESTRICT,
  wax_id     INTEGER NOT NULL REFERENCES wax (id) ON DELETE RESTRICT,
  wick_id    INTEGER NOT NULL REFERENCES wick (id) ON DELETE RESTRICT,
  series     TEXT NOT NULL CHECK (series <> ''),
  ruling     TEXT NOT NULL CHECK (ruling IN ('accepted', 'rejected', 'open')),
  at         TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M:%SZ', at)),
  "by"       TEXT NOT NULL CHECK (trim("by") <> '' AND length("by") <= 120),
  why        TEXT NOT NULL CHECK (length(why) <= 4000),
  tip_test   INTEGER NOT NULL CHECK (tip_test IN (0, 1)),
  base_check INTEGER NOT NULL CHECK (base_check IN (0, 1)),
  claimed    REAL CHECK (claimed BETWEEN 0.01 AND 1000),
  hard       INTEGER NOT NULL CHECK (hard >= 0),
  missing    INTEGER NOT NULL CHECK (missing >= 0),
  figures    TEXT NOT NULL CHECK (json_valid(figures)),
  CHECK (ruling <> 'accepted' OR hard = 0),
  CHECK (ruling <> 'rejected' OR trim(why) <> '')
) STRICT;
CREATE INDEX verdict_pairing ON verdict (vessel_id, wick_id, series);
