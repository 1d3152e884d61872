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

// season is a bench with something in every state:
//
//	1-A burned twice, resting    1-B burned once and spent    1-C lit now
//	2-A never burned             2-B withdrawn                2-C burned, its one burn withdrawn
//	3-A burned, but pour 3 was withdrawn
type season struct {
	bench
	candles map[string]journal.Candle
	burns   map[string]journal.Burn // by candle and number: 1-A/2
	oil     journal.Fragrance
}

func newSeason(t *testing.T) season {
	t.Helper()
	s := season{bench: newBench(t), candles: map[string]journal.Candle{}, burns: map[string]journal.Burn{}}
	s.clock.at = start.AddDate(0, 0, -10)
	must(t, s.write(t, func(tx *sqlite.Tx) error {
		s.oil = journal.Fragrance{Name: "Wet slate"}
		return tx.SaveFragrance(&s.oil)
	}))
	for _, c := range s.st.Candles {
		s.candles[c.Code()] = c
	}
	s.pour(t, &s.oil.ID, p(quantity.Fraction(0.08)), 3)
	s.pour(t, nil, nil, 1)
	s.burn(t, "1-A", 2*time.Hour, journal.Snuffed, p(quantity.Grams(410)), p(quantity.Grams(398)))
	s.burn(t, "1-B", 3*time.Hour, journal.Spent, p(quantity.Grams(410)), nil)
	s.burn(t, "2-C", time.Hour, journal.Snuffed, p(quantity.Grams(400)), nil)
	s.burn(t, "3-A", time.Hour, journal.Snuffed, p(quantity.Grams(400)), nil)
	s.burn(t, "1-A", 4*time.Hour, journal.Snuffed, p(quantity.Grams(398)), nil)
	must(t, s.write(t, func(tx *sqlite.Tx) error {
		for _, err := range []error{tx.Withdraw(journal.NounCandle, s.candles["2-B"].ID, "dropped"),
			tx.Withdraw(journal.NounBurn, s.burns["2-C/1"].ID, "wrong candle"), tx.Withdraw(journal.NounPour, s.candles["3-A"].Pour, "scorched")} {
			if err != nil {
				return err
			}
		}
		return nil
	}))
	s.burns["1-C/1"] = s.light(t, s.candles["1-C"])
	s.clock.wait(30 * time.Minute)
	s.look(t, s.burns["1-C/1"], 33)
	return s
}

// pour pours candles from the studio's wax at the clock's time.
func (s season) pour(t *testing.T, oil *journal.ID, load *quantity.Fraction, n int) {
	t.Helper()
	x := journal.Pour{At: s.clock.at, Wax: s.st.Wax.ID, Fragrance: oil, Load: load, LoadBasis: journal.OfTotal}
	must(t, s.write(t, func(tx *sqlite.Tx) error {
		if err := tx.SavePour(&x); err != nil {
			return err
		}
		for i := range n {
			c := journal.Candle{Pour: x.ID, Vessel: s.st.Vessel.ID, Wick: s.st.Wicks[i].ID, Wicks: 1}
			if err := tx.SaveCandle(&c); err != nil {
				return err
			}
			s.candles[c.Code()] = c
		}
		return nil
	}))
}

// burn burns a candle from now on, with two checks of which one is withdrawn,
// and lets it rest.
func (s season) burn(t *testing.T, code string, lasts time.Duration, end journal.Ending, before, after *quantity.Grams) {
	t.Helper()
	x := journal.Burn{Candle: s.candles[code].ID, LitAt: s.clock.at, MassBefore: before}
	must(t, s.write(t, func(tx *sqlite.Tx) error { return tx.SaveBurn(&x) }))
	s.clock.wait(lasts / 2)
	slip := s.look(t, x, 20)
	s.clock.wait(lasts / 2)
	s.look(t, x, 50)
	x.OutAt, x.Ending, x.MassAfter = p(s.clock.at), end, after
	must(t, s.write(t, func(tx *sqlite.Tx) error {
		if err := tx.Withdraw(journal.NounCheck, slip.ID, "slip"); err != nil {
			return err
		}
		return tx.SaveBurn(&x)
	}))
	s.clock.wait(2 * time.Hour)
	s.burns[code+"/"+string(rune('0'+x.Number))] = x
}

