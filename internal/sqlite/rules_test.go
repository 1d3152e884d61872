package sqlite_test

import (
	"math"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
)

// refused saves something that must be refused at a field, and asserts that
// the journal is as it was.
func (b bench) refused(t *testing.T, field string, do func(*sqlite.Tx) error) {
	t.Helper()
	before := got(b.Revision(t.Context()))(t)
	wantProblem(t, b.write(t, do), field)
	if after := got(b.Revision(t.Context()))(t); after != before {
		t.Errorf("a refused save left %d lines of history", after-before)
	}
}

func (b bench) refusedBurn(t *testing.T, field string, x journal.Burn) {
	t.Helper()
	b.refused(t, field, func(tx *sqlite.Tx) error { return tx.SaveBurn(&x) })
}

func (b bench) refusedCheck(t *testing.T, field string, x journal.Check) {
	t.Helper()
	b.refused(t, field, func(tx *sqlite.Tx) error { return tx.SaveCheck(&x) })
}

func TestRulesOfNounsHoldWithinTheTransaction(t *testing.T) {
	b := newBench(t)
	for name, c := range map[string]struct {
		field string
		save  func(*sqlite.Tx) error
	}{
		"wax without a name": {"name", func(tx *sqlite.Tx) error { return tx.SaveWax(&journal.Wax{Family: "soy"}) }},
		"wax whose load has no basis": {"load_basis", func(tx *sqlite.Tx) error {
			return tx.SaveWax(&journal.Wax{Name: "X", Family: "soy", Load: journal.Range[quantity.Fraction]{High: p(quantity.Fraction(0.1))}})
		}},
		"fragrance whose maximum has no basis": {"max_basis", func(tx *sqlite.Tx) error {
			return tx.SaveFragrance(&journal.Fragrance{Name: "X", MaxLoad: p(quantity.Fraction(0.1))})
		}},
		"vessel too narrow": {"inner_width", func(tx *sqlite.Tx) error {
			return tx.SaveVessel(&journal.Vessel{Name: "X", Shape: journal.Round, Material: "glass", InnerWidth: 9})
		}},
		"ladder of an unknown kind": {"kind", func(tx *sqlite.Tx) error { return tx.SaveLadder(&journal.Ladder{Name: "X", Kind: "reed"}) }},
		"wick without a label":      {"label", func(tx *sqlite.Tx) error { return tx.SaveWick(&journal.Wick{Ladder: b.st.Ladder.ID}) }},
		"pour tomorrow": {"at", func(tx *sqlite.Tx) error {
			return tx.SavePour(&journal.Pour{At: b.clock.after(24), Wax: b.st.Wax.ID, LoadBasis: journal.OfWax})
		}},
		"candle of thirteen wicks": {"wicks", func(tx *sqlite.Tx) error {
			return tx.SaveCandle(&journal.Candle{Pour: b.st.Pour.ID, Vessel: b.st.Vessel.ID, Wick: b.st.Wicks[0].ID, Wicks: 13})
		}},
		"candle with a figure for a letter": {"letter", func(tx *sqlite.Tx) error {
			return tx.SaveCandle(&journal.Candle{Pour: b.st.Pour.ID, Vessel: b.st.Vessel.ID, Wick: b.st.Wicks[0].ID, Wicks: 1, Letter: "7"})
		}},
		"candle with a taken letter": {"letter", func(tx *sqlite.Tx) error {
			return tx.SaveCandle(&journal.Candle{Pour: b.st.Pour.ID, Vessel: b.st.Vessel.ID, Wick: b.st.Wicks[0].ID, Wicks: 1, Letter: "b"})
		}},
		"pour with a taken number": {"number", func(tx *sqlite.Tx) error {
			return tx.SavePour(&journal.Pour{Number: 1, At: b.clock.at, Wax: b.st.Wax.ID, LoadBasis: journal.OfWax})
		}},
		"burn in a draught of an unknown word": {"", func(tx *sqlite.Tx) error {
			return tx.SaveBurn(&journal.Burn{Candle: b.st.Candles[0].ID, LitAt: b.clock.at, Draught: "gale"})
		}},
		"vessel of a width that is no number": {"", func(tx *sqlite.Tx) error {
			return tx.SaveVessel(&journal.Vessel{Name: "X", Shape: journal.Round, Material: "glass", InnerWidth: quantity.Millimetres(math.NaN())})
		}},
	} {
		t.Run(name, func(t *testing.T) {
			if name == "vessel of a width that is no number" {
				before := got(b.Revision(t.Context()))(t)
				if err := b.write(t, c.save); err == nil || got(b.Revision(t.Context()))(t) != before {
					t.Errorf("got error %v", err)
				}
				return
			}
			b.refused(t, c.field, c.save)
		})
	}
}

