-- +goose Up
-- More kinds of record keep a history than those that were there at first:
-- which there are is left to the program, which names each of them.
CREATE TABLE history_wider (
  id          INTEGER PRIMARY KEY AUTOINCREMENT,
  noun        TEXT NOT NULL CHECK (noun <> ''),
  of_id       INTEGER NOT NULL CHECK (of_id >= 1),
  at          TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M:%SZ', at)),
  kind        TEXT NOT NULL CHECK (kind IN ('written', 'corrected', 'withdrawn', 'restored')),
  before_json TEXT CHECK (json_valid(before_json)),
  after_json  TEXT NOT NULL CHECK (json_valid(after_json)),
  CHECK ((before_json IS NULL) = (kind = 'written'))
) STRICT;
INSERT INTO history_wider SELECT id, noun, of_id, at, kind, before_json, after_json FROM history;
DROP TABLE history;
ALTER TABLE history_wider RENAME TO history;
CREATE INDEX history_of ON history (noun, of_id);
