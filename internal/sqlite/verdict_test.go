package sqlite_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
)

// verdictOn is a verdict on the bench's first candle, with figures of the
// journal as it is.
func (b bench) verdictOn(t *testing.T, change func(*journal.Verdict)) journal.Verdict {
	t.Helper()
	x := journal.Verdict{Vessel: b.st.Vessel.ID, Wick: b.st.Wicks[0].ID, Wicks: 1, Wax: b.st.Wax.ID, Apart: journal.ByLoad, Series: "1.1.none",
		Ruling: journal.LeftOpen, By: " Maren ", Figures: journal.VerdictFigures{Schema: journal.FiguresSchema, At: b.clock.at.Add(300 * time.Millisecond), Revision: got(b.Revision(t.Context()))(t)}}
	if change != nil {
		change(&x)
	}
	return x
}

func (b bench) decide(t *testing.T, change func(*journal.Verdict)) journal.Verdict {
	t.Helper()
	x := b.verdictOn(t, change)
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveVerdict(&x) }))
	return x
}

func TestAVerdictIsKeptWithItsFigures(t *testing.T) {
	b := newBench(t)
	never := journal.HoursSpan{P10: p(quantity.Hours(2.5))}
	full := func(x *journal.Verdict) {
		x.TipTest, x.ClaimedHours = true, p(quantity.Hours(28))
		x.Figures.Candles, x.Figures.Enough, x.Figures.Full = []journal.ID{1, 2}, true, never
		x.Figures.Faults, x.Figures.Label = []journal.FaultCount{{Name: "soot", Burns: 2, Of: 9}}, &journal.LabelFigures{Candles: 3, Mean: 40, Bound: p(quantity.Hours(31.2))}
	}
	first := b.decide(t, func(x *journal.Verdict) { x.Ruling, x.Why = journal.Rejected, "sooty" })
	b.clock.wait(time.Hour)
	second := b.decide(t, full)
	if first.By != "Maren" || !first.At.Equal(start) || !second.At.Equal(start.Add(time.Hour)) {
		t.Errorf("kept as %+v", first)
	}
	list := got(b.VerdictsOn(t.Context(), first.Place()))(t)
	if diff := cmp.Diff([]journal.Verdict{second, first}, list); diff != "" {
		t.Errorf("the figures of one verdict run into another's, or are lost (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(list, got(b.Verdicts(t.Context()))(t)); diff != "" {
		t.Error(diff)
	}
	elsewhere := first.Place()
	elsewhere.Series = "1.1.1-8000"
	if other := got(b.VerdictsOn(t.Context(), elsewhere))(t); other != nil {
		t.Errorf("verdicts of another setting: %v", other)
	}
}

// A correction changes who, why, what was tried by hand and the claimed time;
// what was decided and on what figures stays.
func TestAVerdictIsCorrectedButNotTurnedRound(t *testing.T) {
	b := newBench(t)
	x := b.decide(t, func(x *journal.Verdict) { x.Ruling, x.Why = journal.Rejected, "sooty" })
	want := x
	x.By, x.Why, x.BaseCheck, x.ClaimedHours = "Tilda", "sooty from burn 3", true, p(quantity.Hours(20))
	want.By, want.Why, want.BaseCheck, want.ClaimedHours, want.Version = x.By, x.Why, true, x.ClaimedHours, 2
	x.Ruling, x.Wick, x.Series, x.At, x.Figures = journal.Accepted, 3, "9.9.none", start.Add(-time.Hour), journal.VerdictFigures{Schema: 7}
	// Candles that changed since do not stand in the way of a correction.
	b.light(t, b.st.Candles[0])
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveVerdict(&x) }))
	if diff := cmp.Diff(want, got(b.Verdict(t.Context(), x.ID))(t)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	x.Why = " "
	b.refused(t, "why", func(tx *sqlite.Tx) error { return tx.SaveVerdict(&x) })
	x.Version = 1
	wantIs(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveVerdict(&x) }), journal.ErrConflict)
}