func codes(list []journal.CandleLine) []string {
	out := []string{}
	for _, l := range list {
		out = append(out, l.Candle.Code())
	}
	return out
}

func wantList(t *testing.T, what string, want, got []string) {
	t.Helper()
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("%s (-want +got):\n%s", what, diff)
	}
}

func TestCandlesAreListedNewestFirst(t *testing.T) {
	s := newSeason(t)
	for name, c := range map[string]struct {
		filter journal.CandleFilter
		want   []string
		more   bool
	}{
		"all that count":     {journal.CandleFilter{}, []string{"2-C", "2-A", "1-C", "1-B", "1-A"}, false},
		"withdrawn too":      {journal.CandleFilter{Withdrawn: true}, []string{"3-A", "2-C", "2-B", "2-A", "1-C", "1-B", "1-A"}, false},
		"a page":             {journal.CandleFilter{Limit: 2}, []string{"2-C", "2-A"}, true},
		"the page after it":  {journal.CandleFilter{Limit: 3, Before: s.candles["2-A"].ID}, []string{"1-C", "1-B", "1-A"}, false},
		"of a pour":          {journal.CandleFilter{Pour: s.st.Pour.ID}, []string{"1-C", "1-B", "1-A"}, false},
		"of a wick":          {journal.CandleFilter{Wick: s.st.Wicks[0].ID}, []string{"2-A", "1-A"}, false},
		"of a ladder":        {journal.CandleFilter{Ladder: s.st.Ladder.ID, Limit: 1}, []string{"2-C"}, true},
		"of another ladder":  {journal.CandleFilter{Ladder: 99}, []string{}, false},
		"of another wax":     {journal.CandleFilter{Wax: 99}, []string{}, false},
		"of a wax":           {journal.CandleFilter{Wax: s.st.Wax.ID, Limit: 1}, []string{"2-C"}, true},
		"in another vessel":  {journal.CandleFilter{Vessel: 99}, []string{}, false},
		"in a vessel, paged": {journal.CandleFilter{Vessel: s.st.Vessel.ID, Limit: 5}, []string{"2-C", "2-A", "1-C", "1-B", "1-A"}, false},
	} {
		t.Run(name, func(t *testing.T) {
			list, more, err := s.Candles(t.Context(), c.filter)
			must(t, err)
			if wantList(t, "candles", c.want, codes(list)); more != c.more {
				t.Errorf("more: %v", more)
			}
		})
	}
	wantList(t, "candles of pour 2 by letter", []string{"2-A", "2-B", "2-C"}, codes(got(s.PourCandles(t.Context(), s.candles["2-A"].Pour))(t)))
}

// The life that a list works out in SQL is compared with the journal's own,
// worked out from everything that was recorded.
func TestALineTellsTheSameLifeAsTheLog(t *testing.T) {
	s := newSeason(t)
	list, _, err := s.Candles(t.Context(), journal.CandleFilter{Withdrawn: true})
	must(t, err)
	for _, l := range list {
		log := got(s.CandleLog(t.Context(), l.Candle.ID))(t)
		if diff := cmp.Diff(log.Life(), l.Life); diff != "" {
			t.Errorf("life of %s (-log +line):\n%s", l.Candle.Code(), diff)
		}
		var hours float64
		var last *time.Time
		for _, b := range log.Burns {
			if b.Burn.IsGone() {
				continue
			}
			last = &b.Burn.LitAt
			if b.Burn.OutAt != nil {
				hours += float64(b.Burn.Lasted(s.clock.at))
			}
		}
		if math.Abs(hours-l.LitHours) > 1e-6 || !cmp.Equal(last, l.LastLit) {
			t.Errorf("%s: got %g h, last lit %v; want %g h, %v", l.Candle.Code(), l.LitHours, l.LastLit, hours, last)
		}
		if l.WaxName != log.Wax.Name || l.VesselName != log.Vessel.Name || l.WickName != log.WickName() {
			t.Errorf("%s: names %q, %q, %q", l.Candle.Code(), l.WaxName, l.VesselName, l.WickName)
		}
	}
}

