package page_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/web/chart"
	"rimward/web/page"
)

// chartNamed is one chart of a candle, nil where there is nothing to draw.
func chartNamed(name string, l journal.CandleLog) *chart.Chart {
	c, ok := page.CandleChart(name, l, safety.NewLimits(nil), metricView())
	if !ok {
		return nil
	}
	return &c
}

// told is a check with everything that the charts over its life show.
func told(flame, depth quantity.Millimetres, heat quantity.Celsius, soot, mushroom journal.Grade) journal.Check {
	c := wide(50, 48)
	c.Flame, c.Depth, c.VesselTemp, c.Soot, c.Mushroom = &flame, &depth, &heat, soot, mushroom
	return c
}

func TestReadingsStandOverTheHoursLit(t *testing.T) {
	t.Parallel()
	gone := aBurn(2, 40, told(70, 9, 70, "marks", "cap"))
	gone.Burn.Gone = of(noon)
	l := aCandle(aBurn(1, 60, told(28, 6, 41.5, "none", "none")), gone, aBurn(3, 30, told(34, 8, 48, "wisp", "cap"), told(36, 9, 52, "thread", "cap")))
	for name, want := range map[string][][]string{
		"flame": {{"1", "0.00", "1.00", "28", "41.5"}, {"3", "3.00", "1.00", "34", "48"}, {"3", "3.00", "2.00", "36", "52"}},
		"depth": {{"1", "0.00", "1.00", "6"}, {"3", "3.00", "1.00", "8"}, {"3", "3.00", "2.00", "9"}},
		"soot":  {{"1", "0.00", "1.00", "none", "none"}, {"3", "3.00", "1.00", "wisp", "cap"}, {"3", "3.00", "2.00", "thread", "cap"}},
	} {
		c := chartNamed(name, l)
		if c == nil {
			t.Fatalf("%s: nothing is drawn", name)
		}
		if d := cmp.Diff(want, c.Table.Rows); d != "" {
			t.Errorf("%s: %s", name, d)
		}
	}
	if c := chartNamed("flame", l); !strings.HasPrefix(c.Caption, "Six readings in two burns.") {
		t.Errorf("caption %q", c.Caption)
	}
}

// A pool that was short of the wall at 1 h and full at 2 h became full between;
// one that was full at the first look, by then; one never full, not yet.
func TestWindowsSayWhenThePoolWasFull(t *testing.T) {
	t.Parallel()
	full := journal.Check{Full: true}
	c := chartNamed("full", aCandle(aBurn(1, 90, wide(50, 48), full), aBurn(2, 60, full), aBurn(3, 30, wide(50, 48), wide(60, 58)), aBurn(4, 20)))
	want := [][]string{{"burn 1", "1.00", "2.00"}, {"burn 2", "not looked at", "1.00"}, {"burn 3", "2.00", "not seen full"}}
	if d := cmp.Diff(want, c.Table.Rows); d != "" {
		t.Error(d)
	}
	if !strings.HasSuffix(c.Caption, "Three burns.") {
		t.Errorf("caption %q", c.Caption)
	}
}

func TestFaultsOfACandleAreThoseSeen(t *testing.T) {
	t.Parallel()
	l := aCandle(aBurn(1, 60, told(28, 6, 41, "none", "none")), aBurn(2, 30, told(28, 6, 41, "thread", "bead")))
	c := chartNamed("faults", l)
	var got []string
	for _, r := range c.Table.Rows {
		got = append(got, strings.Join(r, " | "))
	}
	if d := cmp.Diff([]string{"soot, from thread | none seen | seen", "mushrooming, from cap | none seen | a little"}, got); d != "" {
		t.Error(d)
	}
	if !strings.Contains(c.Caption, "Looked for and never seen: flame on the pool, crack,") {
		t.Errorf("caption %q", c.Caption)
	}
	if chartNamed("faults", aCandle(aBurn(1, 60, wide(50, 48)))) != nil {
		t.Error("a chart of no fault")
	}
}

func TestChartsWithoutReadingsAreNotThere(t *testing.T) {
	t.Parallel()
	l := aCandle(aBurn(1, 20))
	for _, name := range []string{"growth", "mass", "burns", "full", "flame", "depth", "soot", "faults", "nonsense", ""} {
		if chartNamed(name, l) != nil {
			t.Errorf("%q: a chart out of nothing", name)
		}
	}
	p := candlePage(l, metricView())
	if len(p.Charts) != 2 || p.Charts[0].Missing == "" || p.Charts[1].Words == "" || len(p.MoreCharts) != 0 {
		t.Errorf("charts %+v, more %+v", p.Charts, p.MoreCharts)
	}
}

func TestEveryChartOfACandleCanBeTakenAway(t *testing.T) {
	t.Parallel()
	p := candlePage(aCandle(aBurn(1, 60, told(28, 6, 41, "thread", "none")), massed(2, 30, 4, 182, 160)), metricView())
	if len(p.MoreCharts) != 6 {
		t.Errorf("%d more charts, want 6: %s", len(p.MoreCharts), p.MoreText)
	}
	for _, f := range append(p.Charts, p.MoreCharts...) {
		if f.Chart == nil {
			continue
		}
		if len(f.Chart.Files) != 2 || !strings.HasPrefix(f.Chart.Files[0].Href, "/candles/7/charts/") || len(f.Chart.Table.Rows) == 0 {
			t.Errorf("%s: files %v, %d rows", f.Heading, f.Chart.Files, len(f.Chart.Table.Rows))
		}
	}
	if !strings.HasPrefix(p.MoreText, "More charts: each burn by itself, when the pool was full,") {
		t.Errorf("got %q", p.MoreText)
	}
}

func TestChartsSpeakThePersonsUnits(t *testing.T) {
	t.Parallel()
	c, _ := page.CandleChart("flame", aCandle(aBurn(1, 60, told(25.4, 6, 60, "none", "none"))), safety.NewLimits(nil), imperialView())
	// 16 CFR 500.19: an inch is 25.4 mm; 60 °C is 140 °F.
	if d := cmp.Diff([]string{"1", "0.00", "1.00", "1", "140"}, c.Table.Rows[0]); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([]string{"Flame, in", "Vessel, °F"}, c.Table.Head[3:]); d != "" {
		t.Error(d)
	}
}

// Hours lit run on from burn to burn: readings one hour into the first burn of
// three hours, and one and two hours into the next, stand at 1, 4 and 5 h.
func TestBurnsAreJoinedEndToEnd(t *testing.T) {
	t.Parallel()
	deep := func() journal.Check { return told(28, 6, 41, "none", "none") }
	c := chartNamed("depth", aCandle(aBurn(1, 60, deep()), aBurn(2, 30, deep(), deep())))
	var x []float64
	for _, l := range c.Wide.Layers {
		for _, s := range l.Shapes {
			if s.Class == "chart-line" {
				for _, p := range strings.FieldsFunc(s.Path, func(r rune) bool { return r == 'M' || r == 'L' }) {
					n, err := strconv.ParseFloat(strings.Fields(p)[0], 64)
					if err != nil {
						t.Fatal(err)
					}
					x = append(x, n)
				}
			}
		}
	}
	if len(x) != 3 || math.Abs((x[1]-x[0])/(x[2]-x[1])-3) > 0.01 {
		t.Errorf("readings at %v: the first step is not three times the second", x)
	}
}
