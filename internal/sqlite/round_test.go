package sqlite_test

import (
	"context"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
)

// studioRound is a round of two rungs, two candles of each, in a small studio.
func studioRound(x testkit.Studio) journal.TestRound {
	f := journal.RoundFactors{Vessels: []journal.ID{x.Vessel.ID}, LoadBasis: journal.OfWax,
		Wicks: []journal.RoundWick{{Wick: x.Wicks[0].ID, Wicks: 1}, {Wick: x.Wicks[1].ID, Wicks: 1}}}
	r := journal.TestRound{Question: "Which rung?", Wax: x.Wax.ID, Factors: f, Copies: 2, Seed: 7,
		Days: journal.RoundDays{Hours: 4, PerEvening: 1, BenchPlaces: 6, Weekdays: []time.Weekday{time.Friday}}}
	for i := range 4 {
		r.Places = append(r.Places, journal.RoundPlace{Number: i + 1, Melt: 1, Copy: 1 + i/2, Vessel: x.Vessel.ID, Wick: x.Wicks[i%2].ID, Wicks: 1, Bench: i + 1, Evening: 1})
	}
	return r
}

// desk is a journal with a small studio and a round in it.
type desk struct {
	*testing.T
	store  *sqlite.Store
	studio testkit.Studio
	round  journal.TestRound
}

func newDesk(t *testing.T) *desk {
	t.Helper()
	now := time.Date(2026, 4, 1, 12, 0, 0, 0, time.UTC)
	d := &desk{T: t, store: testkit.Store(t, func() time.Time { return now })}
	d.studio = testkit.NewStudio(t, d.store)
	d.round = studioRound(d.studio)
	testkit.Write(t, d.store, func(tx *sqlite.Tx) error { return tx.SaveRound(&d.round) })
	return d
}

func (d *desk) try(do func(*sqlite.Tx) error) error { return d.store.Write(context.Background(), do) }

// seat writes a candle on a place of the round.
func (d *desk) seat(place int) (journal.Candle, error) {
	c := journal.Candle{Pour: d.studio.Pour.ID, Vessel: d.studio.Vessel.ID, Wick: d.studio.Wicks[0].ID, Wicks: 1, Round: &d.round.ID, RoundPlace: place}
	return c, d.try(func(tx *sqlite.Tx) error { return tx.SaveCandle(&c) })
}

func (d *desk) seated(place int) journal.Candle {
	d.Helper()
	c, err := d.seat(place)
	if err != nil {
		d.Fatal(err)
	}
	return c
}

// says asserts that a write was refused with a sentence beside a field.
func (d *desk) says(err error, field, text string) {
	d.Helper()
	want := journal.Invalid(field, text)
	if err == nil || err.Error() != want.Error() {
		d.Errorf("got %v, want %q", err, text)
	}
}

func TestARoundIsReadAsItWasKept(t *testing.T) {
	d := newDesk(t)
	got, err := d.store.Round(context.Background(), d.round.ID)
	if err != nil || len(got.Places) != 4 || got.Seed != 7 || got.Days.Weekdays[0] != time.Friday || got.Places[3].Bench != 4 {
		t.Errorf("got %+v, %v", got, err)
	}
}

func TestADrawIsFrozenByItsFirstPour(t *testing.T) {
	d := newDesk(t)
	other := d.round
	other.Seed = 8
	if err := d.try(func(tx *sqlite.Tx) error { return tx.SaveRound(&other) }); err != nil {
		t.Fatal("before the first pour:", err)
	}
	d.round = other
	c := d.seated(1)
	other.Seed = 9
	d.says(d.try(func(tx *sqlite.Tx) error { return tx.SaveRound(&other) }), "", "Candles of this round are poured. Its question may be worded anew and its days moved; what it compares stays.")
	moved := d.round
	moved.Question, moved.Days.Burns = "Which rung, then?", 3
	moved.Places[2].Evening, moved.Places[2].Bench = 2, 6
	if err := d.try(func(tx *sqlite.Tx) error { return tx.SaveRound(&moved) }); err != nil {
		t.Error("moving its days:", err)
	}
	if err := d.try(func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounCandle, c.ID, "") }); err != nil {
		t.Fatal(err)
	}
	other = moved
	other.Seed = 10
	if err := d.try(func(tx *sqlite.Tx) error { return tx.SaveRound(&other) }); err != nil {
		t.Error("after its only candle was withdrawn:", err)
	}
}

