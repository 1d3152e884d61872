-- +goose Up
-- What a studio decided of a pairing in a setting: accepted, rejected or left
-- open, with a frozen copy of the figures that it rested on. Several may be
-- kept of one pairing; the newest that was not withdrawn counts.
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
