package life

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// ended is a candle that was burned to the end in so many hours, down to 12.7
// mm of wax: 52.125 g of 286.687 g are left.
func ended(hours float64) journal.CandleLog {
	return candle(one{hours / 2, 486.687, 380, ""}, one{hours / 2, 380, 252.125, journal.Spent})
}

func lives(hours ...float64) []journal.CandleLog {
	var logs []journal.CandleLog
	for i, h := range hours {
		l := ended(h)
		l.Candle.Pour = journal.ID(i + 1)
		logs = append(logs, l)
	}
	return logs
}

// TestLabelNamesItsPours: the tolerance factor is for independent draws (NIST
// e-Handbook 7.2.6.3); candles of one pour are not. Three pours are an app
// default.
func TestLabelNamesItsPours(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		pours []journal.ID
		first string // how the doubts begin
		any   string // what one of them says
	}{
		"one pour":            {[]journal.ID{7, 7, 7, 7}, "All these candles come from 1 pour. ", "of that pour only"},
		"two pours":           {[]journal.ID{7, 8, 8, 7}, "These candles come from only 2 pours, ", "at least 3 pours before"},
		"three of four":       {[]journal.ID{7, 8, 9, 7}, "With so few candles", "come from 3 pours, so some share one"},
		"each its own":        {[]journal.ID{7, 8, 9, 10}, "With so few candles", ""},
		"a fifth is not done": {[]journal.ID{7, 7, 7, 7, 8}, "All these candles come from 1 pour. ", ""},
	} {
		logs := lives(38, 40, 42, 41, 39)[:len(c.pours)]
		for i := range logs {
			logs[i].Candle.Pour = c.pours[i]
		}
		if len(logs) == 5 {
			logs[4].Burns[1].Burn.Ending = journal.Snuffed
		}
		l := LabelTime(logs, stop)
		said := strings.Join(l.Doubts, " ")
		if !strings.HasPrefix(said, c.first) || !strings.Contains(said, c.any) || name == "each its own" && strings.Contains(said, "pour") {
			t.Errorf("%s: got %q", name, l.Doubts)
		}
	}
}

// TestLabelTable holds the bound against the one-sided tolerance factors of R
// 4.2.2, qt(0.90, n - 1, ncp = qnorm(0.90) * sqrt(n)) / sqrt(n), over three
// candles or more: lives of 30, 31 … h have the mean and deviation of counting
// numbers, (n - 1)/2 and sqrt(n (n + 1)/12).
func TestLabelTable(t *testing.T) {
	t.Parallel()
	looked := 0
	for n, k := range factors(t) {
		if n < LabelNeeds {
			continue
		}
		looked++
		var hours []float64
		for i := range n {
			hours = append(hours, 30+float64(i))
		}
		l := LabelTime(lives(hours...), stop)
		if !l.Enough() || len(l.Ended) != n {
			t.Fatalf("%d candles: got %+v", n, l)
		}
		about(t, "factor", l.Factor, k, 1e-5)
		about(t, "mean", float64(l.Mean), 30+float64(n-1)/2, 1e-9)
		sd := float64(n) * float64(n+1) / 12
		about(t, "variance", float64(l.SD*l.SD), sd, 1e-9)
		about(t, "bound", float64(l.Bound), max(float64(l.Mean)-k*float64(l.SD), 0), 1e-4)
	}
	if looked < 20 {
		t.Errorf("only %d counts were looked at", looked)
	}
}

// factors are the tolerance factors at 90 % of all, with 90 % confidence, by
// count.
func factors(t *testing.T) map[int]float64 {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "reference", "tolerance_k1.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := map[int]float64{}
	for _, r := range rows[1:] {
		n, _ := strconv.Atoi(r[0])
		p, _ := strconv.ParseFloat(r[1], 64)
		conf, _ := strconv.ParseFloat(r[2], 64)
		k, err := strconv.ParseFloat(r[3], 64)
		if err != nil {
			t.Fatal(err)
		}
		if p == 0.9 && conf == 0.9 {
			out[n] = k
		}
	}
	return out
}

// TestLabelByHand: 38, 40 and 42 h have mean 40 and deviation 2; the factor of
// three at 90 and 90 % is 4.258 (the usual table, from memory), so the bound
// is 31.48 h and the label says 31 h.
func TestLabelByHand(t *testing.T) {
	t.Parallel()
	l := LabelTime(lives(38, 40, 42), stop)
	about(t, "bound", float64(l.Bound), 40-2*4.258, 2e-3)
	if l.Bound.WholeDown().String() != "31 h" || l.Shortest != 38 || l.Longest != 42 {
		t.Errorf("got %+v", l)
	}
	if len(l.Doubts) != 1 || !strings.HasPrefix(l.Doubts[0], "With so few candles") {
		t.Errorf("doubts %q", l.Doubts)
	}
}

func TestLabelUnderThreeIsNotEnoughYet(t *testing.T) {
	t.Parallel()
	for n := range 3 {
		l := LabelTime(append(lives([]float64{38, 40}[:n]...), candle(one{4, 486, 462, ""})), stop)
		if l.Enough() || l.Missing != 3-n || l.Bound != 0 || len(l.Ended) != n || len(l.Others) != 1 || len(l.Doubts) != 0 {
			t.Errorf("%d: got %+v", n, l)
		}
	}
	if l := LabelTime(nil, stop); l.Missing != 3 {
		t.Errorf("none: got %+v", l)
	}
}