func TestAPlaceTakesOneCandle(t *testing.T) {
	d := newDesk(t)
	c := d.seated(2)
	_, err := d.seat(2)
	d.says(err, "round_place", "Candle "+c.Code()+" has this place already.")
	_, err = d.seat(5)
	d.says(err, "round_place", "The round has places 1 to 4.")
	if err := d.try(func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounCandle, c.ID, "broken") }); err != nil {
		t.Fatal(err)
	}
	next := d.seated(2)
	err = d.try(func(tx *sqlite.Tx) error { return tx.Restore(journal.NounCandle, c.ID) })
	d.says(err, "", "Candle "+next.Code()+" has taken its place in the round meanwhile.")
}

func TestAWithdrawnPourMakesRoom(t *testing.T) {
	d := newDesk(t)
	d.seated(2)
	first := d.studio.Pour
	if err := d.try(func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounPour, first.ID, "scorched") }); err != nil {
		t.Fatal(err)
	}
	again := journal.Pour{At: first.At, Wax: d.studio.Wax.ID, LoadBasis: journal.OfWax}
	testkit.Write(t, d.store, func(tx *sqlite.Tx) error { return tx.SavePour(&again) })
	d.studio.Pour = again
	next := d.seated(2)
	err := d.try(func(tx *sqlite.Tx) error { return tx.Restore(journal.NounPour, first.ID) })
	d.says(err, "", "Candle "+next.Code()+" has taken its place in the round meanwhile.")
}

func TestAWithdrawnRoundKeepsItsCandles(t *testing.T) {
	d := newDesk(t)
	c := d.seated(1)
	if err := d.try(func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounRound, d.round.ID, "no time") }); err != nil {
		t.Fatal(err)
	}
	_, err := d.seat(2)
	d.says(err, "round", "This round was withdrawn.")
	c.Note = "kept"
	if err := d.try(func(tx *sqlite.Tx) error { return tx.SaveCandle(&c) }); err != nil {
		t.Error("a candle of a withdrawn round can be corrected:", err)
	}
	lines, err := d.store.RoundCandles(context.Background(), d.round.ID)
	if err != nil || len(lines) != 1 || lines[0].Candle.RoundPlace != 1 {
		t.Errorf("got %v, %v", lines, err)
	}
	if err := d.try(func(tx *sqlite.Tx) error { return tx.Restore(journal.NounRound, d.round.ID) }); err != nil {
		t.Fatal(err)
	}
	d.seated(2)
}

func TestARoundNamesThingsOfTheShelf(t *testing.T) {
	d := newDesk(t)
	for field, spoil := range map[string]func(*journal.TestRound){
		"vessels": func(r *journal.TestRound) { r.Factors.Vessels = append(r.Factors.Vessels, 99) },
		"rungs": func(r *journal.TestRound) {
			r.Factors.Wicks = append(r.Factors.Wicks, journal.RoundWick{Wick: 99, Wicks: 1})
		},
	} {
		r := studioRound(d.studio)
		spoil(&r)
		text := map[string]string{"vessels": "A vessel of the round is not in the journal.", "rungs": "A wick of the round is not in the journal."}[field]
		d.says(d.try(func(tx *sqlite.Tx) error { return tx.SaveRound(&r) }), field, text)
	}
}

func TestAPlaceBelongsToItsRound(t *testing.T) {
	d := newDesk(t)
	load := quantity.Fraction(0.08)
	for text, spoil := range map[string]func(*journal.TestRound){
		"The places of a round are numbered in order: place 3 stands where 2 belongs.": func(r *journal.TestRound) { r.Places[1].Number = 3 },
		"Place 2 holds a vessel or a wick that the round does not compare.":            func(r *journal.TestRound) { r.Places[1].Wicks = 2 },
		"Place 2 holds a load or a pour temperature that the round does not compare.":  func(r *journal.TestRound) { r.Places[1].Load = &load },
		"Place 2 lacks its melt, its place on the bench or its evening.":               func(r *journal.TestRound) { r.Places[1].Melt = 0 },
	} {
		r := studioRound(d.studio)
		spoil(&r)
		d.says(d.try(func(tx *sqlite.Tx) error { return tx.SaveRound(&r) }), "", text)
	}
}
