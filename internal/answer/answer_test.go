package answer_test

import (
	"math"
	"testing"
	"time"

	"rimward/internal/answer"
	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings"
	"rimward/internal/standings/tree"
)

func ptr[T any](v T) *T { return &v }

var (
	now = time.Date(2026, 5, 14, 22, 0, 0, 0, time.UTC)
	lit = now.Add(-30 * time.Hour)

	// A round vessel of 100 mm whose target hour is 3 h: widths read as per cent
	// of the wall.
	tumbler = journal.Vessel{Meta: journal.Meta{ID: 3}, Name: "Pebble tumbler", Shape: journal.Round, InnerWidth: 100, TargetHours: ptr(quantity.Hours(3))}
	bowl    = journal.Vessel{Meta: journal.Meta{ID: 4}, Name: "Wide bowl", Shape: journal.Round, InnerWidth: 100, TargetHours: ptr(quantity.Hours(3))}
	larks   = journal.Ladder{Meta: journal.Meta{ID: 1}, Name: "Larkspur"}
	options = standings.Options{Ruler: 1, Limits: safety.NewLimits(nil), Units: quantity.Metric, Apart: journal.ByFragrance}
)

// studio is a round under way: what is planned, and what was done of it.
type studio struct {
	round journal.TestRound
	logs  []journal.CandleLog
	lines []journal.CandleLine
	pours map[journal.ID]journal.Pour
}

func newStudio() *studio {
	return &studio{round: journal.TestRound{Wax: 2, Days: journal.RoundDays{Burns: 2}, Factors: journal.RoundFactors{LoadBasis: journal.OfWax}}, pours: map[journal.ID]journal.Pour{}}
}

// plan adds a place for one candle.
func (s *studio) plan(p journal.RoundPlace) journal.RoundPlace {
	p.Number, p.Wicks = len(s.round.Places)+1, 1
	if p.Vessel == 0 {
		p.Vessel = tumbler.ID
	}
	s.round.Places = append(s.round.Places, p)
	return p
}

// burn plans a place, pours its candle from a melt as planned, and burns it
// once for each width that its pool had at the target hour; a width of the
// wall's or more is a pool that was full at every look.
func (s *studio) burn(pour journal.ID, p journal.RoundPlace, widths ...float64) *journal.CandleLog {
	p = s.plan(p)
	v := tumbler
	if p.Vessel == bowl.ID {
		v = bowl
	}
	made := journal.Pour{Meta: journal.Meta{ID: pour}, Number: int(pour), Wax: 2, LoadBasis: journal.OfWax, Load: p.Load, PouredAt: p.PourAt, At: now.AddDate(0, 0, -30)}
	s.pours[pour] = made
	c := journal.Candle{Meta: journal.Meta{ID: journal.ID(100 + p.Number)}, Pour: pour, PourNumber: int(pour), Letter: journal.LetterOf(p.Number), Vessel: p.Vessel, Wick: p.Wick, Wicks: 1, RoundPlace: p.Number}
	l := journal.CandleLog{Made: journal.Made{Candle: c, Pour: made, Wax: journal.Wax{Meta: journal.Meta{ID: 2}, Name: "Meadow blend"}, Vessel: v,
		Wick: journal.Wick{Meta: journal.Meta{ID: p.Wick}, Ladder: 1, Rung: int(p.Wick), Label: string(rune('0' + int(p.Wick)))}, Ladder: larks}}
	for i, w := range widths {
		l.Burns = append(l.Burns, burned(c.ID, i, w))
	}
	s.logs = append(s.logs, l)
	s.lines = append(s.lines, journal.CandleLine{Candle: c, Life: l.Life()})
	return &s.logs[len(s.logs)-1]
}

// burned is a burn of four hours whose pool opens as 1-exp(-t) does.
func burned(candle journal.ID, n int, width float64) journal.BurnLog {
	at := lit.AddDate(0, 0, -2*n)
	b := journal.BurnLog{Burn: journal.Burn{Meta: journal.Meta{ID: candle*100 + journal.ID(n)}, Number: 9 - n, LitAt: at, OutAt: ptr(at.Add(4 * time.Hour)), Ending: journal.Snuffed}}
	for _, h := range []float64{1, 2, 3} {
		c := journal.Check{Meta: journal.Meta{ID: candle*1000 + journal.ID(n*10) + journal.ID(h)}, At: at.Add(time.Duration(h * float64(time.Hour)))}
		if w := width * -math.Expm1(-h) / -math.Expm1(-3); width < 100 {
			c.WidthA, c.WidthB = ptr(quantity.Millimetres(w)), ptr(quantity.Millimetres(w))
		} else {
			c.Full = true
		}
		b.Checks = append(b.Checks, c)
	}
	return b
}

