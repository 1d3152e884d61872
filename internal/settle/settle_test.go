package settle_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/settle"
)

func ptr[T any](v T) *T { return &v }

var (
	poured = time.Date(2026, 3, 1, 10, 0, 0, 0, time.UTC)
	now    = poured.AddDate(0, 0, 3)
	meadow = journal.Wax{Meta: journal.Meta{ID: 1}, Name: "Meadow blend",
		PourAt: journal.Range[quantity.Celsius]{Low: ptr(quantity.Celsius(55)), High: ptr(quantity.Celsius(65))}}
)

// candle is one candle of a pour with set checks made some hours after it.
func candle(pour journal.ID, checks ...journal.SetCheck) journal.CandleLog {
	l := journal.CandleLog{Made: journal.Made{Wax: meadow, Pour: journal.Pour{Meta: journal.Meta{ID: pour}, At: poured}, Candle: journal.Candle{Pour: pour}}}
	for _, c := range checks {
		if c.At.IsZero() {
			c.At = poured.Add(25 * time.Hour)
		}
		l.SetChecks = append(l.SetChecks, c)
	}
	return l
}

func frost(a journal.Amount) journal.SetCheck { return journal.SetCheck{Frosting: a} }

// of counts one fault.
func of(t *testing.T, logs []journal.CandleLog, f safety.SetFault) settle.Count {
	t.Helper()
	for _, c := range settle.Of(logs, now).Counts {
		if c.Fault == f {
			return c
		}
	}
	t.Fatalf("%s is not counted", f)
	return settle.Count{}
}

// The intervals are those of Newcombe, Statistics in Medicine 17 (1998)
// 857-872, table I, and of R 4.2.2 prop.test(correct = FALSE) for small n.
func TestSharesAreThoseOfNewcombe(t *testing.T) {
	t.Parallel()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "reference", "binomial_intervals.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 5 {
		t.Fatalf("%d rows: %v", len(rows), err)
	}
	for _, r := range rows[1:] {
		x, n := whole(t, r[0]), whole(t, r[1])
		var logs []journal.CandleLog
		for i := range n {
			a := journal.AmountNone
			if i < x {
				a = journal.AmountSlight
			}
			logs = append(logs, candle(journal.ID(1+i%4), frost(a)))
		}
		c := of(t, logs, safety.SetFrosting)
		if c.Seen != x || c.Looked != n || c.NotLooked != 0 || math.Abs(c.Low-number(t, r[2])) > 1e-6 || math.Abs(c.High-number(t, r[3])) > 1e-6 {
			t.Errorf("%d of %d: %+v, want %s to %s", x, n, c, r[2], r[3])
		}
	}
}

func whole(t *testing.T, s string) int { t.Helper(); return int(number(t, s)) }

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestWhatCounts(t *testing.T) {
	t.Parallel()
	gone := frost(journal.AmountHeavy)
	gone.Gone = &now
	early, onTime := frost(journal.AmountHeavy), frost(journal.AmountNone)
	early.At, onTime.At = poured.Add(24*time.Hour-time.Second), poured.Add(24*time.Hour)
	withdrawn := candle(1, frost(journal.AmountHeavy))
	withdrawn.Candle.Gone = &now
	soft := candle(1, frost(journal.AmountHeavy))
	soft.Pour.At = now.Add(-24*time.Hour + time.Second)
	for name, c := range map[string]struct {
		logs []journal.CandleLog
		want settle.Count
	}{
		"a withdrawn check is no look":                {[]journal.CandleLog{candle(1, gone)}, settle.Count{NotLooked: 1}},
		"a look before a full day does not count":     {[]journal.CandleLog{candle(1, early)}, settle.Count{NotLooked: 1}},
		"a look at a full day does":                   {[]journal.CandleLog{candle(1, onTime)}, settle.Count{Looked: 1, Pours: 1}},
		"a withdrawn candle is left out":              {[]journal.CandleLog{withdrawn}, settle.Count{}},
		"a candle that still sets is left out":        {[]journal.CandleLog{soft}, settle.Count{}},
		"not looked at is not none":                   {[]journal.CandleLog{candle(1, journal.SetCheck{Top: journal.TopSmooth}), candle(1)}, settle.Count{NotLooked: 2}},
		"of two looks the worse, once":                {[]journal.CandleLog{candle(1, frost(journal.AmountHeavy), frost(journal.AmountNone))}, settle.Count{Seen: 1, Heavy: 1, Looked: 1, Pours: 1, PoursSeen: 1}},
		"none and then slight is seen":                {[]journal.CandleLog{candle(1, frost(journal.AmountNone), frost(journal.AmountSlight))}, settle.Count{Seen: 1, Looked: 1, Pours: 1, PoursSeen: 1}},
		"pours are counted once, and those that show": {[]journal.CandleLog{candle(1, frost(journal.AmountSlight)), candle(1, frost(journal.AmountSlight)), candle(2, frost(journal.AmountNone)), candle(3)}, settle.Count{Seen: 2, Looked: 3, NotLooked: 1, Pours: 2, PoursSeen: 1}},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			got := of(t, c.logs, safety.SetFrosting)
			got.Fault, got.Low, got.High = "", 0, 0
			if d := cmp.Diff(c.want, got); d != "" {
				t.Error(d)
			}
		})
	}
}