func TestWaitingAndCold(t *testing.T) {
	s := newSeason(t)
	// 2-C and 2-A were last touched when they were poured; both at one moment.
	wantList(t, "waiting", []string{"1-A", "2-C", "2-A"}, codes(got(s.Waiting(t.Context(), 10))(t)))
	wantList(t, "waiting, two", []string{"1-A", "2-C"}, codes(got(s.Waiting(t.Context(), 2))(t)))
	var cold []string
	for _, l := range got(s.Cold(t.Context(), 10))(t) {
		cold = append(cold, l.Candle.Code()+"/"+string(rune('0'+l.Burn.Number)))
	}
	wantList(t, "cold", []string{"1-A/2", "1-B/1"}, cold)
	if n := len(got(s.Cold(t.Context(), 1))(t)); n != 1 {
		t.Errorf("got %d cold burns, asked for 1", n)
	}
}

func TestPoursAreListedNewestFirst(t *testing.T) {
	s := newSeason(t)
	list, more, err := s.Pours(t.Context(), 0, 2)
	must(t, err)
	if len(list) != 2 || !more || list[0].Pour.Number != 3 || list[1].Pour.Number != 2 {
		t.Fatalf("got %+v, more %v", list, more)
	}
	if l := list[1]; l.WaxName != s.st.Wax.Name || l.FragranceName != "Wet slate" || l.Candles != 2 {
		t.Errorf("pour 2: %+v", l)
	}
	list, more, err = s.Pours(t.Context(), 2, 5)
	must(t, err)
	if len(list) != 1 || more || list[0].Pour.Number != 1 || list[0].FragranceName != "" || list[0].Candles != 3 {
		t.Errorf("below 2: %+v, more %v", list, more)
	}
}

func TestTheShelfIsListedByName(t *testing.T) {
	b := newBench(t)
	must(t, b.write(t, func(tx *sqlite.Tx) error {
		ladder := journal.Ladder{Name: "alder", Kind: "wood"}
		for _, err := range []error{pail("zinnia")(tx), pail("Aster")(tx), tx.SaveFragrance(&journal.Fragrance{Name: "b"}), tx.SaveFragrance(&journal.Fragrance{Name: "A"}),
			tx.SaveVessel(&journal.Vessel{Name: "anvil cup", Shape: journal.Round, Material: "metal", InnerWidth: 50}), tx.SaveLadder(&ladder),
			tx.SaveWick(&journal.Wick{Ladder: ladder.ID, Label: "1"}), tx.Withdraw(journal.NounWax, b.st.Wax.ID, "used up")} {
			if err != nil {
				return err
			}
		}
		return nil
	}))
	ctx := t.Context()
	var names []string
	for _, x := range got(b.Waxes(ctx))(t) {
		names = append(names, x.Name)
	}
	for _, x := range got(b.Fragrances(ctx))(t) {
		names = append(names, x.Name)
	}
	for _, x := range got(b.Vessels(ctx))(t) {
		names = append(names, x.Name)
	}
	for _, x := range got(b.Ladders(ctx))(t) {
		names = append(names, x.Name)
	}
	for _, x := range got(b.Wicks(ctx))(t) {
		names = append(names, x.Label)
	}
	wantList(t, "shelf", []string{"Aster", "Meadow blend", "zinnia", "A", "b", "anvil cup", "Pebble tumbler", "alder", "Larkspur", "1", "6", "7", "8"}, names)
}