func TestUnknownReferencesAreProblemsOfTheirField(t *testing.T) {
	b := newBench(t)
	ok := journal.Pour{At: b.clock.at, Wax: b.st.Wax.ID, LoadBasis: journal.OfWax}
	candle := journal.Candle{Pour: b.st.Pour.ID, Vessel: b.st.Vessel.ID, Wick: b.st.Wicks[0].ID, Wicks: 1}
	for field, save := range map[string]func(*sqlite.Tx) error{
		"ladder":    func(tx *sqlite.Tx) error { return tx.SaveWick(&journal.Wick{Ladder: 99, Label: "1"}) },
		"wax":       func(tx *sqlite.Tx) error { x := ok; x.Wax = 99; return tx.SavePour(&x) },
		"fragrance": func(tx *sqlite.Tx) error { x := ok; x.Fragrance = p(journal.ID(99)); return tx.SavePour(&x) },
		"pour":      func(tx *sqlite.Tx) error { x := candle; x.Pour = 99; return tx.SaveCandle(&x) },
		"vessel":    func(tx *sqlite.Tx) error { x := candle; x.Vessel = 99; return tx.SaveCandle(&x) },
		"wick":      func(tx *sqlite.Tx) error { x := candle; x.Wick = 99; return tx.SaveCandle(&x) },
		"candle":    func(tx *sqlite.Tx) error { return tx.SaveBurn(&journal.Burn{Candle: 99, LitAt: b.clock.at}) },
		"sitting": func(tx *sqlite.Tx) error {
			return tx.SaveBurn(&journal.Burn{Candle: b.st.Candles[0].ID, LitAt: b.clock.at, Sitting: p(journal.ID(99))})
		},
		"burn": func(tx *sqlite.Tx) error {
			return tx.SaveCheck(&journal.Check{Burn: 99, At: b.clock.at, Full: true})
		},
	} {
		t.Run(field, func(t *testing.T) { b.refused(t, field, save) })
	}
}

func TestBurnsOfOneCandle(t *testing.T) {
	b := newBench(t)
	c := b.st.Candles[0]
	first := b.light(t, c)
	if first.Number != 1 || first.Sitting == nil {
		t.Errorf("first burn: %+v", first)
	}
	t.Run("cannot be lit twice at once", func(t *testing.T) {
		b.refusedBurn(t, "candle", journal.Burn{Candle: c.ID, LitAt: b.clock.at})
	})
	b.clock.wait(3 * time.Hour)
	first = b.snuff(t, first)
	t.Run("cannot overlap", func(t *testing.T) {
		b.refusedBurn(t, "lit_at", journal.Burn{Candle: c.ID, LitAt: b.clock.after(1), OutAt: p(b.clock.after(2)), Ending: journal.Snuffed})
	})
	t.Run("cannot begin before the pour", func(t *testing.T) {
		b.refusedBurn(t, "lit_at", journal.Burn{Candle: c.ID, LitAt: b.st.Pour.At.Add(-time.Hour), OutAt: p(b.st.Pour.At.Add(time.Hour)), Ending: journal.Snuffed})
	})
	t.Run("keep their candle, number and sitting when corrected", func(t *testing.T) {
		x := first
		x.Candle, x.Number, x.Sitting, x.Place = b.st.Candles[1].ID, 7, nil, "sill"
		must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveBurn(&x) }))
		want := first
		want.Version, want.Place = 3, "sill"
		if diff := cmp.Diff(want, x); diff != "" {
			t.Error(diff)
		}
		first = x
	})
	t.Run("keep the number of a withdrawn one taken", func(t *testing.T) {
		b.clock.wait(2 * time.Hour)
		second := b.light(t, c)
		must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounBurn, second.ID, "lit the wrong one") }))
		if third := b.light(t, c); third.Number != 3 {
			t.Errorf("got number %d after a withdrawn burn 2", third.Number)
		}
	})
	t.Run("cannot go on after one that spent the candle", func(t *testing.T) {
		x := first
		x.Ending = journal.Spent
		b.refusedBurn(t, "ending", x)
	})
}

