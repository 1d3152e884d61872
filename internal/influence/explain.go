package influence

import (
	"cmp"
	"math"
	"slices"

	"rimward/internal/quantity"
	"rimward/internal/stats"
)

const (
	// LeastDF is how many degrees of freedom the candles must leave for an
	// interval to be worth showing (chosen by us).
	LeastDF = 6
	// own is the share, by length, that a factor must have to itself within
	// pairings: below it, its squared standard error is inflated more than
	// tenfold, the usual mark of factors that cannot be told apart (Marquardt,
	// Technometrics 12:591-612, 1970; from memory).
	own = 0.316
	// leastNoted is the share of candles that a factor must be noted of.
	leastNoted = 0.5
	// loose is how far apart the ends of a candle's log width may lie for it to
	// count towards the degrees of freedom (chosen by us: three or four times the
	// usual scatter of candles).
	loose = 0.15
)

// Explain says how the candles' pools go with each factor. The order of the
// candles does not matter.
func Explain(cs []Candle) Answer {
	x := &inquiry{}
	x.keep(inOrder(cs), &x.LeftOut.NoWidth, func(c Candle) bool { return !math.IsInf(c.Width.Low, -1) || !math.IsInf(c.Width.High, 1) })
	for _, f := range Factors {
		x.admit(f)
	}
	x.keep(x.cs, &x.LeftOut.Incomplete, func(c Candle) bool { return c.knows(x.factors) })
	x.gather()
	x.part()
	x.fit()
	slices.SortStableFunc(x.Untold, func(a, b Untold) int { return cmp.Compare(a.Factor, b.Factor) })
	return x.Answer
}

// inquiry is an answer under way.
type inquiry struct {
	Answer
	cs      []Candle
	factors []Factor // still in the running
	spoiled []Factor // fitted along, but not to be shown
}

// inOrder sorts by code and pour, so that sums come out alike.
func inOrder(cs []Candle) []Candle {
	out := slices.Clone(cs)
	slices.SortStableFunc(out, func(a, b Candle) int {
		return cmp.Or(cmp.Compare(a.Pour, b.Pour), cmp.Compare(a.Code, b.Code), cmp.Compare(a.Width.Low, b.Width.Low))
	})
	return out
}

// keep keeps some of the candles and counts the others.
func (x *inquiry) keep(cs []Candle, out *int, is func(Candle) bool) {
	x.cs = nil
	for _, c := range cs {
		if is(c) {
			x.cs = append(x.cs, c)
		} else {
			*out++
		}
	}
}

func (c Candle) knows(fs []Factor) bool {
	for _, f := range fs {
		if _, ok := c.Values[f]; !ok {
			return false
		}
	}
	return true
}

// admit takes a factor into the running, or says why it cannot be told.
func (x *inquiry) admit(f Factor) {
	noted, all, within := 0, map[float64]bool{}, false
	first := map[Stratum]float64{}
	for _, c := range x.cs {
		v, ok := c.Values[f]
		if !ok {
			continue
		}
		noted, all[v] = noted+1, true
		was, seen := first[c.Stratum]
		if !seen {
			first[c.Stratum] = v
		}
		within = within || seen && was != v
	}
	u := Untold{Factor: f, Noted: noted, Of: len(x.cs)}
	switch {
	case float64(noted) < leastNoted*float64(len(x.cs)):
		u.Why = HardlyNoted
	case len(all) < 2:
		u.Why = NeverVaried
	case !within:
		u.Why = NotWithin
	default:
		x.factors = append(x.factors, f)
		return
	}
	x.Untold = append(x.Untold, u)
}

// gather leaves out the pairings that have nothing to compare.
func (x *inquiry) gather() {
	size, held := map[Stratum]int{}, map[Stratum]bool{}
	for _, c := range x.cs {
		size[c.Stratum]++
		held[c.Stratum] = held[c.Stratum] || !math.IsInf(c.Width.High, 1)
	}
	x.keep(x.cs, &x.LeftOut.Alone, func(c Candle) bool { return size[c.Stratum] > 1 })
	x.keep(x.cs, &x.LeftOut.AtWall, func(c Candle) bool { return held[c.Stratum] })
	var walls float64
	for _, c := range x.cs {
		x.Burns += c.Burns
		walls += math.Log(float64(c.Wall)) + middle(c.Width)
		if !c.told() {
			x.Open++
		}
	}
	x.Candles, x.Pairings = len(x.cs), len(places(x.cs))
	if x.Candles > 0 {
		x.Typical = quantity.Millimetres(math.Exp(walls / float64(x.Candles)))
	}
}