func (s *studio) answer(t *testing.T) answer.RoundAnswer {
	t.Helper()
	stacks := standings.StacksOf(s.logs, options)
	w, err := standings.NewDesk(tree.Default()).Weigh(t.Context(), stacks)
	if err != nil {
		t.Fatal(err)
	}
	table, err := w.JudgeBetween(t.Context(), stacks)
	if err != nil {
		t.Fatal(err)
	}
	return answer.Of(s.round, plan.Progress(s.round, s.lines, s.pours, now), table, s.pours)
}

func wick(id int) journal.RoundPlace { return journal.RoundPlace{Wick: journal.ID(id)} }

func load(f float64) journal.RoundPlace {
	return journal.RoundPlace{Wick: 6, Load: ptr(quantity.Fraction(f))}
}

func (s *studio) only(t *testing.T) answer.WickAnswer {
	t.Helper()
	a := s.answer(t)
	if len(a.Wicks) != 1 {
		t.Fatalf("%d answers about wicks", len(a.Wicks))
	}
	return a.Wicks[0]
}

// Two wicks fall far short and the third nearly fills the vessel: it is named.
// While one of the three was not burned it is the closest so far only, and
// with one burned alone nothing is.
func TestTheClosestWick(t *testing.T) {
	t.Parallel()
	s := newStudio()
	s.burn(14, wick(5), 62, 63)
	if w := s.only(t); w.State != answer.Lone {
		t.Errorf("one planned wick is %s", w.State)
	}
	s.plan(wick(6))
	s.plan(wick(7))
	if w := s.only(t); w.State != answer.NotYet || len(w.Waiting) != 2 || w.BurnsLeft != 4 || w.CandlesLeft != 2 {
		t.Errorf("one of three burned: %s, waiting %v, %d burns left", w.State, w.Waiting, w.BurnsLeft)
	}
	s.round.Places = s.round.Places[:1]
	s.burn(14, wick(6), 75, 74)
	s.plan(wick(7))
	if w := s.only(t); w.State != answer.SoFar || len(w.Waiting) != 1 || w.Waiting[0].Wick != 7 {
		t.Errorf("two of three burned: %s, waiting %v", w.State, w.Waiting)
	}
	s.round.Places = s.round.Places[:2]
	s.burn(14, wick(7), 97, 96)
	w := s.only(t)
	best, _ := w.Best()
	if w.State != answer.Closest || best.Wick.ID != 7 || best.Chance < 0.8 || len(w.InRunning()) != 1 || len(w.Standing) != 3 {
		t.Errorf("all burned: %s, best %v with %v", w.State, best.Wick.ID, best.Chance)
	}
	if a := s.answer(t); !a.Told() || !a.Complete {
		t.Errorf("told %v, complete %v", a.Told(), a.Complete)
	}
}

// Two that cannot be told apart both stay in the running, together with at
// least the chance from which one alone would be named.
func TestStillInTheRunning(t *testing.T) {
	t.Parallel()
	s := newStudio()
	for _, w := range []int{6, 7} {
		s.burn(14, wick(w), 92, 93)
	}
	w := s.only(t)
	if w.State != answer.Running || len(w.InRunning()) != 2 {
		t.Errorf("alike: %s, %d in the running", w.State, len(w.InRunning()))
	}
	if a := s.answer(t); a.Told() {
		t.Error("what is in the running is told")
	}
}

// A candle more that says the same never makes the answer less sure.
func TestAgreeingEvidenceNeverLowersTheChance(t *testing.T) {
	t.Parallel()
	s := newStudio()
	last := 0.0
	for n := range 4 {
		s.burn(14, wick(6), 80, 81)
		s.burn(14, wick(7), 90, 91)
		best, _ := s.only(t).Best()
		if best.Wick.ID != 7 || best.Chance < last-1e-9 {
			t.Errorf("with %d of each the chance of wick %d is %v, before it was %v", n+1, best.Wick.ID, best.Chance, last)
		}
		last = best.Chance
	}
	if last < standings.SureEnough {
		t.Errorf("four of each come to %v only", last)
	}
}

// A wick that a hard finding stands against is not named, however close it is.
func TestBelowTheLine(t *testing.T) {
	t.Parallel()
	s := newStudio()
	s.burn(14, wick(5), 62, 63)
	bad := s.burn(14, wick(6), 97, 96)
	bad.Burns[0].Checks[1].Flame = ptr(quantity.Millimetres(120)) // above the 76 mm of ASTM F2417, see the limits
	w := s.only(t)
	if best, ok := w.Best(); !ok || best.Wick.ID != 5 || len(w.Below) != 1 || w.Below[0].Wick.ID != 6 {
		t.Errorf("standing %v, below %d", best.Wick.ID, len(w.Below))
	}
	s.logs[0].Burns[0].Checks[1].Flame = ptr(quantity.Millimetres(120))
	if w := s.only(t); w.State != answer.AllBelow {
		t.Errorf("both below the line: %s", w.State)
	}
}