func TestASpentOrCrackedCandleIsNotLitAgain(t *testing.T) {
	b := newBench(t)
	spent := b.light(t, b.st.Candles[0])
	cracked := b.light(t, b.st.Candles[1])
	b.clock.wait(time.Hour)
	must(t, b.write(t, func(tx *sqlite.Tx) error {
		return tx.SaveCheck(&journal.Check{Burn: cracked.ID, At: tx.Now(), Odd: []journal.Odd{journal.Cracked, journal.FlameOnPool, journal.Cracked}})
	}))
	b.snuff(t, cracked)
	spent.OutAt, spent.Ending = p(b.clock.at), journal.Spent
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveBurn(&spent) }))
	b.clock.wait(2 * time.Hour)
	b.refusedBurn(t, "candle", journal.Burn{Candle: b.st.Candles[0].ID, LitAt: b.clock.at})
	b.refusedBurn(t, "candle", journal.Burn{Candle: b.st.Candles[1].ID, LitAt: b.clock.at})

	t.Run("unless the burn was before the crack", func(t *testing.T) {
		early := journal.Burn{Candle: b.st.Candles[1].ID, LitAt: b.clock.after(-5), OutAt: p(b.clock.after(-3)), Ending: journal.Snuffed}
		must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveBurn(&early) }))
	})
	t.Run("unless the tick was a slip", func(t *testing.T) {
		c := got(b.BurnLog(t.Context(), cracked.ID))(t).Checks[0]
		if diff := cmp.Diff([]journal.Odd{journal.FlameOnPool, journal.Cracked}, c.Odd); diff != "" {
			t.Errorf("odd events in the list's order, each once (-want +got):\n%s", diff)
		}
		c.Odd = []journal.Odd{journal.FlameOnPool}
		must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveCheck(&c) }))
		b.light(t, b.st.Candles[1])
	})
}

