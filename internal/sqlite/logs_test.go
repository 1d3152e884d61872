package sqlite_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
)

// shape is a log as codes: candle, burns by number, and how many checks each has.
func shape(logs ...journal.CandleLog) []string {
	out := []string{}
	for _, l := range logs {
		text := l.Candle.Code()
		for _, b := range l.Burns {
			text += fmt.Sprintf(" %d:%d", b.Burn.Number, len(b.Checks))
		}
		out = append(out, text)
	}
	return out
}

func TestLogs(t *testing.T) {
	s := newSeason(t)
	withdrawn := got(s.Logs(t.Context()))(t)
	wantList(t, "without the withdrawn pour", []string{"1-A 1:1 2:1", "1-B 1:1", "1-C 1:1"}, shape(withdrawn...))
	must(t, s.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounCandle, s.candles["1-B"].ID, "") }))
	withdrawn = got(s.Logs(t.Context()))(t)
	wantList(t, "without the withdrawn candle", []string{"1-A 1:1 2:1", "1-C 1:1"}, shape(withdrawn...))
	must(t, s.write(t, func(tx *sqlite.Tx) error {
		return errors.Join(tx.Restore(journal.NounCandle, s.candles["1-B"].ID), tx.Restore(journal.NounPour, s.candles["3-A"].Pour))
	}))
	s.pour(t, &s.oil.ID, p(quantity.Fraction(0.06)), 1)
	s.burns["4-A/1"] = s.light(t, s.candles["4-A"])
	wantList(t, "all that count", []string{"1-A 1:1 2:1", "1-B 1:1", "1-C 1:1", "3-A 1:1", "4-A 1:0"}, shape(got(s.Logs(t.Context()))(t)...))
	for name, c := range map[string]struct {
		only []journal.ID
		want []string
	}{
		"of none":                    {nil, []string{}},
		"of two":                     {[]journal.ID{s.candles["4-A"].ID, s.candles["1-A"].ID}, []string{"1-A 1:1 2:1", "4-A 1:0"}},
		"of one that does not count": {[]journal.ID{s.candles["2-C"].ID, 99}, []string{}},
	} {
		t.Run(name, func(t *testing.T) {
			wantList(t, "logs", c.want, shape(got(s.LogsOf(t.Context(), c.only))(t)...))
		})
	}
}

