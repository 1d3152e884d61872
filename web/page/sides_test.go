package page

import (
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/compare"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings"
)

func TestReadSidesChoice(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name, query, address string
		unread, tooMany      int
		twice                bool
	}{
		{"nothing", "", "/side-by-side", 0, 0, false},
		{"in order", "of=c14&of=c12", "/side-by-side?of=c14&of=c12", 0, 0, false},
		{"a candle and a pairing", "of=c12&of=p1.2.5.1.1.1-8000", "/side-by-side?of=c12&of=p1.2.5.1.1.1-8000", 0, 0, false},
		{"an empty box", "of=c12&of=", "/side-by-side?of=c12", 0, 0, false},
		{"twice", "of=c12&of=c12&of=c13", "/side-by-side?of=c12&of=c13", 0, 0, true},
		{"unreadable", "of=x&of=c&of=c-1&of=p1.2&of=p0.1.2.3&of=p1.1.1.&of=c9", "/side-by-side?of=c9", 6, 0, false},
		{"eight", "of=c1&of=c2&of=c3&of=c4&of=c5&of=c6&of=c7&of=c8", "/side-by-side?of=c1&of=c2&of=c3&of=c4&of=c5&of=c6", 0, 2, false},
		{"a name that could break out", "of=" + url.QueryEscape(`p1.1.1."><b>&of=c1`), "/side-by-side?of=" + url.QueryEscape(`p1.1.1."><b>&of=c1`), 0, 0, false},
	} {
		q, err := url.ParseQuery(c.query)
		if err != nil {
			t.Fatal(err)
		}
		got := ReadSidesChoice(q)
		if got.Address() != c.address || len(got.Unread) != c.unread || got.TooMany != c.tooMany || got.Twice != c.twice {
			t.Errorf("%s: %s, %+v", c.name, got.Address(), got)
		}
	}
}

