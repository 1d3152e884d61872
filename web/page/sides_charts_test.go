package page

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/compare"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings"
	"rimward/internal/standings/tree"
)

// read gives a thing the pairing that the standings make of it, or makes it a
// whole pairing.
func read(t *testing.T, x SidesThing, whole bool) SidesThing {
	t.Helper()
	opt := standings.Options{Ruler: 1, Limits: safety.NewLimits(nil), Units: quantity.Metric, Apart: journal.ByWax}
	table, err := standings.Work(t.Context(), []journal.CandleLog{*x.Log}, opt, tree.Default())
	if err != nil {
		t.Fatal(err)
	}
	p := PairingOf(table, x.Log.Candle.ID)
	x.Side = compare.OfCandle(*x.Log, p)
	if whole {
		x.Side = compare.OfPairing(*p, []journal.CandleLog{*x.Log})
	}
	return x
}

func TestSidesGrowth(t *testing.T) {
	t.Parallel()
	candle, pairing := read(t, sideCandle("A", "6", nil), false), read(t, sideCandle("B", "7", nil), true)
	got := sidesGrowth(sidesOf([]SidesThing{candle, pairing}), standingsView)
	if len(got) != 1 || got[0].Chart == nil {
		t.Fatalf("%+v", got)
	}
	c := got[0].Chart
	for _, says := range []string{"A candle’s curve is the mean of those fitted to its burns", "eight in ten keep within the band"} {
		if !strings.Contains(c.Caption, says) {
			t.Errorf("the caption does not say %q: %s", says, c.Caption)
		}
	}
	if d := cmp.Diff([]string{"Hour", "14-A, mm", "Larkspur 7, mm"}, c.Table.Head); d != "" {
		t.Error(d)
	}
	// The candle was read until 3 h, the pairing is told until 4 h.
	if n := len(c.Table.Rows); n != 8 || c.Table.Rows[7][1] != "–" || c.Table.Rows[7][2] == "–" || !strings.HasPrefix(c.Table.Rows[1][1], "6") {
		t.Errorf("%d rows: %v", n, c.Table.Rows)
	}
	never := sideCandle("C", "8", func(l *journal.CandleLog) { l.Burns = nil })
	if none := sidesGrowth(sidesOf([]SidesThing{never, never}), standingsView); len(none) > 0 {
		t.Errorf("candles that were never lit are drawn: %+v", none)
	}
}

func TestSidesCourses(t *testing.T) {
	t.Parallel()
	a := sideCandle("A", "6", func(l *journal.CandleLog) {
		b, g := &l.Burns[0], quantity.Grams(250)
		h := g - 24
		b.Burn.MassBefore, b.Burn.MassAfter = &g, &h
		b.Checks[0].Soot = "wisp"
	})
	got := sidesCourses(sidesOf([]SidesThing{a, sideCandle("B", "7", nil)}), standingsView)
	if len(got) != 1 || got[0].Chart == nil {
		t.Fatalf("%+v", got)
	}
	want := [][]string{
		{"14-A", "0 min", "250 g", "", "", "", "", ""},
		{"14-A", "1 h 00", "", "61 mm", "", "", "wisp", ""},
		{"14-A", "4 h 00", "226 g", "", "", "", "", ""},
		{"14-B", "1 h 00", "", "61 mm", "", "", "", ""},
	}
	for _, r := range got[0].Chart.Table.Rows {
		for i := range r {
			r[i] = strings.ReplaceAll(r[i], "\u00a0", " ")
		}
	}
	if d := cmp.Diff(want, got[0].Chart.Table.Rows); d != "" {
		t.Error(d)
	}
	if head := got[0].Chart.Table.Head; len(head) != 8 || head[3] != "Flame height" {
		t.Errorf("%v", head)
	}
	// The mass is joined over rests, other readings are not.
	for n, want := range map[compare.CourseName]int{compare.MassCourse: 0, compare.FlameCourse: 1} {
		p, ok := coursePanel(sidesOf([]SidesThing{a}), n, standingsView)
		if !ok || p.Series[0].Points[0].Burn != want {
			t.Errorf("%s is joined within burn %d", n, p.Series[0].Points[0].Burn)
		}
	}
	whole := read(t, sideCandle("A", "6", nil), true)
	if p := sidesCourses(sidesOf([]SidesThing{whole, whole}), standingsView); len(p) != 1 || p[0].Chart != nil || !strings.Contains(p[0].Note, "candles side by side") {
		t.Errorf("pairings: %+v", p)
	}
	one, two := read(t, sideCandle("A", "6", func(l *journal.CandleLog) { l.Candle.ID = 4 }), true), read(t, sideCandle("B", "7", func(l *journal.CandleLog) { l.Candle.ID = 9 }), true)
	if p := sidesCourses(sidesOf([]SidesThing{one, two}), standingsView); p[0].Lead.Href != "/side-by-side?of=c4&of=c9" {
		t.Errorf("a candle of each: %q", p[0].Lead.Href)
	}
	bare := sideCandle("C", "8", func(l *journal.CandleLog) { l.Burns[0].Checks = nil })
	if n := sidesCourses(sidesOf([]SidesThing{bare}), standingsView); len(n) > 0 {
		t.Errorf("nothing to follow is drawn: %+v", n)
	}
}

// Photos of checks stand at their pools; others below them.
func TestPhotosFindTheirPools(t *testing.T) {
	t.Parallel()
	c := SidesPoolCell{Pools: make([]SidesPool, 2)}
	from := compare.PoolCell{Pools: []compare.Pool{{Check: &journal.Check{Meta: journal.Meta{ID: 5}}}, {}}}
	c.place([]PhotoFigure{{Href: "a", Check: 5}, {Href: "b", Check: 6}, {Href: "c"}}, from)
	if len(c.Pools[0].Photos) != 1 || c.Pools[0].Photos[0].Href != "a" || len(c.Photos) != 2 || len(c.Pools[1].Photos) != 0 {
		t.Errorf("%+v", c)
	}
	gone := standingsView.Now.Add(-time.Hour)
	x := sideCandle("A", "6", func(l *journal.CandleLog) { l.Burns[0].Burn.ID, l.Burns[0].Burn.Gone = 3, &gone })
	x.Photos = []journal.Photo{{Of: journal.NounBurn, OfID: 3}}
	if fs := x.burnPhotos(1); len(fs) > 0 {
		t.Errorf("photos of a withdrawn burn: %+v", fs)
	}
}

// Of 22 burns 16 were never full: a mean over the six others may not stand for
// all of them.
func TestAMeanOverSomeBurnsDoesNotSpeakForAll(t *testing.T) {
	t.Parallel()
	w := measureWords(compare.Full, "3 h 04", standingsView)
	c := figureCell(compare.Figure{Mean: 3, N: 2, Bounded: 16, Seen: 22}, compare.Side{Whole: true}, w)
	if c.Text != "never full in 16 of 22 burns" || c.Unit != "" || len(c.Small) != 2 || c.Small[0] != tight("3 h 00")+" is the mean over the other burns alone" {
		t.Errorf("%+v", c)
	}
	if c := figureCell(compare.Figure{Mean: 3, N: 22, Seen: 22}, compare.Side{}, w); c.Text != tight("3 h 00") || len(c.Small) != 1 {
		t.Errorf("%+v", c)
	}
}