func TestOneLogHoldsEverything(t *testing.T) {
	s := newSeason(t)
	log := got(s.CandleLog(t.Context(), s.candles["2-C"].ID))(t)
	wantList(t, "log with its withdrawn burn and check", []string{"2-C 1:2"}, shape(log))
	ctx := t.Context()
	want := journal.Made{Candle: got(s.Candle(ctx, log.Candle.ID))(t), Pour: got(s.Pour(ctx, log.Pour.ID))(t), Wax: s.st.Wax, Fragrance: &s.oil,
		Vessel: s.st.Vessel, Wick: got(s.Wick(ctx, s.st.Wicks[2].ID))(t), Ladder: s.st.Ladder}
	if diff := cmp.Diff(want, log.Made); diff != "" {
		t.Errorf("what the candle is made of (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(log.Burns[0], got(s.BurnLog(ctx, s.burns["2-C/1"].ID))(t)); diff != "" {
		t.Errorf("the burn by itself (-want +got):\n%s", diff)
	}
	for _, err := range []error{func() error { _, err := s.CandleLog(ctx, 99); return err }(), func() error { _, err := s.BurnLog(ctx, 99); return err }()} {
		wantIs(t, err, journal.ErrNotFound)
	}
}

func TestLitLogsHoldTheOpenBurnOnly(t *testing.T) {
	s := newSeason(t)
	wantList(t, "lit", []string{"1-C 1:1"}, shape(got(s.LitLogs(t.Context()))(t)...))
	s.burns["1-A/3"] = s.light(t, s.candles["1-A"])
	wantList(t, "lit", []string{"1-A 3:0", "1-C 1:1"}, shape(got(s.LitLogs(t.Context()))(t)...))
	s.snuff(t, s.burns["1-C/1"])
	wantList(t, "lit", []string{"1-A 3:0"}, shape(got(s.LitLogs(t.Context()))(t)...))
}

func TestSittingBurnsWereLitTogether(t *testing.T) {
	s := newSeason(t)
	list := got(s.SittingBurns(t.Context(), *s.burns["1-C/1"].Sitting))(t)
	if len(list) != 1 || list[0].Candle.Code() != "1-C" || list[0].Burn.ID != s.burns["1-C/1"].ID {
		t.Errorf("got %+v", list)
	}
}

func TestTriedAndUse(t *testing.T) {
	s := newSeason(t)
	s.burns["2-A/1"] = s.light(t, s.candles["2-A"])
	vessel, wax := s.st.Vessel.ID, s.st.Wax.ID
	want := []journal.Tried{
		{Vessel: vessel, Wax: wax, Basis: journal.OfWax, Candles: 3, Burns: 4},
		{Vessel: vessel, Wax: wax, Fragrance: &s.oil.ID, Load: p(0.08), Basis: journal.OfTotal, Candles: 1, Burns: 1},
	}
	if diff := cmp.Diff(want, got(s.Tried(t.Context()))(t)); diff != "" {
		t.Errorf("tried (-want +got):\n%s", diff)
	}
	for _, c := range []struct {
		noun journal.Noun
		id   journal.ID
		want journal.Use
	}{
		{journal.NounWax, wax, journal.Use{Pours: 2, Candles: 5, Burns: 5}},
		{journal.NounFragrance, s.oil.ID, journal.Use{Pours: 1, Candles: 2, Burns: 1}},
		{journal.NounVessel, vessel, journal.Use{Pours: 2, Candles: 5, Burns: 5}},
		{journal.NounLadder, s.st.Ladder.ID, journal.Use{Pours: 2, Candles: 5, Burns: 5}},
		{journal.NounWick, s.st.Wicks[1].ID, journal.Use{Pours: 1, Candles: 1, Burns: 1}},
		{journal.NounPour, s.st.Pour.ID, journal.Use{Pours: 1, Candles: 3, Burns: 4}},
		{journal.NounWax, 99, journal.Use{}},
	} {
		if use := got(s.Use(t.Context(), c.noun, c.id))(t); use != c.want {
			t.Errorf("use of %s %d: got %+v, want %+v", c.noun, c.id, use, c.want)
		}
	}
	_, err := s.Use(t.Context(), journal.NounCheck, 1)
	wantIs(t, err, journal.ErrNotFound)
}

func TestFactsBesideABurnAndACheck(t *testing.T) {
	s := newSeason(t)
	ctx := t.Context()
	f := got(s.BurnFacts(ctx, s.burns["1-A/2"]))(t)
	if f.Candle.Code() != "1-A" || len(f.Others) != 1 || f.Others[0].Number != 1 || len(f.Checks) != 1 || f.Life.Burns != 2 || f.Cracked || !f.Now.Equal(s.clock.at) {
		t.Errorf("facts of burn 1-A/2: %+v", f)
	}
	f = got(s.BurnFacts(ctx, journal.Burn{Candle: s.candles["1-B"].ID, LitAt: s.clock.at}))(t)
	if len(f.Others) != 1 || len(f.Checks) != 0 || !f.Life.Spent {
		t.Errorf("facts of a new burn of 1-B: %+v", f)
	}
	x := got(s.BurnLog(ctx, s.burns["1-C/1"].ID))(t)
	c := got(s.CheckFacts(ctx, journal.Check{Burn: x.Burn.ID}))(t)
	if c.Burn.ID != x.Burn.ID || c.Vessel.ID != s.st.Vessel.ID || c.Wicks != 1 || c.Ruler != 1 || len(c.Others) != 1 || !c.Now.Equal(s.clock.at) {
		t.Errorf("facts of a new check: %+v", c)
	}
	if own := got(s.CheckFacts(ctx, x.Checks[0]))(t); len(own.Others) != 0 {
		t.Errorf("a check stands beside itself: %+v", own.Others)
	}
	_, err := s.BurnFacts(ctx, journal.Burn{Candle: 99})
	wantIs(t, err, journal.ErrNotFound)
	_, err = s.CheckFacts(ctx, journal.Check{Burn: 99})
	wantIs(t, err, journal.ErrNotFound)
}