func TestColumnsMoveAndGo(t *testing.T) {
	t.Parallel()
	keys := []SidesKey{{Candle: 1}, {Candle: 2}, {Candle: 3}}
	for got, want := range map[string]string{
		without(keys, 1): "/side-by-side?of=c1&of=c3", moved(keys, 0, -1): "", moved(keys, 2, 1): "",
		moved(keys, 0, 1): "/side-by-side?of=c2&of=c1&of=c3", moved(keys, 1, 1): "/side-by-side?of=c1&of=c3&of=c2", without(keys[:1], 0): "/side-by-side",
	} {
		if got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
	if got := moved(keys, 2, -1); got != "/side-by-side?of=c1&of=c3&of=c2" {
		t.Errorf("the last moved to the left is %s", got)
	}
	if keys[0].Candle != 1 || keys[2].Candle != 3 {
		t.Error("the choice itself was changed")
	}
}

func TestReadCode(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{"14-C": "14 C", "14c": "14 C", " 14 aa": "14 AA", "14": "", "C": "", "-C": "", "14-C2": "", "14-É": "", "99999999999999999999-A": ""} {
		n, letter, ok := ReadCode(text)
		got := ""
		if ok {
			got = quantity.Number(float64(n), 0) + " " + letter
		}
		if got != want {
			t.Errorf("%q is read as %q, want %q", text, got, want)
		}
	}
}

// sideCandle is a candle of pour 14 in a vessel of 76 mm with one burn.
func sideCandle(letter, wick string, change func(*journal.CandleLog)) SidesThing {
	lit := standingsView.Now.Add(-48 * time.Hour)
	out := lit.Add(4 * time.Hour)
	mm := quantity.Millimetres(61)
	l := journal.CandleLog{Made: journal.Made{
		Candle: journal.Candle{Meta: journal.Meta{ID: journal.ID(letter[0])}, PourNumber: 14, Letter: letter, Wicks: 1},
		Pour:   journal.Pour{Meta: journal.Meta{ID: 14}, Number: 14, At: lit.AddDate(0, 0, -14)},
		Wax:    journal.Wax{Meta: journal.Meta{ID: 1}, Name: "Meadow blend"},
		Vessel: journal.Vessel{Meta: journal.Meta{ID: 1}, Name: "Pebble tumbler", Shape: journal.Round, InnerWidth: 76},
		Wick:   journal.Wick{Meta: journal.Meta{ID: journal.ID(wick[0])}, Label: wick}, Ladder: journal.Ladder{Name: "Larkspur"},
	}, Burns: []journal.BurnLog{{Burn: journal.Burn{Number: 1, LitAt: lit, OutAt: &out, Ending: journal.Snuffed},
		Checks: []journal.Check{{At: lit.Add(time.Hour), WidthA: &mm, WidthB: &mm, Flame: &mm}, {At: lit.Add(3 * time.Hour), Full: true}}}}}
	if change != nil {
		change(&l)
	}
	return SidesThing{Key: SidesKey{Candle: l.Candle.ID}, Log: &l, Side: compare.OfCandle(l, nil)}
}

func sidesPage(ts ...SidesThing) SidesPage {
	f := SidesFound{Things: ts}
	return NewSidesPage(f, SidesOffers{}, safety.NewLimits(nil), standingsView)
}

func TestSidesSayInWhatTheyDiffer(t *testing.T) {
	t.Parallel()
	poured := func(c quantity.Celsius, pour journal.ID) func(*journal.CandleLog) {
		return func(l *journal.CandleLog) { l.Pour.PouredAt, l.Pour.ID = &c, pour }
	}
	for _, c := range []struct {
		name string
		page SidesPage
		want string
	}{
		{"one thing", sidesPage(sideCandle("A", "6", nil), sideCandle("B", "7", nil)), "Two candles of pour 14. They differ in wick only."},
		{"nothing", sidesPage(sideCandle("A", "6", nil), sideCandle("B", "6", nil), sideCandle("C", "6", nil)), "Three candles of pour 14. They are alike in all that was noted."},
		{"two things", sidesPage(sideCandle("A", "6", poured(60, 14)), sideCandle("B", "7", poured(64, 15))), "Two candles in Pebble tumbler. They differ in wick and pour temperature: whatever you see may come from either."},
		{"three things", sidesPage(sideCandle("A", "6", poured(60, 14)), sideCandle("B", "7", func(l *journal.CandleLog) { poured(64, 14)(l); l.Pour.Dye = "rust" })), "Two candles of pour 14. They differ in 3 things, wick, dye and pour temperature: whatever you see may come from any of them."},
		{"the pour alone", sidesPage(sideCandle("A", "6", poured(60, 14)), sideCandle("B", "6", poured(60, 15))), "Two candles in Pebble tumbler. They are alike in all that was noted, but come from different pours: whatever else was different on those days may show."},
		{"one thing and the pour", sidesPage(sideCandle("A", "6", poured(60, 14)), sideCandle("B", "7", poured(60, 15))), "Two candles in Pebble tumbler. They differ in wick only, as far as was noted; but they come from different pours, and whatever else was different on those days may show too."},
		{"not noted", sidesPage(sideCandle("A", "6", poured(60, 14)), sideCandle("B", "7", nil)), "Two candles of pour 14. They differ in wick only. Not noted for all of them, so it may differ too: pour temperature."},
		{"one", sidesPage(sideCandle("A", "6", nil)), "One candle of pour 14. One alone says little. Add another below to set beside it."},
	} {
		warn := ""
		if c.page.Warn != nil {
			warn = c.page.Warn.Text
		}
		got := joinWords(c.page.Lede, c.page.Same, c.page.Only, c.page.After, warn, c.page.Unknown)
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, d)
		}
	}
}

