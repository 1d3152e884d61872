-- +goose Up
-- How settings are kept apart when pairings are judged, and what a studio
-- believes before the first burn where that is not the default: one row for
-- each number, lists as value, weight, value, weight.
ALTER TABLE settings ADD COLUMN apart TEXT NOT NULL DEFAULT 'load' CHECK (apart IN ('wax', 'fragrance', 'load'));

CREATE TABLE settings_belief (
  key   TEXT NOT NULL CHECK (key <> ''),
  place INTEGER NOT NULL CHECK (place >= 0),
  value REAL NOT NULL CHECK (value BETWEEN -1e9 AND 1e9),
  PRIMARY KEY (key, place)
) STRICT;
