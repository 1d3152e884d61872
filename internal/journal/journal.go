// Package journal has the nouns of a candle studio's test-burn journal:
// the shelf (waxes, fragrances, vessels, ladders of wicks), pours, candles,
// burns and checks, and the rules that must hold between them.
//
// It knows nothing of SQL, of pages or of the clock: whoever saves a noun
// hands the facts its rules need. It refuses to guess: what was not written
// down is nil or empty, never zero.
package journal

import "time"

// ID names one record of one kind within a journal; 0 is not yet saved.
type ID int64

// Meta is what every record carries beside its facts.
type Meta struct {
	ID      ID        `json:"id"`
	Version int       `json:"version"` // rises by one with every correction
	Created time.Time `json:"created"`
	// Gone is when the record was retired (shelf) or withdrawn (the rest);
	// nil while it counts. Nothing is ever deleted.
	Gone *time.Time `json:"gone,omitempty"`
	// GoneWhy is the reason given, if any.
	GoneWhy string `json:"gone_why,omitempty"`
}

// IsGone reports whether the record was retired or withdrawn.
func (m Meta) IsGone() bool { return m.Gone != nil }

// Noun is a kind of record, as the history names it.
type Noun string

// The kinds of record that keep a history.
const (
	NounWax       Noun = "wax"
	NounFragrance Noun = "fragrance"
	NounVessel    Noun = "vessel"
	NounLadder    Noun = "ladder"
	NounWick      Noun = "wick"
	NounPour      Noun = "pour"
	NounCandle    Noun = "candle"
	NounBurn      Noun = "burn"
	NounCheck     Noun = "check"
	NounSettings  Noun = "settings"
	NounPhoto     Noun = "photo"
	NounSmelling  Noun = "smelling"
	NounCup       Noun = "cup"
	NounScore     Noun = "score"
	NounVerdict   Noun = "verdict"
	NounMould     Noun = "mould"
	NounCast      Noun = "cast"
	NounSetCheck  Noun = "set check"
	NounRound     Noun = "round"
	NounPourSheet Noun = "pour sheet"
)

// Change is one line of a record's history: what was there before and after.
type Change struct {
	ID     ID
	Noun   Noun
	Of     ID // the record that changed
	At     time.Time
	Kind   ChangeKind
	Before []byte // JSON of the record before; nil when it was written first
	After  []byte // JSON of the record after
}

// ChangeKind says what was done to a record.
type ChangeKind string

// What can be done to a record.
const (
	Written   ChangeKind = "written"
	Corrected ChangeKind = "corrected"
	Withdrawn ChangeKind = "withdrawn" // retired, for things on the shelf
	Restored  ChangeKind = "restored"
)