func TestEveryFaultIsReadFromItsOwnField(t *testing.T) {
	t.Parallel()
	slight := journal.AmountSlight
	for f, s := range map[safety.SetFault]journal.SetCheck{
		safety.SetSweating: {Sweating: slight}, safety.SetSinkHole: {SinkHole: slight}, safety.SetCracks: {Cracks: slight}, safety.SetFrosting: {Frosting: slight},
		safety.SetRough: {Top: journal.TopRough}, safety.SetDip: {Top: journal.TopDip}, safety.SetWetSpots: {Stuck: ptr(quantity.Fraction(0.9))},
	} {
		for _, c := range settle.Of([]journal.CandleLog{candle(1, s)}, now).Counts {
			seen, looked := c.Seen == 1, c.Looked == 1
			shape := s.Top != "" && (c.Fault == safety.SetRough || c.Fault == safety.SetDip)
			if seen != (c.Fault == f) || looked != (c.Fault == f || shape) {
				t.Errorf("a check of %s says of %s: seen %v, looked %v", f, c.Fault, seen, looked)
			}
		}
	}
}

func TestFewAndOnePourSaySo(t *testing.T) {
	t.Parallel()
	var logs []journal.CandleLog
	for i := range 5 {
		c := of(t, append(logs, candle(7, frost(journal.AmountNone))), safety.SetFrosting)
		if c.Enough() != (i == 4) || !c.OnePour() {
			t.Errorf("%d candles: enough %v, one pour %v", i+1, c.Enough(), c.OnePour())
		}
		logs = append(logs, candle(7, frost(journal.AmountNone)))
	}
	if c := of(t, append(logs, candle(8, frost(journal.AmountNone))), safety.SetFrosting); c.OnePour() {
		t.Error("two pours are called one")
	}
	if c := of(t, []journal.CandleLog{candle(7)}, safety.SetFrosting); c.OnePour() || c.Low != 0 || c.High != 1 || c.Share() != 0 {
		t.Errorf("nothing looked at: %+v", c)
	}
}

func TestEarlyLooksAreCountedApart(t *testing.T) {
	t.Parallel()
	early := frost(journal.AmountNone)
	early.At = poured.Add(20 * time.Hour)
	g := settle.Of([]journal.CandleLog{candle(1, early), candle(1, early, frost(journal.AmountNone)), candle(2)}, now)
	if g.Candles != 3 || g.Looked != 1 || g.Early != 1 || g.Pours != 1 {
		t.Errorf("%+v", g)
	}
}

// at gives the candles of a pour its temperature.
func at(c float64, l journal.CandleLog) journal.CandleLog {
	l.Pour.PouredAt = ptr(quantity.Celsius(c))
	return l
}

// fahrenheit is a temperature as it is kept when typed in degrees Fahrenheit;
// 149 °F is 65 °C.
func fahrenheit(f float64) float64 { return (f - 32) / 1.8 }

func TestBands(t *testing.T) {
	t.Parallel()
	look := frost(journal.AmountNone)
	other := candle(9, look)
	other.Wax = journal.Wax{Meta: journal.Meta{ID: 2}, Name: "Harbour blend"}
	waxes := settle.ByWax([]journal.CandleLog{
		at(54.9, candle(1, look)), at(55, candle(2, look)), at(59.99, candle(3, look)), at(60, candle(4, look)), at(65, candle(5, look)),
		at(fahrenheit(149), candle(6, look)), at(65.1, candle(7, look)), candle(8, look), at(60, other),
	}, now)
	type row struct {
		Name    string
		Candles int
	}
	var got []row
	for _, w := range waxes {
		got = append(got, row{w.Wax.Name, w.All.Candles})
		for _, b := range w.ByGuide {
			got = append(got, row{string(b.Side), b.Group.Candles})
		}
		for _, b := range w.BySteps {
			got = append(got, row{string(b.Side) + strconv.Itoa(int(b.From)) + "-" + strconv.Itoa(int(b.Top)), b.Group.Candles})
		}
	}
	want := []row{
		{"Harbour blend", 1}, {"no guidance stated", 1}, {"60-65", 1},
		{"Meadow blend", 8}, {"below the guidance", 1}, {"inside the guidance", 5}, {"above the guidance", 1}, {"temperature not noted", 1},
		{"50-55", 1}, {"55-60", 2}, {"60-65", 1}, {"65-70", 3}, {"temperature not noted0-0", 1},
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

func TestAWaxWithoutASetCandleIsLeftOut(t *testing.T) {
	t.Parallel()
	soft := candle(1)
	soft.Pour.At = now
	if w := settle.ByWax([]journal.CandleLog{soft}, now); len(w) != 0 {
		t.Errorf("%+v", w)
	}
	if w := settle.ByWax(nil, now); len(w) != 0 {
		t.Errorf("%+v", w)
	}
}
