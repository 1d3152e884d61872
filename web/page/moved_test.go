package page

import (
	"net/url"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/influence"
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

var movedTried = []journal.Tried{{Vessel: 1, Wax: 1, Burns: 4}, {Vessel: 1, Wax: 2, Burns: 9}}

var movedShelf = Shelves{Waxes: []journal.Wax{{Meta: journal.Meta{ID: 1}, Name: "Meadow blend"}, {Meta: journal.Meta{ID: 2}, Name: "Harbour blend"}}}

// movedAnswer is an answer with one effect in a pool of 70 mm.
func movedAnswer(e influence.Effect) influence.Answer {
	return influence.Answer{Effects: []influence.Effect{e}, Candles: 14, Pairings: 4, Burns: 40, Typical: 70, DF: 20}
}

func movedPage(a influence.Answer, u quantity.Units) MovedPage {
	v := standingsView
	v.Units = u
	return NewMovedPage(a, MovedChoice{2}, movedTried, movedShelf, "", v)
}

// By hand: 70 mm times exp(-0.0129) - 1 is -0.897 mm; times exp(-0.0243) - 1 it is
// -1.681 mm, times exp(-0.0014) - 1 it is -0.098 mm. In inches 0.035, 0.066 and
// 0.004. Ten degrees Fahrenheit are 5.556 °C: 70 (exp(0.01111) - 1) is 0.782 mm,
// 0.031 in; exp(-0.00556) - 1 gives 0.388 mm, 0.015 in, and exp(0.02778) - 1
// gives 1.972 mm, 0.078 in.
func TestEffectsInAMakersWords(t *testing.T) {
	t.Parallel()
	load := influence.Effect{Factor: influence.Load, Estimate: -1.29, Low: -2.43, High: -0.14, Candles: 14, Pairings: 4, Batches: 6, DF: 6, From: 0.06, To: 0.1}
	heat := influence.Effect{Factor: influence.PouredAt, Estimate: 0.002, Low: -0.001, High: 0.005, Candles: 9, Pairings: 1, Batches: 5, DF: 2.4, From: 55, To: 65}
	warm := influence.Effect{Factor: influence.Warmed, Estimate: 0, Low: -0.02, High: 0.02, Candles: 9, Pairings: 2, Batches: 8, DF: 6.5, From: 0, To: 1}
	cure := influence.Effect{Factor: influence.Cured, Estimate: 0.01, Low: 0.005, High: 0.015, Candles: 9, Pairings: 2, Batches: 2, DF: 6, Inside: true, From: 7, To: 21.4}
	for _, c := range []struct {
		name        string
		e           influence.Effect
		u           quantity.Units
		text, from  string
		doubtsPours bool
	}{
		{"load", load, quantity.Metric, "For each percentage point more oil, of the wax, the pool was 0.9 mm narrower at its target hour (80 % interval 0.1 to 1.7 mm narrower).",
			"From 6 pours with 14 candles in 4 pairings where it differed, 6 to 10 %.", false},
		{"load in inches", load, quantity.Imperial, "For each percentage point more oil, of the wax, the pool was 0.04 in narrower at its target hour (80 % interval 0 to 0.07 in narrower).",
			"From 6 pours with 14 candles in 4 pairings where it differed, 6 to 10 %.", false},
		{"heat", heat, quantity.Imperial, "For each 10 °F hotter pour the pool was 0.03 in wider at its target hour (80 % interval 0.02 in narrower to 0.08 in wider). Which way it goes is not settled.",
			"From 5 pours with 9 candles in 1 pairing where it differed, 131 to 149 °F.", true},
		{"no difference", warm, quantity.Metric, "In a vessel that was warmed the pool was neither wider nor narrower at its target hour (80 % interval 1.4 mm narrower to 1.4 mm wider): no difference to speak of, either way within the interval.",
			"From 8 pours with 9 candles in 2 pairings where it differed, warmed and not.", false},
		// 70 (exp(0.07) - 1) is 5.08 mm, 70 (exp(0.035) - 1) 2.49 mm, 70 (exp(0.105) - 1) 7.75 mm.
		{"cure", cure, quantity.Metric, "For each week more of cure before the first burn the pool was 5.1 mm wider at its target hour (80 % interval 2.5 to 7.7 mm wider).",
			"From 9 candles in 2 pairings, each compared only with candles of its own pour, in 2 pours where it differed, 7 to 21 days.", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p := movedPage(movedAnswer(c.e), c.u)
			got := p.Effects[0]
			if tight(got.Text) != tight(c.text) || got.From != c.from || (got.Doubt != "") != c.doubtsPours {
				t.Errorf("got %q\n%q\n%q", got.Text, got.From, got.Doubt)
			}
			if p.Chart == nil || len(p.Chart.Table.Rows) != 1 || len(p.Chart.Files) != 2 || !strings.Contains(p.Chart.Caption, "with no wall") {
				t.Errorf("chart %+v", p.Chart)
			}
		})
	}
}