func TestChecksOfOneBurn(t *testing.T) {
	b := newBench(t)
	x := b.light(t, b.st.Candles[0])
	b.clock.wait(time.Hour)
	c := b.look(t, x, 30)
	w := mm(40)
	t.Run("not before the match", func(t *testing.T) {
		b.refusedCheck(t, "at", journal.Check{Burn: x.ID, At: b.clock.after(-0.1), WidthA: w})
	})
	t.Run("not in the future", func(t *testing.T) {
		b.refusedCheck(t, "at", journal.Check{Burn: x.ID, At: b.clock.after(1.1), WidthA: w})
	})
	t.Run("not twice in one minute", func(t *testing.T) {
		b.refusedCheck(t, "at", journal.Check{Burn: x.ID, At: b.clock.at.Add(30 * time.Second), WidthA: w})
	})
	t.Run("not wider than the vessel", func(t *testing.T) {
		b.refusedCheck(t, "width_a", journal.Check{Burn: x.ID, At: b.clock.after(0.5), WidthA: mm(77.1)})
		must(t, b.write(t, func(tx *sqlite.Tx) error {
			return tx.SaveCheck(&journal.Check{Burn: x.ID, At: b.clock.after(0.5), WidthA: mm(77)})
		}))
	})
	t.Run("not by an unknown word", func(t *testing.T) {
		b.refusedCheck(t, "", journal.Check{Burn: x.ID, At: b.clock.after(0.6), Odd: []journal.Odd{"purring"}})
		b.refusedCheck(t, "soot", journal.Check{Burn: x.ID, At: b.clock.after(0.6), Soot: "clouds"})
	})
	t.Run("by the ruler of the settings", func(t *testing.T) {
		set := got(b.Settings(t.Context()))(t)
		set.Ruler = 25.4 / 16
		must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveSettings(&set) }))
		must(t, b.write(t, func(tx *sqlite.Tx) error {
			return tx.SaveCheck(&journal.Check{Burn: x.ID, At: b.clock.after(0.7), WidthA: mm(77.5)})
		}))
	})
	x = b.snuff(t, x)
	t.Run("hold the burn's ends", func(t *testing.T) {
		y := x
		y.LitAt = b.clock.after(0.55)
		b.refusedBurn(t, "lit_at", y)
		y = x
		y.OutAt = p(b.clock.after(0.9))
		b.refusedBurn(t, "out_at", y)
	})
	t.Run("stay with their burn", func(t *testing.T) {
		other := b.light(t, b.st.Candles[1])
		c.Burn, c.Note = other.ID, "moved"
		must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveCheck(&c) }))
		if c.Burn != x.ID {
			t.Errorf("the check moved to burn %d", c.Burn)
		}
	})
}

func TestAPourDoesNotMovePastItsBurns(t *testing.T) {
	b := newBench(t)
	x := b.light(t, b.st.Candles[0])
	pour := b.st.Pour
	pour.At = start.Add(time.Minute)
	b.refused(t, "at", func(tx *sqlite.Tx) error { y := pour; return tx.SavePour(&y) })
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounBurn, x.ID, "") }))
	must(t, b.write(t, func(tx *sqlite.Tx) error { y := pour; return tx.SavePour(&y) }))
	b.refused(t, "lit_at", func(tx *sqlite.Tx) error { return tx.Restore(journal.NounBurn, x.ID) })
}

func TestNumbersAndLettersFollow(t *testing.T) {
	b := newBench(t)
	pour := journal.Pour{At: b.clock.at, Wax: b.st.Wax.ID, LoadBasis: journal.OfWax}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SavePour(&pour) }))
	if pour.Number != 2 {
		t.Errorf("got pour %d after pour 1", pour.Number)
	}
	save := func(letter string) string {
		x := journal.Candle{Pour: pour.ID, Vessel: b.st.Vessel.ID, Wick: b.st.Wicks[0].ID, Wicks: 1, Letter: letter}
		must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveCandle(&x) }))
		return x.Code()
	}
	codes := []string{save(""), save("c"), save(""), save("")}
	if diff := cmp.Diff([]string{"2-A", "2-C", "2-B", "2-D"}, codes); diff != "" {
		t.Error(diff)
	}
	last := got(b.CandleByCode(t.Context(), 2, "d"))(t)
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounCandle, last.ID, "dropped") }))
	if code := save(""); code != "2-E" {
		t.Errorf("got %s after a withdrawn 2-D", code)
	}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounPour, pour.ID, "scorched") }))
	b.refused(t, "pour", func(tx *sqlite.Tx) error {
		return tx.SaveCandle(&journal.Candle{Pour: pour.ID, Vessel: b.st.Vessel.ID, Wick: b.st.Wicks[0].ID, Wicks: 1})
	})
	_, err := b.CandleByCode(t.Context(), 2, "Z")
	wantIs(t, err, journal.ErrNotFound)
}
