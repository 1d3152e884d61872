package page_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"rimward/internal/answer"
	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
	"rimward/internal/standings"
	"rimward/internal/standings/tree"
	"rimward/web/page"
)

// roundShelf has one vessel and a ladder of three rungs.
func roundShelf() page.Shelves {
	sh := page.Shelves{Vessels: []journal.Vessel{{Meta: journal.Meta{ID: 3}, Name: "Pebble tumbler"}}, Ladders: []journal.Ladder{{Meta: journal.Meta{ID: 1}, Name: "Larkspur"}}}
	for _, n := range []journal.ID{5, 6, 7} {
		sh.Wicks = append(sh.Wicks, journal.Wick{Meta: journal.Meta{ID: n}, Ladder: 1, Label: string(rune('0' + n))})
	}
	return sh
}

func aChoice(wick journal.ID, chance float64) answer.Choice {
	return answer.Choice{Chance: chance, Pairing: standings.Pairing{Vessel: roundShelf().Vessels[0], Ladder: roundShelf().Ladders[0], Wicks: 1, Candles: 2, Burns: 4, AllBurns: 4,
		Wick: journal.Wick{Meta: journal.Meta{ID: wick}, Label: string(rune('0' + wick))}, Figures: tree.Figures{Tested: true, OnTarget: 0.7, Width: tree.Points{P10: 60, P50: 64, P90: 68}}}}
}

// aMiss is the likeliest to be the closest that still misses more often than not.
func aMiss(short, soon float64) answer.Choice {
	c := aChoice(6, 0.9)
	c.OnTarget, c.Short, c.Soon = 0.3, short, soon
	return c
}

// Each state has its own sentence, and whatever is not the answer says what
// would be enough.
func TestAnswersInWords(t *testing.T) {
	t.Parallel()
	two := []answer.Choice{aChoice(6, 0.55), aChoice(7, 0.45)}
	for name, c := range map[string]struct {
		w          answer.WickAnswer
		text, next string
	}{
		"closest":        {answer.WickAnswer{State: answer.Closest, Standing: []answer.Choice{aChoice(6, 0.9), aChoice(7, 0.1)}}, "Larkspur 6 comes closest to a full pool at the target hour (chance 0.90); its chance of a full pool in time, and not too soon, is 0.70.", ""},
		"closest, short": {answer.WickAnswer{State: answer.Closest, Standing: []answer.Choice{aMiss(0.05, 0), aChoice(7, 0.1)}}, "try a wick that melts more", ""},
		"closest, soon":  {answer.WickAnswer{State: answer.Closest, Standing: []answer.Choice{aMiss(0, 0.05), aChoice(7, 0.1)}}, "try a wick that melts less", ""},
		"so far":         {answer.WickAnswer{State: answer.SoFar, Standing: []answer.Choice{aChoice(6, 0.9), aChoice(7, 0.1)}, Waiting: []journal.RoundWick{{Wick: 5, Wicks: 1}}, CandlesLeft: 2, BurnsLeft: 4}, "but Larkspur 5 has no burn that tells yet", "4 planned burns are still to come"},
		"running":        {answer.WickAnswer{State: answer.Running, Standing: two, CandlesLeft: 1, BurnsLeft: 1}, "Larkspur 6 and Larkspur 7 are still in the running", "1 planned burn is still to come"},
		"running, over":  {answer.WickAnswer{State: answer.Running, Standing: two}, "still in the running", "One more candle of each of Larkspur 6 and Larkspur 7"},
		"not yet":        {answer.WickAnswer{State: answer.NotYet, Waiting: []journal.RoundWick{{Wick: 5, Wicks: 1}, {Wick: 6, Wicks: 2}}, CandlesLeft: 2}, "Not enough yet", "Larkspur 5 and 2 × Larkspur 6"},
		"alone":          {answer.WickAnswer{State: answer.Lone, Standing: two[:1]}, "nothing to compare it with", ""},
		"all below":      {answer.WickAnswer{State: answer.AllBelow}, "A hard finding stands against every wick", "other wicks"},
		"the only above": {answer.WickAnswer{State: answer.Closest, Standing: []answer.Choice{aChoice(6, 1)}}, "the only one without a hard finding", ""},
	} {
		c.w.Vessel = 3
		p := page.NewRoundAnswer(answer.RoundAnswer{Wicks: []answer.WickAnswer{c.w}}, journal.TestRound{}, roundShelf(), "", metricView())
		got := p.Wicks[0]
		if !strings.Contains(got.Text, c.text) || (c.next == "") != (got.Next == "") || !strings.Contains(got.Next, c.next) || got.Title != "In Pebble tumbler" {
			t.Errorf("%s: %q, next %q", name, got.Text, got.Next)
		}
	}
}

