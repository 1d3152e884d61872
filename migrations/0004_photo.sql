-- +goose Up
-- A photo of something that was inspected. The picture lies in a folder beside
-- the journal, under the SHA-256 of its bytes; of_noun and of_id name what it
-- shows, whose table the program knows.
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
) STRICT;
CREATE INDEX photo_of ON photo (of_noun, of_id);
CREATE UNIQUE INDEX photo_once ON photo (of_noun, of_id, hash) WHERE gone_at IS NULL;