// told reports whether both ends of the candle's width are known, and not far
// apart.
func (c Candle) told() bool { return c.Width.High-c.Width.Low <= loose }

// middle is a width, or its lower end where the upper is open.
func middle(w stats.Censored) float64 {
	if math.IsInf(w.High, 1) {
		return w.Low
	}
	return (w.Low + w.High) / 2
}

// places numbers the pairings.
func places(cs []Candle) map[Stratum]int {
	at := map[Stratum]int{}
	for _, c := range cs {
		if _, ok := at[c.Stratum]; !ok {
			at[c.Stratum] = len(at)
		}
	}
	return at
}

// part sets aside the factors that moved together among the candles whose width
// is known: of each such set all but the first leave the fit, and none is
// shown. A factor that differs only where widths are not known cannot be
// held, and the others not be freed from it.
func (x *inquiry) part() {
	if len(x.cs) == 0 || len(x.factors) == 0 {
		return
	}
	told := slices.DeleteFunc(slices.Clone(x.cs), func(c Candle) bool { return !c.told() })
	with, gone := map[Factor][]Factor{}, []Factor(nil)
	for _, d := range x.dependences(told) {
		f := x.factors[d.Column]
		if len(d.On) == 0 && x.varies(f) {
			x.dismiss(WallHidesAll, 0)
			x.factors = nil
			return
		}
		if gone = append(gone, f); len(d.On) == 0 {
			x.Untold = append(x.Untold, Untold{Factor: f, Why: NotWithin, Noted: len(x.cs), Of: len(x.cs)})
		}
		for _, on := range d.On {
			with[f], with[x.factors[on]] = append(with[f], x.factors[on]), append(with[x.factors[on]], f)
		}
	}
	x.setAside(with)
	x.factors = slices.DeleteFunc(x.factors, func(f Factor) bool { return slices.Contains(gone, f) })
}

// dependences are the factors that do not vary by themselves within pairings.
func (x *inquiry) dependences(cs []Candle) []stats.Dependence {
	group, rows := x.design(cs)
	return stats.Dependences(group, rows, own)
}

// varies reports whether a factor varies within a pairing at all.
func (x *inquiry) varies(f Factor) bool {
	return !slices.ContainsFunc(x.dependences(x.cs), func(d stats.Dependence) bool { return x.factors[d.Column] == f && len(d.On) == 0 })
}

// setAside says of the factors that moved together that they cannot be told.
func (x *inquiry) setAside(with map[Factor][]Factor) {
	for _, f := range x.factors {
		if len(with[f]) > 0 {
			x.Untold = append(x.Untold, Untold{Factor: f, Why: Together, With: with[f]})
			x.spoiled = append(x.spoiled, f)
		}
	}
}

// design is the group of each candle, and its factors.
func (x *inquiry) design(cs []Candle) (group []int, rows [][]float64) {
	at := places(cs)
	for _, c := range cs {
		var row []float64
		for _, f := range x.factors {
			row = append(row, c.Values[f])
		}
		group, rows = append(group, at[c.Stratum]), append(rows, row)
	}
	return group, rows
}

// fit works the effects out.
func (x *inquiry) fit() {
	x.DF = x.Candles - x.Open - x.Pairings - len(x.factors)
	if len(x.factors) == 0 {
		return
	}
	if x.DF < LeastDF {
		x.dismiss(TooFew, LeastDF-x.DF)
		return
	}
	l, err := x.regress()
	if err != nil {
		x.dismiss(WallHidesAll, 0)
		return
	}
	x.Scatter = l.ResidualSD
	for i, f := range x.factors {
		if !slices.Contains(x.spoiled, f) {
			x.tell(f, l.Coef[i])
		}
	}
}

// regress fits all factors at once, for candles whose pours may each have a
// chance of their own: how much of the doubt is the pours' is never estimated,
// for a few pours hardly tell.
func (x *inquiry) regress() (stats.Linear, error) {
	group, rows := x.design(x.cs)
	return stats.FitClustered(group, rows, widths(x.cs), poursOf(x.cs), x.DF, Level)
}

func widths(cs []Candle) (out []stats.Censored) {
	for _, c := range cs {
		out = append(out, c.Width)
	}
	return out
}

func poursOf(cs []Candle) (out []int) {
	for _, c := range cs {
		out = append(out, int(c.Pour))
	}
	return out
}

// dismiss says of every factor that is left that it cannot be told.
func (x *inquiry) dismiss(why Why, lacks int) {
	for _, f := range x.factors {
		if !slices.Contains(x.spoiled, f) {
			x.Untold = append(x.Untold, Untold{Factor: f, Why: why, Lacks: lacks, Noted: x.Candles, Of: x.Candles})
		}
	}
}