// Each vessel has an answer of its own; a wick that was not planned in one is
// no part of it.
func TestVesselsApart(t *testing.T) {
	t.Parallel()
	s := newStudio()
	s.burn(14, wick(5), 62)
	s.burn(14, wick(6), 97)
	s.plan(journal.RoundPlace{Wick: 5, Vessel: bowl.ID})
	s.plan(journal.RoundPlace{Wick: 6, Vessel: bowl.ID})
	stray := s.burn(14, wick(6), 97)
	stray.Candle.Wick, stray.Wick.ID, stray.Wick.Rung = 8, 8, 8
	s.lines[2].Candle.Wick = 8
	a := s.answer(t)
	if len(a.Wicks) != 2 || a.Wicks[0].Vessel != tumbler.ID || a.Wicks[1].Vessel != bowl.ID || a.Wicks[1].State != answer.NotYet || len(a.Wicks[1].Waiting) != 2 {
		t.Fatalf("got %+v", a.Wicks)
	}
	if len(a.Wicks[0].Standing) != 2 || a.Departed != 1 {
		t.Errorf("%d stand, %d departed", len(a.Wicks[0].Standing), a.Departed)
	}
}

func (s *studio) level(t *testing.T) (answer.LevelAnswer, answer.Difference) {
	t.Helper()
	a := s.answer(t)
	if len(a.Levels) != 1 || len(a.Levels[0].Others) != 1 {
		t.Fatalf("answers about levels: %+v", a.Levels)
	}
	return a.Levels[0], a.Levels[0].Others[0]
}

// Student's comparison of two melts of each load, worked by hand on logarithms
// of widths in per cent of the wall: ln 90, 92 against ln 80, 82 have means
// 4.510800 and 4.394373, a difference of -0.116427; sums of squares 0.000242
// and 0.000305, so s² = 0.000273 with 2 degrees of freedom, a standard error of
// 0.016533, and t(0.975, 2) = 4.303 (Student's table) gives 0.07114 either way.
func TestLoadsByMelts(t *testing.T) {
	t.Parallel()
	s := newStudio()
	for i, w := range []float64{90, 92, 80, 82} {
		for range 2 { // candles of one melt, alike
			s.burn(journal.ID(14+i), load([]float64{0.08, 0.08, 0.10, 0.10}[i]), w)
		}
	}
	l, d := s.level(t)
	if d.Verdict != answer.Told || l.BaseMelts != 2 || d.Melts != 2 || d.DF != 2 || l.Candles != 8 || l.Base != 0.08 || d.Level != 0.10 {
		t.Fatalf("got %+v of %+v", d, l)
	}
	near := func(what string, got, want, within float64) {
		t.Helper()
		if !(math.Abs(got-want) <= within) {
			t.Errorf("%s is %v, want %v", what, got, want)
		}
	}
	near("the difference", d.Log, -0.116427, 1e-4)
	near("its low end", d.Low, -0.116427-0.07114, 3e-4)
	near("its high end", d.High, -0.116427+0.07114, 3e-4)
	// The middle of 90, 92, 80 and 82 is their geometric mean 85.858 mm; 11 % of
	// it less is 85.858·(e^-0.116427 - 1) = -9.436 mm.
	near("the typical width", float64(l.Typical), 85.858, 0.01)
	near("the difference in mm", float64(l.Wider(d.Log)), -9.436, 0.02)
}

// However many candles a melt gives, two melts are two: eight candles of one
// melt each tell nothing of how melts differ.
func TestCandlesOfOneMeltAreNotMelts(t *testing.T) {
	t.Parallel()
	s := newStudio()
	for i := range 8 {
		s.burn(journal.ID(14+i%2), load([]float64{0.08, 0.10}[i%2]), []float64{90, 80}[i%2]+float64(i/2))
	}
	l, d := s.level(t)
	if d.Verdict != answer.TooFew || l.BaseMelts != 1 || d.Melts != 1 || !math.IsNaN(d.Low) || !(d.Log < 0) {
		t.Errorf("got %+v of %+v", d, l)
	}
	if s.answer(t).Told() {
		t.Error("one melt of each is told")
	}
}