func TestRulesOfVerdictsHoldWithinTheTransaction(t *testing.T) {
	b := newBench(t)
	for name, c := range map[string]struct {
		field  string
		change func(*journal.Verdict)
	}{
		"a ruling nobody knows":     {"ruling", func(x *journal.Verdict) { x.Ruling = "maybe" }},
		"by nobody":                 {"decided_by", func(x *journal.Verdict) { x.By = "  " }},
		"rejected without a reason": {"why", func(x *journal.Verdict) { x.Ruling = journal.Rejected }},
		"accepted over a hard finding": {"ruling", func(x *journal.Verdict) {
			x.Ruling, x.Why, x.Figures.Hard = journal.Accepted, "all the same", []string{"The vessel cracked."}
		}},
		"accepted with something amiss": {"why", func(x *journal.Verdict) {
			x.Ruling, x.TipTest, x.BaseCheck, x.Figures.Missing = journal.Accepted, true, true, []string{"three candles burned"}
		}},
		"accepted and not tried by hand": {"why", func(x *journal.Verdict) { x.Ruling, x.TipTest = journal.Accepted, true }},
		"of a wick nothing was made of":  {"", func(x *journal.Verdict) { x.Wick = 99 }},
		"of two wicks, where one was":    {"", func(x *journal.Verdict) { x.Wicks = 2 }},
		"of a wax that is not there":     {"", func(x *journal.Verdict) { x.Wax = 99 }},
		"of a fragrance not there":       {"fragrance", func(x *journal.Verdict) { x.Fragrance = p(journal.ID(99)) }},
		"of a setting without a name":    {"", func(x *journal.Verdict) { x.Series = "" }},
		"from the future":                {"", func(x *journal.Verdict) { x.At = start.Add(time.Hour) }},
		"with a claim of no time":        {"claimed_hours", func(x *journal.Verdict) { x.ClaimedHours = p(quantity.Hours(0)) }},
	} {
		t.Run(name, func(t *testing.T) {
			x := b.verdictOn(t, c.change)
			b.refused(t, c.field, func(tx *sqlite.Tx) error { return tx.SaveVerdict(&x) })
		})
	}
	b.decide(t, func(x *journal.Verdict) {
		x.Ruling, x.Why, x.Figures.Missing = journal.Accepted, "the shop asks for it", []string{"three candles burned"}
	})
	b.decide(t, func(x *journal.Verdict) { x.Ruling, x.TipTest, x.BaseCheck = journal.Accepted, true, true })
}

// Figures must be those of the record as it is: what was written of the
// pairing in between sends the verdict back, what was written of others not.
func TestAVerdictRestsOnTheRecordAsItIs(t *testing.T) {
	b := newBench(t)
	x := b.verdictOn(t, nil)
	b.light(t, b.st.Candles[1])
	must(t, b.write(t, func(tx *sqlite.Tx) error { y := x; return tx.SaveVerdict(&y) }))
	b.light(t, b.st.Candles[0])
	b.refused(t, "", func(tx *sqlite.Tx) error { y := x; return tx.SaveVerdict(&y) })
	x = b.verdictOn(t, nil)
	must(t, b.write(t, func(tx *sqlite.Tx) error { y := x; return tx.SaveVerdict(&y) }))
	must(t, b.write(t, func(tx *sqlite.Tx) error {
		set := journal.DefaultSettings()
		set.Limits = map[string]float64{"flame_hard": 60}
		return tx.SaveSettings(&set)
	}))
	b.refused(t, "", func(tx *sqlite.Tx) error { y := x; return tx.SaveVerdict(&y) })
}

func TestTheNewestVerdictThatWasNotWithdrawnCounts(t *testing.T) {
	b := newBench(t)
	first := b.decide(t, nil)
	b.clock.wait(time.Minute)
	second := b.decide(t, func(x *journal.Verdict) { x.Ruling, x.Why = journal.Rejected, "sooty" })
	counts := func() journal.ID { return journal.Standing(got(b.Verdicts(t.Context()))(t))[first.Place()].ID }
	if got := counts(); got != second.ID {
		t.Errorf("verdict %d counts", got)
	}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounVerdict, second.ID, "wrong wick") }))
	if got := counts(); got != first.ID {
		t.Errorf("after withdrawing the second, %d counts", got)
	}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounVerdict, first.ID, "") }))
	if got := counts(); got != 0 {
		t.Errorf("after withdrawing both, %d counts", got)
	}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Restore(journal.NounVerdict, second.ID) }))
	if got := counts(); got != second.ID {
		t.Errorf("brought back, %d counts", got)
	}
	lines := got(b.History(t.Context(), journal.NounVerdict, second.ID))(t)
	if len(lines) != 3 || lines[0].Kind != journal.Restored || lines[2].Kind != journal.Written {
		t.Errorf("history: %+v", lines)
	}
}