func TestSidesSayWhatOfTheAddressIsMissing(t *testing.T) {
	t.Parallel()
	f := SidesFound{Choice: SidesChoice{Asked: true, Twice: true, TooMany: 1, Unread: []string{"x", "y"}, Code: "14-Q"}, NoCode: true, Note: "Worked out today.",
		Lost: []SidesKey{{Candle: 9}, {Pairing: PairingChoice{Vessel: 1}}, {Pairing: PairingChoice{Vessel: 2}}}}
	var got []string
	for _, w := range sidesSaid(f) {
		got = append(got, w.Text)
	}
	want := []string{
		"Worked out today.",
		"Two parts of the address could not be read and are left out.",
		"One candle of the address is not in this journal.",
		"Two pairings of the address are not in the standings: nothing that counts is recorded, or settings are kept apart in another way now.",
		"What was named twice stands once.",
		"Six at most fit side by side. One more was left out.",
		"No candle has the code “14-Q”. A code is the pour’s number and a letter, such as 14-C.",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

func TestApartInWords(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name  string
		n     compare.MeasureName
		d     compare.Difference
		whole bool
		want  string
	}{
		{"wider", compare.Width, compare.Difference{Verdict: compare.Told, By: 4.2, Low: 1.1, High: 7.3}, false, "4.2 mm wider, between 1.1 and 7.3 mm"},
		{"narrower", compare.Width, compare.Difference{Verdict: compare.Told, By: -4.2, Low: -7.3, High: -1.1}, false, "4.2 mm narrower, between 1.1 and 7.3 mm"},
		{"just told", compare.Rate, compare.Difference{Verdict: compare.Told, By: -0.2, Low: -0.34, High: -0.01}, false, "0.2 g/h less, between just over 0 and 0.3 g/h"},
		{"open", compare.Depth, compare.Difference{Verdict: compare.Open, By: 1.2, Low: -2, High: 4.4, Wanted: 12}, false, "can’t tell yet: 1.2 mm deeper (2.0 mm shallower to 4.4 mm deeper). If real, about 12 burns of each would tell."},
		{"small", compare.Rate, compare.Difference{Verdict: compare.Open, By: 0.1, Low: -1, High: 1.2}, true, "can’t tell yet: 0.1 g/h more (1 g/h less to 1.2 g/h more). If real it is small: over 30 candles of each would be needed."},
		{"none to speak of", compare.Rate, compare.Difference{Verdict: compare.Open, By: 0.01, Low: -1, High: 1.02}, false, "can’t tell yet: no difference (1 g/h less to 1 g/h more). If real it is small: over 30 burns of each would be needed."},
		{"one burn", compare.Flame, compare.Difference{Verdict: compare.TooFew, By: -3}, false, "can’t tell yet: 3.0 mm shorter. Two burns of each are the least."},
		{"no spread", compare.Depth, compare.Difference{Verdict: compare.NoSpread, By: 1}, false, "1.0 mm deeper; all readings alike, so no span"},
		{"degrees apart", compare.Wall, compare.Difference{Verdict: compare.Told, By: 5, Low: 2, High: 8}, false, "5 °C hotter, between 2 and 8 °C"},
		{"sooner", compare.Full, compare.Difference{Verdict: compare.Told, By: -0.5, Low: -0.75, High: -0.25}, false, "30 min sooner, between 15 min and 45 min"},
		{"bounds", compare.Full, compare.Difference{Verdict: compare.BoundOnly}, false, "can’t tell by how much: some burns were never full, or full at the first look"},
		{"mixed", compare.Reach, compare.Difference{Verdict: compare.NotAlike, By: 0.05}, true, "5 points wider; no span between a candle and a pairing"},
		{"nothing", compare.Rate, compare.Difference{Verdict: compare.Nothing}, false, ""},
	} {
		if got := strings.ReplaceAll(apartText(c.d, c.whole, measureWords(c.n, "3 h", standingsView)), "\u00a0", " "); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// Differences of temperature in Fahrenheit add no 32.
func TestApartInFahrenheit(t *testing.T) {
	t.Parallel()
	v := standingsView
	v.Units = quantity.Imperial
	got := apartText(compare.Difference{Verdict: compare.Told, By: 5, Low: 2, High: 10}, false, measureWords(compare.Wall, "3 h", v))
	if strings.ReplaceAll(got, "\u00a0", " ") != "9 °F hotter, between 4 and 18 °F" {
		t.Errorf("%q", got)
	}
	if note := alikeNote(v); !strings.Contains(note, "temperatures within 2 °F") || strings.Contains(note, "34") {
		t.Errorf("%q", note)
	}
}

// Pools stand in the place of their hour, and a burn that was not lit says so.
func TestSidesPools(t *testing.T) {
	t.Parallel()
	b := sideCandle("B", "7", func(l *journal.CandleLog) { l.Burns[0].Checks = l.Burns[0].Checks[1:] })
	never := sideCandle("C", "8", func(l *journal.CandleLog) { l.Burns = nil })
	p := sidesPage(sideCandle("A", "6", nil), b, never)
	if len(p.Pools) != 1 || p.Hours != "sides-places-2" {
		t.Fatalf("%d rows, %s", len(p.Pools), p.Hours)
	}
	c := p.Pools[0].Cells
	if c[0].Pools[0].Text != "61 × 61" || c[0].Pools[0].Hour != "1\u00a0h" || c[0].Pools[1].Text != "full" || c[1].Pools[0].Seen || c[1].Pools[1].Hour != "3\u00a0h" || c[2].Missing != "not lit" {
		t.Errorf("%+v", c)
	}
	if s := p.Heads[2].State; s != "ready, not burned yet" {
		t.Errorf("a candle that was never lit is %q", s)
	}
	if placeText(1.5) != "1½\u00a0h" || placeText(0.5) != "½\u00a0h" {
		t.Errorf("places %q and %q", placeText(1.5), placeText(0.5))
	}
}

// The standings of a column: its place, or why it has none.
func TestSidesStandings(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		change func(*standings.Pairing)
		want   []string
	}{
		{"ranked", nil, []string{"1st", "98.4", "92.0 – 99.0", "2 h 30 – may never", "0.58", "0.64"}},
		{"full at every look", func(p *standings.Pairing) { p.AtLeast, p.Full.P90 = true, 2 }, []string{"1st", "98.4", "at least 92.0", "by 2 h 00", "0.58", "0.64"}},
		{"below the line", func(p *standings.Pairing) { p.Hard = []safety.Finding{{Text: "The flame stood over the limit."}} }, []string{"below the line", "98.4", "92.0 – 99.0", "2 h 30 – may never", "0.58", "0.64"}},
		{"not enough", func(p *standings.Pairing) { p.Tested, p.NotYet = false, "One burn with a check would do." }, []string{"not enough yet", "–", "–", "–", "–", "–"}},
	} {
		x := pairingOf(6, c.change)
		var got []string
		for _, cell := range standingCells(&x, standingsView) {
			got = append(got, strings.NewReplacer("\u00a0", " ", "\u2009", " ").Replace(cell.Text))
		}
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, d)
		}
	}
	if got := standingCells(nil, standingsView); got[0].Text != "not burned yet" {
		t.Errorf("%+v", got[0])
	}
}

