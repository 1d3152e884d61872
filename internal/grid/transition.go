package grid

import "math"

// Transition says how likely one rate is when another is given; each row adds
// up to 1.
type Transition struct {
	w    [Rates][Rates]float64
	half int
}

// NewTransition is a normal deviation of the log rate with a standard
// deviation.
func NewTransition(sd float64) *Transition {
	t := &Transition{half: max(1, int(math.Ceil((reach+1)*sd/RateStep)))}
	for j := range t.w {
		sum := 0.0
		from, to := t.band(j)
		for i := from; i < to; i++ {
			z := float64(i-j) * RateStep / sd
			t.w[j][i] = math.Exp(-z * z / 2)
			sum += t.w[j][i]
		}
		for i := range t.w[j] {
			t.w[j][i] /= sum
		}
	}
	return t
}

// At is the chance of rate i when rate j is given.
func (t *Transition) At(j, i int) float64 { return t.w[j][i] }

// band is where row j is not 0.
func (t *Transition) band(j int) (from, to int) {
	return max(0, j-t.half), min(Rates, j+t.half+1)
}

// RatePrior is how likely each rate is before anything was read: normal in the
// log rate around the grid's centre, adding up to 1.
func RatePrior(sd float64) [Rates]float64 {
	var p [Rates]float64
	sum := 0.0
	for j := range p {
		z := float64(j-Rates/2) * RateStep / sd
		p[j] = math.Exp(-z * z / 2)
		sum += p[j]
	}
	for j := range p {
		p[j] /= sum
	}
	return p
}

// Through is how likely each rate is one transition on.
func (t *Transition) Through(p [Rates]float64) [Rates]float64 {
	var out [Rates]float64
	for j, at := range p {
		for i := range out {
			out[i] += at * t.w[j][i]
		}
	}
	return out
}
