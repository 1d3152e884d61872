package answer

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"rimward/internal/influence"
	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
	"rimward/internal/stats"
)

// Factor is something that a whole melt has one level of.
type Factor string

// The factors, with the unit of their levels.
const (
	Load   Factor = "load"             // a share, on the round's basis
	PourAt Factor = "pour temperature" // °C
)

const (
	// Level is the level of the intervals, and Power how often as many melts as
	// are advised would tell a difference that is as large as it looks; both as
	// in comparisons side by side.
	Level = 0.95
	Power = 0.8
	// MostMelts is the largest number of melts of each level that is advised:
	// beyond it two levels are as good as alike (chosen by us).
	MostMelts = 30
	// noSpread is the scatter of melts, in log width, below which they are alike
	// to the step of any ruler (chosen by us: 0.05 mm on 100 mm).
	noSpread = 5e-4
)

// Verdict is what can be said of a difference between two levels.
type Verdict string

// The verdicts.
const (
	Told     Verdict = "told"      // the interval leaves out no difference
	Open     Verdict = "open"      // it does not
	TooFew   Verdict = "too few"   // one melt of each says nothing of how melts differ
	NoSpread Verdict = "no spread" // the melts are alike to the ruler's step
	Nothing  Verdict = "nothing"   // a level has no melt that tells
	Tangled  Verdict = "tangled"   // the levels cannot be told apart from something else that moved with them
)

// LevelAnswer is what the round says of the levels of one factor.
type LevelAnswer struct {
	Factor    Factor
	Basis     journal.Basis        // of loads
	Base      float64              // the lowest level, which the others are compared with
	BaseMelts int                  // that tell
	Others    []Difference         // from the lowest to the highest
	Candles   int                  // that tell
	AtWall    int                  // left out with all of their vessel and wick, for a pool there was full at the first look
	Strayed   int                  // left out, being nearer to another level than to their own, or of another pairing
	Typical   quantity.Millimetres // the middle width, at which shares are said in millimetres
}

// Difference is how much wider the pool is at the target hour at a level than
// at the base, the vessels and wicks alike and the other factor held.
type Difference struct {
	Level     float64
	Verdict   Verdict
	Melts     int     // of this level that tell
	Log       float64 // as a difference of logarithms; 0.05 is about 5 %
	Low, High float64 // of Log, at Level; NaN but for Told and Open
	DF        int
	// Wanted is how many melts of each level would tell a difference as large
	// as this one looks; 0 where it is more than MostMelts, or not known.
	Wanted int
}

// Wider turns a difference of logarithms into a difference of widths about a
// typical one.
func (l LevelAnswer) Wider(log float64) quantity.Millimetres {
	return l.Typical * quantity.Millimetres(math.Expm1(log))
}

// of is a factor's planned level; false where it is not varied.
func (f Factor) of(p journal.RoundPlace) (float64, bool) {
	switch {
	case f == Load && p.Load != nil:
		return float64(*p.Load), true
	case f == PourAt && p.PourAt != nil:
		return float64(*p.PourAt), true
	}
	return 0, false
}

// levels are the planned ones, from the lowest.
func (f Factor) levels(p plan.RoundProgress) []float64 {
	var out []float64
	for _, x := range p.Places {
		if v, ok := f.of(x.Place); ok && !slices.Contains(out, v) {
			out = append(out, v)
		}
	}
	slices.Sort(out)
	return out
}

// candle is a candle with the place it took.
type candle struct {
	influence.Candle
	place plan.PlaceProgress
}

// placed finds the place of each candle; those without one are left out.
func placed(p plan.RoundProgress, cs []influence.Candle) []candle {
	at := map[string]plan.PlaceProgress{}
	for _, x := range p.Places {
		if x.Candle != nil {
			at[x.Candle.Candle.Code()] = x
		}
	}
	var out []candle
	for _, c := range cs {
		if x, ok := at[c.Code]; ok {
			out = append(out, candle{c, x})
		}
	}
	slices.SortStableFunc(out, func(a, b candle) int { return cmp.Compare(a.place.Place.Number, b.place.Place.Number) })
	return out
}

// levelAnswer compares the levels of a factor, melts as the unit.
func levelAnswer(r journal.TestRound, f Factor, all map[Factor][]float64, cs []candle) LevelAnswer {
	levels := all[f]
	a := LevelAnswer{Factor: f, Basis: r.Factors.LoadBasis, Base: levels[0]}
	cs = a.keep(cs, all)
	melts := meltsOf(cs)
	a.Candles, a.Typical = len(cs), typical(cs)
	a.BaseMelts = at(melts, f, levels[0])
	for _, v := range levels[1:] {
		a.Others = append(a.Others, Difference{Level: v, Melts: at(melts, f, v), Low: math.NaN(), High: math.NaN()})
	}
	a.judge(melts)
	return a
}

