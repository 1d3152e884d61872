package standings

import (
	"math"
	"slices"
	"strings"

	"rimward/internal/quantity"
	"rimward/internal/standings/tree"
)

// BeliefKind is how a belief's numbers are shown and typed.
type BeliefKind string

// The kinds of beliefs.
const (
	Percent BeliefKind = "percent" // kept as a share of one, typed in per cent
	Plain   BeliefKind = "plain"
	Length  BeliefKind = "length" // mm
	PerHour BeliefKind = "per hour"
)

// The least standard deviation that the grid can tell from none, in log width,
// and the most values that one belief may have.
const (
	leastSD  = 0.01
	mostList = 5
)

// Belief is one thing that is believed before the first burn, and that a
// studio may change.
type Belief struct {
	Key, Name, Means string
	Kind             BeliefKind
	List             bool // several values, each with a weight
	Low, High        float64
	Whole            bool      // only whole per cents
	Default          []float64 // one number, or value, weight, value, weight

	set func(*tree.Prior, []float64)
}

// Beliefs are all of them, in the order they are shown.
func Beliefs() []Belief {
	d := tree.Default()
	return []Belief{
		{Key: "reading", Name: "Ruler and eye", Means: "how far a width that was read lies from the true one, as a standard deviation", Kind: Length, Low: 0.2, High: 10,
			Default: []float64{float64(d.Error)}, set: func(p *tree.Prior, v []float64) { p.Error = quantity.Millimetres(v[0]) }},
		{Key: "slip", Name: "Slips", Means: "how many readings say nothing of the pool", Kind: Percent, Low: 0.0001, High: 0.2,
			Default: []float64{d.Slip}, set: func(p *tree.Prior, v []float64) { p.Slip = v[0] }},
		{Key: "shape", Name: "Shape of the growth curve", Means: "its exponent: below 1 a pool opens quickly and then creeps, above 1 it starts slowly", Kind: Plain, List: true, Low: 0.4, High: 2,
			Default: flat(d.Shapes), set: func(p *tree.Prior, v []float64) { p.Shapes = pairs(v) }},
		{Key: "burn", Name: "From burn to burn", Means: "how much burns of one candle differ in width, as a standard deviation", Kind: Percent, List: true, Low: leastSD, High: 0.3,
			Default: flat(d.Burn), set: func(p *tree.Prior, v []float64) { p.Burn = pairs(v) }},
		{Key: "candle", Name: "From candle to candle", Means: "how much candles of one pairing differ in width, as a standard deviation", Kind: Percent, List: true, Low: leastSD, High: 0.3,
			Default: flat(d.Candle), set: func(p *tree.Prior, v []float64) { p.Candle = pairs(v) }},
		{Key: "slope", Name: "From rung to rung", Means: "how much wider the pool is one rung up the ladder", Kind: Percent, List: true, Low: 0, High: 0.3, Whole: true,
			Default: flat(d.Slope), set: func(p *tree.Prior, v []float64) { p.Slope = pairs(v) }},
		{Key: "irregular", Name: "Irregular ladders", Means: "how far rungs lie from an even ladder, as a standard deviation in width", Kind: Percent, List: true, Low: leastSD, High: 0.4,
			Default: flat(d.Irregular), set: func(p *tree.Prior, v []float64) { p.Irregular = pairs(v) }},
		{Key: "level", Name: "A new ladder", Means: "how far the middle of a new ladder may lie from a pool that is just full, as a standard deviation in width", Kind: Percent, Low: 0.1, High: 1,
			Default: []float64{d.Level}, set: func(p *tree.Prior, v []float64) { p.Level = v[0] }},
		{Key: "rate", Name: "Opening rate", Means: "how fast pools usually open, as a share of what is left to their own limit", Kind: PerHour, Low: 0.1, High: 5,
			Default: []float64{d.Rate}, set: func(p *tree.Prior, v []float64) { p.Rate = v[0] }},
		{Key: "rate_series", Name: "Opening rate of ladders", Means: "how much it differs between ladders, waxes and vessels, as a standard deviation", Kind: Percent, Low: 0.1, High: 1,
			Default: []float64{d.RateSeries}, set: func(p *tree.Prior, v []float64) { p.RateSeries = v[0] }},
		{Key: "rate_pairing", Name: "Opening rate of rungs", Means: "how much it differs between the rungs of a ladder", Kind: Percent, Low: 0.03, High: 0.5,
			Default: []float64{d.RatePairing}, set: func(p *tree.Prior, v []float64) { p.RatePairing = v[0] }},
		{Key: "rate_burn", Name: "Opening rate of burns", Means: "how much it differs between the burns of a pairing", Kind: Percent, Low: 0.03, High: 0.5,
			Default: []float64{d.RateBurn}, set: func(p *tree.Prior, v []float64) { p.RateBurn = v[0] }},
	}
}