// ln 1.05 is 5 %, of a pool of 80 mm 4 mm; a level that is not told never says
// that pools are wider or narrower there as a fact.
func TestLevelsInWords(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		d    answer.Difference
		has  []string
		told bool
	}{
		"told":      {answer.Difference{Verdict: answer.Told, Log: -math.Log(1.05), Low: -math.Log(1.1), High: -math.Log(1.01), Melts: 3}, []string{"narrower at 10", "than at 8", "3 melts against 3"}, true},
		"open":      {answer.Difference{Verdict: answer.Open, Log: 0.01, Low: -math.Log(1.05), High: math.Log(1.05), Melts: 3, Wanted: 9}, []string{"Can’t tell yet", "narrower to 4", "nine melts of each"}, false},
		"alike":     {answer.Difference{Verdict: answer.Open, Log: 0.001, Low: -0.01, High: 0.01, Melts: 3}, []string{"Can’t tell yet", "as good as alike"}, false},
		"too few":   {answer.Difference{Verdict: answer.TooFew, Log: 0.01, Low: math.NaN(), High: math.NaN(), Melts: 1}, []string{"Not enough yet", "Two melts of each"}, false},
		"nothing":   {answer.Difference{Verdict: answer.Nothing, Low: math.NaN(), High: math.NaN()}, []string{"Not enough yet", "Two melts of each"}, false},
		"no spread": {answer.Difference{Verdict: answer.NoSpread, Low: math.NaN(), High: math.NaN()}, []string{"step of the ruler"}, false},
	} {
		c.d.Level = 0.10
		l := answer.LevelAnswer{Factor: answer.Load, Basis: journal.OfWax, Base: 0.08, BaseMelts: 3, Others: []answer.Difference{c.d}, Typical: 80}
		got := page.NewRoundAnswer(answer.RoundAnswer{Levels: []answer.LevelAnswer{l}}, journal.TestRound{}, roundShelf(), "", metricView()).Levels[0].Lines[0]
		text := strings.ReplaceAll(got.Text+" "+got.Next, "\u00a0", " ")
		for _, want := range c.has {
			if !strings.Contains(text, want) {
				t.Errorf("%s lacks %q: %s", name, want, text)
			}
		}
		if got.Told != c.told || strings.Contains(text, "NaN") {
			t.Errorf("%s: told %v: %s", name, got.Told, text)
		}
	}
}

// Progress counts, and names what is not as it was planned.
func TestProgressInWords(t *testing.T) {
	t.Parallel()
	now := metricView().Now
	line := journal.CandleLine{Candle: journal.Candle{Meta: journal.Meta{ID: 9}, PourNumber: 14, Letter: "A", Vessel: 3, Wick: 6, Wicks: 1, RoundPlace: 1, Pour: 1},
		WickName: "Larkspur 6", Life: journal.Life{PouredAt: now.Add(-48 * time.Hour), CureDays: 14}}
	r := journal.TestRound{Wax: 2, Days: journal.RoundDays{Burns: 2}, Factors: journal.RoundFactors{LoadBasis: journal.OfWax}}
	load := quantity.Fraction(0.08)
	for i := 1; i <= 2; i++ {
		r.Places = append(r.Places, journal.RoundPlace{Number: i, Melt: i, Vessel: 3, Wick: 5, Wicks: 1, Load: &load})
	}
	real := quantity.Fraction(0.09)
	pours := map[journal.ID]journal.Pour{1: {Wax: 2, Load: &real, LoadBasis: journal.OfWax}}
	p := page.NewRoundProgress(plan.Progress(r, []journal.CandleLine{line}, pours, now), r, roundShelf(), metricView())
	if p.Lede != "1 of 2 candles are poured; 0 of 4 burns are over." || len(p.Stages) != 2 || p.Folded != "" || p.Burned {
		t.Errorf("got %+v", p)
	}
	first, second := p.Places[0], p.Places[1]
	if first.Code != "14-A" || first.Stage != "curing" || !strings.HasPrefix(first.When, "ready ") || first.What != "Pebble tumbler · Larkspur 5" {
		t.Errorf("the first is %+v", first)
	}
	if d := strings.ReplaceAll(strings.Join(first.Differs, "; "), "\u00a0", " "); d != "its wick is Larkspur 6; its load is 9 % of wax" {
		t.Errorf("it differs: %s", d)
	}
	if second.Code != "" || second.Melt != "melt 2" || second.Stage != "to pour" {
		t.Errorf("the second is %+v", second)
	}
}