// keep leaves out what strayed from its plan and, at every level alike, the
// pairings in which a pool was full so early that its width is not known.
func (a *LevelAnswer) keep(cs []candle, levels map[Factor][]float64) []candle {
	var kept []candle
	bounded := map[influence.Stratum]bool{}
	for _, c := range cs {
		if c.strayed(levels) {
			a.Strayed++
			continue
		}
		if math.IsInf(c.Width.Low, -1) {
			continue
		}
		bounded[c.Stratum] = bounded[c.Stratum] || math.IsInf(c.Width.High, 1)
		kept = append(kept, c)
	}
	out := slices.DeleteFunc(slices.Clone(kept), func(c candle) bool { return bounded[c.Stratum] })
	a.AtWall = len(kept) - len(out)
	return out
}

// offHeld is how far a load, and a pour temperature in °C, that the round does
// not vary may lie from what was planned before its candle is no longer like
// the others (chosen by us: a point, and what a
// thermometer and hand can tell apart).
var offHeld = map[Factor]float64{Load: 0.01, PourAt: 5}

// strayed reports whether a candle is no longer what its place was planned for:
// of another pairing, wax or fragrance, with a load or temperature nearer to
// another level than to its own, or far from the one that all were to have. One that is merely a little off still counts
// for the level it was drawn for.
func (c candle) strayed(levels map[Factor][]float64) bool {
	for _, d := range c.place.Differs {
		f, is := map[plan.Matter]Factor{plan.OtherLoad: Load, plan.OtherPourAt: PourAt}[d.Matter]
		if !is {
			return true
		}
		if len(levels[f]) < 2 && math.Abs(d.Actual-d.Planned) > offHeld[f] {
			return true
		}
		for _, v := range levels[f] {
			if math.Abs(d.Actual-v) < math.Abs(d.Actual-d.Planned) {
				return true
			}
		}
	}
	return false
}

// judge finds the differences of melts between the levels, the other factor's
// levels held, by least squares; with two levels and nothing else varied it is
// the two-sample comparison of Student.
func (a *LevelAnswer) judge(melts []melt) {
	columns := columnsOf(a.Factor, melts)
	var x [][]float64
	var y []float64
	for _, m := range melts {
		row := make([]float64, len(columns))
		for k, c := range columns {
			if m.levels[c.factor] == c.level {
				row[k] = 1
			}
		}
		x, y = append(x, row), append(y, m.width)
	}
	for i := range a.Others {
		a.Others[i].Verdict = Nothing
	}
	if len(columns) == 0 || a.BaseMelts == 0 {
		return
	}
	fit, err := stats.FitLinear(x, y, Level)
	for i := range a.Others {
		d := &a.Others[i]
		k := slices.Index(columns, column{a.Factor, d.Level})
		if d.Melts == 0 || k < 0 {
			continue
		}
		d.read(fit, err, k, others(columns, a.Factor))
		if d.Verdict == TooFew {
			d.Log = meanAt(melts, a.Factor, d.Level) - meanAt(melts, a.Factor, a.Base)
		}
	}
}

// column is one level that is set against the lowest of its factor.
type column struct {
	factor Factor
	level  float64
}

// columnsOf are the levels of both factors but for the lowest of each, those
// of the one that is asked about first.
func columnsOf(first Factor, melts []melt) []column {
	var out []column
	for _, f := range []Factor{first, Load, PourAt} {
		var levels []float64
		for _, m := range melts {
			if !slices.Contains(levels, m.levels[f]) {
				levels = append(levels, m.levels[f])
			}
		}
		slices.Sort(levels)
		for i, v := range levels {
			if c := (column{f, v}); i > 0 && !slices.Contains(out, c) {
				out = append(out, c)
			}
		}
	}
	return out
}

// others counts the columns of the other factor, which is held.
func others(columns []column, f Factor) int {
	n := 0
	for _, c := range columns {
		if c.factor != f {
			n++
		}
	}
	return n
}

// read takes a difference from the fit, in which so many levels of the other
// factor are held.
func (d *Difference) read(fit stats.Linear, err error, k, held int) {
	switch {
	case errors.Is(err, stats.ErrTooFew):
		d.Verdict = TooFew
	case err != nil:
		d.Verdict = Tangled
	case fit.ResidualSD < noSpread:
		d.Verdict, d.Log, d.DF = NoSpread, fit.Coef[k].Estimate, fit.DF
	default:
		c := fit.Coef[k]
		d.Log, d.Low, d.High, d.DF, d.Verdict = c.Estimate, c.Low, c.High, fit.DF, Told
		if c.Low <= 0 && c.High >= 0 {
			d.Verdict = Open
			d.Wanted, _ = stats.ValuesWantedHeld(c.Estimate/fit.ResidualSD, Level, Power, MostMelts, held)
		}
	}
}