// PriorOf is what a studio believes before the first burn: the defaults, with
// what it changed. A change that cannot be used is left out.
func PriorOf(changed map[string][]float64) tree.Prior {
	p := tree.Default()
	for _, b := range Beliefs() {
		if v := changed[b.Key]; len(v) > 0 && b.Problem(v) == "" {
			b.set(&p, v)
		}
	}
	return p
}

// Problem says what is wrong with numbers for a belief; "" when they can be
// used.
func (b Belief) Problem(v []float64) string {
	if !b.List {
		if len(v) != 1 {
			return "Write one number, between " + b.Text(b.Low) + " and " + b.Text(b.High) + "."
		}
		return b.outside(v[0])
	}
	if len(v) == 0 || len(v)%2 != 0 || len(v) > 2*mostList {
		return "Write one to five values, each with its weight in brackets: " + b.Edit(b.Default) + "."
	}
	for i := 0; i < len(v); i += 2 {
		if p := b.outside(v[i]); p != "" {
			return p
		}
		switch {
		case !(v[i+1] > 0) || v[i+1] > 1e6:
			return "Every weight must be above 0."
		case i > 0 && v[i] <= v[i-2]:
			return "Write the values from small to large, each once."
		}
	}
	return ""
}

func (b Belief) outside(v float64) string {
	switch {
	case !(v >= b.Low-1e-9 && v <= b.High+1e-9):
		return "Between " + b.Text(b.Low) + " and " + b.Text(b.High) + "."
	case b.Whole && math.Abs(v*100-math.Round(v*100)) > 1e-6:
		return "Whole per cents only: the ladder’s line moves in steps of one."
	}
	return ""
}

// Scale is what a typed number is multiplied by to be kept.
func (b Belief) Scale() float64 {
	if b.Kind == Percent {
		return 0.01
	}
	return 1
}

// Text writes one of its values with the unit.
func (b Belief) Text(v float64) string { return strings.TrimSpace(b.Number(v) + " " + b.Unit()) }

// Number writes one of its values without the unit.
func (b Belief) Number(v float64) string { return quantity.Number(v/b.Scale(), 3) }

// Unit is what its numbers are typed in.
func (b Belief) Unit() string {
	switch b.Kind {
	case Percent:
		return "%"
	case Length:
		return "mm"
	case PerHour:
		return "per hour"
	}
	return ""
}

// Edit writes its numbers as they can be typed: 2.5 (25), 4 (45), 6.5 (30).
func (b Belief) Edit(v []float64) string {
	if !b.List {
		return b.Number(v[0])
	}
	var parts []string
	for i := 0; i+1 < len(v); i += 2 {
		parts = append(parts, b.Number(v[i])+" ("+quantity.Number(v[i+1], 3)+")")
	}
	return strings.Join(parts, ", ")
}

// flat lays weighted values out, weights in hundredths.
func flat(ws []tree.Weighted) []float64 {
	var out []float64
	for _, w := range ws {
		out = append(out, w.Value, math.Round(w.Weight*1e4)/100)
	}
	return out
}

// pairs is the other way round; the weights add up to 1.
func pairs(v []float64) []tree.Weighted {
	sum := 0.0
	for i := 1; i < len(v); i += 2 {
		sum += v[i]
	}
	var out []tree.Weighted
	for i := 0; i+1 < len(v); i += 2 {
		out = append(out, tree.Weighted{Value: v[i], Weight: v[i+1] / sum})
	}
	return out
}

// IsDefault reports whether numbers are the default's.
func (b Belief) IsDefault(v []float64) bool {
	return slices.EqualFunc(v, b.Default, func(x, y float64) bool { return math.Abs(x-y) < 1e-9 })
}
