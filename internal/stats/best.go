package stats

import (
	"errors"
	"math"
	"slices"

	"gonum.org/v1/gonum/integrate/quad"
)

// ChanceLowestNormal is each candidate's chance of having the lowest value of
// all, where every value is normal with its own mean and standard deviation and
// independent of the others; the chances add up to 1. For the highest, hand over
// the means with their signs turned. A deviation of 0 is a value known for
// certain; candidates certain of the same value share its chance. It returns
// ErrTooFew without candidates.
//
// The chance of one candidate is the integral over its own density of the others
// being higher (Bechhofer, Ann. Math. Stat. 25:16-39, 1954). Every factor is
// smooth over one of its deviations, so the integral is cut at each deviation of
// each factor and each piece taken by Gauss-Legendre.
func ChanceLowestNormal(means, sds []float64) ([]float64, error) {
	if len(means) != len(sds) {
		return nil, errors.New("compare candidates: means and deviations differ in number")
	}
	if !finite(means) || !finite(sds) || slices.ContainsFunc(sds, func(s float64) bool { return s < 0 }) {
		return nil, errors.New("compare candidates: a mean or deviation is not a number that can be reckoned with")
	}
	if len(means) == 0 {
		return nil, ErrTooFew
	}
	c := scaled(means, sds)
	chances := make([]float64, len(c))
	for p := range c {
		if c[p].sd == 0 {
			chances[p] = certain(c, p)
		} else {
			chances[p] = uncertain(c, p)
		}
	}
	return chances, nil
}

// normal is one candidate's value.
type normal struct{ mean, sd float64 }

// scaled brings the candidates to where no difference overflows.
func scaled(means, sds []float64) []normal {
	var largest float64
	for i := range means {
		largest = max(largest, math.Abs(means[i]), sds[i])
	}
	_, exponent := math.Frexp(largest)
	out := make([]normal, len(means))
	for i := range means {
		out[i] = normal{math.Ldexp(means[i], -exponent), math.Ldexp(sds[i], -exponent)}
	}
	return out
}

// above is the chance of a value further than offset above a mean, which is not
// that of the value itself if it is certain.
func (n normal) above(mean, offset float64) float64 {
	d := n.mean - mean - offset
	switch {
	case n.sd > 0:
		return math.Erfc(-d/n.sd/math.Sqrt2) / 2
	case d > 0:
		return 1
	}
	return 0
}

// certain is the chance that a value known for certain is the lowest.
func certain(c []normal, p int) float64 {
	chance, sharers := 1.0, 1.0
	for r, n := range c {
		switch {
		case r == p:
		case n == c[p]:
			sharers++
		default:
			chance *= n.above(c[p].mean, 0)
		}
	}
	return chance / sharers
}

// reach is how many deviations from its mean a normal value is looked for: the
// chance beyond is below 1e-15.
const reach = 8

// The places and weights of Gauss-Legendre between 0 and 1.
var places, weights = func() (x, w [12]float64) {
	quad.Legendre{}.FixedLocations(x[:], w[:], 0, 1)
	return x, w
}()

// uncertain is the chance that a value not known for certain is the lowest. The
// integral runs over the value's own deviations, so that candidates of very
// different deviations lose no digits.
func uncertain(c []normal, p int) float64 {
	own, sum := c[p], 0.0
	cut := cuts(c, p)
	for i := 1; i < len(cut); i++ {
		from, width := cut[i-1], cut[i]-cut[i-1]
		for k, at := range places {
			z := from + width*at
			v := math.Exp(-z*z/2) * weights[k] * width
			for r := 0; r < len(c) && v > 0; r++ {
				if r != p {
					v *= c[r].above(own.mean, own.sd*z)
				}
			}
			sum += v
		}
	}
	return sum / math.Sqrt(2*math.Pi)
}

// cuts is where the integral of a candidate is cut, in its own deviations.
func cuts(c []normal, p int) []float64 {
	var out []float64
	for r, n := range c {
		for k := -reach; k <= reach; k++ {
			z := float64(k)
			if r != p {
				z = (n.mean - c[p].mean + z*n.sd) / c[p].sd
			}
			if math.Abs(z) <= reach {
				out = append(out, z)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// ChanceLowest is each candidate's chance of having the lowest value of all,
// where the values are independent and each is given by its probabilities over
// the same bins, the lowest first. Values in one bin are taken as even in it,
// pair by pair, and the chances then made to add up to 1. It is nil without
// candidates, for candidates of different numbers of bins, and where the
// probabilities are not such.
func ChanceLowest(hists [][]float64) []float64 {
	k := len(hists)
	room := make([]float64, 3*k)
	chances, passed, before := room[:k:k], room[k:2*k], room[2*k:]
	if !alike(hists) {
		return nil
	}
	for i := range hists[0] {
		ahead := 1.0
		for p, h := range hists {
			before[p] = ahead
			ahead *= higher(passed[p], h[i])
		}
		behind := 1.0
		for p := k - 1; p >= 0; p-- {
			v := hists[p][i]
			chances[p] += v * before[p] * behind
			behind *= higher(passed[p], v)
			passed[p] += v
		}
	}
	return normalised(chances)
}

// higher is the chance of a value above one in the same bin, where passed is the
// probability of the bins before and here that of the bin.
func higher(passed, here float64) float64 { return max(0, 1-passed-here/2) }

// alike reports whether there are histograms and all have as many bins, none
// holding less than nothing.
func alike(hists [][]float64) bool {
	for _, h := range hists {
		if len(h) != len(hists[0]) {
			return false
		}
		for _, v := range h {
			if !(v >= 0) {
				return false
			}
		}
	}
	return len(hists) > 0
}

// normalised makes chances add up to 1, or is nil if they cannot.
func normalised(chances []float64) []float64 {
	var sum float64
	for _, c := range chances {
		sum += c
	}
	if !(sum > 0) || math.IsInf(sum, 1) {
		return nil
	}
	for p := range chances {
		chances[p] /= sum
	}
	return chances
}
