package influence

import (
	"math"
	"slices"
	"time"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/standings"
	"rimward/internal/stats"
)

// CandlesOf gathers the candles of a table, with the pours they were made of.
// Candles that are not in the journal, and those whose pour is not given, are
// left out; a candle whose width is not known has one without ends.
func CandlesOf(t standings.Table, pours map[journal.ID]journal.Pour) []Candle {
	var all []source
	for _, g := range t.Groups {
		for _, s := range g.Series {
			for _, p := range s.Pairings {
				for _, row := range p.Rows {
					if pour, ok := pours[row.Candle.Pour]; ok && row.Candle.ID != 0 {
						all = append(all, source{row, p, pour})
					}
				}
			}
		}
	}
	rates, curve := ratesOf(all), likeliest(t.Shapes)
	var out []Candle
	for _, s := range all {
		out = append(out, s.candle(opening{curve, rates[s.stratum()], s.pairing.Vessel.Target()}))
	}
	return out
}

// source is what one candle is gathered from.
type source struct {
	row     standings.CandleRow
	pairing standings.Pairing
	pour    journal.Pour
}

func (s source) stratum() Stratum {
	x := Stratum{Vessel: s.pairing.Vessel.ID, Wick: s.pairing.Wick.ID, Wicks: s.pairing.Wicks}
	if s.pour.Fragrance != nil {
		x.Fragrance = *s.pour.Fragrance
	}
	return x
}

// ratesOf is the mean logarithm of the opening rate in each stratum. All
// candles that are compared share it: rates fitted to each load by itself would
// pass their own errors on to every candle of that load.
func ratesOf(all []source) map[Stratum]float64 {
	sum, n := map[Stratum]float64{}, map[Stratum]float64{}
	for _, s := range all {
		for _, b := range s.row.Burns {
			if b.Used() && !math.IsNaN(b.Fit.LogRate) {
				sum[s.stratum()], n[s.stratum()] = sum[s.stratum()]+b.Fit.LogRate, n[s.stratum()]+1
			}
		}
	}
	for s := range sum {
		sum[s] /= n[s]
	}
	return sum
}

// likeliest is the curve that the fits of single burns follow.
func likeliest(shapes []standings.ShapeWeight) meltpool.Curve {
	best := standings.ShapeWeight{Exponent: 1}
	for _, s := range shapes {
		if s.Weight > best.Weight {
			best = s
		}
	}
	return meltpool.Curve(best.Exponent)
}

func (s source) candle(o opening) Candle {
	c := Candle{Code: s.row.Name, Pour: s.pour.ID, Wall: s.pairing.Vessel.Width(), Values: values(s.pour, firstLit(s.row)), Stratum: s.stratum()}
	var sum stats.Censored
	for _, b := range s.row.Burns {
		if w, ok := o.width(b); ok {
			sum.Low, sum.High, c.Burns = sum.Low+w.Low, sum.High+w.High, c.Burns+1
		}
	}
	c.Width = stats.Censored{Low: math.Inf(-1), High: math.Inf(1)}
	if n := float64(c.Burns); n > 0 {
		c.Width = stats.Censored{Low: sum.Low / n, High: sum.High / n}
	}
	return c
}

// firstLit is when the candle was lit first.
func firstLit(row standings.CandleRow) time.Time {
	return slices.MinFunc(row.Burns, func(a, b standings.BurnRow) int { return a.LitAt.Compare(b.LitAt) }).LitAt
}

// values is what is known of a candle's making. A candle without fragrance has
// no load to speak of.
func values(p journal.Pour, lit time.Time) map[Factor]float64 {
	v := map[Factor]float64{Warmed: 0, Cured: lit.Sub(p.At).Hours() / 24}
	if p.VesselWarmed != nil {
		v[Warmed] = 1
	}
	if p.PouredAt != nil {
		v[PouredAt] = float64(*p.PouredAt)
	}
	if load := p.LoadOn(journal.OfWax); load != nil {
		v[Load] = float64(*load)
	} else if p.Fragrance == nil {
		v[Load] = 0
	}
	return v
}

// opening is how the pools of a stratum open.
type opening struct {
	curve  meltpool.Curve
	rate   float64 // logarithm
	target quantity.Hours
}

// at is the log width at the target hour of a pool that stands at the wall at
// some hour.
func (o opening) at(h quantity.Hours) float64 { return -o.curve.Ahead(o.rate, h, o.target) }

// width is what one burn says of the log width at the target hour with no wall:
// its reading short of the wall that lies nearest to the hour, carried there
// along the curve, where there is one no earlier than a quarter of the hour:
// burns differ in their rate by about a tenth, which a reading at a third of the
// hour turns into 4 % of the width and one at the hour into nothing. Otherwise
// the pool filled between two looks, and the curve turns the two into ends; the
// upper one is open where it was full at the first look.
func (o opening) width(b standings.BurnRow) (stats.Censored, bool) {
	if !b.Used() || math.IsNaN(b.Fit.LogRate) || len(b.Fit.Checks) != len(b.Readings) {
		return stats.Censored{}, false
	}
	l := o.looks(b)
	switch {
	case l.nearest != nil:
		w := math.Log(l.nearest.Ratio) + o.at(l.nearest.Hour)
		return stats.Censored{Low: w, High: w}, true
	case l.full == nil:
		return stats.Censored{}, false
	case l.short == nil:
		return stats.Censored{Low: o.at(l.full.Hour), High: math.Inf(1)}, true
	}
	return stats.Censored{Low: o.at(l.full.Hour), High: o.at(l.short.Hour)}, true
}

// looks are the readings of a burn that say something of its width; nil where
// there is none.
type looks struct {
	nearest *meltpool.Reading // short of the wall, late enough, nearest to the target hour
	full    *meltpool.Reading // the first at the wall
	short   *meltpool.Reading // the last before it
}

// looks picks them. Readings that hardly fit their burn's curve are passed over.
func (o opening) looks(b standings.BurnRow) (l looks) {
	for i := range b.Readings {
		r := &b.Readings[i]
		switch {
		case b.Fit.Checks[i].Slip || r.Ratio <= 0 && !r.Full:
		case r.Full && l.full == nil:
			l.full = r
		case !r.Full:
			l.rim(r, o)
		}
	}
	return l
}

// rim takes a reading short of the wall.
func (l *looks) rim(r *meltpool.Reading, o opening) {
	if l.full == nil {
		l.short = r
	}
	if r.Hour >= o.target*earliest && (l.nearest == nil || o.off(*r) < o.off(*l.nearest)) {
		l.nearest = r
	}
}

// earliest is the share of the target hour from which a reading is carried there
// (chosen by us).
const earliest = 0.25

// off is how far from the target hour a reading lies.
func (o opening) off(r meltpool.Reading) float64 { return math.Abs(float64(r.Hour - o.target)) }
