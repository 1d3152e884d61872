package page_test

import (
	"net/url"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

func query(t *testing.T, text string) url.Values {
	t.Helper()
	q, err := url.ParseQuery(text)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// massed is a burn of some hours between two weighings; 0 is not weighed.
func massed(number int, ago, lasted float64, before, after quantity.Grams) journal.BurnLog {
	b := aBurn(number, ago)
	b.Burn.OutAt, b.Burn.Ending = of(b.Burn.LitAt.Add(hours(lasted))), journal.Snuffed
	if before > 0 {
		b.Burn.MassBefore = &before
	}
	if after > 0 {
		b.Burn.MassAfter = &after
	}
	return b
}

// The first case is a candle that was weighed every ten minutes: masses 9.66,
// 9.22, 8.88, 8.61, 8.40, 8.20 g, which is 1.752 g/h from the first to the last
// (a college laboratory guide to burning candles); by hand, with Student's t of
// 4 degrees of freedom, 95 % from 1.01 to 2.50 g/h. The others are straight
// lines by construction.
func TestMassSaysTheRateWithItsInterval(t *testing.T) {
	t.Parallel()
	ten := 1.0 / 6
	for _, c := range []struct {
		name  string
		burns []journal.BurnLog
		want  string
		drawn bool
	}{
		{"weighed every ten minutes, and not steady", []journal.BurnLog{
			massed(1, 90, ten, 9.66, 9.22), massed(2, 80, ten, 9.22, 8.88), massed(3, 70, ten, 8.88, 8.61),
			massed(4, 60, ten, 8.61, 8.40), massed(5, 50, ten, 8.40, 8.20)},
			"1.8 g/h, 95\u00a0% interval 1\u2009–\u20092.5\u00a0g/h, over five weighed burns.", true},
		{"on a line", []journal.BurnLog{massed(1, 90, 3, 182, 163.7), massed(2, 80, 4, 163.7, 139.3)},
			"6.1 g/h, values too alike to tell how far others may lie, over two weighed burns.", true},
		{"a rest that was weighed twice", []journal.BurnLog{massed(1, 90, 3, 182, 163.8), massed(2, 80, 4, 163.6, 139.3)},
			"6.1 g/h, 95\u00a0% interval 6\u2009–\u20096.1\u00a0g/h, over two weighed burns.", true},
		{"a mass that is missing is passed over", []journal.BurnLog{massed(1, 90, 3, 182, 0), massed(2, 80, 4, 0, 139.3)},
			"About 6.1 g/h from two weighings; weighing it before and after the same burn gives an interval.", true},
		{"one burn", []journal.BurnLog{massed(1, 90, 3, 182, 163.7)},
			"6.1 g/h, over one weighed burn.", true},
		{"one weighing", []journal.BurnLog{massed(1, 90, 3, 182, 0)},
			"Not enough weighings yet. Weigh it before lighting and again when it is cold: two weighings give a rate, three an interval.", false},
		{"masses that rise", []journal.BurnLog{massed(1, 90, 3, 160, 163.7)},
			"The masses do not fall. Look at the weighings again: two weighings.", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			m := candlePage(aCandle(c.burns...), metricView()).Mass
			if m.Words != c.want {
				t.Errorf("got %q, want %q", m.Words, c.want)
			}
			if (m.Chart != nil) != c.drawn {
				t.Errorf("drawn %v", m.Chart != nil)
			}
		})
	}
}

func TestMassPassesOverWithdrawnBurnsAndStopsAtTheLitOne(t *testing.T) {
	t.Parallel()
	gone := massed(2, 80, 4, 500, 400)
	gone.Burn.Gone = of(noon)
	lit := aBurn(4, 2)
	lit.Burn.MassBefore = of(quantity.Grams(139.3))
	m := candlePage(aCandle(massed(1, 90, 3, 182, 163.7), gone, massed(3, 70, 4, 163.7, 0), lit), metricView()).Mass
	if want := "6.1 g/h, over one weighed burn."; m.Words != want {
		t.Errorf("got %q, want %q", m.Words, want)
	}
	want := [][]string{{"1", "0.00", "3.00", "182", "164", "6.1"}, {"3", "3.00", "4.00", "164", "", ""}, {"4", "7.00", "2.00", "139", "", ""}}
	if d := cmp.Diff(want, m.Chart.Table.Rows); d != "" {
		t.Error(d)
	}
}

func TestGrowthDrawsBurnsThatCount(t *testing.T) {
	t.Parallel()
	gone := aBurn(2, 40, wide(50, 50))
	gone.Burn.Gone = of(noon)
	out := wide(60, 60)
	out.LeftOut = true
	log := aCandle(aBurn(1, 60, wide(48, 46), out, wide(76.2, 75.8)), gone, aBurn(3, 30, wide(52, 50)), aBurn(4, 20))
	g := candlePage(log, metricView()).Growth
	if n := len(g.Wide.Burns); n != 2 {
		t.Fatalf("%d burns are drawn, want 2", n)
	}
	if g.Wide.Burns[1].Class != "chart-burn chart-now" || g.Wide.Burns[0].Class != "chart-burn" {
		t.Errorf("the latest burn does not stand out: %+v", g.Wide.Burns)
	}
	if g.Wide.Burns[0].Out == "" || g.Wide.Burns[0].Full == "" {
		t.Error("the reading left out is not crossed, or the full one has no tick")
	}
	if g.Wide.WallName.Words != "wall 76.2 mm" || g.Wide.Due.Words != "target 3 h 00" {
		t.Errorf("labels %q, %q", g.Wide.WallName.Words, g.Wide.Due.Words)
	}
	if p := candlePage(aCandle(aBurn(1, 20)), metricView()); p.Growth != nil {
		t.Error("a chart without a reading")
	}
}

func TestGrowthDividesInchesAsARulerDoes(t *testing.T) {
	t.Parallel()
	l := aCandle(aBurn(1, 20, wide(20, 18)))
	l.Vessel.InnerWidth = 25.4 // an inch, 16 CFR 500.19
	g := candlePage(l, imperialView()).Growth
	var ticks []string
	for _, y := range g.Wide.Y {
		ticks = append(ticks, y.Label.Words)
	}
	if got := strings.Join(ticks, "|"); got != "0|1/4|1/2|3/4|1 in" {
		t.Errorf("ticks %q", got)
	}
	if g.Wide.WallName.Words != "wall 1 in" {
		t.Errorf("wall %q", g.Wide.WallName.Words)
	}
}
