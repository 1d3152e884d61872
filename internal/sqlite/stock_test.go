package sqlite_test

import (
	"errors"
	"math"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
)

func TestCorrectionKeepsPriceAndCount(t *testing.T) {
	b := newBench(t)
	w := b.st.Wax
	w.Price, w.OnHand = p(18.5), p(quantity.Grams(4200))
	save := func() {
		t.Helper()
		must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveWax(&w) }))
	}
	save()
	b.clock.wait(48 * time.Hour)
	w.CountedAt, w.Note = nil, "as a form sends it: without the moment"
	save()
	kept := got(b.Wax(t.Context(), w.ID))(t)
	if *kept.Price != 18.5 || *kept.OnHand != 4200 || kept.CountedAt == nil || !kept.CountedAt.Equal(start) {
		t.Errorf("after a correction: %v, %v, counted at %v", kept.Price, kept.OnHand, kept.CountedAt)
	}
	w.OnHand = p(quantity.Grams(4000))
	save()
	if kept = got(b.Wax(t.Context(), w.ID))(t); !kept.CountedAt.Equal(b.clock.at) {
		t.Errorf("another number is counted at %v", kept.CountedAt)
	}
	x := got(b.Vessel(t.Context(), b.st.Vessel.ID))(t)
	x.Price, x.OnHand = p(1.2), p(0)
	k := got(b.Wick(t.Context(), b.st.Wicks[0].ID))(t)
	k.OnHand = p(12)
	f := journal.Fragrance{Name: "Fig", MaxBasis: journal.OfWax, Stock: journal.Stock[quantity.Grams]{OnHand: p(quantity.Grams(500))}}
	must(t, b.write(t, func(tx *sqlite.Tx) error {
		if err := tx.SaveVessel(&x); err != nil {
			return err
		}
		if err := tx.SaveWick(&k); err != nil {
			return err
		}
		return tx.SaveFragrance(&f)
	}))
	for what, at := range map[string]*time.Time{
		"vessel": got(b.Vessel(t.Context(), x.ID))(t).CountedAt, "wick": got(b.Wick(t.Context(), k.ID))(t).CountedAt, "fragrance": got(b.Fragrance(t.Context(), f.ID))(t).CountedAt,
	} {
		if at == nil || !at.Equal(b.clock.at) {
			t.Errorf("the %s is counted at %v", what, at)
		}
	}
	if moved := b.write(t, func(tx *sqlite.Tx) error { return tx.MoveWick(k.ID, 2) }); moved != nil || *got(b.Wick(t.Context(), k.ID))(t).OnHand != 12 {
		t.Errorf("moving a rung lost its count (%v)", moved)
	}
}

// Everything of the studio was poured from one pour; what was poured at the
// moment of counting was on the shelf no more.
func TestTakenSinceTheCount(t *testing.T) {
	b := newBench(t)
	since := b.st.Pour.At
	taken := func(n journal.Noun, id journal.ID, at time.Time) journal.Taken {
		t.Helper()
		return got(b.Taken(t.Context(), n, id, at))(t)
	}
	if got := taken(journal.NounWax, b.st.Wax.ID, since); got != (journal.Taken{}) {
		t.Errorf("at the moment of the pour: %+v", got)
	}
	two := journal.Pour{At: since.Add(time.Hour), Wax: b.st.Wax.ID, LoadBasis: journal.OfWax, WaxMass: p(quantity.Grams(820))}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SavePour(&two) }))
	c := journal.Candle{Pour: two.ID, Vessel: b.st.Vessel.ID, Wick: b.st.Wicks[1].ID, Wicks: 3}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveCandle(&c) }))
	before := since.Add(-time.Second)
	if got := taken(journal.NounWax, b.st.Wax.ID, before); got != (journal.Taken{Pours: 2, Weighed: 1, Mass: 820}) {
		t.Errorf("wax: %+v", got)
	}
	if got := taken(journal.NounVessel, b.st.Vessel.ID, since); got != (journal.Taken{Pours: 1, Pieces: 1}) {
		t.Errorf("vessels: %+v", got)
	}
	if got := taken(journal.NounWick, b.st.Wicks[1].ID, since); got != (journal.Taken{Pours: 1, Pieces: 3}) {
		t.Errorf("wicks: %+v", got)
	}
	_, err := b.Taken(t.Context(), journal.NounCandle, 1, since)
	wantIs(t, err, journal.ErrNotFound)
}