func TestWhatCannotBeToldInWords(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		u          influence.Untold
		text, next string
	}{
		{influence.Untold{Factor: influence.Load, Why: influence.Together, With: []influence.Factor{influence.PouredAt}}, "Load and pour temperature changed together here, always or nearly so.", "Pour one batch that changes only one of them."},
		{influence.Untold{Factor: influence.PouredAt, Why: influence.HardlyNoted, Noted: 5, Of: 14}, "It was noted for only 5 of 14 candles.", "Note it at every pour."},
		{influence.Untold{Factor: influence.Cured, Why: influence.TooFew, Lacks: 3}, "Not enough yet: too few candles for so many pairings.", "At least three more candles in pairings that were burned already would do."},
		{influence.Untold{Factor: influence.Load, Why: influence.TooFewPours, Pours: 2, Lacks: 3}, "Not enough yet: its candles come from two pours, and whatever else differed between those would count along, however many candles each gave.", "Pour one more batch of the same fragrance that changes only the load, and give it the same vessels and wicks. At least three more pours would do."},
		{influence.Untold{Factor: influence.PouredAt, Why: influence.TooFewPours, Pours: 9, Lacks: 1}, "Not enough yet: of the nine pours that speak for it too few differ in it, and whatever else was particular to those would count along.", "Pour one more batch alike in everything but its pour temperature, into the same vessels and wicks."},
		{influence.Untold{Factor: influence.Load, Why: influence.NotWithin}, "It differed, but never between candles of one pairing and fragrance, so it cannot be told from what else differed there.", "Pour one more batch of the same fragrance that changes only the load, and give it the same vessels and wicks."},
		{influence.Untold{Factor: influence.Warmed, Why: influence.NeverVaried}, "No difference was noted: a vessel counts as warmed where the pour has a temperature for it.", "From one batch, pour half into warmed vessels and half into cold ones, written down as two pours."},
		{influence.Untold{Factor: influence.Load, Why: influence.WallHidesAll}, "Where it differed, the pools stood at the wall from the first look on, so little more than a least width is known of them.", "Look at the pool earlier, at a third of its target hour, or compare with a weaker wick."},
		// 70 (exp(-0.07) - 1) is -4.73 mm, 70 (exp(0.14) - 1) is 10.52 mm.
		{influence.Untold{Factor: influence.Cured, Why: influence.TooAlike, Effect: influence.Effect{Low: -0.01, High: 0.02}}, "The candles differ in it too little. For each week more of cure before the first burn the pool may have been 4.7 mm narrower to 10.5 mm wider, which says nothing.", "Of one batch, light some candles when they are cured and others of the same pairing two weeks later."},
	} {
		p := movedPage(influence.Answer{Candles: 9, Pairings: 2, Typical: 70, Untold: []influence.Untold{c.u}}, quantity.Metric)
		if got := p.Untold[0]; got.Text != c.text || got.Next != c.next || got.Name == "" || p.Chart != nil {
			t.Errorf("%+v", got)
		}
	}
}

func TestMovedSaysWhoWasComparedAndWhoNot(t *testing.T) {
	t.Parallel()
	a := movedAnswer(influence.Effect{Factor: influence.Load, Candles: 14, Pairings: 4, Batches: 2})
	a.Open, a.LeftOut = 2, influence.LeftOut{NoWidth: 1, Alone: 3}
	p := movedPage(a, quantity.Metric)
	if p.Compared != "Compared: 14 candles in 4 pairings of Harbour blend, 40 burns. Fragrances are kept apart." {
		t.Error(p.Compared)
	}
	if d := cmp.Diff([]string{"1 candle without any width that was read late enough", "3 candles with no other candle of the pairing and fragrance to compare with"}, p.LeftOut); d != "" {
		t.Error(d)
	}
	if len(p.Doubts) != 1 || !strings.HasPrefix(p.Doubts[0], "Two candles were full at a first look") {
		t.Errorf("%q", p.Doubts)
	}
}

func TestMovedWithNothingToCompare(t *testing.T) {
	t.Parallel()
	p := NewMovedPage(influence.Explain(nil), ReadMovedChoice(url.Values{}, nil), nil, Shelves{}, "", standingsView)
	if !strings.HasPrefix(p.Empty, "Nothing was burned yet.") || len(p.Acts) == 0 || len(p.Untold) != 0 {
		t.Errorf("%+v", p)
	}
	p = movedPage(influence.Explain(nil), quantity.Metric)
	if !strings.HasPrefix(p.Empty, "No two candles of Harbour blend can be compared yet") || len(p.Untold) != 0 || len(p.Filters) != 1 {
		t.Errorf("%+v", p)
	}
}

func TestMovedChoice(t *testing.T) {
	t.Parallel()
	for query, want := range map[string]journal.ID{"": 2, "wax=1": 1, "wax=7": 2, "wax=x": 2} {
		q, err := url.ParseQuery(query)
		if got := ReadMovedChoice(q, movedTried).Wax; err != nil || got != want {
			t.Errorf("%q asks about %d, want %d (%v)", query, got, want, err)
		}
	}
}