func TestLabelDoubts(t *testing.T) {
	t.Parallel()
	unlikeFilled, early, far, stopped := lives(38, 40, 42), lives(38, 40, 42), lives(38, 40, 42), lives(38, 40, 42)
	unlikeFilled[0].Candle.Filled = of(quantity.Grams(260))
	early[0].Burns[1].Burn.MassAfter = of(quantity.Grams(300))
	far[0].Burns[1].Burn.MassAfter = of(quantity.Grams(215))
	stopped[0].Burns[0].Burn.Ending = journal.WentOut
	for name, c := range map[string]struct {
		logs []journal.CandleLog
		want string
	}{
		"filled unlike":  {unlikeFilled, "The candles were not filled alike"},
		"ended early":    {early, "Some were called spent with clearly more wax"},
		"burned too far": {far, "Some were burned clearly lower"},
		"went out":       {stopped, "Some went out by themselves"},
		"all equal":      {lives(40, 40, 40), "All lasted exactly as long"},
		"all over":       {lives(10, 40, 70), "These candles lasted so differently"},
	} {
		l := LabelTime(c.logs, stop)
		found := false
		for _, d := range l.Doubts {
			found = found || strings.HasPrefix(d, c.want)
		}
		if !found {
			t.Errorf("%s: got %q", name, l.Doubts)
		}
	}
	if l := LabelTime(lives(10, 40, 70), stop); !l.Useless() || l.Bound != 0 {
		t.Errorf("got %+v", l)
	}
}

func TestBurnedToTheEnd(t *testing.T) {
	t.Parallel()
	last := func(e journal.Ending, after float64) journal.CandleLog {
		return candle(one{4, 486.687, 460, ""}, one{30, 460, after, e})
	}
	gone := last(journal.Spent, 250)
	gone.Candle.Gone = of(noon)
	poured := last(journal.Spent, 250)
	poured.Pour.Gone = of(noon)
	for name, c := range map[string]struct {
		log   journal.CandleLog
		why   Why
		hours quantity.Hours
	}{
		"spent":                           {last(journal.Spent, 250), "", 34},
		"spent, not weighed":              {last(journal.Spent, 0), "", 34},
		"snuffed":                         {last(journal.Snuffed, 250), NotYet, 34},
		"put out for safety":              {last(journal.PutOutUnsafe, 250), PutOut, 34},
		"went out with little left":       {last(journal.WentOut, 250), "", 34},
		"went out with much left":         {last(journal.WentOut, 300), WentOutEarly, 34},
		"went out, not weighed":           {last(journal.WentOut, 0), WentOutUnsure, 34},
		"the spent burn was withdrawn":    {withdrawn(last(journal.Spent, 250), 1), NotYet, 4},
		"never lit":                       {candle(), NeverLit, 0},
		"lit":                             {lit(last(journal.Spent, 250), 1), StillLit, 4},
		"withdrawn":                       {gone, Withdrawn, 34},
		"its pour was withdrawn":          {poured, Withdrawn, 34},
		"a burn of no time adds no hours": {candle(one{0, 486, 486, journal.Spent}), "", 0},
	} {
		got := TotalOf(c.log, stop)
		if got.Why != c.why || got.Hours != c.hours || got.Ended() != (c.why == "") {
			t.Errorf("%s: got %+v", name, got)
		}
	}
}

// Lives twice as long have a bound twice as long, in whatever order they come;
// a longer-lived candle never takes the mean down.
func TestLabelScalesAndDoesNotMindOrder(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		hours := rapid.SliceOfN(rapid.Float64Range(36, 42), 3, 9).Draw(t, "hours")
		var twice []float64
		for _, h := range hours {
			twice = append(twice, 2*h)
		}
		a, b := LabelTime(lives(hours...), stop), LabelTime(lives(twice...), stop)
		about(t, "bound", float64(b.Bound), 2*float64(a.Bound), 1e-6)
		c := LabelTime(lives(rapid.Permutation(hours).Draw(t, "order")...), stop)
		about(t, "bound in another order", float64(c.Bound), float64(a.Bound), 1e-9)
		if a.Bound > a.Mean {
			t.Fatalf("bound %v above the mean %v", a.Bound, a.Mean)
		}
	})
}

// TestClaim: within 10 % of the measured time either way, ends included
// (RAL-GZ 041, read in a secondary source).
func TestClaim(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		claimed, measured quantity.Hours
		says              ClaimSays
		off               float64
	}{
		{40, 40, ClaimInside, 0}, {44, 40, ClaimInside, 0.1}, {36, 40, ClaimInside, -0.1}, {44.1, 40, ClaimOver, 0.1025},
		{35.9, 40, ClaimUnder, -0.1025}, {33, 30, ClaimInside, 0.1}, {60, 30, ClaimOver, 1}, {1, 30, ClaimUnder, -29.0 / 30},
	} {
		got, ok := NewClaim(c.claimed, c.measured)
		if !ok || got.Says != c.says {
			t.Errorf("%v of %v: got %+v", c.claimed, c.measured, got)
		}
		about(t, "off", float64(got.Off), c.off, 1e-12)
	}
	for _, c := range [][2]quantity.Hours{{0, 40}, {40, 0}, {-1, 40}, {40, -1}} {
		if got, ok := NewClaim(c[0], c[1]); ok {
			t.Errorf("%v: got %+v", c, got)
		}
	}
}