// Takings says of everything that was counted what Taken says of one thing.
func TestTakingsAreThoseOfEachThing(t *testing.T) {
	b := newBench(t)
	w, x, k := b.st.Wax, got(b.Vessel(t.Context(), b.st.Vessel.ID))(t), got(b.Wick(t.Context(), b.st.Wicks[1].ID))(t)
	f := journal.Fragrance{Name: "Fig", MaxBasis: journal.OfWax, Stock: journal.Stock[quantity.Grams]{OnHand: p(quantity.Grams(500))}}
	w.OnHand, x.OnHand, k.OnHand = p(quantity.Grams(4200)), p(9), p(12)
	must(t, b.write(t, func(tx *sqlite.Tx) error {
		return errors.Join(tx.SaveWax(&w), tx.SaveVessel(&x), tx.SaveWick(&k), tx.SaveFragrance(&f))
	}))
	b.clock.wait(48 * time.Hour)
	for i, oil := range []*quantity.Grams{p(quantity.Grams(60)), nil} {
		two := journal.Pour{At: b.clock.at.Add(-time.Duration(i+1) * time.Hour), Wax: w.ID, Fragrance: &f.ID, Load: p(quantity.Fraction(0.08)), LoadBasis: journal.OfWax, WaxMass: p(quantity.Grams(750)), OilMass: oil}
		must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SavePour(&two) }))
		c := journal.Candle{Pour: two.ID, Vessel: x.ID, Wick: k.ID, Wicks: 3}
		must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveCandle(&c) }))
	}
	all := got(b.Takings(t.Context()))(t)
	for noun, id := range map[journal.Noun]journal.ID{journal.NounWax: w.ID, journal.NounFragrance: f.ID, journal.NounVessel: x.ID, journal.NounWick: k.ID} {
		if one := got(b.Taken(t.Context(), noun, id, start))(t); all.Of(noun, id) != one || one.Pours == 0 {
			t.Errorf("%s: %+v, by itself %+v", noun, all.Of(noun, id), one)
		}
	}
	if x := all.Of(journal.NounFragrance, f.ID); x != (journal.Taken{Pours: 2, Weighed: 1, Mass: 60}) || all.Of(journal.NounWick, k.ID).Pieces != 6 {
		t.Errorf("oil %+v, all %+v", x, all)
	}
	if never := all.Of(journal.NounWick, b.st.Wicks[0].ID); never != (journal.Taken{}) {
		t.Errorf("a wick that was never counted: %+v", never)
	}
}

// Where nobody weighed a pour in, its candles' fills say what it took: of 270 g
// at 8 % of the wax 250 g are wax and 20 g oil, at 10 % of the total 243 g and
// 27 g. It is told whole only when every candle says, and no mould took of it.
func TestTakenByTheFillsOfCandles(t *testing.T) {
	b := newBench(t)
	f := journal.Fragrance{Name: "Fig", MaxBasis: journal.OfWax}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveFragrance(&f) }))
	b.clock.wait(48 * time.Hour)
	since := b.clock.at.Add(-12 * time.Hour)
	pour := func(load float64, basis journal.Basis, fills ...*quantity.Grams) journal.ID {
		t.Helper()
		x := journal.Pour{At: b.clock.at.Add(-time.Hour), Wax: b.st.Wax.ID, Fragrance: &f.ID, Load: p(quantity.Fraction(load)), LoadBasis: basis}
		must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SavePour(&x) }))
		for _, g := range fills {
			c := journal.Candle{Pour: x.ID, Vessel: b.st.Vessel.ID, Wick: b.st.Wicks[0].ID, Wicks: 1, Filled: g}
			must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveCandle(&c) }))
		}
		return x.ID
	}
	hold := func(what string, pours, weighed int, wax, oil quantity.Grams) {
		t.Helper()
		for noun, want := range map[journal.Noun]quantity.Grams{journal.NounWax: wax, journal.NounFragrance: oil} {
			id := map[journal.Noun]journal.ID{journal.NounWax: b.st.Wax.ID, journal.NounFragrance: f.ID}[noun]
			x := got(b.Taken(t.Context(), noun, id, since))(t)
			if x.Pours != pours || x.Weighed != weighed || math.Abs(float64(x.Mass-want)) > 1e-9 {
				t.Errorf("%s, %s: %+v, want %d, %d, %v g", what, noun, x, pours, weighed, float64(want))
			}
		}
	}
	whole := pour(0.08, journal.OfWax, p(quantity.Grams(135)), p(quantity.Grams(135)))
	hold("at 8 % of the wax", 1, 1, 250, 20)
	pour(0.1, journal.OfTotal, p(quantity.Grams(270)))
	hold("and at 10 % of the total", 2, 2, 493, 47)
	pour(0.08, journal.OfWax, p(quantity.Grams(270)), nil)
	hold("and one candle that does not say", 3, 2, 743, 67)
	pour(0.08, journal.OfWax)
	hold("and a pour without candles", 4, 2, 743, 67)
	m := journal.Mould{Name: "Cones", Cavities: 4, Detail: journal.Undercut}
	must(t, b.write(t, func(tx *sqlite.Tx) error {
		return errors.Join(tx.SaveMould(&m), tx.SaveCast(&journal.Cast{Pour: whole, Mould: m.ID, Pieces: 4}))
	}))
	hold("once moulded pieces were poured too", 4, 1, 743, 67)
}

func TestUnlitAreThoseThatNeverBurned(t *testing.T) {
	b := newBench(t)
	codes := func(limit int) string {
		t.Helper()
		s := ""
		for _, m := range got(b.Unlit(t.Context(), limit))(t) {
			if m.Wax.Name != b.st.Wax.Name || m.Vessel.ID != b.st.Vessel.ID {
				t.Errorf("%s is made of %+v", m.Candle.Code(), m)
			}
			s += m.Candle.Letter
		}
		return s
	}
	all := codes(99)
	if len(all) != len(b.st.Candles) || len(codes(1)) != 1 {
		t.Fatalf("unlit: %s of %d", all, len(b.st.Candles))
	}
	x := b.light(t, b.st.Candles[0])
	if codes(99) == all {
		t.Error("a lit candle is taken for one that waits")
	}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounBurn, x.ID, "slip") }))
	if now := codes(99); now != all {
		t.Errorf("once its burn is withdrawn: %s", now)
	}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounPour, b.st.Pour.ID, "slip") }))
	if now := codes(99); now != "" {
		t.Errorf("of a withdrawn pour: %s", now)
	}
}
