package chart

import (
	"math"
	"strconv"
)

// Scale maps a stretch of data, Min to Max, onto a stretch of the drawing,
// From to To. Max must be greater than Min; From may be greater than To, as
// it is for a vertical axis.
type Scale struct {
	Min, Max float64
	From, To float64
}

// NewScale is a scale over [lo, hi]. A stretch without length is widened by a
// half on either side (more for large numbers) so that there is something to
// draw on; one that is not finite becomes 0 to 1.
func NewScale(lo, hi, from, to float64) Scale {
	if !finite(hi - lo) {
		lo, hi = 0, 1
	}
	if hi < lo {
		lo, hi = hi, lo
	}
	if hi == lo {
		pad := math.Max(0.5, 1e-6*math.Abs(lo))
		lo, hi = lo-pad, hi+pad
	}
	return Scale{Min: lo, Max: hi, From: from, To: to}
}

// Map is the place of x on the drawing.
func (s Scale) Map(x float64) float64 {
	t := (x - s.Min) / (s.Max - s.Min)
	return s.From + t*(s.To-s.From)
}

// Unmap is the data at a place of the drawing.
func (s Scale) Unmap(p float64) float64 {
	t := (p - s.From) / (s.To - s.From)
	return s.Min + t*(s.Max-s.Min)
}

// Inside reports whether x lies within the stretch of data.
func (s Scale) Inside(x float64) bool { return x >= s.Min && x <= s.Max }

// InchSteps are the steps of an axis in inches, as a ruler is divided: quarters,
// halves and whole inches.
var InchSteps = []float64{0.25, 0.5, 1, 2, 5, 10}

// Ticks are at most n whole multiples of one step that lie within the scale.
//
// The step is the smallest of the given ones (in rising order) that leaves at
// most n multiples within the scale; where none is given or none is coarse
// enough, it is the smallest of 1, 2 and 5 times a power of ten. A stretch
// too narrow for its own size to be divided has no ticks.
func (s Scale) Ticks(n int, steps []float64) []float64 {
	step := s.step(n, steps)
	if step == 0 {
		return nil
	}
	var out []float64
	first, last := s.multiples(step)
	for k := first; k <= last; k++ {
		if v := tick(k, step); s.Inside(v) {
			out = append(out, v)
		}
	}
	return out
}

// step chooses the tick step; 0 when there is none.
func (s Scale) step(n int, steps []float64) float64 {
	if n < 1 {
		return 0
	}
	for _, st := range steps {
		if first, last := s.multiples(st); last-first < float64(n) {
			return st
		}
	}
	span := s.Max - s.Min
	if !finite(span) || span <= 1e-9*math.Max(math.Abs(s.Min), math.Abs(s.Max)) {
		return 0
	}
	for power := math.Floor(math.Log10(span/float64(n))) - 1; ; power++ {
		for _, digit := range []float64{1, 2, 5} {
			st := digit * math.Pow(10, power)
			if first, last := s.multiples(st); last-first < float64(n) {
				return st
			}
		}
	}
}

// multiples are the first and last whole numbers of steps within the scale,
// with a hair's breadth of grace at either end.
func (s Scale) multiples(step float64) (first, last float64) {
	const grace = 1e-9
	return math.Ceil(s.Min/step - grace), math.Floor(s.Max/step + grace)
}

// tick is the k-th multiple of a step, free of the noise of 3 × 0.1.
func tick(k, step float64) float64 {
	v, err := strconv.ParseFloat(strconv.FormatFloat(k*step, 'g', 12, 64), 64)
	if err != nil || v == 0 {
		return 0
	}
	return v
}

// plain writes an axis number with as many decimals as it needs, at most six.
func plain(v float64) string {
	r := math.Round(v*1e6) / 1e6
	if r == 0 {
		return "0"
	}
	return strconv.FormatFloat(r, 'f', -1, 64)
}