// Melts that agree narrow the interval, and a difference within their scatter
// is open, with how many melts would do.
func TestAgreeingMeltsNarrowTheInterval(t *testing.T) {
	t.Parallel()
	s := newStudio()
	pour := journal.ID(13)
	last := math.Inf(1)
	for n := range 4 {
		for _, x := range []struct{ load, width float64 }{{0.08, 86}, {0.08, 90}, {0.10, 84}, {0.10, 88}} {
			pour++
			s.burn(pour, load(x.load), x.width)
		}
		_, d := s.level(t)
		if !(d.High-d.Low < last) {
			t.Errorf("with %d times the melts the interval is %v wide, before it was %v", n+1, d.High-d.Low, last)
		}
		if last = d.High - d.Low; d.Verdict != answer.Open {
			t.Errorf("%d times: %s", n+1, d.Verdict)
		}
		// With eight melts of each the means lie ln 88.0 - ln 86.0 = 0.0230 apart
		// (geometric means: 87.98 and 85.98), and melts lie 0.0230 either side of
		// them, so s = 0.0230·√(16/14) = 0.0246 and d = 0.94: between 0.80, for
		// which Cohen (1988, table 2.4.1, two-sided 0.05, power 0.80) has 26 of
		// each, and 1.00, for which it has 17.
		if n == 3 && (d.Wanted <= 17 || d.Wanted >= 26) {
			t.Errorf("%d melts would do", d.Wanted)
		}
	}
}

// Vessels and wicks that only one level has do not count as the level's doing:
// the second wick melts 10 % wider in every melt that has it.
func TestPairingsAreTakenOut(t *testing.T) {
	t.Parallel()
	s := newStudio()
	wide := func(f float64) journal.RoundPlace { p := load(f); p.Wick = 7; return p }
	for i, w := range []float64{80, 82, 80, 82} {
		f := []float64{0.08, 0.08, 0.10, 0.10}[i]
		s.burn(journal.ID(14+i), load(f), w)
		if i > 0 {
			s.burn(journal.ID(14+i), wide(f), w*1.1)
		}
	}
	if _, d := s.level(t); math.Abs(d.Log) > 2e-3 || d.Verdict != answer.Open {
		t.Errorf("got %+v", d)
	}
}

// A pool that was full at the first look has no width: all candles of its
// vessel and wick are left out, at both loads, or the rest would lean.
func TestWallHidesAPairing(t *testing.T) {
	t.Parallel()
	s := newStudio()
	strong := func(f float64) journal.RoundPlace { p := load(f); p.Wick = 8; return p }
	for i, w := range []float64{80, 82, 84, 86} {
		f := []float64{0.08, 0.08, 0.10, 0.10}[i]
		s.burn(journal.ID(14+i), load(f), w)
		s.burn(journal.ID(14+i), strong(f), []float64{100, 97, 98, 96}[i])
	}
	if l, d := s.level(t); l.AtWall != 4 || l.Candles != 4 || !(d.Log > 0) {
		t.Errorf("got %+v of %+v", d, l)
	}
}

// A candle that was poured at another level than its own does not speak for
// it; one a little off does.
func TestStrayedCandles(t *testing.T) {
	t.Parallel()
	s := newStudio()
	for i, w := range []float64{80, 82, 84, 86} {
		s.burn(journal.ID(14+i), load([]float64{0.08, 0.08, 0.10, 0.10}[i]), w)
	}
	set := func(pour journal.ID, f float64) {
		p := s.pours[pour]
		p.Load = ptr(quantity.Fraction(f))
		s.pours[pour] = p
	}
	set(14, 0.085)
	if l, _ := s.level(t); l.Strayed != 0 || l.BaseMelts != 2 {
		t.Errorf("half a point off: %+v", l)
	}
	set(14, 0.098)
	if l, d := s.level(t); l.Strayed != 1 || l.BaseMelts != 1 || d.Melts != 2 {
		t.Errorf("at the other load: %+v", l)
	}
}

// A load that all candles were to share, and that one melt missed by four
// points, is not the pour temperature's doing; half a point off still counts.
func TestAStrayedLoadIsNotTheTemperature(t *testing.T) {
	t.Parallel()
	s := newStudio()
	for i, w := range []float64{80, 82, 84, 86} {
		p := load(0.08)
		p.PourAt = ptr(quantity.Celsius([]float64{60, 60, 70, 70}[i]))
		s.burn(journal.ID(14+i), p, w)
	}
	for load, strayed := range map[quantity.Fraction]int{0.08: 0, 0.085: 0, 0.12: 1} {
		p := s.pours[17]
		p.Load = &load
		s.pours[17] = p
		a := s.answer(t)
		if len(a.Levels) != 1 || a.Levels[0].Factor != answer.PourAt || a.Levels[0].Strayed != strayed || a.Levels[0].Others[0].Melts != 2-strayed {
			t.Errorf("load %v: %+v", load, a.Levels)
		}
	}
}
