package compare

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"rimward/internal/stats"
)

// Level is the level of every interval here, and Power how often a difference
// that is as large as it looks would be told by as many values as are advised.
const (
	Level = 0.95
	Power = 0.8
)

// MostAdvised is the largest number of burns or candles that is advised;
// beyond it two things are as good as alike.
const MostAdvised = 30

// Verdict is what can be said of a difference.
type Verdict string

// The verdicts.
const (
	Told      Verdict = "told"      // the interval leaves out no difference
	Open      Verdict = "open"      // the interval spans no difference
	TooFew    Verdict = "too few"   // one value says nothing of spread
	NoSpread  Verdict = "no spread" // all values are alike to the instrument's step
	BoundOnly Verdict = "bound"     // some values are only bounds
	NotAlike  Verdict = "not alike" // a candle beside a pairing
	Nothing   Verdict = "nothing"   // one of the two has no value
)

// Difference is how far a side lies from the first. The zero Difference is
// that of the first side itself.
type Difference struct {
	Verdict Verdict
	By      float64 // this side less the first
	// Low and High bound it at Level for Told and Open. Where it is Believed
	// they come from the standings, which rest on more than these readings.
	Low, High float64
	Believed  bool
	NA, NB    int // values behind the first side's figure and this one's
	// Wanted is how many values of each would tell a difference as large as
	// this one looks; 0 when it is more than MostAdvised.
	Wanted int
}

// difference sets the figure of a side against that of the first.
func difference(first, this Side, a, b Figure) Difference {
	d := Difference{By: b.Mean - a.Mean, NA: a.N, NB: b.N}
	switch {
	case a.Seen == 0 || b.Seen == 0:
		d.Verdict = Nothing
	case a.Bounded > 0 || b.Bounded > 0:
		d.Verdict = BoundOnly
	case first.Whole != this.Whole:
		d.Verdict = NotAlike
	case a.believed:
		d.believed(a, b)
	default:
		d.read(a, b)
	}
	return d
}

// read compares burns of two candles, or candles of two pairings, by Welch.
func (d *Difference) read(a, b Figure) {
	w, err := stats.CompareMeans(a.values, b.values, Level)
	switch {
	case err != nil:
		d.Verdict = Nothing
	case w.A.N < 2 || w.B.N < 2:
		d.Verdict = TooFew
	case !w.HasInterval:
		d.Verdict = NoSpread
	default:
		d.bound(w.Low, w.High, w.PairSpread())
	}
}

// believed compares two widths from the standings as if they were normal and
// apart from each other. Rungs of one ladder lean on each other, so the true
// interval is, if anything, narrower.
func (d *Difference) believed(a, b Figure) {
	d.Believed = true
	se := math.Hypot(a.sd, b.sd)
	switch {
	case a.N < 2 || b.N < 2:
		d.Verdict = TooFew
		return
	case !(se > 0):
		d.Verdict = NoSpread
		return
	}
	half := distuv.UnitNormal.Quantile((1+Level)/2) * se
	candle := math.Sqrt((a.sd*a.sd*float64(a.N) + b.sd*b.sd*float64(b.N)) / 2)
	d.bound(d.By-half, d.By+half, candle)
}

// bound keeps an interval and, where it spans no difference, says how many
// values would be enough.
func (d *Difference) bound(low, high, spread float64) {
	d.Verdict, d.Low, d.High = Told, low, high
	if low > 0 || high < 0 {
		return
	}
	d.Verdict = Open
	if n, ok := stats.ValuesWanted(d.By/spread, Level, Power, MostAdvised); ok {
		d.Wanted = max(n, min(d.NA, d.NB)+1)
	}
}
