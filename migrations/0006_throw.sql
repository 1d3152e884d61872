-- +goose Up
-- Sessions in which noses score the throw of candles: the session, its candles
-- under their codes, and what each nose made of each. Rooms are cubic metres.
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