// The empty page offers the burned candles of the newest pours and the rungs
// of the ladders that were burned most.
func TestSidesOffers(t *testing.T) {
	t.Parallel()
	line := func(id, pour journal.ID, letter string, burns int) journal.CandleLine {
		return journal.CandleLine{Candle: journal.Candle{Meta: journal.Meta{ID: id}, Pour: pour, PourNumber: int(pour), Letter: letter}, WickName: "Larkspur " + letter,
			VesselName: "Pebble tumbler", Life: journal.Life{Burns: burns, PouredAt: standingsView.Now.AddDate(0, 0, -9)}}
	}
	lines := []journal.CandleLine{line(9, 15, "A", 0), line(8, 14, "C", 2), line(7, 14, "B", 0), line(6, 14, "A", 1), line(5, 13, "A", 3)}
	row := func(id journal.ID, burns int) []standings.CandleRow {
		return []standings.CandleRow{{Candle: journal.Candle{Meta: journal.Meta{ID: id}}, Burns: make([]standings.BurnRow, burns)}}
	}
	rung := func(n int, rows []standings.CandleRow) standings.Rung {
		return standings.Rung{Wick: journal.Wick{Meta: journal.Meta{ID: journal.ID(n)}, Rung: n, Label: quantity.Number(float64(n), 0)}, Rows: rows}
	}
	stack := func(ladder string, rungs ...standings.Rung) *standings.Stack {
		return &standings.Stack{Vessel: journal.Vessel{Meta: journal.Meta{ID: 1}, Name: "Pebble tumbler"}, Ladder: journal.Ladder{Meta: journal.Meta{ID: 1}, Name: ladder}, Wicks: 1, Rungs: rungs}
	}
	o := SidesOffers{Lines: lines, Stacks: []*standings.Stack{
		stack("Alder", rung(1, row(5, 1)), rung(2, row(6, 1))),
		stack("Larkspur", rung(6, row(7, 2)), rung(7, nil), rung(8, row(8, 3))),
		stack("Teasel", rung(3, row(9, 9)))}}
	p := NewSidesPage(SidesFound{}, o, safety.NewLimits(nil), standingsView)
	var got []string
	for _, i := range p.Offers {
		got = append(got, i.Text+" "+i.Href)
	}
	want := []string{
		"The two burned candles of pour 14 /side-by-side?of=c6&of=c8",
		"The rungs of Larkspur in Pebble tumbler /side-by-side?of=p1.0.6.1.1.none&of=p1.0.8.1.1.none",
		"The rungs of Alder in Pebble tumbler /side-by-side?of=p1.0.1.1.1.none&of=p1.0.2.1.1.none",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	if p.Add == nil || len(p.Add.Groups) != 5 {
		t.Errorf("the box to add: %+v", p.Add)
	}
	if none := NewSidesPage(SidesFound{}, SidesOffers{}, safety.NewLimits(nil), standingsView); none.Add != nil || len(none.Offers) > 0 || !strings.Contains(none.Empty.Text, "two candles that were burned") {
		t.Errorf("%+v", none.Empty)
	}
}

// What stands already is not offered again, and six are the most.
func TestAddingStopsAtSix(t *testing.T) {
	t.Parallel()
	lines := []journal.CandleLine{{Candle: journal.Candle{Meta: journal.Meta{ID: 'A'}, PourNumber: 14, Letter: "A"}, Life: journal.Life{Burns: 1}}}
	one := NewSidesPage(SidesFound{Things: []SidesThing{sideCandle("A", "6", nil)}}, SidesOffers{Lines: lines}, safety.NewLimits(nil), standingsView)
	if one.Add == nil || len(one.Add.Groups) != 1 || len(one.Hidden) != 1 || one.Hidden[0].Value != "c65" {
		t.Errorf("%+v, %+v", one.Add, one.Hidden)
	}
	var six []SidesThing
	for _, l := range []string{"A", "B", "C", "D", "E", "F"} {
		six = append(six, sideCandle(l, "6", nil))
	}
	if p := sidesPage(six...); p.Add != nil || p.Full == "" || p.Heads[0].Left != "" || p.Heads[5].Right != "" {
		t.Errorf("%+v", p.Add)
	}
}

// Pairings of one name go by what tells them apart.
func TestPairingsOfOneName(t *testing.T) {
	t.Parallel()
	of := func(change func(*journal.CandleLog)) SidesThing {
		x := sideCandle("A", "6", change)
		p := standings.Pairing{Vessel: x.Log.Vessel, Wick: x.Log.Wick, Ladder: x.Log.Ladder, Wicks: x.Log.Candle.Wicks}
		x.Side = compare.OfPairing(p, []journal.CandleLog{*x.Log})
		return x
	}
	wax := func(l *journal.CandleLog) { l.Wax = journal.Wax{Meta: journal.Meta{ID: 2}, Name: "Harbour blend"} }
	bowl := func(l *journal.CandleLog) { l.Vessel.Name = "Fern bowl" }
	scent := func(load quantity.Fraction) func(*journal.CandleLog) {
		return func(l *journal.CandleLog) {
			l.Fragrance, l.Pour.Load, l.Pour.LoadBasis = &journal.Fragrance{Name: "Fig and smoke"}, &load, journal.OfWax
		}
	}
	for _, c := range []struct {
		name   string
		things []SidesThing
		want   string
	}{
		{"different wicks", []SidesThing{of(nil), of(func(l *journal.CandleLog) { l.Wick.Label = "7" })}, "Larkspur 6 | Larkspur 7"},
		{"two wicks", []SidesThing{of(nil), of(func(l *journal.CandleLog) { l.Candle.Wicks = 2 })}, "Larkspur 6 | 2 × Larkspur 6"},
		{"vessels", []SidesThing{of(nil), of(bowl)}, "Larkspur 6, Pebble tumbler | Larkspur 6, Fern bowl"},
		{"waxes", []SidesThing{of(nil), of(wax), of(func(l *journal.CandleLog) { l.Wick.Label = "7" })}, "Larkspur 6, Meadow blend | Larkspur 6, Harbour blend | Larkspur 7"},
		{"loads", []SidesThing{of(scent(0.08)), of(scent(0.1))}, "Larkspur 6, Fig and smoke, 8 % of wax | Larkspur 6, Fig and smoke, 10 % of wax"},
		{"vessels and waxes", []SidesThing{of(nil), of(bowl), of(wax)}, "Larkspur 6, Pebble tumbler, Meadow blend | Larkspur 6, Fern bowl | Larkspur 6, Pebble tumbler, Harbour blend"},
		{"nothing that is shown", []SidesThing{of(nil), of(nil)}, "Larkspur 6 (1) | Larkspur 6 (2)"},
	} {
		var got []string
		for _, s := range sidesOf(c.things) {
			got = append(got, s.Name)
		}
		if d := cmp.Diff(c.want, strings.Join(got, " | ")); d != "" {
			t.Errorf("%s: %s", c.name, d)
		}
	}
}

// How many spans are expected to miss depends on how many there are: one in
// twenty at the level of 95 %.
func TestSpansThatMiss(t *testing.T) {
	t.Parallel()
	two := sidesOf([]SidesThing{sideCandle("A", "6", nil), sideCandle("B", "7", nil)})
	for n, want := range map[int]string{0: "", 9: "19 times in 20. A burn", 10: "of 10 spans, one can well", 30: "of 30 spans, one to three"} {
		if got := figuresNote(two, spansShown{read: n}); !strings.Contains(got, want) || (n == 0 && strings.Contains(got, "19 times")) {
			t.Errorf("%d spans: %s", n, got)
		}
	}
	if got := figuresNote(two[:1], spansShown{read: 9}); got != "" {
		t.Errorf("one column says %q", got)
	}
}

// What the standings believe rests on more than the readings, so it is not
// promised how often its spans hold.
func TestBelievedSpansPromiseNoCoverage(t *testing.T) {
	t.Parallel()
	pairings := sidesOf([]SidesThing{sideCandle("A", "6", nil), sideCandle("B", "7", nil)})
	alone := figuresNote(pairings, spansShown{believed: 1})
	if strings.Contains(alone, "19 times") || !strings.Contains(alone, "where the standings place the difference, 95 chances in 100") {
		t.Errorf("says %q", alone)
	}
	if both := figuresNote(pairings, spansShown{read: 2, believed: 1}); !strings.Contains(both, "Each span but those of the widths holds the true difference 19 times in 20.") {
		t.Errorf("says %q", both)
	}
	var s spansShown
	for _, d := range []compare.Difference{{Verdict: compare.Told}, {Verdict: compare.Open, Believed: true}, {Verdict: compare.TooFew, Believed: true}} {
		s.count(d)
	}
	if s != (spansShown{1, 1}) {
		t.Errorf("%+v", s)
	}
}

// A pool that was full before anybody looked was not "never full".
func TestFullAtTheFirstLookIsSaid(t *testing.T) {
	t.Parallel()
	w := measureWords(compare.Full, "3 h", View{})
	for want, f := range map[string]compare.Figure{
		"never full": {Bounded: 2, Seen: 2}, "full at the first look": {Bounded: 2, Early: 2, Seen: 2}, "never full or full at the first look": {Bounded: 2, Early: 1, Seen: 2},
	} {
		if c := figureCell(f, compare.Side{}, w); c.Text != want {
			t.Errorf("says %q, want %q", c.Text, want)
		}
	}
}
